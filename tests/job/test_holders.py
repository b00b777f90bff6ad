"""Fuse holders that are mount points of the job: the run whose fuse sits in one names it."""

from dataclasses import replace

import pytest

from fasten.job.entries import entries
from fasten.job.list.hardware import hardware
from fasten.job.wiring.runs import RunChoice, named_run, run_choices
from fasten.job.words import CableRun, Job, Mount
from fasten.model import Status
from fasten.report.wire.runs import runs_json
from fasten.wiring.ends import HOLDERS
from fasten.wiring.wired import Wired

from .test_runs import JOB, ON, TABLES

FEED = CableRun("feed", (("carries", "5 A"), ("from", "connector"), ("to", "stud M6"), ("length", "2 m")))


def with_holders(*names: str, runs: tuple[CableRun, ...] = JOB.runs) -> Job:
    holders = tuple(Mount(name, (("item", "fuse-holder"), *ON)) for name in names)
    return replace(JOB, mounts=(*holders, *JOB.mounts), runs=runs)


def at_fuses(job: Job) -> dict[str, list[str]]:
    """What the ends on the way of each run are called."""
    return {one.name: on_the_way(one) for one in run_choices(job, TABLES) if on_the_way(one)}


def on_the_way(one: RunChoice) -> list[str]:
    ends = () if one.answer is None else one.answer.done.made.ends
    return [end.label for end in ends if end.label.endswith((" in", " out"))]


def test_the_run_from_the_battery_names_the_holder_that_is_there() -> None:
    job = with_holders("main fuse", runs=(FEED, *JOB.runs))
    assert at_fuses(job) == {"feed": ["fuse in", "fuse out"], "trunk": ["main fuse in", "main fuse out"]}
    found = run_choices(job, TABLES)
    answer = next(one.answer for one in found if one.name == "trunk")
    assert answer is not None
    assert [(piece.from_, piece.to) for piece in answer.done.made.pieces] == [
        ("battery +", "main fuse"), ("main fuse", "block"),
    ]  # fmt: skip
    fuse = next(one["fuse"] for one in runs_json(found)["runs"] if one["name"] == "trunk")
    assert fuse["holders"] == ["main fuse"]


@pytest.mark.parametrize("names", [("feed fuse", "other"), ("other", "feed fuse")])
def test_a_holder_that_is_called_by_a_run_is_that_run_s(names: tuple[str, str]) -> None:
    found = at_fuses(with_holders(*names, runs=(*JOB.runs, FEED)))
    assert found == {"trunk": ["other in", "other out"], "feed": ["feed fuse in", "feed fuse out"]}


def test_a_run_between_two_batteries_takes_two_holders() -> None:
    both = CableRun("second", (("carries", "100 A"), ("from", "battery stud M8"), ("to", "battery post +"),
                               ("length", "5 m")))  # fmt: skip
    found = at_fuses(with_holders("front", "rear", "spare", runs=(both,)))
    assert found == {"second": ["front in", "front out", "rear in", "rear out"]}
    assert at_fuses(with_holders("front", runs=(both,)))["second"][2:] == ["fuse 2 in", "fuse 2 out"]


def test_a_holder_where_a_run_ends_is_adopted_by_no_other() -> None:
    to_it = CableRun(
        "stub", (("carries", "50 A"), ("from", "stud M8"), ("to", "main fuse, stud M8"), ("length", "1 m"))
    )
    assert at_fuses(with_holders("main fuse", runs=(*JOB.runs, to_it)))["trunk"] == ["fuse in", "fuse out"]


def test_the_fuse_of_a_run_that_ends_at_a_holder_sits_there() -> None:
    """SF51 has studs M8: a lug on each side of it; 450 mm from the battery at most."""

    def job(length: str) -> Job:
        first = CableRun("first", (("from", "battery stud M8"), ("to", "main fuse"), ("length", length)))
        trunk = CableRun("trunk", (("from", "main fuse"), ("to", "block"), ("length", "4.6 m")))
        return with_holders("main fuse", runs=(first, trunk, *JOB.runs[1:]))

    def answer(name: str, length: str) -> Wired:
        found = named_run(run_choices(job(length), TABLES), name).answer
        assert found is not None
        return found

    near, trunk = answer("first", "0.4 m"), answer("trunk", "0.4 m")
    ends = [(end.label, end.part and end.part.stud, end.turn.whose) for end in near.done.made.ends]
    assert ends == [("battery +", "M8", "battery's figure"), ("main fuse", "M8", HOLDERS)]
    begins = trunk.done.made.ends[0]
    assert (trunk.sizing.fuse, begins.part and begins.part.stud, begins.turn.whose) == (None, "M8", HOLDERS)
    status = [
        {check.id: check.status for check in one.checks}["fuse-place"] for one in (near, answer("first", "0.6 m"))
    ]
    assert status == [Status.HOLDS, Status.FAILS]
    listed = hardware(job("0.4 m"), entries(job("0.4 m"), TABLES), None, TABLES)
    assert [line.needed for line in listed.parts if line.id.key == "fuse_holder"] == [1]


def test_a_block_s_own_fuses_take_no_holder_and_the_list_counts_no_more_of_them() -> None:
    job = with_holders("main fuse", "spare")
    assert list(at_fuses(job)) == ["trunk"]
    listed = hardware(job, entries(job, TABLES), None, TABLES)
    assert [line.needed for line in listed.parts if line.id.key == "fuse_holder"] == [1]


def test_what_was_accepted_of_a_run_stays_when_its_holder_becomes_a_mount_point() -> None:
    def ids(job: Job) -> list[str]:
        answer = next(one.answer for one in run_choices(job, TABLES) if one.name == "trunk")
        assert answer is not None
        return [one.id for one in answer.confirms]

    assert ids(JOB) == [*ids(with_holders("main fuse")), "holder-point:trunk"]


@pytest.mark.parametrize("first", [True, False])
def test_a_holder_that_is_screwed_on_goes_to_none_whose_own_hangs_in_its_cable(first: bool) -> None:
    """A blade of 7.5 A for 5 A is in line: it takes neither place from a bolted one, in whatever order they are."""
    light = CableRun("light", (("carries", "5 A"), ("from", "battery stud M8"), ("to", "connector"), ("length", "2 m")))
    runs = (light, *JOB.runs) if first else (*JOB.runs, light)
    job = with_holders("one", runs=runs)
    assert at_fuses(job) == {"trunk": ["one in", "one out"], "light": ["fuse in", "fuse out"]}
    open_ = {one.name: [check.id for check in one.answer.checks if check.id.startswith("holder-point")]
             for one in run_choices(job, TABLES) if one.answer is not None}  # fmt: skip
    assert (open_["trunk"], open_["light"]) == ([], [])
    assert at_fuses(with_holders("light fuse", runs=runs))["light"] == ["light fuse in", "light fuse out"]
