"""The template read back from its SVG: 1:1 in mm, centres and diameters as the pattern has them, nothing on a hole."""

import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from itertools import combinations, pairwise
from math import dist, hypot
from xml.etree import ElementTree as ET

import pytest
from built.few import few
from hypothesis import example, given, settings
from hypothesis import strategies as st

from fasten.advice.advise import advise
from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.geometry import patterns
from fasten.model import Advice
from fasten.question.read import read_question
from fasten.question.resolve import resolve
from fasten.report.safe import safe
from fasten.report.template.svg import TemplateSheet, sheet_for, template_svg
from fasten.require import Points

from .sample import RIVET_NUT_ANSWER, UNPROVEN_ANSWER
from .sample_joints import MOUNT

SVG = "{http://www.w3.org/2000/svg}"
POINTS = ((-50.0, 10.0), (30.0, -20.0), (20.0, 10.0))
SHEET = TemplateSheet(
    title="left amplifier", centres_mm=patterns.rectangle(4, 240, 180), hole_mm=7.6, pilot_mm=3.0,
    hole_note="7.6 mm, bit 7.6 mm", outline=None, edge_mm=None, notes=("invented for the test",),
)  # fmt: skip
AMPLIFIER = {
    "item": "amplifier", "onto": "steel 0.8 mm", "removed": "yearly", "mass": "6kg", "fixings": "4",
    "pattern": "rectangle 240x180", "item-thickness": "3mm", "item-hole": "5.5mm", "reach": "one-side",
}  # fmt: skip


@cache
def amplifier(edge: str = "") -> Advice:
    said = AMPLIFIER | ({"edge": edge} if edge else {})
    return advise(resolve(read_question(said, builtin()), builtin()), builtin(), changes=False)


def drawn(sheet: TemplateSheet) -> ET.Element:
    return ET.fromstring(template_svg(sheet))


def with_data(root: ET.Element, name: str) -> list[ET.Element]:
    return [element for element in root.iter() if f"data-{name}" in element.attrib]


def value(element: ET.Element, name: str) -> float:
    return float(element.attrib[name])


def centres(root: ET.Element) -> list[tuple[float, float]]:
    """Where the circles of the holes are, in the order of their numbers, y upward."""
    holes = sorted(with_data(root, "hole"), key=lambda hole: value(hole, "data-hole"))
    return [(value(hole, "cx"), -value(hole, "cy")) for hole in holes]


def texts(root: ET.Element) -> str:
    return " ".join("".join(element.itertext()) for element in root.iter(f"{SVG}text"))


def number_boxes(root: ET.Element) -> list[tuple[float, float, float, float]]:
    """A box of each number by the digits of common sans fonts: 0.6 of the size wide, 0.72 high."""
    found = []
    for element in with_data(root, "number"):
        size, text = value(element, "font-size"), element.text or ""
        half, x, y = 0.3 * size * len(text), value(element, "x"), value(element, "y")
        found.append((x - half, y - 0.72 * size, x + half, y))
    return found


def all_kinds(count: int, size: float) -> Iterator[Points]:
    yield patterns.row(count, size / 10)
    if count > 1:
        yield patterns.circle(count, size)
        yield tuple((size * (i * 7 % 11) / 11 + i % 3, size * (i * 5 % 13) / 13 - i % 7) for i in range(count))
    if count >= 4 and count % 2 == 0:
        yield patterns.rectangle(count, size, 0.7 * size)


@pytest.mark.parametrize(
    "pattern",
    [
        patterns.circle(6, 165), patterns.circle(2, 60), patterns.rectangle(4, 240, 180),
        patterns.rectangle(14, 700, 350), patterns.row(2, 60), patterns.row(9, 33.3), POINTS, ((0.0, 0.0),),
    ],
)  # fmt: skip
def test_centres_and_diameters_agree_with_the_pattern(pattern: Points) -> None:
    root = drawn(replace(SHEET, centres_mm=pattern))
    found = centres(root)
    assert len(found) == len(pattern)
    off = [(x - at_x, y - at_y) for (x, y), (at_x, at_y) in zip(found, pattern, strict=True)]
    assert max(dist(off[0], other) for other in off) < 0.01
    assert all(abs(2 * value(hole, "r") - 7.6) < 0.01 for hole in with_data(root, "hole"))
    assert all(abs(2 * value(pilot, "r") - 3.0) < 0.01 for pilot in with_data(root, "pilot"))
    for element in with_data(root, "hole"):
        told = value(element, "data-x"), value(element, "data-y")
        assert dist(told, pattern[int(value(element, "data-hole")) - 1]) < 0.01


SLOW = settings(deadline=None, max_examples=few(12, 5))  # a drawing of a hundred holes is not for a deadline


@pytest.mark.slow
@SLOW
@given(count=st.integers(1, 100), size=st.floats(20.0, 900.0))
def test_one_unit_is_one_millimetre_and_the_scale_line_is_50(count: int, size: float) -> None:
    for pattern in all_kinds(count, size):
        root = drawn(replace(SHEET, centres_mm=pattern))
        assert root.attrib["width"].endswith("mm")
        assert root.attrib["height"].endswith("mm")
        sides = [float(root.attrib[name].removesuffix("mm")) for name in ("width", "height")]
        assert [float(text) for text in root.attrib["viewBox"].split()] == [0.0, 0.0, *sides]
        (scale,) = with_data(root, "scale")
        assert abs(value(scale, "x2") - value(scale, "x1") - 50.0) < 0.005
        assert value(scale, "y1") == value(scale, "y2")
        assert not any("transform" in element.attrib for element in root.iter() if element.tag != f"{SVG}text")


@pytest.mark.slow
@SLOW
@given(
    count=st.integers(1, few(100, 40)),
    size=st.sampled_from([24.0, 60.0, 165.0, 400.0]),
    hole=st.sampled_from([3.2, 7.6, 13.5]),
)
@example(count=100, size=165.0, hole=13.5)  # the widest number; a crowd of as many takes seconds to find room for
def test_numbers_lie_on_no_hole_and_on_no_other_number(count: int, size: float, hole: float) -> None:
    for pattern in all_kinds(count, size):
        root = drawn(replace(SHEET, centres_mm=pattern, hole_mm=hole))
        boxes = number_boxes(root)
        assert sorted(int(element.text or "") for element in with_data(root, "number")) == [*range(1, count + 1)]
        for a, b in combinations(boxes, 2):
            assert a[2] <= b[0] or b[2] <= a[0] or a[3] <= b[1] or b[3] <= a[1]
        for x, y in centres(root):
            for x0, y0, x1, y1 in boxes:
                assert hypot(x - min(max(x, x0), x1), -y - min(max(-y, y0), y1)) > hole / 2


@pytest.mark.parametrize("outline", [None, (320.0, 210.0)])
@pytest.mark.parametrize("pattern", [patterns.circle(8, 165), patterns.row(3, 25), ((0.0, 0.0),), POINTS])
def test_everything_is_on_the_page(pattern: Points, outline: tuple[float, float] | None) -> None:
    root = drawn(replace(SHEET, centres_mm=pattern, outline=outline, edge_mm=12.0, title="W" * 400))
    width, height = (float(text) for text in root.attrib["viewBox"].split()[2:])
    for element in root.iter(f"{SVG}text"):
        size, text = value(element, "font-size"), element.text or ""
        assert value(element, "x") >= 0
        assert 0 <= value(element, "y") <= height
        if "text-anchor" not in element.attrib:
            assert value(element, "x") + 0.5 * size * len(text) <= width
    for element in root.iter(f"{SVG}circle"):
        assert value(element, "r") < value(element, "cx") < width - value(element, "r")
        assert value(element, "r") < value(element, "cy") < height - value(element, "r")


def test_a_print_can_be_checked_by_figures_beside_the_scale_line() -> None:
    root = drawn(SHEET)
    figures = texts(root)
    assert "240 mm across, 180 mm up; from 1 to 3 it is 300 mm" in figures
    lengths = [
        dist((value(line, "x1"), value(line, "y1")), (value(line, "x2"), value(line, "y2")))
        for line in with_data(root, "dimension")
    ]
    assert lengths == pytest.approx([240.0, 180.0], abs=0.01)
    assert "Print at 100 %, no fit to page; measure the scale line first." in figures
    assert "mirrored" in figures
    assert figures.count("bit 7.6 mm") == 1


def test_each_hole_has_a_cross_through_its_centre() -> None:
    root = drawn(SHEET)
    for place, (x, y) in enumerate(centres(root), start=1):
        crosses = [line for line in with_data(root, "cross") if line.attrib["data-cross"] == str(place)]
        middles = [((value(c, "x1") + value(c, "x2")) / 2, (value(c, "y1") + value(c, "y2")) / 2) for c in crosses]
        assert len(crosses) == 2
        assert all(dist(middle, (x, -y)) < 0.01 for middle in middles)


def test_the_edge_line_is_as_far_below_the_holes_as_it_was_told() -> None:
    root = drawn(replace(SHEET, edge_mm=14.5))
    (edge,) = with_data(root, "line")
    assert value(edge, "y1") - max(-y for _, y in centres(root)) == pytest.approx(14.5, abs=0.01)
    assert "edge of the panel, 14.5 mm" in texts(root)


def test_outline_and_least_edge_lie_round_the_middle_of_the_holes() -> None:
    root = drawn(replace(SHEET, outline=(300.0, 200.0), edge_least_mm=12.0))
    found = {element.attrib["data-line"]: element for element in with_data(root, "line")}
    middle = [sum(along) / 4 for along in zip(*centres(root), strict=True)]
    for name, sides in (("outline", (300.0, 200.0)), ("edge-least", (264.0, 204.0))):
        box = found[name]
        assert (value(box, "width"), value(box, "height")) == pytest.approx(sides, abs=0.01)
        assert value(box, "x") + sides[0] / 2 == pytest.approx(middle[0], abs=0.01)
        assert value(box, "y") + sides[1] / 2 == pytest.approx(-middle[1], abs=0.01)


def test_small_fits_a4_without_marks() -> None:
    root = drawn(replace(SHEET, centres_mm=patterns.row(2, 60)))
    assert "Paper: A4." in texts(root)
    assert with_data(root, "mark") == []


@pytest.mark.parametrize(
    ("pattern", "paper"),
    [(patterns.rectangle(4, 240, 180), "Paper: A3; or as a poster on 2 sheets of A4"),
     (patterns.rectangle(6, 700, 350), "Paper: at least ")],
)  # fmt: skip
def test_large_says_its_paper_and_has_marks_to_join_sheets_by(pattern: Points, paper: str) -> None:
    root = drawn(replace(SHEET, centres_mm=pattern))
    assert paper in texts(root)
    xs, ys = set(), set()
    marks = [element.attrib["d"] for element in with_data(root, "mark")]
    for path in marks:
        numbers = [float(text) for text in re.findall(r"[0-9.]+", path)]
        xs.add(round(sum(numbers[::2]) / 4, 2))
        ys.add(round(sum(numbers[1::2]) / 4, 2))
        middle = sum(numbers[::2]) / 4, -sum(numbers[1::2]) / 4
        assert min(dist(middle, centre) for centre in centres(root)) > 7.6 / 2 + 1.2
    for places in (sorted(xs), sorted(ys)):
        steps = {round((b - a) / 50.0, 3) for a, b in pairwise(places)}
        assert steps
        assert all(step == int(step) for step in steps)


def test_paper_that_is_said_to_be_needed_is_enough() -> None:
    root = drawn(replace(SHEET, centres_mm=patterns.rectangle(6, 700, 350)))
    told = re.search(r"at least ([0-9]+) x ([0-9]+) mm", texts(root))
    assert told
    assert float(told[1]) >= float(root.attrib["width"].removesuffix("mm")) + 10
    assert float(told[2]) >= float(root.attrib["height"].removesuffix("mm")) + 10


def test_holes_that_overlap_are_told() -> None:
    assert "OVERLAP" in texts(drawn(replace(SHEET, centres_mm=patterns.row(3, 7.0))))
    assert "OVERLAP" not in texts(drawn(replace(SHEET, centres_mm=patterns.row(3, 8.0))))


def test_square_hole_is_drawn_round_its_bit() -> None:
    root = drawn(replace(SHEET, centres_mm=POINTS, hole_mm=7.0, hole_shape="square", outline=None))
    squares = [path.attrib["d"] for path in root.iter(f"{SVG}path") if path.attrib["d"].count("L") == 3]
    xs = [float(text) for text in re.findall(r"[0-9.]+", squares[0])][::2]
    assert max(xs) - min(xs) == pytest.approx(7.0, abs=0.01)
    assert "square, 7 mm across flats" in texts(root)


def test_where_nothing_is_drilled_only_places_are_marked() -> None:
    root = drawn(replace(SHEET, hole_mm=None, pilot_mm=None, hole_note="nothing is drilled"))
    assert list(root.iter(f"{SVG}circle")) == []
    assert len(with_data(root, "cross")) == 8
    assert "4 places: nothing is drilled." in texts(root)


@pytest.mark.slow
@settings(deadline=None, max_examples=few(100))
@given(
    text=st.text(max_size=60)
    | st.sampled_from(["<script>alert(1)</script>", "a & b", '"quoted\'"', "\x1b[2J\x00", "\u202eabc"])
)
def test_whatever_was_typed_is_only_text(text: str) -> None:
    svg = template_svg(replace(SHEET, title=text, hole_note=text, notes=(text, text)))
    root = ET.fromstring(svg)
    assert {element.tag for element in root.iter()} <= {
        f"{SVG}{name}" for name in ("svg", "title", "desc", "rect", "g", "circle", "line", "path", "text")
    }
    assert (root.findtext(f"{SVG}title") or "") == safe(text)
    assert all(char.isprintable() or char == "\n" for char in svg)


def test_a_long_title_is_cut_with_a_sign_that_it_was() -> None:
    assert "…" in texts(drawn(replace(SHEET, title="word " * 400)))


@pytest.mark.parametrize(
    ("change", "told"),
    [({"centres_mm": ()}, "at least one centre"), ({"hole_mm": 0.0}, "hole_mm"), ({"pilot_mm": -1.0}, "pilot_mm"),
     ({"edge_mm": float("nan")}, "edge_mm"), ({"outline": (10.0, 0.0)}, "outline"),
     ({"centres_mm": ((float("inf"), 0.0),)}, "finite")],
)  # fmt: skip
def test_what_cannot_be_drawn_is_refused(change: dict[str, object], told: str) -> None:
    with pytest.raises(FastenError, match=told):
        template_svg(replace(SHEET, **change))  # type: ignore[arg-type]


def test_sheet_of_a_real_answer_has_its_hole_pilot_and_least_edge() -> None:
    advice = amplifier()
    answer = advice.answers[0]
    sheet = sheet_for(answer, advice.mount, "left amp")
    hole = answer.proposal.joint.hole
    assert hole is not None
    assert sheet.centres_mm == patterns.rectangle(4, 240, 180)
    assert (sheet.hole_mm, sheet.pilot_mm) == (hole.diameter_mm, 3.0)
    assert hole.bit.name in sheet.hole_note
    (edge,) = (check for check in answer.proposal.checks if check.id == "edge-distance")
    assert (sheet.edge_mm, sheet.edge_least_mm) == (None, edge.demand)
    told = texts(drawn(sheet))
    assert "NOT PROVEN" in told
    assert "Drilling template: left amp" in told


def test_edge_that_was_told_is_drawn_as_the_panels_edge() -> None:
    advice = amplifier("60mm")
    sheet = sheet_for(advice.answers[0], advice.mount, "left amp")
    assert (sheet.edge_mm, sheet.edge_least_mm) == (60.0, None)


def test_sheet_says_that_an_answer_is_not_proven_and_nothing_where_it_is() -> None:
    assert any("NOT PROVEN: needs" in note for note in sheet_for(UNPROVEN_ANSWER, MOUNT, "x").notes)
    assert not any("PROVEN" in note for note in sheet_for(RIVET_NUT_ANSWER, MOUNT, "x").notes)


def test_sheet_of_a_joint_without_a_hole_marks_places() -> None:
    proposal = replace(RIVET_NUT_ANSWER.proposal, joint=replace(RIVET_NUT_ANSWER.proposal.joint, hole=None))
    sheet = sheet_for(replace(RIVET_NUT_ANSWER, proposal=proposal), MOUNT, "strip")
    assert (sheet.hole_mm, sheet.pilot_mm) == (None, None)
    assert list(drawn(sheet).iter(f"{SVG}circle")) == []
