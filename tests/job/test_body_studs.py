"""The torque of a body stud that is a mount point of the job, where a run ends."""

from dataclasses import replace

import pytest

from fasten.job.choices import Choice
from fasten.job.entries import entries, runs_on_studs
from fasten.job.wiring.accept import with_accepted
from fasten.job.wiring.body_studs import on_studs
from fasten.job.wiring.runs import RunChoice, run_choices
from fasten.job.words import Job
from fasten.model import Phase
from fasten.text.rounding import rounded_down
from fasten.wiring.blanks import turn_text
from fasten.wiring.ends import MOUNTS, OF_MOUNT, Turn
from fasten.wiring.words import StudEnd

from .test_runs import JOB, TABLES


def ground_run(found: tuple[object, ...]) -> RunChoice:
    return next(one for one in found if isinstance(one, RunChoice) and one.name == "mono ground")


def turn(run: RunChoice) -> Turn:
    assert run.answer is not None
    return next(end.turn for end in run.answer.done.made.ends if end.label == "ground")


def lug() -> Choice:
    found = next(one for one in entries(JOB, TABLES) if one.name == "ground")
    assert isinstance(found, Choice)
    return found


def test_a_body_stud_of_the_job_has_the_torque_of_its_answer() -> None:
    """In the list and its step, and of one run by itself."""
    plan, run = lug().plan, ground_run(entries(JOB, TABLES))
    assert plan is not None
    assert plan.label.target_nm is not None
    assert turn(run) == Turn(OF_MOUNT, plan.label.least_nm, None, plan.label.target_nm, plan.label.past_driving)
    assert run.plan is not None
    said = f"ground: {rounded_down(plan.label.target_nm, 2)} N·m"
    assert [said in step.text for step in run.plan.steps if step.phase is Phase.TIGHTEN] == [True]
    alone = ground_run(run_choices(JOB, TABLES))
    assert turn(alone).whose == MOUNTS
    assert turn(runs_on_studs((alone,), JOB, TABLES)[0]) == turn(run)


def job_on_sheet(onto: str) -> Job:
    """The job whose ground lug has 25 mm behind this sheet."""
    said = (("item", "ground-lug"), ("onto", onto), ("removed", "rarely"), ("behind", "25 mm"))
    mounts = tuple(replace(mount, said=said) if mount.name == "ground" else mount for mount in JOB.mounts)
    return replace(JOB, mounts=mounts)


def on_sheet(onto: str) -> tuple[Choice, RunChoice]:
    """The ground lug on this sheet, and the run that ends there."""
    found = entries(job_on_sheet(onto), TABLES)
    there = next(one for one in found if one.name == "ground")
    assert isinstance(there, Choice)
    return there, ground_run(found)


@pytest.mark.parametrize(("onto", "stud"), [("steel 0.8 mm", "M6"), ("steel 3 mm", "M8")])
def test_a_lug_is_for_the_stud_that_its_mount_point_gets(onto: str, stud: str) -> None:
    """A stud whose size was not said is smaller where the usual one does not hold plainly."""
    there, run = on_sheet(onto)
    assert there.point is not None
    assert there.point.ring == stud
    assert run.answer is not None
    assert run.plan is not None
    assert isinstance(run.answer.sizing.run.to, StudEnd)
    assert run.answer.sizing.run.to.stud == stud
    lugs = [need.part.size for need in run.plan.parts if need.part.kind == "lug"]
    assert lugs
    assert all(size.endswith(stud) for size in lugs)


def test_what_is_accepted_is_asked_at_the_stud_that_the_mount_point_gets() -> None:
    job = job_on_sheet("steel 0.8 mm")
    run = ground_run(entries(job, TABLES))
    assert run.answer is not None
    asked = [one.id for one in run.answer.confirms if "m6" in one.id]
    assert asked
    accepted = with_accepted(job, "mono ground", " ".join(asked), TABLES)
    after = ground_run(entries(accepted, TABLES)).answer
    assert after is not None
    assert set(asked) <= {one.id for one in after.confirms if one.accepted}
    assert after.lapsed == ()


def test_a_body_stud_without_a_figure_refers_to_its_mount_point() -> None:
    found = lug()
    assert found.plan is not None
    unknown = replace(found, plan=replace(found.plan, label=replace(found.plan.label, target_nm=None)))
    run = ground_run(run_choices(JOB, TABLES))
    assert turn(on_studs((run,), [unknown], TABLES)[0]).whose == MOUNTS
    assert turn(on_studs((run,), [found], TABLES)[0]).whose == OF_MOUNT


def test_what_turns_the_nut_is_said_beside_the_torque() -> None:
    assert turn_text(Turn(OF_MOUNT, 3.0, None, 6.208, past_turning=True)) == "6.2 N·m past what turns the nut"
    assert turn_text(Turn(OF_MOUNT, 3.0, None, 6.208)) == "6.2 N·m"
