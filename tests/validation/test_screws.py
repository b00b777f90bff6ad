"""The screw itself against printed resistances, and the rest of the small equations."""

import pytest

from fasten.mechanics.bearing import bearing_load_n, bearing_pressure_mpa, ring_area_mm2
from fasten.mechanics.edges import (
    rivet_edge_min_mm,
    rivet_spacing_min_mm,
    screw_edge_min_mm,
    screw_end_min_en_mm,
    screw_spacing_min_mm,
)
from fasten.mechanics.foam import foam_force_n, free_thickness_mm, pressed_thickness_mm
from fasten.mechanics.galvanic import (
    CONTROLLED_LIMIT_V,
    HARSH_LIMIT_V,
    NORMAL_LIMIT_V,
    index_difference_v,
    index_margin_v,
)
from fasten.mechanics.grounding import joint_resistance_mohm
from fasten.mechanics.routing import clamp_count
from fasten.mechanics.screw import (
    breaking_load_n,
    max_shear_stress_mpa,
    proof_load_n,
    shank_interaction,
    shear_en_n,
    shear_tapping_aluminium_n,
    tension_countersunk_en_n,
    tension_en_n,
    torsion_limit_nm,
    torsion_stress_mpa,
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


def test_en_countersunk() -> None:
    """EN 1993-1-8 table 3.4 (memory): M16 8.8 countersunk, 63.3 kN; three figures: 0.3 %."""
    tension = tension_countersunk_en_n(stress_area_mm2=157, ultimate_mpa=800, gamma=GAMMA)
    assert tension / 1000 == pytest.approx(63.3, rel=3e-3)


@pytest.mark.parametrize(
    ("area_mm2", "proof_n", "ultimate_n", "a2_70_n"),
    [
        (5.03, 2918, 4025, 3522),
        (8.78, 5092, 7023, 6145),
        (14.18, 8226, 11346, 9928),
        (20.12, 11672, 16099, 14086),
        (36.61, 21233, 29287, 25626),
    ],
    ids=["M3", "M4", "M5", "M6", "M8"],
)
def test_loads_of_8_8_and_a2_70(area_mm2: float, proof_n: float, ultimate_n: float, a2_70_n: float) -> None:
    """ISO 898-1 (580 and 800 MPa) and ISO 3506-1 (700 MPa) from unrounded areas; areas here to two figures: 0.06 %."""
    assert proof_load_n(stress_area_mm2=area_mm2, proof_mpa=580) == pytest.approx(proof_n, rel=6e-4)
    assert breaking_load_n(stress_area_mm2=area_mm2, ultimate_mpa=800) == pytest.approx(ultimate_n, rel=6e-4)
    assert breaking_load_n(stress_area_mm2=area_mm2, ultimate_mpa=700) == pytest.approx(a2_70_n, rel=6e-4)


def test_proof_load_as_iso_898_1_prints_it() -> None:
    """ISO 898-1: M6 8.8 is printed as 11 600 N, rounded; 20.1 x 580 = 11 658 N. 0.6 % covers the rounding."""
    assert proof_load_n(stress_area_mm2=20.1, proof_mpa=580) == pytest.approx(11_600, rel=6e-3)


@pytest.mark.parametrize(
    ("size", "core_mm", "torque_nm"),
    [
        ("ST2.2", 1.63, 0.45),
        ("ST2.9", 2.18, 1.5),
        ("ST3.5", 2.64, 2.7),
        ("ST3.9", 2.92, 3.4),
        ("ST4.2", 3.10, 4.4),
        ("ST4.8", 3.58, 6.3),
        ("ST5.5", 4.17, 10.0),
        ("ST6.3", 4.88, 13.6),
    ],
)
def test_tapping_screw_torsion_is_plausible(size: str, core_mm: float, torque_nm: float) -> None:
    """ISO 2702 least breaking torques (memory): back-reckoned shear stress 530 to 750 MPa, to two figures."""
    stress = torsion_stress_mpa(torque_nm=torque_nm, core_mm=core_mm)
    assert 525 <= stress < 755, size
    assert torsion_limit_nm(core_mm=core_mm, shear_strength_mpa=stress) == pytest.approx(torque_nm)


def test_torsion_by_hand() -> None:
    """Round bar, 16 T / (pi d³): 10 N·m in a 5 mm core is 407.44 MPa. 1e-5: five figures."""
    assert torsion_stress_mpa(torque_nm=10, core_mm=5) == pytest.approx(407.44, rel=2e-5)


def test_shank_interaction_is_by_squares() -> None:
    """By hand: 0.6² + 0.8² = 1, just held."""
    used = shank_interaction(shear_n=600, shear_capacity_n=1000, tension_n=1600, tension_capacity_n=2000)
    assert used == pytest.approx(1.0)


def test_max_shear_stress_of_pure_tension_is_half() -> None:
    """Circle of stress, by hand: 100 MPa of tension alone gives 50 of shear."""
    assert max_shear_stress_mpa(shear_n=0, tension_n=1000, area_mm2=10) == pytest.approx(50)


def test_tapping_screw_shear_in_aluminium_code() -> None:
    """EN 1999-1-4 (memory) by hand: 380 x 10 / 1.25 = 3040 N."""
    assert shear_tapping_aluminium_n(stress_area_mm2=10, gamma=GAMMA) == pytest.approx(3040)


def test_bearing_ring() -> None:
    """By hand: washer 18 over a hole of 6.6, pi/4 (324 - 43.56) = 220.26 mm²; 10 MPa on it (common practice) 2203 N."""
    assert ring_area_mm2(washer_mm=18, hole_mm=6.6) == pytest.approx(220.26, rel=5e-5)
    assert bearing_load_n(washer_mm=18, hole_mm=6.6, pressure_mpa=10) == pytest.approx(2202.6, rel=5e-5)
    assert bearing_pressure_mpa(load_n=2202.6, washer_mm=18, hole_mm=6.6) == pytest.approx(10, rel=5e-5)


def test_least_distances() -> None:
    """AISI S100 E4: edge 1.5 d, spacing 3 d; EN 1993-1-3: e1 3 d; AC 43.13-1B rivets: edge 2 D, spacing 3 D."""
    assert screw_edge_min_mm(major_mm=4.2) == pytest.approx(6.3)
    assert screw_spacing_min_mm(major_mm=4.2) == pytest.approx(12.6)
    assert screw_end_min_en_mm(major_mm=4.2) == pytest.approx(12.6)
    assert rivet_edge_min_mm(hole_mm=7) == pytest.approx(14)
    assert rivet_spacing_min_mm(hole_mm=7) == pytest.approx(21)


def test_foam_over_a_gap() -> None:
    """Gap of 3 mm at 40 %: 5.0 mm free (derived rule), and back; 0.01 MPa on 1000 mm² is 10 N."""
    assert free_thickness_mm(gap_mm=3, compression=0.40) == pytest.approx(5.0)
    assert pressed_thickness_mm(free_mm=5, compression=0.40) == pytest.approx(3.0)
    assert foam_force_n(area_mm2=1000, deflection_mpa=0.01) == pytest.approx(10)


def test_ground_joint() -> None:
    """50 mV at 200 A (common practice): 0.25 mΩ, a tenth of the 2.5 mΩ bonding figure of AC 43.13-1B."""
    assert joint_resistance_mohm(drop_mv=50, current_a=200) == pytest.approx(0.25)


@pytest.mark.parametrize(
    ("run_mm", "clamps"), [(100, 1), (240, 1), (241, 2), (540, 2), (541, 3), (1500, 6), (1740, 6), (1740.5, 7)]
)
def test_clamps_along_a_run(run_mm: float, clamps: int) -> None:
    """Harness note, two copies: 300 mm apart, 120 from each end; counted by hand."""
    assert clamp_count(run_mm=run_mm, spacing_mm=300, end_mm=120) == clamps


@pytest.mark.parametrize(
    ("first_v", "second_v", "difference_v", "passes"),
    [
        (0.85, 0.50, 0.35, (False, False, True)),
        (0.85, 1.25, 0.40, (False, False, True)),
        (0.90, 0.75, 0.15, (True, True, True)),
        (0.35, 1.25, 0.90, (False, False, False)),
        (0.65, 0.85, 0.20, (False, True, True)),
    ],
    ids=["stainless on steel", "zinc on steel", "two aluminiums", "copper on zinc", "tin on steel"],
)
def test_anodic_index(first_v: float, second_v: float, difference_v: float, passes: tuple[bool, ...]) -> None:
    """Anodic indexes (partly memory) against the limits 0.15 harsh, 0.25 normal, 0.50 controlled (two public pages)."""
    assert index_difference_v(first_v=first_v, second_v=second_v) == pytest.approx(difference_v)
    limits = (HARSH_LIMIT_V, NORMAL_LIMIT_V, CONTROLLED_LIMIT_V)
    margins = [index_margin_v(first_v=first_v, second_v=second_v, limit_v=limit) for limit in limits]
    assert margins == pytest.approx([0.15 - difference_v, 0.25 - difference_v, 0.50 - difference_v])
    assert tuple(margin >= -1e-12 for margin in margins) == passes
