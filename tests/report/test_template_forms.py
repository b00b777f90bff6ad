"""A template in tiles for paper and as DXF: where the holes are, how wide it prints, and what a public reader finds."""

import io
import re
from dataclasses import replace
from itertools import pairwise
from typing import TYPE_CHECKING

import pytest

from fasten.report.svg import text_width_mm
from fasten.report.template.dxf import template_dxf
from fasten.report.template.sheet import TemplateSheet
from fasten.report.template.tiles import OVERLAP_MM, TILE_MM, template_html, tiles_of
from fasten.report.template.written import FORMATS, written

if TYPE_CHECKING:
    from ezdxf.document import Drawing

CENTRES = ((-120.0, -90.0), (120.0, -90.0), (120.0, 90.0), (-120.0, 90.0))
SHEET = TemplateSheet(
    title="Drilling template: left amplifier", centres_mm=CENTRES, hole_mm=7.6, pilot_mm=3.0,
    hole_note="7.6 mm × through", outline=(280.0, 220.0), edge_mm=40.0, notes=("M5 – [M8] \\U+0041 ö",),
)  # fmt: skip
A4_MM, LETTER_MM, MARGIN_MM = (210.0, 297.0), (215.9, 279.4), 12.0


def read_back(text: str) -> "Drawing":
    from ezdxf.filemanagement import read  # by whoever reads, not by every process that collects

    return read(io.StringIO(text.replace("\r\n", "\n")))


def test_a_tile_fits_a4_and_letter_within_its_margins() -> None:
    """ISO 216 A4 and ANSI A: anything wider shrinks the whole print."""
    for paper in (A4_MM, LETTER_MM):
        assert all(tile <= side - 2 * MARGIN_MM for tile, side in zip(TILE_MM, paper, strict=True))
    html = template_html(SHEET)
    sizes = re.findall(r'width="([0-9.]+)mm" height="([0-9.]+)mm"', html)
    assert sizes
    assert all((float(width), float(height)) == TILE_MM for width, height in sizes)
    assert "size" not in re.findall(r"@page\{(.*?)\}", html)[0]


def test_every_view_of_a_tile_is_in_millimetres() -> None:
    html = template_html(SHEET)
    for width, height, view in re.findall(
        r'width="([0-9.]+)(?:mm)?" height="([0-9.]+)(?:mm)?"[^>]*viewBox="([^"]+)"', html
    ):
        assert view.split()[2:] == [width, height]


def test_tiles_cover_a_drawing_and_lie_over_one_another() -> None:
    for width, height in ((100.0, 100.0), (173.0, 242.0), (280.0, 220.0), (500.0, 900.0)):
        tiles = tiles_of(width, height)
        for along, side, inner in (
            (sorted({tile.x_mm for tile in tiles}), width, TILE_MM[0] - 12.0),
            (sorted({tile.y_mm for tile in tiles}), height, TILE_MM[1] - 12.0),
        ):
            assert along[-1] + inner >= side
            assert all(after - before == pytest.approx(inner - OVERLAP_MM) for before, after in pairwise(along))
    assert len(tiles_of(100.0, 100.0)) == 1


def test_each_tile_has_a_line_of_100_mm_across_and_up() -> None:
    html = template_html(SHEET)
    for tile in html.split('<svg class="tile"')[1:]:
        lines = re.findall(r'x1="([0-9.]+)" y1="([0-9.]+)" x2="([0-9.]+)" y2="([0-9.]+)"[^>]*data-scale="100"', tile)
        across = {(round(abs(float(c) - float(a)), 3), round(abs(float(d) - float(b)), 3)) for a, b, c, d in lines}
        assert across == {(100.0, 0.0), (0.0, 100.0)}
        assert tile.count("it measures ______ mm") == 2


def test_a_reader_of_dxf_finds_every_hole_in_mm_and_nothing_wrong() -> None:
    """Read back by ezdxf, which was made from the published reference of the format."""
    read = read_back(template_dxf(SHEET))
    audit = read.audit()
    assert (read.dxfversion, read.header["$INSUNITS"]) == ("AC1009", 4)
    assert not audit.errors
    assert not audit.fixes
    space = read.modelspace()
    holes = {
        (round(e.dxf.center.x, 3), round(e.dxf.center.y, 3), e.dxf.radius)
        for e in space.query('CIRCLE[layer=="HOLES"]')
    }
    assert holes == {(x, y, 3.8) for x, y in CENTRES}
    assert {layer.dxf.name for layer in read.layers} >= {"HOLES", "CENTRES", "OUTLINE", "CUTOUT", "CHECK", "NOTES"}
    lengths = sorted((e.dxf.end - e.dxf.start).magnitude for e in space.query('LINE[layer=="CHECK"]'))
    assert lengths == [100.0, 100.0]
    outline = space.query('POLYLINE[layer=="OUTLINE"]')[0]
    assert {(v.dxf.location.x, v.dxf.location.y) for v in outline.vertices} == {
        (x, y) for x in (-140.0, 140.0) for y in (-110.0, 110.0)
    }


def test_a_dxf_is_plain_ascii_with_its_own_line_ends() -> None:
    text = template_dxf(SHEET)
    assert text.isascii()
    assert text.endswith("  0\r\nEOF\r\n")
    assert text.count("\n") == text.count("\r\n")
    assert "7.6 mm x through" in text


def test_a_hexagon_is_drawn_by_its_flats() -> None:
    shape = TemplateSheet(
        title="t", centres_mm=((0.0, 0.0),), hole_mm=9.0, pilot_mm=None, hole_note="", outline=None, edge_mm=None,
        notes=(), hole_shape="hexagon",
    )  # fmt: skip
    read = read_back(template_dxf(shape))
    ring = read.modelspace().query('POLYLINE[layer=="HOLES"]')[0]
    xs = [vertex.dxf.location.x for vertex in ring.vertices]
    assert len(xs) == 6
    assert max(xs) - min(xs) == pytest.approx(9.0, abs=1e-3)


def test_each_form_has_the_title_and_another_is_no_form() -> None:
    assert all("Drilling template: left amplifier" in written(SHEET, form) for form in FORMATS)
    with pytest.raises(ValueError, match="pdf"):
        written(SHEET, "pdf")


def test_the_words_at_the_foot_of_a_tile_stand_clear_of_each_other() -> None:
    """Those on one line of the band together take less than its width, with the longest title there may be."""
    html = template_html(replace(SHEET, title="Drilling template: " + "W" * 60))
    tile = html.split('<svg class="tile"')[1].split("</svg>")[1]
    words = re.findall(r'<text x="([0-9.]+)" y="(2[45][0-9.]*)"[^>]*>([^<]*)</text>', tile)
    by_line: dict[float, float] = {}
    for _, y, said in words:
        by_line[float(y)] = by_line.get(float(y), 0.0) + text_width_mm(said, 3.0)
    assert len(words) == 3
    assert all(width <= TILE_MM[0] - 12.0 for width in by_line.values()), by_line
