"""Holes and the distances read between them: the least squares of it, and how sure the holes are."""

from math import dist, hypot, sqrt

from fasten.geometry.survey.chance import RADIUS_95
from fasten.geometry.survey.linear import Matrix, factored, solved
from fasten.record import record
from fasten.require import Points

_ROUNDS, _DAMPING, _LEAST_MM = 60, 1e-6, 1e-9
_LOOSE = 1e-10  # a pivot this small beside the mean of its matrix fixes nothing


@record
class Reading:
    """The distance read between two holes, numbered from 0, and its standard error."""

    first: int
    second: int
    mm: float
    error_mm: float


Readings = tuple[Reading, ...]


@record
class Fit:
    """Holes as the readings put them, and the sum of squares of what each misses over its error."""

    points_mm: Points
    chi2: float


def fitted(start_mm: Points, readings: Readings) -> Fit:
    """The holes for which the readings miss least, by damped least squares from a start.

    start_mm: where the holes are about [mm]
    readings: distances read [-]
    Returns: the holes and their chi-square [-]
    Source: Levenberg's method; every textbook on least squares
    """
    points, chi2, damping = start_mm, chi2_of(start_mm, readings), _DAMPING
    for _ in range(_ROUNDS):
        normal, right = _normal(points, readings)
        step = _step(normal, right, damping)
        moved = _moved(points, step)
        better = chi2_of(moved, readings)
        if better > chi2:
            if damping > 1e6:
                break
            damping = max(damping * 10, 1e-4)
            continue
        done = chi2 - better <= 1e-9 * (1 + chi2) and max(map(abs, step)) < 1e-5
        points, chi2, damping = moved, better, max(damping / 10, _DAMPING)
        if done:
            break
    return Fit(points, chi2)


def chi2_of(points_mm: Points, readings: Readings) -> float:
    """Sum of squares of what each reading misses over its error.

    points_mm: the holes [mm]
    readings: distances read [-]
    Returns: chi-square [-]
    Source: least squares
    """
    return sum(((dist(points_mm[r.first], points_mm[r.second]) - r.mm) / r.error_mm) ** 2 for r in readings)


def _slopes(points: Points, reading: Reading) -> tuple[float, float]:
    """How a distance changes as its first hole moves along x and y, over the error of the reading."""
    (x1, y1), (x2, y2) = points[reading.first], points[reading.second]
    apart = max(hypot(x1 - x2, y1 - y2), _LEAST_MM)
    return (x1 - x2) / apart / reading.error_mm, (y1 - y2) / apart / reading.error_mm


def _normal(points: Points, readings: Readings) -> tuple[Matrix, list[float]]:
    size = 2 * len(points)
    normal: Matrix = [[0.0] * size for _ in range(size)]
    right = [0.0] * size
    for reading in readings:
        u, v = _slopes(points, reading)
        miss = (reading.mm - dist(points[reading.first], points[reading.second])) / reading.error_mm
        i, j = 2 * reading.first, 2 * reading.second
        for a, b, sign in ((i, i, 1), (j, j, 1), (i, j, -1), (j, i, -1)):
            normal[a][b] += sign * u * u
            normal[a][b + 1] += sign * u * v
            normal[a + 1][b] += sign * u * v
            normal[a + 1][b + 1] += sign * v * v
        for at, sign in ((i, 1), (j, -1)):
            right[at] += sign * u * miss
            right[at + 1] += sign * v * miss
    return normal, right


def _step(normal: Matrix, right: list[float], damping: float) -> list[float]:
    mean = sum(normal[k][k] for k in range(len(normal))) / len(normal)
    for k, row in enumerate(normal):
        row[k] += damping * mean
    lower = factored(normal, 0.0)
    return [0.0] * len(right) if lower is None else solved(lower, right)


def _moved(points: Points, step: list[float]) -> Points:
    return tuple((x + step[2 * k], y + step[2 * k + 1]) for k, (x, y) in enumerate(points))


@record
class Sure:
    """How sure each hole is, and how much of each reading the others check; one line a hole, one a reading."""

    radii_mm: tuple[float, ...]
    checked: tuple[float, ...]


def sureness(points_mm: Points, readings: Readings) -> Sure | None:
    """How sure the holes are among themselves; None where the readings do not fix them.

    The radius holds 95 % of a hole's error in its worst direction, about the middle of all holes. What a reading is
    checked by is its redundancy: 0 where nothing checks it, 1 where it adds nothing.

    points_mm: the holes [mm]
    readings: distances read [-]
    Returns: radii and redundancies [-]
    Source: free network adjustment, covariance of least length; textbooks on surveying
    """
    normal, _ = _normal(points_mm, readings)
    size = len(normal)
    mean = sum(normal[k][k] for k in range(size)) / size
    free = _free(points_mm)
    for k in range(size):
        for j in range(size):
            normal[k][j] += mean * sum(way[k] * way[j] for way in free)
    lower = factored(normal, _LOOSE * mean)
    if lower is None:
        return None
    inverse = [solved(lower, [float(k == j) for j in range(size)]) for k in range(size)]
    for k in range(size):
        for j in range(size):
            inverse[k][j] -= sum(way[k] * way[j] for way in free) / mean
    radii = tuple(_radius(inverse, 2 * k) for k in range(len(points_mm)))
    return Sure(radii, tuple(_checked(points_mm, reading, inverse) for reading in readings))


def _free(points: Points) -> list[list[float]]:
    """Three moves of all holes together that no distance sees, each of length 1: along x, along y, a turn."""
    count = len(points)
    cx, cy = sum(x for x, _ in points) / count, sum(y for _, y in points) / count
    arm = sqrt(sum((x - cx) ** 2 + (y - cy) ** 2 for x, y in points))
    turn = [value / arm for x, y in points for value in (cy - y, x - cx)]
    one = 1 / sqrt(count)
    return [[one, 0.0] * count, [0.0, one] * count, turn]


def _radius(covariance: Matrix, at: int) -> float:
    xx, yy, xy = covariance[at][at], covariance[at + 1][at + 1], covariance[at][at + 1]
    return RADIUS_95 * sqrt(max((xx + yy) / 2 + hypot((xx - yy) / 2, xy), 0.0))


def _checked(points: Points, reading: Reading, covariance: Matrix) -> float:
    u, v = _slopes(points, reading)
    i, j = 2 * reading.first, 2 * reading.second
    slopes = ((i, u), (i + 1, v), (j, -u), (j + 1, -v))
    return max(1 - sum(a * b * covariance[k][n] for k, a in slopes for n, b in slopes), 0.0)
