"""Strips, bonds, tape, magnets and bonded studs against values printed or remembered elsewhere than their tables."""

from math import pi

import pytest

from fasten.catalog.face_parts import (
    ADHESIVES,
    BOND_FACES,
    HOOK_AND_LOOP,
    POT_MAGNETS,
    Adhesive,
)
from fasten.catalog.materials import FACES
from fasten.catalog.practice import FACTORS, RULES
from fasten.catalog.tables import builtin
from fasten.mechanics import faces
from fasten.mechanics.sheet import sheet_interaction

TABLES = builtin()
PSI, POUND_N, INCH_MM = 0.00689476, 4.44822, 25.4


def rule(name: str) -> float:
    row = TABLES.find(RULES, name)
    assert row is not None
    return row.value


def factor(kind: str, family: str) -> float:
    row = TABLES.find(FACTORS, kind, family)
    assert row is not None
    assert row.factor is not None
    return row.factor


def bond(name: str) -> Adhesive:
    row = TABLES.find(ADHESIVES, name)
    assert row is not None
    return row


# -- tape -------------------------------------------------------------------------------------------------------------


def test_what_stays_on_tape_is_what_its_guides_print_in_both_units() -> None:
    """55 cm2 a kilogram and 4 in2 a pound (makers' guides, from memory): 4 % apart, the lower taken."""
    standing = bond("acrylic foam tape").standing_mpa
    assert standing is not None
    assert standing == pytest.approx(POUND_N / (4 * INCH_MM**2), rel=0.01)
    assert standing == pytest.approx(9.80665 / 5500, rel=0.05)
    assert standing <= POUND_N / (4 * INCH_MM**2)


def test_short_loads_on_tape_keep_to_the_guide() -> None:
    """12 psi for dynamic shear or tension (tape makers' guides, from memory), their margin within it."""
    row = bond("acrylic foam tape")
    assert 0.98 * 12 * PSI <= row.shear_mpa == row.tension_mpa <= 12 * PSI
    assert factor("service", "tape") == factor("hard_stop", "tape") == factor("sustained", "tape_standing") == 1.0


def test_a_kilogram_on_tape_wants_the_area_of_the_guide() -> None:
    standing = bond("acrylic foam tape").standing_mpa
    assert standing is not None
    assert faces.bond_load_n(area_mm2=4 * INCH_MM**2, strength_mpa=standing) == pytest.approx(POUND_N, rel=0.01)


# -- adhesives --------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("name", "low", "high"),
    [("elastic adhesive", 1.0, 3.0), ("structural adhesive", 5.0, 25.0), ("laminating resin and mat", 3.0, 10.0)],
)
def test_lap_shear_is_the_low_end_of_what_data_sheets_give(name: str, low: float, high: float) -> None:
    """Ranges of data sheets, from memory, low confidence; a pull is never even and is held under the shear."""
    row = bond(name)
    assert row.shear_mpa == low < high
    assert row.tension_mpa <= row.shear_mpa / 2
    assert row.hot_share <= 0.5


def test_a_lap_of_one_square_inch() -> None:
    """1000 psi over 1 in2 is 1000 lbf, 4448 N: the unit that lap shear is quoted in."""
    area = faces.strip_area_mm2(length_mm=INCH_MM, width_mm=INCH_MM)
    assert faces.bond_load_n(area_mm2=area, strength_mpa=1000 * PSI) == pytest.approx(4448, rel=1e-3)


def test_a_twentieth_stays_on_a_bond() -> None:
    """About 5 % of lap shear may stay for years (makers of elastic adhesives, from memory)."""
    assert 1 / factor("sustained", "bond") == pytest.approx(0.05)


@pytest.mark.parametrize(("material", "bears"), [("mdf", 0.55), ("particleboard", 0.35)])
def test_board_parts_inside_itself(material: str, bears: float) -> None:
    """Internal bond: EN 622-5 MDF of 12 to 19 mm 0.55 MPa, EN 312 P2 of 13 to 20 mm 0.35 MPa (both from memory)."""
    row = TABLES.find(BOND_FACES, material)
    assert row is not None
    assert row.bears_mpa == bears < bond("structural adhesive").tension_mpa


# -- hook-and-loop ----------------------------------------------------------------------------------------------------


def test_hook_and_loop_is_the_low_end_of_its_order_of_magnitude() -> None:
    """Shear 60 to 120 kPa (8 to 17 psi), tension 30 to 70 kPa, 30 to 50 % lost in use: from memory, low confidence."""
    for row in TABLES.rows(HOOK_AND_LOOP):
        assert (row.shear_mpa, row.tension_mpa) == (0.060, 0.030)
        assert 8 * PSI <= row.shear_mpa <= 17 * PSI
    assert rule("hook-cycled-share") == 1 - 0.5


def test_a_strip_of_100_by_50() -> None:
    """By hand: 5000 mm2 x 60 kPa is 300 N new, 150 N used, of which 15 N may stay: a tenth, common practice."""
    area = faces.strip_area_mm2(length_mm=100, width_mm=50)
    used = faces.hook_load_n(area_mm2=area, new_mpa=0.060, share=0.5)
    assert used == pytest.approx(150)
    assert used / factor("sustained", "hook") == pytest.approx(15)


def test_where_a_self_adhesive_backing_lets_go() -> None:
    """It governs above 60 to 70 °C (common practice, no source), which a parked car passes."""
    limits = [row.backing_limit_c for row in TABLES.rows(HOOK_AND_LOOP) if row.backing_limit_c]
    assert limits == [60]
    assert rule("parked-heat") > 70


# -- magnets ----------------------------------------------------------------------------------------------------------


def test_heat_takes_the_square_of_the_flux() -> None:
    """Ordinary neodymium: 0.12 % of flux a kelvin (textbook value), 60 K over room temperature, pull by its square."""
    assert 0.8 < rule("magnet-heat-share") <= (1 - 0.0012 * 60) ** 2


def test_a_pot_pulls_no_more_than_its_face_could_at_saturation() -> None:
    """B^2 A / 2 mu0 at 2 T of saturated steel (Maxwell's stress) is the most any magnet of that diameter could pull."""
    for row in TABLES.rows(POT_MAGNETS):
        most_n = 2.0**2 / (2 * 4e-7 * pi) * faces.disc_area_mm2(diameter_mm=row.diameter_mm) * 1e-6
        assert row.pull_n < most_n / 2
        assert row.plate_diameter_mm > row.diameter_mm


def test_friction_under_less_pull_is_the_straight_line() -> None:
    """Statics: a magnet slides at mu (F - T), which is V / (mu F) + T / F = 1."""
    face = TABLES.find(FACES, "painted_metal")
    assert face is not None
    pull, away = 100.0, 30.0
    slides = face.friction * (pull - away)
    used = sheet_interaction(
        shear_n=slides, shear_capacity_n=faces.magnet_slip_n(pull_n=pull, friction=face.friction), tension_n=away,
        tension_capacity_n=pull,
    )  # fmt: skip
    assert used == pytest.approx(1.0)


def test_paint_heat_and_rim() -> None:
    assert faces.magnet_pull_n(pull_n=200, film=0.7, heat=0.85) == pytest.approx(119)
    assert faces.rim_load_n(diameter_mm=20, rim_mm=1.5, yield_mpa=140) == pytest.approx(4200)


# -- bonded studs -----------------------------------------------------------------------------------------------------


def test_torsion_of_a_base_is_that_of_a_shaft() -> None:
    """Textbook shaft: 50 mm at 60 MPa carries 1473 N·m (strength of materials, T = tau pi d^3 / 16)."""
    assert faces.base_torsion_nm(diameter_mm=50, shear_mpa=60, share=1.0) == pytest.approx(1473, rel=1e-3)
    half = faces.base_torsion_nm(diameter_mm=50, shear_mpa=60, share=0.5)
    assert half == pytest.approx(1473 / 2, rel=1e-3)


@pytest.mark.parametrize(
    ("call", "says"),
    [
        (lambda: faces.bond_load_n(area_mm2=0, strength_mpa=1), "area_mm2"),
        (lambda: faces.hot_bond_mpa(cold_mpa=1, share=1.2), "share"),
        (lambda: faces.hook_load_n(area_mm2=1, new_mpa=1, share=1.1), "share"),
        (lambda: faces.magnet_pull_n(pull_n=10, film=1.5, heat=1), "film"),
        (lambda: faces.base_torsion_nm(diameter_mm=10, shear_mpa=1, share=2), "share"),
        (lambda: faces.disc_area_mm2(diameter_mm=-1), "diameter_mm"),
    ],
)
def test_what_cannot_be_is_refused_by_name(call: object, says: str) -> None:
    with pytest.raises(ValueError, match=says):
        call()  # type: ignore[operator]
