"""The first place of a first start: what are you fitting, and what that makes, row by row as it is typed."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual import on
from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical
from textual.content import Content
from textual.events import Resize
from textual.message import Message
from textual.widgets import Input, OptionList, Static
from textual.widgets.option_list import Option

from fasten.tui.drawn.rows import Row, row_lines
from fasten.tui.drawn.runs import heading
from fasten.tui.widgets.button import Button, on_button
from fasten.tui.widgets.content import content
from fasten.tui.widgets.panels import OPTION_COLUMNS, turn_page
from fasten.tui.widgets.text_fields import SizeField

if TYPE_CHECKING:
    from collections.abc import Iterator

    from fasten.catalog.tables import Tables
    from fasten.tui.start.start_rows import Made

_LABEL = "▌What are you fitting?"
_HOW = "Type it, things apart by commas, such as two amplifiers, four door speakers. Enter takes what stands below."
_LEAST_COLUMNS = 20


class StartPlace(Vertical):
    """One entry, and beneath it what it makes; then what else there is, each added by a tap."""

    class Taken(Message):
        """What was typed is wanted."""

        def __init__(self, made: Made) -> None:
            super().__init__()
            self.made = made

    def __init__(self, tables: Tables, *, blink: bool) -> None:
        super().__init__(id="start")
        self._tables = tables
        self._field = SizeField("", "(amplifier, two door speakers …)", id_="start-field", blink=blink)
        self._reading = Static(_HOW, id="start-reading", markup=False)
        self._list = OptionList(id="start-lines", markup=False)
        from fasten.tui.start.start_rows import examples

        self._examples = examples(tables)
        self._made = self.made_now()
        self._rows: list[Row | str] = []

    def compose(self) -> ComposeResult:
        yield Static(content([((_LABEL, "bold accent"),)]), id="start-label", markup=False)
        yield self._field
        yield self._reading
        yield self._list
        with Horizontal(id="start-bar"):
            yield Button(on_button("Take these"), compact=True, id="start-take")

    def resume(self) -> None:
        self.screen.set_focus(self._field)

    def clear(self) -> None:
        """Ask anew."""
        self._field.value = ""

    def page(self, pages: int) -> None:
        turn_page(self._list, pages)

    @on(Input.Changed, "#start-field")
    def _typed(self) -> None:
        self._made = self.made_now()
        self._write()

    def made_now(self) -> Made:
        """What the text makes, to its last letter."""
        from fasten.tui.start.start_rows import made_of
        from fasten.tui.state.open_job import EMPTY

        return made_of(self._field.value, EMPTY, self._tables)

    def on_resize(self, _event: Resize) -> None:
        self.call_after_refresh(self._write)

    def _write(self) -> None:
        why = self._made.why
        self._reading.update(content([((f"? {why}", "bad"),)]) if why else Content(_HOW))
        self._rows = list(self._listed())
        self._list.clear_options()
        self._list.add_options([Option(self._prompt(row), disabled=isinstance(row, str)) for row in self._rows])

    def _listed(self) -> Iterator[Row | str]:
        """Headings and rows."""
        if self._made.rows:
            yield "THIS MAKES"
            yield from self._made.rows
        yield "AND ALSO" if self._made.rows else "FOR EXAMPLE"
        yield from (row for _, row in self._examples)

    def _prompt(self, row: Row | str) -> Content:
        width = max(self._list.scrollable_content_region.width - OPTION_COLUMNS, _LEAST_COLUMNS)
        return content([heading(row, width)] if isinstance(row, str) else row_lines(row, width))

    @on(OptionList.OptionSelected, "#start-lines")
    def _picked(self, event: OptionList.OptionSelected) -> None:
        """Add an install to what is typed."""
        row = self._rows[event.option_index]
        said = next((text for text, example in self._examples if example is row), "")
        if said:
            typed = self._field.value.strip().rstrip(",")
            self._field.value = f"{typed}, {said}" if typed else said
            self._field.cursor_position = len(self._field.value)
        self.resume()

    @on(Button.Pressed, "#start-take")
    def _pressed(self, event: Button.Pressed) -> None:
        event.stop()
        self.post_message(self.Taken(self.made_now()))
