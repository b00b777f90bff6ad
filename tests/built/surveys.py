"""Distances between holes with errors of reading, and how far what they show lies from where the holes are."""

import random
from itertools import combinations
from math import dist, sqrt

from fasten.geometry.survey.holes import Shows
from fasten.geometry.survey.network import Reading, Readings
from fasten.require import Points

RULE_MM = sqrt(0.5**2 + 0.5**2 / 12)


def every(points: Points, rng: random.Random, error_mm: float = 0.5) -> Readings:
    """Every distance read with an error, to half a millimetre."""
    pairs = combinations(range(len(points)), 2)
    read = ((a, b, dist(points[a], points[b]) + rng.gauss(0, error_mm)) for a, b in pairs)
    return tuple(Reading(a, b, round(mm * 2) / 2, RULE_MM) for a, b, mm in read)


def strewn(rng: random.Random, count: int) -> Points:
    while True:
        points = tuple((rng.uniform(0, 400), rng.uniform(0, 300)) for _ in range(count))
        if min(dist(a, b) for a, b in combinations(points, 2)) > 30:
            return points


def within(points: Points, found: Shows) -> list[bool]:
    """Whether each hole lies within its stated radius, both shapes laid on one another by least squares."""
    return [
        miss <= radius for miss, radius in zip(misses(points, found.points_mm), found.radii_mm, strict=True)
    ]  # fmt: skip


def misses(points: Points, found: Points) -> list[float]:
    """What is left where one shape lies best on the other, as it is or mirrored."""
    return min((_left(points, other) for other in (found, tuple((-x, y) for x, y in found))), key=sum)


def _left(points: Points, found: Points) -> list[float]:
    a, b = ([complex(x, y) for x, y in some] for some in (points, found))
    a, b = ([value - sum(some) / len(some) for value in some] for some in (a, b))
    turn = sum(x * y.conjugate() for x, y in zip(a, b, strict=True))
    turn /= abs(turn)
    return [abs(x - y * turn) for x, y in zip(a, b, strict=True)]
