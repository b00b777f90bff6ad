"""Tables of wiring against other prints than those they were read from, and against the formula of their standard."""

import pytest

from fasten.catalog.ampacity import cable_ampacity
from fasten.catalog.tables import builtin
from fasten.catalog.wiring import CABLE_AMPACITY, METRIC_AMPACITY
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


def test_a_metric_row_only_lowers() -> None:
    for row in TABLES.rows(METRIC_AMPACITY):
        found = cable_ampacity(row.area_mm2, 105, TABLES)
        assert found is not None
        assert found.amps_a <= row.at_105_a
        assert row.at_105_a * 0.75 < found.amps_a
