"""The second place: one box for every size, and what the tables say of it."""

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
from fasten.tui.text_fields import SizeField

_LEAST = 30  # columns of an answer
_START = "Type any thread, bit, gauge, screw, class or length; several words are looked up together."


class LookPlace(Vertical):
    """A field and the answer beneath it, as the command line gives it."""

    def __init__(self, tables: Tables, *, blink: bool) -> None:
        super().__init__(id="look")
        self._tables = tables
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
        self._write()
        self._scroll.scroll_home(animate=False)

    def on_resize(self, _event: Resize) -> None:
        self.call_after_refresh(self._write)

    def _write(self) -> None:
        typed, width = self._input.value.strip(), self._scroll.scrollable_content_region.width
        self._words.update(Content(_found(typed, self._tables, min(max(width, _LEAST), WIDTH)) if typed else _START))


def _found(text: str, tables: Tables, width: int) -> str:
    try:
        return look_text(look(text, tables), width)
    except FastenError as error:
        return f"! {safe(str(error))}"
