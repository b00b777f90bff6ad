"""A job twice as large takes twice as long and no more: what all of it decides is found once, not for each of it."""

import sys
from collections.abc import Callable
from dataclasses import replace
from functools import cache
from types import FrameType

import pytest

from fasten.catalog.tables import builtin
from fasten.commands.demo import JOB, demo_folder
from fasten.job.entries import entries
from fasten.job.list.hardware import hardware
from fasten.job.ready import ready_of
from fasten.job.store.storage import load_job
from fasten.job.wiring.proposals import proposals
from fasten.job.wiring.runs import run_choices
from fasten.job.words import Job

FEW, MANY = 4, 8  # even: every other one leaves loads to be found
MOST = 2.2  # times as many calls for twice as many entries
Work = Callable[[Job], object]


@cache
def copies(count: int) -> Job:
    """The demo so many times over, each with its own names; every other one does not say what its leads carry."""
    job = load_job(demo_folder() / JOB, builtin()).value
    names = {mount.name for mount in job.mounts}

    def ends(said: tuple[tuple[str, str], ...], of: str) -> tuple[tuple[str, str], ...]:
        parted = ((name, text.partition(",")) for name, text in said)
        return tuple((name, f"{at} {of}{comma}{rest}" if at in names else f"{at}{comma}{rest}")
                     for name, (at, comma, rest) in parted)  # fmt: skip

    numbers = tuple(map(str, range(count)))
    runs = tuple(
        replace(
            run, name=f"{run.name} {of}", sections=tuple(f"{name} {of}" for name in run.sections),
            holes=tuple(f"{name} {of}" for name in run.holes),
            said=tuple(pair for pair in ends(run.said, of)
                       if pair[0] != "carries" or "lead" not in run.name or int(of) % 2),
        )
        for of in numbers for run in job.runs
    )  # fmt: skip
    return replace(
        job, runs=runs,
        mounts=tuple(replace(one, name=f"{one.name} {of}") for of in numbers for one in job.mounts),
        sections=tuple(replace(one, name=f"{one.name} {of}") for of in numbers for one in job.sections),
        holes=tuple(replace(one, name=f"{one.name} {of}") for of in numbers for one in job.holes),
    )  # fmt: skip


def listed(job: Job) -> None:
    found = entries(job, builtin())
    ready_of(job, hardware(job, found, None, builtin()), found, builtin())


def lacking(job: Job) -> None:
    proposals(job, run_choices(job, builtin()), builtin())


def calls(work: Work, count: int) -> int:
    """How many functions are called for so many copies, once the answers to their questions are kept."""
    work(copies(count))
    job, seen = replace(copies(count), title="again"), 0  # which keeps nothing that was found of the one before

    def see(frame: FrameType, event: str, argument: object) -> None:
        nonlocal seen
        seen += event == "call"

    before = sys.getprofile()
    sys.setprofile(see)
    try:
        work(job)
    finally:
        sys.setprofile(before)
    return seen


@pytest.mark.parametrize("work", [listed, lacking])
def test_twice_as_much_takes_no_more_than_twice_the_calls(work: Work) -> None:
    assert calls(work, MANY) < MOST * calls(work, FEW)
