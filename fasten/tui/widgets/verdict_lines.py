"""The verdict on a box where it stands: its band, and beneath each reason a row that can be tapped."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from textual.events import Click
from textual.message import Message
from textual.widgets import Static

from fasten.tui.drawn.runs import Line
from fasten.tui.widgets.content import content

if TYPE_CHECKING:
    from fasten.tui.drawn.reasons import Reason


class Reasoned(Message):
    """A reason was tapped: what it is of is wanted."""

    def __init__(self, reason: Reason) -> None:
        super().__init__()
        self.reason = reason


class VerdictLines(Static):
    """The lines of a verdict, the last of them its reasons."""

    def __init__(self, text: str) -> None:
        super().__init__(text, id="verdict", markup=False)
        self._reasons: dict[int, Reason] = {}

    def show(self, lines: Sequence[Line], reasons: Sequence[Reason], width: int) -> None:
        """Show these lines, and a row for each reason."""
        from fasten.tui.drawn.reasons import reason_line

        self._reasons = {len(lines) + at: reason for at, reason in enumerate(reasons)}
        self.update(content([*lines, *(reason_line(reason, width) for reason in reasons)]))

    def on_click(self, event: Click) -> None:
        where = event.get_content_offset(self)
        if where is not None and (reason := self._reasons.get(where.y)) is not None:
            self.post_message(Reasoned(reason))
