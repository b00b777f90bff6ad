"""Where a pattern goes beside its old holes: figures from arithmetic, for rings of old holes that leave one way out."""

from math import cos, dist, hypot, pi, sin

import pytest

from fasten.geometry.shift import Move, least_move, turned
from fasten.require import Points

ONE = ((0.0, 0.0),)
CLEAR_MM = 20.0


def moves(old: Points) -> Move | None:
    return least_move(ONE, old, (CLEAR_MM,) * len(old))


def ring(radius_mm: float) -> Points:
    """An old hole in each direction that is tried."""
    return tuple((radius_mm * cos(at * pi / 8), radius_mm * sin(at * pi / 8)) for at in range(16))


def test_a_hole_alone_moves_as_far_as_it_must_be_clear() -> None:
    move = moves(ONE)
    assert move is not None
    assert (move.x_mm, move.y_mm, move.turn_deg) == pytest.approx((20.0, 0.0, 0.0))
    assert (move.greatest_mm, move.nearest_mm) == pytest.approx((20.0, 20.0))


def test_sixteen_directions_are_tried() -> None:
    """Beside an old hole 20 mm off no direction under 60 degrees is clear, so that the third does, 67.5 degrees."""
    move = moves((*ONE, (20.0, 0.0)))
    assert move is not None
    assert (move.x_mm, move.y_mm) == pytest.approx((20 * cos(3 * pi / 8), 20 * sin(3 * pi / 8)))


@pytest.mark.parametrize(("radius_mm", "far_mm"), [(30.0, 50.0), (30.4, 51.0)])
def test_it_goes_by_whole_millimetres_past_what_is_in_the_way(radius_mm: float, far_mm: float) -> None:
    move = moves((*ONE, *ring(radius_mm)))
    assert move is not None
    assert move.greatest_mm == pytest.approx(far_mm)


def test_sixty_millimetres_is_the_farthest() -> None:
    move = moves((*ONE, *ring(30.0), *ring(40.0)))
    assert move is not None
    assert move.greatest_mm == pytest.approx(60.0)
    assert moves((*ONE, *ring(30.0), *ring(40.5))) is None


def test_a_wider_old_hole_is_kept_clear_of_by_its_own_distance() -> None:
    """One 30 mm off along x that wants 45 mm: of the directions the first that does is 135 degrees, 46.4 mm from it."""
    move = least_move(ONE, (*ONE, (30.0, 0.0)), (CLEAR_MM, 45.0))
    assert move is not None
    assert (move.x_mm, move.y_mm) == pytest.approx((20 * cos(3 * pi / 4), 20 * sin(3 * pi / 4)))
    assert (move.nearest_mm, move.at) == pytest.approx((20.0, 0))


@pytest.mark.parametrize(("turn_deg", "is_far_enough"), [(30, True), (-30, True), (31, False)])
def test_a_pattern_is_turned_by_thirty_degrees_at_most(turn_deg: int, is_far_enough: bool) -> None:
    """Two holes 300 mm apart, between rings of old ones that leave clear where one move and one turn puts them."""
    pattern = ((-150.0, 0.0), (150.0, 0.0))
    only = turned(pattern, 60.0, 0.0, turn_deg)
    rings = [(60.001, 96), (110.0, 48), (165.0, 48), (220.0, 48), (275.0, 48)]
    every = [
        (x + far * cos(2 * pi * at / of), y + far * sin(2 * pi * at / of))
        for x, y in only for far, of in rings for at in range(of)
    ]  # fmt: skip
    old = tuple(hole for hole in every if all(dist(hole, new) >= 60 for new in only))
    move = least_move(pattern, old, (60.0,) * len(old))
    assert (move is not None) == is_far_enough
    if move is not None:
        assert (move.x_mm, move.y_mm, move.turn_deg) == pytest.approx((60.0, 0.0, turn_deg))
        assert move.greatest_mm == pytest.approx(hypot(60 + 150 * (1 - cos(pi / 6)), 75))  # of the one that follows


def test_points_are_turned_anticlockwise_and_then_moved() -> None:
    """(10, 20) by 30 degrees is (8.660 - 10, 5 + 17.321)."""
    assert turned(((10.0, 20.0),), 3.0, 4.0, 30.0)[0] == pytest.approx((1.6603, 26.3205), abs=1e-4)


@pytest.mark.parametrize(("points", "old", "clear_mm"), [((), ONE, (20.0,)), (ONE, (), ()), (ONE, ONE, (0.0,))])
def test_a_pattern_of_nothing_and_a_distance_of_none_are_refused(
    points: Points, old: Points, clear_mm: tuple[float, ...]
) -> None:
    with pytest.raises(ValueError, match="_mm"):
        least_move(points, old, clear_mm)
