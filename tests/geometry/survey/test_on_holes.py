"""An item on existing holes: the least greatest miss, and slots. Expected values from scipy's general solver."""

import random
from math import cos, hypot, sin

import pytest

from fasten.geometry.survey.on_holes import best_place, misses, on_holes
from fasten.require import Points

ITEM: Points = ((0.0, 0.0), (240.0, 0.0), (240.0, 180.0), (0.0, 180.0))


@pytest.mark.parametrize(
    ("holes", "play_mm", "greatest_mm", "slots"),
    [
        (((0.0, 0.0), (240.0, 0.0), (238.0, 181.0), (1.0, 180.0)), 0.8, 1.499, [(4, 1.63, 15.7)]),
        (((0.0, 0.0), (240.0, 0.0), (240.0, 180.0), (3.0, 180.0)), 0.25, 1.5, [(4, 2.75, 0.0)]),
        (((0.0, 0.0), (235.0, 0.0), (235.0, 180.0), (0.0, 180.0)), 0.25, 2.5, [(1, 4.75, 0.0), (4, 4.75, 0.0)]),
    ],
)
def test_fewest_slots_then_the_shortest(
    holes: Points, play_mm: float, greatest_mm: float, slots: list[tuple[int, float, float]]
) -> None:
    found = on_holes(ITEM, holes, play_mm, 0.0)
    assert found.given.greatest_mm == pytest.approx(greatest_mm, abs=0.001)
    assert not found.alike
    assert [slot.hole for slot in found.slots] == [slot[0] for slot in slots]
    for slot, (_, longer_mm, direction) in zip(found.slots, slots, strict=True):
        assert (slot.longer_mm, slot.direction_deg) == pytest.approx((longer_mm, direction), abs=0.05)


def test_numbers_turned_on_by_one_fit() -> None:
    item = ((0.0, 0.0), (180.0, 0.0), (180.0, 178.0), (0.0, 182.0))
    holes = ((0.0, 180.0), (-178.0, 180.0), (-182.0, 0.0), (0.0, 0.0))
    found = on_holes(item, holes, 0.25, 0.0)
    assert found.given.greatest_mm == pytest.approx(2.357, abs=0.001)
    assert found.numbered_on is not None
    assert (found.numbered_on.turned_on, round(found.numbered_on.greatest_mm, 3)) == (1, 0.0)
    assert found.alike, "all four would be slots"
    assert [(slot.hole, round(slot.longer_mm, 2)) for slot in found.slots] == [
        (1, 0.22),
        (2, 2.11),
        (3, 2.11),
        (4, 2.11),
    ]


def test_what_is_mirrored_fits_only_turned_over() -> None:
    item = ((0.0, 0.0), (200.0, 0.0), (150.0, 90.0), (0.0, 120.0))
    found = on_holes(item, tuple((-x, y) for x, y in item), 0.25, 0.0)
    assert found.given.greatest_mm > 5
    assert found.mirrored is not None
    assert found.mirrored.greatest_mm == pytest.approx(0.0, abs=1e-6)
    assert found.mirrored.turned_on == 0


def test_no_other_place_misses_by_less() -> None:
    rng = random.Random(5)
    for _ in range(6):
        item = tuple((rng.uniform(0, 300), rng.uniform(0, 200)) for _ in range(rng.randint(3, 6)))
        holes = tuple((x + rng.uniform(-3, 3), y + rng.uniform(-3, 3)) for x, y in item)
        best = best_place(item, holes)
        assert max(hypot(*miss) for miss in misses(item, holes, best)) == pytest.approx(best.greatest_mm, abs=1e-6)
        for _ in range(200):
            turn, dx, dy = best.turn + rng.gauss(0, 0.003), *(best.moved_mm[k] + rng.gauss(0, 0.3) for k in (0, 1))
            moved = [(x * cos(turn) - y * sin(turn) + dx, x * sin(turn) + y * cos(turn) + dy) for x, y in item]
            there = max(hypot(bx - ax, by - ay) for (ax, ay), (bx, by) in zip(moved, holes, strict=True))
            assert there >= best.greatest_mm - 1e-6
