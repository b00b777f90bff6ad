"""The section of a joint for the screen: the names of its parts over it, the joint in tones, its dimensions beneath."""

from collections.abc import Iterable, Sequence

from fasten.model import Joint
from fasten.record import record
from fasten.report.safe import safe
from fasten.report.section.figures import along, mm
from fasten.report.section.lines import notes_on_parts
from fasten.report.section.page import Page, body_of
from fasten.report.wrap import packed, wrapped
from fasten.text.names import capital
from fasten.text.rounding import rounded_up
from fasten.text.units import number
from fasten.tui.drawn.cells import painted
from fasten.tui.drawn.joint import Drawing, laid_out
from fasten.tui.drawn.runs import Line, Run

_MOST_NAMES = 2
_TRUE = 1.05  # times longer than thick, from which it is said
_BREAK = "▞"


@record
class Measure:
    """A dimension: from and to in mm under the head, its wordings, the longest first, its role, and if it goes on."""

    start_mm: float
    end_mm: float
    forms: tuple[str, ...]
    role: str = "accent"
    goes_on: bool = False


def section_lines(joint: Joint, behind_mm: float | None, width: int, rows: int, most: int, tones: str) -> list[Line]:
    """The joint in so many columns, drawn in so many rows, with at most so many rows of dimensions beneath.

    `behind_mm` is the space behind the substrate; None where it is not given.
    """
    drawing = laid_out(joint, behind_mm, width, rows)
    names, left = _names(drawing.page, width)
    drawn = painted(drawing.parts, width, drawing.rows, drawing.per_mm, tones)
    said = [((text, "quiet"),) for text in (*packed(left, width), *wrapped(" ".join(_notes(drawing)), width))]
    return [*names, *drawn, *_dimensions(measures(drawing), drawing.page, width, most), *said]


def measures(drawing: Drawing) -> list[Measure]:
    """The dimensions, most wanted first: the space behind, then engaged, past it, screw and grip."""
    page, behind_mm, back_mm = drawing.page, drawing.behind_mm, drawing.page.back.end_mm
    found = []
    if page.needed_mm > 0:
        needed = rounded_up(page.needed_mm, 1)
        there = "not known" if behind_mm is None else f"{mm(behind_mm)} there"
        forms = (f"needs {needed} mm behind, {there}", f"needs {needed} mm, {there}", f"needs {needed} mm")
        is_short = behind_mm is not None and behind_mm < page.needed_mm
        found.append(Measure(back_mm, back_mm + page.needed_mm, forms, "bad" if is_short else "accent"))
    along_it = along(page)
    ordered = (*along_it[2:], *along_it[1::-1])
    found += [Measure(start, end, (text,)) for start, end, text in ordered]
    if behind_mm is not None and page.shank is not None:
        words = (f"{mm(behind_mm)} there",)
        found.append(Measure(back_mm, back_mm + behind_mm, words, "quiet", goes_on=drawing.wall is None))
    return found


def _names(page: Page, width: int) -> tuple[list[Line], list[str]]:
    """Each name with a stroke at its part, in two rows at most, and the names that found no room there."""
    rows: list[list[Run]] = [[] for _ in range(_MOST_NAMES)]
    left = []
    for mm_, words, role in _named(page):
        at = min(round(page.column(mm_)), width - 1)
        row = next((row for row in reversed(rows) if _has_room(row, at, words, width)), None)
        if row is None:
            left.append(words)
        else:
            row += [(" " * (at - _used(row)), ""), ("╷", role), (words, "quiet")]
    return [tuple(run for run in row if run[0]) for row in rows if row], left


def _used(row: Sequence[Run]) -> int:
    return sum(len(text) for text, _ in row)


def _has_room(row: Sequence[Run], at: int, words: str, width: int) -> bool:
    return at >= _used(row) + bool(row) and at + len(words) + 1 <= width


def _named(page: Page) -> Iterable[tuple[float, str, str]]:
    """Place, words and role of each part from the head down."""
    if page.shank is not None:
        head_mm = page.head_cells / page.scale
        yield (-head_mm / 2 if head_mm else 0.0), capital(page.shank.name), "screw"
    for band in page.placed:
        middle = (band.start_mm + band.end_mm) / 2
        yield middle, f"{band.slab.name} {mm(band.slab.thickness_mm)}", "quiet"
    body = body_of(page.joint)
    if body is not None and not any(band.slab.role == "flange" for band in page.placed):
        yield page.back.end_mm + body.length_mm / 3, safe(body.part), "receiver"


def _dimensions(found: Iterable[Measure], page: Page, width: int, most: int) -> list[Line]:
    """As many of the dimensions as there are rows for, each where it is measured."""
    rows: list[list[Run]] = []
    for measure in found:
        start, text = _placed(measure, page, width)
        row = next((row for row in rows if start > _used(row)), None)
        if row is None and len(rows) < most:
            rows.append(row := [])
        if row is not None:
            row += [(" " * (start - _used(row)), ""), (text, measure.role)]
    return [tuple(run for run in row if run[0]) for row in rows]


def _placed(measure: Measure, page: Page, width: int) -> tuple[int, str]:
    """Where a dimension begins and its text: the longest wording that fits inside it, else one beside it."""
    first = max(0, round(page.column(measure.start_mm)))
    last = min(round(page.column(measure.end_mm)), width - 1)
    inner, tip = last - first - 1, _BREAK if measure.goes_on else "┤"
    inside = next((form for form in measure.forms if len(form) + 4 <= inner), None)
    if inside is not None:
        return first, "├" + f" {inside} ".center(inner, "─") + tip
    line = "├" + "─" * inner + tip if inner >= 0 else "│"
    beside = next((form for form in measure.forms if first + len(line) + 1 + len(form) <= width), None)
    if beside is not None:
        return first, f"{line} {beside}"
    before = next((form for form in measure.forms if len(form) + 1 <= first), None)
    if before is not None:
        return first - len(before) - 1, f"{before} {line}"
    alone = measure.forms[-1]  # without its line, but never without its unit
    return max(0, min(first, width - len(alone))), alone


def _notes(drawing: Drawing) -> list[str]:
    """What the drawing does not show as it is."""
    page = drawing.page
    if page.shank is None:
        notes = ["To scale through the layers, not along them."]
    elif drawing.stretched > _TRUE or drawing.stretched < 1 / _TRUE:
        notes = [f"Length {number(drawing.stretched, 1)} x thickness."]
    else:
        notes = []
    return [
        *notes,
        *map(capital, notes_on_parts(page)),
        *(["Nothing comes out behind."] if page.needed_mm <= 0 else []),
    ]
