"""The second place: one box for every size, the line that answers, and behind Enter all that the tables say."""

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical, VerticalScroll
from textual.content import Content
from textual.events import Resize
from textual.widgets import Input, Static

from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.look import look
from fasten.report.look_text import WIDTH, look_text
from fasten.report.safe import safe
from fasten.tui.drawn.runs import Line
from fasten.tui.widgets.columns import WIDE
from fasten.tui.widgets.content import content
from fasten.tui.widgets.text_fields import SizeField

_LEAST = 30  # columns of an answer
_START = "Type any thread, bit, gauge, part, class or length, and what you want of it: clearance for M6, M5 rivet nut."
_MORE = "Enter: everything the tables say of it"


class LookPlace(Vertical):
    """A field and the answers beneath it, a row each; all of what is known as the command line gives it."""

    def __init__(self, tables: Tables, *, blink: bool) -> None:
        super().__init__(id="look")
        self._tables = tables
        self._whole = False
        self._input = SizeField("", "(e.g. #10-32, 5.1 mm, M6, 20 ga)", id_="input-look", blink=blink)
        self._words = Static(_START, id="look-words", markup=False)
        self._scroll = VerticalScroll(self._words, id="look-reading")

    def compose(self) -> ComposeResult:
        with Horizontal(id="look-field"):
            yield Static("Look up", classes="label", markup=False)
            yield self._input
        yield self._scroll

    def resume(self) -> None:
        self.screen.set_focus(self._input)

    def page(self, pages: int) -> None:
        (self._scroll.scroll_page_down if pages > 0 else self._scroll.scroll_page_up)(animate=False)

    @on(Input.Changed)
    def _look(self) -> None:
        """Show what is found; while a word is half typed, say why nothing is, over what it would be read as."""
        self._whole = False
        self._write()
        self._scroll.scroll_home(animate=False)

    @on(Input.Submitted)
    def _turn(self) -> None:
        """Show everything, or the answer alone again."""
        self._whole = not self._whole
        self._write()

    def on_resize(self, _event: Resize) -> None:
        self.call_after_refresh(self._write)

    def _write(self) -> None:
        typed, width = self._input.value.strip(), self._scroll.scrollable_content_region.width
        columns = max(width, _LEAST)
        high = self._scroll.size.height if self.app.size.width >= WIDE else 0
        self._words.update(_found(typed, self._tables, columns, high, whole=self._whole) if typed else Content(_START))


def _found(text: str, tables: Tables, width: int, high: int, *, whole: bool) -> Content:
    """What is found in so many columns; where it is longer than `high` lines, in two of rows."""
    from fasten.tui.drawn.looked import looked_lines

    try:
        found = look(text, tables)
    except FastenError as error:
        return Content(f"! {safe(str(error))}")
    if whole and found.found:
        return Content(look_text(found, min(width, WIDTH)))
    more: list[Line] = [(), ((_MORE, "quiet"),)] if found.found else []
    return content([*looked_lines(found, width, max(high - len(more), 0)), *more])
