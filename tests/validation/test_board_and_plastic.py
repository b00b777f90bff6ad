"""Withdrawal from wood and board, and pull-out from plastic, against worked examples."""

import pytest

from fasten.mechanics.board import (
    edge_screw_max_mm,
    embedment_board_mpa,
    insert_board_min_mm,
    insert_depth_min_mm,
    insert_edge_min_mm,
    insert_withdrawal_edge_n,
    insert_withdrawal_face_n,
    lateral_ec5_n,
    pilot_band_board_mm,
    pilot_wood_mm,
    screw_withdrawal_edge_n,
    screw_withdrawal_face_n,
    sunk_insert_torque_nm,
    tapping_screw_withdrawal_n,
    withdrawal_ec5_n,
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


def test_tapping_screw_holds_a_tenth_more() -> None:
    """USDA Wood Handbook ch. 8 (memory): a tenth over a wood screw, by hand 108.25 x 0.25 x 4 x 20 x 1.1 N."""
    assert tapping_screw_withdrawal_n(shank_mm=4, penetration_mm=20, density_g_cm3=0.5) == pytest.approx(2381.5)


@pytest.mark.parametrize(("major_mm", "length_mm", "printed_n"), [(6, 40, 2866), (8, 50, 5394)])
def test_ec5_withdrawal(major_mm: float, length_mm: float, printed_n: float) -> None:
    """EN 1995-1-1 8.7.2 worked at 350 kg/m³ across the grain; four figures: 5e-4."""
    got = withdrawal_ec5_n(major_mm=major_mm, penetration_mm=length_mm, density_kg_m3=350)
    assert got == pytest.approx(printed_n, rel=5e-4)


def test_ec5_withdrawal_gains_nothing_more_from_kd() -> None:
    """EN 1995-1-1 8.7.2 by hand, d 12, 100 mm, 350 kg/m³: kd stays 1, 0.52 x 0.28868 x 0.63096 x 108.45 = 10.272 MPa.

    Times 1200 mm² is 12 326 N. 1e-3: four figures carried.
    """
    got = withdrawal_ec5_n(major_mm=12, penetration_mm=100, density_kg_m3=350)
    assert got == pytest.approx(12_326, rel=1e-3)


@pytest.mark.parametrize(
    ("outer_mm", "length_mm", "face_n", "edge_n"),
    [(12, 15, 1479, 1144), (8, 10, 727, None), (16, 18, 2037, None)],
    ids=["M6", "M4", "M8"],
)
def test_insert_estimates(outer_mm: float, length_mm: float, face_n: float, edge_n: float | None) -> None:
    """Extrapolated estimates for screw-in inserts at G 0.72, worked in whole newtons: 0.1 %."""
    face = insert_withdrawal_face_n(outer_mm=outer_mm, length_mm=length_mm, density_g_cm3=0.72)
    assert face == pytest.approx(face_n, rel=1e-3)
    if edge_n is not None:
        edge = insert_withdrawal_edge_n(outer_mm=outer_mm, length_mm=length_mm, density_g_cm3=0.72)
        assert edge == pytest.approx(edge_n, rel=1e-3)


def test_lateral_estimate() -> None:
    """EN 1995-1-1 8.2.3 and 8.3.1.3 (memory) by hand, d 4, 15 deep.

    65 x 0.37893 x 1.31101 = 32.291 MPa, times 0.4 x 15 x 4 = 24 mm² is 775.0 N. 3e-4: four figures.
    """
    strength = embedment_board_mpa(screw_mm=4, board_mm=15)
    assert strength == pytest.approx(32.291, rel=3e-4)
    assert lateral_ec5_n(embedment_mpa=strength, depth_mm=15, screw_mm=4) == pytest.approx(775.0, rel=3e-4)


def test_sunk_insert_torque() -> None:
    """Common practice, by hand: half of 1479 N at K 0.2 on M6 is 0.8874 N·m."""
    assert sunk_insert_torque_nm(withdrawal_n=1479, nut_factor=0.2, screw_mm=6) == pytest.approx(0.8874)


def test_board_rules() -> None:
    """Pilot 85 to 95 % of root, inserts max(12, 1.5 OD) from the edge, board +3, hole +2 mm (common practice)."""
    assert pilot_band_board_mm(root_mm=3.0) == pytest.approx((2.55, 2.85))
    assert insert_edge_min_mm(outer_mm=7) == pytest.approx(12)
    assert insert_edge_min_mm(outer_mm=12) == pytest.approx(18)
    assert insert_board_min_mm(length_mm=15) == pytest.approx(18)
    assert insert_depth_min_mm(length_mm=15) == pytest.approx(17)
    assert edge_screw_max_mm(board_mm=18) == pytest.approx(3.6)


@pytest.mark.parametrize(("least_mm", "most_mm", "pilot_mm"), [(2.51, 2.64, 2.4), (2.95, 3.10, 2.8), (3.43, 3.58, 3.2)])
def test_trade_body_pilots_lie_in_the_band(least_mm: float, most_mm: float, pilot_mm: float) -> None:
    """Trade-body pilots for #6, #8, #10 (3/32, 7/64, 1/8 in) against the ASME AB root diameters."""
    assert pilot_band_board_mm(root_mm=least_mm)[0] <= pilot_mm <= pilot_band_board_mm(root_mm=most_mm)[1]


def test_en_320_pilot_lies_in_the_band() -> None:
    """EN 320 (memory) drills 2.7 mm for an ST4.2 of 3.10 mm root, 87 %."""
    least, most = pilot_band_board_mm(root_mm=3.10)
    assert least < 2.7 < most


def test_wood_pilots() -> None:
    """USDA Wood Handbook ch. 8 (memory): 70 % of root in softwood, 90 % in hardwood; 3.0 mm root by hand."""
    assert pilot_wood_mm(root_mm=3, ratio=0.70) == pytest.approx(2.1)
    assert pilot_wood_mm(root_mm=3, ratio=0.90) == pytest.approx(2.7)


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
