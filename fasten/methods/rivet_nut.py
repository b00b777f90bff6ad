"""Rivet nut: a thread in thin sheet, set from one side; round, hexagon or closed body."""

from collections.abc import Iterator

from fasten.catalog.parts import RivetNut
from fasten.catalog.rows import MetricThread
from fasten.catalog.tables import Tables
from fasten.geometry import stack
from fasten.mechanics import modes as failure
from fasten.mechanics.tightening import rule
from fasten.methods.common import kind_of, layers, machine_screw, needs_family, refuse, soft_at_stop_mm
from fasten.model import Joint, MountPoint, Receiver, Refusal, Span, WasherPart

NAME = "rivet_nut"
SHORTENING_MM = 2.0  # the least a body shortens beside its unused grip when set; common practice
LOCK = "low-strength threadlocker"


def gates(mount: MountPoint, tables: Tables) -> Refusal | None:
    """Sheet inside the grip range of a series whose thread passes the item's hole."""
    wrong = needs_family(NAME, mount, tables, "sheet", "laminate")
    if wrong is not None:
        return wrong
    rows = tables.rows(RivetNut, "rivet-nuts")
    least, greatest = min(row.grip_min_mm for row in rows), max(row.grip_max_mm for row in rows)
    if mount.thickness_min_mm < least or mount.thickness_max_mm > greatest:
        reach = f"they reach from {least:g} to {greatest:g} mm"
        return refuse(NAME, f"no series grips {mount.thickness_max_mm:g} mm, {reach}",
                      ("sheet", mount.thickness_max_mm, "mm"), ("greatest grip", greatest, "mm"))  # fmt: skip
    if not any(True for _ in _fitting(mount, tables)):
        return refuse(NAME, f"no rivet nut takes a screw through a {mount.item_hole_mm:g} mm hole in this sheet",
                      ("item hole", mount.item_hole_mm, "mm"))  # fmt: skip
    return None


def joints(mount: MountPoint, tables: Tables) -> Iterator[Joint]:
    """A joint for each series and length that grips the sheet, by itself and with a rigid washer over the flange."""
    for row, thread in _fitting(mount, tables):
        head_washer = _washer_under_head(mount, thread, tables)
        for between in _between(mount, row, thread, tables):
            joint = _joint(mount, row, thread, (*head_washer, *between), tables)
            if joint is not None:
                yield joint


def modes(mount: MountPoint, tables: Tables) -> tuple[failure.Mode, ...]:
    """Screw, thread of the receiver, the sheet round it and the item under the head."""
    return (
        failure.SCREW_PROOF, failure.SCREW_TENSION, failure.SCREW_SHEAR, failure.RECEIVER_THREAD,
        failure.SHEET_BEARING, failure.BACK_PULL, failure.item_mode(mount, tables),
    )  # fmt: skip


def _fitting(mount: MountPoint, tables: Tables) -> Iterator[tuple[RivetNut, MetricThread]]:
    rows = tables.rows(RivetNut, "rivet-nuts")
    sizes = tuple(sorted({row.thread for row in rows}))
    threads = {t.designation: t for t in stack.threads_for_hole(tables, mount.item_hole_mm, sizes)}
    for row in rows:
        grips = row.grip_min_mm <= mount.thickness_min_mm and mount.thickness_max_mm <= row.grip_max_mm
        body = mount.body_mm is None or (row.body_mm is not None and abs(row.body_mm - mount.body_mm) < 0.05)
        if grips and body and row.thread in threads:
            yield row, threads[row.thread]


def _washer_under_head(mount: MountPoint, thread: MetricThread, tables: Tables) -> tuple[WasherPart, ...]:
    """A washer where the head alone does not cover the hole by a millimetre, or where the item is soft."""
    head = stack.head_for(tables, thread.designation, mount.visible)
    soft = failure.material(tables, mount.item_material).family != "sheet"
    if head is not None and not soft and head.diameter_max_mm >= mount.item_hole_mm + 2.0:
        return ()
    washer = stack.washer_for(tables, "large" if soft else "plain", thread.designation, "head")
    return () if washer is None else (washer,)


def _between(
    mount: MountPoint, row: RivetNut, thread: MetricThread, tables: Tables
) -> tuple[tuple[WasherPart, ...], ...]:
    if mount.item_hole_mm + rule(tables, "jacking-out-margin").value <= row.flange_mm:
        return ((),)
    rigid = stack.washer_for(tables, "plain", thread.designation, "between")
    return ((),) if rigid is None else ((), (rigid,))


def _joint(
    mount: MountPoint, row: RivetNut, thread: MetricThread, washers: tuple[WasherPart, ...], tables: Tables
) -> Joint | None:
    head = stack.head_for(tables, thread.designation, mount.visible)
    if head is None:
        return None
    sheet_mm = mount.thickness_max_mm
    set_mm = row.length_mm - (row.grip_max_mm - sheet_mm) - SHORTENING_MM
    over_mm = sum(washer.thickness_mm for washer in washers) + mount.item_thickness_mm + soft_at_stop_mm(mount, tables)
    over_mm += row.flange_thickness_mm
    closed = row.end == "closed"
    least_mm = over_mm + sheet_mm + thread.major_mm if closed else over_mm + set_mm + thread.pitch_mm
    length_mm = stack.preferred_length_mm(tables, "machine", head.standard, thread.designation, least_mm)
    if length_mm is None or (closed and length_mm > over_mm + set_mm - thread.pitch_mm):
        return None
    past_mm = length_mm - over_mm - sheet_mm
    screw = machine_screw(
        thread, head, length_mm, mount.grade, min(set_mm, length_mm - over_mm) - sheet_mm, length_mm - over_mm - set_mm
    )
    hole = stack.hole_with_bit(tables, row.hole_mm, 0.0, row.hole_plus_mm, depth_mm=None, shape=row.body)
    receiver = Receiver(
        part="rivet nut", series=row.series, thread=row.thread, length_mm=row.length_mm,
        grip_mm=Span(row.grip_min_mm, row.grip_max_mm), material=row.material, flange_mm=row.flange_mm,
        flange_thickness_mm=row.flange_thickness_mm, body_mm=row.body_mm, bulge_mm=row.bulge_mm,
        thread_proof_n=row.thread_proof_n, shear_n=None, breaking_nm=row.breaking_nm, spin_out_nm=row.spin_out_nm,
        spin_out_sheet_mm=row.spin_out_sheet_mm, prevailing_nm=None, from_=tables.source_id("rivet-nuts", row),
        closed=closed,
    )  # fmt: skip
    return Joint(
        method=NAME, kind=kind_of(mount), layers=layers(mount, tables, washers, None), hole=hole, receiver=receiver,
        screw=screw, washers=washers, grip_mm=sheet_mm,
        sheet_mm=mount.thickness_min_mm, sheet_max_mm=sheet_mm,
        behind_set_mm=row.length_mm + rule(tables, "mandrel-reach").value,
        behind_done_mm=max(past_mm, set_mm - sheet_mm), lock=LOCK,
        from_=(tables.source_id("rivet-nuts", row),),
    )  # fmt: skip
