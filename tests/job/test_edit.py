"""Mount points added to a job, replaced, found and taken out."""

import pytest

from fasten.errors import FastenError
from fasten.job.edit import find_mount, renamed_run, with_mount, without_mount, without_run
from fasten.job.words import CableRun, Job, Mount

SAID = (("item", "amplifier"), ("onto", "steel 0.8 mm"), ("removed", "yearly"))
LEFT, RIGHT, DOOR = Mount("Left amp", SAID), Mount("Right amp", SAID), Mount("door", SAID)
JOB = Job("", "", "", (LEFT, RIGHT, DOOR))


def names(job: Job) -> list[str]:
    return [mount.name for mount in job.mounts]


def test_a_new_one_goes_to_the_end_and_the_old_job_stays() -> None:
    assert names(with_mount(JOB, Mount("sub", SAID))) == ["Left amp", "Right amp", "door", "sub"]
    assert names(JOB) == ["Left amp", "Right amp", "door"]


def test_one_takes_the_place_of_another() -> None:
    assert names(with_mount(JOB, Mount("sub", SAID), instead_of="right AMP")) == ["Left amp", "sub", "door"]
    changed = Mount("Right amp", SAID, "hot")
    assert find_mount(with_mount(JOB, changed, instead_of="Right amp"), "right amp") is changed


@pytest.mark.parametrize("instead_of", [None, "door"])
def test_a_name_is_given_once(instead_of: str | None) -> None:
    with pytest.raises(FastenError, match="the job has a mount point ' LEFT  amp' already"):
        with_mount(JOB, Mount(" LEFT  amp", SAID), instead_of=instead_of)


def test_one_is_found_and_taken_out_whatever_its_case() -> None:
    assert find_mount(JOB, " left  AMP ") is LEFT
    assert names(without_mount(JOB, "RIGHT amp")) == ["Left amp", "door"]


def test_an_unknown_name_is_told_with_the_nearest() -> None:
    with pytest.raises(FastenError) as caught:
        find_mount(JOB, "left am")
    assert str(caught.value) == "name: the job has no mount point 'left am'; did you mean 'Left amp'?"
    with pytest.raises(FastenError, match="it has 'Left amp', 'Right amp', 'door'"):
        without_mount(JOB, "xyz")
    with pytest.raises(FastenError, match="it has none yet"):
        find_mount(Job("", "", "", ()), "x")


def test_a_hostile_name_is_made_safe() -> None:
    with pytest.raises(FastenError) as caught:
        find_mount(JOB, "\x1b[2J" + "x" * 10_000)
    assert str(caught.value).isprintable()
    assert len(str(caught.value)) < 300


RUNS = (
    CableRun("power", (("from", "battery stud M8"), ("to", "left AMP, set screw"))),
    CableRun("signal", (("carries", "signal"), ("from", "Right amp"), ("to", "Left amplifier"))),
)


def test_a_run_ends_at_a_mount_point_by_its_new_name_and_at_no_other() -> None:
    renamed = with_mount(Job("", "", "", (LEFT, RIGHT), runs=RUNS), Mount("mono", SAID), instead_of="Left amp")
    assert dict(renamed.runs[0].said)["to"] == "mono, set screw"
    assert renamed.runs[1] == RUNS[1]


def test_a_run_is_named_anew_where_the_name_is_free_and_taken_out() -> None:
    job = Job("", "", "", (LEFT,), runs=RUNS)
    assert [run.name for run in renamed_run(job, "POWER", " main ", "").runs] == ["main", "signal"]
    assert renamed_run(job, "power", "Power", "blue").runs[0].note == "blue"
    for taken in ("Signal", "left amp", " "):
        with pytest.raises(FastenError):
            renamed_run(job, "power", taken, "")
    assert [run.name for run in without_run(job, " Power").runs] == ["signal"]
    with pytest.raises(FastenError, match="no run 'sub'"):
        without_run(job, "sub")
