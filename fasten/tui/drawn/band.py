"""The verdict band: solid where a verdict holds, else hatched over its whole row. The form says it, not the role."""

from collections.abc import Sequence

from rich.cells import cell_len, set_cell_size

from fasten.report.wrap import wrapped
from fasten.tui.drawn.runs import Line

HATCH = "▞"
_BEGINS = 3  # cells of hatch before the verdict
_LEAST_END = 2
_SPARED = "tightest "  # a word that is left out where there is no room for it


def band(
    stands: bool, verdict: str, reasons: Sequence[str], width: int, role: str = "open", beneath: int = 0
) -> tuple[Line, list[Line]]:
    """The row of the band, and the lines beneath with each reason that found no room in it.

    Those are as wide as the band, or so many columns where they stand `beneath` it in a narrower list.
    Of a verdict that holds the last reasons are left out where there is no room; of any other none is.
    """
    if stands:
        return _solid(verdict, reasons, width), []
    row, said = _hatched(verdict, reasons, width, role)
    mark = f"{HATCH} "
    lines = [wrapped(text, beneath or width, first=mark, rest="  ") for text in reasons[said:]]
    return row, [_marked(line, mark, role) for texts in lines for line in texts]


def _marked(text: str, mark: str, role: str) -> Line:
    return ((mark, role), (text.removeprefix(mark), "ink")) if text.startswith(mark) else ((text, "ink"),)


def _solid(verdict: str, reasons: Sequence[str], width: int) -> Line:
    room = max(width - cell_len(verdict) - 2, 0)
    if reasons and cell_len(reasons[0]) > room - 2:
        reasons = [reasons[0].removeprefix(_SPARED)]
    shown = "; ".join(reasons[: max(_fitting(reasons, room - 2), 1)])
    shown = shown if cell_len(shown) <= room - 2 else f"{set_cell_size(shown, room - 3).rstrip(' ,')}…"
    return ((f" {verdict} ", "bold good reverse"), (f" {shown}".ljust(room)[:room], "good reverse"))


def _fitting(reasons: Sequence[str], room: int) -> int:
    """How many of the reasons there is room for in one row, from the first on."""
    counts = range(len(reasons), 0, -1)
    return next((count for count in counts if cell_len("; ".join(reasons[:count])) <= room), 0)


def _hatched(verdict: str, reasons: Sequence[str], width: int, role: str) -> tuple[Line, int]:
    """The row, and how many of the reasons stand in it."""
    said = _fitting(reasons, width - cell_len(verdict) - _BEGINS - _LEAST_END - 3)
    words = f"{'; '.join(reasons[:said])} " if said else ""
    end = max(width - _BEGINS - cell_len(verdict) - 2 - cell_len(words), 0)
    row = ((HATCH * _BEGINS, role), (f" {verdict} ", f"bold {role}"), (words, "ink"), (HATCH * end, role))
    return tuple(run for run in row if run[0]), said
