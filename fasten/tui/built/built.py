"""The page of what was used at a mount point: one sentence, one entry, the verdict on it, and the visits before it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from typing import TYPE_CHECKING

from textual import on
from textual.app import ComposeResult
from textual.containers import Vertical, VerticalScroll
from textual.events import Click, Resize
from textual.message import Message
from textual.timer import Timer
from textual.widgets import Input, Static

from fasten.errors import FastenError
from fasten.job.after.built import PHOTOS, WHEN
from fasten.job.after.judged import Said, judged, judged_as_said, wear
from fasten.job.choices import Choice
from fasten.job.words import Mount
from fasten.report.job.built import record_text, wear_lines
from fasten.report.safe import safe
from fasten.report.wrap import wrapped
from fasten.tui.built.built_words import hint_of, label_of, read, words_of
from fasten.tui.drawn.answer import room_of
from fasten.tui.drawn.built import built_band
from fasten.tui.drawn.foot import Word as Pressed
from fasten.tui.drawn.large import block
from fasten.tui.drawn.other import joint_lines
from fasten.tui.drawn.runs import Line, heading
from fasten.tui.drawn.sentence import MORE, Word
from fasten.tui.state.open_job import STALE, Revision
from fasten.tui.widgets.content import content
from fasten.tui.widgets.entry_line import EntryLine
from fasten.tui.widgets.sentence import SentenceLine

if TYPE_CHECKING:
    from fasten.after.judge import Judged
    from fasten.catalog.tables import Tables

BUILT = "built"
PAUSE_S = 0.02  # of typing, before the verdict is found anew
_KEY = "k"
_LEAST_COLUMNS, _TAP_ROWS = 20, 3
_READY = "Where something was otherwise, tap its word, or go to it by Tab, and say what it was."
_PLANNED = "This is what was planned. Measure. Keep it where all is so; else go on by Enter and say what was otherwise."
_MORE_LABEL, _MORE_HINT = "More", "Enter shows what else can be said"


class BuiltPlace(Vertical):
    """What is said of a visit; it goes up to be kept, and which mount point it is of comes down."""

    class Kept(Message):
        """What is said is to be written down, of the job as it was shown."""

        def __init__(self, said: Said, seen: Revision) -> None:
            super().__init__()
            self.said, self.seen = said, seen

    class RowsWanted(Message):
        """On a phone the sentence was tapped: its words are wanted as rows."""

    def __init__(self, tables: Tables, today: str, *, blink: bool) -> None:
        super().__init__(id=BUILT)
        self._tables, self._today = tables, today
        self._sentence = SentenceLine()
        self._entry = EntryLine(blink=blink)
        self._band = Static(id="built-band", markup=False)
        self._words = Static(id="built-words", markup=False)
        self._scroll = VerticalScroll(self._words, id="built-list")
        self._do = Static(id="built-do", classes="pressed", markup=False)
        self._pause: Timer | None = None
        self._choice: Choice | None = None
        self._mount: Mount | None = None
        self._said: dict[str, str] = {}
        self._planned: set[str] = set()  # of what is said, what the plan says and nobody measured or confirmed
        self._word: str | None = None  # None where what stands there can be kept at once
        self._is_open = False
        self._slip = ""  # why it may be a slip, once it was to be kept
        self._verdict: Judged | None = None
        self._trouble = ""
        self.seen: Revision = STALE

    def compose(self) -> ComposeResult:
        yield self._sentence
        yield self._entry
        yield self._band
        yield self._scroll
        yield self._do

    # -- what comes down -----------------------------------------------------------------------------------------------

    @property
    def is_asking(self) -> bool:
        """Whether a word is in hand: its field has the keys."""
        return self._word is not None

    @property
    def is_waiting(self) -> bool:
        """Whether something was typed that is not proved yet."""
        return self._pause is not None

    def show(self, choice: Choice, mount: Mount, advised: Mapping[str, str], seen: Revision) -> None:
        """Show a mount point, with what was advised as long as nothing was written down there."""
        is_new = self._mount is None or (mount.name, mount.visits) != (self._mount.name, self._mount.visits)
        self._choice, self._mount, self.seen = choice, mount, seen
        if is_new:
            self._said = {} if mount.visits else {name: text for name, text in advised.items() if text}
            self._planned = set(self._said)
            self._word, self._is_open, self._slip = None, False, ""
        self._prove()

    def resume(self) -> None:
        self.screen.set_focus(self._entry.field if self.is_asking else self._scroll)

    def page(self, pages: int) -> None:
        (self._scroll.scroll_page_down if pages > 0 else self._scroll.scroll_page_up)(animate=False)

    def on_resize(self, _event: Resize) -> None:
        self.call_after_refresh(self._write)

    # -- what is said --------------------------------------------------------------------------------------------------

    def rows(self) -> list[Word]:
        """Every word, folded away or not."""
        return [word for word in self._sentence_words(unfolded=True) if word.name != MORE]

    def take(self, name: str | None) -> None:
        """Take a word in hand; what the last word stands for is unfolded, or folded again."""
        if name == MORE:
            self._is_open = not self._is_open
            name = self._word if self._word not in (None, MORE) else self._names()[0]
        self._word = name
        self._entry.arrive(self._said.get(name or "", ""))
        self._write()
        self.resume()

    def step(self, steps: int) -> None:
        """Take the word after or before in hand; from what can be kept at once, the first or the last."""
        names = self._names()
        at = (-1 if steps > 0 else len(names)) if self._word is None else names.index(self._word)
        self._word = names[min(max(at + steps, 0), len(names) - 1)]
        self._entry.arrive(self._said.get(self._word, ""))
        self._write()
        self.resume()

    def press(self) -> None:
        """Enter: on to the next word, after the last of them to what can be kept; there, keep it.

        What the plan says of the word in hand is confirmed by it.
        """
        names = [name for name in self._names() if name != MORE]
        if self._word in self._planned:
            self._planned.discard(self._word)
            self._prove()
        if self._word == MORE:
            self.take(MORE)
        elif self._word is None:
            self.keep() if self._confirmed else self._take_first()
        elif self._word == names[-1]:
            self.take(None)
        else:
            self.step(1)

    def keep(self) -> None:
        """Have what is said written down, or all that was planned where it is kept as it is; else ask what was used."""
        if not self._confirmed:
            self._planned.clear()
        if not self._confirmed:
            self._take_first()
        elif not self._misread:
            self.post_message(self.Kept(self._as_said(is_sure=bool(self._slip)), self.seen))

    def _take_first(self) -> None:
        """Ask for the first word after the day."""
        names = self._names()
        self.take(names[1] if len(names) > 1 else names[0])

    def doubt(self, why: str) -> None:
        """What was to be kept is far off its plan: ask whether it is so."""
        self._slip = why
        self.take(None)

    @property
    def _confirmed(self) -> dict[str, str]:
        """What is said that was measured or confirmed; what is only planned was not built by that."""
        return {name: text for name, text in self._said.items() if name not in self._planned}

    def _as_said(self, *, is_sure: bool) -> Said:
        fields = {name: text for name, text in self._confirmed.items() if name != PHOTOS}
        photos = tuple(part.strip() for part in self._said.get(PHOTOS, "").split(",") if part.strip())
        return Said(fields, photos, is_sure)

    @property
    def _misread(self) -> str:
        """Why a field is not understood; empty where all are."""
        why = ((label_of(name), read(name, text).why) for name, text in self._said.items())
        return next((f"{label.lower()}: {text}" for label, text in why if text), "")

    @on(Input.Changed)
    def _typed(self, event: Input.Changed) -> None:
        event.stop()
        self.take_typed()

    def take_typed(self) -> None:
        """Take what stands in the entry as said of its word."""
        if self._word in (None, MORE):
            return
        text, name = self._entry.field.value.strip(), str(self._word)
        if text == self._said.get(name, ""):
            return
        self._slip = ""
        self._planned.discard(name)
        self._said = {key: was for key, was in {**self._said, name: text}.items() if was}
        if self._pause is not None:
            self._pause.stop()
        self._pause = self.set_timer(PAUSE_S, self._prove)
        self._show_sentence()

    @on(SentenceLine.Tapped)
    def _tapped(self, message: SentenceLine.Tapped) -> None:
        message.stop()
        if message.place is None:
            self.post_message(self.RowsWanted())
        else:
            self.take(self._sentence_words(unfolded=self._is_open)[message.place].name)

    def on_click(self, event: Click) -> None:
        if self._do.region.contains(event.screen_x, event.screen_y):
            if self._word is not None and self._confirmed:
                self._planned.discard(self._word)
                self.take(None)
                self.keep()
            elif self._word is None:
                self.keep()
            else:
                self.press()

    # -- what is shown -------------------------------------------------------------------------------------------------

    def _prove(self) -> None:
        """Find the verdict on what is said, or on what is there where nothing is."""
        if self._pause is not None:
            self._pause.stop()
            self._pause = None
        choice = self._choice
        self._trouble, self._verdict = self._misread, None
        if choice is not None and not self._trouble:
            try:
                said = self._as_said(is_sure=True)
                self._verdict = (
                    judged_as_said(choice, said, self._today, self._tables) if said.fields or said.photos
                    else judged(choice, self._tables)
                )  # fmt: skip
            except FastenError as error:
                self._trouble = safe(f"{error.where}: {error.what}" if error.where else error.what)
        self._write()

    def _sentence_words(self, *, unfolded: bool) -> list[Word]:
        if self._choice is None:
            return []
        said = {WHEN: self._today, **self._said}
        return words_of(self._choice, said, self._word, self._tables, self._planned, unfolded=unfolded)

    def _names(self) -> list[str]:
        return [word.name for word in self._sentence_words(unfolded=self._is_open)]

    def _show_sentence(self) -> None:
        words = self._sentence_words(unfolded=self._is_open)
        names = [word.name for word in words]
        self._sentence.show(
            words, names.index(self._word) if self._word in names else len(names), is_open=self._is_open
        )
        self._entry.display = self.is_asking
        if self._word == MORE:
            self._entry.show(_MORE_LABEL, None, "", _MORE_HINT)
        elif self._word is not None:
            text = self._entry.field.value.strip()
            self._entry.show(label_of(self._word), read(self._word, text) if text else None, "", hint_of(self._word))

    def _write(self) -> None:
        if not self.size.width or self._choice is None or self._mount is None:
            return
        self._scroll.can_focus = not self.is_asking  # a tap must not take the keys from the entry
        self._show_sentence()
        width = self.size.width
        is_planned = bool(self._planned) and not self._confirmed
        self._band.update(content(built_band(self._verdict, self._slip or self._trouble, width, is_planned=is_planned)))
        self._words.update(content(list(self._listed(max(width - 2, _LEAST_COLUMNS)))))
        rows = 1 if self.screen.has_class("-wide") or self.screen.has_class("-short") else _TAP_ROWS
        self._do.update(content(self._pressed(width, rows)))

    def _listed(self, width: int) -> list[Line]:
        assert self._choice is not None
        assert self._mount is not None
        how = _READY if self._confirmed else _PLANNED
        is_ready = self._word is None and bool(self._said)
        lines: list[Line] = [((line, "quiet"),) for line in wrapped(how, width)] if is_ready else []
        for text in wear_lines(wear(self._choice, self._tables)):
            lines += [((line, "ink"),) for line in wrapped(safe(text.strip()), width)]
        if self._mount.visits:
            said = record_text(self._mount, width).splitlines()
            lines += [*([()] if lines else []), heading("WRITTEN DOWN BEFORE", width)]
            lines += [((line, "ink"),) for line in said]
        return [*lines, *self._joint(width)]

    def _joint(self, width: int) -> Iterator[Line]:
        """The joint as it was built, where there is room for it."""
        point = None if self._choice is None else self._choice.point
        if self._verdict is None or point is None or self.screen.has_class("-short"):
            return
        sheet = room_of(width, self.app.size.height, self.app.theme).sheet
        yield from ((), heading("AS IT WAS BUILT", width))
        yield from joint_lines(self._verdict, point.behind_mm, sheet)

    def _pressed(self, width: int, rows: int) -> tuple[Line, ...]:
        """What Enter or a tap does."""
        if self._slip:
            word = Pressed("keep it all the same: it is so", _KEY, "")
        elif self._confirmed and not self._misread:
            word = Pressed("keep this as built", _KEY, "")
        elif self._confirmed:
            return block(Pressed("put it right first", "", ""), width, rows, filled=False)
        else:
            word = Pressed("keep all as planned: measured" if self._planned else "keep what was used: say it", _KEY, "")
        return block(word, width, rows, filled=True)
