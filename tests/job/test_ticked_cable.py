"""What is ticked of a run of cable: kept with the cable and the figures, and open again once the plan wants others."""

from dataclasses import replace

import pytest

from fasten.job.entries import entries
from fasten.job.store.job_toml import job_text, read_job
from fasten.job.tick_by import with_ticks
from fasten.job.ticked import StepState
from fasten.job.words import CableRun, Job
from fasten.job.work import work_sheet
from fasten.model import Phase
from fasten.report.job.ticked import ticked_json, ticked_text

from .test_runs import TABLES

RUN = CableRun("main", (("carries", "80 A"), ("from", "battery stud M8"), ("to", "stud M8"), ("length", "3 m")))
JOB = Job("", "", "", (), runs=(RUN,))
BEFORE_CABLE = "step:run/look/1"  # that the battery is off


def steps_of(job: Job) -> dict[Phase, StepState]:
    """The last step of each phase."""
    [entry] = work_sheet(job, entries(job, TABLES), None, TABLES).entries
    return {state.step.phase: state for state in entry.steps}


def count_of(job: Job) -> int:
    return len(work_sheet(job, entries(job, TABLES), None, TABLES).entries[0].steps)


def all_ticked() -> Job:
    every = tuple(str(at) for at in range(1, count_of(JOB) + 1))
    return with_ticks(JOB, entries(JOB, TABLES), "main", every, (), TABLES)[0]


def saying(job: Job, **said: str) -> Job:
    [run] = job.runs
    return replace(job, runs=(replace(run, said=tuple((dict(run.said) | said).items())),))


def done_of(job: Job) -> set[str]:
    [entry] = work_sheet(job, entries(job, TABLES), None, TABLES).entries
    return {state.step.id for state in entry.steps if state.is_done}


def test_all_that_is_ticked_is_done_and_stays_so_in_the_file() -> None:
    job = all_ticked()
    assert len(done_of(job)) == count_of(JOB)
    assert read_job(job_text(job).encode(), "job.toml", TABLES)[0] == job


def test_another_cable_opens_all_that_was_made_on_the_first() -> None:
    thicker = saying(all_ticked(), carries="150 A")
    assert done_of(thicker) == {BEFORE_CABLE.removeprefix("step:")}
    steps = steps_of(thicker)
    for phase in (Phase.CUT, Phase.STRIP, Phase.CRIMP, Phase.SHRINK, Phase.ROUTE, Phase.TIGHTEN):
        [said] = steps[phase].differing
        made, wants = said.removeprefix("made ").split(", wants ")
        assert made.endswith(steps_of(JOB)[phase].task.made_of)
        assert wants == steps[phase].task.kept
        assert ticked_text(steps[phase]).count("(made ") == 1, "said once"


def test_another_terminal_on_the_same_cable_opens_what_is_made_of_it() -> None:
    other = saying(all_ticked(), to="stud M10")
    open_ = {one.partition("/")[2] for one in {state.step.id for state in steps_of(other).values()} - done_of(other)}
    assert {"crimp/2", "fit/1", "tighten/1"} <= open_
    assert "run/cut/1" in done_of(other)


def test_what_an_end_is_called_makes_nothing_undone() -> None:
    named, other = ("main amp", "bass amp")
    first = saying(JOB, to=f"{named}, stud M8")
    every = tuple(str(at) for at in range(1, count_of(first) + 1))
    ticked = with_ticks(first, entries(first, TABLES), "main", every, (), TABLES)[0]
    assert done_of(saying(ticked, to=f"{other}, stud M8")) == done_of(ticked)


@pytest.mark.parametrize("kept", ["", " = 3.1 m, red", " = nothing that is known"])
def test_a_tick_that_kept_less_than_decides_is_not_done(kept: str) -> None:
    ids = [state.step.id for state in steps_of(JOB).values()]
    old = replace(JOB, runs=(replace(RUN, ticked=tuple(f"step:{one}{kept}" for one in ids)),))
    steps = steps_of(old)
    assert not steps[Phase.CRIMP].is_done
    assert not steps[Phase.CUT].is_done
    [said] = ticked_json([steps[Phase.CUT]])
    assert said["made_to"]
    assert said["figure"] == steps[Phase.CUT].task.kept
    again = with_ticks(old, entries(old, TABLES), "main", ("3",), (), TABLES)[0]
    assert len(again.runs[0].ticked) == len(ids), "ticked again it stands in place of the old one"
