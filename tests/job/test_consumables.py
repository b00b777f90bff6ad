"""Amounts of consumables: by outline, face, screw, hole and substrate, as the table of them states."""

from dataclasses import replace
from math import ceil, pi

import pytest
from built.receivers import patch_kind

from fasten.advice.consumables import outline_mm
from fasten.catalog.face_parts import ADHESIVES
from fasten.catalog.job_parts import CONSUMABLES, TOOL_KINDS
from fasten.catalog.practice import TOOLS
from fasten.catalog.tables import builtin
from fasten.job.choices import choices
from fasten.job.list.hardware import hardware
from fasten.job.list.lists import ConsumableLine, HardwareList
from fasten.model import Patch, Pattern
from fasten.model.line import Part
from fasten.report.job.hardware import hardware_document

from .sample_jobs import job, list_of, mount, shelf

TABLES = builtin()
OVERLAP_MM, WASTE = 20.0, 0.10  # of gasket tape: common practice, no source; stated in the table


def consumable(found: HardwareList, name: str) -> ConsumableLine:
    [line] = [entry for entry in found.consumables if entry.name == name]
    return line


@pytest.mark.parametrize(
    ("pattern", "outline"),
    [
        (Pattern("circle", 165.0, None), 518.3628),  # pi x 165
        (Pattern("rectangle", 300.0, 200.0), 1000.0),  # 2 x (300 + 200)
    ],
)
def test_an_outline_is_a_perimeter(pattern: Pattern, outline: float) -> None:
    assert outline_mm(pattern) == pytest.approx(outline, abs=1e-4)


def test_gasket_tape_is_perimeter_plus_overlap_and_waste() -> None:
    """A 165 mm circle and a 300 x 200 mm rectangle on foam, each by hand; overlap and waste as the table states."""
    one = consumable(list_of(job(mount("speaker"))), "gasket tape")
    assert one.amount == pytest.approx((pi * 165 + OVERLAP_MM) * (1 + WASTE))
    other = mount("speaker square", pattern="rectangle 300x200")
    both = consumable(list_of(job(mount("speaker"), other)), "gasket tape")
    assert both.amount == pytest.approx((pi * 165 + OVERLAP_MM + 1000 + OVERLAP_MM) * (1 + WASTE))
    assert (both.plus, both.waste, both.unit) == (OVERLAP_MM, WASTE, "mm")


def test_tape_of_another_thickness_is_another_line() -> None:
    found = list_of(job(mount("speaker a"), mount("speaker b", between="foam 4 mm")))
    assert [line.detail for line in found.consumables if line.name == "gasket tape"] == ["foam 3 mm", "foam 4 mm"]


def test_where_no_outline_is_told_no_length_is_made_up() -> None:
    row = mount("speaker row", pattern="row 100 mm", fixings="2", mass="0.2kg")
    alone, beside = (consumable(list_of(job(*mounts)), "gasket tape") for mounts in ((row,), (row, mount("speaker"))))
    assert (alone.amount, alone.unknown) == (None, ("speaker row",))
    assert beside.amount == pytest.approx((pi * 165 + OVERLAP_MM) * (1 + WASTE))
    assert beside.unknown == ("speaker row",)


def test_what_goes_by_screw_hole_and_substrate_is_counted_so() -> None:
    found = list_of(job(mount("amp left"), mount("amp right"), mount("trim")))
    assert consumable(found, "low-strength threadlocker").amount == 8  # a drop a screw of the two amplifiers
    assert consumable(found, "bare-edge primer").amount == 14  # 4 + 4 + 6 holes
    assert consumable(found, "test piece of the same sheet").amount == 1  # all in one sheet
    assert consumable(found, "masking tape").amount == pytest.approx(1400)  # 100 mm a fixing
    assert consumable(found, "screws of the next diameter").amount == ceil(0.25 * 6)


def test_clamps_follow_the_run_and_grease_the_ground_points() -> None:
    """1.2 m with clamps 300 mm apart and at most 120 mm from each end: (1200 - 240) / 300 spans, so 5 clamps."""
    found = list_of(job(mount("cable"), mount("lug a"), mount("lug b")))
    assert consumable(found, "wire clamp").amount == 5
    grease = consumable(found, "primer or sealing grease for the lug")
    assert (grease.amount, grease.unit, len(grease.used)) == (2.0, "g", 2)


def test_hook_and_loop_goes_by_the_area_of_its_faces_and_is_no_part() -> None:
    found = choices(job(mount("trim")), TABLES)
    [entry] = found
    assert entry.answer is not None
    patch = Patch(patch_kind("hook-and-loop"), "sample", 50.0, 25.0, 6.0, "strip", "sample")
    joint = replace(entry.answer.proposal.joint, hole=None, receiver=None, screw=None, washers=(), patch=patch)
    held = replace(entry.answer, proposal=replace(entry.answer.proposal, joint=joint), tools=(), consumables=())
    listed_ = hardware(job(mount("trim")), (entry.with_answer(held, TABLES),), None, TABLES)
    line = consumable(listed_, "hook-and-loop")
    assert line.amount == pytest.approx(6 * 50 * 25 * 1.1)
    assert (line.unit, line.detail, line.width_mm) == ("mm2", "25 mm wide", 25.0)
    assert (listed_.parts, listed_.bits, listed_.tools) == ((), (), ())


WEEKLY = {"removed": "weekly", "panel": "floor", "edge": "60mm"}


def test_strip_is_bought_by_its_length_and_width() -> None:
    """Six places: the area of the pieces and a tenth over the width of the strip, rounded up to 0.1 m."""
    found = list_of(job(mount("trim", **WEEKLY)))
    line = consumable(found, "hook-and-loop")
    assert line.amount is not None
    assert line.width_mm is not None
    length_m = line.amount / line.width_mm / 1000
    [section] = [section for section in hardware_document(found).sections if section.heading == "Consumables"]
    [row] = [row for row in section.rows if row[0] == f"Hook-and-loop, {line.width_mm:g} mm wide"]
    assert row[1] == f"{ceil(length_m * 10 - 1e-9) / 10:g} m"


def test_adhesive_under_hook_and_loop_is_thin_and_on_both_halves() -> None:
    """Half a millimetre under each half: 0.001 ml a mm2, a quarter lost; common practice, no source."""
    found = list_of(job(mount("trim", **WEEKLY)))
    face = consumable(found, "hook-and-loop")
    assert face.amount is not None
    adhesive = consumable(found, "structural adhesive")
    assert adhesive.amount == pytest.approx(face.amount / 1.1 * 2 * 0.5 / 1000 * 1.25)


def test_a_bond_uses_as_much_as_its_film_is_thick() -> None:
    """A mm2 of film a mm thick is 0.001 ml; laid mat is no film."""
    for row in TABLES.rows(ADHESIVES):
        amount = next(c for c in TABLES.rows(CONSUMABLES) if (c.consumable, c.only_if) == (row.adhesive, ()))
        if row.kind == "paste" and row.use != "laminate":
            assert amount.amount == pytest.approx(row.thickness_mm / 1000)


def test_what_else_holds_by_its_face_is_a_part() -> None:
    [entry] = choices(job(mount("trim")), TABLES)
    assert entry.answer is not None
    patch = Patch(patch_kind("magnet"), "sample", 20.0, 20.0, 3.0, "round", "sample")
    joint = replace(entry.answer.proposal.joint, hole=None, receiver=None, screw=None, washers=(), patch=patch)
    held = replace(entry.answer, proposal=replace(entry.answer.proposal, joint=joint))
    found = hardware(job(mount("trim")), (entry.with_answer(held, TABLES),), None, TABLES)
    assert [(line.part, line.needed) for line in found.parts] == [(Part("magnet", "20 mm", "sample", "", None), 6)]


def test_a_consumable_of_the_shelf_is_known_with_or_without_its_detail() -> None:
    for name in ("Gasket tape", "gasket tape, foam 3 mm", "gasket tape foam 3 mm"):
        assert consumable(list_of(job(mount("speaker")), shelf(consumables=(name,))), "gasket tape").on_shelf
    assert not consumable(list_of(job(mount("speaker")), shelf(consumables=("tape",))), "gasket tape").on_shelf


def test_every_consumable_that_a_method_names_has_an_amount_or_is_counted_as_a_part() -> None:
    known = {row.consumable for row in TABLES.rows(CONSUMABLES)}
    named = {row.tool for row in TABLES.rows(TOOLS)}
    used_up = {row.tool for row in TABLES.rows(TOOL_KINDS) if row.heading == "consumable"}
    assert (named & used_up) - known == set()
