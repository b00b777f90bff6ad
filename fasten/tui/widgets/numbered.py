"""A list whose row in hand is seen by its number: that is filled, in every list."""

from typing import ClassVar

from rich.segment import Segment
from textual.strip import Strip
from textual.widgets import OptionList

from fasten.tui.drawn.rows import NUMBER


class NumberedList(OptionList):
    """Rows that begin with a number or a count, or with as many blanks."""

    COMPONENT_CLASSES: ClassVar[set[str]] = {"numbered-list--number"}

    def render_line(self, y: int) -> Strip:
        """A line; the number of the row in hand is filled."""
        return self.numbered_line(y)

    def numbered_line(self, y: int) -> Strip:
        """A line as it is in one column."""
        strip, at = super().render_line(y), self.scroll_offset.y + y
        lines = self._lines  # Textual has no public way to ask which row a line is of
        if at >= len(lines) or lines[at] != (self.highlighted, 0):
            return strip
        style = self.get_component_rich_style("numbered-list--number")
        number = [Segment(text, style if own is None else own + style) for text, own, _ in strip.crop(0, NUMBER)]
        return Strip.join([Strip(number, NUMBER), strip.crop(NUMBER)])
