"""Rivet nut: a thread in thin sheet, set from one side; round, hexagon or closed body."""

from collections.abc import Iterator
from functools import lru_cache

from fasten.catalog.parts import RIVET_NUT_SHEAR, RIVET_NUTS, Head, RivetNut
from fasten.catalog.rows import MetricThread
from fasten.catalog.rules import Rules, rule, rule_value
from fasten.catalog.tables import Tables
from fasten.geometry import stack
from fasten.geometry.bits import IN_PLACE
from fasten.geometry.joint import across_mm, nut_is_there, receiver_of, screw_of
from fasten.methods import common
from fasten.methods import receivers as no
from fasten.methods.common import (
    IN_HOLE,
    NOTHING_EXEMPT,
    backing_washer,
    kind_of,
    layers,
    limited_soft_mm,
    machine_screw,
    needs_both_sides_of_laminate,
    needs_family,
    needs_strength,
    part_sources,
    refuse,
    with_threads,
)
from fasten.methods.holding import lock_for, locked_washers, with_limiter
from fasten.methods.screw_end import ScrewEnd, past_receiver_mm, thinner_mm
from fasten.methods.stocked import Stocked, machine_screws
from fasten.model import BitChoice, Check, Input, Joint, MountPoint, Position, Receiver, Refusal, Span, StackPart, kinds
from fasten.model.known import Body, Bulge, FarEnd, Flange, MostTorque, Needed, Rating, SpinOut, Stated
from fasten.proof.checks import waits
from fasten.proof.fit.rim import presses_alone
from fasten.proof.fit.sheet import around_hole
from fasten.proof.modes import common as failure
from fasten.proof.modes import plastic as plastic_modes
from fasten.proof.modes.item import through_item
from fasten.proof.modes.mode import Mode
from fasten.proof.modes.rivet import NUT_SHEAR
from fasten.proof.torque import limits as caps
from fasten.proof.torque import tightening
from fasten.record import replace
from fasten.text.figures import figure, mm

NAME = "rivet_nut"
GROUND = common.GROUND
limits = caps.no_more_limits
torque = tightening.window
ALWAYS = IN_HOLE
EXEMPT = NOTHING_EXEMPT


def gates(mount: MountPoint, tables: Tables) -> Refusal | None:
    """Sheet inside the grip range of a series whose thread passes the item's hole."""
    wrong = (
        needs_family(NAME, mount, tables, "sheet", "laminate")
        or needs_strength(NAME, mount, tables)
        or needs_both_sides_of_laminate(NAME, mount, tables)
    )
    if wrong is not None:
        return wrong
    passing = [row for row, _ in _passing(mount, tables)]
    there = mount.existing_thread
    if there is not None and nut_is_there(mount) and passing and there.thread not in {row.thread for row in passing}:
        least_mm = stack.fine_clearance_mm(tables, there.thread)
        return refuse(NAME, f"{there.thread} needs {mm(least_mm)} in the item, and its hole is smaller",
                      ("item hole", mount.item_hole_mm, "mm"), ("wanted", least_mm, "mm"),
                      check="item-hole")  # fmt: skip
    if not passing:
        least_mm = min(stack.fine_clearance_mm(tables, row.thread) for row in tables.rows(RIVET_NUTS))
        return refuse(NAME, f"no screw of a rivet nut fits through a {mm(mount.item_hole_mm)} hole",
                      ("item hole", mount.item_hole_mm, "mm"), ("least hole", least_mm, "mm"))  # fmt: skip
    if not any(_grips(mount, row, tables) for row in passing):
        least, greatest = min(row.grip_min_mm for row in passing), max(row.grip_max_mm for row in passing)
        reach = f"those whose screw fits the item's hole grip {figure(least)} to {mm(greatest)}"
        behind = min((w.thickness_mm for row in passing for w in _backing(mount, row, tables)), default=0.0)
        more = f" and a {mm(behind)} backing washer" if behind else ""
        return refuse(NAME, f"no series grips {mm(mount.thickness_max_mm)}{more}: {reach}",
                      ("gripped", mount.thickness_max_mm + behind, "mm"),
                      ("greatest grip", greatest, "mm"))  # fmt: skip
    if mount.body_mm is not None and not any(True for _ in _fitting(mount, tables)):
        held = [row for row in passing if _grips(mount, row, tables) and mount.body_thread in {None, row.thread}]
        known = ", ".join(figure(body) for body in sorted({row.body_mm for row in held if row.body_mm is not None}))
        series = f"no {mount.body_thread} series" if mount.body_thread else "no series"
        return refuse(NAME, f"{series} here has a {mm(mount.body_mm)} body: they have {known or 'no'} mm",
                      ("body", mount.body_mm, "mm"))  # fmt: skip
    return None


def joints(mount: MountPoint, tables: Tables) -> Iterator[Joint]:
    """A joint for each series and length that grips the sheet, by itself and with a rigid washer over the flange."""
    too_long = frozenset() if mount.spread is None else mount.spread.too_long
    for row, thread in _fitting(mount, tables):
        head = stack.head_for(tables, thread.designation, mount.visible)
        if head is None or (row.series, row.thread, row.length_mm) in too_long:
            continue
        under = locked_washers(mount, head, thread.designation, lock_for(mount, tables), tables) or ()
        for between in _between(mount, row, thread, tables):
            washers = (*under, *between, *_backing(mount, row, tables))
            joint = _joint(mount, row, thread, head, washers, tables)
            if joint is not None:
                yield joint


def modes(mount: MountPoint, tables: Tables) -> tuple[Mode, ...]:
    """Screw, thread and body of the receiver, the sheet round it and the item under the head."""
    sheet = (failure.SHEET_BEARING, failure.BACK_PULL)
    around = plastic_modes.THROUGH if plastic_modes.is_plastic(mount, tables) else sheet
    return (
        *failure.SCREWED, failure.RECEIVER_THREAD, NUT_SHEAR, *around,
        *through_item(mount, tables),
    )  # fmt: skip


def fit(joint: Joint, mount: MountPoint, tables: Tables) -> tuple[Check, ...]:
    """What the sheet needs round its hole; of an existing nut, that it was held."""
    return (*around_hole(joint, mount, tables), *((_held(joint, tables),) if nut_is_there(mount) else ()))


def _held(joint: Joint, tables: Tables) -> Check:
    """Which nut it is shows only by its flange, and how it was set not at all: each is tried first."""
    more, source = rule_value(tables, Rules.TEST_TORQUE)
    flange = mm(across_mm(receiver_of(joint)))
    needs = f"needs each existing nut to have a {flange} flange and to hold {figure(more)} x the target torque"
    inputs = (Input("share of the target", more, "-"),)
    return waits("existing-nut", "Existing nut stays when it is tightened", "N·m", None, needs, inputs,
                 "share x target <= torque it held", (source, *joint.from_))  # fmt: skip


def screw_end(joint: Joint, mount: MountPoint, tables: Tables) -> ScrewEnd | None:
    """A pitch past an open body; in a closed one a diameter deep, and a pitch short of its bottom."""
    screw = screw_of(joint)
    if receiver_of(joint).end is FarEnd.CLOSED:
        return ScrewEnd(engaged_mm=screw.diameter_mm, past_max_mm=-screw.pitch_mm - thinner_mm(joint))
    return ScrewEnd(past_min_mm=past_receiver_mm(screw.pitch_mm, tables))


def _passing(mount: MountPoint, tables: Tables) -> list[tuple[RivetNut, MetricThread]]:
    return with_threads(tables.rows(RIVET_NUTS), mount, tables)


def _backing(mount: MountPoint, row: RivetNut, tables: Tables) -> tuple[StackPart, ...]:
    return backing_washer(mount, row.hole_mm + row.hole_plus_mm, tables)


def _grips(mount: MountPoint, row: RivetNut, tables: Tables) -> bool:
    more_mm = sum(washer.thickness_mm for washer in _backing(mount, row, tables))
    return row.grip_min_mm <= mount.thickness_min_mm + more_mm and mount.thickness_max_mm + more_mm <= row.grip_max_mm


def _fitting(mount: MountPoint, tables: Tables) -> Iterator[tuple[RivetNut, MetricThread]]:
    for row, thread in _passing(mount, tables):
        body = mount.body_mm is None or row.has_body(mount.body_mm)
        if nut_is_there(mount) and mount.existing_thread is not None and row.thread != mount.existing_thread.thread:
            continue
        if body and mount.body_thread in {None, row.thread} and _grips(mount, row, tables):
            yield row, thread


def _between(
    mount: MountPoint, row: RivetNut, thread: MetricThread, tables: Tables
) -> tuple[tuple[StackPart, ...], ...]:
    covered = mount.item_hole_mm + rule(tables, Rules.JACKING_OUT_MARGIN).value <= row.flange_mm
    limited = limited_soft_mm(mount, tables) > 0 and not presses_alone(mount, tables)
    if covered or limited:  # the limiter lies on the flange
        return ((),)
    rigid = stack.washer_for(tables, "plain", thread.designation, Position.BETWEEN)
    return ((),) if rigid is None else ((), (rigid,))


def _receiver(row: RivetNut, mount: MountPoint, tables: Tables) -> Receiver:
    softer = mount.material == failure.ALUMINIUM and row.material != failure.ALUMINIUM
    return _set_in(softer, tables, row.series, row.thread, row.length_mm)


@lru_cache(maxsize=512)
def _set_in(softer: bool, tables: Tables, *key: object) -> Receiver:
    row = tables.need(RIVET_NUTS, *key)
    return Receiver(
        kind=kinds.RIVET_NUT, series=row.series, thread=row.thread, length_mm=row.length_mm, material=row.material,
        grip=Span(row.grip_min_mm, row.grip_max_mm), flange=Flange(row.flange_mm, row.flange_thickness_mm),
        body=no.NO_BODY if row.body_mm is None else Body(row.body_mm), bulge=Bulge(row.bulge_mm), edge=no.NO_EDGE,
        pull=Rating(row.thread_proof_n), shear=_shear(row, tables), breaking=MostTorque(row.breaking_nm),
        box_torque=no.NO_BOX_TORQUE, spin_out=_spin_out(row, tables, softer=softer), prevailing=no.RUNS_FREE,
        end=FarEnd.CLOSED if row.end == "closed" else FarEnd.OPEN, from_=tables.source_id(RIVET_NUTS, row),
    )  # fmt: skip


def _shear(row: RivetNut, tables: Tables) -> Rating | Needed:
    found = tables.find(RIVET_NUT_SHEAR, row.material, row.thread)
    return Needed("the shear that its body bears") if found is None else Rating(found.shear_n)


def _spin_out(row: RivetNut, tables: Tables, *, softer: bool) -> SpinOut:
    """Tested averages grow with the sheet, least figures do not; a body of steel turns sooner in aluminium."""
    grows = row.spin_out_of == "average"
    most_mm = rule(tables, Rules.SPIN_OUT_SHEET).value if grows else row.spin_out_sheet_mm
    share = rule(tables, Rules.SPIN_OUT_ALUMINIUM).value if softer else 1.0
    return SpinOut(row.spin_out_nm, row.spin_out_sheet_mm, most_mm, share, Stated.MEAN if grows else Stated.LEAST)


def _joint(
    mount: MountPoint, row: RivetNut, thread: MetricThread, head: Head, washers: tuple[StackPart, ...], tables: Tables
) -> Joint | None:
    behind_mm = sum(washer.thickness_mm for washer in washers if washer.place == Position.NUT)
    sheet_mm = mount.thickness_max_mm + behind_mm  # all that the body grips
    set_mm = row.length_mm - (row.grip_max_mm - sheet_mm) - rule(tables, Rules.SET_SHORTENING).value
    over_mm = sum(washer.thickness_mm for washer in washers if washer.place != Position.NUT) + mount.item_thickness_mm
    over_mm += limited_soft_mm(mount, tables) + row.flange_thickness_mm
    closed = row.end == "closed"
    past_mm = past_receiver_mm(thread.pitch_mm, tables)
    least_mm = over_mm + sheet_mm + thread.major_mm if closed else over_mm + set_mm + past_mm
    length_mm = stack.preferred_length_mm(tables, "machine", head.standard, thread.designation, least_mm)
    thinner_mm = (
        mount.thickness_max_mm - mount.thickness_min_mm
    )  # a thinner sheet shortens the set body and lets the screw in further
    if length_mm is None or (closed and length_mm > over_mm + set_mm - thinner_mm - thread.pitch_mm):
        return None
    past_mm = length_mm - over_mm - mount.thickness_min_mm
    screw = machine_screw(
        thread, head, length_mm, mount.grade, min(set_mm, length_mm - over_mm) - sheet_mm, length_mm - over_mm - set_mm
    )
    hole = stack.hole_with_bit(tables, row.hole_mm, 0.0, row.hole_plus_mm, depth_mm=None, shape=row.body)
    if nut_is_there(mount):
        hole = replace(hole, bit=BitChoice(IN_PLACE, hole.diameter_mm, 0.0, holds=True))
    joint = Joint(
        method=NAME, kind=kind_of(mount, tables), layers=layers(mount, tables, washers, None), hole=hole,
        receiver=_receiver(row, mount, tables), screw=screw, washers=washers, grip_mm=sheet_mm,
        sheet_mm=mount.thickness_min_mm, sheet_max_mm=mount.thickness_max_mm,
        behind_set_mm=row.length_mm + rule(tables, Rules.MANDREL_REACH).value,
        behind_done_mm=max(past_mm, set_mm - mount.thickness_max_mm), lock=lock_for(mount, tables),
        from_=(tables.source_id(RIVET_NUTS, row), *part_sources(tables, head, length_mm, washers)),
    )  # fmt: skip
    return with_limiter(joint, mount, tables)


def stocked(tables: Tables) -> Iterator[Stocked]:
    """Its screw and every rivet nut."""
    yield from machine_screws(tables)
    for row in tables.rows(RIVET_NUTS):
        yield Stocked(kinds.RIVET_NUT, row.thread, row.series, row.material, row.length_mm)
