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

    `nearest_mm` is how near any new hole then is to any old one.
    """

    x_mm: float
    y_mm: float
    turn_deg: float
    greatest_mm: float
    nearest_mm: float


@lru_cache(maxsize=64)
def least_move(points_mm: Points, old_mm: Points, clear_mm: float) -> Move | None:
    """The move of a pattern by which each hole moves least, and all are clear of every old hole.

    Sixteen directions are tried from the clear distance on, in steps of a millimetre; where none does, turned by whole
    degrees as well.

    points_mm: centre points of the pattern about its middle (x, y) [mm]
    old_mm: centre points of the old holes (x, y) [mm]
    clear_mm: how far new and old centres are apart at least [mm]
    Returns: the move, None where none within 60 mm does [-]
    Raises: ValueError without a point, or for a distance not above 0.
    Source: geometry; tried one by one.
    """
    positive(clear_mm=clear_mm)
    if not points_mm or not old_mm:
        raise refuse("points_mm", points_mm, "one point or more", "a pattern of nothing does not move")
    for turns in ((0,), tuple(turn for turn in range(-MOST_TURN_DEG, MOST_TURN_DEG + 1) if turn)):
        tried = (_moved(points_mm, old_mm, *how) for how in _ways(clear_mm, turns))
        found = [one for one in tried if one.nearest_mm >= clear_mm - 1e-9]
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


def _moved(points_mm: Points, old_mm: Points, x_mm: float, y_mm: float, turn_deg: float) -> Move:
    new = turned(points_mm, x_mm, y_mm, turn_deg)
    greatest = max(dist(one, other) for one, other in zip(points_mm, new, strict=True))
    return Move(x_mm, y_mm, turn_deg, greatest, min(dist(one, old) for one in new for old in old_mm))


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
