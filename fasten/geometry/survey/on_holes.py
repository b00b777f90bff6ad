"""An item on existing holes: how it lies so that it misses them least, and which of its holes become slots."""

from functools import lru_cache
from itertools import combinations
from math import atan2, cos, degrees, dist, hypot, pi, sin

from fasten.geometry.survey.holes import middled
from fasten.model.holes import Lies, OnHoles, Slot
from fasten.record import record
from fasten.require import Points

_SAME_MM = 1e-6
_MOST_TRIED = 5000  # choices of slotted holes that are looked through
_REACH, _STEPS = pi / 12, 24  # how far beside the turn of least squares the least miss is looked for


@lru_cache(maxsize=64)
def on_holes(item_mm: Points, holes_mm: Points, play_mm: float, error_mm: float) -> OnHoles:
    """How an item with as many holes lies on existing holes.

    item_mm: its holes, in the order of their numbers [mm]
    holes_mm: the existing holes [mm]
    play_mm: how far a screw may be off the middle of the item's hole [mm]
    error_mm: how far a hole may lie from where it was found [mm]
    Returns: how it lies and what is slotted [-]
    Source: least greatest miss; geometry
    """
    count = len(item_mm)
    given = _lies(item_mm, holes_mm, 0, mirrored=False)
    on = [_lies(item_mm, holes_mm, step, mirrored=False) for step in range(1, count)]
    over = [_lies(item_mm, holes_mm, step, mirrored=True) for step in range(count)]
    slots, alike = _slots(item_mm, holes_mm, given, play_mm)
    return OnHoles(given, _least(on), _least(over), play_mm, error_mm, slots, alike)


def _least(found: list[Lies]) -> Lies | None:
    return min(found, key=lambda one: (round(one.greatest_mm, 6), one.turned_on), default=None)


def _lies(item: Points, holes: Points, step: int, *, mirrored: bool) -> Lies:
    """The item's hole k + step over the panel's hole k."""
    count = len(item)
    item = tuple((-x, y) for x, y in item) if mirrored else item
    holes = tuple(holes[(place - step) % count] for place in range(count))
    place = best_place(item, holes)
    return Lies(step, mirrored, misses(item, holes, place), place.greatest_mm)


@record
class Place:
    """Where an item lies: turned by so much, then moved; and the greatest miss of its holes there."""

    turn: float
    moved_mm: tuple[float, float]
    greatest_mm: float


def best_place(item_mm: Points, holes_mm: Points) -> Place:
    """Where an item lies so that the greatest miss of its holes is least.

    At each turn the best place is the middle of the smallest circle about all misses; the turn is found by search.

    item_mm: its holes [mm]
    holes_mm: the existing holes [mm]
    Returns: the place [-]
    Source: smallest enclosing circle; geometry
    """
    middle = least_squares_turn(middled(item_mm), middled(holes_mm))
    steps = [middle + _REACH * step / _STEPS for step in range(-_STEPS, _STEPS + 1)]
    best = min(steps, key=lambda turn: _circle(_off(item_mm, holes_mm, turn))[1])
    low, high = best - _REACH / _STEPS, best + _REACH / _STEPS
    for _ in range(60):
        one, other = low + 0.382 * (high - low), low + 0.618 * (high - low)
        nearer = _circle(_off(item_mm, holes_mm, one))[1] < _circle(_off(item_mm, holes_mm, other))[1]
        low, high = (low, other) if nearer else (one, high)
    turn = (low + high) / 2
    return Place(turn, *_circle(_off(item_mm, holes_mm, turn)))


def misses(item_mm: Points, holes_mm: Points, place: Place) -> Points:
    """From the middle of each hole of the item to the existing hole, x and y as the item's own.

    item_mm: its holes [mm]
    holes_mm: the existing holes [mm]
    place: where the item lies [-]
    Returns: a miss for each hole [mm]
    Source: geometry
    """
    dx, dy = place.moved_mm
    return tuple(_turned((x - dx, y - dy), -place.turn) for x, y in _off(item_mm, holes_mm, place.turn))


def least_squares_turn(item_mm: Points, holes_mm: Points) -> float:
    """The turn at which the squares of the misses add up to least, both about their middles.

    item_mm: its holes [mm]
    holes_mm: the existing holes [mm]
    Returns: angle in radians [-]
    Source: orthogonal Procrustes problem in the plane
    """
    pairs = list(zip(item_mm, holes_mm, strict=True))
    across = sum(a[0] * b[1] - a[1] * b[0] for a, b in pairs)
    along = sum(a[0] * b[0] + a[1] * b[1] for a, b in pairs)
    return atan2(across, along)


def _turned(point: tuple[float, float], turn: float) -> tuple[float, float]:
    u, v = cos(turn), sin(turn)
    return point[0] * u - point[1] * v, point[0] * v + point[1] * u


def _off(item: Points, holes: Points, turn: float) -> Points:
    """From each hole of the turned item to the existing hole."""
    turned = [_turned(point, turn) for point in item]
    return tuple((bx - ax, by - ay) for (ax, ay), (bx, by) in zip(turned, holes, strict=True))


def _circle(points: Points) -> tuple[tuple[float, float], float]:
    """The smallest circle round points, grown by one after another."""
    middle, radius = points[0], 0.0
    for i, first in enumerate(points):
        if dist(first, middle) <= radius + 1e-9:
            continue
        middle, radius = first, 0.0
        for j, second in enumerate(points[:i]):
            if dist(second, middle) <= radius + 1e-9:
                continue
            middle, radius = _between(first, second)
            for third in points[:j]:
                if dist(third, middle) > radius + 1e-9:
                    middle, radius = _through(first, second, third)
    return middle, radius


def _between(a: tuple[float, float], b: tuple[float, float]) -> tuple[tuple[float, float], float]:
    return ((a[0] + b[0]) / 2, (a[1] + b[1]) / 2), dist(a, b) / 2


def _through(
    a: tuple[float, float], b: tuple[float, float], c: tuple[float, float]
) -> tuple[tuple[float, float], float]:
    bx, by, cx, cy = b[0] - a[0], b[1] - a[1], c[0] - a[0], c[1] - a[1]
    twice = 2 * (bx * cy - by * cx)
    if twice == 0:  # in line: the two farthest of them
        return max((_between(a, b), _between(a, c), _between(b, c)), key=lambda one: one[1])
    x = (cy * (bx * bx + by * by) - by * (cx * cx + cy * cy)) / twice
    y = (bx * (cx * cx + cy * cy) - cx * (bx * bx + by * by)) / twice
    return (a[0] + x, a[1] + y), hypot(x, y)


# -- slots -------------------------------------------------------------------------------------------------------------


def _slots(item: Points, holes: Points, given: Lies, play_mm: float) -> tuple[tuple[Slot, ...], bool]:
    """The fewest slots, then the shortest together; over half of the holes: all of them, as the item lies best."""
    if given.greatest_mm <= play_mm + _SAME_MM:
        return (), False
    count, tried = len(item), 0
    for number in range(1, count // 2 + 1):
        found: list[tuple[float, tuple[Slot, ...]]] = []
        for slotted in combinations(range(count), number):
            tried += 1
            if tried > _MOST_TRIED:
                break
            slots = _with_round(item, holes, slotted, play_mm)
            if slots is not None:
                found.append((sum(slot.longer_mm for slot in slots), slots))
        if found:
            return min(found, key=lambda one: round(one[0], 6))[1], False
    every = [_slot(place, miss, play_mm) for place, miss in enumerate(given.miss_mm)]
    return tuple(slot for slot in every if slot.longer_mm > _SAME_MM), True


def _with_round(item: Points, holes: Points, slotted: tuple[int, ...], play_mm: float) -> tuple[Slot, ...] | None:
    """The slots that are left where all other holes stay round; None where those do not fit."""
    kept = [place for place in range(len(item)) if place not in slotted]
    if len(kept) < 2:
        return None
    place = best_place(tuple(item[k] for k in kept), tuple(holes[k] for k in kept))
    if place.greatest_mm > play_mm + _SAME_MM:
        return None
    off = misses(item, holes, place)
    return tuple(_slot(hole, off[hole], play_mm) for hole in slotted)


def _slot(hole: int, miss: tuple[float, float], play_mm: float) -> Slot:
    return Slot(hole + 1, hypot(*miss) - play_mm, degrees(atan2(miss[1], miss[0])))
