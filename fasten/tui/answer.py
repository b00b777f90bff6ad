"""The answer as it stands, in the words of the command line, always under the entry that it belongs to."""

from collections.abc import Iterator, Mapping
from itertools import chain

from textual.app import ComposeResult
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.events import Resize
from textual.widgets import Static

from fasten.question.fields import NEEDED
from fasten.tui.content import content
from fasten.tui.drawn.runs import Line
from fasten.tui.lines import Lines
from fasten.tui.outcome import Good, Outcome, label

_LEAST_COLUMNS, _MOST_COLUMNS = 32, 96
_START = """Say what is mounted, onto what, and how often it comes off. The answer appears here as you type.

Enter goes on to the next field, Tab and the arrow keys move about, and every button can be tapped."""


class AnswerPanel(Vertical):
    """The last good answer: its label above it, out of reach of scrolling."""

    def __init__(self, problems: tuple[str, ...] = ()) -> None:
        super().__init__(id="answer")
        self._good: Good | None = None
        self._start = "\n\n".join((_START, *problems))
        self._label = Static(id="belongs", markup=False)
        self._band = Static(id="band", markup=False)
        self._band.display = False
        self._words = Lines(self._start, "words")
        self._changed = ""  # what of its entry has changed since; empty while the answer is current
        # What stands there, how current, how wide, how high, in which look.
        self._written: tuple[Good | None, str, int, int, str] = (None, "", 0, 0, "")
        self._scroll = VerticalScroll(self._words, id="reading")

    def compose(self) -> ComposeResult:
        yield self._label
        yield self._band
        yield self._scroll

    def on_mount(self) -> None:
        self.show(Outcome())
        self.app.theme_changed_signal.subscribe(self, lambda _look: self._write())  # its cells depend on the look

    def on_resize(self, _event: Resize) -> None:
        self.call_after_refresh(self._write)

    def show(self, outcome: Outcome) -> None:
        """Show a new answer, or keep the last one and say that it is not the answer to what is typed now."""
        if outcome.good is not None and outcome.good != self._good:
            self._good = outcome.good
            self._go_home()
        self._changed = "" if self._good is None or outcome.good is not None else _changed(self._good, outcome)
        self.set_class(bool(self._changed), "-not-current")
        self._label.update(Content(_label(self._good, outcome)))
        self._write()

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
        width = min(max(self._scroll.scrollable_content_region.width, _LEAST_COLUMNS), _MOST_COLUMNS)
        was, *laid_out = self._written
        height, look = self.app.size.height, self.app.theme
        if was is self._good and (was is None or laid_out == [self._changed, width, height, look]):
            return
        self._written = self._good, self._changed, width, height, look
        self._band.display = self._good is not None
        if self._good is None:
            self._words.write(self._start)
            return
        row, lines = _drawn(self._good, self._changed, width, height, look)
        self._band.update(content([row]), layout=False)  # it is one row high, whatever it says
        self._words.draw(lines, None if self._scroll.scroll_offset.y else max(self._scroll.size.height, 1))


def _drawn(good: Good, changed: str, width: int, height: int, look: str) -> tuple[Line, Iterator[Line]]:
    """The row of the verdict, which is always in view, and all that is beneath it."""
    from fasten.tui.drawn.answer import answer_lines, room_of
    from fasten.tui.drawn.band import band
    from fasten.tui.drawn.verdict import verdict_of

    verdict = verdict_of(good.advice)
    if changed:
        row, more = band(False, f"FOR {changed}", (), width)
    else:
        row, more = band(verdict.stands, verdict.words, verdict.reasons, width, verdict.role)
    return row, chain(more, answer_lines(good.advice, room_of(width, height, look), current=not changed))


def _label(good: Good | None, outcome: Outcome) -> str:
    """Which entry the answer belongs to; where it is not the one typed now, that, and what to do about it."""
    if good is None:
        return _capital(_what_is_left(outcome)) or "Answer"
    if outcome.good is not None:
        return _held(f"For {_named(good.entry)}", outcome)
    return f"NOT CURRENT: {_what_is_left(outcome)}"


def _changed(good: Good, outcome: Outcome) -> str:
    """What the entry that the answer is for said of each field that has changed since."""
    names = [name for name in {**good.entry, **outcome.readings} if good.entry.get(name) != outcome.entry.get(name)]
    said = [good.entry[name] if name in NEEDED else f"{label(name)} {good.entry[name]}" for name in names
            if name in good.entry]  # fmt: skip
    since = " and ".join(label(name) for name in names if name not in good.entry)
    return ", ".join((*said, *([f"before {since} was said"] if since else [])))


def _held(label: str, outcome: Outcome) -> str:
    """The label with what is held: that the first answer is, or why what is held is not among them."""
    if outcome.is_held:
        return f"Held, {label[:1].lower()}{label[1:]}"
    return f"{label}; {outcome.held}" if outcome.held else label


def _named(entry: Mapping[str, str]) -> str:
    """The three first fields of an entry."""
    item, onto, removed = (entry[name] for name in NEEDED)
    return f"{item} on {onto}, {removed}"


def _what_is_left(outcome: Outcome) -> str:
    """What to say or put right before there is an answer to what is typed."""
    if outcome.trouble:
        return outcome.trouble
    parts = (("put right", outcome.misread), ("still to say", outcome.unsaid))
    return "; ".join(f"{words}: {', '.join(map(label, names))}" for words, names in parts if names)


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
