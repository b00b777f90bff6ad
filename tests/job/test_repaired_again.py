"""Repairs where one was done before: a fixing repaired twice, the whole pattern beside it, and all that they leave."""

from math import dist

import pytest

from fasten.after.damage import read_damage
from fasten.errors import FastenError
from fasten.job.after.damaged import planned_at, routes_at, with_route
from fasten.job.choices import Choice, choices
from fasten.job.list.hardware import hardware
from fasten.job.words import Job, Mount, Repair
from fasten.model import Check

from .test_repairs import AMP, M5, M6, ODD, TABLES, amp, drawn, gets, needs


def test_a_pattern_that_moves_beside_a_repair_keeps_clear_of_its_wider_hole() -> None:
    """M5 nuts of 7 mm count 2 x 7 = 14 mm to a rim: 18.5 mm from the 9 mm hole of the repair, 17.5 from the others."""
    again = Repair(1, "spun", "P1", M5)
    found = gets(ODD, again)
    assert needs(found) == ""
    assert found.answer is not None
    assert found.answer.proposal.proven
    _, sheet = drawn(ODD, again)
    assert sheet.odd == ()
    assert sorted(one.diameter_mm for one in sheet.old) == [7.0, 7.0, 7.0, 9.0]
    for one in sheet.old:
        near = min(dist(one.centre_mm, new) for new in sheet.centres_mm)
        assert near >= 14.0 + one.diameter_mm / 2 - 1e-6
    listed = hardware(amp(ODD, again), (found,), None, TABLES)
    assert sorted((line.part.size, line.needed) for line in listed.parts) == [("M5", 4), ("M5", 4)]
    assert found.plan is not None
    ids = {task.step.id.split("/")[1] for task in found.plan.tasks if task.step.id.startswith("repair/")}
    assert ids == {"2"}


def test_a_nut_that_spins_again_is_repaired_from_what_is_there_now() -> None:
    """M6 in 9 mm spins: the hole that is left is 9 mm, and the next thread is M8."""
    planned = planned_at("amp", amp(ODD), TABLES)
    found = routes_at(planned, read_damage("spun"), 3, TABLES)
    assert found.left_mm == 9.0
    wide = next(route for route in found.routes if route.route == "N3")
    assert wide.answer is not None
    assert wide.answer.proposal.joint.screw is not None
    assert wide.answer.proposal.joint.screw.thread == "M8"
    with pytest.raises(FastenError, match="is not over its hole"):
        routes_at(planned, read_damage("oversize 8.2 mm"), 3, TABLES)


def remarks(found: Choice) -> tuple[str, ...]:
    assert found.answer is not None
    return found.answer.remarks


def checked(found: Choice) -> tuple[Check, ...]:
    assert found.answer is not None
    return found.answer.proposal.checks


def test_the_second_repair_of_a_fixing_takes_the_place_of_the_first() -> None:
    """A new hole beside the old one, then one beside that: both old holes stay and are drawn, and one fixing is odd."""
    first = Repair(3, "off 3 mm right", "P2", M5)
    once, twice = gets(first), gets(first, first)
    assert needs(twice) == ""
    _, sheet = drawn(first, first)
    assert [one.place for one in sheet.odd] == [2]
    assert len(sheet.old) == 2
    (x, y), (x1, y1), (x2, y2) = sheet.old[0].centre_mm, sheet.old[1].centre_mm, sheet.centres_mm[2]
    assert (x, y) == pytest.approx((123.0, 90.0))
    assert dist((x1, y1), (x2, y2)) == pytest.approx(17.5)
    assert once.point is not None
    assert twice.plan is not None
    assert [one.number for one in twice.plan.label.odd] == [3]
    assert "Fixing 3 was repaired after off 3 mm right by P2, and again since" in remarks(twice)
    near = [check for check in checked(twice) if check.id == "repair/2/old-holes"]
    assert [check.allowable for check in near] == [pytest.approx(dist((x, y), (x2, y2)))]


def test_a_fixing_that_was_left_out_is_not_repaired_but_moves_with_the_pattern() -> None:
    left_out = Repair(3, "spun", "L1", M5)
    planned = planned_at("amp", amp(left_out), TABLES)
    with pytest.raises(FastenError, match="was left out"):
        routes_at(planned, read_damage("spun"), 3, TABLES)
    moved = gets(left_out, Repair(1, "spun", "P1", M5))
    assert needs(moved) == ""
    assert moved.plan is not None
    assert {need.count for need in moved.plan.parts} == {4}


def test_a_repair_of_all_is_done_at_each_that_was_unlike_the_rest_as_well() -> None:
    """Spun nuts of 7 mm, and one of 9 mm that was repaired: the next thread is M6 for these, and M8 for that."""
    found = gets(ODD, Repair(None, "spun", "N3", M6))
    listed = hardware(amp(), (found,), None, TABLES)
    assert sorted((line.part.size, line.needed) for line in listed.parts) == [
        ("M6", 3),
        ("M6", 3),
        ("M8", 1),
        ("M8", 1),
    ]
    assert needs(found) == ""
    assert any(check.id.startswith("repair/2/fixing-3/other-fixings/") for check in checked(found))


def test_the_nut_of_a_single_fixing_that_spins_in_its_plate_is_repaired_in_that() -> None:
    """A plate of 1.5 mm over the hole: the next thread goes into it, and its rivets and bending are proved anew."""
    said = tuple((AMP | {"item": "bracket", "mass": "0.5 kg", "fixings": "1"}).items())
    job = Job("Car", "", "", (Mount("one", said),))
    for what, key in (("oversize 9 mm", "C1"), ("spun", "N3")):
        planned = planned_at("one", job, TABLES)
        found = routes_at(planned, read_damage(what), 1, TABLES)
        route = next(one for one in (*found.routes, *found.refused) if one.route == key)
        assert route.refused is None, route.refused
        job = with_route(job, planned, found, route, "2026-05-02", TABLES)
    ids = {check.id.partition(".")[0] for check in route.checks}
    assert {"plate-rim", "plate-bends", "plate-rivets/rivet-shear"} <= ids
    assert route.answer is not None
    assert route.answer.proposal.joint.sheet_mm == 1.5
    assert needs(choices(job, TABLES)[0]) == ""


def test_a_pattern_that_moves_after_plates_at_every_fixing_keeps_clear_of_their_rivets() -> None:
    """Drilled as it was planned, to the edge that was given, and clear of a circle round the rivets of each plate."""
    job = amp()
    for what, key in (("oversize 8.2 mm", "C1"), ("spun", "P1")):
        planned = planned_at("amp", job, TABLES)
        found = routes_at(planned, read_damage(what), None, TABLES)
        route = next(one for one in (*found.routes, *found.refused) if one.route == key)
        assert route.refused is None, route.refused
        job = with_route(job, planned, found, route, "2026-05-02", TABLES)
    assert route.answer is not None
    assert route.answer.proposal.joint.sheet_mm == 0.8
    assert {round(one.diameter_mm, 1) for one in route.placed.old} == {29.6}, "18 mm sqrt 2, and rivet holes of 4.1 mm"
    assert needs(choices(job, TABLES)[0]) == ""


def test_a_repair_of_a_hole_is_open_where_the_answer_by_now_drills_none() -> None:
    """Its question was changed since: a strip has no hole that is off, and no head that covers a slot."""
    said = {
        "item": "crossover", "onto": "steel 0.8 mm", "removed": "rarely", "panel": "floor", "behind": "0 mm",
        "edge": "40 mm", "support": "firm", "mass": "0.5 kg",
    }  # fmt: skip
    mount = Mount("crossover", tuple(said.items()), repairs=(Repair(1, "off 3 mm right", "S1", None),))
    found = choices(Job("Car", "", "", (mount,)), TABLES)[0]
    assert found.answer is not None
    assert found.answer.proposal.joint.method == "hook_and_loop"
    assert "cannot be off" in needs(found)
