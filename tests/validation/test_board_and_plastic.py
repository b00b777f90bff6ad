"""Withdrawal from wood and board, and pull-out from plastic, against worked examples."""

import pytest

from fasten.mechanics.board import (
    embedment_board_mpa,
    lateral_ec5_n,
    screw_withdrawal_edge_n,
    screw_withdrawal_face_n,
    wood_screw_withdrawal_n,
)
from fasten.mechanics.plastic import (
    boss_depth_mm,
    boss_engagement_mm,
    boss_hole_mm,
    boss_outer_mm,
    hot_yield_mpa,
    pull_out_plastic_n,
    thread_cylinder_mm,
)
from fasten.mechanics.torque import torque_ceiling_nm, torque_floor_nm

LBF = 4.4482216152605
INCH = 25.4

BOARD_ROWS = [
    (0.138, 0.5, 0.70, 180.1, 139.4),
    (0.138, 0.5, 0.75, 206.8, 160.0),
    (0.138, 0.625, 0.70, 244.1, 188.9),
    (0.138, 0.625, 0.75, 280.2, 216.9),
    (0.138, 0.667, 0.70, 266.4, 206.2),
    (0.138, 0.667, 0.75, 305.8, 236.7),
    (0.138, 0.75, 0.70, 311.6, 241.2),
    (0.138, 0.75, 0.75, 357.8, 276.9),
    (0.164, 0.5, 0.70, 191.7, 148.3),
    (0.164, 0.5, 0.75, 220.0, 170.3),
    (0.164, 0.625, 0.70, 261.1, 202.1),
    (0.164, 0.625, 0.75, 299.8, 232.0),
    (0.164, 0.667, 0.70, 285.4, 220.9),
    (0.164, 0.667, 0.75, 327.6, 253.6),
    (0.164, 0.75, 0.70, 334.5, 258.9),
    (0.164, 0.75, 0.75, 384.0, 297.2),
    (0.190, 0.5, 0.70, 201.3, 155.8),
    (0.190, 0.5, 0.75, 231.1, 178.9),
    (0.190, 0.625, 0.70, 275.7, 213.4),
    (0.190, 0.625, 0.75, 316.5, 245.0),
    (0.190, 0.667, 0.70, 301.7, 233.6),
    (0.190, 0.667, 0.75, 346.4, 268.1),
    (0.190, 0.75, 0.70, 354.5, 274.4),
    (0.190, 0.75, 0.75, 406.9, 315.0),
]


@pytest.mark.parametrize("row", BOARD_ROWS)
def test_inch_form_of_board_withdrawal(row: tuple[float, ...]) -> None:
    """USDA Wood Handbook ch. 8 (memory), inch form: #6, #8, #10 in board, 2655 and 2055 D^0.5 (L - D/3)^1.25 G² lbf.

    0.1 %: the metric constants are rounded to three figures and the pounds to a tenth.
    """
    major_in, length_in, density, face_lbf, edge_lbf = row
    major, length = major_in * INCH, length_in * INCH
    face = screw_withdrawal_face_n(major_mm=major, penetration_mm=length, density_g_cm3=density)
    edge = screw_withdrawal_edge_n(major_mm=major, penetration_mm=length, density_g_cm3=density)
    assert face / LBF == pytest.approx(face_lbf, rel=1e-3)
    assert edge / LBF == pytest.approx(edge_lbf, rel=1e-3)


@pytest.mark.parametrize(
    ("major_mm", "length_mm", "density", "face_n", "edge_n"),
    [(0.190 * INCH, 2 / 3 * INCH, 0.72, 1419, 1098), (4.2, 15, 0.75, 1237, 957)],
    ids=["ASTM D1037 screw", "EN 320 screw"],
)
def test_test_method_geometries(major_mm: float, length_mm: float, density: float, face_n: int, edge_n: int) -> None:
    """Board equation at the two test methods' geometry, as worked in whole newtons: 0.1 %."""
    face = screw_withdrawal_face_n(major_mm=major_mm, penetration_mm=length_mm, density_g_cm3=density)
    edge = screw_withdrawal_edge_n(major_mm=major_mm, penetration_mm=length_mm, density_g_cm3=density)
    assert (face, edge) == pytest.approx((face_n, edge_n), rel=1e-3)


def test_board_equation_against_one_guarantee() -> None:
    """A maker guarantees 1050 N face, 850 N edge (EN 320, 740 to 820 kg/m³): the mean lies above, within a fifth."""
    face = screw_withdrawal_face_n(major_mm=4.2, penetration_mm=15, density_g_cm3=0.75)
    edge = screw_withdrawal_edge_n(major_mm=4.2, penetration_mm=15, density_g_cm3=0.75)
    assert 1050 < face < 1.2 * 1050
    assert 850 < edge < 1.2 * 850


def test_edge_holds_three_quarters_of_face() -> None:
    """McNatt, USDA FPL survey: edge withdrawal is 75 to 80 % of face."""
    face = screw_withdrawal_face_n(major_mm=4.2, penetration_mm=15, density_g_cm3=0.75)
    edge = screw_withdrawal_edge_n(major_mm=4.2, penetration_mm=15, density_g_cm3=0.75)
    assert 0.75 < edge / face < 0.80


def test_wood_screw_against_nds() -> None:
    """NDS 2850 G² D lbf/in is the mean / 5.5: #10 in G 0.45, 109.7 lbf an inch. 0.3 %: 15700/5.5 is 2854.5."""
    mean = wood_screw_withdrawal_n(shank_mm=0.190 * INCH, penetration_mm=INCH, density_g_cm3=0.45)
    assert mean / 5.5 / LBF == pytest.approx(109.7, rel=3e-3)


def test_wood_screw_inch_and_metric_forms() -> None:
    """USDA Wood Handbook ch. 8 (memory), 15 700 G² D L lbf: #8, one inch, G 0.5, 643.7 lbf. 3e-4: four figures."""
    mean = wood_screw_withdrawal_n(shank_mm=0.164 * INCH, penetration_mm=INCH, density_g_cm3=0.5)
    assert mean / LBF == pytest.approx(643.7, rel=3e-4)


def test_lateral_estimate() -> None:
    """EN 1995-1-1 8.2.3 and 8.3.1.3 (memory) by hand, d 4, 15 deep.

    65 x 0.37893 x 1.31101 = 32.291 MPa, times 0.4 x 15 x 4 = 24 mm² is 775.0 N. 3e-4: four figures.
    """
    strength = embedment_board_mpa(screw_mm=4, board_mm=15)
    assert strength == pytest.approx(32.291, rel=3e-4)
    assert lateral_ec5_n(embedment_mpa=strength, depth_mm=15, screw_mm=4) == pytest.approx(775.0, rel=3e-4)


@pytest.mark.parametrize(
    "row",
    [
        (3.0, 2.4, 6.0, 6.0, 7.5, 1234, 411),
        (3.5, 2.8, 7.0, 7.0, 8.75, 1680, 560),
        (4.0, 3.2, 8.0, 8.0, 10.0, 2194, 731),
        (5.0, 4.0, 10.0, 10.0, 12.5, 3428, 1143),
    ],
)
def test_abs_boss_rows(row: tuple[float, ...]) -> None:
    """30 degree screws in ABS of 42 MPa (design pages, ABS row memory), worked in whole newtons: 0.1 %."""
    screw, *printed = row
    hole = boss_hole_mm(screw_mm=screw, ratio=0.80)
    engagement = boss_engagement_mm(screw_mm=screw, ratio=2.0)
    cylinder = thread_cylinder_mm(major_mm=screw, hole_mm=hole)
    pull = pull_out_plastic_n(cylinder_mm=cylinder, engagement_mm=engagement, yield_mpa=42)
    depth = boss_depth_mm(engagement_mm=engagement, screw_mm=screw)
    got = [hole, boss_outer_mm(screw_mm=screw, ratio=2.0), engagement, depth, pull, pull / 3]
    assert got == pytest.approx(printed, rel=1e-3)


@pytest.mark.parametrize(
    ("outer_mm", "length_mm", "pull_n", "pull_3_n"),
    [(4.55, 5.74, 1990, 663), (6.17, 8.15, 3831, 1277), (6.93, 9.52, 5026, 1675), (8.69, 12.7, 8407, 2802)],
    ids=["M3", "M4", "M5", "M6"],
)
def test_heat_set_insert_rows(outer_mm: float, length_mm: float, pull_n: float, pull_3_n: float) -> None:
    """Heat-set inserts in ABS of 42 MPa (24.2 MPa shear), worked in whole newtons: 0.1 %."""
    pull = pull_out_plastic_n(cylinder_mm=outer_mm, engagement_mm=length_mm, yield_mpa=42)
    assert pull == pytest.approx(pull_n, rel=1e-3)
    assert pull / 3 == pytest.approx(pull_3_n, rel=1e-3)


def test_hot_cabin() -> None:
    """Common practice: low-end ABS yield of 29.6 MPa counts half in a parked car."""
    assert hot_yield_mpa(yield_mpa=29.6, fraction=0.5) == pytest.approx(14.8)


def test_boss_torque_window() -> None:
    """Resin makers' guides (memory): 1.2 x 0.5 N·m driving, 0.5 x 2.0 N·m strip."""
    assert torque_floor_nm(driving_nm=0.5, margin=1.2) == pytest.approx(0.6)
    assert torque_ceiling_nm(failure_nm=2.0, fraction=0.5) == pytest.approx(1.0)
