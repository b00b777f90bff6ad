"""The top line: job, mount point and which of how many it is, and at the right whether the job is kept."""

from rich.cells import cell_len, set_cell_size

from fasten.record import record
from fasten.report.safe import safe
from fasten.tui.drawn.runs import Line, Run

BEFORE, AFTER = -1, 1
_GAP = 2
_LEAST = 6  # columns, below which a name says nothing
_AHEAD, _BACK = "›", "‹"


@record
class Shown:
    """What the top line tells: the job and the mount point by name, which of how many, and how the job is kept."""

    job: str
    mount: str = ""
    at: int | None = None
    count: int = 0
    state: str = ""
    warns: bool = False
    is_work: bool = False


@record
class Top:
    """The line, and from which column to which a tap goes to the mount point before or after."""

    line: Line
    spans: tuple[tuple[int, int, int], ...] = ()

    def at(self, column: int) -> int:
        """How many mount points on a tap in a column goes; 0 where it goes nowhere."""
        return next((steps for start, end, steps in self.spans if start <= column < end), 0)


def top_of(shown: Shown, width: int) -> Top:
    """The line in so many columns; the name of the job gives way first, what says that it is saved before that."""
    state = _clipped(shown.state, width)
    where = _where(shown)
    fixed = cell_len(where) + (_GAP if where else 0)
    if not (shown.warns or shown.is_work) and fixed + cell_len(state) + 2 * _GAP + _needed(shown) > width:
        state = ""
    room = width - fixed - (cell_len(state) + _GAP if state else 0)
    job, mount = _names(safe(shown.job), safe(shown.mount), room)
    runs: list[Run] = [(job, "bold ink"), (" " * _GAP if job and mount else "", ""), (mount, "ink")]
    start = sum(cell_len(text) for text, _ in runs) + _GAP
    runs += [(" " * _GAP, ""), *_runs_of(where)] if where and room > 0 else []
    used = sum(cell_len(text) for text, _ in runs)
    role = "bold open" if shown.warns else "bold accent" if shown.is_work else "quiet"
    runs += [(" " * max(width - used - cell_len(state), 0), ""), (state, role)]
    middle = start + cell_len(where) // 2
    spans = ((start, middle, BEFORE), (middle, start + cell_len(where), AFTER)) if where and room > 0 else ()
    return Top(tuple(run for run in runs if run[0]), spans)


def _needed(shown: Shown) -> int:
    """Columns for both names, as far as they are short."""
    return cell_len(safe(shown.mount)) + min(cell_len(safe(shown.job)), _LEAST)


def _where(shown: Shown) -> str:
    if not shown.mount or not shown.count:
        return ""
    which = "new, " if shown.at is None else f"{shown.at + 1} of "
    return f"{_BACK} {which}{shown.count} {_AHEAD}"


def _runs_of(where: str) -> list[Run]:
    return [(_BACK, "bold accent"), (where[1:-1], "ink"), (_AHEAD, "bold accent")]


def _names(job: str, mount: str, room: int) -> tuple[str, str]:
    """Both names, or as much of each as there is room for; first the job's gives way."""
    if not mount:
        return _clipped(job, room), ""
    left = room - cell_len(mount) - _GAP
    shown = _clipped(job, left) if left >= min(_LEAST, cell_len(job)) else ""
    return shown, _clipped(mount, room - (cell_len(shown) + _GAP if shown else 0))


def _clipped(text: str, room: int) -> str:
    return text if cell_len(text) <= room else f"{set_cell_size(text, max(room - 1, 0)).rstrip()}…" if room > 1 else ""
