"""The answer as it stands, in the words of the command line, always under the entry that it belongs to."""

from collections.abc import Mapping

from textual.app import ComposeResult
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.events import Resize
from textual.widgets import Static

from fasten.question.fields import NEEDED
from fasten.tui.outcome import Good, Outcome, label

_LEAST_COLUMNS, _MOST_COLUMNS = 32, 76
_TALL = 18  # lines for the head of an answer, where no keyboard takes half of the screen
_START = """Say what is mounted, onto what, and how often it comes off. The answer appears here as you type.

Enter goes on to the next field, Tab and the arrow keys move about, and every button can be tapped."""


class AnswerPanel(Vertical):
    """The last good answer: its label above it, out of reach of scrolling."""

    def __init__(self, problems: tuple[str, ...] = ()) -> None:
        super().__init__(id="answer")
        self._good: Good | None = None
        self._start = "\n\n".join((_START, *problems))
        self._label = Static(id="belongs", markup=False)
        self._words = Static(Content(self._start), id="words", markup=False)
        self._written: tuple[Good | None, int, bool] = (None, 0, True)  # what stands there, how wide, how high
        self._scroll = VerticalScroll(self._words, id="reading")

    def compose(self) -> ComposeResult:
        yield self._label
        yield self._scroll

    def on_mount(self) -> None:
        self.show(Outcome())

    def on_resize(self, _event: Resize) -> None:
        self.call_after_refresh(self._write)

    def show(self, outcome: Outcome) -> None:
        """Show a new answer, or keep the last one and say that it is not the answer to what is typed now."""
        if outcome.good is not None and outcome.good != self._good:
            self._good = outcome.good
            self._go_home()
        self.set_class(self._good is not None and outcome.good is None, "-not-current")
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
        """Write the answer anew where it is another, or has another width."""
        width = min(max(self._scroll.scrollable_content_region.width, _LEAST_COLUMNS), _MOST_COLUMNS)
        tall = self.screen.has_class("-tall")
        was, *laid_out = self._written
        if was is self._good and (was is None or laid_out == [width, tall]):
            return
        self._written = self._good, width, tall
        self._words.update(Content(self._start) if self._good is None else _words(self._good, width, tall=tall))


def _words(good: Good, width: int, *, tall: bool) -> Content:
    from fasten.report.answer.as_text import advice_text

    first, gap, rest = advice_text(good.advice, width, *([_TALL] if tall else [])).partition("\n\n")
    return Content.assemble((first, "bold"), gap, rest)


def _label(good: Good | None, outcome: Outcome) -> str:
    """Which entry the answer belongs to; where it is not the one typed now, that first, and what to do about it."""
    if good is None:
        return _capital(_what_is_left(outcome)) or "Answer"
    if outcome.good is not None:
        return _held(f"For {_named(good.entry, ())}", outcome)
    changed = [name for name in {**good.entry, **outcome.readings} if good.entry.get(name) != outcome.entry.get(name)]
    left = _what_is_left(outcome)
    return f"NOT CURRENT, this is for {_named(good.entry, changed)}; {left}"


def _held(label: str, outcome: Outcome) -> str:
    """The label with what is held: that the first answer is, or why what is held is not among them."""
    if outcome.is_held:
        return f"Held, {label[:1].lower()}{label[1:]}"
    return f"{label}; {outcome.held}" if outcome.held else label


def _named(entry: Mapping[str, str], changed: list[str] | tuple[()]) -> str:
    """The three first fields of an entry, and those that have changed since."""
    item, onto, removed = (entry[name] for name in NEEDED)
    others = [f"{label(name)} {entry[name]}" for name in changed if name not in NEEDED and name in entry]
    since = " and ".join(label(name) for name in changed if name not in entry)
    before = [f"before {since} was said"] if since else []
    return ", ".join((f"{item} on {onto}", removed, *others, *before))


def _what_is_left(outcome: Outcome) -> str:
    """What to say or put right before there is an answer to what is typed."""
    if outcome.trouble:
        return outcome.trouble
    parts = (("put right", outcome.misread), ("still to say", outcome.unsaid))
    return "; ".join(f"{words}: {', '.join(map(label, names))}" for words, names in parts if names)


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]
