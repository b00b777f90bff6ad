"""An existing stud, weld nut or tapped boss: nothing to drill, and the first thing to ask about."""

from collections.abc import Iterator

from fasten.catalog.parts import NUTS
from fasten.catalog.rows import METRIC_CLEARANCE, METRIC_THREADS, MetricThread
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry import stack
from fasten.geometry.joint import nut_is_there
from fasten.methods import common
from fasten.methods import receivers as no
from fasten.methods.common import (
    NOTHING_EXEMPT,
    Always,
    kind_of,
    layers,
    limited_soft_mm,
    machine_screw,
    needs_family,
    part_sources,
    refuse,
)
from fasten.methods.holding import lock_for, locked_under, locked_washers, with_limiter
from fasten.methods.screw_end import no_shorter
from fasten.methods.stocked import Stocked, machine_screws, nuts
from fasten.model import ExistingThread, Joint, MountPoint, Receiver, Refusal, StackPart, kinds
from fasten.model.known import Body, FarEnd, Plate
from fasten.proof.fit import factory as factory_fit
from fasten.proof.modes import common as failure
from fasten.proof.modes import plastic as plastic_modes
from fasten.proof.modes.item import through_item
from fasten.proof.modes.mode import Mode
from fasten.proof.modes.shank import MAKER_LOAD
from fasten.proof.torque import limits as caps
from fasten.proof.torque import tightening
from fasten.text.figures import mm

NAME = "factory_thread"
GROUND = common.GROUND
fit = factory_fit.checks
limits = caps.no_more_limits
torque = tightening.by_feel
ALWAYS = Always(in_hole=False)
EXEMPT = NOTHING_EXEMPT
screw_end = no_shorter
NUT = "hexagon"


def gates(mount: MountPoint, tables: Tables) -> Refusal | None:
    """A given thread that the vehicle's maker put there, of a size that is stocked and that the item passes."""
    there = mount.existing_thread
    if there is None:
        return refuse(NAME, "you gave no stud or tapped boss: look for one first")
    if nut_is_there(mount):
        return refuse(NAME, "an existing rivet nut is no thread of the vehicle's maker: it is proved as a rivet nut")
    wrong = needs_family(NAME, mount, tables, "sheet", *plastic_modes.FAMILIES)
    wants = tables.find(METRIC_CLEARANCE, there.thread)
    if wrong is None and wants is not None and wants.fine_mm > mount.item_hole_mm + stack.FITS_HOLE:
        wrong = refuse(NAME, f"{there.thread} needs {mm(wants.fine_mm)} in the item, and its hole is smaller",
                       ("item hole", mount.item_hole_mm, "mm"), ("wanted", wants.fine_mm, "mm"),
                       check="item-hole")  # fmt: skip
    if wrong is None and not any(joints(mount, tables)):
        part = "nut" if there.kind == "stud" else "screw long enough"
        wrong = refuse(NAME, f"no {part} of {there.thread} is in the tables")
    return wrong


def joints(mount: MountPoint, tables: Tables) -> Iterator[Joint]:
    """A screw into the thread, or a nut on the stud."""
    there = mount.existing_thread
    thread = tables.find(METRIC_THREADS, there.thread) if there is not None else None
    if there is None or thread is None or nut_is_there(mount):
        return
    joint = _on_stud(mount, there, thread, tables) if there.kind == "stud" else _in_thread(mount, thread, tables)
    if joint is not None:
        yield joint


def modes(mount: MountPoint, tables: Tables) -> tuple[Mode, ...]:
    """The screw, where it is ours, and the item; the thread's own strength only its maker knows."""
    there = mount.existing_thread
    if there is not None and there.kind == "stud":
        return MAKER_LOAD, *through_item(mount, tables)
    return *failure.SCREWED, MAKER_LOAD, *through_item(mount, tables)


def _in_thread(mount: MountPoint, thread: MetricThread, tables: Tables) -> Joint | None:
    """Long enough for a weld nut behind the panel; in a boss, which may be shallower, the proof needs its depth."""
    head = stack.head_for(tables, thread.designation, mount.visible)
    lock = lock_for(mount, tables)
    washers = None if head is None else locked_washers(mount, head, thread.designation, lock, tables, always=True)
    if head is None or washers is None:
        return None
    over_mm = _over_mm(mount, washers, tables)
    engaged_mm = rule(tables, Rules.FACTORY_ENGAGEMENT).value * thread.major_mm
    least_mm = over_mm + mount.thickness_max_mm + engaged_mm
    length_mm = stack.preferred_length_mm(tables, "machine", head.standard, thread.designation, least_mm)
    if length_mm is None:
        return None
    screw = machine_screw(thread, head, length_mm, mount.grade, engaged_mm, length_mm - least_mm)
    done_mm = length_mm - over_mm - mount.thickness_min_mm
    joint = Joint(
        method=NAME, kind=kind_of(mount, tables), layers=layers(mount, tables, washers, None), hole=None, receiver=None,
        screw=screw, washers=washers, grip_mm=over_mm,
        sheet_mm=mount.thickness_min_mm, sheet_max_mm=mount.thickness_max_mm, behind_set_mm=0.0, behind_done_mm=done_mm,
        lock=lock, from_=part_sources(tables, head, length_mm, washers),
    )  # fmt: skip
    return with_limiter(joint, mount, tables)


def _on_stud(mount: MountPoint, there: ExistingThread, thread: MetricThread, tables: Tables) -> Joint | None:
    """The stud is there and stays; the nut is what is bought, its body the stud that it goes on."""
    nut = stack.nut_for(tables, NUT, there.thread)
    if nut is None or nut.across_flats_mm is None:
        return None
    lock = lock_for(mount, tables)
    washers = locked_under(mount, nut.across_flats_mm, there.thread, lock, tables, always=True)
    if washers is None:
        return None
    receiver = Receiver(
        kind=kinds.HEXAGON_NUT, series=nut.standard, thread=there.thread, length_mm=nut.height_max_mm,
        material="steel", grip=no.NO_GRIP, flange=Plate(nut.across_flats_mm), body=Body(thread.major_mm),
        bulge=no.NO_BULGE, edge=no.NO_EDGE, pull=no.NOT_RATED, shear=no.NO_SHEAR, breaking=no.NO_BREAKING,
        box_torque=no.NO_BOX_TORQUE, spin_out=no.HELD, prevailing=no.RUNS_FREE, end=FarEnd.OPEN,
        from_=tables.source_id(NUTS, nut),
    )  # fmt: skip
    joint = Joint(
        method=NAME, kind=kind_of(mount, tables), layers=layers(mount, tables, washers, None), hole=None,
        receiver=receiver, screw=None, washers=washers, grip_mm=_over_mm(mount, washers, tables),
        sheet_mm=mount.thickness_min_mm, sheet_max_mm=mount.thickness_max_mm, behind_set_mm=0.0, behind_done_mm=0.0,
        lock=lock, from_=(receiver.from_,),
    )  # fmt: skip
    return with_limiter(joint, mount, tables)


def _over_mm(mount: MountPoint, washers: tuple[StackPart, ...], tables: Tables) -> float:
    return sum(washer.thickness_mm for washer in washers) + mount.item_thickness_mm + limited_soft_mm(mount, tables)


def stocked(tables: Tables) -> Iterator[Stocked]:
    """The screw for a thread, the nut for a stud."""
    yield from machine_screws(tables)
    yield from nuts(kinds.HEXAGON_NUT, tables, "hexagon")
