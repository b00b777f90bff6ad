"""Plastic: pull-out of screws and inserts, boss and hole ratios, and insert holes, against printed values."""

from dataclasses import replace

import pytest
from built.receivers import figures

from fasten.catalog.materials import MATERIALS, PLASTIC_KINDS
from fasten.catalog.parts import PLASTIC_INSERTS, PLASTIC_SCREWS
from fasten.catalog.practice import FACTORS, RULES
from fasten.catalog.tables import builtin
from fasten.geometry.joint import drilled
from fasten.mechanics.plastic import (
    bearing_plastic_n,
    boss_depth_mm,
    boss_engagement_mm,
    boss_hole_mm,
    boss_outer_mm,
    punch_plastic_n,
)
from fasten.methods import heat_set_insert, thread_forming_screw
from fasten.model import Joint, MountPoint
from fasten.proof.modes import families
from fasten.proof.modes import plastic as plastic_modes
from fasten.proof.modes.mode import Mode
from fasten.question.read import read_question
from fasten.question.resolve import resolve

TABLES = builtin()
YIELD_PRINTED, YIELD_LOW = 42.0, 29.6


def mount(hole: str) -> MountPoint:
    """Out of the heat, so that nothing but the equation stands between table and print."""
    said = {
        "item": "crossover", "onto": "ABS 3 mm", "removed": "rarely", "item-hole": hole, "boss": "40x40 mm",
        "where": "underfloor",
    }  # fmt: skip
    return resolve(read_question(said, TABLES), TABLES)


def screw_joint(size: str, hole: str) -> Joint:
    found = thread_forming_screw.joints(mount(hole), TABLES)
    return next(joint for joint in found if joint.screw is not None and joint.screw.thread == size)


# Screw, item hole, core hole, boss, engagement, depth, pull-out in N at 42 MPa yield: a worked table, shear cylinder.
SCREWS = [
    ("3.0 mm", "3.5 mm", 2.4, 6.0, 6.0, 7.5, 1234),
    ("3.5 mm", "4 mm", 2.8, 7.0, 7.0, 8.75, 1680),
    ("4.0 mm", "4.5 mm", 3.2, 8.0, 8.0, 10.0, 2194),
    ("5.0 mm", "5.5 mm", 4.0, 10.0, 10.0, 12.5, 3428),
]


@pytest.mark.parametrize(("size", "hole", "core", "boss", "engaged", "deep", "pull"), SCREWS)
def test_screws_in_abs(
    size: str, hole: str, core: float, boss: float, engaged: float, deep: float, pull: float
) -> None:
    """Worked examples at 0.8 d, 2.0 d, 2.0 d (memory): half a newton of rounding."""
    row = TABLES.find(PLASTIC_SCREWS, size)
    kind = TABLES.find(PLASTIC_KINDS, "abs")
    assert row is not None
    assert kind is not None
    assert boss_hole_mm(screw_mm=row.diameter_mm, ratio=kind.hole_over_d) == pytest.approx(core)
    assert boss_outer_mm(screw_mm=row.diameter_mm, ratio=kind.boss_over_d) == pytest.approx(boss)
    assert boss_engagement_mm(screw_mm=row.diameter_mm, ratio=kind.engagement_over_d) == pytest.approx(engaged)
    assert boss_depth_mm(engagement_mm=engaged, screw_mm=row.diameter_mm) == pytest.approx(deep)
    joint = screw_joint(size, hole)
    assert joint.screw is not None
    printed = replace(joint, screw=replace(joint.screw, engagement_mm=engaged))
    capacity = plastic_modes.PULL_OUT.capacity(printed, mount(hole), TABLES)
    assert capacity.load_n * YIELD_PRINTED / YIELD_LOW == pytest.approx(pull, abs=0.6)


# Thread, item hole, outside, length, hole, pull-out in N at 42 MPa yield, printed as 24 MPa of shear: worked estimates.
INSERTS = [
    ("M3", "3.4 mm", 4.55, 5.74, 4.0, 1990),
    ("M4", "4.5 mm", 6.17, 8.15, 5.6, 3831),
    ("M5", "5.5 mm", 6.93, 9.52, 6.4, 5026),
    ("M6", "6.6 mm", 8.69, 12.7, 8.0, 8407),
]  # fmt: skip


@pytest.mark.parametrize(("thread", "hole", "outer", "length", "core", "pull"), INSERTS)
def test_heat_set_inserts(thread: str, hole: str, outer: float, length: float, core: float, pull: float) -> None:
    """Open parts-library data: hole, outside and length; pull-out as a shear cylinder (memory), 0.1 %."""
    found = heat_set_insert.joints(mount(hole), TABLES)
    joint = next(joint for joint in found if joint.receiver is not None and joint.receiver.thread == thread)
    assert joint.receiver is not None
    assert (figures(joint.receiver).body_mm, joint.receiver.length_mm, drilled(joint).diameter_mm) == (
        outer,
        length,
        core,
    )
    capacity = plastic_modes.PULL_OUT.capacity(joint, mount(hole), TABLES)
    assert capacity.load_n * YIELD_PRINTED / YIELD_LOW == pytest.approx(pull, rel=1e-3)


def test_boss_and_engagement_lie_where_five_pages_have_them() -> None:
    """Four design pages and a university page: boss 2.0 to 2.5 d, engagement 2.0 to 2.5 d, hole 0.75 to 0.85 d."""
    row = TABLES.find(PLASTIC_KINDS, "abs")
    assert row is not None
    assert 2.0 <= row.boss_over_d <= 2.5
    assert 2.0 <= row.engagement_over_d <= thread_forming_screw.MOST_ENGAGED == 2.5
    assert 0.75 <= row.hole_over_d <= 0.85


@pytest.mark.parametrize(("material", "hole"), [("abs", 0.8), ("pp", 0.7), ("pc", 0.85), ("pa", 0.75)])
def test_hole_ratios_against_a_printed_table(material: str, hole: float) -> None:
    """30 degree thread, hole over diameter (memory): ABS 0.80, PP 0.70, PC 0.85, PA6 0.75."""
    row = TABLES.find(PLASTIC_KINDS, material)
    assert row is not None
    assert row.hole_over_d == hole


@pytest.mark.parametrize(
    ("thread", "outer", "length", "holes", "deep"),
    [
        ("M3", 5.0, 6, (4.5, 4.8), 8), ("M4", 6.5, 8, (5.8, 6.2), 10), ("M5", 8.0, 10, (7.1, 7.6), 13),
        ("M6", 10.0, 14, (8.6, 9.4), 17), ("M8", 12.0, 15, (10.6, 11.4), 18),
    ],
)  # fmt: skip
def test_self_tapping_inserts(
    thread: str, outer: float, length: float, holes: tuple[float, float], deep: float
) -> None:
    """Two suppliers' tables that agree: outside, length, range of hole, blind depth."""
    row = TABLES.find(PLASTIC_INSERTS, "self-tapping", thread)
    assert row is not None
    assert (row.outer_mm, row.length_mm, (row.hole_min_mm, row.hole_max_mm), row.deep_mm) == (
        outer,
        length,
        holes,
        deep,
    )


def test_every_insert_interferes_and_its_hole_is_deeper_than_it_is_long() -> None:
    """Interference 0.25 to 0.7 mm for heat-set inserts; 0.5 to 1.0 mm deeper, 2 to 3 mm for chips: published pages."""
    for row in TABLES.rows(PLASTIC_INSERTS):
        if row.series == "heat-set":
            assert 0.25 <= row.outer_mm - row.hole_min_mm <= 0.7, row.name()
        assert row.hole_min_mm < row.hole_max_mm < row.outer_mm
        assert 0.5 <= row.deep_mm - row.length_mm <= 3


def test_a_boss_round_an_insert_is_twice_its_outside() -> None:
    """Design reference page: boss of 2 outsides."""
    rule = TABLES.find(RULES, "insert-boss")
    assert rule is not None
    assert rule.value == 2.0


def test_abs_is_taken_at_its_low_end_and_half_in_heat() -> None:
    """Materials database and two data pages: yield 29.6 to 44.1 MPa, long-term limit 62 to 77 °C; half: no source."""
    row, share = TABLES.find(MATERIALS, "abs"), TABLES.find(RULES, "hot-plastic-share")
    assert row is not None
    assert share is not None
    assert (row.yield_mpa, row.heat_limit_c, share.value) == (29.6, 62, 0.5)
    hot = replace(mount("4.5 mm"), where=plastic_modes.HOT[0])
    assert plastic_modes.strength_mpa(hot, TABLES)[0] == pytest.approx(14.8)


@pytest.mark.parametrize("name", ["pp", "hdpe", "pc", "pa", "acrylic", "pvc_foam"])
def test_no_plastic_is_taken_stronger_than_it_breaks(name: str) -> None:
    row = TABLES.find(MATERIALS, name)
    assert row is not None
    assert row.ultimate_mpa is not None
    assert row.yield_mpa is None or row.yield_mpa <= row.ultimate_mpa


@pytest.mark.parametrize("mode", [m for m in vars(plastic_modes).values() if isinstance(m, Mode)], ids=lambda m: m.id)
def test_every_mode_has_a_factor_for_service_and_for_a_hard_stop(mode: Mode) -> None:
    """3 in service and 2 once in a lifetime on plastic, resin makers' guides (memory); a pressure is its own limit."""
    rows = [row for row in TABLES.rows(FACTORS) if row.family == mode.family.name]
    found = {row.kind: row.factor for row in rows if row.factor is not None}
    assert found == (
        {"service": 1, "hard_stop": 1} if mode.family is families.ITEM_SOFT else {"service": 3, "hard_stop": 2}
    )


def test_a_shank_in_a_sheet_by_hand() -> None:
    """By hand: 4 x 3 x 14.8 N; a 12 mm washer through 3 mm, pi x 12 x 3 x 14.8 / 1.732 N."""
    assert bearing_plastic_n(diameter_mm=4, depth_mm=3, strength_mpa=14.8) == pytest.approx(177.6)
    assert punch_plastic_n(washer_mm=12, sheet_mm=3, strength_mpa=14.8) == pytest.approx(966.4, rel=1e-4)
