"""Patterns of fixings: centre points in the plane of the panel, centred on their own centroid."""

from functools import lru_cache
from itertools import combinations
from math import cos, dist, pi, sin

from fasten.model import Pattern
from fasten.require import Points, at_least, positive, refuse


def circle(count: int, diameter_mm: float) -> Points:
    """Fixings spread evenly on a circle, the first at the top, then anticlockwise.

    count: number of fixings, two or more [-]
    diameter_mm: diameter of the circle through their centres [mm]
    Returns: centre points (x, y) about the centroid [mm]
    Raises: ValueError for fewer than two fixings (one makes no circle) or a diameter not above 0.
    Source: geometry
    """
    at_least(2, "one fixing makes no circle; a single fixing is a row of one", count=count)
    positive(diameter_mm=diameter_mm)
    angles = (pi / 2 + 2 * pi * step / count for step in range(count))
    return tuple((diameter_mm / 2 * cos(angle), diameter_mm / 2 * sin(angle)) for angle in angles)


def rectangle(count: int, length_mm: float, width_mm: float) -> Points:
    """Fixings on a rectangle: its corners, then pairs spread over opposite sides, always into the longest gap left.

    Two fixings sit at the ends of a diagonal, the only two corners whose centroid is the rectangle's centre. An odd
    count has no place on the outline that keeps both symmetries, so it is refused and its points have to be given.

    count: number of fixings, even, two or more [-]
    length_mm: centre distance along x [mm]
    width_mm: centre distance along y [mm]
    Returns: centre points (x, y) about the centroid [mm]
    Raises: ValueError for an odd count, fewer than two fixings, or a side not above 0.
    Source: geometry
    """
    at_least(2, "a rectangle has at least the two ends of a diagonal", count=count)
    positive(length_mm=length_mm, width_mm=width_mm)
    if count % 2:
        raise refuse(
            "count", count, "even", "an odd fixing upsets the symmetry of a rectangle; give the points instead"
        )
    x, y = length_mm / 2, width_mm / 2
    if count == 2:
        return ((-x, -y), (x, y))
    along, across = _pairs(count, length_mm, width_mm)
    corners: Points = ((-x, -y), (x, -y), (x, y), (-x, y))
    sides = tuple((place, side) for place in _between(along, length_mm) for side in (-y, y))
    ends = tuple((side, place) for place in _between(across, width_mm) for side in (-x, x))
    return corners + sides + ends


def _middled(points: Points) -> Points:
    cx, cy = (sum(side) / len(points) for side in zip(*points, strict=True))
    return tuple((x - cx, y - cy) for x, y in points)


def _pairs(count: int, length_mm: float, width_mm: float) -> tuple[int, int]:
    """How many pairs go on the long and on the short sides, so that the longest gap is as short as can be."""
    along = across = 0
    for _ in range((count - 4) // 2):
        if length_mm / (along + 1) >= width_mm / (across + 1):
            along += 1
        else:
            across += 1
    return along, across


def _between(inner: int, side_mm: float) -> tuple[float, ...]:
    return tuple(side_mm * (step / (inner + 1) - 0.5) for step in range(1, inner + 1))


def row(count: int, pitch_mm: float) -> Points:
    """Fixings in one straight row along x.

    count: number of fixings, one or more [-]
    pitch_mm: centre distance of neighbours [mm]
    Returns: centre points (x, y) about the centroid [mm]
    Raises: ValueError for a count under one or a pitch not above 0.
    Source: geometry
    """
    at_least(1, "a row has at least one fixing", count=count)
    positive(pitch_mm=pitch_mm)
    return tuple((pitch_mm * (place - (count - 1) / 2), 0.0) for place in range(count))


@lru_cache(maxsize=64)
def spacing_mm(points_mm: Points) -> float:
    """Smallest centre distance between any two fixings.

    points_mm: centre points (x, y), two or more [mm]
    Returns: smallest centre distance [mm]
    Raises: ValueError for fewer than two points: one fixing has no spacing.
    Source: geometry
    """
    at_least(2, "one fixing has no spacing", points=len(points_mm))
    return min(dist(first, second) for first, second in combinations(points_mm, 2))


def gap_mm(pattern: Pattern, fixings: int) -> float:
    """The widest gap between neighbours along a pattern: to the farther of the two that are nearest, where it is most.

    pattern: how they sit [-]
    fixings: number of fixings, two or more [-]
    Returns: the gap between centres [mm]
    Raises: ValueError where a pattern takes no such number.
    Source: geometry.
    """
    points = positions_mm(pattern, fixings)
    if pattern.kind == "row" or len(points) < 3:
        return spacing_mm(points)
    return max(sorted(dist(point, other) for other in points)[2] for point in points)


def outline_mm(points_mm: Points) -> float:
    """Length of a string pulled round the fixings.

    points_mm: centre points (x, y) [mm]
    Returns: length of their convex hull, there and back for two [mm]
    Source: geometry; hull by Andrew's monotone chain
    """
    ordered = sorted(points_mm)
    hull = [*_half(ordered)[:-1], *_half(ordered[::-1])[:-1]]
    return sum(dist(here, there) for here, there in zip(hull, hull[1:] + hull[:1], strict=True))


def _half(ordered: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """One side of the hull of points from end to end."""
    half: list[tuple[float, float]] = []
    for point in ordered:
        while len(half) > 1 and _turn(half[-2], half[-1], point) <= 0:
            half.pop()
        half.append(point)
    return half


def _turn(a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


@lru_cache(maxsize=64)
def positions_mm(pattern: Pattern | None, fixings: int) -> Points:
    """Centre points of the fixings of a pattern; one fixing, which has none, sits at the origin.

    pattern: how they sit [-]
    fixings: number of fixings [-]
    Returns: centre points (x, y) about the centroid [mm]
    Raises: ValueError where a pattern takes no such number.
    Source: geometry.
    """
    if pattern is None:
        return ((0.0, 0.0),)
    if pattern.points_mm:
        return _middled(pattern.points_mm)
    if pattern.kind == "circle":
        return circle(fixings, pattern.a_mm)
    if pattern.b_mm is None:
        return row(fixings, pattern.a_mm)
    return rectangle(fixings, pattern.a_mm, pattern.b_mm)
