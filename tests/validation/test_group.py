"""Bolt groups against printed results.

Tolerance 1e-4 relative unless said: the books print five or six figures.
"""

from math import pi

import pytest

from fasten.geometry.patterns import rectangle, row
from fasten.mechanics.group import (
    in_plane_forces_n,
    shear_magnitudes_n,
    tension_about_centroid_n,
    tension_about_edge_n,
    tilting_moment_nm,
)
from fasten.mechanics.screw import max_shear_stress_mpa
from fasten.require import Points

PRINTED = 1e-4


def test_four_bolts_eccentric_in_plane() -> None:
    """Bhandari, Design of Machine Elements, ex 7.3: 10 kN, 500 mm off four bolts 200 x 150."""
    forces = in_plane_forces_n(points_mm=rectangle(4, 200, 150), force_n=(0, 10_000), at_mm=(500, 0))
    sizes = shear_magnitudes_n(forces_n=forces)
    assert max(sizes) == pytest.approx(12093.4, rel=PRINTED)
    assert min(sizes) == pytest.approx(8139.4, rel=PRINTED)


def test_four_bolts_primary_and_secondary_apart() -> None:
    """Bhandari ex 7.3: 2500 N direct, 10 000 N of the moment (the load less its direct share is the moment's part)."""
    square = rectangle(4, 200, 150)
    direct = in_plane_forces_n(points_mm=square, force_n=(0, 10_000), at_mm=(0, 0))
    whole = in_plane_forces_n(points_mm=square, force_n=(0, 10_000), at_mm=(500, 0))
    turned = tuple((x, y - 2500) for x, y in whole)
    assert shear_magnitudes_n(forces_n=direct) == pytest.approx((2500,) * 4, rel=PRINTED)
    assert shear_magnitudes_n(forces_n=turned) == pytest.approx((10_000,) * 4, rel=PRINTED)


def test_three_bolts_in_line() -> None:
    """Bhandari ex 7.4: 5 kN, 305 mm off a row of three at 75 mm."""
    forces = in_plane_forces_n(points_mm=row(3, 75), force_n=(0, 5000), at_mm=(305, 0))
    sizes = shear_magnitudes_n(forces_n=forces)
    assert max(sizes) == pytest.approx(11833.3, rel=PRINTED)
    assert sizes[1] == pytest.approx(1666.7, rel=PRINTED)
    assert max(sizes) - sizes[1] == pytest.approx(10166.7, rel=PRINTED)


def test_cantilevered_bar() -> None:
    """Shigley, Mechanical Engineering Design, ex 8-7 (numbers from memory): 16 kN, 425 mm off four M16 at 150 x 120.

    The book rounds its radius to 96 mm, hence 5e-4.
    """
    forces = in_plane_forces_n(points_mm=rectangle(4, 150, 120), force_n=(0, 16_000), at_mm=(425, 0))
    sizes = shear_magnitudes_n(forces_n=forces)
    assert max(sizes) == pytest.approx(20973, rel=5e-4)
    assert min(sizes) == pytest.approx(14789, rel=5e-4)
    stress = max_shear_stress_mpa(shear_n=max(sizes), tension_n=0, area_mm2=pi / 4 * 16**2)
    assert stress == pytest.approx(104.3, rel=5e-4)


BRACKET: Points = ((-50, 150), (50, 150), (-50, 25), (50, 25))  # heights above the lower edge; centroid at 87.5


def test_bracket_tipping_about_its_edge() -> None:
    """Bhandari ex 7.5: 25 kN, 100 mm out, rows 25 and 150 from the edge: shear 6250, tension 8108.1, core 98.022."""
    moment = tilting_moment_nm(force_n=25_000, height_mm=100)
    tensions = tension_about_edge_n(points_mm=BRACKET, pull_n=0, moment_nm=moment, toward=(0, -1), edge_mm=87.5)
    shears = in_plane_forces_n(points_mm=BRACKET, force_n=(0, -25_000), at_mm=(0, 87.5))
    assert max(tensions) == pytest.approx(8108.1, rel=PRINTED)
    assert shear_magnitudes_n(forces_n=shears) == pytest.approx((6250,) * 4, rel=PRINTED)
    allowed_mpa = 0.5 * 380 / 2.5
    stress = max_shear_stress_mpa(shear_n=6250, tension_n=max(tensions), area_mm2=98.022)
    assert stress == pytest.approx(allowed_mpa, rel=PRINTED)


def test_bracket_tipping_about_its_centroid() -> None:
    """Same bracket about the centroid, AISC case II (memory): 10 000 N, the more conservative."""
    tensions = tension_about_centroid_n(points_mm=BRACKET, pull_n=0, moment_nm=2500, toward=(0, -1))
    assert tensions == pytest.approx((10_000, 10_000, 0, 0), rel=PRINTED)


def test_quiz_bracket() -> None:
    """A public machine-design quiz: 20 kN, 100 mm out, rows 125 and 25 from the edge."""
    points: Points = ((-40, 125), (40, 125), (-40, 25), (40, 25))
    tensions = tension_about_edge_n(points_mm=points, pull_n=0, moment_nm=2000, toward=(0, -1), edge_mm=75)
    assert tensions == pytest.approx((7692.3, 7692.3, 1538.5, 1538.5), rel=PRINTED)
