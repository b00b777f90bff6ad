"""An item on a thin panel, against published tables of plates and beams, and against finite elements run elsewhere."""

from math import pi, sqrt

import pytest

from fasten.mechanics.plate import (
    bay_n_per_mm,
    bay_tilt_nmm_per_rad,
    dent_load_n,
    floor_foot_ratio,
    floor_n_per_mm,
    mounted_frequency_hz,
    needed_n_per_mm,
    plate_rigidity_nmm,
    push_limit_mm,
    pushed_high_n_per_mm,
    pushed_low_n_per_mm,
    rails_n_per_mm,
    rocking_frequency_hz,
    tube_inertia_mm4,
    two_pushes_n_per_mm,
)

STEEL = {"youngs_mpa": 205_000.0, "poisson": 0.3}
HAND = {"force_error_n": 20.0, "reading_error_mm": 0.05}


@pytest.mark.parametrize(
    ("aspect", "alpha"), [(1.0, 0.0116), (1.2, 0.01353), (1.4, 0.01484), (1.6, 0.0157), (2.0, 0.01651), (3.0, 0.0169)]
)
def test_a_point_in_the_middle_of_a_bay(aspect: float, alpha: float) -> None:
    """Timoshenko and Woinowsky-Krieger table 23 (from memory): w = alpha P b^2/D, edges simply supported, nu 0.3."""
    rigidity = plate_rigidity_nmm(**STEEL, thickness_mm=0.8)
    found = bay_n_per_mm(points_mm=((0.0, 0.0),), short_mm=200, long_mm=200 * aspect, rigidity_nmm=rigidity)
    assert found == pytest.approx(rigidity / (alpha * 200**2), rel=3e-3)


@pytest.mark.parametrize(
    ("thickness", "bay", "pitch", "bounce", "short", "long"),
    [
        (0.8, (200, 400), (100, 200), 58.1708, 566_834, 828_586),
        (0.7, (150, 300), (90, 120), 81.7712, 566_148, 499_954),
        (1.0, (300, 450), (210, 240), 121.131, 2_953_260, 2_760_190),
        (0.8, (300, 450), (180, 240), 40.8035, 895_698, 987_766),
        (0.8, (400, 600), (180, 240), 11.314, 432_000, 405_209),
        (0.8, (240, 400), (180, 240), 139.933, 2_148_790, 2_631_260),
    ],
)
def test_four_fixings_tied_by_a_rigid_item(
    thickness: float, bay: tuple[int, int], pitch: tuple[int, int], bounce: float, short: float, long: float
) -> None:
    """Steel, edges simply supported, finite elements run apart from this code: 0.1 %."""
    x, y = pitch[0] / 2, pitch[1] / 2
    points = ((-x, -y), (x, -y), (x, y), (-x, y))
    of = {"short_mm": bay[0], "long_mm": bay[1], "rigidity_nmm": plate_rigidity_nmm(**STEEL, thickness_mm=thickness)}
    assert bay_n_per_mm(points_mm=points, **of) == pytest.approx(bounce, rel=1e-3)
    assert bay_tilt_nmm_per_rad(points_mm=points, **of) == pytest.approx((short, long), rel=1e-3)


def test_fixings_on_one_line_resist_no_tilt_across_it() -> None:
    points = ((-50.0, 0.0), (50.0, 0.0))
    tilt = bay_tilt_nmm_per_rad(points_mm=points, short_mm=200.0, long_mm=400.0, rigidity_nmm=9611.7)
    assert tilt[1] == pytest.approx(0, abs=1e-9)


def test_frequency_from_sag() -> None:
    """f = 15.76/sqrt(sag mm): an item that sinks 0.40 mm by its own weight sways at 25 Hz."""
    sag = 0.40
    stiffness = 9.81 / sag
    assert mounted_frequency_hz(stiffness_n_per_mm=stiffness, mass_kg=1) == pytest.approx(15.76 / sqrt(sag), rel=1e-3)
    assert needed_n_per_mm(mass_kg=1, frequency_hz=25) == pytest.approx(24.67, abs=0.01)


def test_rocking_of_a_block() -> None:
    """By hand: 3 kg, 100 mm long, cg at 40 mm: I = 3 (10000/12 + 4 x 1600/3) = 8900 kg mm2; 566 834 N mm: 40.2 Hz."""
    found = rocking_frequency_hz(tilt_nmm_per_rad=566_834, mass_kg=3, length_mm=100, cg_mm=40)
    assert found == pytest.approx(sqrt(566_834_000 / 8900) / (2 * pi), rel=1e-9)


@pytest.mark.parametrize(("thickness", "mass"), [(0.7, 6.82), (0.8, 7.27), (1.0, 7.88), (1.2, 8.26)])
def test_what_the_heel_of_a_hand_shows(thickness: float, mass: float) -> None:
    """100 N that moves the panel 0.3 mm, 20 % and 0.05 mm against it, at 25 Hz, by hand."""
    stiffness = pushed_low_n_per_mm(force_n=100, moved_mm=0.3, thickness_mm=thickness, **HAND)
    assert stiffness / needed_n_per_mm(mass_kg=1, frequency_hz=25) == pytest.approx(mass, abs=0.01)


def test_the_limit_of_a_push_is_where_its_lower_bound_is_what_is_needed() -> None:
    """5 kg on 0.8 mm, 150 N with 30 N of error."""
    needed = needed_n_per_mm(mass_kg=5, frequency_hz=25)
    given = {"force_n": 150.0, "force_error_n": 30.0, "reading_error_mm": 0.05, "thickness_mm": 0.8}
    limit = push_limit_mm(needed_n_per_mm=needed, **given)
    assert pushed_low_n_per_mm(moved_mm=limit, **given) == pytest.approx(needed, rel=1e-9)
    assert pushed_low_n_per_mm(moved_mm=limit + 0.01, **given) < needed


def test_two_pushes() -> None:
    """Readings of a clamped 300 mm disc of 0.8 mm by a von Karman solution, run elsewhere, whose true k0 is 21.7."""
    found = two_pushes_n_per_mm(first_n=20, first_mm=0.694, second_n=80, second_mm=1.514)
    assert found == pytest.approx(22.4283, rel=1e-5)
    assert found == pytest.approx(21.7, rel=0.05)
    assert two_pushes_n_per_mm(first_n=50, first_mm=0.4, second_n=100, second_mm=0.72) == pytest.approx(118.8, rel=1e-4)


def test_one_push_bounds_what_two_show() -> None:
    """50 N, 0.4 mm, errors 2 N and 0.05 mm, 1 mm sheet: 82.4 N/mm by hand, with the membrane term; 148.6 at most."""
    given = {"force_n": 50.0, "moved_mm": 0.4, "force_error_n": 2.0, "reading_error_mm": 0.05}
    assert pushed_low_n_per_mm(**given, thickness_mm=1.0) == pytest.approx(48 / 0.45 / (1 + 1.43 * 0.2025), rel=1e-9)
    assert pushed_high_n_per_mm(**given) == pytest.approx(148.571, rel=1e-5)


@pytest.mark.parametrize(("thickness", "service"), [(0.7, 75.6), (0.8, 98.8), (1.0, 154.3)])
def test_dent(thickness: float, service: float) -> None:
    """Hopkins and Prager: 140 MPa, foot 7.5 mm, reach 100 mm, over 1.5. A point takes 2 pi M0, the whole 6 pi M0."""
    found = dent_load_n(yield_mpa=140, thickness_mm=thickness, foot_mm=7.5, reach_mm=100)
    assert found / 1.5 == pytest.approx(service, abs=0.1)
    moment = 140 * thickness**2 / 4
    point = dent_load_n(yield_mpa=140, thickness_mm=thickness, foot_mm=1e-9, reach_mm=100)
    whole = dent_load_n(yield_mpa=140, thickness_mm=thickness, foot_mm=100 - 1e-9, reach_mm=100)
    assert (point, whole) == pytest.approx((2 * pi * moment, 6 * pi * moment), rel=1e-6)


def test_rails_and_floor() -> None:
    """Beam theory by hand: two rails of 3900 mm4 over 400 mm give 1199.25 N/mm; MDF 15 on 600 mm gives 82.5."""
    found = rails_n_per_mm(inertia_mm4=3900, span_mm=400, rails=2, youngs_mpa=205_000)
    assert found == pytest.approx(1199.25, rel=1e-5)
    floor = floor_n_per_mm(youngs_mpa=2200, thickness_mm=15, width_mm=900, span_mm=600)
    assert floor == pytest.approx(82.5, rel=1e-9)
    assert floor_n_per_mm(youngs_mpa=2200, thickness_mm=15, width_mm=600, span_mm=600) == floor


def test_a_square_tube() -> None:
    """By hand, sharp corners: 20 x 2 is (160000 - 65536)/12 = 7872 mm4; handbooks with round corners have some 6900."""
    assert tube_inertia_mm4(side_mm=20, wall_mm=2) == pytest.approx(7872)


def test_a_rigid_foot_on_a_floor() -> None:
    """A 200 mm foot on 600 mm: 0.8 x 1.5^3 = 2.7, and no more for a longer one."""
    assert floor_foot_ratio(span_mm=600, foot_mm=200) == pytest.approx(2.7)
    assert floor_foot_ratio(span_mm=600, foot_mm=300) == 2.7
    assert floor_foot_ratio(span_mm=600, foot_mm=0) == pytest.approx(0.8)
