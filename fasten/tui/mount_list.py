"""All mount points of the job under the questions, where a screen has room for both: a tap takes one in hand."""

from textual.content import Content
from textual.events import Click, Resize
from textual.message import Message
from textual.widgets import Static

from fasten.report.safe import safe
from fasten.text.figures import counted
from fasten.tui.form import clipped
from fasten.tui.open_job import Revision

_HEADING, _HERE, _MORE = 1, ">", "…"
_TAKEN = 12  # lines of a screen that bars, questions and heading take


class MountList(Static):
    """The names, so many round the one in hand as there are lines for. Keys go to another by `All mounts`."""

    class Picked(Message):
        """A mount point was tapped, in the names of a job as it was shown."""

        def __init__(self, at: int, seen: Revision) -> None:
            super().__init__()
            self.at, self.seen = at, seen

    def __init__(self) -> None:
        super().__init__(id="mount_list", markup=False)
        self._names: tuple[str, ...] = ()
        self._at: int | None = None
        self._seen: Revision

    def show(self, names: tuple[str, ...], at: int | None, seen: Revision) -> None:
        """Show these names; `at` is the one in hand, None for one that is not in the job yet."""
        self._seen = seen
        if (names, at) != (self._names, self._at):
            self._names, self._at = names, at
            self._write()

    def on_resize(self, _event: Resize) -> None:
        self._write()

    def on_click(self, event: Click) -> None:
        where = event.get_content_offset(self)
        if where is None or len(self._names) < 2:
            return
        line = where.y - _HEADING
        if 0 <= line < self._room and self._first + line < len(self._names):
            self.post_message(self.Picked(self._first + line, self._seen))

    @property
    def _room(self) -> int:
        return max(self.app.size.height - _TAKEN, 1)

    @property
    def _first(self) -> int:
        """The first name shown, so that the one in hand is in the middle as far as there are others."""
        last = max(len(self._names) - self._room, 0)
        return min(max((self._at or 0) - self._room // 2, 0), last)

    def _write(self) -> None:
        first, room = self._first, self._room
        if len(self._names) < 2:
            self.update("")
            return
        lines = [self._line(at) for at in range(first, min(first + room, len(self._names)))]
        if first + room < len(self._names):
            lines[-1] = _MORE
        self.update(Content("\n".join((counted(len(self._names), "mount point"), *lines))))

    def _line(self, at: int) -> str:
        number = f"{at + 1:>{len(str(len(self._names)))}}"
        line = f"{_HERE if at == self._at else ' '} {number}  {safe(self._names[at])}"
        return clipped(line, self.size.width or len(line))
