"""Clip nut: a thread that slides onto a sheet edge, without a setting tool; only where an edge is within its reach."""

from collections.abc import Iterator

from fasten.catalog.parts import CLIP_NUTS, ClipNut, Head
from fasten.catalog.rows import MetricThread
from fasten.catalog.tables import Tables
from fasten.geometry import stack
from fasten.geometry.joint import screw_of
from fasten.methods import common
from fasten.methods import receivers as no
from fasten.methods.common import (
    IN_HOLE,
    NOTHING_EXEMPT,
    kind_of,
    largest_first,
    layers,
    limited_soft_mm,
    machine_screw,
    needs_family,
    needs_strength,
    part_sources,
    refuse,
    with_threads,
)
from fasten.methods.holding import lock_for, locked_washers, with_limiter
from fasten.methods.screw_end import ScrewEnd, past_receiver_mm
from fasten.methods.stocked import Stocked, machine_screws
from fasten.model import Joint, MountPoint, Receiver, Refusal, Span, StackPart, kinds
from fasten.model.known import EdgeReach, FarEnd
from fasten.proof.fit import plastic as plastic_fit
from fasten.proof.modes import common as failure
from fasten.proof.modes import plastic as plastic_modes
from fasten.proof.modes.item import through_item
from fasten.proof.modes.mode import Mode
from fasten.proof.torque import limits as caps
from fasten.proof.torque import tightening
from fasten.text.figures import figure, mm

NAME = "clip_nut"
GROUND = common.NO_GROUND
fit = plastic_fit.slid_on
limits = caps.no_more_limits
torque = tightening.by_box
ALWAYS = IN_HOLE
EXEMPT = NOTHING_EXEMPT


def gates(mount: MountPoint, tables: Tables) -> Refusal | None:
    """A thread for the item's hole, sheet it slides onto, and an edge within its reach."""
    families = ("sheet", *plastic_modes.FAMILIES)
    wrong = needs_family(NAME, mount, tables, *families) or needs_strength(NAME, mount, tables)
    rows = [row for row, _ in _passing(mount, tables)]
    if wrong is not None:
        return wrong
    if not rows:
        return refuse(NAME, f"no screw of a clip nut fits through a {mm(mount.item_hole_mm)} hole",
                      ("item hole", mount.item_hole_mm, "mm"))  # fmt: skip
    if not any(_slides_on(mount, row) for row in rows):
        least, most = min(row.sheet_min_mm for row in rows), max(row.sheet_max_mm for row in rows)
        return refuse(NAME, f"none slides onto {mm(mount.thickness_max_mm)}: they take {figure(least)} to {mm(most)}",
                      ("sheet", mount.thickness_max_mm, "mm"), ("greatest", most, "mm"))  # fmt: skip
    return _edge_gate(mount, [row for row in rows if _slides_on(mount, row)])


def _edge_gate(mount: MountPoint, rows: list[ClipNut]) -> Refusal | None:
    """An edge that is not given is not there: a clip nut is never proposed for the middle of a panel."""
    reach = max(row.reach_mm for row in rows)
    if mount.edge_mm is None:
        return refuse(NAME, f"slides onto an edge, and you gave none within its {mm(reach)} reach",
                      ("reach", reach, "mm"))  # fmt: skip
    if mount.edge_mm > reach:
        return refuse(NAME, f"the edge is {mm(mount.edge_mm)} away, beyond its {mm(reach)} reach",
                      ("edge", mount.edge_mm, "mm"), ("reach", reach, "mm"))  # fmt: skip
    return None


def joints(mount: MountPoint, tables: Tables) -> Iterator[Joint]:
    """A joint for each clip nut that slides onto the sheet."""
    for row, thread in _passing(mount, tables):
        head = stack.head_for(tables, thread.designation, mount.visible)
        if head is not None and _slides_on(mount, row):
            washers = locked_washers(mount, head, thread.designation, lock_for(mount, tables), tables) or ()
            joint = _joint(mount, row, thread, head, washers, tables)
            if joint is not None:
                yield joint


def modes(mount: MountPoint, tables: Tables) -> tuple[Mode, ...]:
    """Screw, the clip by its own box, the sheet on the shank, the item under the head."""
    bears = plastic_modes.BEARING if plastic_modes.is_plastic(mount, tables) else failure.SHEET_BEARING
    return (
        *failure.SCREWED, plastic_modes.RATED_PULL, bears,
        *through_item(mount, tables),
    )  # fmt: skip


def screw_end(joint: Joint, mount: MountPoint, tables: Tables) -> ScrewEnd | None:
    """A pitch past the clip."""
    return ScrewEnd(past_min_mm=past_receiver_mm(screw_of(joint).pitch_mm, tables))


def _passing(mount: MountPoint, tables: Tables) -> list[tuple[ClipNut, MetricThread]]:
    return largest_first(with_threads(tables.rows(CLIP_NUTS), mount, tables))


def _slides_on(mount: MountPoint, row: ClipNut) -> bool:
    return row.sheet_min_mm <= mount.thickness_min_mm and mount.thickness_max_mm <= row.sheet_max_mm


def _joint(
    mount: MountPoint, row: ClipNut, thread: MetricThread, head: Head, washers: tuple[StackPart, ...], tables: Tables
) -> Joint | None:
    over_mm = sum(washer.thickness_mm for washer in washers) + mount.item_thickness_mm + limited_soft_mm(mount, tables)
    least_mm = over_mm + mount.thickness_max_mm + row.behind_mm + past_receiver_mm(thread.pitch_mm, tables)
    length_mm = stack.preferred_length_mm(tables, "machine", head.standard, thread.designation, least_mm)
    if length_mm is None:
        return None
    past_mm = length_mm - over_mm - mount.thickness_max_mm - row.behind_mm
    receiver = Receiver(
        kind=kinds.CLIP_NUT, series=f"{mm(row.reach_mm)} from edge to thread", thread=row.thread,
        length_mm=row.behind_mm, material="spring steel", grip=Span(row.sheet_min_mm, row.sheet_max_mm),
        flange=no.NO_FLANGE, body=no.NO_BODY, bulge=no.NO_BULGE, edge=EdgeReach(row.reach_mm),
        pull=no.box_pull(row.rated_n), shear=no.NO_SHEAR, breaking=no.NO_BREAKING,
        box_torque=no.box_torque(row.torque_nm), spin_out=no.HELD, prevailing=no.RUNS_FREE, end=FarEnd.OPEN,
        from_=tables.source_id(CLIP_NUTS, row),
    )  # fmt: skip
    joint = Joint(
        method=NAME, kind=kind_of(mount, tables), layers=layers(mount, tables, washers, None),
        hole=stack.hole_with_bit(tables, row.hole_mm, 0.0, row.hole_plus_mm, depth_mm=None, shape="round"),
        receiver=receiver, screw=machine_screw(thread, head, length_mm, mount.grade, row.behind_mm, past_mm),
        washers=washers, grip_mm=mount.thickness_max_mm, sheet_mm=mount.thickness_min_mm,
        sheet_max_mm=mount.thickness_max_mm, behind_set_mm=row.behind_mm,
        behind_done_mm=length_mm - over_mm - mount.thickness_min_mm, lock=lock_for(mount, tables),
        from_=(receiver.from_, *part_sources(tables, head, length_mm, washers)),
    )  # fmt: skip
    return with_limiter(joint, mount, tables)


def stocked(tables: Tables) -> Iterator[Stocked]:
    """Its screw and every clip nut."""
    yield from machine_screws(tables)
    for row in tables.rows(CLIP_NUTS):
        yield Stocked(kinds.CLIP_NUT, row.thread, f"{mm(row.reach_mm)} from edge to thread", "spring steel", None)
