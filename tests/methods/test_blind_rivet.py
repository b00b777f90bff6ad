"""Blind rivets and the bodies of rivet nuts: which hole and stack they take, what they never hold, what they bear."""

from dataclasses import replace
from functools import cache

import pytest

from fasten.advice.advise import advise
from fasten.catalog import parts
from fasten.catalog.tables import builtin
from fasten.geometry.joint import screw_of
from fasten.methods import rivet_nut
from fasten.model import Advice, Answer, Joint, MountPoint, Refusal, Status
from fasten.model.known import Needed, Rating
from fasten.proof.modes import rivet as modes
from fasten.proof.modes.mode import Capacity
from fasten.question.read import read_question
from fasten.question.resolve import resolve

TABLES = builtin()
FUSE = {
    "item": "fuse-holder", "onto": "steel 0.8 mm", "removed": "never", "item-hole": "4.9mm", "panel": "side",
    "edge": "60mm", "behind": "60mm",
}  # fmt: skip
# A supplier's data sheet of steel rivet nuts: shear as labelled there, N.
SHEAR_N = {"M4": 1500.0, "M5": 2000.0, "M6": 3000.0, "M8": 4400.0}


def mounted(**said: str) -> MountPoint:
    return resolve(read_question(FUSE | {name.replace("_", "-"): text for name, text in said.items()}, TABLES), TABLES)


def asked(**said: str) -> Advice:
    return _advised(mounted(**said))


@cache
def _advised(mount: MountPoint) -> Advice:
    return advise(mount, TABLES, changes=False)


def riveted(advice: Advice) -> Answer:
    return next(answer for answer in advice.answers if answer.method == "blind_rivet")


def refused(advice: Advice) -> Refusal:
    return next(refusal for refusal in advice.refusals if refusal.method == "blind_rivet")


def test_grips_are_those_that_boxes_print() -> None:
    """Common practice: what catalogues print for ISO 15977 rivets of 3.2 and 4.0 mm."""
    found = {(row.size, row.length_mm): (row.grip_min_mm, row.grip_max_mm) for row in TABLES.rows(parts.BLIND_RIVETS)}
    assert {key: grip for key, grip in found.items() if key in {
        ("3.2", 6.0), ("3.2", 8.0), ("4.0", 6.0), ("4.0", 8.0), ("4.0", 10.0),
    }} == {
        ("3.2", 6.0): (1.5, 3.5), ("3.2", 8.0): (3.5, 5.0),
        ("4.0", 6.0): (1.0, 3.0), ("4.0", 8.0): (3.0, 5.0), ("4.0", 10.0): (5.0, 6.5),
    }  # fmt: skip


@pytest.mark.parametrize("hole", ["4.9mm", "5mm"])
def test_a_rivet_fills_the_hole_it_is_made_for(hole: str) -> None:
    assert riveted(asked(item_hole=hole)).proposal.joint.screw is not None


@pytest.mark.parametrize("hole", ["4.5mm", "5.1mm", "5.5mm"])
def test_it_is_never_set_in_a_wider_hole(hole: str) -> None:
    assert refused(asked(item_hole=hole)).because.endswith(
        "rivets that grip it fill a hole of 3.3 or 4.1 or 4.9 mm, never a wider one"
    )


def test_no_rivet_holds_an_amplifier_by_itself_or_on_a_board() -> None:
    """Common practice: it is heavy, and comes out to be mended."""
    for said in ({"item": "amplifier"}, {"item": "equipment-board", "carries": "amplifier 3 kg"}):
        assert "no fixing for an amplifier" in refused(asked(**said)).because


def test_no_rivet_hangs_over_people() -> None:
    assert "over people" in refused(asked(panel="roof")).because
    assert riveted(asked(panel="side")).proposal.proven


def test_where_no_panel_is_given_overhead_stays_open() -> None:
    mount = mounted()
    without = {name: text for name, text in FUSE.items() if name != "panel"}
    answer = riveted(_advised(resolve(read_question(without, TABLES), TABLES)))
    [line] = [check for check in answer.proposal.checks if check.id == "overhead"]
    assert line.status is Status.NOT_CHECKED
    assert not answer.proposal.proven
    assert not [check for check in riveted(_advised(mount)).proposal.checks if check.id == "overhead"]


def nut(thread: str) -> Joint:
    mount = mounted(item_hole="9mm", onto="steel 3 mm")
    return next(joint for joint in rivet_nut.joints(mount, TABLES) if joint.screw and joint.screw.thread == thread)


@pytest.mark.parametrize("thread", list(SHEAR_N))
def test_the_body_of_a_rivet_nut_bears_what_its_sheet_says(thread: str) -> None:
    found = modes.NUT_SHEAR.capacity(nut(thread), mounted(), TABLES)
    assert found.load_n == SHEAR_N[thread]
    row = TABLES.need(parts.RIVET_NUT_SHEAR, "steel", thread)
    assert found.from_ == (TABLES.source_id(parts.RIVET_NUT_SHEAR, row),)


def test_it_decides_in_thick_plate_where_the_sheet_bears_more() -> None:
    """M5 in 3 mm of steel of 270 MPa: 2.5 x 270 x 7.6 x 3 = 15.4 kN on the sheet, 2 kN on the body."""
    mount = mounted(item="bracket", item_hole="5.5mm", onto="steel 3 mm", removed="monthly", mass="4kg")
    answer = next(answer for answer in _advised(mount).answers if answer.method == "rivet_nut")
    by_id = {check.id: check for check in answer.proposal.checks}
    assert by_id["nut-shear.hard_stop"].allowable == pytest.approx(
        SHEAR_N[screw_of(answer.proposal.joint).thread] / 1.25
    )
    assert (by_id["nut-shear.hard_stop"].utilisation or 0) > (by_id["sheet-bearing.hard_stop"].utilisation or 0)


def test_a_nut_without_a_figure_leaves_its_shear_open() -> None:
    joint = nut("M5")
    assert joint.receiver is not None
    strange = replace(joint, receiver=replace(joint.receiver, shear=Needed("the shear that its body bears")))
    found = modes.NUT_SHEAR.find(strange, mounted(), TABLES)
    assert not isinstance(found, Capacity)
    assert "shear of its body" in found.what
    assert isinstance(joint.receiver.shear, Rating)


def test_the_hole_of_a_tee_nut_is_its_barrel_and_a_little_more() -> None:
    """Common practice: barrel + 0.2 to 0.4 mm for the two whose published barrels differ most, M5 and M10."""
    for thread in ("M5", "M10"):
        [row] = [row for row in TABLES.rows(parts.TEE_NUTS) if row.thread == thread]
        assert (row.hole_min_mm - row.barrel_mm, row.hole_max_mm - row.barrel_mm) == pytest.approx((0.2, 0.4))
