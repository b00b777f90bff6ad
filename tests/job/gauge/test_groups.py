"""The fewest gauges, against trying every set of them."""

from itertools import combinations
from random import Random

import pytest
from hypothesis import given, settings
from hypothesis import strategies as some

from fasten.job.gauge.groups import Interval, fewest, serving

NEEDS = some.lists(some.tuples(some.integers(1, 30), some.integers(0, 8)), min_size=1, max_size=6)


def tried(needs: list[Interval]) -> tuple[int, float]:
    """The least count of gauges and the least sum of what they ask over the needs, by trying every set of needs."""
    sizes = sorted({least for least, _ in needs})
    for count in range(1, len(sizes) + 1):
        sums = [spent for chosen in combinations(sizes, count) if (spent := over(needs, chosen)) is not None]
        if sums:
            return count, min(sums)
    raise AssertionError("every need serves itself")


def over(needs: list[Interval], gauges: tuple[float, ...]) -> float | None:
    found = [serving(need, gauges) for need in needs]
    if any(gauge is None for gauge in found):
        return None
    return sum((gauge or 0.0) - need[0] for gauge, need in zip(found, needs, strict=True))


@settings(deadline=None, max_examples=200)
@given(NEEDS)
def test_as_few_as_trying_every_set_and_with_the_least_over_the_needs(drawn: list[tuple[int, int]]) -> None:
    needs: list[Interval] = [(least, least + more) for least, more in drawn]
    chosen = fewest(needs)
    assert (len(chosen), over(needs, chosen)) == tried(needs)


@pytest.mark.slow
def test_two_thousand_random_sets_of_needs() -> None:
    random = Random(5)
    for _ in range(2000):
        needs: list[Interval] = [
            (least, least + random.randint(0, 8)) for least in random.choices(range(5, 31), k=random.randint(1, 7))
        ]
        chosen = fewest(needs)
        assert (len(chosen), over(needs, chosen)) == tried(needs), needs


def test_equal_needs_count_each_for_itself() -> None:
    """Two gauges are needed either way: 18 and 22 ask 8 over the needs, 20 would serve neither end."""
    needs: list[Interval] = [(14.0, 18.0), (18.0, 22.0), (18.0, 22.0), (22.0, 26.0)]
    assert fewest(needs) == (18.0, 22.0)


def test_no_need_takes_no_gauge() -> None:
    assert fewest([]) == ()
    assert serving((3.0, 5.0), (2.0, 6.0)) is None
