"""What can be done once it is fitted: say what was used, keep it with its verdict, and go on with the work."""

from __future__ import annotations

from datetime import date
from typing import TYPE_CHECKING

from textual.events import Key
from textual.screen import ModalScreen

from fasten.errors import FastenError
from fasten.report.safe import safe
from fasten.tui.work.work_actions import WorkActions

if TYPE_CHECKING:
    from fasten.job.after.judged import Said
    from fasten.job.choices import Choice
    from fasten.tui.built.built import BuiltPlace
    from fasten.tui.state.open_job import Revision

BUILT = "built"


class BuiltActions(WorkActions):
    """Actions on what was used at the mount point in hand."""

    @property
    def built_page(self) -> BuiltPlace:
        """The page of what was used."""
        from fasten.tui.built.built import BuiltPlace

        return self.query_one(BuiltPlace)

    @property
    def _is_at_built(self) -> bool:
        return self.place == BUILT and not isinstance(self.screen, ModalScreen)

    @property
    def is_built_waiting(self) -> bool:
        """Whether something was typed of it that is not proved yet."""
        return self.place == BUILT and self.built_page.is_waiting

    @property
    def _acts_by_letter(self) -> bool:
        return not self.built_page.is_asking if self.place == BUILT else super()._acts_by_letter

    async def action_as_built(self) -> None:
        """Go to what was used at the mount point in hand."""
        self.take_typed()
        if self.open_job.at is None:
            self.say("Nothing is asked yet, so nothing can have been built")
        else:
            await self.action_go(BUILT)

    def show_built(self) -> None:
        """Show what was used at the mount point in hand, as the job is now."""
        from fasten.report.job.built import as_advised

        mount, choice = self.open_job.mount, self.choice_here()
        if mount is None or choice is None:
            self.call_later(self.action_go, "mounts")
            return
        self.built_page.show(choice, mount, as_advised(choice.answer), self.open_job.revision)

    def take_typed(self) -> None:
        """Take what was typed last without waiting for its verdict."""
        super().take_typed()
        if self.place == BUILT:
            self.built_page.take_typed()

    def action_keep_built(self) -> None:
        """Write down what is said."""
        self.built_page.keep()

    async def on_built_place_kept(self, message: BuiltPlace.Kept) -> None:
        """Write down what was used; where it is far off its plan, ask once whether it is so."""
        if self._written_down(message.said, message.seen):
            await self.action_go("work")

    def _written_down(self, said: Said, seen: Revision) -> bool:
        from fasten.job.after.judged import judged, with_built
        from fasten.job.edit import find_mount

        choice, today, job = self.choice_here(), date.today().isoformat(), self.open_job.job
        if choice is None or not self.is_as_seen(seen):
            return False
        try:
            now = with_built(job, choice, said, today, self.tables)
        except FastenError as error:
            self._doubt_built(error, said, today)
            return False
        done = find_mount(now, choice.name)
        if not self.attempt(lambda: self.open_job.built(now, done, seen)):
            return False
        found = judged(choice.of(done), self.tables)
        said_of = "written down" if found is None else str(found.verdict)
        self.say(f"As built: {said_of}{self._kept_of(choice.of(done))}")
        return True

    def _kept_of(self, done: Choice) -> str:
        """Keep what was read on test pieces for every joint of the same hardware, and say where."""
        from fasten.commands._own_tests import keep_tests
        from fasten.job.after.judged import readings_of

        tests = readings_of(done, self.tables, is_sure=True).tests
        try:
            return f"; readings kept in {safe(str(keep_tests(tests)))}" if tests else ""
        except FastenError as error:
            return f"; readings not kept: {safe(error.what)}"

    def _doubt_built(self, error: FastenError, said: Said, today: str) -> None:
        """Ask whether it is so where that is all that is wrong with it; else say what is."""
        from fasten.job.after.judged import with_built
        from fasten.record import replace

        choice = self.choice_here()
        assert choice is not None
        where = f"{error.where}: " if error.where else ""
        try:
            with_built(self.open_job.job, choice, replace(said, is_sure=True), today, self.tables)
        except FastenError:
            self.say(str(error), warn=True)
        else:
            self.built_page.doubt(safe(f"{where}{error.what}"))
            self.tell_state()

    # -- keys ----------------------------------------------------------------------------------------------------------

    async def _takes(self, key: Key) -> bool:
        """Enter goes on to the next word, so that what is typed next is said of that; at last it keeps all."""
        if key.key == "enter" and self._is_at_built:
            await self.keys_taken()
            self.built_page.take_typed()
            self.built_page.press()
            self.tell_state()
            return True
        return await super()._takes(key)

    async def action_step(self, steps: int) -> None:
        """Take the word after or before in hand."""
        if self._is_at_built:
            await self.keys_taken()
            self.built_page.take_typed()
            self.built_page.step(steps)
            self.tell_state()
        else:
            await super().action_step(steps)

    def check_action(self, action: str, parameters: tuple[object, ...]) -> bool | None:
        """An arrow key goes to the words from what can be kept at once."""
        return True if action == "arrow" and self._is_at_built else super().check_action(action, parameters)

    def on_descendant_focus(self) -> None:
        if self.place == BUILT:
            self.tell_state()  # letters act by themselves, or not

    async def on_built_place_rows_wanted(self) -> None:
        """The words as rows that a thumb can hit."""
        from fasten.tui.built.built_words import label_of
        from fasten.tui.widgets.word_rows import WordRows

        if not isinstance(self.screen, ModalScreen):
            await self.push_screen(WordRows(self.built_page.rows(), label_of), self._took_built_word)

    def _took_built_word(self, name: str | None) -> None:
        if name is not None:
            self.built_page.take(name)
            self.tell_state()
