"""The fourth place: what is owned, a line each; a line is changed by Enter or by a tap."""

from textual import on
from textual.app import ComposeResult
from textual.containers import Vertical
from textual.content import Content
from textual.message import Message
from textual.widgets import OptionList, Static

from fasten.catalog.tables import Tables
from fasten.job.words import Shelf, ShelfPart
from fasten.report.safe import safe
from fasten.text.figures import counted
from fasten.text.units import number
from fasten.tui.drawn.rows import HERE, Row, State, row_lines
from fasten.tui.state.open_shelf import Held, lines_of
from fasten.tui.widgets.columns import ColumnList, Written
from fasten.tui.widgets.content import content
from fasten.tui.widgets.panels import turn_page

_HERE, _TO_SEE = State(HERE, "here", "ink", 1), State(HERE, "see below", "open", 0)
_START = """The shelf is empty.

Press h to say what you have, or mark a line of the box and press h: it is put on the shelf as it stands there."""


class _Row(Written):
    """A line where it is listed."""

    def __init__(self, held: Held) -> None:
        super().__init__(lambda width: content(row_lines(_row(held), width)))
        self.held = held


class ShelfPlace(Vertical):
    """What is owned, a line each."""

    class Wanted(Message):
        """A line is to be changed."""

        def __init__(self, held: Held) -> None:
            super().__init__()
            self.held = held

    def __init__(self) -> None:
        super().__init__(id="shelf")
        self._head = Static(_START, id="shelf-head", markup=False)
        self._lines = ColumnList("shelf-lines")
        self._held: list[Held] = []

    def compose(self) -> ComposeResult:
        yield self._head
        yield self._lines

    def load(self, shelf: Shelf | None, where: str, tables: Tables) -> None:
        """Show a shelf, and where its file is."""
        at = self._lines.highlighted
        self._held = lines_of(shelf, tables) if shelf else []
        lines = counted(len(self._held), "line")
        self._head.update(Content(safe(f"{lines}, kept in {where}") if self._held else _START))
        self._lines.fill([_Row(held) for held in self._held])
        self._lines.highlighted = None if not self._held else min(at or 0, len(self._held) - 1)

    @property
    def in_hand(self) -> Held | None:
        """The line that is marked."""
        at = self._lines.highlighted
        return None if at is None else self._held[at]

    def resume(self) -> None:
        self.screen.set_focus(self._lines)

    def page(self, pages: int) -> None:
        turn_page(self._lines, pages)

    @on(OptionList.OptionSelected, "#shelf-lines")
    def _selected(self, event: OptionList.OptionSelected) -> None:
        # The one that was selected: the lines may be others by now.
        if isinstance(event.option, _Row):
            self.post_message(self.Wanted(event.option.held))


def _row(held: Held) -> Row:
    """A line of the shelf in the form of every list: how many, of what, and what there is to say of it."""
    state = _TO_SEE if held.trouble else _HERE
    trouble = f"! {held.trouble}" if held.trouble else ""
    beneath = tuple(safe(text) for text in (*_of_part(held.entry), trouble) if text)
    if held.entry is None:
        return Row("", safe(held.text), state, beneath)
    return Row(str(held.entry.count), safe(held.name), state, beneath)


def _of_part(entry: ShelfPart | None) -> tuple[str, ...]:
    """What is said of a part beneath its row: its price and its note."""
    if entry is None:
        return ()
    price = "" if entry.price is None else f"{number(entry.price, 2)} each"
    return (", ".join(text for text in (price, entry.note) if text),)
