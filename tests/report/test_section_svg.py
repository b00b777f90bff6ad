"""The drawn section read back from its SVG: to scale both ways, the joint's own figures, nothing off the page."""

import re
from collections.abc import Iterator
from dataclasses import replace
from functools import cache
from itertools import combinations
from math import dist
from xml.etree import ElementTree as ET

import pytest
from built.receivers import changed, figures
from hypothesis import given, settings
from hypothesis import strategies as st

from fasten.advice.advise import advise
from fasten.catalog.tables import builtin
from fasten.model import Joint, Layer
from fasten.question.read import read_question
from fasten.question.resolve import resolve
from fasten.report.section.svg import section_svg
from fasten.text.units import number

from .sample_joints import CARPET_JOINT, JOINTS, RIVET_NUT_JOINT, TAPPED_JOINT, THROUGH_BOLT_JOINT

SVG = "{http://www.w3.org/2000/svg}"
FACE_JOINT = replace(
    RIVET_NUT_JOINT, method="hook_and_loop", hole=None, receiver=None, screw=None, behind_set_mm=0.0,
    behind_done_mm=0.0,
    layers=(Layer("item", "abs", 2.5), Layer("strip", "hook and loop", 3.2), Layer("substrate", "steel", 0.8)),
)  # fmt: skip
TRIM = {"item": "trim panel", "mass": "0.3kg", "fixings": "4", "pattern": "rectangle 240x180", "item-thickness": "2mm",
        "item-hole": "5.5mm", "edge": "40mm"}  # fmt: skip
ASKED = (
    {"onto": "steel 0.8 mm", "removed": "never", "reach": "one-side", "behind": "40mm"},
    {"onto": "steel 6 mm", "removed": "yearly", "reach": "one-side"},
    {"onto": "mdf 18 mm", "removed": "rarely", "reach": "both-sides", "behind": "20mm"},
    {"onto": "abs 3 mm", "removed": "rarely", "reach": "one-side", "boss": "14x20"},
)


@cache
def real() -> tuple[tuple[Joint, float | None], ...]:
    """A joint of every method that answers a few plain questions."""
    found: dict[str, tuple[Joint, float | None]] = {}
    for said in ASKED:
        mount = resolve(read_question(TRIM | said, builtin()), builtin())
        for answer in advise(mount, builtin(), changes=False).answers:
            found.setdefault(answer.method, (answer.proposal.joint, mount.behind_mm))
    return tuple(found.values())


def cases() -> Iterator[tuple[Joint, float | None]]:
    yield from real()
    yield from ((joint, behind_mm) for joint in JOINTS.values() for behind_mm in (None, 9.0, 17.0, 40.0))
    yield from ((FACE_JOINT, None), (FACE_JOINT, 30.0))


def drawn(joint: Joint, behind_mm: float | None = 40.0, width_mm: float = 180.0) -> ET.Element:
    return ET.fromstring(section_svg(joint, behind_mm, width_mm))


def texts(root: ET.Element) -> list[str]:
    return ["".join(element.itertext()) for element in root.iter(f"{SVG}text")]


def text(root: ET.Element) -> str:
    return " ".join(texts(root))


def with_data(root: ET.Element, name: str) -> list[ET.Element]:
    return [element for element in root.iter() if f"data-{name}" in element.attrib]


def points(element: ET.Element) -> list[tuple[float, float]]:
    numbers = [float(found) for found in re.findall(r"-?[0-9.]+", element.attrib["d"])]
    return list(zip(numbers[::2], numbers[1::2], strict=True))


def value(element: ET.Element, name: str) -> float:
    return float(element.attrib[name])


def scale(root: ET.Element) -> float:
    found = re.search(r"([0-9.]+) : ([0-9.]+)", text(root))
    assert found
    return float(found[1]) / float(found[2])


def axis(root: ET.Element) -> float:
    return next(value(line, "y1") for line in root.iter(f"{SVG}line") if line.get("stroke-dasharray") == "5 1 1 1")


def layers(root: ET.Element) -> list[tuple[str, float, float, float, float]]:
    """Role, left and right end, and inner and outer distance from the axis, of each layer from the head down."""
    found: dict[tuple[str, float, float], list[float]] = {}
    for element in with_data(root, "layer"):
        xs, ys = zip(*points(element), strict=True)
        out = [round(abs(y - axis(root)), 3) for y in ys]
        found.setdefault((element.attrib["data-layer"], min(xs), max(xs)), []).extend(out)
    return [(*key, min(out), max(out)) for key, out in sorted(found.items(), key=lambda entry: entry[0][1])]


def thicknesses(joint: Joint) -> list[float]:
    """Of the layers from the head down, the receiver's flange on the substrate where it has one."""
    found: list[float] = []
    part = joint.receiver
    sits = part is not None and joint.screw is not None and joint.method != "blind_rivet"
    flange = figures(part).flange_thickness_mm if part is not None and sits else None
    for layer in joint.layers:
        found += [flange] if layer.role == "substrate" and flange else []
        found.append(layer.thickness_mm)
    return found


def test_layers_are_to_scale_and_a_widened_one_says_so() -> None:
    for joint, behind_mm in cases():
        to_scale(joint, behind_mm)


def to_scale(joint: Joint, behind_mm: float | None) -> None:
    root = drawn(joint, behind_mm)
    wide = [right - left for _, left, right, _, _ in layers(root)]
    told = thicknesses(joint)
    assert len(wide) == len(told)
    for drawn_mm, thickness_mm in zip(wide, told, strict=True):
        widened = f"{number(thickness_mm, 2)} mm is widened" in text(root)
        assert widened or drawn_mm == pytest.approx(thickness_mm * scale(root), abs=0.01)


def test_real_answers_of_many_methods_are_drawn() -> None:
    assert len(real()) >= 10


@pytest.mark.slow
@settings(deadline=None)
@given(thickness=st.lists(st.floats(0.05, 60.0), min_size=3, max_size=3), width_mm=st.floats(80.0, 300.0))
def test_no_layer_vanishes_however_thin(thickness: list[float], width_mm: float) -> None:
    item, soft, sheet = thickness
    stack = (Layer("item", "abs", item), Layer("soft", "foam", soft), Layer("substrate", "steel", sheet))
    root = drawn(replace(CARPET_JOINT, layers=stack, washers=()), None, width_mm)
    for role, left, right, _, _ in layers(root):
        assert right - left > 0.69, role
    edges = [edge for _, left, right, _, _ in layers(root) for edge in (left, right)]
    assert edges == pytest.approx(sorted(edges))


def test_across_the_axis_it_is_to_scale_too() -> None:
    root = drawn(RIVET_NUT_JOINT)
    found = {role: (inner, outer) for role, _, _, inner, outer in layers(root)}
    assert found["substrate"][0] == pytest.approx(7.1 / 2 * scale(root), abs=0.01)
    assert found["flange"][1] == pytest.approx(10.0 / 2 * scale(root), abs=0.01)
    body = next(element for element in with_data(root, "part") if element.attrib["data-part"] == "receiver")
    out = sorted({round(abs(y - axis(root)) / scale(root), 2) for _, y in points(body)})
    assert out[-1] == 9.6 / 2, "the bulge"
    assert 7.0 / 2 in out, "the body"
    assert out[0] == pytest.approx(5.0 / 2 - 0.6134 * 0.8, abs=0.01), "the core of an M5 thread, 17/24 H deep, ISO 68-1"
    shank = next(element for element in with_data(root, "part") if element.attrib["data-part"] == "shank")
    assert max(abs(y - axis(root)) for _, y in points(shank)) == pytest.approx(5.0 / 2 * scale(root), abs=0.01)
    xs = [x for x, _ in points(shank)]
    assert max(xs) - min(xs) == pytest.approx(14.0 * scale(root), abs=0.01)


def test_washers_are_as_wide_as_their_table_says() -> None:
    root = drawn(THROUGH_BOLT_JOINT)
    washers = [(inner, outer) for role, _, _, inner, outer in layers(root) if role == "washer"]
    assert washers == [pytest.approx((8.4 / 2 * scale(root), 24.0 / 2 * scale(root)), abs=0.01)] * 2


def test_a_hole_that_ends_inside_is_drawn_that_deep() -> None:
    hole = TAPPED_JOINT.hole
    assert hole is not None
    joint = replace(TAPPED_JOINT, hole=replace(hole, depth_mm=4.0))
    root = drawn(joint)
    (cut,) = [element for element in with_data(root, "layer") if element.attrib["data-layer"] == "substrate"]
    left = min(x for x, _ in points(cut))
    wall = [x for x, y in points(cut) if abs(y - axis(root)) == pytest.approx(2.5 * scale(root), abs=0.01)]
    assert max(wall) - left == pytest.approx(4.0 * scale(root), abs=0.01)


@pytest.mark.parametrize("name", JOINTS)
def test_figures_are_those_of_the_joint(name: str) -> None:
    joint = JOINTS[name]
    root = drawn(joint, 41.5)
    told = {element.attrib["data-figure"] for element in with_data(root, "figure")}
    wanted = {f"grip {number(joint.grip_mm, 2)} mm", "41.5 mm behind"}
    wanted.add(f"needs {number(max(joint.behind_set_mm, joint.behind_done_mm), 2)} mm behind")
    assert joint.screw
    if joint.method == "blind_rivet":
        wanted.add(f"rivet {number(joint.screw.length_mm, 2)} mm")
    else:
        wanted.add(f"screw {number(joint.screw.length_mm, 2)} mm")
        wanted.add(f"engaged {number(joint.screw.engagement_mm, 2)} mm")
        wanted.add(f"{number(joint.screw.protrusion_mm, 2)} mm past it")
    assert told == wanted
    for layer in joint.layers:
        assert f"{number(layer.thickness_mm, 2)} mm" in text(root)
    assert joint.hole
    assert f"hole {number(joint.hole.diameter_mm, 2)} mm" in text(root)


def test_dimension_lines_are_as_long_as_they_say() -> None:
    root = drawn(RIVET_NUT_JOINT, 17.0)
    checked = 0
    for line in with_data(root, "dimension"):
        told = re.search(r"([0-9.]+) mm", line.attrib["data-dimension"])
        assert told
        assert value(line, "x2") - value(line, "x1") == pytest.approx(float(told[1]) * scale(root), abs=0.06)
        checked += 1
    assert checked == 6


def test_a_near_wall_is_to_scale_and_a_far_one_is_broken() -> None:
    near, far = drawn(RIVET_NUT_JOINT, 17.0), drawn(RIVET_NUT_JOINT, 400.0)
    back = next(right for role, _, right, _, _ in layers(near) if role == "substrate")
    wall = next(element for element in with_data(near, "part") if element.attrib["data-part"] == "wall")
    assert value(wall, "x1") - back == pytest.approx(17.0 * scale(near), abs=0.01)
    assert "further off" not in text(near)
    assert "further off" in text(far)


def test_space_behind_that_is_short_or_unknown_is_said() -> None:
    assert "SHORT by 6.2 mm" in text(drawn(RIVET_NUT_JOINT, 9.0))
    unknown = drawn(RIVET_NUT_JOINT, None)
    assert "space behind is not known" in text(unknown)
    assert "what is behind" not in texts(unknown)


def test_a_joint_held_by_a_face_is_drawn_without_a_screw() -> None:
    root = drawn(FACE_JOINT, None)
    assert [role for role, *_ in layers(root)] == ["item", "strip", "substrate"]
    assert with_data(root, "part") == []
    assert "Held by its face" in text(root)
    assert "together 6.5 mm" in text(root)


def test_a_factory_thread_has_a_screw_and_no_hole_to_drill() -> None:
    root = drawn(replace(TAPPED_JOINT, hole=None))
    assert {element.attrib["data-part"] for element in with_data(root, "part")} >= {"shank", "head"}


@pytest.mark.parametrize("width_mm", [80.0, 120.0, 180.0, 260.0])
@pytest.mark.parametrize("name", [*JOINTS, "face"])
def test_everything_is_on_the_page_and_no_number_on_another(name: str, width_mm: float) -> None:
    for behind_mm in (None, 3.0, 17.0, 900.0):
        root = drawn(JOINTS.get(name, FACE_JOINT), behind_mm, width_mm)
        assert root.attrib["width"] == f"{number(width_mm, 4)}mm"
        _, _, width, height = (float(part) for part in root.attrib["viewBox"].split())
        for element in root.iter(f"{SVG}path"):
            if element.attrib["fill"] != "none" and "data-part" in element.attrib and "Q" not in element.attrib["d"]:
                assert all(0 <= x <= width and 0 <= y <= height for x, y in points(element))
        for element in root.iter(f"{SVG}text"):
            x, wide = value(element, "x"), 0.55 * value(element, "font-size") * len(element.text or "")
            left = x - {"middle": wide / 2, "end": wide}.get(element.attrib.get("text-anchor", ""), 0.0)
            assert left >= 0
            assert left + wide <= width
            assert 0 < value(element, "y") < height
        places = [(value(element, "x"), value(element, "y")) for element in with_data(root, "balloon")]
        assert all(dist(a, b) > 4.6 for a, b in combinations(places, 2))


def test_every_number_of_the_drawing_is_explained_in_words() -> None:
    root = drawn(CARPET_JOINT)
    shown = sorted(int(element.attrib["data-balloon"]) for element in with_data(root, "balloon"))
    assert shown == sorted([*range(1, 9), *range(1, 9)])
    for name in ("screw M5 x 20", "washer, steel 1 mm", "soft, carpet 4 mm", "what is behind"):
        assert name in text(root)


def test_neighbouring_metals_lean_both_ways_and_fills_are_defined() -> None:
    root = drawn(RIVET_NUT_JOINT)
    named = {element.attrib["id"] for element in root.iter(f"{SVG}pattern")}
    fills = [element.attrib["fill"] for element in root.iter() if element.get("fill", "").startswith("url(#")]
    assert {fill.removeprefix("url(#").removesuffix(")") for fill in fills} <= named
    by_role = {element.attrib["data-layer"]: element.attrib["fill"] for element in with_data(root, "layer")}
    assert len({by_role["item"], by_role["substrate"], by_role["flange"]}) == 3


def test_two_sections_on_one_page_share_no_names() -> None:
    ids = [
        {e.attrib["id"] for e in drawn(joint).iter() if "id" in e.attrib} for joint in (RIVET_NUT_JOINT, CARPET_JOINT)
    ]
    assert ids[0]
    assert not ids[0] & ids[1]
    assert section_svg(CARPET_JOINT, 40.0) == section_svg(CARPET_JOINT, 40.0)


def test_it_is_told_in_words_for_who_cannot_see_it() -> None:
    root = drawn(RIVET_NUT_JOINT, 9.0)
    assert root.findtext(f"{SVG}title") == f"Section of the joint, {number(scale(root), 2)} : 1: rivet nut"
    told = root.findtext(f"{SVG}desc") or ""
    for part in ("item, aluminium 3 mm", "grip 0.8 mm", "SHORT by 6.2 mm"):
        assert part in told


@pytest.mark.slow
@settings(deadline=None)
@given(name=st.text(max_size=50) | st.sampled_from(["<script>x</script>", "a&b", '"', "\x1b[2J\x00", "\u202eabc"]))
def test_whatever_a_table_says_is_only_text(name: str) -> None:
    assert RIVET_NUT_JOINT.receiver
    assert RIVET_NUT_JOINT.screw
    joint = replace(
        RIVET_NUT_JOINT, layers=(Layer("item", name, 3.0), Layer("substrate", name, 0.8)), method=name,
        receiver=changed(RIVET_NUT_JOINT.receiver, part=name, thread=name),
        screw=replace(RIVET_NUT_JOINT.screw, thread=name, head=name),
    )  # fmt: skip
    svg = section_svg(joint, 40.0)
    assert {element.tag.removeprefix(SVG) for element in ET.fromstring(svg).iter()} <= {
        "svg", "title", "desc", "defs", "pattern", "rect", "circle", "line", "path", "text",
    }  # fmt: skip
    assert all(char.isprintable() or char == "\n" for char in svg)


@pytest.mark.parametrize(("width_mm", "layers"), [(79.0, RIVET_NUT_JOINT.layers), (180.0, ())])
def test_what_cannot_be_drawn_is_refused(width_mm: float, layers: tuple[Layer, ...]) -> None:
    with pytest.raises(ValueError, match=r"at least 80|nothing to draw"):
        section_svg(replace(RIVET_NUT_JOINT, layers=layers), None, width_mm)
