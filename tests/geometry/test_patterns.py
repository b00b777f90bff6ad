"""Patterns of fixings: where the holes go, centred on their own centroid."""

from math import dist

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fasten.geometry.patterns import circle, rectangle, row, spacing_mm
from fasten.require import Points

SIDES = st.floats(10, 900)
PATTERNS = st.one_of(
    st.builds(circle, st.integers(2, 24), SIDES),
    st.builds(rectangle, st.integers(1, 12).map(lambda half: 2 * half), SIDES, SIDES),
    st.builds(row, st.integers(1, 24), SIDES),
)


@given(points=PATTERNS)
def test_centred_on_the_centroid(points: Points) -> None:
    """The points of any pattern average to the origin, so an offset is always the load's own."""
    assert sum(x for x, _ in points) / len(points) == pytest.approx(0, abs=1e-9)
    assert sum(y for _, y in points) / len(points) == pytest.approx(0, abs=1e-9)
    assert len(set(points)) == len(points)


def test_circle_starts_at_the_top() -> None:
    """Four on 160 mm: top, left, bottom, right."""
    wanted = ((0, 80), (-80, 0), (0, -80), (80, 0))
    for got, want in zip(circle(4, 160), wanted, strict=True):
        assert got == pytest.approx(want, abs=1e-9)


@given(count=st.integers(2, 24), diameter=SIDES)
def test_circle_is_even(count: int, diameter: float) -> None:
    """All points lie on the circle, neighbours equally far apart."""
    points = circle(count, diameter)
    steps = [dist(points[place - 1], points[place]) for place in range(count)]
    assert [dist(point, (0, 0)) for point in points] == pytest.approx([diameter / 2] * count)
    assert steps == pytest.approx([steps[0]] * count)


def test_rectangle_of_two_is_a_diagonal() -> None:
    """The only two corners that are centred: opposite ones."""
    assert rectangle(2, 240, 180) == ((-120, -90), (120, 90))


def test_rectangle_of_four_is_its_corners() -> None:
    """240 x 180, in order round the outline."""
    assert rectangle(4, 240, 180) == ((-120, -90), (120, -90), (120, 90), (-120, 90))


@pytest.mark.parametrize(
    ("count", "length_mm", "width_mm", "added"),
    [
        (6, 240, 180, {(0, -90), (0, 90)}),
        (6, 180, 240, {(-90, 0), (90, 0)}),
        (8, 240, 180, {(0, -90), (0, 90), (-120, 0), (120, 0)}),
        (8, 300, 60, {(-50, -30), (-50, 30), (50, -30), (50, 30)}),
    ],
)
def test_more_go_into_the_longest_gap(
    count: int, length_mm: float, width_mm: float, added: set[tuple[float, float]]
) -> None:
    """Pairs halve the longest sides first; a long thin rectangle gets both pairs on its long sides."""
    points = rectangle(count, length_mm, width_mm)
    got = {(round(x, 9), round(y, 9)) for x, y in points[4:]}
    assert points[:4] == rectangle(4, length_mm, width_mm)
    assert got == added


@given(half=st.integers(2, 12), length=SIDES, width=SIDES)
def test_rectangle_is_symmetric_and_on_its_outline(half: int, length: float, width: float) -> None:
    """Mirrored either way the pattern is itself, and every hole lies on the outline."""
    points = rectangle(2 * half, length, width)
    rounded = {(round(x, 6) + 0.0, round(y, 6) + 0.0) for x, y in points}
    assert rounded == {(-x + 0.0, y) for x, y in rounded} == {(x, -y + 0.0) for x, y in rounded}
    on_side = [abs(x) == pytest.approx(length / 2) or abs(y) == pytest.approx(width / 2) for x, y in points]
    assert len(points) == 2 * half
    assert all(on_side)


def test_row() -> None:
    """Three at 75 mm along x; a row of one sits at the origin."""
    assert row(3, 75) == ((-75, 0), (0, 0), (75, 0))
    assert row(1, 75) == ((0, 0),)


@pytest.mark.parametrize(
    ("points", "wanted_mm"),
    [
        (rectangle(4, 240, 180), 180),
        (rectangle(8, 300, 60), 60),
        (row(5, 32), 32),
        (circle(6, 100), 50),
        (((0.0, 0.0), (3.0, 4.0), (30.0, 0.0)), 5),
    ],
)
def test_spacing(points: Points, wanted_mm: float) -> None:
    """Smallest centre distance by hand; of a hexagon it is the radius."""
    assert spacing_mm(points) == pytest.approx(wanted_mm)
