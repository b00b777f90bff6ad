"""A measuring pass by what it promises: enough and not too much, as few gauges as can be, and no answer changes."""

from collections.abc import Iterator
from dataclasses import replace
from itertools import combinations
from random import Random

import pytest

from fasten.advice.advise import advise
from fasten.catalog.tables import builtin
from fasten.job.boards import placed
from fasten.job.gauge.first import roomy
from fasten.job.gauge.needs import same_as
from fasten.job.gauge.words import Mark, Measured, Tool
from fasten.job.words import Job
from fasten.model import MountPoint, Proposal, Status
from fasten.question.read_support import read_support

from .passes import JOBS, found, job

SLACK = {"behind": 5, "edge": 10}
ROOMY = 500.0

pytestmark = pytest.mark.slow


def measured(name: str) -> Iterator[tuple[Measured, MountPoint]]:
    """Each mount point that is proven where it has room, with its panel said as the pass says it."""
    asked = job(name)
    for one in found(name).mounts:
        if not one.open:
            yield one, with_room(point(asked, one), ROOMY, ROOMY)


def point(asked: Job, one: Measured) -> MountPoint:
    mount = next(mount for mount in asked.mounts if mount.name == one.mount)
    support = next((mark.said for mark in one.marks if mark.field == "support"), None)
    plain = roomy(placed(mount, asked, builtin()), builtin())
    return plain if support is None else replace(plain, support=read_support(support, builtin(), ""))


def with_room(mount: MountPoint, behind: float, edge: float) -> MountPoint:
    return replace(mount, behind_mm=behind, edge_mm=edge)


def first(mount: MountPoint) -> Proposal | None:
    answers = advise(mount, builtin(), changes=False).answers
    return answers[0].proposal if answers else None


def of(one: Measured, field: str) -> Mark | None:
    return next((mark for mark in one.marks if mark.field == field), None)


def gauge(one: Measured, field: str) -> float:
    mark = of(one, field)
    return 1.0 if mark is None else mark.gauge_mm


@pytest.mark.parametrize("name", JOBS)
def test_every_proven_mount_has_gauges_that_are_enough_and_not_too_much(name: str) -> None:
    for one, _ in measured(name):
        for field, slack in SLACK.items():
            mark = of(one, field)
            assert mark is None or mark.needs_mm <= mark.gauge_mm <= mark.needs_mm + slack, one


@pytest.mark.parametrize("name", JOBS)
@pytest.mark.parametrize("field", SLACK)
def test_no_fewer_gauges_serve_them_all(name: str, field: str) -> None:
    marks = [mark for one in found(name).mounts for mark in one.marks if mark.field == field]
    needs, used = sorted({mark.needs_mm for mark in marks}), {mark.gauge_mm for mark in marks}
    fewer = (chosen for count in range(len(used)) for chosen in combinations(needs, count))
    served = (
        all(any(mark.needs_mm <= size <= mark.needs_mm + SLACK[field] for size in chosen) for mark in marks)
        for chosen in fewer
    )
    assert not marks or not any(served)


@pytest.mark.parametrize("name", JOBS)
def test_verdict_and_first_answer_stay_at_the_gauges_and_beyond(name: str) -> None:
    random = Random(18)
    for one, mount in measured(name):
        wanted = same_as(first(mount))
        behind, edge = gauge(one, "behind"), gauge(one, "edge")
        for _ in range(6):
            more = [random.choice([least, least + random.uniform(0, 40), ROOMY]) for least in (behind, edge)]
            assert same_as(first(with_room(mount, *more))) == wanted, (one.mount, more)


@pytest.mark.parametrize("name", JOBS)
def test_a_millimetre_under_a_need_either_changes(name: str) -> None:
    for one, mount in measured(name):
        wanted = same_as(first(mount))
        for mark in one.marks:
            if mark.field in SLACK:
                at = with_room(mount, mark.needs_mm, ROOMY), with_room(mount, mark.needs_mm - 1, ROOMY)
                if mark.field == "edge":
                    at = with_room(mount, ROOMY, mark.needs_mm), with_room(mount, ROOMY, mark.needs_mm - 1)
                assert same_as(first(at[0])) == wanted, mark
                assert same_as(first(at[1])) != wanted, mark


def test_what_no_measuring_settles_is_named_with_why() -> None:
    """25 kg on a floor panel that nothing holds: no joint does, whatever room there is."""
    unsettled = found("enclosure").unresolved
    assert [one.mount for one in unsettled] == ["enclosure"]
    assert "would fit with" in unsettled[0].open[0]
    assert not found("demo").unresolved


@pytest.mark.parametrize("name", JOBS)
def test_between_its_two_shanks_every_hole_leaves_the_answer(name: str) -> None:
    for one, mount in measured(name):
        mark = of(one, "item-hole")
        if mark is None or mark.stops_mm is None:
            continue
        wanted = same_as(first(mount))
        assert mark.needs_mm <= mark.gauge_mm <= mount.item_hole_mm < mark.stops_mm
        for hole in (mark.gauge_mm, round((mark.gauge_mm + mark.stops_mm - 0.1) / 2, 1), mark.stops_mm - 0.1):
            assert same_as(first(replace(mount, item_hole_mm=hole))) == wanted, (one.mount, hole)


def test_what_a_panel_needs_is_tried_easiest_first_and_each_way_settles_it() -> None:
    amplifier = found("demo").mounts[0]
    ways = [mark for mark in amplifier.marks if mark.field == "support"]
    assert [mark.tool for mark in ways] == [Tool.PUSH, Tool.BAY]
    for mark in ways:
        mount = replace(point(job("demo"), amplifier), support=read_support(mark.said, builtin(), ""))
        assert (proposal := first(mount)) is not None
        assert proposal.status is Status.HOLDS


def test_a_board_that_is_cut_for_the_job_keeps_a_margin_and_a_panel_is_tried_with_a_strip() -> None:
    tools = {one.mount: {mark.tool for mark in one.marks} for one in found("two doors").mounts}
    assert Tool.MARGIN in tools["left driver"]
    assert Tool.STRIP not in tools["left driver"]
    assert Tool.STRIP in tools["left adapter"]


def test_equal_mount_points_are_tried_with_the_same() -> None:
    left, right = found("demo").mounts[:2]
    assert [replace(mark, mount="") for mark in left.marks] == [replace(mark, mount="") for mark in right.marks]
