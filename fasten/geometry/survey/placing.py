"""Which readings fix the holes, and where the holes go: one by one, both sides tried."""

from itertools import combinations
from math import dist, hypot, sqrt

from fasten.geometry.survey.network import Reading, Readings, chi2_of
from fasten.require import Points

Pair = tuple[int, int]

_KEPT = 64  # shapes that are followed at once
_GENERIC = 0.6180339887498949  # holes strewn by the golden section lie as no shape does by chance


def pair_of(reading: Reading) -> Pair:
    """Its two holes, the lower number first.

    reading: distance read [-]
    Returns: the two numbers [-]
    Source: definition
    """
    return min(reading.first, reading.second), max(reading.first, reading.second)


def unread(count: int, readings: Readings) -> tuple[Pair, ...]:
    """The pairs not read any of which would fix the holes further; none where all are fixed.

    count: number of holes [-]
    readings: distances read [-]
    Returns: pairs of numbers from 0 [-]
    Source: rank of the distances of holes that lie at random; textbooks on rigid frameworks
    """
    read = {pair_of(reading) for reading in readings}
    basis: list[list[float]] = []
    for pair in sorted(read):
        _added(basis, _row(count, pair))
    if len(basis) >= 2 * count - 3:
        return ()
    return tuple(
        pair for pair in combinations(range(count), 2)
        if pair not in read and _rest(basis, _row(count, pair)) is not None
    )  # fmt: skip


def _row(count: int, pair: Pair) -> list[float]:
    """How the square of a distance changes, of holes strewn at random."""
    strewn = [((k + 1) * _GENERIC % 1, (k + 1) ** 2 * _GENERIC % 1) for k in range(count)]
    row = [0.0] * (2 * count)
    (x1, y1), (x2, y2) = strewn[pair[0]], strewn[pair[1]]
    for hole, sign in ((pair[0], 1), (pair[1], -1)):
        row[2 * hole], row[2 * hole + 1] = sign * (x1 - x2), sign * (y1 - y2)
    return row


def _rest(basis: list[list[float]], row: list[float]) -> list[float] | None:
    """What of a row the basis does not hold, its length 1; None where it holds all of it."""
    length = hypot(*row)
    for _ in range(2):
        for unit in basis:
            along = sum(a * b for a, b in zip(row, unit, strict=True))
            row = [a - along * b for a, b in zip(row, unit, strict=True)]
    left = hypot(*row)
    return None if left < 1e-7 * length else [value / left for value in row]


def _added(basis: list[list[float]], row: list[float]) -> None:
    rest = _rest(basis, row)
    if rest is not None:
        basis.append(rest)


def order_of(count: int, readings: Readings) -> list[int]:
    """The holes in an order in which each is read from two before it; as many as any start reaches.

    count: number of holes [-]
    readings: distances read [-]
    Returns: numbers from 0 [-]
    Source: geometry
    """
    near = _neighbours(count, readings)
    starts = sorted(readings, key=lambda reading: -reading.mm)
    best: list[int] = []
    for start in starts:
        found = [start.first, start.second]
        while len(found) < count:
            left = [hole for hole in range(count) if hole not in found]
            hole = max(left, key=lambda hole: len(near[hole].keys() & set(found)))
            if len(near[hole].keys() & set(found)) < 2:
                break
            found.append(hole)
        best = max(best, found, key=len)
        if len(best) == count:
            return best
    return best


def _neighbours(count: int, readings: Readings) -> list[dict[int, float]]:
    """The mean distance from each hole to each that it was read from."""
    near: list[dict[int, list[float]]] = [{} for _ in range(count)]
    for reading in readings:
        near[reading.first].setdefault(reading.second, []).append(reading.mm)
        near[reading.second].setdefault(reading.first, []).append(reading.mm)
    return [{other: sum(read) / len(read) for other, read in of.items()} for of in near]


def placed(order: list[int], readings: Readings) -> list[Points]:
    """Every shape the holes may have, the most likely first: each hole goes where two circles cross, on either side.

    order: the holes, each read from two before it [-]
    readings: distances read [-]
    Returns: shapes, the holes in the order of their numbers [-]
    Source: geometry
    """
    near = _neighbours(len(order), readings)
    shapes: list[dict[int, tuple[float, float]]] = [
        {order[0]: (0.0, 0.0), order[1]: (near[order[0]][order[1]], 0.0)}
    ]  # fmt: skip
    for hole in order[2:]:
        grown = [shape | {hole: point} for shape in shapes for point in _crossings(shape, near[hole])]
        known = frozenset((*shapes[0], hole))
        among = tuple(r for r in readings if r.first in known and r.second in known)
        shapes = sorted(grown, key=lambda shape: _missed(shape, among))[:_KEPT]
    return [tuple(shape[hole] for hole in range(len(order))) for shape in shapes]


def _missed(shape: dict[int, tuple[float, float]], readings: Readings) -> float:
    points = tuple(shape.get(hole, (0.0, 0.0)) for hole in range(max(shape) + 1))
    return chi2_of(points, readings)


def _crossings(
    shape: dict[int, tuple[float, float]], read: dict[int, float]
) -> list[tuple[float, float]]:  # fmt: skip
    """Where the circles about the two holes that see it best cross: one point beside a first pair, else both."""
    ways = [
        _crossing(shape[a], shape[b], read[a], read[b])
        for a, b in combinations([hole for hole in read if hole in shape], 2)
    ]
    _, foot, off = max(ways, key=lambda way: way[0])
    one = (foot[0] + off[0], foot[1] + off[1])
    return [one] if len(shape) == 2 or off == (0.0, 0.0) else [one, (foot[0] - off[0], foot[1] - off[1])]


def _crossing(
    a: tuple[float, float], b: tuple[float, float], to_a: float, to_b: float
) -> tuple[float, tuple[float, float], tuple[float, float]]:
    """How squarely two circles cross, the foot of the crossing between them, and how far it lies off to a side."""
    apart = max(dist(a, b), 1e-9)
    along = (apart**2 + to_a**2 - to_b**2) / (2 * apart)
    high = sqrt(max(to_a**2 - along**2, 0.0))
    ux, uy = (b[0] - a[0]) / apart, (b[1] - a[1]) / apart
    square = apart * high / (to_a * to_b)
    return square, (a[0] + along * ux, a[1] + along * uy), (-high * uy, high * ux)
