"""The plan of the fixings to scale, seen from the drill: a row is as high as two columns are wide.

What is raised is the sheet that is known to be there, as far as the edge was given, rounded inwards. Where the edge was
not given, a row of ? stands on every side.
"""

from collections.abc import Collection, Iterator
from itertools import pairwise
from math import floor

from fasten.model import MountPoint, Origin
from fasten.record import record
from fasten.report.template.sheet import TemplateSheet
from fasten.report.wrap import wrapped
from fasten.text.figures import counted, figure
from fasten.text.rounding import rounded_up
from fasten.text.units import number
from fasten.tui.drawn.runs import Line, Run, beside, columns, joined

TO_MAKE, MADE, OTHERWISE = "□", "■", "▣"
_AROUND = 3  # columns round the fixings for what stands outside them: a number, a ?
_ABOVE = 1  # rows
_BESIDE = 26  # columns of what is said beside the plan
_NOTED = 22  # the same where there are few
_LEAST_COLUMNS, _LEAST_ROWS = 20, 5  # of a plan that says anything
_LEAST_BESIDE = 24  # columns of a plan, from which there is room beside it
_BARS = (10, 20, 50, 100, 200, 500)
_LEAST_BAR = 4
_ONE_ROW_MM = 0.5  # within which fixings are in one row
_PRESET = "preset: measure yours"
_PLAIN_EDGE_MM = 20.0  # drawn round the fixings where no edge is given or needed


@record
class _Grid:
    """Cells of the plan: where its left top fixings are, columns a mm, and every cell."""

    left: int
    top: int
    scale: float
    cells: list[list[Run]]

    def at(self, x_mm: float, y_mm: float) -> tuple[int, int]:
        """Row and column of a place, from the left top fixing, y downwards."""
        return self.top + round(y_mm * self.scale / 2), self.left + round(x_mm * self.scale)

    def write(self, row: int, column: int, text: str, role: str, tap: str = "") -> None:
        """Write over the cells, on whatever is behind them; outside the plan nothing is written."""
        for place, char in enumerate(text, column):
            if 0 <= row < len(self.cells) and 0 <= place < len(self.cells[row]):
                ground = " on raised" if "raised" in self.cells[row][place][1] else ""
                self.cells[row][place] = char, f"{role}{'' if 'reverse' in role else ground}{tap}"


@record
class Marks:
    """What of the fixings is made, and which is in hand, from 1 on.

    `otherwise` are those made to another figure than is wanted by now, each with what was made and what is wanted.
    """

    made: tuple[int, ...] = ()
    current: int | None = None
    otherwise: tuple[tuple[int, str], ...] = ()

    def of(self, number: int) -> tuple[str, str]:
        """The mark of a fixing, and its role."""
        is_other = any(number == place for place, _ in self.otherwise)
        mark = MADE if number in self.made else OTHERWISE if is_other else TO_MAKE
        role = "bold good" if mark == MADE else "bold open" if is_other else "bold ink"
        return mark, "bold reverse accent" if number == self.current else role


def plan_lines(
    sheet: TemplateSheet,
    width: int,
    rows: int,
    made: Collection[int] = (),
    current: int | None = None,
    *,
    is_given: bool = True,
    otherwise: tuple[tuple[int, str], ...] = (),
) -> list[Line]:
    """The fixings in at most so many columns and rows; those in `made` are made, `current` is in hand, from 1 on.

    `is_given` is False where a preset stands for where they sit; `otherwise` are those made to another figure.
    """
    room = width - _BESIDE if width - _BESIDE >= _LEAST_BESIDE else width
    return _drawn(sheet, width, room, rows, Marks(tuple(made), current, otherwise), is_given=is_given)


def places_given(mount: MountPoint) -> bool:
    """Whether somebody said where the fixings sit; else a preset stands for it."""
    return dict(mount.origins).get("pattern", Origin.GIVEN) is Origin.GIVEN


def plan_within(
    sheet: TemplateSheet, width: int, rows: int, made: Collection[int], current: int | None, *, is_given: bool,
    otherwise: tuple[tuple[int, str], ...] = (),
) -> list[Line]:  # fmt: skip
    """The same with its notes in at most so many rows in all: beside it or beneath, whichever lets it be larger."""
    marks = Marks(tuple(made), current, otherwise)
    points = _from_corner(sheet)
    noted = len(_noted(sheet, 1.0, len(points), marks, width, is_given=is_given))
    beside_it = _grid(points, sheet, width - _NOTED, rows).scale if _has_room(width - _NOTED, rows) else 0.0
    beneath = _grid(points, sheet, width, rows - noted).scale if _has_room(width, rows - noted) else 0.0
    if not max(beside_it, beneath):
        return []
    is_beside = beside_it >= beneath
    room, rows = (width - _NOTED, rows) if is_beside else (width, rows - noted)
    return _drawn(sheet, width, room, rows, marks, is_given=is_given)[: rows + noted * (not is_beside)]


def _has_room(width: int, rows: int) -> bool:
    return width >= _LEAST_COLUMNS and rows >= _LEAST_ROWS


def _drawn(
    sheet: TemplateSheet, width: int, room: int, rows: int, marks: Marks, *, is_given: bool
) -> list[Line]:  # fmt: skip
    points = _from_corner(sheet)
    grid = _grid(points, sheet, room, rows)
    _draw_lines(grid, points)
    if sheet.edge_mm is None:
        _draw_unknown(grid)
    else:
        _draw_edge(grid, points, sheet.edge_mm)
    for count in range(1, len(points) + 1):
        _draw_mark(grid, points, count, marks)
    drawn = [joined(row) for row in grid.cells]
    if room == width:
        return [*drawn, *_noted(sheet, grid.scale, len(points), marks, width, is_given=is_given)]
    wide = max(map(columns, drawn)) + 2
    notes = _noted(sheet, grid.scale, len(points), marks, width - wide, is_given=is_given)
    return beside([(drawn, wide), (notes, width - wide)])


def _from_corner(sheet: TemplateSheet) -> list[tuple[float, float]]:
    """The fixings from the left top one, y downwards."""
    left, top = min(x for x, _ in sheet.centres_mm), max(y for _, y in sheet.centres_mm)
    return [(x - left, top - y) for x, y in sheet.centres_mm]


def _grid(points: list[tuple[float, float]], sheet: TemplateSheet, width: int, rows: int) -> _Grid:
    wide_mm, high_mm = max(x for x, _ in points), max(y for _, y in points)
    edge_mm = sheet.edge_mm or sheet.edge_least_mm or _PLAIN_EDGE_MM
    scale = min((width - 1) / (wide_mm + 2 * edge_mm), 2 * (rows - 1) / (high_mm + 2 * edge_mm))
    scale = min(scale, (width - 1 - 2 * _AROUND) / wide_mm) if wide_mm else scale
    scale = min(scale, 2 * (rows - 1 - 2 * _ABOVE) / high_mm) if high_mm else scale
    out, above = floor(edge_mm * scale), floor(edge_mm * scale / 2)  # inwards: no sheet is shown that may not be there
    left, top = max(out, _AROUND), max(above, _ABOVE)
    inner, tall = round(wide_mm * scale), round(high_mm * scale / 2)
    known = sheet.edge_mm is not None

    def ground(row: int, column: int) -> Run:
        is_sheet = top - above <= row <= top + tall + above and left - out <= column <= left + inner + out
        return " ", "on raised" if known and is_sheet else ""

    cells = [[ground(row, column) for column in range(2 * left + inner + 1)] for row in range(2 * top + tall + 1)]
    return _Grid(left, top, scale, cells)


def _draw_lines(grid: _Grid, points: list[tuple[float, float]]) -> None:
    """The distances along the top row and down the left column, from each fixing to the next.

    A figure is left out where it would touch the number of a fixing: 8 beside 166.7 reads as another distance.
    """
    along = sorted(x for x, y in points if y < _ONE_ROW_MM)
    down = sorted(y for x, y in points if x < _ONE_ROW_MM)
    taken = _taken(grid, points)
    for left, right in pairwise(along):
        _draw_along(grid, left, right, taken)
    for upper, lower in pairwise(down):
        _draw_down(grid, upper, lower, taken)


def _draw_along(grid: _Grid, left: float, right: float, taken: Collection[tuple[int, int]]) -> None:
    """A line of the top row with its figure, as near its middle as the numbers let it."""
    (row, first), (_, last) = grid.at(left, 0.0), grid.at(right, 0.0)
    grid.write(row, first, "─" * (last - first), "accent")
    said = f" {figure(right - left)} "
    free = [column for column in range(first, last) if (row, column) not in taken]
    if len(said) < last - first and len(said) <= len(free) == free[-1] - free[0] + 1:
        middle = first + said.center(last - first, "─").index(said)
        grid.write(row, min(max(middle, free[0]), free[-1] + 1 - len(said)), said, "accent")


def _draw_down(grid: _Grid, upper: float, lower: float, taken: Collection[tuple[int, int]]) -> None:
    """A line of the left column with its figure beside it, in the row nearest its middle that has room for it."""
    (first, column), (last, _) = grid.at(0.0, upper), grid.at(0.0, lower)
    for row in range(first, last):
        grid.write(row, column, "│", "accent")
    said = figure(lower - upper)
    cells = range(column + 1, column + 3 + len(said))  # with a blank on each side
    if cells[-2] >= len(grid.cells[first]):
        return
    rows = sorted(range(first + 1, last), key=lambda row: abs(row - (first + last) // 2))
    free = [row for row in rows if not any((row, cell) in taken for cell in cells)]
    for row in free[:1]:
        grid.write(row, column + 2, said, "accent")


def _draw_unknown(grid: _Grid) -> None:
    """A row of ? on every side."""
    high, wide = len(grid.cells), len(grid.cells[0])
    for column in range(0, wide, 4):
        grid.write(0, column, "?", "open")
        grid.write(high - 1, column, "?", "open")
    for row in range(0, high, 2):
        grid.write(row, 0, "?", "open")
        grid.write(row, wide - 1, "?", "open")


def _draw_edge(grid: _Grid, points: list[tuple[float, float]], edge_mm: float) -> None:
    """How far the nearest edge is, on a line from the lowest fixing on the right to the edge of what is drawn."""
    x_mm, y_mm = max(points, key=lambda point: (point[0], point[1]))
    row, column = grid.at(x_mm, y_mm)
    last = max(place for place, (_, style) in enumerate(grid.cells[row]) if "raised" in style)
    said, inner = figure(edge_mm), last - column - 1
    text = f"├{said.center(inner, '─')}┤" if len(said) <= inner else said if len(said) <= inner + 1 else ""
    cells = range(last - len(text), last + 1)  # with a blank before it
    taken = _taken(grid, points)
    rows = (row + 1, row - 1) if row + 1 < len(grid.cells) else (row - 1,)
    for free in [row for row in rows if not any((row, cell) in taken for cell in cells)][:1]:
        grid.write(free, last + 1 - len(text), text, "accent")


def _marked(grid: _Grid, points: list[tuple[float, float]], count: int) -> list[tuple[int, int]]:
    """The cells of a fixing, row and column: its mark first, then its number, which stands on the outside."""
    x_mm, y_mm = points[count - 1]
    row, column = grid.at(x_mm, y_mm)
    wide = len(str(count))
    first = column - wide if x_mm <= max(x for x, _ in points) / 2 else column + 1
    return [(row, column), *((row, place) for place in range(first, first + wide))]


def _taken(grid: _Grid, points: list[tuple[float, float]]) -> set[tuple[int, int]]:
    """The cells of all fixings, which no figure may touch."""
    return {cell for count in range(1, len(points) + 1) for cell in _marked(grid, points, count)}


def _draw_mark(grid: _Grid, points: list[tuple[float, float]], count: int, marks: Marks) -> None:
    """The mark on the hole, and its number outside."""
    (row, column), (_, first), *_ = _marked(grid, points, count)
    mark, role = marks.of(count)
    tap = f" @hole:{count}"
    grid.write(row, column, mark, role, tap)
    grid.write(row, first, str(count), role, tap)


def _noted(
    sheet: TemplateSheet, scale: float, count: int, marks: Marks, width: int, *, is_given: bool
) -> list[Line]:  # fmt: skip
    """What is said beside the plan, in so many columns."""
    plain = [(text, "quiet") for text in _notes(sheet, scale, count, marks.made)]
    marked = [(f"{OTHERWISE}{place} {words}", "open") for place, words in marks.otherwise]
    preset = [] if is_given else [(_PRESET, "open")]
    return [((line, role),) for text, role in (*plain, *marked, *preset) for line in wrapped(text, width, rest="  ")]


def _notes(sheet: TemplateSheet, scale: float, count: int, made: Collection[int]) -> Iterator[str]:
    yield "seen from the drill"
    yield counted(count, "place") + (f", {len(made)} made" if made else "")
    if sheet.edge_mm is not None:
        yield f"nearest edge {number(sheet.edge_mm, 1)} mm"
    elif sheet.edge_least_mm is not None:
        yield f"edge ?, {rounded_up(sheet.edge_least_mm, 1)} mm is enough"
    bar = next((mm for mm in _BARS if mm * scale >= _LEAST_BAR), _BARS[-1])
    yield f"├{'─' * max(round(bar * scale) - 2, 0)}┤ {bar} mm"
