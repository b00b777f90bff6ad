"""Fewest different sizes: what is chosen is the cheapest there is and the first of equals, whatever the order."""

from dataclasses import replace
from itertools import product
from random import Random

import pytest
from built.few import few, sample
from hypothesis import given, settings
from hypothesis import strategies as st

from fasten.catalog.check import check_table
from fasten.catalog.job_parts import SIZE_WEIGHTS, SizeWeight
from fasten.catalog.tables import builtin
from fasten.job.sizes.fewest import Fewest, Option, Place, Size, fewest
from fasten.job.sizes.fewest_bound import Problem, climb, root
from fasten.job.sizes.fewest_search import MOST_WORK, Budget, Search
from fasten.progress import Step, Stopped

pytestmark = pytest.mark.slow

WEIGHTS = {"screw": 2.0, "receiver": 3.0, "bit": 1.0, "setting tool": 4.0}  # as shipped, but of the test's own
POOL = {"screw": 3, "receiver": 3, "bit": 3, "setting tool": 2}
SCREW, OTHER_SCREW, BIT, TOOL = ("screw", "M5"), ("screw", "M6"), ("bit", "5.5 mm"), ("setting tool", "puller")


def option(key: str, *sizes: Size, lost: float = 0.0) -> Option:
    return Option(key, frozenset(sizes), lost)


def place(name: str, *options: Option) -> Place:
    return Place(name, options)


def random_sizes(rng: Random, pool: dict[str, int]) -> frozenset[Size]:
    """A screw and a bit, and most often a receiver with its tool."""
    kinds = ("screw", "bit", "receiver", "setting tool")[: rng.choice((2, 4, 4))]
    return frozenset((kind, f"{kind} {rng.randrange(pool[kind])}") for kind in kinds)


def random_place(rng: Random, name: str, count: int, pool: dict[str, int]) -> Place:
    """Losses rise from the first option on by quarters, which add up exactly; keys are in no order."""
    lost, options = 0.0, []
    for key in rng.sample("abcdefghijkl", count):
        options.append(Option(key, random_sizes(rng, pool), lost))
        lost += rng.choice((0.0, 0.25, 0.5, 1.0))
    return Place(name, tuple(options))


def random_job(seed: int) -> list[Place]:
    """Up to six mount points of up to five options; some are pinned to one, some are the same as one before."""
    rng = Random(seed)
    places: list[Place] = []
    for number in range(rng.randint(1, 6)):
        count = rng.choice((1, 2, 3, 4, 5, 5))
        alike = places and rng.random() < 0.25
        new = rng.choice(places) if alike else random_place(rng, "", count, POOL)
        places.append(replace(new, name=f"mount {number}"))
    return places


def cost(choice: tuple[Option, ...], rank_weight: float) -> float:
    sizes = frozenset[Size]().union(*(option.sizes for option in choice))
    return sum(WEIGHTS[kind] for kind, _ in sizes) + rank_weight * sum(option.rank_lost for option in choice)


def brute_force(places: list[Place], rank_weight: float) -> tuple[float, tuple[str, ...]]:
    """The least cost of all choices, and of those that have it the first by key: every one is looked at."""
    choices = product(*(place.options for place in places))
    return min((cost(choice, rank_weight), tuple(option.key for option in choice)) for choice in choices)


def picked(places: list[Place], found: Fewest) -> tuple[Option, ...]:
    """The options chosen; that each is one of its own mount point's is the point."""
    pairs = zip(places, found.chosen, strict=True)
    return tuple(next(option for option in place.options if option.key == key) for place, key in pairs)


@pytest.mark.parametrize("seed", range(few(200)))
def test_equals_brute_force(seed: int) -> None:
    """Every choice of a small job tried, cost and ties: the definition itself, no published source."""
    places, rank_weight = random_job(seed), (1.0, 0.5, 4.0)[seed % 3]
    found = fewest(places, WEIGHTS, rank_weight)
    least, first = brute_force(places, rank_weight)
    assert (found.cost, found.chosen) == (least, first)
    assert found.proven
    assert found.cost == cost(picked(places, found), rank_weight)
    assert found.sizes == frozenset[Size]().union(*(option.sizes for option in picked(places, found)))
    assert found.before_cost == cost(tuple(place.options[0] for place in places), rank_weight) >= found.cost


def test_the_random_jobs_hold_what_they_are_for() -> None:
    """Pins, mount points alike, ties that hang on the key, and jobs where the first options are not the answer."""
    jobs = [random_job(seed) for seed in range(few(200, 40))]
    assert sum(any(len(place.options) == 1 for place in job) for job in jobs) > len(jobs) / 4
    assert sum(len({place.options for place in job}) < len(job) for job in jobs) > len(jobs) / 4
    saved = [fewest(job, WEIGHTS, 1.0) for job in jobs]
    assert sum(found.cost < found.before_cost for found in saved) > len(jobs) / 2
    backwards = [fewest([with_keys_reversed(place) for place in job], WEIGHTS, 1.0) for job in jobs]
    changed = [
        {(option.sizes, option.rank_lost) for option in picked(job, found)}
        != {(option.sizes, option.rank_lost) for option in picked([with_keys_reversed(place) for place in job], other)}
        for job, found, other in zip(jobs, saved, backwards, strict=True)
    ]
    assert sum(changed) > len(jobs) / 10


def with_keys_reversed(place: Place) -> Place:
    """The same options, their keys in the opposite order."""
    turned = str.maketrans("abcdefghijkl", "lkjihgfedcba")
    return replace(place, options=tuple(replace(o, key=o.key.translate(turned)) for o in place.options))


@given(st.integers(0, 10_000), st.randoms(use_true_random=False))
@settings(max_examples=few(60), deadline=None)
def test_the_order_of_options_changes_nothing(seed: int, rng: Random) -> None:
    places = random_job(seed)
    shuffled = [replace(place, options=tuple(rng.sample(place.options, len(place.options)))) for place in places]
    one, other = fewest(places, WEIGHTS, 1.0), fewest(shuffled, WEIGHTS, 1.0)
    assert (one.chosen, one.cost, one.sizes, one.nodes) == (other.chosen, other.cost, other.sizes, other.nodes)


@given(st.integers(0, 10_000), st.randoms(use_true_random=False))
@settings(max_examples=few(60), deadline=None)
def test_the_order_of_mount_points_changes_no_cost(seed: int, rng: Random) -> None:
    places = random_job(seed)
    shuffled = rng.sample(places, len(places))
    assert fewest(places, WEIGHTS, 1.0).cost == fewest(shuffled, WEIGHTS, 1.0).cost


@given(st.integers(0, 10_000), st.integers(0, 5), st.integers(0, 4))
@settings(max_examples=few(60), deadline=None)
def test_a_pinned_choice_stays(seed: int, which: int, held: int) -> None:
    """Pinned to any one of its options, the mount point has that one, and the rest is the best beside it."""
    places = random_job(seed)
    pinned = places[which % len(places)]
    only = pinned.options[held % len(pinned.options)]
    places = [replace(place, options=(only,)) if place is pinned else place for place in places]
    found = fewest(places, WEIGHTS, 1.0)
    assert found.chosen[which % len(places)] == only.key
    assert (found.cost, found.chosen) == brute_force(places, 1.0)


def test_a_pin_draws_the_others_to_its_sizes() -> None:
    loose = place("b", option("m5", SCREW), option("m6", OTHER_SCREW, lost=1.0))
    assert fewest([place("a", option("m6", OTHER_SCREW)), loose], WEIGHTS, 1.0).chosen == ("m6", "m6")
    assert fewest([place("a", option("m6", OTHER_SCREW)), loose], WEIGHTS, 2.5).chosen == ("m6", "m5")


def test_of_equals_the_first_by_key_is_taken_mount_point_by_mount_point() -> None:
    """Either screw for both costs one screw; the earlier mount point's key decides, not the later one's."""
    one = place("one", option("x", SCREW), option("y", OTHER_SCREW))
    other = place("other", option("q", SCREW), option("p", OTHER_SCREW))
    assert fewest([one, other], WEIGHTS, 1.0).chosen == ("x", "q")
    assert fewest([other, one], WEIGHTS, 1.0).chosen == ("p", "y")


def test_the_order_of_mount_points_settles_ties_however_they_hang_together() -> None:
    """The first shares a size with the last alone, yet between the last two the middle one comes first."""
    one, two = ("screw", "one"), ("screw", "two")
    first = place("first", option("a", one), option("b", two))
    middle = place("middle", option("x", SCREW), option("y", OTHER_SCREW))
    last = place("last", option("p", OTHER_SCREW), option("q", SCREW), option("r", one, lost=1.5))
    assert fewest([first, middle, last], WEIGHTS, 1.0).chosen == ("a", "x", "q")
    assert fewest([first, last, middle], WEIGHTS, 1.0).chosen == ("a", "p", "y")


def test_a_size_that_is_there_anyway_is_free_and_then_the_key_decides() -> None:
    """Needing more than another option does not rule one out: what a pinned mount point needs costs nothing more."""
    more, less = option("a", SCREW, BIT), option("b", SCREW)
    assert fewest([place("one", more, less)], WEIGHTS, 1.0).chosen == ("b",)
    assert fewest([place("one", more, less), place("pin", option("z", BIT))], WEIGHTS, 1.0).chosen == ("a", "z")


def test_mount_points_alike_count_as_often_as_they_are() -> None:
    """One mount point gives up a point of rank for a screw of two; three of them lose more than the screw is worth."""
    pin = place("pin", option("m6", OTHER_SCREW))
    loose = place("loose", option("m5", SCREW), option("m6", OTHER_SCREW, lost=1.0))
    assert fewest([pin, loose], WEIGHTS, 1.0).chosen == ("m6", "m6")
    found = fewest([pin, loose, loose, loose], WEIGHTS, 1.0)
    assert found.chosen == ("m6", "m5", "m5", "m5")
    assert found.cost == 4.0


def test_before_is_everybodys_first_option() -> None:
    one = place("one", option("a", SCREW, TOOL), option("b", OTHER_SCREW, lost=0.5))
    other = place("other", option("c", OTHER_SCREW))
    found = fewest([one, other], WEIGHTS, 1.0)
    assert (found.before_cost, found.before_sizes) == (8.0, frozenset((SCREW, OTHER_SCREW, TOOL)))
    assert (found.cost, found.sizes, found.chosen) == (2.5, frozenset((OTHER_SCREW,)), ("b", "c"))


def test_rounding_makes_no_difference_of_a_tie() -> None:
    """0.1 + 0.2 is a hair over 0.3 in floating point, yet both lose three tenths: the key decides."""
    places = [
        place("one", option("a", SCREW, lost=0.1), option("b", OTHER_SCREW, lost=0.3)),
        place("other", option("c", SCREW, lost=0.2), option("d", OTHER_SCREW)),
    ]
    assert fewest(places, WEIGHTS, 1.0).chosen == ("a", "c")


def test_no_mount_points_need_nothing() -> None:
    found = fewest([], WEIGHTS, 1.0)
    assert (found.chosen, found.cost, found.before_cost, found.proven) == ((), 0.0, 0.0, True)


def long_job(seed: int, different: int, pool: dict[str, int]) -> list[Place]:
    rng = Random(seed)
    return [random_place(rng, f"mount {number}", 6, pool) for number in range(different)]


def stopped_after(most: int) -> Step:
    """A step that so many rounds of the search get past."""
    left = iter(range(most))

    def step(_done: int, _of: int) -> None:
        if next(left, None) is None:
            raise Stopped

    return step


WIDE = {"screw": 10, "receiver": 8, "bit": 10, "setting tool": 4}


@pytest.mark.parametrize("most", sample([0, 1, 7, 50, 400], 3))
def test_stopped_it_returns_the_best_found_and_says_so(most: int) -> None:
    """Whenever it is stopped, what comes back is a choice of what is offered and never worse than before."""
    places = long_job(3, 30, WIDE)
    whole, asked = fewest(places, WEIGHTS, 1.0), stopped_after(most)
    found = fewest(places, WEIGHTS, 1.0, asked)
    assert not found.proven
    assert whole.cost <= found.cost <= found.before_cost
    assert found.cost == cost(picked(places, found), 1.0)
    assert found.nodes <= whole.nodes


def test_a_search_that_nobody_stops_is_limited_by_its_work_alone() -> None:
    """So the answer is the same on a slow machine: no clock is read, and what is found grows with the work only."""
    places = long_job(3, 30, WIDE)
    runs = [fewest(places, WEIGHTS, 1.0, most_work=work) for work in (0, 200_000, 300_000, MOST_WORK)]
    assert [found.proven for found in runs] == [False, False, False, True]
    assert sorted((found.cost for found in runs), reverse=True) == [found.cost for found in runs]
    assert sorted({found.nodes for found in runs}) == [found.nodes for found in runs]
    assert fewest(places, WEIGHTS, 1.0, most_work=300_000) == runs[2]


def test_the_step_is_told_how_much_of_the_work_is_done() -> None:
    told: list[tuple[int, int]] = []
    fewest(long_job(3, 30, WIDE), WEIGHTS, 1.0, lambda done, of: told.append((done, of)))
    assert {of for _, of in told} == {MOST_WORK}
    assert [done for done, _ in told] == sorted({done for done, _ in told})
    assert 0 < told[-1][0] < MOST_WORK


@pytest.mark.parametrize("seed", range(few(40, 10)))
def test_stopped_at_once_it_is_never_worse_than_before(seed: int) -> None:
    places = random_job(seed)
    found = fewest(places, WEIGHTS, 1.0, stopped_after(0))
    assert brute_force(places, 1.0)[0] <= found.cost == cost(picked(places, found), 1.0) <= found.before_cost


def test_what_it_starts_from_may_be_worse_than_before_but_is_not_returned() -> None:
    """Mount point by mount point `s` and its bit look cheapest, yet all of them at their first option are cheaper."""
    shared = frozenset({("receiver", "shared"), ("setting tool", "shared")})
    places = [
        place(f"{number}", Option("p", shared, 0.0), option("s", ("bit", f"{number}a"), ("bit", f"{number}b")))
        for number in range(9)
    ]
    found = fewest(places, WEIGHTS, 1.0, stopped_after(0))
    assert not found.proven
    assert found.cost == found.before_cost == 7.0


def test_a_thousand_mount_points_of_a_hundred_kinds_are_searched_as_a_hundred() -> None:
    """Ten of each kind: as many nodes as for one of each that counts tenfold, and few."""
    kinds = long_job(5, 100, WIDE)
    found = fewest([replace(kind, name=f"{kind.name} {n}") for n in range(10) for kind in kinds], WEIGHTS, 0.125)
    tenfold = fewest(kinds, WEIGHTS, 1.25)
    assert found.proven
    assert found.chosen == tenfold.chosen * 10
    assert found.cost == tenfold.cost
    assert found.nodes == tenfold.nodes <= 40


@pytest.mark.parametrize("seed", range(few(4, 1)))
def test_a_job_of_thirty_kinds_is_proven_in_few_nodes(seed: int) -> None:
    """Ten screws, eight receivers, ten bits and four tools in no order at all, which is worse than any shop has."""
    found = fewest(long_job(seed, 30, WIDE), WEIGHTS, 1.0)
    assert found.proven
    assert found.nodes <= 800


def test_a_thousand_mount_points_all_different_need_no_depth() -> None:
    """Apart from one another by their own sizes, or all in one: no recursion to run out of."""
    chain = [
        place(f"{n}", option("a", ("screw", f"{n:04}")), option("b", ("screw", f"{n + 1:04}"))) for n in range(1000)
    ]
    asked = stopped_after(30)
    found = fewest(chain, WEIGHTS, 1.0, asked)
    assert found.cost <= found.before_cost == 2000.0
    pairs = [
        place(f"{n}", option("a", ("screw", f"{n}"), BIT), option("b", ("screw", f"{n}"), TOOL)) for n in range(1000)
    ]
    apart = fewest(pairs, WEIGHTS, 1.0)
    assert apart.proven
    assert apart.cost == 2001.0


@given(st.integers(0, 10**6))
@settings(max_examples=few(200, 60), deadline=None)
def test_the_bound_is_never_over_the_least_cost(seed: int) -> None:
    """Whatever it climbs towards, and for weights far apart; the least cost by trying every choice."""
    rng = Random(seed)
    sizes = range(rng.randint(1, 5))
    offered = [
        [(frozenset(rng.sample(sizes, rng.randint(0, len(sizes)))), rng.choice((0, 1, 250_000, 777_777, 10**9)))]
        * rng.randint(1, 2)
        + [(frozenset(rng.sample(sizes, 1)), rng.randrange(10**6))]
        for _ in range(rng.randint(1, 5))
    ]
    offered.append([(frozenset(sizes), 10**6), (frozenset(), 10**7)])
    problem = Problem([rng.choice((1, 250_000, 3_000_001, 10**10)) for _ in sizes], offered)
    least = min(problem.cost(choice) for choice in product(*(range(len(options)) for options in offered)))
    node = root(problem)
    for bar in (least + 0.5, least * 2.0 + 1, 1e12):
        assert climb(problem, node, bar, 60, lambda: True) < least + 0.01
        shares = [sum(node.shares[cells]) for cells in problem.cells]
        assert all(share < weight + 0.001 for share, weight in zip(shares, problem.weights, strict=True))


def test_a_step_where_next_to_nothing_pulls_stays_in_bounds() -> None:
    """Found by trying thousands of jobs: a pull of rounding alone once sent shares off and ended the search early."""
    offered = [
        [({4}, 250_000), ({2}, 0)],
        [({0, 3}, 750_000), ({0, 2}, 750_000), ({2}, 750_000), ({4}, 0)],
        [({1, 3}, 250_000), ({2}, 250_000), ({4}, 0)],
    ]
    weights = (3_000_000, 3_000_000, 1_000_000, 1_000_000, 1_000_000)
    problem = Problem(weights, [[(frozenset(sizes), loss) for sizes, loss in options] for options in offered])
    assert Search(problem, Budget()).best() == (0, 3, 2)


def test_every_kind_and_the_rank_have_a_shipped_weight() -> None:
    table = builtin().table("size-weights")
    check_table(table, "size-weights.toml")
    rows = {row.kind: row for row in builtin().rows(SIZE_WEIGHTS)}
    assert set(rows) == {*WEIGHTS, "rank", "cable", "terminal", "heat-shrink", "copper"}
    assert rows["setting tool"].points > rows["receiver"].points > rows["screw"].points > rows["bit"].points
    assert {source.basis for source in table.sources.values()} == {"common practice"}
    assert not SizeWeight.parts


@pytest.mark.parametrize(
    ("places", "weights", "rank_weight", "told"),
    [
        ([place("lamp")], WEIGHTS, 1.0, "'lamp'"),
        ([place("lamp", option("a", SCREW), option("a", BIT))], WEIGHTS, 1.0, "each must be once"),
        ([place("lamp", option("a", ("rope", "4 mm")))], WEIGHTS, 1.0, "without 'rope'"),
        ([place("lamp", option("a", SCREW))], {"screw": -1.0}, 1.0, "weight of screw is -1.0"),
        ([place("lamp", option("a", SCREW))], {"screw": float("nan")}, 1.0, "weight of screw is nan"),
        ([place("lamp", option("a", SCREW, lost=-0.5))], WEIGHTS, 1.0, "rank lost by its weight is -0.5"),
        ([place("lamp", option("a", SCREW, lost=1e5))], WEIGHTS, 1.0, "sums are not exact"),
    ],
)
def test_what_cannot_be_calculated_with_is_refused(
    places: list[Place], weights: dict[str, float], rank_weight: float, told: str
) -> None:
    with pytest.raises(ValueError, match=told):
        fewest(places, weights, rank_weight)
