"""Tables of wiring against other prints than those they were read from, and against the formula of their standard."""

from fractions import Fraction

import pytest

from fasten.catalog.ampacity import cable_ampacity
from fasten.catalog.tables import builtin
from fasten.catalog.wiring import AWG_CONDUCTORS, CABLE_AMPACITY, METRIC_AMPACITY, METRIC_CONDUCTORS
from fasten.catalog.wiring_ends import AWG_SLEEVES, CRIMP_PULL, HEAT_SHRINK, THIN_WALL_SHRINK, WIRE_END_SLEEVES
from fasten.mechanics.grounding import awg_area_mm2

TABLES = builtin()
# A marine wiring catalogue, reprint of the coast guard's electrical guideline: the column of 105 °C, 18 to 4/0 AWG.
MARINE_105_A = (20, 25, 35, 45, 60, 80, 120, 160, 180, 210, 245, 285, 330, 385, 445)


def steps(awg: str) -> int:
    return 4 - int(awg[0]) if awg.endswith("/0") else int(awg) + 3


def test_every_ampacity_at_105_degrees_is_that_of_a_second_print() -> None:
    assert tuple(row.at_105_a for row in TABLES.rows(CABLE_AMPACITY)) == MARINE_105_A


def test_every_gauge_has_the_area_of_its_formula() -> None:
    """ASTM B258: the printed areas are rounded to a thousandth."""
    for row in TABLES.rows(CABLE_AMPACITY):
        assert row.area_mm2 == pytest.approx(awg_area_mm2(steps=steps(row.awg)), abs=0.0006), row.awg


def test_a_cable_of_each_gauge_carries_its_own_row() -> None:
    for row in TABLES.rows(CABLE_AMPACITY):
        for column in (60, 75, 80, 90, 105, 125, 200):
            found = cable_ampacity(awg_area_mm2(steps=steps(row.awg)), column, TABLES)
            assert found is not None
            assert (found.awg, found.amps_a) == (row.awg, row.at_a(column))


@pytest.mark.parametrize(
    ("area_mm2", "insulation_c", "awg", "amps_a"),
    [
        (25, 105, "4", 145),  # the metric row lowers the 160 A of 4 AWG
        (25, 90, "4", 135),  # and is for 105 °C alone
        (50, 105, "1", 230),
        (6, 105, "10", 60),
        (50, 75, "1", 195),
        (25, 85, "4", 130),  # between two columns the cooler one
        (25, 70, "4", 105),
        (26.7, 105, "3", 180),
        (26.6, 105, "4", 160),
    ],
)
def test_the_gauge_below_an_area_governs(area_mm2: float, insulation_c: float, awg: str, amps_a: float) -> None:
    found = cable_ampacity(area_mm2, insulation_c, TABLES)
    assert found is not None
    assert (found.awg, found.amps_a) == (awg, amps_a)


@pytest.mark.parametrize(("area_mm2", "insulation_c"), [(0.75, 105), (0.5, 200), (25, 59)])
def test_what_no_row_is_for_carries_nothing_that_is_known(area_mm2: float, insulation_c: float) -> None:
    assert cable_ampacity(area_mm2, insulation_c, TABLES) is None


def test_the_row_that_is_named_has_the_figure() -> None:
    """33 CFR 183.425 gives 2 AWG 210 A and 6 AWG 120 A at 105 °C; the metric column 35 mm² 180 A and 16 mm² 110 A."""
    named = {(area, column): found for area in (16, 35) for column in (75, 105)
             if (found := cable_ampacity(area, column, TABLES)) is not None}  # fmt: skip
    assert {key: (one.row, one.amps_a) for key, one in named.items()} == {
        (16, 105): ("metric 16 mm²", 110), (35, 105): ("metric 35 mm²", 180), (16, 75): ("6 AWG", 95),
        (35, 75): ("2 AWG", 170),
    }  # fmt: skip
    gauges = {f"{row.awg} AWG": row.at_105_a for row in TABLES.rows(CABLE_AMPACITY)}
    metric = {f"metric {row.area_mm2:g} mm²": row.at_105_a for row in TABLES.rows(METRIC_AMPACITY)}
    for row in TABLES.rows(METRIC_CONDUCTORS):
        found = cable_ampacity(row.area_mm2, 105, TABLES)
        assert found is None or (gauges | metric)[found.row] == found.amps_a


def test_a_metric_row_only_lowers() -> None:
    for row in TABLES.rows(METRIC_AMPACITY):
        found = cable_ampacity(row.area_mm2, 105, TABLES)
        assert found is not None
        assert found.amps_a <= row.at_105_a
        assert row.at_105_a * 0.75 < found.amps_a


# -- conductors, crimps and covers -------------------------------------------------------------------------------------


def test_the_force_of_every_crimp_is_that_of_its_pounds() -> None:
    """UL 486A as a second maker prints it: pounds for 18 to 2/0 AWG; the newtons are rounded to a half."""
    pounds = (20, 30, 50, 70, 80, 90, 100, 140, 180, 250, 300)
    printed = [row.pull_n for row in TABLES.rows(CRIMP_PULL) if row.area_mm2 > 0.8]
    assert printed == pytest.approx([4.44822 * pound for pound in pounds], rel=0.001)


def test_flexible_conductors_have_the_resistivity_of_copper_and_a_lay() -> None:
    """IEC 60228 class 5: 17.241 mΩ·mm²/m of annealed copper, 11 to 16 % more for fine strands and their lay."""
    for row in TABLES.rows(METRIC_CONDUCTORS):
        assert 1.10 < row.area_mm2 * row.resistance_mohm_per_m / 17.241 < 1.16, row.area_mm2


def test_gauges_have_the_resistance_of_a_solid_wire_or_more() -> None:
    """ASTM B258, solid round at 20 °C: a strand of AC 43 or SAE has 0.97 to 1.23 of it, by the area it really has."""
    for row in TABLES.rows(AWG_CONDUCTORS):
        solid = 17.241 / awg_area_mm2(steps=steps(row.awg))
        assert 0.97 < row.resistance_mohm_per_m / solid < 1.29, row.awg


def test_a_heat_shrink_shrinks_by_its_ratio() -> None:
    for row in TABLES.rows(HEAT_SHRINK):
        ratio = float(row.ratio.partition(":")[0])
        assert row.supplied_mm / row.recovered_mm == pytest.approx(ratio, rel=0.06), row.size


def test_the_collars_of_sleeves_have_the_colours_of_din() -> None:
    """The colour series of DIN 46228-4 as a panel builder's chart has it, from 0.5 mm² up."""
    chart = [
        "white",
        "grey",
        "red",
        "black",
        "blue",
        "grey",
        "yellow",
        "red",
        "blue",
        "yellow",
        "red",
        "blue",
        "yellow",
    ]
    assert [row.colour for row in TABLES.rows(WIRE_END_SLEEVES)] == chart


def test_every_gauge_enters_its_sleeve() -> None:
    inside = {row.area_mm2: row.inside_mm for row in TABLES.rows(WIRE_END_SLEEVES)}
    for row in TABLES.rows(AWG_SLEEVES):
        assert row.conductor_mm <= inside[row.sleeve_mm2], row.cable


def test_thin_wall_shrink_has_the_inch_size_that_it_goes_by() -> None:
    """SAE AMS-DTL-23053/5 by a control drawing and a seller's sheet: 1/2 in is 12.7 mm, 2:1 to 6.4 mm.

    Reason for the tolerance: sizes are rounded to 0.1 mm, and a recovered inside is at most half of what is supplied.
    """
    rows = TABLES.rows(THIN_WALL_SHRINK)
    assert len(rows) == 11
    for row in rows:
        whole, _, part = row.size.rpartition("-")
        inches = float(Fraction(part)) + (float(whole) if whole else 0.0)
        assert row.supplied_mm == pytest.approx(inches * 25.4, abs=0.06)
        assert row.recovered_mm == pytest.approx(row.supplied_mm / 2, abs=0.06)
    half = TABLES.need(THIN_WALL_SHRINK, "1/2")
    assert (half.supplied_mm, half.recovered_mm, half.wall_mm) == (12.7, 6.4, 0.64)
