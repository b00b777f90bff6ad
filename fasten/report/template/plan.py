"""Where everything goes on a drilling template: about the middle of the centres, in mm, x to the right and y down."""

from math import ceil, dist, inf, sqrt

from fasten.geometry.patterns import spacing_mm
from fasten.record import record
from fasten.report.svg import Box, around, line_height_mm, text_lines, text_width_mm
from fasten.report.svg_labels import Number, numbered
from fasten.report.template.sheet import TemplateSheet
from fasten.require import Points
from fasten.text.figures import counted
from fasten.text.units import number

PRINT = "Print at 100 %, no fit to page; measure the scale line first."
FACE = "Seen from the side you drill; from behind it would be mirrored."
CROSS_MM, GRID_MM, SCALE_ROOM_MM, SCALE_MM, MARGIN_MM = 2.0, 50.0, 11.0, 50.0, 4.0
"""How far a centre mark reaches out of its hole; between marks for joining sheets; the scale line and its room."""
SMALL, TEXT, STRONG, TITLE = 2.6, 3.0, 3.4, 4.6  # sizes of letters

_GAP_MM, _DIMENSION_MM = 2.0, 8.0
_CORNERS = {"square": sqrt(2), "hexagon": 2 / sqrt(3)}
_SHEETS_MM = {"A4": (190.0, 277.0), "A3": (277.0, 400.0)}  # what a printer fills: 10 mm less on every side
_AMID_MM = (170.0, 140.0, 110.0, 90.0)
_BELOW_MM = (130.0, 250.0)


@record
class Block:
    """Lines of text with the sizes of their letters; the scale line is after so many of them."""

    lines: tuple[tuple[str, float], ...]
    scale_after: int
    box: Box


@record
class Plan:
    """Holes and their numbers with all that lies round them; `inner` is round these, `frame` round all that is drawn.

    `words` are the lines round the holes with their words; `box` is round everything, with a margin.
    """

    holes: Points
    radius_mm: float
    numbers: tuple[Number, ...]
    outline: Box | None
    edge: Box | None
    edge_y: float | None
    words: tuple[Box, ...]
    inner: Box
    frame: Box
    block: Block
    paper: tuple[str, ...]
    box: Box


def planned(sheet: TemplateSheet) -> Plan:
    """The sheet laid out."""
    holes, radius = tuple((x, -y) for x, y in sheet.centres_mm), _radius(sheet)
    behind = behind_of(sheet)
    circles = around([around(Box(x, y, x, y) for x, y in holes).grown(radius), *behind])
    outline, edge, edge_y = _outline(sheet), _edge(sheet), _edge_y(sheet)
    lines = _lines(sheet, outline, edge)
    beyond = [] if edge_y is None else [Box(-inf, edge_y - 0.3, inf, inf)]
    numbers = numbered(holes, radius, (*lines, *beyond, *behind))
    inner = around([circles, *(entry.box.grown(0.5) for entry in numbers)])
    lines += [] if edge_y is None else [_edge_line(sheet, inner, edge_y)]
    frame = around([inner, *lines])
    frame = Box(frame.x0 - _DIMENSION_MM, frame.y0 - _DIMENSION_MM, frame.x1 + _GAP_MM, frame.y1 + _GAP_MM)
    block = _amid(sheet, holes, radius, numbers, lines, frame) or _below(sheet, frame)
    drawn = around([frame, block.box])
    paper = _paper_lines(drawn)
    box = Box(drawn.x0, drawn.y0, drawn.x1, drawn.y1 + line_height_mm(TEXT) * (len(paper) + 0.3)).grown(MARGIN_MM)
    return Plan(holes, radius, numbers, outline, edge, edge_y, tuple(lines), inner, frame, block, paper, box)


def _radius(sheet: TemplateSheet) -> float:
    """How far out a hole is drawn: its centre mark, or its corners."""
    holes = [sheet.hole_at(place) for place in range(len(sheet.centres_mm))]
    corners = [(wide or 0.0) / 2 * _CORNERS.get(shape, 1.0) for wide, shape in holes]
    half = max((wide or 0.0) / 2 for wide, _ in holes)
    return max(half + arm_mm(sheet), max(corners) + 0.3)


def behind_of(sheet: TemplateSheet) -> list[Box]:
    """Where holes are that are left behind, and plates over holes."""
    old = ((*one.centre_mm, one.diameter_mm / 2) for one in sheet.old)
    plates = ((*one.centre_mm, one.plate_mm / 2) for one in sheet.odd if one.plate_mm is not None)
    return [Box(x, -y, x, -y).grown(half) for x, y, half in (*old, *plates)]


def arm_mm(sheet: TemplateSheet) -> float:
    """How far a centre mark reaches out of its hole: less where holes are close, so that numbers find room."""
    if len(sheet.centres_mm) == 1:
        return CROSS_MM
    between = spacing_mm(sheet.centres_mm) - (sheet.hole_mm or 0.0)
    return min(CROSS_MM, max(0.3, between / 4))


def _outline(sheet: TemplateSheet) -> Box | None:
    if sheet.outline is None:
        return None
    x, y = sheet.outline[0] / 2, sheet.outline[1] / 2
    return Box(-x, -y, x, y)


def _edge(sheet: TemplateSheet) -> Box | None:
    if sheet.edge_least_mm is None:
        return None
    return around(Box(x, -y, x, -y) for x, y in sheet.centres_mm).grown(sheet.edge_least_mm)


def _edge_y(sheet: TemplateSheet) -> float | None:
    return None if sheet.edge_mm is None else max(-y for _, y in sheet.centres_mm) + sheet.edge_mm


def _lines(sheet: TemplateSheet, outline: Box | None, edge: Box | None) -> list[Box]:
    """Where the outline and the line round the holes lie, each with its words under it."""
    found = []
    for box, text in ((outline, outline_text(sheet)), (edge, least_text(sheet))):
        if box is not None:
            corners = ((box.x0, box.y0), (box.x1, box.y0), (box.x1, box.y1), (box.x0, box.y1))
            sides = zip(corners, corners[1:] + corners[:1], strict=True)
            found += [around((Box(*a, *a), Box(*b, *b))).grown(0.3) for a, b in sides]
            x, y = under(box)
            found.append(Box(x, y - SMALL, x + text_width_mm(text, SMALL), y + 0.3 * SMALL))
    return found


def _edge_line(sheet: TemplateSheet, inner: Box, y: float) -> Box:
    """The edge of the panel, as long as its words at least."""
    return Box(inner.x0, y - 0.3, max(inner.x1, inner.x0 + text_width_mm(edge_text(sheet), SMALL)), y + 1.6 * SMALL)


def under(box: Box) -> tuple[float, float]:
    """Where the words under a line round the holes begin."""
    return box.x0 + 1.0, box.y1 + 0.5 + SMALL


def outline_text(sheet: TemplateSheet) -> str:
    """The words on the item's outline."""
    return f"outline of the item, {number(sheet.outline[0], 2)} x {_mm(sheet.outline[1])}" if sheet.outline else ""


def least_text(sheet: TemplateSheet) -> str:
    """The words on the line that no edge may come inside of."""
    return f"no edge of the panel inside this line, {_mm(sheet.edge_least_mm or 0.0)} from the centres"


def edge_text(sheet: TemplateSheet) -> str:
    """The words on the edge of the panel."""
    return f"edge of the panel, {_mm(sheet.edge_mm or 0.0)} from the nearest centres"


def sizes_text(centres: Points) -> str:
    """Distances between centres, by which a print can be checked beside its scale line."""
    if len(centres) == 1:
        return "One centre."
    box = around(Box(x, y, x, y) for x, y in centres)
    pairs = ((dist(a, b), i + 1, j + 1) for j, b in enumerate(centres) for i, a in enumerate(centres[:j]))
    far, first, last = max(pairs, key=lambda pair: (round(pair[0], 6), -pair[1], -pair[2]))
    sides = [f"{_mm(side)} {way}" for side, way in ((box.width_mm, "across"), (box.height_mm, "up")) if side > 0.005]
    near = f"; the closest two are {_mm(spacing_mm(centres))} apart" if len(centres) > 2 else ""
    return f"Between centres: {', '.join(sides)}; from {first} to {last} it is {_mm(far)}{near}."


def _mm(value: float) -> str:
    return f"{number(value, 2)} mm"


# -- text -------------------------------------------------------------------------------------------------------------


def _notes(sheet: TemplateSheet) -> list[str]:
    """Everything that is written once for all holes."""
    count, hole = len(sheet.centres_mm), sheet.hole_mm
    notes = [f"{counted(count, 'place' if hole is None else 'hole')}: {sheet.hole_note.rstrip('.')}."]
    if hole is not None and sheet.hole_shape != "round":
        notes.append(f"Finished {sheet.hole_shape}, {_mm(hole)} across flats; turn it as the part needs.")
    if sheet.pilot_mm is not None:
        notes.append(f"Dashed circle: {_mm(sheet.pilot_mm)} pilot.")
    notes += ["Thin crossed circles are old holes: prime and plug them."] if sheet.old else []
    notes += [sizes_text(sheet.centres_mm)] if count > 1 else []
    if hole is not None and count > 1 and spacing_mm(sheet.centres_mm) <= hole:
        notes.append("THE HOLES OVERLAP: check the pattern.")
    if sheet.edge_mm is not None:
        notes.append("Lay the edge line on the panel's edge; where the near edge is at another side, measure instead.")
    return [*notes, FACE, *sheet.notes]


def _block(sheet: TemplateSheet, width: float) -> Block:
    """The text at that width, its left top corner at the origin."""
    head = [(text, TITLE) for text in text_lines(sheet.title, width, TITLE, 3)]
    head += [(text, STRONG) for text in text_lines(PRINT, width, STRONG, 3)]
    notes = [(text, TEXT) for entry in _notes(sheet) for text in text_lines(entry, width, TEXT, 5)]
    height = sum(line_height_mm(size) for _, size in head + notes) + SCALE_ROOM_MM
    return Block((*head, *notes), len(head), Box(0.0, 0.0, width, height))


def _amid(
    sheet: TemplateSheet, holes: Points, radius: float, numbers: tuple[Number, ...], lines: list[Box], frame: Box
) -> Block | None:
    """The text amid the holes, where it lies on nothing there."""
    kept = [*(entry.box for entry in numbers), *lines]
    leaders = [entry.leader for entry in numbers if entry.leader]
    for width in _AMID_MM:
        block = _block(sheet, width)
        x, y = block.box.middle
        wide = block.box.moved(-x, -y).grown(3.0)
        on_hole = any(wide.touches(*hole, radius) for hole in holes)
        on_line = any(map(wide.overlaps, kept)) or any(wide.meets(*leader) for leader in leaders)
        if frame.holds(wide) and not on_hole and not on_line:
            return Block(block.lines, block.scale_after, block.box.moved(-x, -y))
    return None


def _below(sheet: TemplateSheet, frame: Box) -> Block:
    least, most = _BELOW_MM
    block = _block(sheet, max(least, min(frame.width_mm, most)))
    return Block(block.lines, block.scale_after, block.box.moved(frame.x0, frame.y1 + _GAP_MM))


# -- paper ------------------------------------------------------------------------------------------------------------


def fits(paper: str, width_mm: float, height_mm: float) -> bool:
    """Whether a drawing of that size prints on one sheet, upright or lying."""
    short, long = _SHEETS_MM[paper]
    return min(width_mm, height_mm) <= short and max(width_mm, height_mm) <= long


def tiles(width_mm: float, height_mm: float) -> tuple[int, int, str]:
    """How many sheets of A4 a drawing takes across and down, and whether they lie or stand."""
    short, long = _SHEETS_MM["A4"]
    upright = ceil(width_mm / short), ceil(height_mm / long), "upright"
    lying = ceil(width_mm / long), ceil(height_mm / short), "lying"
    return min(upright, lying, key=lambda found: found[0] * found[1])


def _paper_lines(drawn: Box) -> tuple[str, ...]:
    """What paper is needed, the lines that say so included."""
    lines: tuple[str, ...] = ()
    for room in range(1, 9):
        height_mm = drawn.height_mm + line_height_mm(TEXT) * (room + 0.3)
        text = _paper(drawn.width_mm + 2 * MARGIN_MM, height_mm + 2 * MARGIN_MM)
        lines = text_lines(text, drawn.width_mm, TEXT, 8)
        if len(lines) <= room:
            break
    return lines


def _paper(width: float, height: float) -> str:
    if fits("A4", width, height):
        return "Paper: A4."
    across, down, way = tiles(width, height)
    size = "A3" if fits("A3", width, height) else f"at least {ceil(width) + 20} x {ceil(height) + 20} mm"
    return (
        f"Paper: {size}; or as a poster on {across * down} sheets of A4 {way}, {across} across and {down} down. "
        f"The small diamonds are not holes: they are {_mm(GRID_MM)} apart, for joining the sheets."
    )
