"""Tapping screw in sheet: light, and rarely or never removed where the sheet is thinner than a pitch."""

from collections.abc import Iterator
from math import ceil

from fasten.catalog.named import material
from fasten.catalog.parts import HEADS, LENGTH_RANGES, Head
from fasten.catalog.rows import (
    TAPPING_CLEARANCE,
    TAPPING_HOLES_DIN_7975,
    TAPPING_HOLES_THIN_SHEET,
    TAPPING_THREADS,
    TAPPING_TORSION,
    TappingThread,
)
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry import stack
from fasten.geometry.joint import screw_of
from fasten.methods import common
from fasten.methods.common import (
    IN_HOLE,
    NOTHING_EXEMPT,
    ZINC,
    kind_of,
    layers,
    limited_soft_mm,
    needs_family,
    needs_hard_layers,
    part_sources,
    refuse,
    with_fixings,
)
from fasten.methods.holding import with_limiter
from fasten.methods.screw_end import ScrewEnd, thinner_mm
from fasten.methods.stocked import ANY_MM, Stocked
from fasten.model import Hole, Joint, MountPoint, Position, Refusal, Removal, Screw, StackPart, kinds
from fasten.model.kinds import ScrewKind
from fasten.proof.fit.sheet import around_hole
from fasten.proof.modes import common as failure
from fasten.proof.modes.item import through_item
from fasten.proof.modes.mode import Mode
from fasten.proof.modes.shank import CORE
from fasten.proof.torque import limits as caps
from fasten.proof.torque import tightening
from fasten.text.figures import figure, mm
from fasten.text.rounding import rounded_up

NAME = "tapping_screw"
GROUND = common.NO_GROUND_TAPPING
fit = around_hole
limits = caps.pull_out_limit
torque = tightening.window
ALWAYS = IN_HOLE
EXEMPT = NOTHING_EXEMPT
STANDARD = "ISO 14585"
SIZES = ("ST2.9", "ST3.5", "ST4.2", "ST4.8", "ST5.5", "ST6.3")
SELDOM = (Removal.NEVER, Removal.RARELY)
PITCHES_PAST = 2  # of full thread beyond the sheet


def gates(mount: MountPoint, tables: Tables) -> Refusal | None:
    """Sheet of at least one pitch, or thinner only for what is light and seldom comes off."""
    wrong = needs_family(NAME, mount, tables, "sheet") or needs_hard_layers(NAME, mount, tables)
    sizes = fitting(mount, tables)
    if wrong is not None or not sizes:
        return wrong or no_size(NAME, mount)
    most_mm = rule(tables, Rules.TAPPING_SHEET_MOST).value * max(thread.major_max_mm for thread, _ in sizes)
    if mount.thickness_max_mm > most_mm:
        return refuse(NAME, f"{mm(mount.thickness_max_mm)} is too thick for a tapping screw to cut its thread in",
                      ("sheet", mount.thickness_max_mm, "mm"), ("most", most_mm, "mm"))  # fmt: skip
    finest = min(thread.pitch_mm for thread, _ in sizes)
    return thin_sheet_gate(NAME, mount, finest, tables)


def thin_sheet_gate(method: str, mount: MountPoint, finest_mm: float, tables: Tables) -> Refusal | None:
    """Below one pitch: never or rarely removed, and not more than the mass a screw holds there."""
    if holds_a_turn(mount, finest_mm, tables):
        return None
    pitch = f"{mm(mount.thickness_min_mm)} of sheet is thinner than one {mm(finest_mm)} pitch"
    figures = (("sheet", mount.thickness_min_mm, "mm"), ("pitch", finest_mm, "mm"))
    if mount.removed not in SELDOM:
        return refuse(method, f"{pitch}: too little thread to take out {mount.removed.value}", *figures)
    most_kg = rule(tables, Rules.TAPPING_MASS_PER_SCREW).value
    share_kg = mount.mass_kg / mount.fixings
    if share_kg > most_kg:
        needed = ceil(mount.mass_kg / most_kg)
        needed += needed % 2 if mount.pattern is not None and mount.pattern.kind == "rectangle" else 0
        most = max(rule(tables, Rules.TAPPING_OFFERED).value, 2 * mount.fixings)
        return refuse(method, f"{pitch}: {rounded_up(share_kg, 2)} kg a screw, {figure(most_kg)} kg at most", *figures,
                      ("mass a screw", share_kg, "kg"), ("limit", most_kg, "kg"),
                      change=with_fixings(mount, needed) if needed <= most else None)  # fmt: skip
    return None


def holds_thread(mount: MountPoint, thread: TappingThread, tables: Tables) -> bool:
    """Sheet of a pitch, or thinner for what seldom comes off and is light enough for one screw."""
    most_kg = rule(tables, Rules.TAPPING_MASS_PER_SCREW).value
    light = mount.removed in SELDOM and mount.mass_kg / mount.fixings <= most_kg
    return light or holds_a_turn(mount, thread.pitch_mm, tables)


def holds_a_turn(mount: MountPoint, pitch_mm: float, tables: Tables) -> bool:
    """Whether the sheet at its thinnest holds a whole turn of the thread."""
    return mount.thickness_min_mm >= rule(tables, Rules.SHEET_PITCHES).value * pitch_mm


def no_size(method: str, mount: MountPoint) -> Refusal:
    """No screw of the series passes the item's hole and covers it with its head."""
    return refuse(method, f"no tapping screw fits through a {mm(mount.item_hole_mm)} hole and covers it with its head",
                  ("item hole", mount.item_hole_mm, "mm"))  # fmt: skip


def fitting(mount: MountPoint, tables: Tables) -> tuple[tuple[TappingThread, Head], ...]:
    """Screws that pass the item's hole and whose head covers it by a millimetre."""
    found = []
    for size in SIZES:
        thread = tables.find(TAPPING_THREADS, size)
        clearance = tables.find(TAPPING_CLEARANCE, size)
        head = tables.find(HEADS, STANDARD, size)
        passes = clearance.hole_mm if clearance is not None else None
        if thread is None or head is None or tables.find(TAPPING_TORSION, size) is None:
            continue
        least = passes if passes is not None else thread.major_max_mm
        if least <= mount.item_hole_mm + stack.FITS_HOLE and head.diameter_max_mm >= mount.item_hole_mm + 1.0:
            found.append((thread, head))
    return tuple(found)


def joints(mount: MountPoint, tables: Tables) -> Iterator[Joint]:
    """A joint for each size that has a hole in its table for this sheet."""
    for thread, head in fitting(mount, tables):
        found = _hole(mount, thread, tables) if holds_thread(mount, thread, tables) else None
        if found is not None:
            yield from sized(NAME, kinds.TAPPING_SCREW, mount, thread, head, found, tables)


def modes(mount: MountPoint, tables: Tables) -> tuple[Mode, ...]:
    """The sheet by both codes, the core of the screw and the item under the head."""
    return (
        failure.PULL_OUT, failure.TAPPING_SHEAR, failure.PULL_OUT_EN, failure.TAPPING_BEARING_EN, *CORE,
        *through_item(mount, tables),
    )  # fmt: skip


def screw_end(joint: Joint, mount: MountPoint, tables: Tables) -> ScrewEnd | None:
    """Two pitches of full thread past the thickest sheet."""
    return ScrewEnd(past_min_mm=PITCHES_PAST * screw_of(joint).pitch_mm + thinner_mm(joint))


def _hole(mount: MountPoint, thread: TappingThread, tables: Tables) -> tuple[Hole, str] | None:
    """The drilled hole: from the thin-sheet table, else from DIN 7975 at the next thinner listed sheet."""
    sheet_mm, aluminium = mount.thickness_max_mm, mount.material == "aluminium"
    for row in tables.rows(TAPPING_HOLES_THIN_SHEET):
        diameter = row.aluminium_drilled_mm if aluminium else row.steel_drilled_mm
        if row.size == thread.designation and row.over_mm < sheet_mm <= row.to_mm and diameter is not None:
            return _with_bit(diameter, tables), tables.source_id(TAPPING_HOLES_THIN_SHEET, row)
    listed = [
        row for row in tables.rows(TAPPING_HOLES_DIN_7975)
        if row.size == thread.designation and row.sheet_mm <= sheet_mm
    ]  # fmt: skip
    if not listed or sheet_mm > rule(tables, Rules.TAPPING_SHEET_MOST).value * thread.major_max_mm:
        return None
    last = listed[-1]
    diameter = last.rm_100_mm if aluminium else last.rm_300_mm
    return None if diameter is None else (_with_bit(diameter, tables), tables.source_id(TAPPING_HOLES_DIN_7975, last))


def _with_bit(diameter_mm: float, tables: Tables) -> Hole:
    return stack.hole_with_bit(tables, diameter_mm, 0.05, 0.1, depth_mm=None, shape="round")


def _washer(mount: MountPoint, thread: TappingThread, tables: Tables) -> tuple[StackPart, ...]:
    """The smallest large washer that passes the screw, under the head on a soft item."""
    if material(tables, mount.item_material).family == "sheet":
        return ()
    for size in ("M3", "M4", "M5", "M6", "M8"):
        washer = stack.washer_for(tables, "large", size, Position.HEAD)
        if washer is not None and washer.hole_mm >= thread.major_max_mm:
            return (washer,)
    return ()


def sized(
    method: str,
    kind: ScrewKind,
    mount: MountPoint,
    thread: TappingThread,
    head: Head,
    found: tuple[Hole, str],
    tables: Tables,
) -> Iterator[Joint]:
    """The joint of one size, with the shortest screw whose full thread passes the sheet by two pitches."""
    hole, source = found
    washers = _washer(mount, thread, tables)
    over_mm = sum(washer.thickness_mm for washer in washers) + mount.item_thickness_mm
    over_mm += limited_soft_mm(mount, tables)
    least_mm = over_mm + mount.thickness_max_mm + PITCHES_PAST * thread.pitch_mm
    length_mm = stack.preferred_length_mm(tables, "tapping", STANDARD, thread.designation, least_mm)
    if length_mm is None:
        return
    past_mm = length_mm - over_mm - mount.thickness_min_mm
    screw = Screw(
        kind=kind, thread=thread.designation, length_mm=length_mm, head=head.form, standard=head.standard,
        class_=kind.grade, finish=ZINC, drive=f"{head.drive} {head.drive_size}",
        diameter_mm=thread.major_max_mm, pitch_mm=thread.pitch_mm, head_mm=head.diameter_min_mm or head.diameter_max_mm,
        head_height_mm=head.height_max_mm,
        engagement_mm=mount.thickness_min_mm, protrusion_mm=past_mm,
    )  # fmt: skip
    joint = Joint(
        method=method, kind=kind_of(mount, tables), layers=layers(mount, tables, washers, None), hole=hole,
        receiver=None, screw=screw, washers=washers, grip_mm=over_mm, sheet_mm=mount.thickness_min_mm,
        sheet_max_mm=mount.thickness_max_mm,
        behind_set_mm=rule(tables, Rules.DRILL_STOP_PAST_SHEET).value, behind_done_mm=past_mm, lock=kinds.NO_LOCK,
        from_=(source, tables.source_id(TAPPING_THREADS, thread), *part_sources(tables, head, length_mm, washers)),
    )  # fmt: skip
    yield with_limiter(joint, mount, tables)


def stocked(tables: Tables) -> Iterator[Stocked]:
    """Every size of its standard."""
    for row in tables.rows(LENGTH_RANGES):
        if row.standard == STANDARD:
            yield Stocked(kinds.TAPPING_SCREW, row.size, row.standard, kinds.TAPPING_SCREW.grade, ANY_MM)
