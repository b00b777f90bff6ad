"""Plastic, the stop in foam and threads that are there already, by hand on joints built here.

Rules of the tables, common practice: a boss of two outsides of an insert, 2.5 holes to an edge of plastic and 3 of
laminate, a margin of 1 mm over what must not slip through, half of the low-end strength left in a parked car.
"""

from dataclasses import replace
from math import pi, sqrt

import pytest
from built.receivers import changed, receiver

from fasten.catalog.materials import MATERIALS
from fasten.model import (
    Between,
    Boss,
    Check,
    Demand,
    Input,
    Joint,
    JointKind,
    Layer,
    MountPoint,
    Panel,
    Pattern,
    Position,
    StackPart,
    Status,
    Where,
    kinds,
)
from fasten.proof.fit import factory as factory_fit
from fasten.proof.fit import limiter as limiter_fit
from fasten.proof.modes import plastic as plastic_modes
from fasten.proof.modes.mode import Needed
from fasten.proof.modes.shank import MAKER_LOAD
from fasten.proof.torque.limits import no_more_limits, upper_limits
from fasten.proof.torque.tightening import ByFeel, NotTightened, Window, window

from .built_joint import HOLE, JOINT, MOUNT, NUT, SCREW, TABLES, fit_only, own_lines

COOL = replace(MOUNT, material="abs", thickness_min_mm=3.0, thickness_max_mm=3.0, where=Where.UNDERFLOOR)
HOT = replace(COOL, where=Where.CABIN)
BOSSED = replace(COOL, boss=Boss(12.0, 14.0))
FORMED = replace(
    JOINT, method="thread_forming_screw", kind=JointKind.LOCATED, receiver=None, sheet_mm=3.0,
    screw=replace(SCREW, kind=kinds.PLASTIC_SCREW, diameter_mm=4.0, pitch_mm=1.8, engagement_mm=8.0),
    hole=replace(HOLE, diameter_mm=3.2, depth_mm=10.0),
)  # fmt: skip
_PART = changed(NUT, grip_mm=None, thread_proof_n=None, breaking_nm=None, spin_out_nm=None, bulge_mm=None)
INSERT = replace(
    FORMED, method="heat_set_insert",
    receiver=changed(_PART, part="heat-set insert", length_mm=7.0, body_mm=5.6, flange_mm=None),
)  # fmt: skip
CLIP = replace(FORMED, method="clip_nut", receiver=changed(_PART, part="clip nut", body_mm=None, reach_mm=15.0))
RIVETED = replace(JOINT, sheet_mm=3.0)


def low_mpa(name: str) -> float:
    row = TABLES.find(MATERIALS, name)
    assert row is not None
    return min(value for value in (row.yield_mpa, row.ultimate_mpa) if value is not None)


def lines(joint: Joint, mount: MountPoint) -> dict[str, Check]:
    return own_lines(joint, mount)


def given(inputs: tuple[Input, ...]) -> dict[str, float]:
    return {part.name: part.value for part in inputs}


# -- does it fit in plastic -------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("joint", "mount", "expected"),
    [
        (FORMED, BOSSED, {"boss", "boss-depth"}),
        (FORMED, COOL, {"edge-distance", "boss-depth"}),
        (INSERT, BOSSED, {"boss", "boss-depth", "jacking-out"}),
        (CLIP, replace(COOL, edge_mm=10.0), {"edge-distance", "clip-reach", "rated-torque"}),
        (RIVETED, COOL, {"edge-distance", "jacking-out", "water-behind"}),
        (RIVETED, MOUNT, {"edge-distance", "jacking-out", "water-behind"}),
    ],
)
def test_what_is_asked_of_a_joint_in_plastic(joint: Joint, mount: MountPoint, expected: set[str]) -> None:
    assert set(lines(joint, mount)) == expected


def test_whose_edge_it_is() -> None:
    """Plastic counts from the hole by its own ratio, sheet by that of the joint, a clip from the edge it slides on."""
    plastic, sheet = own_lines(RIVETED, COOL)["edge-distance"], own_lines(RIVETED, MOUNT)["edge-distance"]
    assert (plastic.formula, sheet.formula) == ("ratio x hole <= edge distance", "ratio x diameter <= edge distance")
    assert "clip-reach" in own_lines(CLIP, replace(MOUNT, edge_mm=10.0))


def test_a_boss_round_an_insert_and_round_a_screw() -> None:
    """2 x 5.6 is 11.2; a screw of 4 in ABS asks 2 x 4, in PC 2.5 x 4; in solid plastic half of it to an edge."""
    assert lines(INSERT, BOSSED)["boss"].demand == pytest.approx(11.2)
    assert lines(INSERT, replace(BOSSED, boss=Boss(11.2, 14.0)))["boss"].status is Status.HOLDS
    assert lines(INSERT, replace(BOSSED, boss=Boss(11.1, 14.0)))["boss"].status is Status.FAILS
    assert given(lines(INSERT, BOSSED)["boss"].inputs) == {"ratio": 2.0, "outside of the insert": 5.6, "boss": 12.0}
    assert given(lines(FORMED, BOSSED)["boss"].inputs) == {"ratio": 2.0, "screw": 4.0, "boss": 12.0}
    in_pc = replace(BOSSED, material="pc")
    assert (lines(FORMED, in_pc)["boss"].demand, lines(INSERT, in_pc)["boss"].demand) == pytest.approx((10.0, 11.2))
    solid = replace(COOL, edge_mm=4.0)
    assert (lines(FORMED, solid)["edge-distance"].demand, lines(FORMED, solid)["edge-distance"].allowable) == (4.0, 4.0)
    assert lines(FORMED, replace(COOL, edge_mm=3.9))["edge-distance"].status is Status.FAILS
    open_ = lines(FORMED, replace(COOL, edge_mm=None))["edge-distance"]
    assert (open_.status, open_.needs) == (Status.NOT_CHECKED, "needs 4.0 mm from hole centre to any edge")


@pytest.mark.parametrize(
    ("boss", "status", "known"),
    [
        (Boss(12.0, 10.0), Status.HOLDS, 10.0), (Boss(12.0, 9.9), Status.FAILS, 9.9),
        (Boss(12.0, None), Status.NOT_CHECKED, None), (None, Status.FAILS, 3.0),
    ],
)  # fmt: skip
def test_the_hole_stays_within_what_can_be_drilled(boss: Boss | None, status: Status, known: float | None) -> None:
    """10 deep, in a boss as deep as was told, else in the plastic itself."""
    check = lines(FORMED, replace(COOL, boss=boss))["boss-depth"]
    assert (check.demand, check.allowable, check.status) == (10.0, known, status)
    if known is None:
        assert check.needs == "needs a boss that can be drilled 10.0 mm deep"


def test_an_insert_is_wider_than_the_opening_over_it() -> None:
    """5.6 covers 4.6 and a margin of 1."""
    assert lines(INSERT, replace(BOSSED, item_hole_mm=4.6))["jacking-out"].status is Status.HOLDS
    assert lines(INSERT, replace(BOSSED, item_hole_mm=4.7))["jacking-out"].status is Status.FAILS


def test_edges_of_plastic_and_laminate_and_a_clip() -> None:
    """2.5 x 7 in plastic, 3 x 7 in laminate; a clip's hole 3.2: 2.5 of plastic, 1.5 of sheet, within a reach of 15."""
    assert lines(RIVETED, COOL)["edge-distance"].demand == pytest.approx(17.5)
    assert lines(RIVETED, replace(COOL, material="fibreglass"))["edge-distance"].demand == pytest.approx(21.0)
    on_plastic, on_steel = replace(COOL, edge_mm=15.0), replace(MOUNT, edge_mm=15.0)
    assert lines(CLIP, on_plastic)["edge-distance"].demand == pytest.approx(8.0)
    assert lines(CLIP, on_steel)["edge-distance"].demand == pytest.approx(4.8)
    assert lines(CLIP, on_steel)["clip-reach"].status is Status.HOLDS
    assert lines(CLIP, replace(MOUNT, edge_mm=15.1))["clip-reach"].status is Status.FAILS


def _tightened(joint: Joint, mount: MountPoint, loads: tuple[Demand, ...]) -> type:
    method = fit_only(joint)
    return type(method.torque(joint, mount, loads, method.limits, TABLES))


def test_what_only_its_box_says() -> None:
    """Its torque is open until it is told; what is snapped in is not tightened. Its pull is a way to fail."""
    told = replace(CLIP, receiver=changed(CLIP.receiver or NUT, thread_proof_n=500.0, torque_nm=1.0))
    mount = replace(COOL, edge_mm=10.0)
    assert "rated-torque" not in lines(told, mount)
    snapped = replace(CLIP, method="push_in_clip", receiver=changed(_PART, part="push-in clip"))
    assert set(lines(snapped, mount)) == {"edge-distance"}
    torque = lines(CLIP, mount)["rated-torque"]
    assert (torque.status, torque.demand, torque.unit, torque.needs) == (
        Status.NOT_CHECKED, None, "N·m", "needs the torque its box gives",
    )  # fmt: skip
    pull = plastic_modes.RATED_PULL.find(snapped, mount, TABLES)
    assert pull == Needed("the pull its box gives", "value of its box", snapped.from_)
    assert plastic_modes.RATED_PULL.capacity(told, mount, TABLES).load_n == 500.0
    loads = (Demand("road", "service", "built", Panel.FLOOR, 1.0, 1.0, (), "built"),)
    told_so = {joint.method: _tightened(joint, mount, loads) for joint in (told, FORMED, RIVETED)}
    assert told_so == {"clip_nut": Window, "thread_forming_screw": ByFeel, "rivet_nut": Window}
    assert _tightened(CLIP, mount, loads) is ByFeel
    assert _tightened(replace(RIVETED, method="factory_thread"), mount, loads) is ByFeel
    assert _tightened(replace(RIVETED, method="blind_rivet"), mount, loads) is NotTightened


# -- what plastic bears -----------------------------------------------------------------------------------------------


def test_half_is_left_in_a_parked_car() -> None:
    """Low end of yield and strength; under the floor all of it."""
    assert plastic_modes.strength_mpa(COOL, TABLES)[0] == low_mpa("abs")
    hot, inputs, sources = plastic_modes.strength_mpa(HOT, TABLES)
    assert hot == pytest.approx(0.5 * low_mpa("abs"))
    assert given(inputs) == {"low-end strength of abs": low_mpa("abs"), "share left in heat": 0.5}
    assert len(sources) == 2
    assert plastic_modes.strength_mpa(replace(HOT, where=Where.DOOR), TABLES)[0] == hot


def test_pulled_out_of_its_boss() -> None:
    """pi D L s / sqrt 3: of a screw of 4 in 3.2 the mean, 3.6, over 8; of an insert its own 5.6 over 7."""
    shear_mpa = low_mpa("abs") / sqrt(3)
    assert plastic_modes.PULL_OUT.capacity(FORMED, BOSSED, TABLES).load_n == pytest.approx(pi * 3.6 * 8.0 * shear_mpa)
    assert plastic_modes.PULL_OUT.capacity(INSERT, BOSSED, TABLES).load_n == pytest.approx(pi * 5.6 * 7.0 * shear_mpa)


@pytest.mark.parametrize(
    ("joint", "wide", "deep"),
    [
        (FORMED, 4.0, 4.0),
        (replace(FORMED, screw=replace(SCREW, kind=kinds.PLASTIC_SCREW, diameter_mm=4.0, engagement_mm=2.5)), 4.0, 2.5),
        (INSERT, 5.6, 5.6),
        (RIVETED, 7.0, 3.0),
        (replace(RIVETED, receiver=changed(NUT, body_mm=None)), 7.0, 3.0),
        (replace(RIVETED, receiver=None), 5.0, 3.0),
        (replace(RIVETED, receiver=changed(NUT, part="hexagon nut", body_mm=9.0)), 5.0, 3.0),
    ],
)
def test_what_presses_sideways(joint: Joint, wide: float, deep: float) -> None:
    """In a boss the first diameter at most; all of a sheet, by the body that fills the hole, else by the screw."""
    assert (plastic_modes.bearing_mm(joint), plastic_modes.bearing_depth_mm(joint)) == (wide, deep)


# -- the stop in foam -------------------------------------------------------------------------------------------------

STOP = StackPart("sleeve", "M5", Position.LIMITER, 5.3, 10.0, 3.0)
STOPPED = replace(JOINT, kind=JointKind.LOCATED, washers=(STOP,))
ON_SCREW = replace(STOPPED, receiver=None)
ON_FOAM = replace(MOUNT, between=Between("foam", 5.0))


@pytest.mark.parametrize(
    ("joint", "under"),
    [
        (STOPPED, 0.0),  # a rivet nut's flange
        (replace(STOPPED, receiver=changed(_PART, part="heat-set insert")), 0.0),
        (replace(STOPPED, hole=None), 0.0),
        (ON_SCREW, 7.2),
        (replace(STOPPED, receiver=changed(_PART, part="screw-in insert", body_mm=8.0)), 8.0),
        (replace(STOPPED, receiver=changed(_PART, part="screw-in insert", body_mm=6.0)), 7.2),
        (replace(STOPPED, receiver=changed(_PART, part="tee nut", body_mm=9.0)), 7.2),
    ],
)
def test_what_a_stop_must_span_below(joint: Joint, under: float) -> None:
    """The hole at its widest, 7.0 + 0.2, or an insert sunk in it; a flange on the near side is metal."""
    assert limiter_fit.opening_under_mm(joint) == pytest.approx(under)


def test_a_stop_is_wider_than_the_holes_over_and_under_it() -> None:
    """The item's 5.5 or 7.2 below, and a margin of 1."""

    def cover(joint: Joint, outer_mm: float) -> Check:
        return limiter_fit.checks(replace(joint, washers=(replace(STOP, outer_mm=outer_mm),)), MOUNT, TABLES)[0]

    assert cover(STOPPED, 6.5).demand == 6.5
    assert [cover(STOPPED, outer).status for outer in (6.5, 6.4)] == [Status.HOLDS, Status.FAILS]
    assert [cover(ON_SCREW, outer).status for outer in (8.2, 8.1)] == [Status.HOLDS, Status.FAILS]
    assert limiter_fit.checks(JOINT, MOUNT, TABLES) == ()


def test_what_lies_open_over_a_receiver() -> None:
    rigid = replace(STOP, place=Position.BETWEEN, hole_mm=5.4)
    assert limiter_fit.opening_over_mm(JOINT, MOUNT) == 5.5
    assert limiter_fit.opening_over_mm(STOPPED, MOUNT) == 5.3
    assert limiter_fit.opening_over_mm(replace(STOPPED, washers=(rigid, STOP)), MOUNT) == 5.4


@pytest.mark.parametrize(
    ("pattern", "fixings", "along_mm"),
    [
        (Pattern("row", 80.0, None), 2, 80.0), (Pattern("circle", 140.0, None), 4, 140.0 * pi / 4),
        (Pattern("rectangle", 200.0, 100.0), 6, 100.0),
    ],
)  # fmt: skip
def test_foam_pushes_back(pattern: Pattern, fixings: int, along_mm: float) -> None:
    """A strip 15 mm wide at 0.028 MPa along the share of the outline; around one fixing nothing is known."""
    mount = replace(ON_FOAM, pattern=pattern, fixings=fixings)
    push_n, inputs, sources = limiter_fit.foam_push(mount, TABLES)
    assert push_n == pytest.approx(along_mm * 15.0 * 0.028)
    assert given(inputs)["foam a fixing"] == pytest.approx(along_mm)
    assert sources
    assert limiter_fit.foam_push(replace(mount, between=None), TABLES) == (0.0, (), ())
    assert limiter_fit.foam_push(replace(ON_FOAM, pattern=None, fixings=1), TABLES) == (0.0, (), ())


def test_around_a_single_fixing_nobody_knows_the_foam_and_it_stays_open() -> None:
    alone = replace(ON_FOAM, pattern=None, fixings=1)
    open_ = lines_of_stop(STOPPED, alone)["stop-seated"]
    assert open_.status is Status.NOT_CHECKED
    assert open_.needs == "needs a look all round once tight: the item must lie on its compression limiter"
    assert set(lines_of_stop(STOPPED, replace(alone, pattern=Pattern("row", 80.0, None), fixings=2))) == {"stop-cover"}
    assert lines_of_stop(JOINT, alone) == {}, "without foam nothing holds it off"
    assert set(lines_of_stop(replace(STOPPED, screw=None), alone)) == {"stop-cover"}, "what is not tightened"


def lines_of_stop(joint: Joint, mount: MountPoint) -> dict[str, Check]:
    return {check.id: check for check in limiter_fit.checks(joint, mount, TABLES)}


def test_seated_on_its_stop() -> None:
    """Zinc 0.20 dry, scatter 0.35: K d (1.2 T + push) / 0.65, push 105 x 15 x 0.028 of 240 x 180 in four."""
    loads = (Demand("road", "service", "built", Panel.FLOOR, 10.0, 50.0, (), "built"),)
    mount = replace(ON_FOAM, pattern=Pattern("rectangle", 240.0, 180.0))
    found = window(STOPPED, mount, loads, no_more_limits, TABLES)
    push_n = 840 / 4 * 15.0 * 0.028
    assert found.lower_nm == pytest.approx(0.20 * 5.0 * (60.0 + push_n) / 0.65 / 1000)
    assert found.lower_formula == "seated on the limiter: K d (separation x T + push x width x foam) / (1 - scatter)"
    assert "foam a fixing" in given(found.inputs)


@pytest.mark.parametrize(
    ("item", "material", "joint", "rings"),
    [
        ("steel", "steel", ON_SCREW, {}),
        ("mdf", "steel", ON_SCREW, {"pressure of the limiter on the item": 5.5}),
        ("steel", "mdf", ON_SCREW, {"pressure of the limiter on what is under it": 7.2}),
        ("steel", "mdf", STOPPED, {}),  # it stands on a flange
        ("mdf", "mdf", replace(JOINT, washers=()), {}),
    ],
)
def test_soft_stuff_at_the_stop_bears_the_whole_clamp(
    item: str, material: str, joint: Joint, rings: dict[str, float]
) -> None:
    """10 MPa on the ring of 10 over the wider of both holes."""
    found = dict(limiter_fit.pressed(joint, replace(COOL, item_material=item, material=material), TABLES))
    assert {name: held.load_n for name, held in found.items()} == pytest.approx(
        {name: 10.0 * pi / 4 * (100.0 - hole_mm**2) for name, hole_mm in rings.items()}
    )


# -- torque -----------------------------------------------------------------------------------------------------------


def limits(joint: Joint, mount: MountPoint) -> dict[str, float]:
    own = fit_only(joint).limits(joint, mount, 0.2, TABLES)
    return {found.name: found.torque_nm for found in (*upper_limits(joint, mount, 0.2, 0.25, TABLES), *own)}


def test_what_the_substrate_bears_of_a_clamp() -> None:
    """K d F: half of an insert's pull-out; 10 MPa behind, scatter against it; nothing where nothing bears behind."""
    shear_mpa = low_mpa("abs") / sqrt(3)
    held = limits(INSERT, BOSSED)
    assert held["pull-out of the insert"] == pytest.approx(0.2 * 4.0 * 0.5 * pi * 5.6 * 7.0 * shear_mpa / 1000)
    bulge = limits(RIVETED, COOL)
    assert bulge["pressure of the bulge behind"] == pytest.approx(0.2 * 5 * 10.0 * _ring(9.6) / 1.25 / 1000)
    washer = StackPart("ISO 7093-1", "M5", Position.NUT, 5.3, 15.0, 1.0)
    washed = replace(RIVETED, receiver=None, washers=(replace(washer, place=Position.HEAD), washer))
    assert limits(washed, COOL)["pressure of the washer behind"] == pytest.approx(
        0.2 * 5 * 10.0 * _ring(15.0) / 1.25 / 1000
    )
    under_head = replace(RIVETED, washers=(replace(washer, place=Position.HEAD),))
    assert {name for name in limits(under_head, COOL) if "behind" in name} == {"pressure of the bulge behind"}
    behind_only = replace(washed, washers=(washer,))
    assert {name for name in limits(behind_only, COOL) if "behind" in name} == {"pressure of the washer behind"}
    assert not [name for name in limits(replace(RIVETED, receiver=None), COOL) if "behind" in name]
    assert not [name for name in limits(RIVETED, MOUNT) if "behind" in name]


def _ring(outer_mm: float) -> float:
    return pi / 4 * (outer_mm**2 - 7.2**2)


def test_what_board_bears_of_a_clamp() -> None:
    """Half of an insert's withdrawal; behind a bolt 10 MPa on its washer."""
    board = replace(ON_FOAM, material="mdf")
    insert = replace(INSERT, method="screw_in_insert", receiver=changed(_PART, part="screw-in insert", body_mm=8.0))
    assert "withdrawal of the sunk insert" in limits(replace(insert, sheet_mm=18.0), board)
    assert "pressure behind the board" not in limits(replace(insert, sheet_mm=18.0), board)
    washer = StackPart("ISO 7093-1", "M5", Position.NUT, 5.3, 15.0, 1.0)
    bolted = replace(JOINT, method="through_bolt", receiver=None, washers=(washer,), sheet_mm=18.0)
    assert limits(bolted, board)["pressure behind the board"] == pytest.approx(
        0.2 * 5 * 10.0 * _ring(15.0) / 1.25 / 1000
    )
    assert not [name for name in limits(replace(bolted, hole=None), board) if "board" in name]


# -- threads that are there already -----------------------------------------------------------------------------------

STUD = receiver(
    part="hexagon nut", series="built", thread="M6", length_mm=5.0, grip_mm=None, material="steel", flange_mm=None,
    flange_thickness_mm=None, body_mm=None, bulge_mm=None, thread_proof_n=None, shear_n=None, breaking_nm=None,
    spin_out_nm=None, spin_out_sheet_mm=None, prevailing_nm=None, from_="built",
)  # fmt: skip
THERE = replace(
    JOINT, method="factory_thread", receiver=None, hole=None,
    layers=(Layer("washer", "steel", 1.0), Layer("item", "steel", 3.0), Layer("substrate", "steel", 0.8)),
)  # fmt: skip


def test_a_thread_there_leaves_open_what_nobody_can_see() -> None:
    """A screw of 12 over 4 of washer and item goes 8 deep; on a stud 4, a nut of 5 and a pitch of 1.0 make 10."""
    found = {check.id: check for check in factory_fit.checks(THERE, replace(ON_FOAM, behind_mm=None), TABLES)}
    assert set(found) == {"thread-depth"}
    assert {check.status for check in found.values()} == {Status.NOT_CHECKED}
    assert (found["thread-depth"].demand, given(found["thread-depth"].inputs)) == (
        8.0, {"screw": 12.0, "what lies on the panel": 4.0},
    )  # fmt: skip
    assert found["thread-depth"].needs == "needs a thread that lets the screw 8.0 mm in, past the panel's face"
    stud = replace(THERE, screw=None, receiver=STUD)
    on_stud = {check.id: check for check in factory_fit.checks(stud, MOUNT, TABLES)}
    assert set(on_stud) == {"stud-length"}
    assert on_stud["stud-length"].demand == 10.0
    assert on_stud["stud-length"].needs == "needs a stud that stands out 10.0 mm"
    waits = MAKER_LOAD.find(stud, MOUNT, TABLES)
    assert isinstance(waits, Needed)
    assert waits.what == "what the vehicle maker made it for (load and torque)"


@pytest.mark.parametrize(("behind_mm", "status"), [(12.0, Status.HOLDS), (11.9, Status.FAILS)])
def test_space_behind_a_thread_there(behind_mm: float, status: Status) -> None:
    found = {check.id: check for check in factory_fit.checks(THERE, replace(ON_FOAM, behind_mm=behind_mm), TABLES)}
    assert (found["space-behind"].demand, found["space-behind"].status) == (12.0, status)
