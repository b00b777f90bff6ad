"""Numbers beside holes, so that none lies on a hole, on another number or on a line that must be seen."""

from collections.abc import Iterator
from dataclasses import dataclass
from math import atan2, cos, dist, inf, pi, sin

from fasten.record import record
from fasten.report.svg import Box, text_width_mm

Point = tuple[float, float]
_TURNS = tuple(step * pi / 8 for step in (0, 1, -1, 2, -2, 3, -3, 4, -4, 5, -5, 6, -6, 7, -7, 8))
_GAP_MM, _STEP = 0.4, 0.7  # between hole and number; a step outward, in heights of a number
_TALL = 0.75  # of the size of a digit above its base line, with a little air
_NEARLY = 0.3  # radians
_TURN_COST = 3.0  # steps outward rather than a quarter turn
_NEAR, _FAR, _END = 12, 60, 4000  # steps outward within which a leader crosses no hole, no number; and at all
LARGEST_MM, SMALLEST_MM = 3.2, 1.6


@record
class Number:
    """The number of a hole: where it stands, how large, and the line to its hole where it stands further off."""

    text: str
    size: float
    box: Box
    leader: tuple[Point, Point] | None


@dataclass
class _Taken:
    """What a number must keep off."""

    holes: tuple[Point, ...]
    radius: float
    boxes: list[Box]
    leaders: list[tuple[Point, Point]]

    def is_free(self, box: Box) -> bool:
        return not (
            any(box.overlaps(other) for other in self.boxes)
            or any(box.touches(*hole, self.radius) for hole in self.holes)
            or any(box.meets(*leader) for leader in self.leaders)
        )

    def is_clear(self, leader: tuple[Point, Point], own: Point, steps: int) -> bool:
        """Whether a leader runs past every number and every hole but its own; a long one may cross holes."""
        if steps <= _FAR and any(box.meets(*leader) for box in self.boxes):
            return False
        return steps > _NEAR or not any(hole != own and _off(hole, leader) < self.radius for hole in self.holes)


def numbered(holes: tuple[Point, ...], radius_mm: float, kept: tuple[Box, ...]) -> tuple[Number, ...]:
    """A number for each hole, counted from 1: outward of the middle where there is room, else the nearest place free.

    `radius_mm` is what must stay free around each centre, `kept` what else no number may lie on.
    """
    size = _size(holes)
    taken = _Taken(holes, radius_mm, list(kept), [])
    found = []
    for count, hole in enumerate(holes, start=1):
        number = _number(str(count), size, hole, taken)
        taken.boxes.append(number.box)
        taken.leaders.extend([number.leader] if number.leader else [])
        found.append(number)
    return tuple(found)


def _size(holes: tuple[Point, ...]) -> float:
    """Smaller numbers where holes are close, down to what can still be read."""
    near = min((dist(a, b) for place, a in enumerate(holes) for b in holes[:place]), default=inf)
    return min(LARGEST_MM, max(SMALLEST_MM, near / 3))


def _number(text: str, size: float, hole: Point, taken: _Taken) -> Number:
    outward = _outward(hole, taken.holes)
    for steps, turn in _places():
        reach = taken.radius + _GAP_MM + steps * _STEP * size
        box = _box(text, size, hole, reach, outward + turn)
        if not taken.is_free(box):
            continue
        leader = _leader(hole, box, taken.radius, outward + turn) if steps else None
        if leader is None or taken.is_clear(leader, hole, steps):
            return Number(text, size, box, leader)
    raise AssertionError(f"no place was found for number {text}")


def _outward(hole: Point, holes: tuple[Point, ...]) -> float:
    """The direction away from the other holes, the near ones first; along or across where it is nearly that."""
    away_x = away_y = 0.0
    for other in holes:
        off = dist(hole, other)
        if off > 0:
            away_x += (hole[0] - other[0]) / off**2
            away_y += (hole[1] - other[1]) / off**2
    if max(abs(away_x), abs(away_y)) < 1e-9:
        return -pi / 2
    angle = atan2(away_y, away_x)
    square = round(angle / (pi / 2)) * pi / 2
    return square if abs(angle - square) < _NEARLY else angle


def _places() -> Iterator[tuple[int, float]]:
    """Steps outward and turns, the nearest first; a number goes a little further out before it turns."""
    yield from _NEAREST
    yield from ((steps, turn) for steps in range(_NEAR, _END) for turn in _TURNS)


_NEAREST = sorted(
    ((steps, turn) for steps in range(_NEAR) for turn in _TURNS),
    key=lambda place: place[0] + _TURN_COST * abs(place[1]) / (pi / 2),
)


def _box(text: str, size: float, hole: Point, reach: float, angle: float) -> Box:
    """The box of a number that lies just outside of a circle, in that direction."""
    half_x, half_y = text_width_mm(text, size) / 2, _TALL * size / 2
    out = reach + abs(cos(angle)) * half_x + abs(sin(angle)) * half_y
    x, y = hole[0] + cos(angle) * out, hole[1] + sin(angle) * out
    return Box(x - half_x, y - half_y, x + half_x, y + half_y)


def _leader(hole: Point, box: Box, radius: float, angle: float) -> tuple[Point, Point]:
    start = hole[0] + cos(angle) * radius, hole[1] + sin(angle) * radius
    end = min(max(start[0], box.x0), box.x1), min(max(start[1], box.y0), box.y1)
    return start, end


def _off(point: Point, leader: tuple[Point, Point]) -> float:
    """How far a point lies off a line between two points."""
    (x, y), (end_x, end_y) = leader
    run_x, run_y = end_x - x, end_y - y
    length = run_x * run_x + run_y * run_y
    share = 0.0 if length == 0 else min(1.0, max(0.0, ((point[0] - x) * run_x + (point[1] - y) * run_y) / length))
    return dist(point, (x + share * run_x, y + share * run_y))
