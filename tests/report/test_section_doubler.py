"""A doubler is a layer of its own in every section: on the sheet, the hole and the receiver through both."""

from functools import cache

import pytest

from fasten.advice.advise import advise
from fasten.catalog.tables import builtin
from fasten.model import Joint
from fasten.question.read import read_question
from fasten.question.resolve import resolve
from fasten.report.section.lines import section
from fasten.report.section.page import stacked

from .test_section_svg import axis, drawn, layers, points, scale, text, with_data

SHEET_MM, DOUBLER_MM = 0.8, 1.6
SAID = {
    "item": "amplifier", "onto": f"steel {SHEET_MM} mm", "removed": "yearly", "mass": "4kg", "panel": "floor",
    "support": "bay 300x450", "doubler": f"280x{DOUBLER_MM} mm bonded", "behind": "60mm", "edge": "60mm",
}  # fmt: skip


@cache
def doubled(**more: str) -> tuple[Joint, ...]:
    """The joints that answer; the first is a rivet nut, set in both."""
    mount = resolve(read_question(SAID | more, builtin()), builtin())
    return tuple(answer.proposal.joint for answer in advise(mount, builtin(), changes=False).answers)


def test_the_joint_lists_the_doubler_on_the_sheet_and_grips_both() -> None:
    joint = doubled()[0]
    assert [(layer.role, layer.material, layer.thickness_mm) for layer in joint.layers[-2:]] == [
        ("doubler", "steel", DOUBLER_MM), ("substrate", "steel", pytest.approx(SHEET_MM)),
    ]  # fmt: skip
    assert joint.grip_mm == pytest.approx(SHEET_MM + DOUBLER_MM)


def test_the_section_in_text_names_both_and_leaves_a_seam() -> None:
    lines = section(doubled()[0], 60.0, 80)
    said = " ".join(lines)
    assert "doubler, steel 1.6 mm" in said
    assert "█ steel 0.8 mm" in said
    edge = lines[0].split("╱")[-1].split("┊")[0].split()  # what is left of the outermost row: the two sheets
    assert len(edge) == 1
    assert any(char in "▏▎▍▌▋▊▉" for char in edge[0][:-1])


def test_the_section_for_paper_draws_both_with_the_hole_and_the_receiver_through_them() -> None:
    root = drawn(doubled()[0], 60.0)
    by_role = {role: (left, right, inner) for role, left, right, inner, _ in layers(root)}
    doubler, sheet = by_role["doubler"], by_role["substrate"]
    assert doubler[1] - doubler[0] == pytest.approx(DOUBLER_MM * scale(root), abs=0.01)
    assert sheet[1] - sheet[0] == pytest.approx(SHEET_MM * scale(root), abs=0.01)
    assert doubler[1] == pytest.approx(sheet[0])
    assert by_role["flange"][1] == pytest.approx(doubler[0])
    assert doubler[2] == sheet[2] > 0
    body = next(element for element in with_data(root, "part") if element.attrib["data-part"] == "receiver")
    assert min(x for x, _ in points(body)) == pytest.approx(doubler[0])
    assert axis(root) > 0
    assert "doubler, steel 1.6 mm, hole" in text(root)


def test_every_method_puts_both_under_its_item() -> None:
    for joint in doubled(removed="never", mass="0.4kg", reach="both-sides"):
        roles = [layer.role for layer in joint.layers]
        assert roles.index("doubler") + 1 == roles.index("substrate")
        panel_mm = sum(layer.thickness_mm for layer in joint.layers if layer.role in ("doubler", "substrate"))
        assert panel_mm == pytest.approx(SHEET_MM + DOUBLER_MM)
        assert sum(band.slab.thickness_mm for band in stacked(joint).placed) >= panel_mm
