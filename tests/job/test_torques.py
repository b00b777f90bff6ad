"""The torque of a body stud that is a mount point of the job, where a run ends."""

from dataclasses import replace

from fasten.job.choices import Choice
from fasten.job.entries import entries, runs_with_torques
from fasten.job.wiring.runs import RunChoice, run_choices
from fasten.job.wiring.torques import with_torques
from fasten.model import Phase
from fasten.text.rounding import rounded_down
from fasten.wiring.blanks import turn_text
from fasten.wiring.ends import MOUNTS, OF_MOUNT, Turn

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
    assert turn(runs_with_torques((alone,), JOB, TABLES)[0]) == turn(run)


def test_a_body_stud_without_a_figure_refers_to_its_mount_point() -> None:
    found = lug()
    assert found.plan is not None
    unknown = replace(found, plan=replace(found.plan, label=replace(found.plan.label, target_nm=None)))
    run = ground_run(run_choices(JOB, TABLES))
    assert turn(with_torques((run,), [unknown])[0]).whose == MOUNTS
    assert turn(with_torques((run,), [found])[0]).whose == OF_MOUNT


def test_what_turns_the_nut_is_said_beside_the_torque() -> None:
    assert turn_text(Turn(OF_MOUNT, 3.0, None, 6.208, past_turning=True)) == "6.2 N·m past what turns the nut"
    assert turn_text(Turn(OF_MOUNT, 3.0, None, 6.208)) == "6.2 N·m"
