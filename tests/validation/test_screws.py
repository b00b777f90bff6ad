"""The screw itself against printed resistances, and the rest of the small equations."""

import pytest

from fasten.mechanics.grounding import joint_resistance_mohm
from fasten.mechanics.routing import clamp_count
from fasten.mechanics.screw import (
    proof_load_n,
    shank_interaction,
    shear_en_n,
    tension_en_n,
)

GAMMA = 1.25


@pytest.mark.parametrize(
    ("area_mm2", "ultimate_mpa", "shear_factor", "tension_kn", "shear_kn"),
    [
        (84.3, 800, 0.6, 48.6, 32.4),
        (157, 800, 0.6, 90.4, 60.3),
        (245, 800, 0.6, 141, 94.1),
        (157, 400, 0.6, 45.2, 30.1),
        (157, 1000, 0.5, 113, 62.8),
    ],
    ids=["M12 8.8", "M16 8.8", "M20 8.8", "M16 4.6", "M16 10.9"],
)
def test_en_bolt_table(
    area_mm2: float, ultimate_mpa: float, shear_factor: float, tension_kn: float, shear_kn: float
) -> None:
    """Design tables to EN 1993-1-8 table 3.4 as printed in steelwork handbooks (memory); three figures: 0.3 %."""
    tension = tension_en_n(stress_area_mm2=area_mm2, ultimate_mpa=ultimate_mpa, gamma=GAMMA)
    shear = shear_en_n(area_mm2=area_mm2, ultimate_mpa=ultimate_mpa, shear_factor=shear_factor, gamma=GAMMA)
    assert tension / 1000 == pytest.approx(tension_kn, rel=3e-3)
    assert shear / 1000 == pytest.approx(shear_kn, rel=3e-3)


def test_proof_load_as_iso_898_1_prints_it() -> None:
    """ISO 898-1: M6 8.8 is printed as 11 600 N, rounded; 20.1 x 580 = 11 658 N. 0.6 % covers the rounding."""
    assert proof_load_n(stress_area_mm2=20.1, proof_mpa=580) == pytest.approx(11_600, rel=6e-3)


def test_shank_interaction_is_by_squares() -> None:
    """By hand: 0.6² + 0.8² = 1, just held."""
    used = shank_interaction(shear_n=600, shear_capacity_n=1000, tension_n=1600, tension_capacity_n=2000)
    assert used == pytest.approx(1.0)


def test_ground_joint() -> None:
    """50 mV at 200 A (common practice): 0.25 mΩ, a tenth of the 2.5 mΩ bonding figure of AC 43.13-1B."""
    assert joint_resistance_mohm(drop_mv=50, current_a=200) == pytest.approx(0.25)


@pytest.mark.parametrize(
    ("run_mm", "clamps"), [(100, 1), (240, 1), (241, 2), (540, 2), (541, 3), (1500, 6), (1740, 6), (1740.5, 7)]
)
def test_clamps_along_a_run(run_mm: float, clamps: int) -> None:
    """Harness note, two copies: 300 mm apart, 120 from each end; counted by hand."""
    assert clamp_count(run_mm=run_mm, spacing_mm=300, end_mm=120) == clamps
