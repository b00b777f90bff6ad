"""Holes from distances between them: what stands, what is missing, and which reading cannot be right.

The worked cases were calculated with numpy's pseudo-inverse and scipy's solvers, independently of the program.
"""

import random
from itertools import combinations
from math import dist, sqrt

import pytest
from built.few import few
from built.surveys import RULE_MM, every, strewn, within

from fasten.geometry.survey import chance
from fasten.geometry.survey.holes import AllOff, Misread, Shows, TooFew, TwoShapes, surveyed
from fasten.geometry.survey.network import Reading, Readings
from fasten.geometry.survey.placing import order_of, pair_of, unread


def readings(text: str, error_mm: float = RULE_MM) -> Readings:
    found = (part.split() for part in text.split(","))
    read = ((pair.split("-"), float(mm)) for pair, mm in found)
    return tuple(Reading(int(first) - 1, int(second) - 1, mm, error_mm) for (first, second), mm in read)


def test_limits_of_chi_square_are_those_of_the_tables() -> None:
    """Abramowitz and Stegun, table 26.8: 99 % with 1, 3 and 10 degrees of freedom."""
    assert [round(chance.limit(spare), 2) for spare in (1, 3, 10)] == [6.63, 11.34, 23.21]
    assert chance.limit(0) == 0.0
    # With one degree of freedom the shift is the square of two normal quantiles, 2.5758 and 2.3263.
    assert chance.noticed(1) == pytest.approx((2.5758 + 2.3263) ** 2, rel=1e-3)


def test_four_holes_with_every_distance() -> None:
    found = surveyed(4, readings("1-2 240, 2-3 181, 3-4 239, 4-1 180, 1-3 300, 2-4 301"))
    assert isinstance(found, Shows)
    assert (found.spare, round(found.chi2, 2), round(found.limit, 2)) == (1, 1.33, 6.63)
    apart = {pair: dist(found.points_mm[pair[0]], found.points_mm[pair[1]]) for pair in combinations(range(4), 2)}
    wanted = {(0, 1): 240.24, (0, 2): 299.7, (0, 3): 180.18, (1, 2): 181.18, (1, 3): 300.7, (2, 3): 239.24}
    assert apart == pytest.approx(wanted, abs=0.05)
    assert found.radii_mm == pytest.approx([0.71] * 4, abs=0.005)
    assert found.noticed_mm == pytest.approx([6.5, 8.7, 6.5, 8.6, 5.2, 5.2], rel=0.02)
    assert not found.in_line


def test_sides_alone_do_not_fix_four_holes() -> None:
    found = surveyed(4, readings("1-2 240, 2-3 181, 3-4 239, 4-1 180"))
    assert found == TooFew(((0, 2), (1, 3)), 1)


def test_one_diagonal_leaves_two_shapes() -> None:
    found = surveyed(4, readings("1-2 240, 2-3 181, 3-4 239, 4-1 180, 1-3 300"))
    assert isinstance(found, TwoShapes)
    assert found.pair == (1, 3)
    assert found.apart_mm == pytest.approx((82.6, 299.8), abs=0.15)


def test_distances_read_from_edge_to_edge_are_all_short() -> None:
    text = "1-2 204, 1-3 268, 1-4 225.5, 1-5 133.5, 2-3 136, 2-4 215, 2-5 252, 3-4 126.5, 3-5 236, 4-5 132"
    found = surveyed(5, readings(text))
    assert isinstance(found, AllOff)
    assert (found.spare, round(found.chi2, 2), round(found.limit, 2)) == (3, 80.24, 11.34)
    assert found.by_mm == pytest.approx(-6.34, abs=0.01)


def test_three_nearly_in_line_are_a_row() -> None:
    found = surveyed(3, readings("1-2 150, 2-3 150.5, 1-3 300"))
    assert isinstance(found, Shows)
    assert found.in_line
    assert (found.spare, found.limit) == (0, 0.0)
    assert found.radii_mm == pytest.approx([6.39, 12.75, 6.37], abs=0.02)
    assert found.noticed_mm == (None, None, None)


def test_a_row_that_is_exactly_straight_says_how_far_off_the_line_a_hole_may_be() -> None:
    found = surveyed(3, readings("1-2 150, 2-3 150, 1-3 300"))
    assert isinstance(found, Shows)
    assert found.in_line
    middle_mm = found.radii_mm[1]
    off = sqrt(150**2 + middle_mm**2) - 150  # what it adds to each of two readings, against 95 % of chi-square
    assert 2 * (off / RULE_MM) ** 2 == pytest.approx(5.991, rel=0.05)


def test_a_misread_diagonal_is_named_only_with_three_to_spare() -> None:
    five = ((0.0, 0.0), (240.0, 0.0), (240.0, 180.0), (0.0, 180.0), (120.0, 60.0))
    exact = tuple(
        Reading(a, b, round(dist(five[a], five[b]), 1), RULE_MM) for a, b in combinations(range(5), 2)
    )  # fmt: skip
    wrong = tuple(Reading(r.first, r.second, r.mm + 10 * (pair_of(r) == (1, 3)), r.error_mm) for r in exact)
    found = surveyed(5, wrong)
    assert isinstance(found, Misread)
    assert found.named
    assert pair_of(found.suspects[0].reading) == (1, 3)
    assert found.suspects[0].fits_mm == pytest.approx(300.0, abs=0.5)
    four = surveyed(4, readings("1-2 240, 2-3 180, 3-4 240, 4-1 180, 1-3 300, 2-4 310"))
    assert isinstance(four, Misread)
    assert not four.named
    assert len(four.suspects) > 1, "with one to spare any of several may be wrong"
    off = [abs(one.fits_mm - one.reading.mm) for one in four.suspects]
    assert off == sorted(off), "what is nearest to its reading first"
    assert pair_of(four.suspects[0].reading) in {(0, 2), (1, 3)}
    assert {pair_of(one.reading): one.fits_mm for one in four.suspects}[1, 3] == pytest.approx(300.0, abs=0.5)


def test_a_reading_that_fixes_nothing_new_is_not_asked_for() -> None:
    read = readings("1-2 240, 2-3 181, 1-3 300, 1-4 180")
    assert set(unread(4, read)) == {(1, 3), (2, 3)}
    assert len(order_of(4, read)) == 3


def test_two_pieces_that_hang_on_nothing_are_too_few() -> None:
    read = readings("1-2 100, 2-3 100, 1-3 100, 4-5 100, 5-6 100, 4-6 100")
    found = surveyed(6, read)
    assert isinstance(found, TooFew)
    assert found.more == 3


def test_a_long_rectangle_hides_much_in_its_short_side() -> None:
    """300 x 40 read six ways: the sides across are hardly checked."""
    found = surveyed(4, readings("1-2 300, 2-3 40, 3-4 300, 4-1 40, 1-3 302.7, 2-4 302.7"))
    assert isinstance(found, Shows)
    by_pair = {pair_of(r): mm for r, mm in zip(found.readings, found.noticed_mm, strict=True)}
    short = by_pair[(1, 2)]
    assert short is None or short > 10


@pytest.mark.parametrize("seed", range(few(400, 12)))
def test_holes_lie_within_their_own_radius(seed: int) -> None:
    """Of one random pattern most holes lie inside; `tests/benchmarks/surveys.py` counts them over 400."""
    rng = random.Random(seed)
    points = strewn(rng, rng.randint(4, 10))
    found = surveyed(len(points), every(points, rng))
    assert isinstance(found, Shows | Misread)
    if isinstance(found, Shows):
        assert sum(within(points, found)) >= len(points) - 2
