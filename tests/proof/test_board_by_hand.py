"""Board by hand: each line of fit at its limit, and which figures go into each capacity, on joints built here.

Rules of the tables, common practice: 12 mm to an edge, 25 mm to a corner, 70 mm along an edge, 1.5 and 0.5 outer
diameters beside an insert, 4 diameters for a bolt, 2 mm of board behind a screw and 3 mm behind an insert.
"""

from dataclasses import replace
from itertools import islice
from math import pi, sqrt

import pytest
from built.receivers import changed

from fasten.catalog.materials import FINISHES
from fasten.catalog.practice import TIGHTENING
from fasten.model import (
    Check,
    Into,
    Joint,
    JointKind,
    MountPoint,
    Outline,
    Pattern,
    Position,
    Removal,
    StackPart,
    Status,
    Tolerance,
    kinds,
)
from fasten.proof.fit import board as board_fit
from fasten.proof.modes import board as board_modes
from fasten.proof.modes.board import back_mm, depth_mm, outer_mm
from fasten.proof.torque import board as board_torque

from .built_joint import HOLE, JOINT, MOUNT, NUT, SCREW, TABLES, given, own_lines

BOARD = replace(
    MOUNT, material="mdf", thickness_min_mm=18.0, thickness_max_mm=18.0, item_hole_mm=4.5, removed=Removal.NEVER
)
EDGE = replace(BOARD, into=Into.EDGE)
SCREWED = replace(
    JOINT, method="screw_into_board", kind=JointKind.LOCATED, receiver=None, sheet_mm=18.0, grip_mm=3.0,
    screw=replace(
        SCREW, kind=kinds.BOARD_SCREW, thread="ST3.5", length_mm=19.0, class_="case-hardened", diameter_mm=3.5,
        engagement_mm=14.0,
    ),
    hole=replace(HOLE, diameter_mm=2.4, depth_mm=17.0),
)  # fmt: skip
INSERT = replace(
    SCREWED, method="screw_in_insert", kind=JointKind.CLAMPED, screw=replace(SCREW, thread="M4", diameter_mm=4.0),
    receiver=changed(NUT, part="screw-in insert", length_mm=10.0, body_mm=8.0, grip_mm=None, flange_mm=None),
)  # fmt: skip
TEE = replace(
    INSERT, method="tee_nut", receiver=changed(NUT, part="tee nut", length_mm=9.0, body_mm=6.0, flange_mm=15.0),
    hole=replace(HOLE, diameter_mm=6.0, tolerance_mm=Tolerance(0.5, 0.1)),
)  # fmt: skip
BOLT = replace(TEE, method="through_bolt", receiver=changed(NUT, part="prevailing-torque nut", flange_mm=None))


def lines(joint: Joint, mount: MountPoint = BOARD) -> dict[str, Check]:
    return own_lines(joint, mount)


# -- which lines there are --------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("joint", "mount", "expected"),
    [
        (SCREWED, BOARD, {"board-behind", "edge-distance", "corner-distance"}),
        (SCREWED, EDGE, {"edge-screw", "edge-depth", "corner-distance"}),
        (INSERT, BOARD, {"board-behind", "edge-distance", "corner-distance", "jacking-out"}),
        (INSERT, EDGE, {"insert-wall", "corner-distance", "jacking-out"}),
        (TEE, BOARD, {"barrel", "edge-distance", "water-behind"}),
        (BOLT, BOARD, {"edge-distance", "water-behind"}),
    ],
)
def test_what_is_asked_of_a_joint_in_board(joint: Joint, mount: MountPoint, expected: set[str]) -> None:
    assert set(lines(joint, mount)) == expected


# -- each line at its limit -------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("board_mm", "holds"), [(18.0, True), (17.9, False)])
def test_board_behind_a_screw(board_mm: float, holds: bool) -> None:
    """19 long less 3 gripped is 16 in the board, and 2 left behind."""
    check = lines(replace(SCREWED, sheet_mm=board_mm))["board-behind"]
    assert (check.demand, check.allowable, check.title) == (18.0, board_mm, "Board behind the screw")
    assert check.status is (Status.HOLDS if holds else Status.FAILS)
    assert given(check) == {"screw in the board": 16.0, "board left behind": 2.0, "board": board_mm}


@pytest.mark.parametrize(("board_mm", "holds"), [(13.0, True), (12.9, False)])
def test_board_behind_an_insert(board_mm: float, holds: bool) -> None:
    """10 long and 3 left behind."""
    check = lines(replace(INSERT, sheet_mm=board_mm))["board-behind"]
    assert (check.demand, check.title) == (13.0, "Board behind the insert")
    assert check.status is (Status.HOLDS if holds else Status.FAILS)


@pytest.mark.parametrize(
    ("joint", "needed_mm", "needs"),
    [
        (SCREWED, 12.0, "needs 12.0 mm from hole centre to any edge"),
        (INSERT, 12.0, "needs 12.0 mm from hole centre to any edge, 8.0 mm of wall"),
        (replace(INSERT, receiver=changed(NUT, part="screw-in insert", body_mm=10.0)), 15.0,
         "needs 15.0 mm from hole centre to any edge, 10.0 mm of wall"),
        (BOLT, 16.0, "needs 16.0 mm from hole centre to any edge"),
    ],
)  # fmt: skip
def test_distance_to_an_edge(joint: Joint, needed_mm: float, needs: str) -> None:
    """12 for a screw; an insert 1.5 outer diameters and 12 at least; a bolt of 4 four diameters."""
    held = lines(joint, replace(BOARD, edge_mm=needed_mm))["edge-distance"]
    assert (held.demand, held.allowable, held.status) == (needed_mm, needed_mm, Status.HOLDS)
    assert lines(joint, replace(BOARD, edge_mm=needed_mm - 0.1))["edge-distance"].status is Status.FAILS
    open_ = lines(joint, replace(BOARD, edge_mm=None))["edge-distance"]
    assert (open_.status, open_.demand, open_.needs) == (Status.NOT_CHECKED, needed_mm, needs)


def test_a_corner_is_a_diagonal_away() -> None:
    """25 to a corner: known from 25 / sqrt 2 = 17.68 to the edges on; nearer, only measuring tells."""
    held = lines(SCREWED, replace(BOARD, edge_mm=17.7))["corner-distance"]
    assert held.status is Status.HOLDS
    assert held.allowable == pytest.approx(17.7 * sqrt(2))
    for edge_mm in (17.6, None):
        open_ = lines(SCREWED, replace(BOARD, edge_mm=edge_mm))["corner-distance"]
        assert (open_.status, open_.needs) == (Status.NOT_CHECKED, "needs 25.0 mm from hole centre to any corner")


def test_a_round_ring_has_no_corner() -> None:
    """Whatever the edge, and in its edge too; its other distances are as on any board."""
    for joint in (SCREWED, INSERT):
        for mount in (BOARD, EDGE):
            for edge_mm in (None, 12.0, 30.0):
                told = replace(mount, edge_mm=edge_mm)
                on_ring = lines(joint, replace(told, outline=Outline.RING))
                assert set(on_ring) == set(lines(joint, told)) - {"corner-distance"}


@pytest.mark.parametrize(("kind", "more"), [("circle", ", or a ring without corners"), ("row", "")])
def test_a_corner_that_is_asked_for_says_how_a_ring_is_told(kind: str, more: str) -> None:
    """Fixings on a circle may be on a ring; in a row they hardly are."""
    mount = replace(BOARD, edge_mm=None, pattern=Pattern(kind, 156.0, None))
    assert lines(SCREWED, mount)["corner-distance"].needs == f"needs 25.0 mm from hole centre to any corner{more}"


def test_along_an_edge_to_its_corner() -> None:
    for joint in (SCREWED, INSERT):
        assert lines(joint, replace(EDGE, edge_mm=70.0))["corner-distance"].status is Status.HOLDS
        assert lines(joint, replace(EDGE, edge_mm=69.9))["corner-distance"].status is Status.FAILS
        open_ = lines(joint, replace(EDGE, edge_mm=None))["corner-distance"]
        assert (open_.status, open_.needs) == (Status.NOT_CHECKED, "needs 70.0 mm along the edge to a corner")


@pytest.mark.parametrize(("hole_mm", "status"), [(7.0, Status.HOLDS), (7.1, Status.FAILS)])
def test_an_insert_is_wider_than_the_opening_over_it(hole_mm: float, status: Status) -> None:
    """An outside of 8 covers 7 and a margin of 1."""
    check = lines(INSERT, replace(BOARD, item_hole_mm=hole_mm))["jacking-out"]
    assert (check.demand, check.allowable, check.status) == (hole_mm + 1.0, 8.0, status)


def test_in_an_edge() -> None:
    """A screw no thicker than a fifth of the board, 25 mm deep; beside an insert of 8 two walls of 4."""
    slim = replace(SCREWED, sheet_mm=17.5, screw=replace(SCREW, diameter_mm=3.5, engagement_mm=25.0))
    assert {check.id: check.status for check in islice(board_fit.screwed(slim, EDGE, TABLES), 2)} == {
        "edge-screw": Status.HOLDS, "edge-depth": Status.HOLDS,
    }  # fmt: skip
    assert lines(replace(slim, sheet_mm=17.4), EDGE)["edge-screw"].status is Status.FAILS
    shallow = replace(slim, screw=replace(SCREW, diameter_mm=3.5, engagement_mm=24.9))
    assert lines(shallow, EDGE)["edge-depth"].status is Status.FAILS
    wall = lines(replace(INSERT, sheet_mm=16.0), EDGE)["insert-wall"]
    assert (wall.demand, wall.allowable, wall.status) == (4.0, 4.0, Status.HOLDS)
    assert lines(replace(INSERT, sheet_mm=15.9), EDGE)["insert-wall"].status is Status.FAILS


def test_a_barrel_is_no_longer_than_its_board() -> None:
    assert lines(replace(TEE, sheet_mm=9.0))["barrel"].status is Status.HOLDS
    assert lines(replace(TEE, sheet_mm=8.9))["barrel"].status is Status.FAILS


# -- what goes into a capacity ----------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("joint", "outer", "depth"), [(SCREWED, 3.5, 14.0), (INSERT, 8.0, 10.0), (TEE, 4.0, 18.0), (BOLT, 4.0, 18.0)]
)
def test_what_holds_in_the_board(joint: Joint, outer: float, depth: float) -> None:
    """A screw by its thread, an insert by its own outside and length; tee nut and bolt by the whole board."""
    assert (outer_mm(joint), depth_mm(joint)) == (outer, depth)


@pytest.mark.parametrize(
    ("material", "into", "coefficient"),
    [("mdf", Into.FACE, 41.1), ("mdf", Into.EDGE, 31.8), ("particleboard", Into.FACE, 41.1)],
)
def test_withdrawal_from_board(material: str, into: Into, coefficient: float) -> None:
    """USDA Wood Handbook ch. 8: 41.1 (face) or 31.8 (edge) sqrt(D) (L - D/3)^1.25 G², by hand; 0.67 once redriven.

    An insert has no point that holds nothing.
    """
    mount = replace(BOARD, material=material, into=into)
    cases = ((SCREWED, "screw", 3.5, 14.0, 3.5 / 3), (INSERT, "insert", 8.0, 10.0, 0))
    for joint, name, diameter, depth, point in cases:
        held = board_modes.SCREW_WITHDRAWAL.capacity(joint, mount, TABLES)
        inputs = {part.name: part.value for part in held.inputs}
        by_hand = coefficient * sqrt(diameter) * (depth - point) ** 1.25 * inputs[f"density of {material}"] ** 2
        assert held.load_n == pytest.approx(by_hand)
        assert inputs == {
            f"diameter of the {name}": diameter, "depth in the board": depth,
            f"density of {material}": inputs[f"density of {material}"],
        }  # fmt: skip
        assert "share kept" not in held.formula
    again = board_modes.SCREW_WITHDRAWAL.capacity(SCREWED, replace(mount, removed=Removal.YEARLY), TABLES)
    once = board_modes.SCREW_WITHDRAWAL.capacity(SCREWED, mount, TABLES)
    assert again.load_n == pytest.approx(0.67 * once.load_n)
    assert again.formula == f"{once.formula} x share kept"
    stays = board_modes.INSERT_WITHDRAWAL.capacity(INSERT, replace(mount, removed=Removal.YEARLY), TABLES)
    assert "share kept" not in stays.formula


def test_withdrawal_from_wood() -> None:
    """USDA Wood Handbook ch. 8: 108.25 G² D L from side grain; less from an edge, by the table's own share."""
    face = board_modes.SCREW_WITHDRAWAL.capacity(SCREWED, replace(BOARD, material="pine"), TABLES)
    inputs = {part.name: part.value for part in face.inputs}
    assert inputs["edge over face"] == 1.0
    assert face.load_n == pytest.approx(108.25 * inputs["density of pine"] ** 2 * 3.5 * 14.0)
    edge = board_modes.SCREW_WITHDRAWAL.capacity(SCREWED, replace(EDGE, material="pine"), TABLES)
    share = {part.name: part.value for part in edge.inputs}["edge over face"]
    assert 0 < share <= 1
    assert edge.load_n == pytest.approx(face.load_n * share)


def test_pressed_sideways() -> None:
    """EN 1995-1-1 8.3.1.3 and 8.2.3: 0.4 x 65 d^-0.7 t^0.1 x t d in particleboard; 0.75 of it in an edge."""
    face = board_modes.LATERAL.capacity(SCREWED, BOARD, TABLES)
    assert face.load_n == pytest.approx(0.4 * 65 * 3.5**-0.7 * 14.0**0.1 * 14.0 * 3.5)
    assert [part.name for part in face.inputs] == ["diameter of the screw", "depth in the board"]
    edge = board_modes.LATERAL.capacity(SCREWED, EDGE, TABLES)
    assert edge.load_n == pytest.approx(0.75 * face.load_n)
    assert edge.formula == f"{face.formula} x edge share"


def test_a_bolt_bears_over_two_and_a_half_diameters_at_most() -> None:
    """EN 1995-1-1 8.2.2: fh t d; the table lets 2.5 diameters of depth bear: of 18 mm and 4 mm that is 10."""
    thick = board_modes.BOLT_LATERAL.capacity(BOLT, BOARD, TABLES)
    assert thick.load_n == pytest.approx(65 * 4.0**-0.7 * 10.0**0.1 * 10.0 * 4.0)
    thin = board_modes.BOLT_LATERAL.capacity(replace(BOLT, sheet_mm=6.0), BOARD, TABLES)
    assert thin.load_n == pytest.approx(65 * 4.0**-0.7 * 6.0**0.1 * 6.0 * 4.0)


def test_what_bears_on_the_back() -> None:
    """The widest of flange and nut-side washers; a washer under the head does not count. 10 MPa on its ring."""
    nut_side = StackPart("ISO 7093-1", "M4", Position.NUT, 4.3, 12.0, 1.0)
    head_side = replace(nut_side, place=Position.HEAD, outer_mm=40.0)
    assert back_mm(TEE) == 15.0
    assert back_mm(replace(BOLT, washers=(nut_side, head_side))) == 12.0
    assert back_mm(replace(TEE, washers=(nut_side, head_side))) == 15.0
    assert back_mm(replace(SCREWED, washers=())) == 0.0
    held = board_modes.FLANGE_PULL.capacity(TEE, BOARD, TABLES)
    assert held.load_n == pytest.approx(10.0 * pi / 4 * (15.0**2 - 6.1**2))


# -- torque -----------------------------------------------------------------------------------------------------------


def test_a_screw_in_mdf_is_seated_and_not_stripped() -> None:
    """0.57 N·m seats it in a face, 2.9 strip it (tests of screws in MDF): from 1.2 x 0.57 to 0.5 x 2.9 at most."""
    deep = replace(SCREWED, screw=replace(SCREWED.screw or SCREW, engagement_mm=40.0))
    found = board_torque.window(deep, BOARD, TABLES)
    assert found is not None
    assert found.lower_nm == pytest.approx(1.2 * 0.57)
    assert found.preload_needed_n == 0.0
    assert found.upper.torque_nm == pytest.approx(min(0.5 * 2.9, 0.5 * _breaking_nm()))
    in_edge = board_torque.window(deep, EDGE, TABLES)
    assert in_edge is not None
    assert in_edge.lower_nm == pytest.approx(1.2 * 0.37)
    assert in_edge.upper.torque_nm == pytest.approx(0.5 * 1.2)


@pytest.mark.parametrize("deep_mm", [9.0, 14.0])
def test_a_short_screw_in_mdf_is_held_by_its_own_thread(deep_mm: float) -> None:
    """Past the 0.57 N·m that seat it, half of what pulls it out at K d, zinc plated and dry 0.20."""
    screw = replace(SCREWED.screw or SCREW, engagement_mm=deep_mm)
    found = board_torque.window(replace(SCREWED, screw=screw), BOARD, TABLES)
    held_n = board_modes.SCREW_WITHDRAWAL.capacity(replace(SCREWED, screw=screw), BOARD, TABLES).load_n
    assert found is not None
    assert found.upper.name == "thread in the board"
    assert found.upper.torque_nm == pytest.approx(0.57 + 0.20 * 3.5 * 0.5 * held_n / 1000)
    assert {part.name for part in found.upper.inputs} >= {"share", "nut factor", "torque that seats it"}


def _breaking_nm() -> float:
    """ISO 2702: ST3.5 breaks at 2.7 N·m."""
    return 2.7


def test_a_soft_item_is_pressed_only_by_what_is_past_the_seat() -> None:
    """A head of 7 over a hole of 4.5 on MDF at 10 MPa, scatter against it: K d p A / (1 + scatter) past 0.57 N·m."""
    board_screw = replace(SCREW, kind=kinds.BOARD_SCREW, thread="ST3.5", class_="case-hardened", diameter_mm=3.5)
    small = replace(SCREWED, screw=replace(board_screw, head_mm=7.0))
    finish, way = TABLES.find(FINISHES, SCREW.finish), TABLES.find(TIGHTENING, "torque_wrench")
    assert finish is not None
    assert way is not None
    found = board_torque.window(small, replace(BOARD, item_material="mdf"), TABLES)
    assert found is not None
    pressed_n = 10.0 * pi / 4 * (7.0**2 - 4.5**2) / (1 + way.scatter)
    assert found.upper.name == "pressure under the head"
    assert found.upper.torque_nm == pytest.approx(0.57 + finish.nut_factor * 3.5 * pressed_n / 1000)


def test_where_nobody_measured_there_is_no_torque() -> None:
    assert board_torque.window(SCREWED, replace(BOARD, material="plywood"), TABLES) is None
