"""A list of lines on the page of runs: the one in hand stays in hand when they are written anew."""

from __future__ import annotations

from textual.events import Resize
from textual.message import Message
from textual.widgets.option_list import Option

from fasten.tui.runs.run_lines import RunLine
from fasten.tui.widgets.content import content
from fasten.tui.widgets.numbered import NumberedList


class ListedLine(Option):
    """A line where it is listed."""

    def __init__(self, line: RunLine) -> None:
        super().__init__(content(line.shown), disabled=line.is_heading)
        self.line = line


class RunList(NumberedList):
    """Lines to press. Where a line is gone, in one that `goes_on` the next comes into hand in its place."""

    class Widened(Message):
        """It is of another width, or in view again: its lines were written for the one before."""

    def __init__(self, id_: str, *, goes_on: bool = False) -> None:
        super().__init__(id=id_, markup=False)
        self._goes_on = goes_on

    def on_resize(self, _event: Resize) -> None:
        self.post_message(self.Widened())

    @property
    def in_hand(self) -> RunLine | None:
        """The line that is marked."""
        option = None if self.highlighted is None else self.get_option_at_index(self.highlighted)
        return option.line if isinstance(option, ListedLine) else None

    def fill(self, lines: tuple[RunLine, ...]) -> None:
        """Put the lines there; the one in hand stays in hand, and where there are as many, nothing is laid out anew."""
        at, was, y = self.highlighted, self.in_hand, self.scroll_offset.y
        self.clear_options()
        self.add_options([ListedLine(line) for line in lines])
        keys = [line.key for line in lines]
        if was is not None and was.key in keys:
            self.highlighted = keys.index(was.key)
        elif lines and self._goes_on:  # what was settled is gone: the next comes into its place
            least = min(at or 0, len(lines) - 1)
            self.highlighted = next((at for at, line in enumerate(lines) if at >= least and not line.is_heading), None)
        self.scroll_to(y=y, animate=False, immediate=True)
