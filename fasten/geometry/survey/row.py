"""Holes nearly in line: across the line, distances show next to nothing."""

from math import atan2, cos, dist, sin, sqrt

from fasten.geometry.survey import chance
from fasten.geometry.survey.linear import factored, solved
from fasten.geometry.survey.network import Fit, Readings, chi2_of
from fasten.require import Points

_LONG = 5.0  # a row is so many times as long as it is wide
_BENT = 5.99146  # chi-square at 95 % with two degrees of freedom


def in_row(points_mm: Points, readings: Readings) -> Fit | None:
    """The holes as a row, where the readings agree with one; else None.

    points_mm: holes as the readings put them [mm]
    readings: distances read [-]
    Returns: the holes along x [-]
    Source: least squares on a line, and a test of chi-square at 1 %
    """
    along, across = _turned(points_mm)
    if max(along) - min(along) < _LONG * (max(across) - min(across)):
        return None
    line = tuple((x, 0.0) for x in _on_line(along, readings))
    chi2 = chi2_of(line, readings)
    spare = len(readings) - (len(points_mm) - 1)
    return Fit(line, chi2) if chi2 <= max(chance.limit(spare), 1e-3) else None


def _turned(points: Points) -> tuple[list[float], list[float]]:
    """Along the line on which the holes spread most, and across it."""
    count = len(points)
    cx, cy = sum(x for x, _ in points) / count, sum(y for _, y in points) / count
    xx, yy = sum((x - cx) ** 2 for x, _ in points), sum((y - cy) ** 2 for _, y in points)
    angle = atan2(2 * sum((x - cx) * (y - cy) for x, y in points), xx - yy) / 2
    u, v = cos(angle), sin(angle)
    return [(x - cx) * u + (y - cy) * v for x, y in points], [(y - cy) * u - (x - cx) * v for x, y in points]


def _on_line(along: list[float], readings: Readings) -> list[float]:
    """The places on the line that the readings give, each distance taken the way that the holes lie."""
    count = len(along)
    normal = [[1e-9 * float(k == j) for j in range(count)] for k in range(count)]
    right = [0.0] * count
    for reading in readings:
        weight = 1 / reading.error_mm**2
        way = 1.0 if along[reading.first] > along[reading.second] else -1.0
        for a, sign in ((reading.first, 1.0), (reading.second, -1.0)):
            right[a] += sign * way * reading.mm * weight
            for b, other in ((reading.first, 1.0), (reading.second, -1.0)):
                normal[a][b] += sign * other * weight
    lower = factored(normal, 0.0)
    return along if lower is None else solved(lower, right)


def unknown_across_mm(points_mm: Points, readings: Readings) -> tuple[float, ...]:
    """How far each hole may lie off the line before the readings would speak against it.

    points_mm: holes along x [mm]
    readings: distances read [-]
    Returns: a length for each [mm]
    Source: the height at which chi-square has grown by its limit at 95 %
    """
    base = chi2_of(points_mm, readings)
    return tuple(_bent_mm(points_mm, readings, hole, base) for hole in range(len(points_mm)))


def _bent_mm(points: Points, readings: Readings, hole: int, base: float) -> float:
    low, high = 0.0, max(dist(points[0], point) for point in points) or 1.0
    for _ in range(40):
        middle = (low + high) / 2
        off = tuple((x, middle if place == hole else y) for place, (x, y) in enumerate(points))
        low, high = (low, middle) if chi2_of(off, readings) - base > _BENT else (middle, high)
    return sqrt(low * high) if low else high
