"""Repairs with a plate or a doubler, each with its own figures, and those that test pieces alone prove."""

from dataclasses import replace
from math import sqrt

import pytest

from fasten.advice.advise import advise
from fasten.after.case import repair_part
from fasten.after.damage import read_damage
from fasten.after.routes import Route, repaired
from fasten.after.shims import shimmed
from fasten.geometry.lines import tested_line as line_of
from fasten.model import Firm, Joint, MountPoint, OwnTest, Proposal, Read
from fasten.proof.demands import demands
from fasten.question.read import read_question
from fasten.question.resolve import resolve

from .test_repair import TABLES, done, joint_of

BONDED = {"item": "wire-clamp", "onto": "steel 0.8 mm", "removed": "rarely", "panel": "floor", "behind": "40 mm",
          "edge": "40 mm", "run": "2 m"}  # fmt: skip


def test_a_plate_over_a_crack_reaches_past_its_end_and_waits_for_how_long_that_is() -> None:
    route = next(one for one in done("skin08", "cracked 15 mm", 1).routes if one.route == "K1")
    plate = route.placed.plate
    assert plate is not None
    assert plate.side_mm >= 7.0 + 2 * 15 + 2 * 15
    assert plate.pitch_mm * sqrt(2) / 2 >= (7.0 + 2 * 15) / 2
    assert route.proven
    unknown = next(one for one in done("skin08", "cracked", 1).routes if one.route == "K1")
    assert "how long the crack is, from the hole to its end: cracked 25 mm" in unknown.needs


def test_a_plate_behind_plastic_carries_the_nut_and_is_thicker_where_it_bends() -> None:
    route = next(one for one in done("abs3", "stripped", 2).routes if one.route == "G1")
    assert route.answer is not None
    joint, plate = route.answer.proposal.joint, route.placed.plate
    assert plate is not None
    assert (joint.method, joint.sheet_mm, plate.material) == ("rivet_nut", plate.thickness_mm, "steel")
    assert plate.side_mm >= plate.pitch_mm + 30
    ids = {check.id.partition(".")[0] for check in route.checks}
    assert {"plate-presses", "plate-punched", "plate-bends", "panel-stiffness"} <= ids
    refused = next(one.refused for one in done("abs3", "cracked 15 mm", 2).refused if one.route == "K1")
    assert refused is not None
    assert [figure.unit for figure in refused.figures] == ["MPa", "MPa"]


def test_a_doubler_on_a_board_is_held_by_its_own_screws() -> None:
    answer, mount = joint_of("mdf18", "screw_into_board")
    firm = replace(mount, support=Firm())
    found = repaired(answer.proposal.joint, firm, read_damage("cracked"), None, TABLES)
    route = next(one for one in (*found.routes, *found.refused) if one.route == "R5")
    assert route.refused is None
    plate = route.placed.plate
    assert plate is not None
    assert plate.rivet is not None
    assert (plate.material, plate.rivets, plate.rivet.method) == ("birch_plywood", 4, "screw_into_board")
    assert any(check.id.startswith("plate-rivets/withdrawal") for check in route.checks)
    assert route.point.material == "birch_plywood"


def pulls(route: str, joint: Joint, mount: MountPoint, *readings: float, read: Read = Read.PULL_OUT) -> MountPoint:
    line = line_of(joint)
    assert line is not None
    test = OwnTest(read, repair_part(route, line.text), mount.material, joint.sheet_mm, 1.0, readings, 0.05, "", "")
    return replace(mount, tests=(test,))


@pytest.mark.parametrize(("route", "substrate", "method", "what"), [
    ("R3", "mdf18", "screw_into_board", "stripped"), ("R1", "mdf18", "screw_into_board", "stripped"),
    ("F3", "absboss", "heat_set_insert", "cracked"),
])  # fmt: skip
def test_what_no_figure_proves_is_proven_by_three_pulls_that_agree(
    route: str, substrate: str, method: str, what: str
) -> None:
    answer, mount = joint_of(substrate, method)
    joint, mount = answer.proposal.joint, replace(mount, support=Firm())
    if route == "R1":  # the larger screw must pass the item
        mount = replace(mount, item_hole_mm=5.5)

    def comes_to(point: MountPoint) -> Route:
        found = repaired(joint, point, read_damage(what), None, TABLES)
        return next(one for one in (*found.routes, *found.refused) if one.route == route)

    for open_ in (mount, pulls(route, joint, mount, 2000.0, 2100.0), pulls("X9", joint, mount, 2000.0, 2100.0, 2050.0)):
        found = comes_to(open_)
        assert not found.proven
        assert found.refused is not None or "three test pulls" in "; ".join(found.needs)
    assert comes_to(pulls(route, joint, mount, 2000.0, 2100.0, 2050.0)).proven
    weak = comes_to(pulls(route, joint, mount, 20.0, 21.0, 20.5))
    assert weak.refused is not None


def test_a_chased_thread_is_proven_by_a_screw_that_held_and_refused_by_one_that_did_not() -> None:
    answer, mount = joint_of("plate3", "tapped_hole")
    joint, torque = answer.proposal.joint, answer.proposal.torque
    assert torque is not None

    def comes_to(point: MountPoint) -> Route:
        found = repaired(joint, point, read_damage("cross-threaded"), None, TABLES)
        return next(one for one in (*found.routes, *found.refused) if one.route == "T1")

    assert "1.3 x the target" in "; ".join(comes_to(mount).needs)
    assert comes_to(pulls("T1", joint, mount, 1.31 * torque.target_nm, read=Read.HELD)).proven
    refused = comes_to(pulls("T1", joint, mount, 1.2 * torque.target_nm, read=Read.HELD)).refused
    assert refused is not None
    assert refused.check == "repair-held"


def test_the_other_fixings_lie_on_shims_that_their_screws_reach_through() -> None:
    """M5 x 16 stands past its nut by more than a shim of 1.5 mm takes off; one that stands 1 mm past is longer then."""
    answer, mount = joint_of("skin08", "rivet_nut")
    screw = answer.proposal.joint.screw
    assert screw is not None
    for shorter, length_mm in ((0.0, screw.length_mm), (screw.protrusion_mm - 1.0, 16.0)):
        short = replace(screw, protrusion_mm=screw.protrusion_mm - shorter, length_mm=screw.length_mm - shorter)
        joint = replace(answer.proposal.joint, screw=short)
        lying = shimmed(joint, 1.5, mount, demands(mount, TABLES), TABLES)
        assert isinstance(lying, Proposal)
        assert lying.joint.screw is not None
        assert lying.joint.screw.length_mm == length_mm
        past = short.protrusion_mm + length_mm - short.length_mm - 1.5
        assert lying.joint.screw.protrusion_mm == pytest.approx(past)
        assert lying.joint.grip_mm == joint.grip_mm + 1.5
        found = repaired(joint, mount, read_damage("oversize 8.2 mm"), 3, TABLES)
        route = next(one for one in (*found.routes, *found.refused) if one.route == "C1")
        assert ("The other fixings take M5 x 16 mm" in "; ".join(route.notes)) is bool(shorter)


def test_a_plate_over_a_crack_is_no_narrower_where_a_stud_is_bonded_on() -> None:
    """It is drilled for nothing but its rivets: all of its 40 mm bends."""
    mount = resolve(read_question(BONDED, TABLES), TABLES)
    stud = next(one.proposal.joint for one in advise(mount, TABLES, changes=False).answers
                if one.proposal.joint.method == "bonded_stud")  # fmt: skip
    found = repaired(stud, mount, read_damage("cracked 5 mm"), None, TABLES)
    plate = next(one for one in found.routes if one.route == "C1")
    widths = {given.value for check in plate.checks if check.id.startswith("plate-bends")
              for given in check.inputs if given.name == "width less hole"}  # fmt: skip
    assert widths == {40.0}
