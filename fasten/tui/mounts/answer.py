"""The answer as it stands, in the words of the command line, always under the entry that it belongs to."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import chain
from typing import TYPE_CHECKING

from textual.app import ComposeResult
from textual.containers import Vertical, VerticalScroll
from textual.events import Click, Resize
from textual.geometry import Size
from textual.message import Message

from fasten.question.fields import NEEDED
from fasten.tui.drawn.band import band
from fasten.tui.drawn.runs import Line, plain
from fasten.tui.state.outcome import Good, Outcome, label
from fasten.tui.widgets.content import tapped
from fasten.tui.widgets.lines import Lines

if TYPE_CHECKING:
    from fasten.tui.drawn.answer import Kept

HOLE = "hole"  # what a fixing of a plan is tapped for
_LEAST_COLUMNS, _MOST_COLUMNS = 32, 96
_NOT_CURRENT = "NOT CURRENT"
_START = """Say what is mounted, onto what, and how often it comes off. The answer appears here as you type.

Enter goes on to the next field, Tab and the arrow keys move about, and every button can be tapped."""


class AnswerPanel(Vertical):
    """The last good answer under its verdict, which is out of reach of scrolling."""

    class Hole(Message):
        """A fixing of the plan was tapped: its number."""

        def __init__(self, number: int) -> None:
            super().__init__()
            self.number = number

    def __init__(self, problems: tuple[str, ...] = ()) -> None:
        super().__init__(id="answer")
        self._good: Good | None = None
        self._start = "\n\n".join((_START, *problems))
        self._band = Lines("", "band")
        self._words = Lines(self._start, "words")
        self._changed = ""  # what of its entry has changed since; empty while the answer is current
        self._outcome = Outcome({})
        self._kept: Kept | None = None  # of the mount point that it is of
        # What stands there, how current, what is left to say, how wide, how high, in which look, with what is kept.
        self._written: tuple[object, ...] = ()
        self._has_first = False  # whether verdict and figures stand already
        self._scroll = VerticalScroll(self._words, id="reading")

    def compose(self) -> ComposeResult:
        yield self._band
        yield self._scroll

    def on_mount(self) -> None:
        self.show(Outcome({}))
        self.app.theme_changed_signal.subscribe(self, lambda _look: self._write())  # its cells depend on the look

    def on_resize(self, _event: Resize) -> None:
        self.call_after_refresh(self._write)

    def on_click(self, event: Click) -> None:
        what, number = tapped(self, event)
        if what == HOLE:
            self.post_message(self.Hole(number))

    def show(self, outcome: Outcome, kept: Kept | None = None) -> None:
        """Show a new answer, or keep the last one and say that it is not the answer to what is typed now."""
        if outcome.good is not None and outcome.good != self._good:
            self._good = outcome.good
            self._go_home()
        self._changed = "" if self._good is None or outcome.good is not None else _changed(self._good, outcome)
        self._outcome, self._kept = outcome, kept
        self._write()

    def show_first(self, outcome: Outcome) -> bool:
        """Show verdict and figures of the first answer; all else is shown with it by `show`. Whether they stand.

        Where something is held, or the text is scrolled, they do not stand by themselves.
        """
        columns = self._scroll.scrollable_content_region.width
        if outcome.good is None or outcome.held or self._scroll.scroll_offset.y or not columns:
            return False
        width = min(max(columns, _LEAST_COLUMNS), _MOST_COLUMNS)
        size = Size(width, self.app.size.height)
        row, first, _ = _drawn(outcome.good, "", _left(outcome), (), size, self.app.theme, None, outcome.asked)
        self._band.draw([row])
        self._words.begin(first)
        self._written, self._has_first = (), True
        return True

    def forget(self) -> None:
        """Drop the last answer: another mount point is in hand, and it is none to that one."""
        self._good = None
        self._go_home()

    def _go_home(self) -> None:
        """To its first line, now and once the new answer is laid out: what stood there was longer."""
        self._scroll.scroll_home(animate=False)
        self.call_after_refresh(self._scroll.scroll_home, animate=False)

    def read(self) -> None:
        """Take the keys, so that the answer can be scrolled."""
        self._scroll.focus()

    def page(self, pages: int) -> None:
        """Scroll by so many pages, whatever has the focus."""
        (self._scroll.scroll_page_down if pages > 0 else self._scroll.scroll_page_up)(animate=False)

    def _write(self) -> None:
        """Write the answer anew where it is another, is not current any more, or has another width."""
        columns = self._scroll.scrollable_content_region.width
        if not columns:
            return  # it is not laid out yet, and written once it is
        width = min(max(columns, _LEAST_COLUMNS), _MOST_COLUMNS)
        height, look = self.app.size.height, self.app.theme
        left, held = _left(self._outcome), _held(self._outcome)
        asked = (self._good, self._changed, left, held, width, height, look, self._kept, self._outcome.asked)
        if self._written == asked:
            return
        self._written = asked
        if self._good is None:
            row, more = band(False, "NO ANSWER YET", left, width)
            self._band.draw([row])
            self._words.write("\n".join((*map(plain, more), *([""] if more else []), self._start)))
            return
        row, first, rest = _drawn(
            self._good, self._changed, left, held, Size(width, height), look, self._kept, self._outcome.asked
        )
        self._band.draw([row])
        if self._scroll.scroll_offset.y or self._has_first:
            self._words.draw(chain(first, rest))
            self._has_first = False
        else:
            self._words.draw(first, rest)


def _drawn(
    good: Good,
    changed: str,
    left: Sequence[str],
    held: Line,
    size: Size,
    look: str,
    kept: Kept | None,
    asked: Sequence[str],
) -> tuple[Line, list[Line], Iterator[Line]]:
    """The row of the verdict, which is always in view, the answer to its last figure, and all that is beneath it."""
    from fasten.tui.drawn.answer import answer_lines, first_lines, room_of
    from fasten.tui.drawn.verdict import verdict_of

    if changed:
        row, more = band(False, changed, left, size.width)
    else:
        verdict = verdict_of(good.advice, asked)
        row, more = band(verdict.stands, verdict.words, verdict.reasons, size.width, verdict.role)
    room, current = room_of(size.width, size.height, look), not changed
    first = [*more, *([held] if held else []), *first_lines(good.advice, room, current=current)]
    return row, first, answer_lines(good.advice, room, current=current, kept=kept)


def _changed(good: Good, outcome: Outcome) -> str:
    """What the entry that the answer is for said of each field that has changed since, and which it was without.

    What is not understood stands beside it, as what is to be put right.
    """
    named, now = {**good.entry, **outcome.readings}, outcome.entry
    names = [name for name in named if name in outcome.misread or good.entry.get(name) != now.get(name)]
    said = [good.entry[name] if name in NEEDED else f"{label(name)} {good.entry[name]}" for name in names
            if name in good.entry]  # fmt: skip
    since = " and ".join(label(name) for name in names if name not in (*good.entry, *outcome.misread))
    without = f"without {since}" if said else f"WITHOUT {since}"
    return ", ".join((*([f"FOR {', '.join(said)}"] if said else []), *([without] if since else []))) or _NOT_CURRENT


def _held(outcome: Outcome) -> Line:
    """What is held, or why that is not among the answers; nothing where nothing is held."""
    if not outcome.held:
        return ()
    from fasten.text.names import capital

    return ((capital(outcome.held), "bold ink" if outcome.is_held else "bold open"),)


def _left(outcome: Outcome) -> tuple[str, ...]:
    """What to say or put right before there is an answer to what is typed."""
    if outcome.trouble or not outcome.readings:
        return (outcome.trouble,) if outcome.trouble else ()
    if any(reading.offer for reading in outcome.readings.values()):
        return ()  # it is no answer, and nothing is wrong with it
    parts = (("put right", outcome.misread), ("still to say", outcome.unsaid))
    return tuple(f"{words}: {', '.join(map(label, names))}" for words, names in parts if names)
