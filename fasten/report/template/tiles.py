"""A template in tiles that fit A4 and Letter alike: each is cut out along its marks and laid over its neighbour.

A tile is 185 x 254 mm inside margins of 12 mm: Letter leaves 191.9 x 255.4 mm, A4 186 x 273. Nothing is wider, for a
browser shrinks the whole print to its widest line. Along its left and foot runs a band with a line to measure.
"""

from collections.abc import Iterator
from math import ceil

from fasten.record import record
from fasten.report.paper.page import text
from fasten.report.svg import BLACK, GREY, label, line, tag, text_width_mm
from fasten.report.template.sheet import TemplateSheet
from fasten.report.template.svg import drawing
from fasten.text.units import number

TILE_MM = (185.0, 254.0)
OVERLAP_MM = 10.0
MEASURED_MM = 100.0
_BAND_MM = 12.0
_MARK_MM = 5.0
_LETTERS_MM = 3.0
_INNER_MM = (TILE_MM[0] - _BAND_MM, TILE_MM[1] - _BAND_MM)
_STYLE = (
    "@page{margin:12mm}html,body{margin:0;background:#fff}"
    "svg.tile{display:block;break-after:page;break-inside:avoid}svg.tile:last-child{break-after:auto}"
    "@media screen{svg.tile{border-bottom:1px dashed #888;margin:8mm}}"
)


@record
class Tile:
    """A tile of a drawing: its row and column from 1, and where its part of the drawing begins [mm]."""

    row: int
    column: int
    x_mm: float
    y_mm: float


def tiles_of(width_mm: float, height_mm: float) -> tuple[Tile, ...]:
    """The tiles of a drawing of that size, row by row; each lies over its neighbour by the overlap."""
    step_x, step_y = (side - OVERLAP_MM for side in _INNER_MM)
    columns = max(1, ceil((width_mm - OVERLAP_MM) / step_x))
    rows = max(1, ceil((height_mm - OVERLAP_MM) / step_y))
    return tuple(
        Tile(row + 1, column + 1, column * step_x, row * step_y) for row in range(rows) for column in range(columns)
    )


def template_html(sheet: TemplateSheet) -> str:
    """The template as a page of HTML, a tile on each sheet of paper, one unit of its drawings a millimetre.

    Raises: FastenError for a sheet without centres, or a size that is not a finite number above 0.
    """
    drawn = drawing(sheet)
    tiles = tiles_of(drawn.width_mm, drawn.height_mm)
    inner = "\n".join(drawn.parts)
    return "\n".join(
        [
            "<!DOCTYPE html>", '<html lang="en">', "<head>", '<meta charset="utf-8">',
            '<meta http-equiv="Content-Security-Policy" content="default-src \'none\'; style-src \'unsafe-inline\'">',
            f"<title>{text(sheet.title)}</title>", f"<style>{_STYLE}</style>", "</head>", "<body>",
            *(_tile(tile, tiles, inner, sheet.title) for tile in tiles), "</body>", "</html>", "",
        ]
    )  # fmt: skip


def _tile(tile: Tile, tiles: tuple[Tile, ...], inner: str, title: str) -> str:
    width, height = (number(side, 0) for side in TILE_MM)
    view = f"{number(tile.x_mm, 3)} {number(tile.y_mm, 3)} {number(_INNER_MM[0], 0)} {number(_INNER_MM[1], 0)}"
    part = (
        f'<svg x="{number(_BAND_MM, 0)}" y="0" width="{number(_INNER_MM[0], 0)}" height="{number(_INNER_MM[1], 0)}" '
        f'viewBox="{view}">\n{inner}\n</svg>'
    )
    head = f'<svg class="tile" xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm"'
    drawn = "\n".join([part, *_frame(), *_measured(), *_named(tile, tiles, title)])
    return f'{head} viewBox="0 0 {width} {height}" font-family="sans-serif">\n{drawn}\n</svg>'


def _frame() -> Iterator[str]:
    """Where the tile is cut, and how far the next one lies over it."""
    (wide, _), (tile_wide, high) = _INNER_MM, TILE_MM
    x0, y1 = _BAND_MM, high - _BAND_MM
    yield tag("rect", x=x0 + 0.1, y=0.1, width=wide - 0.2, height=y1 - 0.2, fill="none", stroke=GREY, stroke_width=0.15)
    for x in (x0 + OVERLAP_MM, tile_wide - OVERLAP_MM):
        for y, way in ((0.0, _MARK_MM), (y1, -_MARK_MM)):
            yield line(x, y, x, y + way, stroke_width=0.25, data_cut="x")
    for y in (OVERLAP_MM, y1 - OVERLAP_MM):
        for x, way in ((x0, _MARK_MM), (tile_wide, -_MARK_MM)):
            yield line(x, y, x + way, y, stroke_width=0.25, data_cut="y")


def _measured() -> Iterator[str]:
    """A line across and one up, to be measured on every print: a printer may stretch one way alone."""
    foot, left = TILE_MM[1] - 7.0, 6.0
    begin, end = _BAND_MM, _BAND_MM + MEASURED_MM
    yield line(begin, foot, end, foot, stroke_width=0.3, data_scale=MEASURED_MM, stroke=BLACK)
    yield from (line(x, foot - 1.5, x, foot + 1.5, stroke_width=0.2) for x in (begin, end))
    yield label(begin + 2.0, foot - 1.8, f"{number(MEASURED_MM, 0)} mm across: it measures ______ mm", 3.0)
    yield line(left, begin, left, end, stroke_width=0.3, data_scale=MEASURED_MM, stroke=BLACK)
    yield from (line(left - 1.5, y, left + 1.5, y, stroke_width=0.2) for y in (begin, end))
    turn = f"rotate(-90 {number(left - 2.0, 2)} {number(end, 2)})"
    yield label(left - 2.0, end, f"{number(MEASURED_MM, 0)} mm up: it measures ______ mm", 3.0, transform=turn)


def _named(tile: Tile, tiles: tuple[Tile, ...], title: str) -> Iterator[str]:
    """Which tile it is, at its foot."""
    rows, columns = max(one.row for one in tiles), max(one.column for one in tiles)
    place = f"row {tile.row} of {rows}, column {tile.column} of {columns}" if len(tiles) > 1 else "one sheet"
    over = f", lay each {number(OVERLAP_MM, 0)} mm over the next" if len(tiles) > 1 else ""
    yield label(TILE_MM[0] - 1.0, TILE_MM[1] - 6.0, place, 3.0, text_anchor="end")
    how = f": print at 100 %{over}"
    said = _within(title, _INNER_MM[0] - text_width_mm(how, _LETTERS_MM)) + how
    yield label(TILE_MM[0] - 1.0, TILE_MM[1] - 2.0, said, _LETTERS_MM, text_anchor="end")


def _within(title: str, room_mm: float) -> str:
    """As much of a title as there is room for."""
    return next(title[:end] for end in range(len(title), -1, -1) if text_width_mm(title[:end], _LETTERS_MM) <= room_mm)
