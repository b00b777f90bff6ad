"""Fewest different sizes of whole jobs: what is offered is proved, what is chosen can be pinned, none gets worse."""

from collections.abc import Callable, Iterable
from dataclasses import replace
from functools import cache
from itertools import product
from math import inf
from typing import Any

import pytest
from built.few import few, sample

from fasten.advice.advise import advise
from fasten.advice.plan import plan_of
from fasten.catalog.job_parts import SIZE_WEIGHTS
from fasten.catalog.tables import builtin
from fasten.job.choices import Choice, choices
from fasten.job.entry import Entry
from fasten.job.pins import pin_of
from fasten.job.shelf.owned import owned_of
from fasten.job.sizes.fewest import Size
from fasten.job.sizes.fewest_search import MOST_WORK
from fasten.job.sizes.offers import fewest_sizes
from fasten.job.sizes.standard import Standard, sizes_of
from fasten.job.words import Job, Mount, Repair, Shelf, Visit
from fasten.model import Answer, MountPoint
from fasten.progress import Stopped

from .sample_jobs import SAID, UNFIT, job, mount, random_mounts

pytestmark = pytest.mark.slow

TABLES = builtin()
WEIGHTS = {row.kind: row.points for row in TABLES.rows(SIZE_WEIGHTS)}
MIXED = job(mount("amp"), mount("bracket"), mount("rack"), mount("speaker"), Mount("box", tuple(UNFIT.items())))


def solved(asked: Job, stop: Callable[[int, int], bool] = lambda done, of: False) -> Standard:
    """The fewest sizes of a job, stopped where that is said of what is done and of how much."""

    def step(done: int, of: int) -> None:
        if stop(done, of):
            raise Stopped

    return fewest_sizes(choices(asked, TABLES), TABLES, None, step)


@cache
def mixed() -> Standard:
    """The fewest sizes of the mixed job, searched to the end."""
    return solved(MIXED)


def answered(found: Iterable[Entry]) -> list[tuple[str, MountPoint, Answer]]:
    mounts = [one for one in found if isinstance(one, Choice)]
    return [(c.name, c.point, c.answer) for c in mounts if c.answer is not None and c.point is not None]


def sizes(found: Iterable[Entry]) -> set[Size]:
    """The sizes of all answers, counted apart from the search."""
    return set().union(*(sizes_of(plan_of(name, a, point, TABLES)) for name, point, a in answered(found)))


def test_before_are_the_answers_of_the_job_and_after_those_that_were_chosen() -> None:
    found = mixed()
    assert set(found.before) == sizes(choices(MIXED, TABLES))
    assert set(found.after) == sizes(found.choices)
    assert len(found.after) < len(found.before)
    assert found.cost < found.before_cost
    assert found.proven


def test_the_costs_are_the_weights_of_the_sizes_and_the_rank_that_is_lost() -> None:
    found = mixed()
    for told, cost, lost in (
        (found.before, found.before_cost, 0.0), (found.after, found.cost, sum(c.rank_lost for c in found.changes)),
    ):  # fmt: skip
        assert cost == pytest.approx(sum(WEIGHTS[kind] for kind, _ in told) + WEIGHTS["rank"] * lost)


def test_it_is_the_least_of_every_combination_of_answers() -> None:
    """Over the answers of the advice alone, counted by hand: the search has these to choose from, and more."""
    asked = job(mount("amp"), mount("seen"), mount("fuse"))
    found = choices(asked, TABLES)
    points = [point for _, point, _ in answered(found)]
    best = inf
    for combination in product(*(advise(point, TABLES, changes=False).answers for point in points)):
        needed = set().union(*(sizes_of(plan_of("", a, p, TABLES)) for a, p in zip(combination, points, strict=True)))
        firsts = (advise(point, TABLES, changes=False).answers[0] for point in points)
        lost = sum(a.score.total - first.score.total for a, first in zip(combination, firsts, strict=True))
        best = min(best, sum(WEIGHTS[kind] for kind, _ in needed) + WEIGHTS["rank"] * lost)
    result = solved(asked)
    assert result.proven
    assert result.cost <= best + 1e-6


@pytest.mark.parametrize("seed", sample([1, 2, 3], 1))
def test_all_that_is_chosen_is_proved_and_its_pins_give_it_back(seed: int) -> None:
    asked = job(*random_mounts(seed, few(15, 10)))
    before, found = choices(asked, TABLES), solved(asked)
    assert found.cost <= found.before_cost
    mounts = tuple(replace(m, pin=found.pins.get(m.name)) for m in asked.mounts)
    again = choices(job(*mounts), TABLES)
    for first, chosen, pinned in zip(before, found.choices, again, strict=True):
        assert isinstance(chosen, Choice)
        assert (chosen.answer is None) == (first.answer is None)
        if first.answer is not None and chosen.answer is not None and pinned.answer is not None:
            assert pinned.answer.proposal == chosen.answer.proposal
            assert chosen.answer.proposal.proven >= first.answer.proposal.proven, "nothing proven is given up"


def test_only_what_changes_is_pinned_and_then_nothing_changes_any_more() -> None:
    found = mixed()
    assert set(found.pins) == {change.mount for change in found.changes if change.before != change.after}
    kept = job(*(replace(m, pin=found.pins.get(m.name)) for m in MIXED.mounts))
    again = solved(kept)
    assert again.pins == {}
    assert set(again.before) == set(again.after) == set(found.after)


def test_a_pinned_mount_point_stays_and_the_others_come_to_it() -> None:
    """M4 at one amplifier is dearer by itself, but where it is held the other one takes it too."""
    amp = mount("amp left")
    m4 = next(
        a
        for a in advise(answered(choices(job(amp), TABLES))[0][1], TABLES, changes=False).answers
        if a.title.startswith("M4")
    )
    found = solved(job(replace(amp, pin=pin_of(m4)), mount("amp right")))
    held, other = found.changes
    assert (held.pinned, held.changed, held.before) == (True, False, held.after)
    assert held.pin == pin_of(m4)
    assert (other.pinned, other.changed) == (False, True)
    assert other.pin == pin_of(m4)


@pytest.mark.parametrize("more", [
    {"ticked": ("hole:1 = 7 mm",)}, {"visits": (Visit("2026-05-03", "7 mm", "", "", "", kind="fitted"),)},
    {"repairs": (Repair(3, "spun", "N1", None),)},
])  # fmt: skip
def test_what_is_drilled_built_or_repaired_stays_as_it_is(more: dict[str, Any]) -> None:
    """Where M4 is held elsewhere an M5 would become one, but no body of M4 fills a hole of 7 mm."""
    left = mount("amp left")
    m4 = next(
        one for one in advise(answered(choices(job(left), TABLES))[0][1], TABLES, changes=False).answers
        if one.title.startswith("M4")
    )  # fmt: skip
    found = solved(job(replace(left, pin=pin_of(m4)), replace(mount("amp right"), **more)))
    assert found.pins == {}
    assert found.changes[1].before.startswith("M5")


def test_what_costs_the_same_stays_as_it_is() -> None:
    found = solved(job(mount("amp left"), mount("amp right")))
    assert [change.changed for change in found.changes] == [False, False]
    assert found.pins == {}
    assert (found.before, found.before_cost) == (found.after, found.cost)


def test_stopped_at_once_it_is_no_worse_and_says_that_it_is_not_proved() -> None:
    """So many kinds that their best choice does not follow without a search."""
    found = solved(job(*(mount(name) for name in SAID)), lambda _, of: of == MOST_WORK)
    assert not found.proven
    assert found.cost <= found.before_cost
    assert set(found.after) == sizes(found.choices)


@pytest.mark.parametrize("at", range(9))
def test_stopped_while_joints_are_proved_it_chooses_among_those_that_are(at: int) -> None:
    """Four mount points have an answer, and each is looked at twice: for its own sizes, then with those of others."""
    whole, found = mixed(), solved(MIXED, lambda done, of: (done, of) == (at, 8))
    assert not found.proven
    assert whole.cost <= found.cost <= found.before_cost
    assert (found.before, found.before_cost) == (whole.before, whole.before_cost)
    if at == 0:
        assert found.pins == {}
    if at >= 7:
        assert found.cost < found.before_cost


def test_what_fits_nowhere_is_told_and_takes_no_part() -> None:
    found = mixed()
    assert [entry.mount for entry in found.unfit] == ["box"]
    assert "box" not in {change.mount for change in found.changes}
    assert [choice.name for choice in found.choices] == [m.name for m in MIXED.mounts]
    empty = solved(job())
    assert (empty.before, empty.after, empty.changes, empty.cost, empty.proven) == ((), (), (), 0, True)


def test_a_longer_screw_is_no_more_than_ten_millimetres_longer() -> None:
    before = {name: answer for name, _, answer in answered(choices(job(*random_mounts(7, few(25, 12))), TABLES))}
    for name, _, answer in answered(solved(job(*random_mounts(7, few(25, 12)))).choices):
        first, screw = before[name].proposal.joint.screw, answer.proposal.joint.screw
        alike = pin_of(before[name]).series == pin_of(answer).series and before[name].title == answer.title
        if alike and first is not None and screw is not None:
            assert screw.length_mm <= first.length_mm + 10


def test_with_a_shelf_what_stands_is_what_the_shelf_makes_first() -> None:
    """The list of the job and the comparison begin from the same answers."""
    owned = owned_of(Shelf("", "", "", (), (), ("rivet-nut setter", "rivet-nut mandrel M4"), ()), TABLES)
    found = choices(MIXED, TABLES, owned)
    result = fewest_sizes(found, TABLES, owned)
    assert set(result.before) == sizes(found)
