"""Tapped hole: a thread cut in plate thick enough to hold it."""

from collections.abc import Iterator

from fasten.catalog.rows import METRIC_TAP_DRILLS, PROPERTY_CLASSES, MetricThread
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry import stack
from fasten.geometry.joint import screw_of
from fasten.geometry.threads import metric_limits
from fasten.mechanics.stripping import external_shear_area_mm2, internal_shear_area_mm2
from fasten.methods import common
from fasten.methods.common import (
    IN_HOLE,
    NOTHING_EXEMPT,
    kind_of,
    layers,
    limited_soft_mm,
    machine_screw,
    needs_family,
    part_sources,
    refuse,
)
from fasten.methods.holding import lock_for, locked_washers, with_limiter
from fasten.methods.screw_end import ScrewEnd, past_receiver_mm, thinner_mm
from fasten.methods.stocked import machine_screws
from fasten.model import Joint, MountPoint, Refusal
from fasten.proof.fit.sheet import around_hole
from fasten.proof.modes import common as failure
from fasten.proof.modes.item import through_item
from fasten.proof.modes.mode import Mode
from fasten.proof.torque import limits as caps
from fasten.proof.torque import tightening
from fasten.text.figures import mm, words

NAME = "tapped_hole"
GROUND = common.GROUND
fit = around_hole
limits = caps.strip_limit
torque = tightening.window
ALWAYS = IN_HOLE
EXEMPT = NOTHING_EXEMPT
stocked = machine_screws
SIZES = ("M3", "M4", "M5", "M6", "M8", "M10")


def gates(mount: MountPoint, tables: Tables) -> Refusal | None:
    """Plate over about 3 mm."""
    wrong = needs_family(NAME, mount, tables, "sheet")
    least = rule(tables, Rules.TAPPED_PLATE).value
    if wrong is None and mount.thickness_min_mm < least:
        return refuse(NAME, f"{mm(mount.thickness_min_mm)} holds no cut thread: it takes plate of {mm(least)} or more",
                      ("sheet", mount.thickness_min_mm, "mm"), ("least plate", least, "mm"))  # fmt: skip
    return wrong or _weak_screw(mount, tables)


def joints(mount: MountPoint, tables: Tables) -> Iterator[Joint]:
    """A joint for each thread that passes the item's hole and has its least engagement in the plate."""
    pitches = rule(tables, Rules.TAPPED_HOLE_PITCHES).value
    for thread in stack.threads_for_hole(tables, mount.item_hole_mm, SIZES):
        if mount.thickness_min_mm >= pitches * thread.pitch_mm and _plate_goes_first(mount, thread, tables):
            joint = _joint(mount, thread, tables)
            if joint is not None:
                yield joint


def _weak_screw(mount: MountPoint, tables: Tables) -> Refusal | None:
    """Refuse a screw whose own thread strips before the plate's: what is proved here is the plate's thread."""
    threads = stack.threads_for_hole(tables, mount.item_hole_mm, SIZES)
    if not threads or any(_plate_goes_first(mount, thread, tables) for thread in threads):
        return None
    because = f"the thread of a class {mount.grade} screw strips before that of {words(mount.material)}"
    return refuse(NAME, f"{because}: take a stronger class", ("screw strength", _screw_mpa(mount, tables), "MPa"),
                  ("plate strength", failure.ultimate(tables, mount.material)[0].value, "MPa"))  # fmt: skip


def _plate_goes_first(mount: MountPoint, thread: MetricThread, tables: Tables) -> bool:
    """Whether the plate's thread is the weaker of the two, as FED-STD-H28 calculates both at their limits."""
    limits = metric_limits(tables, thread.designation)
    external_mm2 = external_shear_area_mm2(
        engagement_mm=thread.pitch_mm, pitch_mm=thread.pitch_mm,
        internal_minor_max_mm=limits.internal.minor_mm.max, external_pitch_min_mm=limits.external.pitch_mm.min,
    )  # fmt: skip
    internal_mm2 = internal_shear_area_mm2(
        engagement_mm=thread.pitch_mm, pitch_mm=thread.pitch_mm,
        external_major_min_mm=limits.external.major_mm.min, internal_pitch_max_mm=limits.internal.pitch_mm.max,
    )  # fmt: skip
    plate_mpa = failure.ultimate(tables, mount.material)[0].value
    return _screw_mpa(mount, tables) * external_mm2 >= plate_mpa * internal_mm2


def _screw_mpa(mount: MountPoint, tables: Tables) -> float:
    row = tables.need(PROPERTY_CLASSES, mount.grade)
    return row.tensile_mpa


def modes(mount: MountPoint, tables: Tables) -> tuple[Mode, ...]:
    """Screw, the tapped thread, the plate in bearing and the item under the head."""
    return (
        *failure.SCREWED, failure.TAPPED_THREAD, failure.SHEET_BEARING,
        *through_item(mount, tables),
    )  # fmt: skip


def screw_end(joint: Joint, mount: MountPoint, tables: Tables) -> ScrewEnd | None:
    """A pitch past the thickest plate."""
    return ScrewEnd(past_min_mm=past_receiver_mm(screw_of(joint).pitch_mm, tables) + thinner_mm(joint))


def _joint(mount: MountPoint, thread: MetricThread, tables: Tables) -> Joint | None:
    size = thread.designation
    head = stack.head_for(tables, size, mount.visible)
    drill = tables.find(METRIC_TAP_DRILLS, size)
    if head is None or drill is None:
        return None
    lock = lock_for(mount, tables)
    washers = locked_washers(mount, head, size, lock, tables, always=True)
    if washers is None:
        return None
    over_mm = sum(washer.thickness_mm for washer in washers) + mount.item_thickness_mm + limited_soft_mm(mount, tables)
    least_mm = over_mm + mount.thickness_max_mm + past_receiver_mm(thread.pitch_mm, tables)
    length_mm = stack.preferred_length_mm(tables, "machine", head.standard, size, least_mm)
    if length_mm is None:
        return None
    past_mm = length_mm - over_mm - mount.thickness_min_mm
    minor = metric_limits(tables, size).internal.minor_mm
    hole = stack.hole_with_bit(tables, drill.drill_mm, max(drill.drill_mm - minor.min, 0.0),
                               max(minor.max - drill.drill_mm, 0.0), depth_mm=None, shape="round")  # fmt: skip
    joint = Joint(
        method=NAME, kind=kind_of(mount, tables), layers=layers(mount, tables, washers, None), hole=hole, receiver=None,
        screw=machine_screw(thread, head, length_mm, mount.grade, mount.thickness_min_mm, past_mm), washers=washers,
        grip_mm=over_mm, sheet_mm=mount.thickness_min_mm,
        sheet_max_mm=mount.thickness_max_mm, behind_set_mm=rule(tables, Rules.DRILL_STOP_PAST_SHEET).value,
        behind_done_mm=past_mm, lock=lock,
        from_=(tables.source_id(METRIC_TAP_DRILLS, drill), *part_sources(tables, head, length_mm, washers)),
    )  # fmt: skip
    return with_limiter(joint, mount, tables)
