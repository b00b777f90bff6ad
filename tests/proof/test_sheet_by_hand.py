"""Ways to fail in sheet and of the screw, by hand on joints built here: which figures go in, and which rule decides."""

from dataclasses import replace
from math import pi, sqrt

import pytest
from built.receivers import changed

from fasten.catalog.materials import MATERIALS
from fasten.geometry.joint import bearing_diameter_mm, behind_mm, head_mm, shaft_mm, spaced_mm
from fasten.geometry.patterns import positions_mm
from fasten.model import Joint, MountPoint, Pattern, Position, StackPart, Status
from fasten.proof.checks import at_most
from fasten.proof.demands import demands
from fasten.proof.modes import common as modes
from fasten.proof.modes import item as item_modes
from fasten.proof.modes import rivet as rivet_modes
from fasten.proof.modes.families import NotJoined
from fasten.proof.modes.mode import Capacity, Mode
from fasten.text.rounding import up

from .built_joint import JOINT, MOUNT, NUT, SCREW, TABLES, TAPPING, nut

STEEL = replace(MOUNT, item_material="steel")
ALLOY = replace(MOUNT, material="aluminium", item_material="aluminium")
RIVET = replace(
    JOINT, method="blind_rivet", screw=replace(SCREW, diameter_mm=4.0),
    receiver=changed(NUT, part="blind rivet", thread_proof_n=900.0, shear_n=700.0),
)  # fmt: skip
HEAD = StackPart("ISO 7089", "M5", Position.HEAD, 5.3, 10.0, 1.0)
LARGE = replace(HEAD, place=Position.NUT, outer_mm=15.0)


def tensile(name: str) -> float:
    row = TABLES.find(MATERIALS, name)
    assert row is not None
    assert row.ultimate_mpa is not None
    return row.ultimate_mpa


def load(mode: Mode, joint: Joint, mount: MountPoint = STEEL) -> float:
    return mode.capacity(joint, mount, TABLES).load_n


def inputs(capacity: Capacity) -> dict[str, float]:
    return {part.name: part.value for part in capacity.inputs}


# -- what bears -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("joint", "bears", "spaced", "shank"),
    [
        (JOINT, 7.0, 7.0, 5.0),
        (nut(part="ball socket"), 7.0, 7.0, 5.0),
        (nut(part="prevailing-torque nut"), 5.0, 5.0, 5.0),
        (nut(part="screw-in insert", body_mm=8.0), 5.0, 8.0, 5.0),
        (nut(part="heat-set insert", body_mm=6.17), 5.0, 6.17, 5.0),
        (nut(part="clip nut"), 5.0, 7.0, 5.0),
        (nut(part="tee nut", body_mm=6.8), 5.0, 7.0, 5.0),
        (replace(JOINT, receiver=None), 5.0, 5.0, 5.0),
        (replace(JOINT, screw=None), 7.0, 7.0, 7.0),
        (replace(JOINT, screw=None, hole=None, receiver=changed(NUT, part="hexagon nut", body_mm=6.0)), 6.0, 6.0, 6.0),
    ],
)
def test_what_bears_on_the_sheet(joint: Joint, bears: float, spaced: float, shank: float) -> None:
    """The body that fills the hole, else the screw; spacing counts from the outside of an insert, barrel or clip."""
    assert (bearing_diameter_mm(joint) if joint.hole is not None else bears) == bears
    assert (spaced_mm(joint), shaft_mm(joint)) == (spaced, shank)


def test_what_bears_on_the_item_and_behind() -> None:
    """The outermost washer under the head, not one behind; else the head; without a screw the flange."""
    wide = replace(HEAD, outer_mm=18.0)
    assert head_mm(JOINT) == 9.5
    assert head_mm(replace(JOINT, washers=(HEAD, LARGE))) == 10.0
    assert head_mm(replace(JOINT, washers=(wide, HEAD, LARGE))) == 10.0
    assert head_mm(replace(JOINT, screw=None)) == 10.0
    assert behind_mm(JOINT) == 9.6
    assert behind_mm(replace(JOINT, washers=(wide,))) == 9.6
    assert behind_mm(replace(JOINT, washers=(LARGE,))) == 15.0
    assert behind_mm(replace(nut(bulge_mm=None), washers=(LARGE,))) == 15.0
    assert behind_mm(replace(JOINT, receiver=None)) == 0.0


# -- sheet ------------------------------------------------------------------------------------------------------------


def test_bearing_by_the_edge_that_was_told_or_asked() -> None:
    """EN 1993-1-3 table 8.4: 2.5 alpha kt fu d t, kt = (0.8² + 1.5)/2.5 = 0.856; alpha = 14/21 at an edge of 14."""
    full_n = 2.5 * 0.856 * tensile("steel") * 7.0 * 0.8
    assert load(modes.SHEET_BEARING, JOINT, replace(STEEL, edge_mm=14.0)) == pytest.approx(full_n * 14 / 21)
    assert load(modes.SHEET_BEARING, JOINT, replace(STEEL, edge_mm=40.0)) == pytest.approx(full_n)
    asked = modes.SHEET_BEARING.capacity(JOINT, replace(STEEL, edge_mm=None), TABLES)
    assert inputs(asked)["edge distance"] == 21.0
    assert asked.load_n == pytest.approx(full_n)


def test_aluminium_bears_by_the_lower_of_two_rules() -> None:
    """EN 1999-1-4 with both sheets alike: 2.5 sqrt(t/d) up to 1.5, fu up to 260; against the steel clause."""
    fu = tensile("aluminium")
    own_n = min(2.5 * sqrt(0.8 / 7.0), 1.5) * min(fu, 260.0) * 7.0 * 0.8
    assert own_n < 2.5 * 0.856 * fu * 7.0 * 0.8
    found = modes.SHEET_BEARING.capacity(JOINT, ALLOY, TABLES)
    assert found.load_n == pytest.approx(own_n)
    assert found.formula != modes.SHEET_BEARING.capacity(JOINT, STEEL, TABLES).formula
    thin = replace(JOINT, sheet_mm=6.0)
    assert load(modes.SHEET_BEARING, thin, replace(ALLOY, edge_mm=7.0)) == pytest.approx(
        min(2.5 * (7 / 21) * fu, 1.5 * min(fu, 260.0)) * 7.0 * 6.0
    )


def test_a_tapping_screw_pulls_out() -> None:
    """AISI E4.4.1: 0.85 t d Fu; EN 1993-1-3: 0.45 under one pitch; aluminium EN 1999-1-4: 0.95 fu sqrt(t³ d)."""
    fu, alloy = tensile("steel"), tensile("aluminium")
    assert load(modes.PULL_OUT, TAPPING) == pytest.approx(0.85 * 0.8 * 4.8 * fu)
    assert load(modes.PULL_OUT_EN, TAPPING) == pytest.approx(0.45 * 0.8 * 4.8 * fu)
    own_n = 0.95 * alloy * sqrt(0.8**3 * 4.8)
    for mode, share in ((modes.PULL_OUT, 0.85), (modes.PULL_OUT_EN, 0.45)):
        assert load(mode, TAPPING, ALLOY) == pytest.approx(min(share * 0.8 * 4.8 * alloy, own_n))
        steel, aluminium = (mode.capacity(TAPPING, mount, TABLES) for mount in (STEEL, ALLOY))
        assert steel.formula != aluminium.formula
        thick = replace(TAPPING, sheet_mm=3.0)
        assert load(mode, thick, ALLOY) == pytest.approx(
            min((0.85 if share == 0.85 else 0.65) * 3.0 * 4.8 * alloy, 0.95 * alloy * sqrt(27.0 * 4.8))
        )


def test_a_tapping_screw_tilts() -> None:
    """AISI E4.3.1, item 0.8 on 0.8 sheet: 4.2 sqrt(t³ d) Fu. A soft item is proved by its own mode."""
    fu = tensile("steel")
    alike = replace(STEEL, item_thickness_mm=0.8)
    tilts_n = 4.2 * sqrt(0.8**3 * 4.8) * fu
    assert load(modes.TAPPING_SHEAR, TAPPING, alike) == pytest.approx(min(tilts_n, 2.7 * 4.8 * 0.8 * fu))
    for soft in ("mdf", "pine"):
        found = modes.TAPPING_SHEAR.capacity(TAPPING, replace(alike, item_material=soft), TABLES)
        assert found.load_n == pytest.approx(min(tilts_n, 2.7 * 4.8 * 0.8 * fu))
    weak = modes.TAPPING_SHEAR.capacity(TAPPING, replace(alike, item_material="abs", item_thickness_mm=0.3), TABLES)
    assert inputs(weak)["strength of abs"] == tensile("abs")
    assert weak.load_n == pytest.approx(2.7 * 4.8 * 0.3 * tensile("abs"))


def test_the_weaker_and_the_thinner_of_both_sheets_bear() -> None:
    """EN 1993-1-3 tables 8.1 and 8.2: 3.6 or 3.2 sqrt(t/d) x fu d t, up to 2.1 in a far thicker second sheet."""
    fu, alloy = tensile("steel"), tensile("aluminium")
    alike = replace(STEEL, item_thickness_mm=0.8)
    assert load(rivet_modes.RIVET_BEARING, RIVET, alike) == pytest.approx(3.6 * sqrt(0.8 / 4) * fu * 4.0 * 0.8)
    assert load(rivet_modes.RIVET_BEARING, RIVET, replace(STEEL, item_thickness_mm=0.5)) == pytest.approx(
        (3.6 * sqrt(0.5 / 4) + (2.1 - 3.6 * sqrt(0.5 / 4)) * 0.6 / 1.5) * fu * 4.0 * 0.5
    )
    weak = rivet_modes.RIVET_BEARING.capacity(RIVET, replace(alike, item_material="aluminium"), TABLES)
    assert weak.load_n == pytest.approx(3.6 * sqrt(0.8 / 4) * min(fu, alloy) * 4.0 * 0.8)
    assert load(modes.TAPPING_BEARING_EN, TAPPING, alike) == pytest.approx(3.2 * sqrt(0.8 / 4.8) * fu * 4.8 * 0.8)
    own = modes.TAPPING_BEARING_EN.capacity(TAPPING, replace(ALLOY, item_thickness_mm=0.8), TABLES)
    assert own.load_n == pytest.approx(2.5 * sqrt(0.8 / 4.8) * min(alloy, 260.0) * 4.8 * 0.8)
    assert own.formula != modes.TAPPING_BEARING_EN.capacity(TAPPING, alike, TABLES).formula
    far = modes.TAPPING_BEARING_EN.capacity(TAPPING, replace(ALLOY, item_thickness_mm=3.0), TABLES)
    assert far.load_n == pytest.approx(min(3.2 * sqrt(0.8 / 4.8) * alloy, 1.5 * min(alloy, 260.0)) * 4.8 * 0.8)


# -- the screw and what its table rates -------------------------------------------------------------------------------


def test_the_screw() -> None:
    """ISO 898-1 and EN 1993-1-8 table 3.4, M5, 14.2 mm²: 8.8 has 800 and 580 MPa, 10.9 shears at half."""
    assert load(modes.SCREW_TENSION, JOINT) == pytest.approx(0.9 * 800.0 * 14.2)
    assert load(modes.SCREW_PROOF, JOINT) == pytest.approx(580.0 * 14.2)
    assert load(modes.SCREW_SHEAR, JOINT) == pytest.approx(0.6 * 800.0 * 14.2)
    hard = replace(JOINT, screw=replace(SCREW, class_="10.9"))
    found = modes.SCREW_SHEAR.capacity(hard, STEEL, TABLES)
    assert inputs(found)["shear share"] == 0.5
    assert found.load_n == pytest.approx(0.5 * inputs(found)["screw strength"] * 14.2)
    stainless = modes.SCREW_PROOF.capacity(replace(JOINT, screw=replace(SCREW, class_="A2-70")), STEEL, TABLES)
    assert inputs(stainless)["proof stress"] == 450.0  # ISO 3506-1: 0.2 % stress, no proof load is tabled
    assert stainless.load_n == pytest.approx(450.0 * 14.2)


def test_what_a_table_rates_is_taken_as_it_stands() -> None:
    assert load(modes.RECEIVER_THREAD, JOINT) == 7000.0
    assert (load(rivet_modes.RIVET_SHEAR, RIVET), load(rivet_modes.RIVET_TENSION, RIVET)) == (700.0, 900.0)


# -- the item ---------------------------------------------------------------------------------------------------------


def test_the_item_under_the_head_and_beside_the_shank() -> None:
    """EN 1993-1-3 dw t fu; its edge is assumed at 1.5 d, so alpha = 0.5; 3 mm is thick, kt = 1."""
    fu = tensile("steel")
    assert load(item_modes.PULL_OVER, JOINT) == pytest.approx(9.5 * 3.0 * fu)
    found = item_modes.BEARING.capacity(JOINT, STEEL, TABLES)
    assert inputs(found)["edge of the item, assumed"] == 7.5
    assert found.load_n == pytest.approx(2.5 * 0.5 * fu * 5.0 * 3.0)


@pytest.mark.parametrize(
    ("item", "head", "shank"),
    [
        ("steel", item_modes.PULL_OVER, item_modes.BEARING),
        ("mdf", item_modes.PRESSURE, item_modes.BOARD_BEARING),
        ("pine", item_modes.PRESSURE, item_modes.BOARD_BEARING),
        ("abs", item_modes.PRESSURE, item_modes.PLASTIC_BEARING),
        ("fibreglass", item_modes.PRESSURE, item_modes.PLASTIC_BEARING),
    ],
)
def test_how_an_item_gives_way(item: str, head: Mode, shank: Mode) -> None:
    assert item_modes.through_item(replace(STEEL, item_material=item), TABLES) == (head, shank)
    assert bool(shank.apart) == (shank is not item_modes.BEARING)
    assert shank.apart or isinstance(shank.family.law, NotJoined)


@pytest.mark.parametrize(("item", "mpa"), [("mdf", 10.0), ("pine", 10.0), ("abs", 10.0), ("fibreglass", 10.0)])
def test_a_soft_item_is_pressed_to_ten_megapascals(item: str, mpa: float) -> None:
    """On the ring of a head of 9.5 over a hole of 5.5 (common practice, no source)."""
    found = item_modes.PRESSURE.capacity(JOINT, replace(STEEL, item_material=item), TABLES)
    assert found.load_n == pytest.approx(mpa * pi / 4 * (9.5**2 - 5.5**2))


@pytest.mark.parametrize(
    ("item", "by_hand"),
    [
        ("mdf", lambda _density: 65 * 5.0**-0.7 * 3.0**0.1),
        ("plywood", lambda density: 0.11 * 1000 * density * 5.0**-0.3),
        ("pine", lambda density: 0.082 * 0.95 * 1000 * density),
    ],
)
def test_a_hole_in_a_board_item_is_pressed_long(item: str, by_hand: object) -> None:
    """EN 1995-1-1 8.3.1.1 and 8.3.1.3, over all of 3 mm, d = 5."""
    row = TABLES.find(MATERIALS, item)
    assert row is not None
    assert callable(by_hand)
    found = load(item_modes.BOARD_BEARING, JOINT, replace(STEEL, item_material=item))
    assert found == pytest.approx(by_hand(row.density_g_cm3) * 3.0 * 5.0)


# -- demands and lines ------------------------------------------------------------------------------------------------


def test_patterns_become_places() -> None:
    assert positions_mm(Pattern("row", 50.0, None), 2) == ((-25.0, 0.0), (25.0, 0.0))
    assert positions_mm(Pattern("circle", 50.0, None), 2)[0] == pytest.approx((0.0, 25.0))
    assert positions_mm(Pattern("rectangle", 50.0, 30.0), 2) == ((-25.0, -15.0), (25.0, 15.0))


def test_a_case_is_chosen_and_the_hard_stop_where_none_is() -> None:
    """The road and its own weight always; EN 1789 in place of the hard stop, both by the table."""
    assert {each.case for each in demands(MOUNT, TABLES)} == {"road", "standing", "hard-stop"}
    assert {each.case for each in demands(replace(MOUNT, case="ambulance"), TABLES)} == {
        "road",
        "standing",
        "ambulance",
    }


def test_a_single_fixing_levers_on_the_foot_of_its_item() -> None:
    """2 x the hole of 5.5 is the lever: 1 kg at 30 mm, 20 g across tips with 9.80665 x 20 x 30 / 11 N."""
    forward = [each for each in demands(replace(MOUNT, fixings=1, pattern=None), TABLES) if each.load == "forward"]
    assert forward[0].tension_n == pytest.approx(9.80665 * 20 * 30 / 11)


@pytest.mark.parametrize(
    ("demand", "allowable", "used", "status"),
    [
        (1.0, 2.0, 0.5, Status.HOLDS), (2.0, 2.0, 1.0, Status.HOLDS), (2.1, 2.0, 1.05, Status.FAILS),
        (0.4, 0.8, 0.5, Status.HOLDS), (0.0, 0.0, 0.0, Status.HOLDS), (-1.0, 0.0, 0.0, Status.HOLDS),
        (0.5, 0.0, float("inf"), Status.FAILS), (0.5, -1.0, float("inf"), Status.FAILS),
    ],
)  # fmt: skip
def test_how_far_a_line_is_used(demand: float, allowable: float, used: float, status: Status) -> None:
    """Nothing asked of nothing is not used; anything asked of nothing is used without end."""
    check = at_most("x", "X", demand, allowable, "mm", (), "a <= b", ())
    assert check.utilisation == pytest.approx(used)
    assert check.status is status


@pytest.mark.parametrize(("size", "text"), [(12.0, "12.0 mm"), (12.01, "12.1 mm"), (12.1, "12.1 mm"), (0.3, "0.3 mm")])
def test_a_needed_size_is_rounded_up_to_a_tenth(size: float, text: str) -> None:
    assert up(size) == text
    assert up(size + 1e-9) == text
