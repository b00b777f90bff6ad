"""Section of a joint to scale, as text: the axis of the screw along the width, head on the left.

Thin metal is drawn in eighths of a cell, so that 0.8 mm of sheet is seen thinner than 1 mm; what would vanish is
widened, and a note says so. Figures under the drawing are those of the joint, not measured from the drawing.
"""

from functools import lru_cache

from fasten.geometry.joint import drilled, limiter_of
from fasten.model import Joint
from fasten.model.kinds import Thread
from fasten.model.known import Body
from fasten.report.safe import safe
from fasten.report.section.figures import figures, mm, thread_end_mm
from fasten.report.section.page import (
    HEAD,
    MARGIN,
    REACH,
    RECEIVER,
    SHANK,
    SOLID,
    Page,
    Shank,
    body_of,
    bulge_mm,
    fitted,
    is_rivet,
    round_up,
    stands_on,
    wall_column,
)
from fasten.report.wrap import packed, wrapped

_EIGHTHS = " ▏▎▍▌▋▊▉█"
_WALL, _BREAK, _UNKNOWN = "▐", "┊", "?"
_LEAST_WIDTH = 32
_TO_SCALE = {  # by whether there is a screw, and whether anything goes through
    (True, True): "To scale along the screw, not across it.",
    (False, True): "To scale along the axis, not across it.",
    (False, False): "To scale through the layers, not along them.",
}


@lru_cache(maxsize=256)  # a job has the same joint many times over
def section(joint: Joint, behind_mm: float | None, width: int) -> tuple[str, ...]:
    """The joint drawn to scale in `width` columns, then its figures, the names of its layers and notes on the drawing.

    `behind_mm` is the space there is behind the substrate; None where it is not given.

    Raises: ValueError for a width too small to draw in, or a joint of no layers.
    """
    if width < _LEAST_WIDTH:
        raise ValueError(f"width {width}: at least {_LEAST_WIDTH} columns are needed to draw a joint")
    if not joint.layers:
        raise ValueError("joint.layers is empty: there is nothing to draw")
    page = fitted(joint, behind_mm, width)
    wall = wall_column(page, behind_mm, width)
    measured = [line for figure in figures(page, behind_mm) for line in _dimension(page, *figure, width)]
    names = packed(_names(page), width)
    return (*_drawn(page, behind_mm, wall), *measured, *names, *_notes(page, behind_mm, wall, width))


class _Canvas:
    """Cells on one side of the axis and on it, the axis first: the other side is its mirror image."""

    def __init__(self, width: int) -> None:
        self.rows = [[" "] * width for _ in range(REACH + 1)]

    def fill(self, rows: range, column: int, eighths: int, char: str) -> None:
        """Fill so many eighths of a cell from a column on, whole cells with `char`; no row outside the canvas."""
        cells = [char] * (eighths // 8) + [_EIGHTHS[eighths % 8]] * (eighths % 8 > 0)
        for row in self.rows[rows.start : rows.stop]:
            end = min(column + len(cells), len(row))
            row[column:end] = cells[: max(0, end - column)]

    def lines(self) -> tuple[str, ...]:
        half = ["".join(row).rstrip() for row in self.rows]
        return (*reversed(half[1:]), *half)


def _drawn(page: Page, behind_mm: float | None, wall: int) -> tuple[str, ...]:
    canvas = _Canvas(wall + 1)
    everywhere = range(REACH + 1)
    if _shows_behind(page, behind_mm):
        canvas.fill(everywhere, wall, 8, _UNKNOWN if behind_mm is None else _WALL)
    if _is_further(page, behind_mm, wall):
        canvas.fill(everywhere, wall - 1, 8, _BREAK)
    for band in page.placed:
        radius_mm = band.slab.radius_mm
        rows = everywhere if radius_mm is None else range(page.rows(radius_mm))
        canvas.fill(rows, band.column, band.eighths, band.slab.char)
    _draw_limiter(canvas, page)
    _draw_body(canvas, page)
    _draw_rivet_end(canvas, page)
    _draw_shank(canvas, page)
    return canvas.lines()


def _shows_behind(page: Page, behind_mm: float | None) -> bool:
    """What holds by its face alone has nothing to do with what is behind."""
    return page.needed_mm > 0 or (behind_mm is not None and page.shank is not None)


def _is_further(page: Page, behind_mm: float | None, wall: int) -> bool:
    """Whether what is behind lies further off than it is drawn."""
    return (
        behind_mm is not None
        and _shows_behind(page, behind_mm)
        and round(page.column(page.back.end_mm + behind_mm)) > wall
    )


def _draw_limiter(canvas: _Canvas, page: Page) -> None:
    """The compression limiter in the foam, as high as the foam is pressed."""
    limiter = limiter_of(page.joint)
    for band in page.placed:
        if limiter is not None and band.slab.role == "soft":
            canvas.fill(range(page.rows(limiter.outer_mm / 2)), band.column, band.eighths, SOLID)


def _draw_body(canvas: _Canvas, page: Page) -> None:
    """The body of a receiver through the hole, and its bulge behind the sheet."""
    body = body_of(page.joint)
    if body is None:
        return
    # A table that does not give the body gives the hole, which the body fills.
    across = body.body.outside_mm if isinstance(body.body, Body) else drilled(page.joint).diameter_mm
    rows = page.rows(across / 2)
    start, back = page.front.column, page.back.column + page.back.cells
    end = round(page.column(thread_end_mm(page)))
    canvas.fill(range(rows), start, 8 * max(1, end - start), RECEIVER)
    if bulge_mm(page.joint) > 0:
        wider = max(page.rows(bulge_mm(page.joint) / 2), rows + 1)
        canvas.fill(range(wider), back, 8 * round_up((end - back) / 3), RECEIVER)


def _draw_rivet_end(canvas: _Canvas, page: Page) -> None:
    """The end of a blind rivet as it is once set, or of a clip with its barbs: wider than its shank."""
    if is_rivet(page.joint) and not stands_on(page.joint) and page.shank is not None:
        back = page.back.column + page.back.cells
        cells = round_up(page.column(page.end_mm)) - back
        canvas.fill(range(page.rows(page.shank.radius_mm) + 1), back, 8 * max(1, cells), SHANK)


def _draw_shank(canvas: _Canvas, page: Page) -> None:
    """Head and shank; the end of a screw is chamfered, and pointed where it forms its own thread."""
    shank, under = page.shank, MARGIN + page.head_cells
    if shank is None:
        return
    end = max(round(page.column(shank.end_mm)), under + 1)
    canvas.fill(range(page.rows(shank.head_radius_mm)), MARGIN, 8 * page.head_cells, HEAD)
    taper = _taper(page.joint)
    for row in range(page.rows(shank.radius_mm)):
        canvas.fill(range(row, row + 1), under, 8 * max(1, end - under - row * taper), SHANK)
    if shank.sunk:
        _draw_sunk_head(canvas, page, shank, under)


def _taper(joint: Joint) -> int:
    """Cells by which the end grows narrower a row: a point, a chamfer, or nothing where a stud stands on the panel."""
    if stands_on(joint):
        return 0
    formed = joint.screw is not None and joint.screw.kind.thread is not Thread.MACHINE
    return 2 if joint.receiver is None and formed else 1


def _draw_sunk_head(canvas: _Canvas, page: Page, shank: Shank, under: int) -> None:
    rows = page.rows(shank.head_radius_mm)
    cells = round_up((shank.head_mm or shank.head_radius_mm - shank.radius_mm) * page.scale)
    for row in range(rows):
        canvas.fill(range(row, row + 1), under, 8 * round_up(cells * (rows - row) / rows), HEAD)


def _dimension(page: Page, start_mm: float, end_mm: float, label: str, width: int) -> tuple[str, ...]:
    """A dimension line under the drawing; its label goes right of it, into it, left of it, or on a line of its own."""
    start, end = max(0, round(page.column(start_mm))), round(page.column(end_mm))
    cells, tip = min(end, width) - start, "┤" if end <= width else ">"
    arrow = "├" + "─" * (cells - 2) + tip if cells >= 2 else "│"
    if start + len(arrow) + 1 + len(label) <= width:
        return (f"{' ' * start}{arrow} {label}",)
    for text in (label, label.removesuffix(" behind")):
        if len(text) + 4 <= cells:
            return (" " * start + "├" + f" {text} ".center(cells - 2, "─") + tip,)
    if len(label) + 1 <= start:
        return (f"{label:>{start - 1}} {arrow}",)
    return (" " * start + arrow, *wrapped(label, width))


def _names(page: Page) -> list[str]:
    """Every part of the drawing from the head down, with the look it has there."""
    names = [] if page.shank is None else [f"{HEAD} {page.shank.name}"]
    names += [f"{band.slab.char} {band.slab.name} {mm(band.slab.thickness_mm)}" for band in page.placed]
    body = body_of(page.joint)
    names += [f"{SOLID} compression limiter"] if limiter_of(page.joint) is not None else []
    flanged = any(band.slab.role == "flange" for band in page.placed)
    return [*names, f"{RECEIVER} {safe(body.part)}"] if body and not flanged else names


def _notes(page: Page, behind_mm: float | None, wall: int, width: int) -> tuple[str, ...]:
    notes = [_TO_SCALE[page.joint.screw is not None, page.shank is not None], *notes_on_parts(page)]
    if page.needed_mm <= 0:
        notes.append("Nothing comes out behind.")
    elif behind_mm is None:
        notes.append("? The space behind is not known.")
    elif behind_mm < page.needed_mm:
        notes.append(f"The space behind is short by {mm(page.needed_mm - behind_mm)}.")
    elif _is_further(page, behind_mm, wall):
        notes.append(f"{_BREAK}{_WALL} is further off than drawn.")
    return tuple(line for note in notes for line in wrapped(note, width, rest="  "))


def notes_on_parts(page: Page) -> list[str]:
    """What of the parts is not drawn as it is: what is widened to be seen, and what is not known."""
    widened = [band.slab for band in page.placed if band.widened]
    notes = [f"{slab.name} {mm(slab.thickness_mm)} is widened to be seen." for slab in widened]
    if page.shank is not None and page.shank.head_mm is None:
        notes.append("The height of the head is not known.")
    return notes
