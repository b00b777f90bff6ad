"""Routes of repair that were taken: kept in the file, proved anew, followed by list, steps, template and verdict."""

import re
import tomllib
from dataclasses import replace

import pytest

from fasten.after.damage import read_damage
from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.geometry.patterns import positions_mm
from fasten.job.after.built import with_visit
from fasten.job.after.damaged import planned_at, routes_at, with_route
from fasten.job.after.judged import judged, wear
from fasten.job.after.own_tests import tests_of as of_visits
from fasten.job.after.repairs import fixing_of
from fasten.job.choices import Choice, choices
from fasten.job.list.hardware import hardware
from fasten.job.pins import pin_of
from fasten.job.store.job_toml import job_text, read_job
from fasten.job.words import Job, Mount, Pin, Repair, Visit
from fasten.job.work import work_sheet
from fasten.model import Phase, Status
from fasten.report.job.work import odd_text
from fasten.report.template.dxf import template_dxf
from fasten.report.template.svg import TemplateSheet, sheet_for, template_svg

TABLES = builtin()
AMP = {
    "item": "amplifier", "onto": "steel 0.8 mm", "removed": "yearly", "behind": "60 mm", "edge": "60 mm",
    "support": "firm", "panel": "floor", "far-side": "dry",
}  # fmt: skip
M5 = Pin("rivet_nut", "M5", "round, flat head", 13.0, 16.0)
M6 = Pin("rivet_nut", "M6", "round, flat head", 15.0, 20.0)
ODD = Repair(3, "oversize 8.2 mm", "N3", M6)
HEAD = 'format = 2\nkind = "job"\n\n[[mount]]\nname = "amp"\nitem = "amplifier"\nonto = "steel 0.8 mm"\n'
TAKEN = '[[mount.repair]]\nat = 3\nwhat = "oversize 8.2 mm"\nroute = "N3"\n'
FITTED = Visit("2026-05-01", "7 mm, 7 mm, 9 mm, 7 mm", "", "1 N·m, 1 N·m, 2.6 N·m, 1 N·m", "", kind="fitted")


def amp(*repairs: Repair, visit: Visit | None = None) -> Job:
    visits = () if visit is None else (visit,)
    return Job("Car", "", "", (Mount("amp", tuple(AMP.items()), pin=M5, visits=visits, repairs=repairs),))


def gets(*repairs: Repair, visit: Visit | None = None) -> Choice:
    return choices(amp(*repairs, visit=visit), TABLES)[0]


def needs(found: Choice) -> str:
    assert found.plan is not None
    return "; ".join(found.plan.unresolved)


# -- the file ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("own", [False, True])
def test_a_repair_comes_back_as_it_was(own: bool) -> None:
    job = amp(ODD, Repair(None, "spun", "C1", None))
    text = job_text(job)
    assert tomllib.loads(text)["mount"][0]["repair"][0] == {
        "at": 3, "what": "oversize 8.2 mm", "route": "N3", "method": "rivet_nut", "thread": "M6",
        "series": "round, flat head", "receiver-length": "15 mm", "screw-length": "20 mm",
    }  # fmt: skip
    assert read_job(text.encode(), "car.toml", TABLES, own=own)[0].mounts[0].repairs == job.mounts[0].repairs


def test_what_a_later_version_added_to_a_repair_stays_with_it() -> None:
    job = read_job(f"{HEAD}{TAKEN}glued = true\n{TAKEN}[mount.repair.by]\nwho = 1\n".encode(), "car.toml", TABLES)[0]
    text = job_text(job)
    first, second = tomllib.loads(text)["mount"][0]["repair"]
    assert (first["glued"], second["by"]) == (True, {"who": 1})
    assert read_job(text.encode(), "car.toml", TABLES)[0] == job


@pytest.mark.parametrize(
    ("more", "told"),
    [
        ('[[mount.repair]]\nwhat = "spun"\n', "repair 1"),
        (f"{TAKEN.replace('3', '-3', 1)}", "at: is -3"),
        ("repair = 3\n", "write [[mount.repair]] above each"),
    ],
)
def test_a_broken_repair_is_refused_with_its_place(more: str, told: str) -> None:
    with pytest.raises(FastenError) as caught:
        read_job(f"{HEAD}{more}".encode(), "car.toml", TABLES)
    assert told in str(caught.value)


# -- what follows -----------------------------------------------------------------------------------------------------


def test_the_list_has_the_parts_of_the_repaired_fixing_and_one_less_of_the_others() -> None:
    found = gets(ODD)
    listed = hardware(amp(ODD), (found,), None, TABLES)
    counts = sorted((line.part.size, line.needed) for line in listed.parts)
    assert counts == [("M5", 3), ("M5", 3), ("M6", 1), ("M6", 1)]
    assert any(bit.diameter_mm == 9 for bit in listed.bits)
    assert any(remark.text.startswith("Fixing 3 was repaired") for remark in listed.remarks)


def test_a_proved_route_leaves_the_answer_proven_and_adds_its_checks() -> None:
    plain, found = gets(), gets(ODD)
    assert plain.plan is not None
    assert found.plan is not None
    assert found.plan.proven
    assert len(found.plan.checks) > len(plain.plan.checks)
    assert any(check.id.startswith("repair/1/other-fixings/") for check in found.plan.checks)


def test_the_steps_and_the_template_say_hole_and_torque_of_the_repaired_fixing() -> None:
    found = gets(ODD)
    assert found.plan is not None
    assert found.answer is not None
    assert found.point is not None
    own = [task for task in found.plan.tasks if task.step.id.startswith("repair/1/")]
    assert [task.figure.text for task in own if task.holes == (3,) and task.figure] == ["9 mm"]
    assert [task.holes for task in found.plan.tasks if task.holes] == [(1, 2, 4), (3,)], "no step drills it to 7 mm"
    assert all(task.step.text.startswith("Only at fixing 3: ") for task in own)
    fit = next(task for task in own if task.step.phase is Phase.FIT)
    assert "M6 x 20" in fit.step.text
    assert fit.figure is not None
    assert fit.figure.text == "2.62 N·m"
    assert {fixing_of(found.mount, task.step.id) for task in found.plan.tasks} == {None, 3}
    assert own[0].step.phase is Phase.LOOK, "nothing has to come out of a hole that is too wide"
    assert any("Fixing 3 was repaired" in note for note in sheet_for(found.answer, found.point, "amp").notes)


def test_what_was_ticked_of_a_repaired_fixing_is_not_done_by_that() -> None:
    """Its hole is to be made anew, the item comes off for it, and what is there is written down again."""
    done = ("hole:2 = 7 mm", "hole:3 = 7 mm", "step:every/deburr/1", "step:every/fit/1 = 1 N·m")
    before = replace(FITTED, hole="7 mm")
    whole = Job("Car", "", "", (replace(amp(visit=before).mounts[0], ticked=done),))
    planned = planned_at("amp", whole, TABLES)
    found = routes_at(planned, read_damage("oversize 8.2 mm"), 3, TABLES)
    route = next(one for one in found.routes if one.route == "N3")
    job = with_route(whole, planned, found, route, "2026-05-02", TABLES)
    assert job.mounts[0].ticked == done[:3]
    steps = {state.step.id: state for state in work_sheet(job, choices(job, TABLES), None, TABLES).entries[0].steps}
    hole = steps["repair/1/rivet_nut/open_up/1"]
    assert hole.differing == ("hole 3 made 7 mm, wants 9 mm",)
    assert not hole.is_done
    assert next(one for one in steps.values() if one.step.phase is Phase.RECORD).is_done is False
    made = replace(job.mounts[0], ticked=("hole:2 = 7 mm", "hole:3 = 9 mm"))
    again = choices(replace(job, mounts=(made,)), TABLES)[0]
    assert again.point is not None
    assert again.point.existing_hole_mm is None, "the hole of a repaired fixing is not there for the others"
    shifted = next(one for one in found.routes if one.placed.shift is not None)
    assert with_route(whole, planned, found, shifted, "2026-05-02", TABLES).mounts[0].ticked == (), "all holes are new"


def test_a_repair_of_every_fixing_is_the_answer() -> None:
    found = gets(Repair(None, "oversize 8.2 mm", "N3", M6))
    assert found.answer is not None
    assert found.plan is not None
    assert found.answer.proposal.joint.screw is not None
    assert found.answer.proposal.joint.screw.thread == "M6"
    assert {need.count for need in found.plan.parts} == {4}
    assert found.plan.proven


@pytest.mark.parametrize(
    ("repairs", "told"),
    [
        ((Repair(None, "oversize 8.2 mm", "N3", M6), replace(ODD, at=1)), "8.2 mm is not over its hole"),
        ((Repair(3, "spun", "L1", M5), replace(ODD, what="spun")), "fixing 3 was left out"),
        ((ODD, replace(ODD, at=1)), "this one and those repaired before may leave to them"),
        ((replace(ODD, at=9),), "there are 4 fixings now"),
        ((replace(ODD, what="melted"),), "no damage that is known"),
        ((replace(ODD, route="Q9"),), "no route for oversize 8.2 mm here"),
        ((replace(ODD, pin=M5),), "comes to other parts now"),
        ((replace(ODD, what="oversize 16 mm"),), "does not do any more"),
        ((Repair(None, "cracked", "K1", M5),), "how long the crack is"),
    ],
)
def test_what_is_not_proved_leaves_it_open(repairs: tuple[Repair, ...], told: str) -> None:
    found = gets(*repairs)
    assert told in needs(found)
    assert found.answer is not None
    assert not found.answer.proposal.proven
    assert found.plan is not None
    assert found.plan.status is not Status.HOLDS


# -- the verdict ------------------------------------------------------------------------------------------------------


def test_the_repaired_fixing_is_judged_by_its_own_hole_and_torque() -> None:
    found = judged(gets(ODD, visit=FITTED), TABLES)
    assert found is not None
    assert (found.verdict.value, found.needs, found.do) == ("holds", (), ())


@pytest.mark.parametrize(
    ("visit", "verdict", "told"),
    [
        (replace(FITTED, torque="1 N·m, 1 N·m, 0.3 N·m, 1 N·m"), "does not hold", "fixing 3: tighten it"),
        (replace(FITTED, hole="7 mm"), "not proven", "fixing 3: the hole measured again: 9 mm"),
        (replace(FITTED, hole="7 mm, 7 mm, 7 mm, 9 mm"), "does not hold", ""),
        (replace(FITTED, sheet="0.9 mm"), "not proven", "fixing 3 proved in the sheet as measured"),
    ],
)
def test_a_repaired_fixing_that_is_not_as_its_route_is_told(visit: Visit, verdict: str, told: str) -> None:
    found = judged(gets(ODD, visit=visit), TABLES)
    assert found is not None
    assert found.verdict.value == verdict
    assert told in "; ".join((*found.needs, *found.do))


def test_a_repair_that_is_open_leaves_the_verdict_open() -> None:
    found = judged(gets(ODD, replace(ODD, at=1), visit=replace(FITTED, hole="", torque="1 N·m")), TABLES)
    assert found is not None
    assert found.verdict.value == "not proven"
    assert "those repaired before may leave to them" in "; ".join(found.needs)


def test_two_repairs_are_proved_beside_each_other() -> None:
    """Both as soft as nothing: the two that are left carry a light item alone."""
    job = amp(ODD, replace(ODD, at=1))
    light = replace(job, mounts=(replace(job.mounts[0], said=(*AMP.items(), ("mass", "1.2 kg"))),))
    found = choices(light, TABLES)[0]
    assert needs(found) == ""
    assert found.plan is not None
    assert found.plan.proven
    shares = {
        entry.value for check in found.plan.checks if check.id.startswith("repair/2/other-fixings/")
        for entry in check.inputs if entry.name == "pull over an even share"
    }  # fmt: skip
    assert max(shares) == pytest.approx(2.0)  # of two at the ends of a diagonal, half each


# -- the template and the label ---------------------------------------------------------------------------------------


def drawn(*repairs: Repair) -> tuple[Choice, TemplateSheet]:
    found = gets(*repairs)
    assert found.answer is not None
    assert found.point is not None
    return found, sheet_for(found.answer, found.point, "amp", repairs=found.repairs)


def circles(sheet: TemplateSheet, what: str) -> dict[str, float]:
    tags = re.findall(rf'<circle[^>]*data-{what}="[^"]*"[^>]*>', template_svg(sheet))
    return {
        re.findall(rf'data-{what}="([^"]*)"', tag)[0]: 2 * float(re.findall(r' r="([^"]*)"', tag)[0]) for tag in tags
    }  # fmt: skip


def test_the_template_draws_each_hole_as_it_now_is() -> None:
    _, sheet = drawn(ODD)
    assert circles(sheet, "hole") == {"1": 7.0, "2": 7.0, "3": 9.0, "4": 7.0}
    assert "Hole 3: 9 mm." in sheet.notes
    dxf = template_dxf(sheet)
    assert dxf.count("CIRCLE") >= 4
    assert "4.5000" in dxf


def test_a_slot_is_drawn_from_its_planned_place_to_the_hole_that_is_off() -> None:
    _, sheet = drawn(Repair(2, "off 3 mm right", "S1", M5))
    assert sheet.centres_mm[1] == pytest.approx((123.0, -90.0))
    odd = sheet.odd_at(1)
    assert odd is not None
    assert odd.slot == ((120.0, -90.0), 5.5)
    assert 'data-slot="2"' in template_svg(sheet)


def test_a_plate_is_drawn_with_its_rivets_and_a_fixing_left_out_with_its_old_hole() -> None:
    _, sheet = drawn(Repair(3, "oversize 8.2 mm", "C1", M5))
    assert 'data-plate="3"' in template_svg(sheet)
    assert template_svg(sheet).count('data-rivet="3"') == 4
    _, sheet = drawn(Repair(3, "oversize 8.2 mm", "L1", M5))
    assert set(circles(sheet, "hole")) == {"1", "2", "4"}
    assert circles(sheet, "old") == {"plug": 8.2}


def test_a_pattern_that_moved_leaves_its_old_holes_where_they_were() -> None:
    found, sheet = drawn(Repair(3, "oversize 8.2 mm", "P1", M5))
    assert sorted(one.diameter_mm for one in sheet.old) == [7.0, 7.0, 7.0, 8.2]
    move = next(one.route.placed.shift for one in found.repairs if one.route is not None)
    assert move is not None
    new = positions_mm(found.point.pattern if found.point else None, 4)
    for (x, y), old in zip(new, sheet.old, strict=True):
        assert old.centre_mm == pytest.approx((x - move.x_mm, y - move.y_mm))


def test_the_label_of_the_bag_says_what_the_repaired_fixing_takes() -> None:
    found = gets(ODD)
    assert found.plan is not None
    odd = found.plan.label.odd
    assert [(one.number, one.target_nm is not None) for one in odd] == [(3, True)]
    assert "M6 x 20, hole 9 mm" in odd[0].said
    assert "fixing 3: next larger thread" in odd_text(odd[0]).lower()
    counts = {bit.name: bit.count for bit in found.plan.bits if bit.purpose == "hole"}
    assert sorted(counts.values()) == [1, 3]


def test_the_plate_its_rivets_and_the_shims_of_the_others_are_on_the_list() -> None:
    """Four fixings, one with a plate of 1.5 mm: three shims as thick, which the M5 x 16 of the others reach through."""
    repair = Repair(3, "oversize 8.2 mm", "C1", M5)
    found = gets(repair)
    listed = hardware(amp(repair), (found,), None, TABLES)
    counts = {(line.part.kind, line.part.size): line.needed for line in listed.parts}
    assert counts["doubler", "40 x 40 x 1.5 mm"] == 1
    assert counts["shim", "40 x 40 x 1.5 mm"] == 3
    assert [count for (kind, _), count in counts.items() if kind == "blind rivet"] == [4]
    assert needs(found) == ""


def test_screws_that_do_not_reach_through_their_shims_are_longer_on_list_and_label() -> None:
    """Through a foot of 5 mm M5 x 16 stands 1.2 mm past its nut and 0.8 is wanted: on a shim of 1.5 it is M5 x 20."""
    short = Job("Car", "", "", (Mount("amp", tuple((AMP | {"item-thickness": "5 mm"}).items()), pin=M5),))
    planned = planned_at("amp", short, TABLES)
    routes = routes_at(planned, read_damage("oversize 8.2 mm"), 3, TABLES)
    plate = next(one for one in routes.routes if one.route == "C1")
    found = choices(with_route(short, planned, routes, plate, "2026-05-02", TABLES), TABLES)[0]
    assert found.answer is not None
    now = found.answer.proposal.joint.screw
    assert now is not None
    assert (now.length_mm, now.protrusion_mm) == pytest.approx((20.0, 3.7))
    assert found.plan is not None
    assert {need.part.length_mm: need.count for need in found.plan.parts if need.part.kind == "screw"} == {20.0: 4}
    assert any("M5 x 20 mm through their shims" in text for text in found.answer.remarks)
    said = {16: "does not hold", 20: "holds"}
    for length, verdict in said.items():
        at = replace(FITTED, hole="", torque="1 N·m", hardware=f"M5x{length}")
        built = judged(found.of(replace(found.mount, visits=(*found.mount.visits, at))), TABLES)
        assert built is not None
        assert built.verdict.value == verdict


def test_what_was_pulled_after_a_repair_proves_it() -> None:
    said = {"item": "crossover", "onto": "mdf 18 mm", "removed": "rarely", "edge": "60 mm", "panel": "floor",
            "support": "firm"}  # fmt: skip
    repair = Repair(None, "stripped", "R3", None)
    plain = Mount("x", tuple(said.items()))
    first = choices(Job("Car", "", "", (plain,)), TABLES)[0]
    assert first.answer is not None
    held = replace(plain, pin=pin_of(first.answer), repairs=(replace(repair, pin=pin_of(first.answer)),))
    repaired = with_visit(held, Visit("2026-05-01", "", "as planned", "", "", kind="repaired"))
    pulled = with_visit(repaired, replace(FITTED, hole="", torque="", pull_out="2000 2100 2050"))
    before, after = (choices(Job("Car", "", "", (one,)), TABLES)[0] for one in (repaired, pulled))
    assert "three test pulls of the plug" in needs(before)
    assert needs(after) == ""
    assert after.plan is not None
    assert after.plan.proven


def test_what_a_repair_put_in_was_new_then_and_is_renewed_apart() -> None:
    """Off three times, repaired while it was off, then off twice: all of it counts five, what the repair put in two."""
    said = AMP | {"onto": "steel 1.2 mm", "reach": "both-sides"}
    plain = Mount("amp", tuple(said.items()))
    first = choices(Job("Car", "", "", (plain,)), TABLES)[0]
    assert first.answer is not None
    off = Visit("2026-05-01", "", "", "", "", kind="off")
    every = {one.part: one.every for one in wear(first, TABLES)}
    assert every
    part, often = max(every.items(), key=lambda one: one[1])
    pin = pin_of(first.answer)
    for at in (2, None):
        repair = Repair(at, "stripped", "B1", pin)
        visits = (*[off] * 3, replace(off, kind="repaired"), *[off] * 2)
        job = Job("Car", "", "", (replace(plain, pin=pin, repairs=(repair,), visits=visits),))
        found = choices(job, TABLES)[0]
        counts = {(one.part, one.at): one.since for one in wear(found, TABLES) if one.every == often and often > 1}
        if at is None:
            assert counts[part, None] == 2
        else:
            assert (counts[part, None], counts[part, 2]) == (5, 2)


def test_readings_after_a_repair_with_a_joint_of_its_own_are_of_that_joint() -> None:
    """What was read on the M5 nuts before is left behind; what is read since is of M6."""
    repair = Repair(None, "oversize 8.2 mm", "N3", M6)
    read = replace(FITTED, hole="", torque="", spin_out="1.1 1.2 1.0", kind="checked")
    visits = (read, replace(FITTED, hole="", torque="", kind="repaired", hardware="as planned"))
    found = gets(repair)
    assert found.answer is not None
    assert found.point is not None
    joint = found.answer.proposal.joint
    for after, count in (((), 0), ((replace(read, spin_out="5 5.1"),), 2)):
        mount = replace(found.mount, visits=(*visits, *after))
        tests = of_visits(mount, joint, found.point, TABLES)
        assert [len(test.readings) for test in tests] == ([count] if count else [])
        assert all("/M6/" in test.part for test in tests)
