"""Rules of the elastic group at its corners: single fixings, rows, and what tilting may not take away."""

from math import hypot

import pytest

from fasten.mechanics.group import (
    tilting_moment_nm,
    tipping_lever_mm,
)
from fasten.mechanics.mixed_group import shares

SINGLE = ((30.0, 20.0),)


def test_tilting_moment() -> None:
    """By hand: 200 N at 50 mm is 10 N·m."""
    assert tilting_moment_nm(force_n=200, height_mm=50) == pytest.approx(10)


def test_the_tipping_lever_is_the_same_wherever_the_group_lies() -> None:
    """Three fixings in no symmetry, moved by (500, -40): one lever, by hand over the spread about their own middle."""
    points = ((0.0, 0.0), (90.0, 0.0), (30.0, 60.0))
    moved = tuple((x + 500, y - 40) for x, y in points)
    here = tipping_lever_mm(points_mm=points, foot_mm=5)
    # About (40, 20): sxx = 4200, syy = 2400, sxy = -600; A^-1 p of (-10, 40) is (0, 162000) / 9720000.
    assert here == pytest.approx(9720 / 162)
    assert tipping_lever_mm(points_mm=moved, foot_mm=5) == pytest.approx(here)


def test_fixings_that_spread_as_far_as_the_foot_lever_on_themselves() -> None:
    """A row reaching 40 mm on a foot of 40 mm: by its own spread along (40 / 2600), by the foot across (3 x 40 mm)."""
    lever = tipping_lever_mm(points_mm=((40.0, 0.0), (-10.0, 0.0), (-30.0, 0.0)), foot_mm=40)
    assert lever == pytest.approx(1 / ((40 / 2600) ** 2 + (1 / 120) ** 2) ** 0.5)


@pytest.mark.parametrize("side", [1.0, -1.0])
def test_a_group_and_its_mirror_image_tip_alike(side: float) -> None:
    """A row at -20, 5 and 15 mm on a foot of 18 mm: one end is beyond the foot, whichever way the row is counted.

    20/(400 + 25 + 225) along it, 1/(3 x 18) across it.
    """
    points = tuple((side * x, 0.0) for x in (-20.0, 5.0, 15.0))
    wanted_per_mm = hypot(20 / 650, 1 / 54)
    assert 1 / tipping_lever_mm(points_mm=points, foot_mm=18) == pytest.approx(wanted_per_mm)
    alike = shares(points_mm=points, stiffnesses=(1.0, 1.0, 1.0), middle_mm=(0.0, 0.0), foot_mm=18)
    assert max(one.tipping_per_mm for one in alike) == pytest.approx(wanted_per_mm)
