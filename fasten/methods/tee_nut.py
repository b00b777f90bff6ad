"""Tee nut: pressed into the back of a board, so that the screw pulls it against its prongs and never off them."""

from collections.abc import Iterator

from fasten.catalog.parts import TEE_NUTS, TeeNut
from fasten.catalog.rows import MetricThread
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry import stack
from fasten.geometry.joint import receiver_of, screw_of
from fasten.methods import common
from fasten.methods import receivers as no
from fasten.methods.board_common import needs_board, needs_face, of_each_kind
from fasten.methods.common import (
    IN_HOLE,
    NOTHING_EXEMPT,
    kind_of,
    layers,
    limited_soft_mm,
    machine_screw,
    needs_both_sides,
    part_sources,
    refuse,
    with_threads,
)
from fasten.methods.holding import lock_for, locked_washers, with_limiter
from fasten.methods.screw_end import ScrewEnd
from fasten.methods.stocked import Stocked, machine_screws
from fasten.model import Joint, MountPoint, Receiver, Refusal, ThickerBoard, kinds
from fasten.model.known import Body, FarEnd, Plate
from fasten.proof.fit import board as board_fit
from fasten.proof.modes import board as board_modes
from fasten.proof.modes import common as failure
from fasten.proof.modes.item import through_item
from fasten.proof.modes.mode import Mode
from fasten.proof.torque import limits as caps
from fasten.proof.torque import tightening
from fasten.text.figures import mm

NAME = "tee_nut"
GROUND = common.NO_GROUND
fit = board_fit.barrelled
limits = caps.no_more_limits
torque = tightening.window
ALWAYS = IN_HOLE
EXEMPT = NOTHING_EXEMPT


def gates(mount: MountPoint, tables: Tables) -> Refusal | None:
    """Board with both sides reached, no thinner than the barrel, and a screw that the item's hole guides."""
    wrong = needs_board(NAME, mount, tables) or needs_face(NAME, mount) or needs_both_sides(NAME, mount)
    if wrong is not None:
        return wrong
    fitting = list(_fitting(mount, tables))
    if not fitting:
        return refuse(NAME, f"no tee nut has a screw that a {mm(mount.item_hole_mm)} hole guides",
                      ("item hole", mount.item_hole_mm, "mm"))  # fmt: skip
    row = min((row for row, _ in fitting), key=lambda row: row.length_mm)
    if row.length_mm > mount.thickness_min_mm:
        because = f"the {mm(row.length_mm)} barrel of {row.thread} is longer than {mm(mount.thickness_min_mm)} of board"
        return refuse(NAME, because, ("barrel", row.length_mm, "mm"), ("board", mount.thickness_min_mm, "mm"),
                      check="barrel", cure=ThickerBoard(row.length_mm))  # fmt: skip
    return None


def joints(mount: MountPoint, tables: Tables) -> Iterator[Joint]:
    """A joint for each tee nut whose screw the item's hole guides."""
    for row, thread in _fitting(mount, tables):
        yield from of_each_kind(mount, _joint(mount, row, thread, tables), tables)


def modes(mount: MountPoint, tables: Tables) -> tuple[Mode, ...]:
    """Screw, the board beside it and under the flange, the item under the head."""
    return (
        *failure.SCREWED, board_modes.lateral(mount), board_modes.FLANGE_PULL,
        *through_item(mount, tables),
    )  # fmt: skip


def screw_end(joint: Joint, mount: MountPoint, tables: Tables) -> ScrewEnd | None:
    """A diameter of thread and a pitch for its end in the barrel, or all of a shorter one."""
    screw = screw_of(joint)
    return ScrewEnd(engaged_mm=min(screw.diameter_mm + screw.pitch_mm, receiver_of(joint).length_mm))


def _fitting(mount: MountPoint, tables: Tables) -> Iterator[tuple[TeeNut, MetricThread]]:
    """Tee nuts whose screw passes the item's hole and does not rattle in it."""
    loose = rule(tables, Rules.TEE_NUT_LOOSE).value
    for row, thread in with_threads(tables.rows(TEE_NUTS), mount, tables):
        if mount.item_hole_mm - stack.clearance_hole_mm(tables, row.thread) <= loose:
            yield row, thread


def _joint(mount: MountPoint, row: TeeNut, thread: MetricThread, tables: Tables) -> Joint | None:
    """The shortest screw with a diameter of thread and a pitch for its end in the barrel, which lies at the back."""
    head = stack.head_for(tables, row.thread, mount.visible)
    washers = None if head is None else locked_washers(mount, head, row.thread, lock_for(mount, tables), tables)
    if head is None or washers is None:
        return None
    over_mm = sum(washer.thickness_mm for washer in washers) + mount.item_thickness_mm + limited_soft_mm(mount, tables)
    barrel_mm = over_mm + max(mount.thickness_max_mm - row.length_mm, 0.0)
    least_mm = barrel_mm + min(thread.major_mm + thread.pitch_mm, row.length_mm)
    length_mm = stack.preferred_length_mm(tables, "machine", head.standard, row.thread, least_mm)
    if length_mm is None:
        return None
    past_mm = length_mm - over_mm - mount.thickness_max_mm
    thinner_mm = mount.thickness_max_mm - mount.thickness_min_mm
    receiver = Receiver(
        kind=kinds.TEE_NUT, series=f"{row.prongs} prongs", thread=row.thread, length_mm=row.length_mm,
        material="steel", grip=no.NO_GRIP, flange=Plate(row.flange_mm), body=Body(row.barrel_mm), bulge=no.NO_BULGE,
        edge=no.NO_EDGE, pull=no.NOT_RATED, shear=no.NO_SHEAR, breaking=no.NO_BREAKING, box_torque=no.NO_BOX_TORQUE,
        spin_out=no.HELD, prevailing=no.RUNS_FREE, end=FarEnd.OPEN, from_=tables.source_id(TEE_NUTS, row),
    )  # fmt: skip
    screw = machine_screw(thread, head, length_mm, mount.grade, min(length_mm - barrel_mm, row.length_mm), past_mm)
    hole = stack.hole_with_bit(tables, row.hole_max_mm, row.hole_max_mm - row.hole_min_mm, 0.0, depth_mm=None,
                               shape="round")  # fmt: skip
    joint = Joint(
        method=NAME, kind=kind_of(mount, tables), layers=layers(mount, tables, washers, None), hole=hole,
        receiver=receiver, screw=screw, washers=washers, grip_mm=over_mm + mount.thickness_max_mm,
        sheet_mm=mount.thickness_min_mm, sheet_max_mm=mount.thickness_max_mm, behind_set_mm=row.length_mm,
        behind_done_mm=max(past_mm + thinner_mm, 0.0), lock=lock_for(mount, tables),
        from_=(receiver.from_, *part_sources(tables, head, length_mm, washers)),
    )  # fmt: skip
    return with_limiter(joint, mount, tables)


def stocked(tables: Tables) -> Iterator[Stocked]:
    """Its screw and every tee nut."""
    yield from machine_screws(tables)
    for row in tables.rows(TEE_NUTS):
        yield Stocked(kinds.TEE_NUT, row.thread, f"{row.prongs} prongs", "steel", row.length_mm)
