"""The question as it is asked: words of the sentence taken in hand by keys, by a tap, or from their rows."""

from textual import on
from textual.screen import ModalScreen
from textual.widgets import Input

from fasten.question.fields import NEEDED, ONTO, field_named
from fasten.tui.drawn.sentence import MORE
from fasten.tui.frame import Frame
from fasten.tui.widgets.button import Button
from fasten.tui.widgets.sentence import SentenceLine


class Asking(Frame):
    """Which word of the question is in hand."""

    @on(SentenceLine.Tapped)
    async def _tapped_sentence(self, message: SentenceLine.Tapped) -> None:
        await self.keys_taken()
        if message.place is None:
            await self._words_as_rows()
        elif not isinstance(self.screen, ModalScreen):
            self.take_word(self.mounts.form.words()[message.place].name)

    async def _words_as_rows(self) -> None:
        from fasten.tui.widgets.word_rows import WordRows

        self.take_typed()
        words = self.mounts.form.rows()
        await self.push_screen(WordRows(words, lambda name: field_named(name).label), self._took_row)

    def _took_row(self, name: str | None) -> None:
        if name is not None:
            self.take_word(name)

    def take_word(self, name: str) -> None:
        """Take a word of the question in hand; what the last word stands for is unfolded, or folded again."""
        self.rest()
        form = self.mounts.form
        if name == MORE and form.is_at_more:
            form.press()
        else:
            form.take(name)
            if name == MORE:
                form.press()
        self.resume()

    async def action_step(self, steps: int) -> None:
        """Take the next word of the question in hand, or the one before; in a panel what comes next there."""
        if self._is_asking:
            await self.keys_taken()
            self.rest()
            self.mounts.form.step(steps)
        else:
            (self.screen.focus_next if steps > 0 else self.screen.focus_previous)()

    @property
    def _is_asking(self) -> bool:
        """Whether a word of the question is in hand."""
        return self.focused is self.mounts.form.line.field

    async def action_arrow(self, steps: int) -> None:
        """The same by an arrow key, where it does not scroll."""
        await self.action_step(steps)

    async def action_onward(self) -> None:
        """Go on to the next word, or unfold what the last one stands for; elsewhere, what the field or button does."""
        if self._is_asking:  # elsewhere there is no next field, and letters would be no text any more
            await self.keys_taken()
            await self._go_on()
        elif isinstance(self.focused, Button):
            self.focused.press()
        elif isinstance(self.focused, Input):
            await self.keys_taken()
            await self.focused.action_submit()

    async def _go_on(self) -> None:
        """Go on to what is asked next, or unfold what the last word stands for.

        What is not understood stays in hand, with the reason in sight.
        """
        form = self.mounts.form
        self.mounts.work_out_now()
        reading = self.mounts.outcome.readings.get(form.current)
        if form.is_at_more:
            form.press()
        elif reading is None or not reading.why:
            self.rest()
            form.go_on(self.asked_next())

    def asked_next(self) -> tuple[str, ...]:
        """The words that are asked of the mount point in hand, in order; none until there is an answer.

        Those that give an answer come first, also where the item has something that stands for one of them; and what it
        is fastened to as long as that is only proposed.
        """
        from fasten.job.start.ask import asked_of

        mount, answer = self.open_job.mount, self.mounts.form.answer
        if mount is None:
            return ()
        said = dict(mount.said)
        needed = (name for name in NEEDED if name not in said or (name == ONTO.name and name in mount.preset))
        proposal = None if answer is None else answer.proposal
        return (*needed, *asked_of(mount, proposal, self.open_job.job, self.tables))
