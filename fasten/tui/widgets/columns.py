"""A list of rows that are written for the columns they have: side by side where one column is full."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from textual.content import Content
from textual.events import Resize
from textual.geometry import Region, Size
from textual.strip import Strip
from textual.widgets.option_list import Option

from fasten.tui.widgets.numbered import NumberedList
from fasten.tui.widgets.panels import OPTION_COLUMNS

WIDE = 110  # columns of a screen from which two columns of rows can be read
_GAP = 2
_LEAST = 20  # columns of a row


class Written(Option):
    """A row that is written anew for as many columns as there are by then; `key` finds it again among others."""

    def __init__(self, write: Callable[[int], Content], *, disabled: bool = False, key: str = "") -> None:
        super().__init__("", disabled=disabled)
        self.write, self.key = write, key


class ColumnList(NumberedList):
    """Rows in one column; on a wide screen, where they are more than it has lines for, in two.

    The order goes down the left column and on at the top of the right one, and every key and tap does as in one.
    Rows that are read `beside` each other stand in two on a wide screen however few they are.
    """

    def __init__(self, id_: str, *, beside: bool = False) -> None:
        super().__init__(id=id_, markup=False)
        self._is_beside = beside
        self._rows: Sequence[Written] = ()
        self._is_double = False
        self._split = 0  # the line of all of them that is the first of the right column
        self._turn = "", 0  # the key of that row, and for rows of which width it was found

    def fill(self, rows: Sequence[Written]) -> None:
        """Show these rows."""
        self.clear_options()
        self._rows = rows
        self.add_options(rows)
        self.write()

    def write(self) -> None:
        """Write every row as wide as there is room; the one in hand is seen, in whichever column it now is."""
        was, prompts = self._is_double, self._prompts()
        for at, prompt in enumerate(prompts):
            self.replace_option_prompt_at_index(at, prompt)
        if was != self._is_double:
            self.scroll_to_highlight()

    def rewrite(self, row: Written) -> None:
        """Write one row anew, as wide as it is."""
        width = self._column if self._is_double else self.scrollable_content_region.width
        prompt = row.write(max(width - OPTION_COLUMNS, _LEAST))
        self.replace_option_prompt_at_index(self.options.index(row), prompt)

    def on_resize(self, _event: Resize) -> None:
        self.call_after_refresh(self.write)

    def _prompts(self) -> list[Content]:
        room = self.scrollable_content_region
        self._is_double = False
        single = self._written(room.width)
        lines = sum(prompt.plain.count("\n") + 1 for prompt in single)
        is_full = 0 < room.height < lines or (self._is_beside and len(self._rows) > 1)
        if self.app.size.width < WIDE or not is_full:
            return single
        self._is_double = True
        return self._written(self._column)

    def _written(self, width: int) -> list[Content]:
        return [row.write(max(width - OPTION_COLUMNS, _LEAST)) for row in self._rows]

    @property
    def _column(self) -> int:
        return (self.scrollable_content_region.width - _GAP) // 2

    # -- what a list of Textual does for one column: it has no public way to have two ----------------------------------

    def _is_higher(self, at: int | None) -> bool:
        """Whether a row has more lines than can be seen: it is read from its first."""
        return at is not None and self._heights.get(at, 0) > self.scrollable_content_region.height > 0

    @property
    def is_cut_off(self) -> bool:
        """Whether lines of the row in hand are beneath the last that is seen."""
        at = self.highlighted
        if at is None or at not in self._index_to_line:
            return False
        line = self._index_to_line[at]
        shown = line - self._split if self._is_double and line >= self._split else line
        return shown + self._heights[at] > self.scroll_offset.y + self.scrollable_content_region.height

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        """As high as the higher column."""
        high = super().get_content_height(container, viewport, width)
        return max(self._split, len(self._lines) - self._split) if self._is_double and self._lines else high

    def _get_left_gutter_width(self) -> int:
        return self.scrollable_content_region.width - self._column if self._is_double else 0

    def _update_lines(self) -> None:
        """All lines stand one under the other, as if in one column; only where they are seen differs."""
        room = self.scrollable_content_region
        if not self._is_double or not room:
            super()._update_lines()
            return
        if not self._line_cache.lines:
            self._measure()
        size = Size(room.width, max(self._split, len(self._line_cache.lines) - self._split))
        if size != self.virtual_size:
            self.virtual_size = size
            self._scroll_update(size)

    def _measure(self) -> None:
        cache, width = self._line_cache, self._column - self.get_component_styles("option-list--option").padding.width
        for at, option in enumerate(self.options):
            height = self._get_visual(option).get_height(self.styles.get_rules(), width)
            cache.index_to_line[at], cache.heights[at] = len(cache.lines), height
            cache.lines.extend((at, line) for line in range(height))
        keys = [row.key for row in self._rows] if len(self._rows) == len(self.options) else []
        key, found_for = self._turn
        first = keys.index(key) if key and key in keys and found_for == width else self._evenly(len(cache.lines))
        if first < len(keys):
            self._turn = keys[first], width
        self._split = cache.index_to_line.get(first, len(cache.lines))

    def _evenly(self, lines: int) -> int:
        """With which row the right column begins, so that both are most alike in height; no heading ends the left one.

        It stays there as rows are written anew: what is ticked moves no other row into another column.
        """
        starts = self._line_cache.index_to_line
        ends = [at for at in range(1, len(starts)) if not self.options[at - 1].disabled]
        return min(ends, key=lambda at: max(starts[at], lines - starts[at]), default=len(starts))

    def render_line(self, y: int) -> Strip:
        """A line of either column, side by side."""
        if not self._is_double:
            return self.numbered_line(y)
        blank = Strip.blank(self._column, self.get_visual_style("option-list--option").rich_style)
        at = self.scroll_offset.y + y
        left = self.numbered_line(y) if at < self._split else blank
        right = self.numbered_line(y + self._split) if at + self._split < len(self._lines) else blank
        between = self.scrollable_content_region.width - 2 * self._column
        return Strip.join([left, blank.crop(0, between), right])

    def scroll_to_highlight(self, top: bool = False) -> None:
        """Have the row in hand seen."""
        at = self.highlighted
        if not self._is_double or at is None or not self.is_mounted:
            super().scroll_to_highlight(top or self._is_higher(at))
            return
        self._update_lines()
        if at not in self._index_to_line:  # it has no room yet
            return
        line, width = self._index_to_line[at], self.scrollable_content_region.width
        shown = line - self._split if line >= self._split else line
        where = Region(0, shown, width, self._heights[at])
        self.scroll_to_region(where, force=True, animate=False, top=top, immediate=True)
