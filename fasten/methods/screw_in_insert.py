"""Screw-in insert: a metal thread in board or wood, for what comes off often; coarse or fine outside thread."""

from collections.abc import Iterator

from fasten.catalog.parts import SCREW_IN_INSERTS, ScrewInInsert
from fasten.catalog.rows import MetricThread
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry import stack
from fasten.geometry.joint import screw_of
from fasten.methods import common
from fasten.methods import receivers as no
from fasten.methods.board_common import in_board, needs_board, of_each_kind
from fasten.methods.common import (
    IN_HOLE,
    NOTHING_EXEMPT,
    kind_of,
    limited_soft_mm,
    machine_screw,
    part_sources,
    refuse,
    with_threads,
)
from fasten.methods.holding import lock_for, locked_washers, with_limiter
from fasten.methods.screw_end import ScrewEnd
from fasten.methods.stocked import Stocked, machine_screws
from fasten.model import Into, Joint, MountPoint, Receiver, Refusal, kinds
from fasten.model.known import Body, FarEnd
from fasten.proof.fit import board as board_fit
from fasten.proof.modes import board as board_modes
from fasten.proof.modes import common as failure
from fasten.proof.modes.item import through_item
from fasten.proof.modes.mode import Mode
from fasten.proof.torque import limits as caps
from fasten.proof.torque import tightening
from fasten.text.figures import mm, words

NAME = "screw_in_insert"
GROUND = common.NO_GROUND
fit = board_fit.inserted
limits = caps.sunk_insert_limit
torque = tightening.window
ALWAYS = IN_HOLE
EXEMPT = NOTHING_EXEMPT
HOLE_MM = 0.1  # how far the hole may be off its table; common practice


def gates(mount: MountPoint, tables: Tables) -> Refusal | None:
    """Board or wood for which an insert has a hole, and one whose screw passes the hole of the item."""
    wrong = needs_board(NAME, mount, tables)
    if wrong is not None:
        return wrong
    if not list(_fitting(mount, tables)):
        board, hole = words(mount.material), mm(mount.item_hole_mm)
        return refuse(NAME, f"no insert for {board} takes a screw through a {hole} hole",
                      ("item hole", mount.item_hole_mm, "mm"))  # fmt: skip
    return None


def joints(mount: MountPoint, tables: Tables) -> Iterator[Joint]:
    """A joint for each insert made for this board whose screw passes the item's hole."""
    for row, thread, hole_mm in _fitting(mount, tables):
        yield from of_each_kind(mount, _joint(mount, row, thread, hole_mm, tables), tables)


def modes(mount: MountPoint, tables: Tables) -> tuple[Mode, ...]:
    """Screw, the board round the insert, the item under the head."""
    return (
        *failure.SCREWED, board_modes.INSERT_WITHDRAWAL,
        board_modes.lateral(mount), *through_item(mount, tables),
    )  # fmt: skip


def screw_end(joint: Joint, mount: MountPoint, tables: Tables) -> ScrewEnd | None:
    """A diameter deep, and inside the insert, so that it cannot bottom."""
    return ScrewEnd(engaged_mm=screw_of(joint).diameter_mm, past_max_mm=0.0)


def _fitting(mount: MountPoint, tables: Tables) -> Iterator[tuple[ScrewInInsert, MetricThread, float]]:
    """Inserts with a hole for this kind of board, each with its screw and that hole.

    A short one is for thin board: where the usual one of its thread fits, nobody takes less hold.
    """
    wood = board_modes.kind(tables, mount).insert_hole
    for row, thread in with_threads(tables.rows(SCREW_IN_INSERTS), mount, tables):
        holes = {"softwood": row.hole_softwood_mm, "board": row.hole_board_mm, "hardwood": row.hole_hardwood_mm}
        hole_mm = holes[wood]
        if hole_mm is not None and not _usual_fits(row, mount, tables):
            yield row, thread, hole_mm


def _usual_fits(row: ScrewInInsert, mount: MountPoint, tables: Tables) -> bool:
    """Whether a longer insert of another series, with the same thread in and out, leaves board behind it."""
    deepest_mm = mount.thickness_min_mm - rule(tables, Rules.BOARD_BEHIND).value
    return any(
        row.length_mm < other.length_mm and (mount.into is Into.EDGE or other.length_mm <= deepest_mm)
        for other in tables.rows(SCREW_IN_INSERTS)
        if (other.thread, other.outside) == (row.thread, row.outside) and other.series != row.series
    )


def _joint(mount: MountPoint, row: ScrewInInsert, thread: MetricThread, hole_mm: float, tables: Tables) -> Joint | None:
    """The shortest screw with a diameter of thread in the insert; it ends inside it, so that it cannot bottom."""
    head = stack.head_for(tables, row.thread, mount.visible)
    washers = None if head is None else locked_washers(mount, head, row.thread, lock_for(mount, tables), tables)
    if head is None or washers is None:
        return None
    over_mm = sum(washer.thickness_mm for washer in washers) + mount.item_thickness_mm + limited_soft_mm(mount, tables)
    top_mm = over_mm + rule(tables, Rules.INSERT_SUNK).value
    least_mm = top_mm + thread.major_mm
    length_mm = stack.preferred_length_mm(tables, "machine", head.standard, row.thread, least_mm)
    if length_mm is None or length_mm > top_mm + row.length_mm:
        return None
    deep_mm = row.length_mm + rule(tables, Rules.INSERT_HOLE_PAST).value
    receiver = Receiver(
        kind=kinds.SCREW_IN_INSERT, series=row.series, thread=row.thread, length_mm=row.length_mm, material="steel",
        grip=no.NO_GRIP, flange=no.NO_FLANGE, body=Body(row.outer_mm), bulge=no.NO_BULGE, edge=no.NO_EDGE,
        pull=no.NOT_RATED, shear=no.NO_SHEAR, breaking=no.NO_BREAKING, box_torque=no.NO_BOX_TORQUE, spin_out=no.HELD,
        prevailing=no.RUNS_FREE, end=FarEnd.OPEN, from_=tables.source_id(SCREW_IN_INSERTS, row),
    )  # fmt: skip
    screw = machine_screw(thread, head, length_mm, mount.grade, length_mm - top_mm, length_mm - top_mm - row.length_mm)
    joint = Joint(
        method=NAME, kind=kind_of(mount, tables), layers=in_board(mount, tables, washers, deep_mm),
        hole=stack.hole_with_bit(tables, hole_mm, HOLE_MM, HOLE_MM, depth_mm=deep_mm, shape="round"),
        receiver=receiver, screw=screw, washers=washers, grip_mm=over_mm, sheet_mm=mount.thickness_min_mm,
        sheet_max_mm=mount.thickness_max_mm, behind_set_mm=0.0, behind_done_mm=0.0, lock=lock_for(mount, tables),
        from_=(receiver.from_, *part_sources(tables, head, length_mm, washers)),
    )  # fmt: skip
    return with_limiter(joint, mount, tables)


def stocked(tables: Tables) -> Iterator[Stocked]:
    """Its screw and every insert, by its outside."""
    yield from machine_screws(tables)
    for row in tables.rows(SCREW_IN_INSERTS):
        series = f"{row.series}, {mm(row.outer_mm)} outside"
        yield Stocked(kinds.SCREW_IN_INSERT, row.thread, series, "steel", row.length_mm)
