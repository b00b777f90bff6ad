"""A template as DXF of release 12, which routers, lasers and plotters read: in mm, seen from the side you drill.

Source: the release 12 reference of the format, groups of a code and a value on lines of their own (from memory; a
public reader takes the file and finds nothing wrong with it).
"""

from collections.abc import Iterator
from math import cos, pi, sin

from fasten.record import record
from fasten.report.template.sheet import TemplateSheet, check
from fasten.text.units import number

LAYERS = (("HOLES", 1), ("CENTRES", 3), ("OUTLINE", 7), ("CUTOUT", 5), ("CHECK", 8), ("NOTES", 8))
MEASURED_MM = 100.0
_MM, _METRIC = 4, 1
_ARM_MM, _AWAY_MM, _LETTERS_MM = 8.0, 25.0, 4.0
_LONGEST = 240  # characters of a text that every reader takes
_CORNERS = {"square": 4, "hexagon": 6}
_PLAIN = str.maketrans({"×": "x", "–": "-", "−": "-", "°": " deg", "·": ".", "≥": ">=", "≤": "<="})

_Group = tuple[int, str | int | float]


@record
class _Extent:
    """Least and greatest x and y of all that is drawn [mm]."""

    x0: float
    y0: float
    x1: float
    y1: float


def template_dxf(sheet: TemplateSheet) -> str:
    """The template as the text of a DXF file, lines ended as the format has them.

    Raises: FastenError for a sheet without centres, or a size that is not a finite number above 0.
    """
    check(sheet)
    extent = _extent(sheet)
    groups = [*_header(extent), *_tables(), *_section("ENTITIES", _entities(sheet, extent)), (0, "EOF")]
    return "".join(f"{code:>3}\r\n{_value(value)}\r\n" for code, value in groups)


def _value(value: str | int | float) -> str:
    if isinstance(value, float):
        return f"{value:.4f}"
    return str(value).translate(_PLAIN).encode("ascii", "replace").decode() if isinstance(value, str) else str(value)


def _extent(sheet: TemplateSheet) -> _Extent:
    xs, ys = zip(*sheet.centres_mm, strict=True)
    half_x, half_y = (side / 2 for side in sheet.outline) if sheet.outline else (0.0, 0.0)
    return _Extent(
        min(*xs, -half_x, xs[0]) - _AWAY_MM, min(*ys, -half_y, ys[0]) - _AWAY_MM,
        max(*xs, half_x, xs[0]) + _AWAY_MM, max(*ys, half_y, ys[0]) + _AWAY_MM,
    )  # fmt: skip


def _section(name: str, groups: Iterator[_Group]) -> Iterator[_Group]:
    yield from ((0, "SECTION"), (2, name))
    yield from groups
    yield (0, "ENDSEC")


def _header(extent: _Extent) -> Iterator[_Group]:
    def said() -> Iterator[_Group]:
        yield from ((9, "$ACADVER"), (1, "AC1009"), (9, "$INSUNITS"), (70, _MM), (9, "$MEASUREMENT"), (70, _METRIC))
        for name, x, y in (("$EXTMIN", extent.x0, extent.y0), ("$EXTMAX", extent.x1, extent.y1)):
            yield (9, name)
            yield from _point(x, y)

    return _section("HEADER", said())


def _tables() -> Iterator[_Group]:
    def said() -> Iterator[_Group]:
        yield from ((0, "TABLE"), (2, "LTYPE"), (70, 1), (0, "LTYPE"), (2, "CONTINUOUS"), (70, 0), (3, "Solid line"))
        yield from ((72, 65), (73, 0), (40, 0.0), (0, "ENDTAB"), (0, "TABLE"), (2, "LAYER"), (70, len(LAYERS)))
        for name, colour in LAYERS:
            yield from ((0, "LAYER"), (2, name), (70, 0), (62, colour), (6, "CONTINUOUS"))
        yield (0, "ENDTAB")

    return _section("TABLES", said())


def _point(x: float, y: float, first: int = 10) -> Iterator[_Group]:
    yield from ((first, float(x)), (first + 10, float(y)), (first + 20, 0.0))


def _entities(sheet: TemplateSheet, extent: _Extent) -> Iterator[_Group]:
    for place, (x, y) in enumerate(sheet.centres_mm):
        yield from _hole(sheet, place, x, y)
        yield from _line("CENTRES", x - _ARM_MM, y, x + _ARM_MM, y)
        yield from _line("CENTRES", x, y - _ARM_MM, x, y + _ARM_MM)
    if sheet.outline is not None:
        x, y = (side / 2 for side in sheet.outline)
        yield from _ring("OUTLINE", ((-x, -y), (x, -y), (x, y), (-x, y)))
    x0, y0 = extent.x0 + 5.0, extent.y0 + 5.0
    yield from _line("CHECK", x0, y0, x0 + MEASURED_MM, y0)
    yield from _line("CHECK", x0, y0, x0, y0 + MEASURED_MM)
    notes = (f"{sheet.title}; scale 1:1 in mm; the CHECK lines are {number(MEASURED_MM, 0)} mm long", *_notes(sheet))
    for place, note in enumerate(notes, start=1):
        yield from _text(x0, extent.y0 - 2 * _LETTERS_MM * place, note)


def _notes(sheet: TemplateSheet) -> tuple[str, ...]:
    hole = "places only, nothing is drilled" if sheet.hole_mm is None else sheet.hole_note
    return (hole, "seen from the side you drill", *sheet.notes)


def _hole(sheet: TemplateSheet, place: int, x: float, y: float) -> Iterator[_Group]:
    """A hole at its size: a circle, or the outline of flats; a pilot within it belongs to the centres."""
    (hole_mm, shape), odd = sheet.hole_at(place), sheet.odd_at(place)
    count = _CORNERS.get(shape)
    if hole_mm is not None and count is not None:
        yield from _flats(count, hole_mm, x, y)
    elif hole_mm is not None:
        yield from _circle("HOLES", x, y, hole_mm / 2)
    if odd is not None and odd.rivets is not None:
        pitch, wide = odd.rivets
        for to_x, to_y in ((-1, -1), (1, -1), (1, 1), (-1, 1)):
            yield from _circle("HOLES", x + to_x * pitch / 2, y + to_y * pitch / 2, wide / 2)
    if sheet.pilot_mm is not None and odd is None:
        yield from _circle("CENTRES", x, y, sheet.pilot_mm / 2)


def _flats(count: int, across_mm: float, x: float, y: float) -> Iterator[_Group]:
    radius = across_mm / 2 / cos(pi / count)
    angles = [pi / count * (2 * step + 1) for step in range(count)]
    yield from _ring("HOLES", tuple((x + radius * cos(angle), y + radius * sin(angle)) for angle in angles))


def _circle(layer: str, x: float, y: float, radius: float) -> Iterator[_Group]:
    yield from _begun("CIRCLE", layer, x, y)
    yield (40, float(radius))


def _line(layer: str, x0: float, y0: float, x1: float, y1: float) -> Iterator[_Group]:
    yield from _begun("LINE", layer, x0, y0)
    yield from _point(x1, y1, 11)


def _ring(layer: str, corners: tuple[tuple[float, float], ...]) -> Iterator[_Group]:
    """A closed polyline."""
    yield from _begun("POLYLINE", layer, 0.0, 0.0)
    yield from ((66, 1), (70, 1))
    for x, y in corners:
        yield from _begun("VERTEX", layer, x, y)
    yield from ((0, "SEQEND"), (8, layer))


def _text(x: float, y: float, words: str) -> Iterator[_Group]:
    yield from _begun("TEXT", "NOTES", x, y)
    yield from ((40, _LETTERS_MM), (1, " ".join(words.split())[:_LONGEST]))


def _begun(kind: str, layer: str, x: float, y: float) -> Iterator[_Group]:
    """The first groups of an entity: what it is, its layer and its first point."""
    yield from ((0, kind), (8, layer))
    yield from _point(x, y)
