"""The work sheet: steps in the order of work whatever the method, what stands once, what goes into which bag."""

from collections.abc import Iterator
from dataclasses import replace
from functools import cache

import pytest

from fasten.advice.advise import METHODS, advise
from fasten.advice.cautions import for_all_work
from fasten.catalog.check import check_table
from fasten.catalog.job_parts import WORK_ORDER
from fasten.catalog.named import material
from fasten.catalog.tables import builtin
from fasten.job.choices import Choice, choices
from fasten.job.pins import pin_of
from fasten.job.words import Job, Mount, Visit
from fasten.job.work import EACH, WorkEntry, WorkSheet, work_sheet
from fasten.model import Answer, Phase
from fasten.question.read import read_question
from fasten.question.resolve import resolve

from .sample_jobs import SAID, UNFIT, job, mount

# Beside the shared questions, those that end in the methods which they do not ask for.
MORE: dict[str, dict[str, str]] = {
    "rivet": {"item": "fuse holder", "onto": "steel 0.8 mm", "removed": "never", "behind": "40mm", "edge": "30mm",
              "item-hole": "4.9mm", "panel": "side"},
    "tee": {"item": "amplifier", "onto": "plywood 18 mm", "removed": "yearly", "behind": "40mm", "edge": "60mm",
            "reach": "both-sides"},
    "board": {"item": "fuse holder", "onto": "mdf 18 mm", "removed": "rarely", "edge": "40mm", "reach": "both-sides"},
    "boss": {"item": "fuse holder", "onto": "abs 3 mm", "removed": "rarely", "boss": "12x20mm", "edge": "30mm"},
    "deep": {"item": "fuse holder", "onto": "abs 3 mm", "removed": "yearly", "boss": "16x24mm", "edge": "40mm"},
    "edge": {"item": "fuse holder", "onto": "steel 0.8 mm", "removed": "rarely", "behind": "40mm", "edge": "10mm"},
    "thin": {"item": "trim panel", "onto": "abs 2.5 mm", "removed": "rarely", "behind": "40mm", "edge": "30mm",
             "mass": "0.4kg"},
    "weekly": {"item": "trim panel", "onto": "steel 0.8 mm", "removed": "weekly", "behind": "30mm", "edge": "40mm",
               "mass": "0.5kg", "item-hole": "6.5mm", "item-thickness": "2mm"},
    "laminate": {"item": "fuse holder", "onto": "laminate 3 mm", "removed": "rarely", "behind": "40mm", "edge": "30mm",
                 "reach": "both-sides"},
}  # fmt: skip


# What a method without a hole does is not drilled; a new one that drills must be asked for in MORE.
UNDRILLED = {"factory_thread", "hook_and_loop", "magnet_and_plate", "bonded_stud", "adhesive"}
DRILLED = sorted({method.NAME for method in METHODS} - UNDRILLED)


@cache
def drilled() -> dict[str, list[str]]:
    """For every method that drills the names of the questions that it answers."""
    found: dict[str, list[str]] = {}
    for name in asked():
        holes = [answer.method for answer in answers(name) if answer.proposal.joint.hole is not None]
        for method in dict.fromkeys(holes):
            found.setdefault(method, []).append(name)
    return found


def asked() -> dict[str, dict[str, str]]:
    return {**SAID, **MORE}


@cache
def answers(name: str) -> tuple[Answer, ...]:
    return advise(resolve(read_question(asked()[name], builtin()), builtin()), builtin(), changes=False).answers


def sheet_of(*mounts: Mount) -> WorkSheet:
    whole = job(*mounts)
    return work_sheet(whole, choices(whole, builtin()), None, builtin())


def worked(name: str, method: str) -> WorkEntry:
    """A mount point of the sheet with that method pinned."""
    answer = next(a for a in answers(name) if a.method == method and a.proposal.joint.hole is not None)
    [found] = sheet_of(Mount(name, tuple(asked()[name].items()), pin=pin_of(answer))).entries
    answered = source(found).answer
    assert answered is not None, found.reason
    assert answered.method == method
    return found


def source(found: WorkEntry) -> Choice:
    """What the plan of a mount point is from."""
    assert isinstance(found.source, Choice)
    return found.source


def expected(found: WorkEntry) -> Iterator[Phase]:
    """What the steps must tell of in this order, by hole and material: only what there is to do is left out."""
    answer, point = source(found).answer, source(found).point
    assert answer is not None
    assert point is not None
    hole = answer.proposal.joint.hole
    assert hole is not None
    metal = material(builtin(), point.material).family == "sheet"
    yield from (Phase.LOOK, Phase.MARK)
    yield from [Phase.PILOT] if hole.depth_mm is None else []
    yield from (Phase.OPEN_UP, Phase.DEBURR)
    yield from [Phase.PROTECT] if metal else []
    yield from (Phase.TEST_PIECE, Phase.FIT, Phase.RECORD)


def test_the_questions_end_in_every_method_that_drills() -> None:
    unasked = sorted(set(DRILLED) - set(drilled()))
    assert not unasked, f"no question ends in {', '.join(unasked)}: add one that does to MORE, or it drills nothing"
    assert sorted(drilled()) == DRILLED


@pytest.mark.parametrize("method", DRILLED)
def test_the_steps_are_in_the_order_of_work(method: str) -> None:
    """Look and probe; mark; pilot and probe again; open up; deburr; prime; test piece; set; lock; fit; record: the
    order that was asked for, common practice."""
    for name in drilled()[method]:
        phases = [state.step.phase for state in worked(name, method).steps]
        left = [phase for phase in expected(worked(name, method)) if phase not in phases]
        assert not left, f"steps.toml, {method} for {name}: no step to {', '.join(phase.value for phase in left)}"
        assert phases == sorted(phases, key=list(Phase).index)


def test_work_is_recorded_before_what_comes_days_later() -> None:
    [amp] = sheet_of(mount("amp")).entries
    assert [state.step.phase for state in amp.steps][-2:] == [Phase.RECORD, Phase.LATER]
    [fuse] = sheet_of(replace(mount("fuse"), pin=pin_of(of("fuse", "tapping_screw")))).entries
    assert [state.step.phase for state in fuse.steps][-2:] == [Phase.RECORD, Phase.LATER]


def of(name: str, method: str) -> Answer:
    return next(answer for answer in answers(name) if answer.method == method)


# -- what stands once -------------------------------------------------------------------------------------------------


def test_the_battery_goes_off_before_everything_and_on_after_it() -> None:
    sheet = sheet_of(mount("amp"), mount("rack"))
    assert sheet.first[0].text.startswith("Battery off: negative lead first")
    assert any(step.text.startswith("Battery on: negative lead last") for step in sheet.last)
    assert any("vehicle maker's instructions" in step.text for step in sheet.first)
    assert not any("attery off" in step.text for found in sheet.entries for step in found.steps)


def test_every_battery_of_the_job_goes_off_before_everything() -> None:
    """With one of two off, the cables of the other are live."""
    second = Mount("aux battery", (("item", "auxiliary battery"), ("onto", "steel 1 mm"), ("removed", "rarely")))
    said = ["every other battery" in step.text for step in sheet_of(mount("amp"), second).first]
    assert said.index(True) == 1
    assert not any("every other battery" in step.text for step in sheet_of(mount("amp")).first)


def test_cautions_for_all_work_stand_once() -> None:
    common = for_all_work(builtin())
    sheet = sheet_of(mount("amp"), mount("rack"))
    assert sheet.cautions == common
    for found in sheet.entries:
        assert found.plan is not None
        assert set(found.cautions) == set(found.plan.cautions) - set(common)


@pytest.mark.parametrize("name", sorted(SAID))
def test_protection_magnet_camera_and_trim_tools_are_always_out(name: str) -> None:
    names = [line.name for line in sheet_of(mount(name)).box.tools]
    for tool in ("eye protection", "magnet and vacuum for swarf", "inspection camera or mirror and lamp", "trim tools"):
        assert names.count(tool) == 1
    assert [line.used[0].mount for line in sheet_of(mount(name)).box.tools if line.name == "eye protection"] == [name]


def test_a_tool_stands_once_with_every_size() -> None:
    box = sheet_of(mount("amp"), mount("amp two"), mount("seen"), mount("cover")).box
    found = [(line.name, line.size) for line in box.tools]
    assert len(found) == len(set(found))
    assert {size for name, size in found if name == "rivet-nut mandrel"} == {"M4", "M5", "M6"}
    assert [use.mount for line in box.tools if line.size == "M5" for use in line.used] == ["amp", "amp two"]


def test_the_table_is_sound_and_every_row_is_used() -> None:
    table = builtin().table("work-order")
    check_table(table, "work-order.toml")
    rows = builtin().rows(WORK_ORDER)
    assert {row.when for row in rows} == {"before", EACH, "after"}
    for when in ("before", EACH, "after"):
        steps = [row.step for row in rows if row.when == when]
        assert sorted(steps) == list(range(1, len(steps) + 1)), "a later row keeps the ids of those before"
    assert set(table.sources) == {row.from_ for row in rows}


# -- bags, what does not fit, what was built --------------------------------------------------------------------------


def test_a_bag_holds_what_is_fitted_and_no_spares() -> None:
    """Four fixings: four screws M5 and four rivet nuts; the hardware list has spares on top."""
    sheet = sheet_of(mount("amp"))
    [amp] = sheet.entries
    assert [(entry.part.kind, entry.part.size, entry.count) for entry in amp.bag] == [
        ("screw", "M5", 4), ("rivet nut", "M5", 4),
    ]  # fmt: skip
    assert {line.part: line.needed for line in sheet.box.parts} == {entry.part: entry.count for entry in amp.bag}
    assert all(line.spares > 0 for line in sheet.box.parts)


def test_where_nothing_fits_reason_and_refusals_stand_for_the_steps() -> None:
    [bad] = sheet_of(Mount("bad", tuple(UNFIT.items()))).entries
    assert (bad.plan, bad.steps, bad.bag) == (None, (), ())
    assert bad.reason
    assert {refusal.method for refusal in source(bad).refusals} == {method.NAME for method in METHODS}


def test_a_question_that_is_not_finished_says_so() -> None:
    [open_] = sheet_of(Mount("open", (("item", "amplifier"),))).entries
    assert (open_.plan, open_.steps) == (None, ())
    assert (source(open_).point, source(open_).answer, source(open_).refusals) == (None, None, ())
    assert open_.reason


def test_what_was_built_is_kept_for_the_next_person() -> None:
    built = Visit("2026-05-02", "7.7 mm", "M5 x 20", "1.5 N·m", "")
    assert [found.built for found in sheet_of(replace(mount("amp"), visits=(built,)), mount("rack")).entries] == [
        built,
        None,
    ]


def test_a_job_without_mount_points_has_a_sheet() -> None:
    sheet = work_sheet(Job("Empty", "", "", ()), (), None, builtin())
    assert (sheet.entries, sheet.box.parts) == ((), ())
    assert sheet.first
