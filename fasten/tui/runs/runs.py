"""The page of runs: their list, and of the one in hand the question as a sentence, and what it gets as one types."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.events import Resize
from textual.timer import Timer
from textual.widgets import Input, OptionList, Static

from fasten.catalog.tables import Tables
from fasten.job.edit import changed_run, free_name, with_run
from fasten.job.store.job_toml import same_name
from fasten.job.store.runs_toml import RUN
from fasten.job.wiring.runs import RunChoice
from fasten.job.words import CableRun, Job, Shelf
from fasten.record import replace
from fasten.tui.drawn.answer import room_of
from fasten.tui.drawn.sentence import MORE, Word
from fasten.tui.runs.body_studs import BodyStuds
from fasten.tui.runs.messages import NotKept, Pressed, RowsWanted, Written
from fasten.tui.runs.offers import Offers
from fasten.tui.runs.run_lines import Does, Known, Place, RunLine, answer_lines, known_of, list_lines
from fasten.tui.runs.run_list import ListedLine, RunList
from fasten.tui.runs.run_question import (
    begun_name,
    example_of,
    label_of,
    named_by,
    offers,
    read_word,
    said_of,
    stands_in,
    with_word,
    words_of,
)  # fmt: skip
from fasten.tui.state.in_hand import NOTHING, InHand
from fasten.tui.state.open_job import STALE, Growing, Revision
from fasten.tui.state.outcome import Reading
from fasten.tui.widgets.content import content
from fasten.tui.widgets.entry_line import EntryLine
from fasten.tui.widgets.panels import OPTION_COLUMNS, turn_page
from fasten.tui.widgets.sentence import SentenceLine
from fasten.wiring.fields import CARRIES

if TYPE_CHECKING:
    Change = Callable[[Job, str, Growing], bool]

PAUSE_S = 0.02  # of typing, before the answer is drawn anew
_LEAST_COLUMNS = 20
_NEW_NAME = "new run"
_DRAWN_ROWS, _LOW = 4, 24


class RunsPlace(Vertical):
    """The list of runs beside the one in hand, or one after the other on a small screen.

    What is typed changes the job at once, through `change`; `Pressed` says which line was pressed.
    """

    def __init__(self, tables: Tables, change: Change, studs: BodyStuds, *, blink: bool) -> None:
        super().__init__(id="runs", classes="-listing")
        self._tables, self._change, self._studs = tables, change, studs
        self._list = RunList("runs-list", goes_on=True)
        self._sentence = SentenceLine()
        self._entry = EntryLine(blink=blink)
        self._offers = Offers()
        self._band = Static(id="run-band", markup=False)
        self._lines = RunList("run-lines")
        self._pause: Timer | None = None
        self._job = Job("", "", "", ())
        self.known = Known(self._job, (), (), ())
        self._misread: dict[str, str] = {}
        self._word, self._is_unfolded = CARRIES.name, False
        self._offered: tuple[str, ...] = ()
        self._arrived = ""  # what stood in the entry when its word was taken in hand
        self.seen: Revision = STALE
        self.name_in_hand: str | None = None  # None while a new run has nothing to its name
        self._in_hand = NOTHING

    def compose(self) -> ComposeResult:
        with Horizontal(id="runs-split"):
            yield self._list
            with Vertical(id="run-in-hand"):
                yield self._sentence
                yield self._entry
                yield self._offers
                yield self._band
                yield self._lines

    # -- what is shown -------------------------------------------------------------------------------------------------

    def load(self, job: Job, seen: Revision, hand: Revision, shelf: Shelf | None = None) -> None:
        """Show the runs of a job, with what reels of the shelf say of their cable; what is being typed stays."""
        self._job, self.seen = job, seen
        self.known = self._studs.under(known_of(job, shelf, self._tables))
        is_there = self.run is not None  # or it was taken away, or is of another job
        self._hold(self.name_in_hand if is_there else None, hand)
        if self.is_listing:
            self._write()  # keys may follow that are meant for a line of it
        else:
            self._ask_soon()

    def hold(self, name: str | None) -> None:
        """Take a run in hand, or a new one."""
        self._hold(name, self._in_hand.hand)

    def _hold(self, name: str | None, hand: Revision) -> None:
        """The same; where what the entry was filled from is another by now, it is filled anew."""
        self.name_in_hand = name
        now = InHand(hand, name or "", said_of(self.run))
        if now == self._in_hand:
            return
        if self.unkept:
            self.post_message(NotKept(self.unkept))
        self._in_hand = now
        self._misread.clear()
        self._take_word(self._word)

    def is_named(self, name: str) -> None:
        """The run in hand goes by another name; what is being typed of it stays."""
        self.name_in_hand, self._in_hand = name, replace(self._in_hand, name=name)

    @property
    def run(self) -> CableRun | None:
        """The run in hand."""
        name = same_name(self.name_in_hand or "")
        return next((run for run in self._job.runs if name and same_name(run.name) == name), None)

    @property
    def choice(self) -> RunChoice | None:
        """What it gets."""
        run = self.run
        return next((one for one in self.known.found if one.run is run), None)

    @property
    def names(self) -> list[str]:
        """Every run by its name, in order."""
        return [choice.name for choice in self.known.found]

    @property
    def is_listing(self) -> bool:
        """Whether the list is in hand."""
        return self.has_class("-listing")

    @property
    def is_waiting(self) -> bool:
        """Whether something was typed that is not drawn yet."""
        return self._pause is not None

    def list_runs(self) -> None:
        """Go to the list."""
        self._show_part(listing=True)
        self._write()
        self.screen.set_focus(self._list)

    def ask(self, name: str | None, word: str = "") -> None:
        """Take a run in hand, or a new one, at a word of it, else at the first that is still to say."""
        self._is_unfolded = False
        self.hold(name)
        self._show_part(listing=False)
        words = self._words()
        first = next((one.name for one in words if one.text == "?"), words[0].name)
        self._take_word(word or first)
        self._write()
        self.screen.set_focus(self._entry.field)
        self._lines.scroll_home(animate=False)

    def read(self) -> None:
        """Go to what the run gets, or back to its question."""
        is_reading = self.screen.focused is self._lines
        if is_reading or self.is_listing:
            self.ask(self.name_in_hand, self._word) if self.is_listing else self.screen.set_focus(self._entry.field)
        else:
            self.screen.set_focus(self._lines)

    def resume(self) -> None:
        self.screen.set_focus(self._list if self.is_listing else self._entry.field)

    def page(self, pages: int) -> None:
        turn_page(self._list if self.is_listing else self._lines, pages)

    def _show_part(self, *, listing: bool) -> None:
        self.set_class(listing, "-listing")
        self.set_class(not listing, "-asking")

    def on_resize(self, _event: Resize) -> None:
        self.call_after_refresh(self._write)

    @on(RunList.Widened)
    def _widened(self) -> None:
        self._ask_soon()

    def _ask_soon(self) -> None:
        if self._pause is None:
            self._pause = self.set_timer(PAUSE_S, self._write)

    def _write(self) -> None:
        """Everything as it stands now."""
        if self._pause is not None:
            self._pause.stop()
            self._pause = None
        self._list.fill(tuple(list_lines(self.known, self.name_in_hand, self._width(self._list))))
        self._show_question()
        self._show_answer()
        self.post_message(Written())

    def _width(self, lines: OptionList) -> int:
        return max(lines.scrollable_content_region.width - OPTION_COLUMNS, _LEAST_COLUMNS)

    def _show_question(self) -> None:
        words = self._words()
        at = next((at for at, one in enumerate(words) if one.name == self._word), 0)
        self._sentence.show(words, at, is_open=self._is_unfolded)
        text = self._entry.field.value.strip()
        reading = self._read(text) if text else None
        run = None if self.choice is None or self.choice.answer is None else self.choice.answer.sizing.run
        follows = stands_in(self._word, run)
        hint = f"preset: {follows}" if follows not in ("", "none") else example_of(self._word)
        self._entry.show(label_of(self._word), reading, "", hint)
        known, typed = offers(self._word, self._job, self._tables), text.casefold()
        is_as_it_was = text == said_of(self.run).get(self._word, "") and self._entry.field.value == self._arrived
        found = known if is_as_it_was else tuple(word for word in known if typed in word.casefold())
        is_whole = reading is not None and not reading.why and not is_as_it_was
        self._offered = () if is_whole else found or known
        self._offers.show(self._offered)

    def _show_answer(self) -> None:
        choice, width = self.choice, self._width(self._lines)
        wide, low = self._band.size.width or width, self.app.size.height < _LOW
        tones = room_of(width, self.app.size.height, self.app.theme).tones
        place = Place(width, wide, _DRAWN_ROWS // 2 if low else _DRAWN_ROWS, tones)
        misread = label_of(next(iter(self._misread))).lower() if self._misread else ""
        row, lines = answer_lines(choice, self.known, misread, place, self._tables)
        self._band.update(content([row]), layout=False)
        self._lines.fill(tuple(lines))

    # -- what is said --------------------------------------------------------------------------------------------------

    def _words(self, *, unfolded: bool | None = None) -> list[Word]:
        choice = self.choice
        run = None if choice is None or choice.answer is None else choice.answer.sizing.run
        name = self.name_in_hand or _NEW_NAME
        said = said_of(self.run)
        is_open = self._is_unfolded if unfolded is None else unfolded
        return words_of(name, said, self._misread, run, self._word, unfolded=is_open)

    @property
    def unkept(self) -> str:
        """The words whose text as it stands is not in the job, by the first of them; empty where all are."""
        more = f" and {len(self._misread) - 1} more" if len(self._misread) > 1 else ""
        return f"{label_of(next(iter(self._misread)))}{more}" if self._misread else ""

    def _read(self, text: str) -> Reading:
        return read_word(self._word, text, self._job, self._tables, self._arrived)

    def _take_word(self, name: str) -> None:
        self._word = name
        self._arrived = self._misread.get(name) or said_of(self.run).get(name, "")
        self._entry.arrive(self._arrived)

    def step(self, steps: int) -> None:
        """Go to the word after or before; at the last the selection stays."""
        names = [word.name for word in self._words()]
        at = names.index(self._word) + steps if self._word in names else 0
        self._go_to(names[min(max(at, 0), len(names) - 1)])

    def onward(self) -> None:
        """Go on to the next word; at the last take what was typed there, or unfold what it stands for.

        What is not understood stays in hand, with the reason in sight.
        """
        if self._word != MORE:
            text = self._entry.field.value.strip()
            if text and self._read(text).why:
                self._write()
            else:
                self.step(1)
        elif named := named_by(self._entry.field.value):
            self._is_unfolded = True
            self._go_to(named)
        elif not self._entry.field.value.strip():
            self.take_word(MORE)

    def _go_to(self, name: str) -> None:
        """Leave a word: one that is begun is what was meant."""
        text = self._entry.field.value.strip()
        if text and self._word != MORE and self._word not in self._misread:
            self._say(self._word, self._read(text).taken)
        self._take_word(name)
        self._show_question()

    @on(SentenceLine.Tapped)
    def _tapped(self, message: SentenceLine.Tapped) -> None:
        message.stop()
        if message.place is None:
            self.post_message(RowsWanted())
        else:
            self.take_word(self._words()[message.place].name)

    def take_word(self, name: str) -> None:
        """Take a word in hand; what the last word stands for is unfolded, or folded again."""
        if name == MORE:
            self._is_unfolded = not self._is_unfolded
            self._go_to(MORE)
            self._write()
        else:
            self._go_to(name)
        self.screen.set_focus(self._entry.field)

    def rows(self) -> list[Word]:
        """Every word, folded away or not."""
        return [word for word in self._words(unfolded=True) if word.name != MORE]

    @on(Offers.Tapped)
    def _offer_tapped(self, message: Offers.Tapped) -> None:
        message.stop()
        if message.at < len(self._offered):
            self._entry.field.value = self._offered[message.at]
        self.screen.set_focus(self._entry.field)

    @on(Input.Changed)
    def _typed(self, event: Input.Changed) -> None:
        event.stop()
        self.take_typed()

    def take_typed(self) -> None:
        """Take what is typed in the word in hand, where it is understood."""
        if self.is_listing:
            return
        text = self._entry.field.value.strip()
        reading = self._read(text) if text else Reading("")
        if self._word == MORE:
            pass  # what is typed there is the name of a word
        elif reading.why:
            self._misread[self._word] = text
        else:
            self._misread.pop(self._word, None)
            self._say(self._word, reading.taken)
        self._ask_soon()

    def _say(self, name: str, text: str) -> None:
        run = self.run
        if said_of(run).get(name, "") == text:
            return
        changed = with_word(run or CableRun("", ()), name, text)
        if run is not None:
            self._take_in(changed_run(self._job, run.name, changed), changed, f"{run.name} changed", name)
            return
        changed = replace(changed, name=free_name(self._job, begun_name(changed)))
        self._take_in(with_run(self._job, changed), changed, f"{changed.name} added", name)

    def _take_in(self, job: Job, run: CableRun, what: str, word: str) -> None:
        """Have the job changed by what the entry says of this run; where that cannot be done all is as it was."""
        was = self.name_in_hand, self._in_hand
        self.name_in_hand, self._in_hand = run.name, InHand(self._in_hand.hand, run.name, said_of(run))
        if not self._change(job, what, (RUN, run.name, word)):
            self.name_in_hand, self._in_hand = was

    # -- lines ---------------------------------------------------------------------------------------------------------

    @property
    def line_in_hand(self) -> RunLine | None:
        """The line that is marked in the list that has the keys."""
        focused = self.screen.focused
        return focused.in_hand if isinstance(focused, RunList) else None

    @property
    def marked(self) -> str:
        """The run that is marked in the list; empty where none is."""
        line = self.line_in_hand if self.is_listing else None
        return line.of if line is not None and line.does is Does.RUN else ""

    @on(OptionList.OptionHighlighted, "#runs-list")
    def _marked(self, event: OptionList.OptionHighlighted) -> None:
        """A run that is marked in the list stands beside it in full."""
        line = event.option.line if isinstance(event.option, ListedLine) else None
        is_beside = self.is_listing and self.screen.has_class("-wide")
        if is_beside and line is not None and line.does is Does.RUN and line.of != self.name_in_hand:
            self.hold(line.of)
            self._take_word(self._words()[0].name)
            self._write()

    def on_descendant_focus(self) -> None:
        """Where something can be typed its run is in hand, and not the list, however it was come to."""
        if self.screen.focused is self._entry.field:
            self._show_part(listing=False)

    @on(OptionList.OptionSelected)
    def _selected(self, event: OptionList.OptionSelected) -> None:
        event.stop()
        if isinstance(event.option, ListedLine):
            self.post_message(Pressed(event.option.line, self.seen))
