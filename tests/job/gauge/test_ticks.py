"""What was found at the car is kept as it was found: at least so much where a gauge went in, the figure where not."""

from dataclasses import replace

import pytest

from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.job.choices import choices
from fasten.job.edit import find_mount, with_mount
from fasten.job.gauge.gauge import measuring_pass
from fasten.job.gauge.ticks import stopped, ticked
from fasten.job.words import Job
from fasten.model import Status
from fasten.model.check import needed

from .passes import found, job

pytestmark = pytest.mark.slow


def said(asked: Job, mount: str) -> dict[str, str]:
    return dict(find_mount(asked, mount).said)


def test_a_tick_keeps_that_there_is_at_least_as_much_as_the_gauge() -> None:
    after = ticked(job("two doors"), found("two doors"), "left adapter: behind")
    assert said(after, "left adapter")["behind"] == "at least 22 mm"
    assert "edge" not in said(after, "left adapter")
    assert after.mounts[1:] == job("two doors").mounts[1:]


def test_what_is_ticked_is_proven_and_asked_for_no_more() -> None:
    after = ticked(job("two doors"), found("two doors"), "all")
    assert all(one.plan is not None and one.plan.status is Status.HOLDS for one in choices(after, builtin()))
    assert not measuring_pass(after, builtin()).mounts


def test_a_change_that_needs_more_than_was_found_leaves_it_open_with_both_figures() -> None:
    short = ticked(job("two doors"), found("two doors"), "left adapter")
    mount = find_mount(short, "left adapter")
    less = with_mount(short, replace(mount, said=tuple((dict(mount.said) | {"behind": "at least 16 mm"}).items())),
                      instead_of=mount.name)  # fmt: skip
    answer = choices(less, builtin())[0].answer
    assert answer is not None
    assert answer.proposal.status is Status.NOT_CHECKED
    assert needed(answer.proposal.checks) == ("21.5 mm behind (at least 16 mm is known)",)
    again = measuring_pass(less, builtin()).mounts[0]
    assert [(mark.field, mark.needs_mm) for mark in again.marks] == [("behind", 22)]


def test_what_a_gauge_stopped_at_is_kept_as_it_was_read() -> None:
    after = stopped(job("two doors"), found("two doors"), "left adapter: behind = 21 mm", builtin())
    assert said(after, "left adapter")["behind"] == "21 mm"
    first = choices(after, builtin())[0].answer
    assert first is not None
    assert first.title == found("two doors").mounts[0].marks[0].below


def test_a_later_reading_replaces_the_earlier_and_what_is_left_says_so_in_a_whole_sentence() -> None:
    after = ticked(job("two doors"), found("two doors"), "all")
    left = measuring_pass(after, builtin())
    again = stopped(after, left, "left adapter: behind = 19 mm", builtin())
    assert said(again, "left adapter")["behind"] == "19 mm"
    with pytest.raises(FastenError, match="nothing is left to measure; where"):
        stopped(after, left, "left adapter = 19 mm", builtin())


def test_what_is_got_below_holds_down_to_where_it_is_said_and_nothing_is_proven_under_it() -> None:
    [mark] = [mark for mark in found("two doors").mounts[0].marks if mark.field == "behind"]
    assert mark.unproven_mm is not None
    for behind, holds in ((mark.below_mm, True), (mark.unproven_mm - 1, False)):
        after = ticked(job("two doors"), found("two doors"), "left adapter")
        after = stopped(after, found("two doors"), f"left adapter: behind = {behind} mm", builtin())
        plan = choices(after, builtin())[0].plan
        assert plan is not None
        assert (plan.status is Status.HOLDS) is holds


def test_how_far_a_panel_moved_is_kept_with_its_push() -> None:
    after = stopped(job("demo"), found("demo"), "left amplifier: support = 0.6 mm", builtin())
    assert said(after, "left amplifier")["support"] == "push 100 N 0.6 mm"


@pytest.mark.parametrize(
    "wanted", ["left adapter", "left adapter: behind", "left adapter: behind = ", "left adapter: behind = far",
               "left adapter = 14 mm", "nobody: behind = 14 mm", "left adapter: mass = 14 kg"],
)  # fmt: skip
def test_a_reading_that_names_no_mark_or_no_figure_is_refused(wanted: str) -> None:
    with pytest.raises(FastenError):
        stopped(job("two doors"), found("two doors"), wanted, builtin())


@pytest.mark.parametrize("wanted", ["nobody", "left adapter: mass", "left adapter: depth"])
def test_a_tick_that_names_no_mark_is_refused(wanted: str) -> None:
    with pytest.raises(FastenError):
        ticked(job("two doors"), found("two doors"), wanted)
