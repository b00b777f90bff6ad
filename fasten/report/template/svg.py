"""Drilling template of a mount point at 1:1, to print, to check with a ruler, and to centre punch through."""

from collections.abc import Iterator
from math import atan2, cos, pi, sin

from fasten.record import record
from fasten.report.svg import BLACK, GREY, Box, document, label, line, line_height_mm, path, tag, text_width_mm
from fasten.report.svg_labels import Number
from fasten.report.template.odd import OddHole
from fasten.report.template.plan import (
    GRID_MM,
    MARGIN_MM,
    PRINT,
    SCALE_MM,
    SCALE_ROOM_MM,
    SMALL,
    STRONG,
    TEXT,
    TITLE,
    Block,
    Plan,
    arm_mm,
    behind_of,
    edge_text,
    fits,
    least_text,
    outline_text,
    planned,
    sizes_text,
    under,
)
from fasten.report.template.sheet import TemplateSheet, check, sheet_for
from fasten.text.figures import counted
from fasten.text.units import number

__all__ = ["TemplateSheet", "sheet_for", "template_svg"]

_DASHES, _DOTS = "1.2 0.8", "4 1 0.8 1"
_ARROW_MM, _MARK_MM, _DIMENSION_IN_MM = 2.0, 1.2, 5.0  # the last: of a dimension line inside the frame
_CORNERS = {"square": 4, "hexagon": 6}
_HALF_CIRCLE = 12  # sides of half a circle of a slot


def template_svg(sheet: TemplateSheet) -> str:
    """The template as an SVG document, one unit a millimetre.

    Each hole is a circle with `data-hole`, `data-x` and `data-y`: its number and its centre as the pattern has it.

    Raises: FastenError for a sheet without centres, or a size that is not a finite number above 0.
    """
    check(sheet)
    plan = planned(sheet)
    width, height = plan.box.width_mm, plan.box.height_mm
    described = (
        f"{counted(len(sheet.centres_mm), 'centre')} at 1:1. {sheet.hole_note}. {sizes_text(sheet.centres_mm)} {PRINT}"
    )
    shift = -plan.box.x0, -plan.box.y0
    grid = () if fits("A4", width, height) else _grid(sheet, plan, shift)
    drawn = (*_drawn(sheet, plan, shift), *_paper(plan, shift))
    return document(width, height, sheet.title, described, *grid, *drawn)


@record
class Drawing:
    """A template without its paper: the elements of its drawing and how large it is [mm]."""

    width_mm: float
    height_mm: float
    parts: tuple[str, ...]


def drawing(sheet: TemplateSheet) -> Drawing:
    """The template as elements of a drawing, for whatever lays it on paper.

    Raises: FastenError for a sheet without centres, or a size that is not a finite number above 0.
    """
    check(sheet)
    plan = planned(sheet)
    shift = -plan.box.x0, -plan.box.y0
    below_mm = line_height_mm(TEXT) * (len(plan.paper) + 0.3)
    return Drawing(plan.box.width_mm, plan.box.height_mm - below_mm, tuple(_drawn(sheet, plan, shift)))


def _drawn(sheet: TemplateSheet, plan: Plan, shift: tuple[float, float]) -> Iterator[str]:
    yield from _borders(sheet, plan, shift)
    yield from _dimensions(plan, shift)
    for place, (x, y) in enumerate(plan.holes):
        yield from _hole(sheet, plan, place, (x + shift[0], y + shift[1]))
    yield from _old(sheet, shift)
    for entry in plan.numbers:
        yield from _number(entry, shift)
    yield from _text(plan.block, shift)


def _paper(plan: Plan, shift: tuple[float, float]) -> Iterator[str]:
    """What paper the drawing takes as it is, at its foot."""
    x, y = plan.box.x0 + MARGIN_MM + shift[0], plan.box.y1 - MARGIN_MM + shift[1]
    step = line_height_mm(TEXT)
    for place, text in enumerate(reversed(plan.paper)):
        yield label(x, y - 0.3 * step - place * step, text, TEXT)


def _hole(sheet: TemplateSheet, plan: Plan, place: int, centre: tuple[float, float]) -> Iterator[str]:
    """Finished hole, pilot, and a cross through the centre."""
    (x, y), (own_x, own_y), (hole, shape) = centre, sheet.centres_mm[place], sheet.hole_at(place)
    arm = (hole or 0.0) / 2 + arm_mm(sheet)
    if hole is not None:
        yield tag("circle", cx=x, cy=y, r=hole / 2, fill="none", stroke=BLACK, stroke_width=0.25,
                  data_hole=str(place + 1), data_x=own_x, data_y=own_y)  # fmt: skip
        yield from _corners(shape, hole, centre)
    odd = sheet.odd_at(place)
    if odd is not None:
        yield from _odd(odd, (x - own_x, y + own_y), centre)
    if sheet.pilot_mm is not None and odd is None:
        yield tag("circle", cx=x, cy=y, r=sheet.pilot_mm / 2, fill="none", stroke=BLACK, stroke_width=0.15,
                  stroke_dasharray="0.6 0.4", data_pilot=str(place + 1))  # fmt: skip
    for away_x, away_y in ((arm, 0.0), (0.0, arm)):
        yield line(x - away_x, y - away_y, x + away_x, y + away_y, stroke_width=0.15, data_cross=str(place + 1))


def _odd(odd: OddHole, shift: tuple[float, float], centre: tuple[float, float]) -> Iterator[str]:
    """The item's slot over a hole that is off its place, or the plate over it with its rivets."""
    number_ = str(odd.place + 1)
    if odd.slot is not None:
        (x, y), wide = odd.slot
        ends = ((x + shift[0], shift[1] - y), centre)
        yield path(_slot(ends, wide / 2), stroke_width=0.2, stroke_dasharray=_DASHES, data_slot=number_)
    if odd.plate_mm is not None:
        half, (x, y) = odd.plate_mm / 2, centre
        yield tag("rect", x=x - half, y=y - half, width=2 * half, height=2 * half, fill="none", stroke=BLACK,
                  stroke_width=0.2, stroke_dasharray=_DASHES, data_plate=number_)  # fmt: skip
    if odd.rivets is not None:
        pitch, wide = odd.rivets
        for to_x, to_y in ((-1, -1), (1, -1), (1, 1), (-1, 1)):
            yield tag("circle", cx=centre[0] + to_x * pitch / 2, cy=centre[1] + to_y * pitch / 2, r=wide / 2,
                      fill="none", stroke=BLACK, stroke_width=0.2, data_rivet=number_)  # fmt: skip


def _slot(ends: tuple[tuple[float, float], tuple[float, float]], radius: float) -> list[tuple[float, float]]:
    """The outline of a slot: two half circles and the sides between them."""
    (x0, y0), (x1, y1) = ends
    along = atan2(y1 - y0, x1 - x0)
    found = []
    for (x, y), start in (((x0, y0), along + pi / 2), ((x1, y1), along - pi / 2)):
        turns = (start + step * pi / _HALF_CIRCLE for step in range(_HALF_CIRCLE + 1))
        found += [(x + radius * cos(turn), y + radius * sin(turn)) for turn in turns]
    return found


def _old(sheet: TemplateSheet, shift: tuple[float, float]) -> Iterator[str]:
    """Holes that are left behind: thin circles, crossed out."""
    for one in sheet.old:
        x, y, half = one.centre_mm[0] + shift[0], shift[1] - one.centre_mm[1], one.diameter_mm / 2
        yield tag("circle", cx=x, cy=y, r=half, fill="none", stroke=GREY, stroke_width=0.15, data_old="plug")
        yield line(x - half, y - half, x + half, y + half, stroke_width=0.15, stroke=GREY)


def _corners(shape: str, flats: float, centre: tuple[float, float]) -> Iterator[str]:
    """The outline of a hole with flats round the circle that the bit leaves."""
    count = _CORNERS.get(shape)
    if count is not None:
        radius = flats / 2 / cos(pi / count)
        angles = [pi / count * (2 * step + 1) for step in range(count)]
        yield path(((centre[0] + radius * cos(a), centre[1] + radius * sin(a)) for a in angles), stroke_width=0.25)


def _number(entry: Number, shift: tuple[float, float]) -> Iterator[str]:
    x, _ = entry.box.middle
    yield label(x + shift[0], entry.box.y1 - 0.05 * entry.size + shift[1], entry.text, entry.size,
                text_anchor="middle", data_number=entry.text)  # fmt: skip
    if entry.leader:
        (x1, y1), (x2, y2) = entry.leader
        yield line(x1 + shift[0], y1 + shift[1], x2 + shift[0], y2 + shift[1], stroke_width=0.1, stroke=GREY)


# -- what lies round the holes ----------------------------------------------------------------------------------------


def _borders(sheet: TemplateSheet, plan: Plan, shift: tuple[float, float]) -> Iterator[str]:
    if plan.outline is not None:
        yield from _border(plan.outline.moved(*shift), outline_text(sheet), "outline", _DOTS, 0.0)
    if plan.edge is not None:
        yield from _border(
            plan.edge.moved(*shift), least_text(sheet), "edge-least", _DASHES, sheet.edge_least_mm or 0.0
        )
    if plan.edge_y is not None:
        y, x0 = plan.edge_y + shift[1], plan.inner.x0 + shift[0]
        x1 = max(plan.inner.x1 + shift[0], x0 + text_width_mm(edge_text(sheet), SMALL))
        yield line(x0, y, x1, y, stroke_width=0.5, data_line="edge")
        yield label(x0, y + 0.6 + SMALL, edge_text(sheet), SMALL)


def _border(box: Box, text: str, name: str, dashes: str, round_mm: float) -> Iterator[str]:
    yield tag("rect", x=box.x0, y=box.y0, width=box.width_mm, height=box.height_mm, rx=round_mm, fill="none",
              stroke=BLACK, stroke_width=0.2, stroke_dasharray=dashes, data_line=name)  # fmt: skip
    yield label(*under(box), text, SMALL)


def _dimensions(plan: Plan, shift: tuple[float, float]) -> Iterator[str]:
    """How far it is over all between centres, across above the drawing and up on its left."""
    frame, inner = plan.frame.moved(*shift), plan.inner.moved(*shift)
    for axis, (off, to) in enumerate(
        ((frame.y0 + _DIMENSION_IN_MM, inner.y0), (frame.x0 + _DIMENSION_IN_MM, inner.x0))
    ):
        along = [centre[axis] + shift[axis] for centre in plan.holes]
        if max(along) - min(along) > 0.005:
            yield from _dimension(axis, (min(along), max(along)), off, to)


def _dimension(axis: int, ends: tuple[float, float], off: float, to: float) -> Iterator[str]:
    """A dimension line along an axis, so far off the other one, with thin lines to what it measures."""

    def at(along: float, across: float) -> tuple[float, float]:
        return (along, across) if axis == 0 else (across, along)

    start, end = ends
    for place in ends:
        yield line(*at(place, off - 1.0), *at(place, to), stroke_width=0.1, stroke=GREY)
    yield line(*at(start, off), *at(end, off), stroke_width=0.15, data_dimension="xy"[axis])
    for place, way in ((start, _ARROW_MM), (end, -_ARROW_MM)):
        if end - start > 3 * _ARROW_MM:
            tip = (at(place, off), at(place + way, off - 0.4), at(place + way, off + 0.4))
            yield path(tip, fill=BLACK, stroke="none")
    x, y = at((start + end) / 2, off - 0.8)
    turn = None if axis == 0 else f"rotate(-90 {number(x, 4)} {number(y, 4)})"
    yield label(x, y, f"{number(end - start, 2)} mm", TEXT, text_anchor="middle", transform=turn)


def _text(block: Block, shift: tuple[float, float]) -> Iterator[str]:
    """The block of text, with the line to measure after its first lines."""
    x, y = block.box.x0 + shift[0], block.box.y0 + shift[1]
    for place, (text, size) in enumerate(block.lines):
        if place == block.scale_after:
            yield from _scale(x, y + 2.0)
            y += SCALE_ROOM_MM
        y += line_height_mm(size)
        bold = "bold" if size in {TITLE, STRONG} else None
        yield label(x, y - 0.3 * size, text, size, font_weight=bold)


def _scale(x: float, y: float) -> Iterator[str]:
    """A line of 50 mm with a tick every 10 mm, to be measured once it is printed."""
    yield line(x, y, x + SCALE_MM, y, stroke_width=0.3, data_scale=SCALE_MM)
    for step in range(6):
        tall = 2.5 if step % 5 == 0 else 1.5
        yield line(x + step * SCALE_MM / 5, y - tall / 2, x + step * SCALE_MM / 5, y + tall / 2, stroke_width=0.2)
    yield label(x, y + 2.0 + TEXT, f"{number(SCALE_MM, 0)} mm: measure this line on the print", TEXT)


def _grid(sheet: TemplateSheet, plan: Plan, shift: tuple[float, float]) -> Iterator[str]:
    """Marks at even distances all over, to join printed sheets by; none on a hole, a number or words."""
    kept = [box.grown(1.0) for box in (*_written(plan), *behind_of(sheet))]
    box = plan.box.grown(-_MARK_MM - 1.0)
    for row in range(int(box.height_mm // GRID_MM) + 1):
        for column in range(int(box.width_mm // GRID_MM) + 1):
            x, y = box.x0 + column * GRID_MM, box.y0 + row * GRID_MM
            mark = Box(x - _MARK_MM, y - _MARK_MM, x + _MARK_MM, y + _MARK_MM)
            on_hole = any(mark.touches(*hole, plan.radius_mm) for hole in plan.holes)
            if not on_hole and not any(map(mark.overlaps, kept)):
                yield _mark(mark.moved(*shift))


def _mark(box: Box) -> str:
    """A small diamond: nothing that could be taken for the centre of a hole."""
    x, y = box.middle
    corners = ((x, box.y0), (box.x1, y), (x, box.y1), (box.x0, y))
    return path(corners, stroke=GREY, stroke_width=0.15, data_mark=f"{number(x, 4)} {number(y, 4)}")


def _written(plan: Plan) -> Iterator[Box]:
    """Where words and numbers stand, the figures of the dimensions too."""
    yield from (entry.box for entry in plan.numbers)
    yield from (plan.block.box, *plan.words)
    yield Box(plan.box.x0, plan.box.y1 - line_height_mm(TEXT) * (len(plan.paper) + 2), plan.box.x1, plan.box.y1)
    (x0, x1), (y0, y1) = ((min(along), max(along)) for along in zip(*plan.holes, strict=True))
    x, y, room = (x0 + x1) / 2, (y0 + y1) / 2, 12.0
    yield Box(x - room, plan.frame.y0, x + room, plan.frame.y0 + _DIMENSION_IN_MM + 1.0)
    yield Box(plan.frame.x0, y - room, plan.frame.x0 + _DIMENSION_IN_MM + 1.0, y + room)
