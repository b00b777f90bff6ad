"""Where a whole pattern goes that must keep clear of its old holes: the least move, turned only where that must be."""

from collections.abc import Iterator
from functools import lru_cache
from math import cos, dist, pi, radians, sin

from fasten.record import record
from fasten.require import Points, positive, refuse

DIRECTIONS, FARTHEST_MM, STEP_MM, MOST_TURN_DEG = 16, 60, 1.0, 30


@record
class Move:
    """A move of a pattern: along x and y, turned about its middle, and what the hole that moves most moves.

    `nearest_mm` is how near any new hole then is to the old one that is clear by least: the one `at` that place.
    """

    x_mm: float
    y_mm: float
    turn_deg: float
    greatest_mm: float
    nearest_mm: float
    at: int


@lru_cache(maxsize=64)
def least_move(points_mm: Points, old_mm: Points, clear_mm: tuple[float, ...]) -> Move | None:
    """The move of a pattern by which each hole moves least, and all are clear of every old hole.

    Sixteen directions are tried from the least clear distance on, in steps of a millimetre; where none does, turned by
    whole degrees as well.

    points_mm: centre points of the pattern about its middle (x, y) [mm]
    old_mm: centre points of the old holes (x, y) [mm]
    clear_mm: how far new centres are from each old one at least [mm]
    Returns: the move, None where none within 60 mm does [-]
    Raises: ValueError without a point, or for a distance not above 0.
    Source: geometry; tried one by one.
    """
    for each in clear_mm:
        positive(clear_mm=each)
    if not points_mm or not old_mm or len(old_mm) != len(clear_mm):
        raise refuse("points_mm", points_mm, "one point or more", "a pattern of nothing does not move")
    old = tuple(zip(old_mm, clear_mm, strict=True))
    for turns in ((0,), tuple(turn for turn in range(-MOST_TURN_DEG, MOST_TURN_DEG + 1) if turn)):
        tried = (_moved(points_mm, old, *how) for how in _ways(min(clear_mm), turns))
        found = [one for one in tried if one.nearest_mm >= clear_mm[one.at] - 1e-9]
        if found:
            return min(found, key=lambda one: (round(one.greatest_mm, 6), one.turn_deg**2))
    return None


def _ways(clear_mm: float, turns: tuple[int, ...]) -> Iterator[tuple[float, float, int]]:
    for step in range(int(max(FARTHEST_MM - clear_mm, 0) / STEP_MM) + 1):
        far_mm = clear_mm + step * STEP_MM
        for direction in range(DIRECTIONS):
            angle = 2 * pi * direction / DIRECTIONS
            for turn in turns:
                yield far_mm * cos(angle), far_mm * sin(angle), turn


def _moved(
    points_mm: Points, old: tuple[tuple[tuple[float, float], float], ...], x_mm: float, y_mm: float, turn_deg: float
) -> Move:  # fmt: skip
    new = turned(points_mm, x_mm, y_mm, turn_deg)
    greatest = max(dist(one, other) for one, other in zip(points_mm, new, strict=True))
    _, at, nearest = min(
        (dist(one, centre) - clear, at, dist(one, centre)) for one in new for at, (centre, clear) in enumerate(old)
    )
    return Move(x_mm, y_mm, turn_deg, greatest, nearest, at)


def turned(points_mm: Points, x_mm: float, y_mm: float, turn_deg: float) -> Points:
    """Points turned about the origin, then moved.

    points_mm: centre points (x, y) [mm]
    x_mm: move along x [mm]
    y_mm: move along y [mm]
    turn_deg: turn, anticlockwise [°]
    Returns: centre points (x, y) [mm]
    Source: geometry.
    """
    c, s = cos(radians(turn_deg)), sin(radians(turn_deg))
    return tuple((x * c - y * s + x_mm, x * s + y * c + y_mm) for x, y in points_mm)
