"""The fewest gauges that serve every need, and among those the ones that ask the least more than is needed.

Each need is an interval: from what is needed to the most that it makes sense to ask instead.
"""

from collections import Counter
from collections.abc import Iterable, Sequence
from math import inf

Interval = tuple[float, float]


def fewest(needs: Sequence[Interval]) -> tuple[float, ...]:
    """The gauges, smallest first: as few as can be, and then with the least sum of what they ask over the needs.

    A gauge moved down to the greatest need that it serves serves the same, so only the needs themselves are tried.
    """
    counts = Counter(needs)
    return _least_excess(counts, len(_by_right_ends(counts))) if counts else ()


def serving(needed: Interval, gauges: tuple[float, ...]) -> float | None:
    """The smallest gauge that serves a need; None where none does."""
    return next((gauge for gauge in gauges if needed[0] <= gauge <= needed[1]), None)


def _by_right_ends(intervals: Iterable[Interval]) -> list[float]:
    """Points that hit every interval: each time the end of the one that ends first and is not hit yet."""
    points: list[float] = []
    for least, most in sorted(intervals, key=lambda one: one[1]):
        if not points or least > points[-1]:
            points.append(most)
    return points


def _least_excess(counts: Counter[Interval], count: int) -> tuple[float, ...]:
    """The best choice of so many gauges, built up gauge by gauge: for each last gauge the cheapest way there."""
    needs = sorted({least for least, _ in counts})
    best: dict[float, tuple[float, tuple[float, ...]]] = {-inf: (0.0, ())}
    for _ in range(count):
        longer: dict[float, tuple[float, tuple[float, ...]]] = {}
        for last, (spent, chosen) in best.items():
            for need in (one for one in needs if one > last):
                excess = _excess(counts, last, need)
                if excess is not None and (need not in longer or spent + excess < longer[need][0]):
                    longer[need] = (spent + excess, (*chosen, need))
        best = longer
    return best[needs[-1]][1]


def _excess(counts: Counter[Interval], after: float, gauge: float) -> float | None:
    """What a gauge asks over the needs past the one before it; None where it is too large for one of them."""
    served = [one for one in counts if after < one[0] <= gauge]
    if any(most < gauge for _, most in served):
        return None
    return sum((gauge - one[0]) * counts[one] for one in served)
