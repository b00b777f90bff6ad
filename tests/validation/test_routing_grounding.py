"""Cables: spacing of clamps, cable to stud, rings to a stud, resistance and American gauges, against what is published.

Where no publication was at hand the test says common practice or memory.
"""

import pytest

from fasten.catalog.materials import RING_STUDS
from fasten.catalog.practice import RULES, Rule
from fasten.catalog.tables import builtin
from fasten.mechanics.grounding import awg_area_mm2, joint_resistance_mohm
from fasten.mechanics.routing import clamp_count

TABLES = builtin()


def rule(name: str) -> Rule:
    row = TABLES.find(RULES, name)
    assert row is not None, name
    return row


def basis(name: str) -> str:
    return TABLES.source(TABLES.source_id(RULES, rule(name))).basis


@pytest.mark.parametrize(
    ("name", "value", "said"),
    [
        ("clamp-spacing", 300, "handbook"),  # harness design note, two language copies: 300 mm on a straight run
        ("clamp-from-end", 120, "handbook"),  # the same: 120 mm from a connector
        ("ground-rings", 4, "handbook"),  # AC 21-99 (Australia), section 2 chapter 13
        ("ground-refinish", 24, "handbook"),  # AC 43.13-1B, 11-189
        ("ground-drop", 50, "common practice"),  # no source
        ("ground-m8-cable", 21, "common practice"),  # no source
        ("ground-insulation", 105, "common practice"),  # no source
        ("ring-pressure-least", 10, "from memory"),  # bolted copper joints
        ("ring-pressure-most", 70, "from memory"),  # where annealed copper yields
        ("ground-m8", 8, "common practice"),  # no source
        ("ground-power-cable", 8, "common practice"),  # no source
        ("ground-bare", 1.5, "common practice"),  # no source
    ],
)
def test_figures_of_cables_are_the_published_ones_and_say_how_sure_they_are(name: str, value: float, said: str) -> None:
    assert (rule(name).value, basis(name)) == (value, said)


def test_clamps_are_closer_than_where_an_aircraft_bundle_needs_ties_between() -> None:
    """AC 43.13-1B 11-158: ties where supports are further apart than 12 in (305 mm)."""
    assert rule("clamp-spacing").value <= 305


def test_clamp_spacing_lies_in_an_electronics_handbooks_range() -> None:
    """Electronics assembly handbook: clamps every 200 to 300 mm."""
    assert 200 <= rule("clamp-spacing").value <= 300


@pytest.mark.parametrize(("run_mm", "clamps"), [(240, 1), (540, 2), (840, 3), (2000, 7), (2040, 7), (2041, 8)])
def test_clamps_of_a_run_counted_by_hand(run_mm: float, clamps: int) -> None:
    """By the note's figures: one within 120 mm of each connector, no two over 300 mm apart."""
    spacing_mm, end_mm = rule("clamp-spacing").value, rule("clamp-from-end").value
    assert clamp_count(run_mm=run_mm, spacing_mm=spacing_mm, end_mm=end_mm) == clamps


@pytest.mark.parametrize(
    ("gauge", "steps", "diameter_mm"),
    [
        ("4/0", 0, 11.684),
        ("2/0", 2, 9.266),
        ("1/0", 3, 8.251),
        ("1", 4, 7.348),
        ("4", 7, 5.189),
        ("8", 11, 3.264),
        ("10", 13, 2.588),
        ("16", 19, 1.291),
        ("24", 27, 0.5106),
        ("36", 39, 0.1270),
    ],
)
def test_american_gauges(gauge: str, steps: int, diameter_mm: float) -> None:
    """Diameters of bare solid wire as wire tables print them (ASTM B258), from memory."""
    area_mm2 = 3.14159265 / 4 * diameter_mm**2
    assert awg_area_mm2(steps=steps) == pytest.approx(area_mm2, rel=4e-4), gauge


def test_three_gauges_halve_an_area_and_ten_take_a_tenth() -> None:
    """The rules of thumb printed with wire tables, from memory: 3 gauges a factor of 2, 10 a factor of 10, nearly."""
    assert awg_area_mm2(steps=7) / awg_area_mm2(steps=10) == pytest.approx(2, rel=5e-3)
    assert awg_area_mm2(steps=3) / awg_area_mm2(steps=13) == pytest.approx(10, rel=0.02)


def test_the_joint_may_have_a_tenth_of_the_bonding_figure_at_200_a() -> None:
    """2.5 mΩ, AC 43.13-1B 11-188, drops half a volt at 200 A; 50 mV (common practice) asks for a tenth of it."""
    most_mohm = joint_resistance_mohm(drop_mv=rule("ground-drop").value, current_a=200)
    assert most_mohm == pytest.approx(2.5 / 10)


def test_a_power_cable_begins_at_8_awg() -> None:
    """8.37 mm² as wire tables print it, from memory; 10 AWG is 5.26 mm²."""
    assert awg_area_mm2(steps=13) < rule("ground-power-cable").value <= awg_area_mm2(steps=11)


def test_rings_are_made_for_the_usual_metric_studs() -> None:
    """M4 to M10: from memory, no publication at hand."""
    rows = TABLES.rows(RING_STUDS)
    assert [row.stud for row in rows] == ["M4", "M5", "M6", "M8", "M10"]
    assert {TABLES.source(TABLES.source_id(RING_STUDS, row)).basis for row in rows} == {"from memory"}
