"""The rail: all mount points of the job beside the question, where a screen has room: a tap takes one in hand."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

from textual.events import Click, Resize
from textual.message import Message
from textual.widgets import Static

from fasten.tui.drawn.runs import Line, heading
from fasten.tui.state.open_job import Revision
from fasten.tui.widgets.content import content
from fasten.tui.widgets.verdict_lines import Reasoned

if TYPE_CHECKING:
    from fasten.tui.drawn.rail import Standing
    from fasten.tui.drawn.reasons import Reason
    from fasten.tui.drawn.verdict import Verdict

_HEADING = 1
_TAKEN = 11  # lines of a screen that top line, headings, the verdict on the box and the foot take
_NEW = "New mount point"


class MountList(Static):
    """The mount points, as many round the one in hand as there are lines for, then the box. Keys go by `all mounts`."""

    class Picked(Message):
        """A mount point was tapped, in the names of a job as it was shown."""

        def __init__(self, at: int, seen: Revision) -> None:
            super().__init__()
            self.at, self.seen = at, seen

    def __init__(self) -> None:
        super().__init__(id="mount_list", markup=False)
        self._names: tuple[str, ...] = ()
        self._at: int | None = None
        self._standings: Sequence[Standing | None] = ()
        self._verdict: Verdict | None = None
        self._reasons: dict[int, Reason] = {}  # by the row that each stands in
        self._seen: Revision

    def show(self, names: tuple[str, ...], at: int | None, seen: Revision) -> None:
        """Show these names; `at` is the one in hand, None for one that is not in the job yet."""
        self._seen = seen
        if (names, at) != (self._names, self._at):
            if names != self._names:
                self._standings = [None] * len(names)  # until they are calculated
            self._names, self._at = names, at
            self._write()

    @property
    def standings(self) -> Sequence[Standing | None]:
        """How each stands, None where that is not known."""
        return self._standings

    def stand(self, standings: Sequence[Standing | None], verdict: Verdict | None) -> None:
        """Show how each stands, and the verdict on the box where it is known."""
        if len(standings) == len(self._names):
            self._standings, self._verdict = standings, verdict
            self._write()

    def on_resize(self, _event: Resize) -> None:
        self._write()

    def on_click(self, event: Click) -> None:
        where = event.get_content_offset(self)
        if where is None or where.y < _HEADING:
            return
        if (reason := self._reasons.get(where.y)) is not None:
            self.post_message(Reasoned(reason))
            return
        shown = (where.y - _HEADING) // self._rows
        if shown < self._room and self._first + shown < len(self._names):
            self.post_message(self.Picked(self._first + shown, self._seen))

    @property
    def _lines(self) -> int:
        return max(self.app.size.height - _TAKEN, 1)

    @property
    def _rows(self) -> int:
        """Two lines each where there is room for all of them so."""
        return 2 if 2 * len(self._names) <= self._lines else 1

    @property
    def _room(self) -> int:
        return max(self._lines // self._rows, 1)

    @property
    def _first(self) -> int:
        """The first that is shown, so that the one in hand is in the middle as far as there are others."""
        last = max(len(self._names) - self._room + (self._at is None), 0)
        at = len(self._names) if self._at is None else self._at
        return min(max(at - self._room // 2, 0), last)

    def _write(self) -> None:
        width = self.size.width
        if width:
            mounts = self._rows_of_mounts(width) if self._names else _nothing(width)
            self.update(content([*mounts, *self._box(width, len(mounts))]))

    def _rows_of_mounts(self, width: int) -> list[Line]:
        from fasten.tui.drawn.rail import mount_lines, mounts_heading

        first = self._first
        lines: list[Line] = [mounts_heading(self._standings, width)]
        for at in range(first, min(first + self._room, len(self._names))):
            name, standing, current = self._names[at], self._standings[at], at == self._at
            lines += mount_lines(at + 1, name, standing, width, self._rows, current=current)
        if self._at is None:
            lines += mount_lines(len(self._names) + 1, _NEW, None, width, 1, current=True)
        return lines

    def _box(self, width: int, above: int) -> list[Line]:
        """The verdict on the box, and each reason in a row of its own, once it is known."""
        self._reasons = {}
        if self._verdict is None:
            return []
        from fasten.tui.drawn.band import band
        from fasten.tui.drawn.reasons import reason_line

        row, more = band(self._verdict.stands, self._verdict.words, self._verdict.reasons, width)
        lines = [(), heading("BOX", width), row, *more]
        self._reasons = {above + len(lines) + at: reason for at, reason in enumerate(self._verdict.rows)}
        return [*lines, *(reason_line(reason, width) for reason in self._verdict.rows)]


def _nothing(width: int) -> list[Line]:
    """The heading of a job without a mount point."""
    return [heading("MOUNTS", width), ((f"{_NEW}", "quiet"),)]
