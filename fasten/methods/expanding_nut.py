"""Expanding nuts: a rubber body that bulges behind the panel, or a plastic nut in a square hole; for light things."""

from collections.abc import Iterator

from fasten.catalog.named import material
from fasten.catalog.parts import EXPANDING_NUTS, ExpandingNut, Head
from fasten.catalog.rows import MetricThread, TappingThread
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry import stack
from fasten.methods import common, tapping_screw
from fasten.methods import receivers as no
from fasten.methods.common import (
    IN_HOLE,
    NOTHING_EXEMPT,
    ZINC,
    backing_washer,
    head_washers,
    largest_first,
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
from fasten.methods.holding import with_limiter
from fasten.methods.plastic_common import large_washer
from fasten.methods.screw_end import ScrewEnd
from fasten.methods.stocked import Stocked, machine_screws
from fasten.model import Joint, JointKind, MountPoint, Receiver, Refusal, Screw, Span, StackPart, kinds
from fasten.model.known import Body, FarEnd, Flange
from fasten.proof.fit.sheet import around_hole
from fasten.proof.modes import common as failure
from fasten.proof.modes import plastic as plastic_modes
from fasten.proof.modes.item import through_item
from fasten.proof.modes.mode import Mode
from fasten.proof.modes.shank import CORE_SHEAR
from fasten.proof.torque import limits as caps
from fasten.proof.torque import tightening
from fasten.text.figures import figure, mm
from fasten.text.rounding import rounded_up

NAME = "expanding_nut"
GROUND = common.NO_GROUND
fit = around_hole
limits = caps.no_more_limits
torque = tightening.by_box
ALWAYS = IN_HOLE
EXEMPT = NOTHING_EXEMPT
RUBBER, SQUARE = "rubber body", "square hole"
KINDS = {RUBBER: kinds.RUBBER_NUT, SQUARE: kinds.SQUARE_NUT}


def gates(mount: MountPoint, tables: Tables) -> Refusal | None:
    """Panel inside the grip of a nut whose screw suits the item's hole; without a rated pull, light things only."""
    families = ("sheet", *plastic_modes.FAMILIES)
    wrong = (
        needs_family(NAME, mount, tables, *families)
        or needs_strength(NAME, mount, tables)
        or needs_both_sides_of_laminate(NAME, mount, tables)
    )
    if wrong is not None:
        return wrong
    rows = [row for row, _ in _passing(mount, tables)]
    if not rows:
        return refuse(NAME, f"no expanding nut has a screw for a {mm(mount.item_hole_mm)} hole",
                      ("item hole", mount.item_hole_mm, "mm"))  # fmt: skip
    gripping = [row for row in rows if _grips(mount, row, tables)]
    if not gripping:
        most = max(row.grip_max_mm for row in rows)
        behind = min((washer.thickness_mm for row in rows for washer in _backing(mount, row, tables)), default=0.0)
        more = f" and a {mm(behind)} backing washer" if behind else ""
        return refuse(NAME, f"none grips {mm(mount.thickness_max_mm)}{more}",
                      ("gripped", mount.thickness_max_mm + behind, "mm"), ("greatest grip", most, "mm"))  # fmt: skip
    return _mass_gate(mount, gripping, tables)


def _mass_gate(mount: MountPoint, rows: list[ExpandingNut], tables: Tables) -> Refusal | None:
    share_kg, most_kg = mount.mass_kg / mount.fixings, rule(tables, Rules.EXPANDING_MASS).value
    if share_kg <= most_kg or any(row.rated_n is not None for row in rows):
        return None
    allowed = f"{rounded_up(share_kg, 2)} kg a nut, {figure(most_kg)} kg at most where no pull is rated"
    return refuse(NAME, f"for light things: {allowed}",
                  ("mass a nut", share_kg, "kg"), ("limit", most_kg, "kg"))  # fmt: skip


def joints(mount: MountPoint, tables: Tables) -> Iterator[Joint]:
    """A joint for each nut that grips the panel and carries its share."""
    light = mount.mass_kg / mount.fixings <= rule(tables, Rules.EXPANDING_MASS).value
    for row, thread in _passing(mount, tables):
        if not _grips(mount, row, tables) or not (light or row.rated_n is not None):
            continue
        joint = _rubber(mount, row, thread, tables) if isinstance(thread, MetricThread) else None
        if isinstance(thread, tuple):
            joint = _square(mount, row, thread[0], thread[1], tables)
        if joint is not None:
            yield joint


def modes(mount: MountPoint, tables: Tables) -> tuple[Mode, ...]:
    """The nut by its own box, the screw in shear, the panel beside it and the item under the head."""
    bears = plastic_modes.BEARING if plastic_modes.is_plastic(mount, tables) else failure.SHEET_BEARING
    return (
        plastic_modes.RATED_PULL, failure.SCREW_SHEAR, CORE_SHEAR, bears, *through_item(mount, tables),
    )  # fmt: skip


def screw_end(joint: Joint, mount: MountPoint, tables: Tables) -> ScrewEnd | None:
    """To the far end of the nut, from where it draws up or spreads."""
    return ScrewEnd(past_min_mm=0.0)


Found = MetricThread | tuple[TappingThread, Head]


def _passing(mount: MountPoint, tables: Tables) -> Iterator[tuple[ExpandingNut, Found]]:
    """Rubber bodies for metric screws; for what seldom comes off, plastic ones whose thread a tapping screw forms."""
    rows = tables.rows(EXPANDING_NUTS)
    yield from largest_first(with_threads([row for row in rows if row.series == RUBBER], mount, tables))
    if mount.removed in tapping_screw.SELDOM:
        square = {row.thread: row for row in rows if row.series == SQUARE}
        for found in tapping_screw.fitting(mount, tables):
            if found[0].designation in square:
                yield square[found[0].designation], found


def _backing(mount: MountPoint, row: ExpandingNut, tables: Tables) -> tuple[StackPart, ...]:
    return backing_washer(mount, row.hole_mm + row.hole_plus_mm, tables)


def _grips(mount: MountPoint, row: ExpandingNut, tables: Tables) -> bool:
    laminate = material(tables, mount.material).family == "laminate"
    behind = _backing(mount, row, tables)
    more_mm = sum(washer.thickness_mm for washer in behind)
    fits = row.grip_min_mm <= mount.thickness_min_mm + more_mm and mount.thickness_max_mm + more_mm <= row.grip_max_mm
    return fits and bool(behind) == laminate


def _rubber(mount: MountPoint, row: ExpandingNut, thread: MetricThread, tables: Tables) -> Joint | None:
    """The screw draws the thread up from the far end, so it reaches to there and a turn further."""
    head = stack.head_for(tables, thread.designation, mount.visible)
    if head is None:
        return None
    washers = head_washers(mount, head, thread.designation, tables, always=False) or ()
    over_mm = _over_mm(mount, row, washers, tables)
    least_mm = over_mm + row.length_mm
    length_mm = stack.preferred_length_mm(tables, "machine", head.standard, thread.designation, least_mm)
    if length_mm is None:
        return None
    screw = machine_screw(thread, head, length_mm, mount.grade, thread.major_mm, length_mm - least_mm)
    return _joint(mount, row, screw, washers, over_mm, part_sources(tables, head, length_mm, washers), tables)


def _square(mount: MountPoint, row: ExpandingNut, thread: TappingThread, head: Head, tables: Tables) -> Joint | None:
    washers = large_washer(mount, thread.major_max_mm, head.diameter_max_mm, tables)
    over_mm = _over_mm(mount, row, washers, tables)
    least_mm = over_mm + row.length_mm
    length_mm = stack.preferred_length_mm(tables, "tapping", head.standard, thread.designation, least_mm)
    if length_mm is None:
        return None
    screw = Screw(
        kind=kinds.TAPPING_IN_NUT, thread=thread.designation, length_mm=length_mm, head=head.form,
        standard=head.standard, class_=kinds.TAPPING_IN_NUT.grade, finish=ZINC, drive=f"{head.drive} {head.drive_size}",
        diameter_mm=thread.major_max_mm, pitch_mm=thread.pitch_mm, head_mm=head.diameter_min_mm or head.diameter_max_mm,
        head_height_mm=head.height_max_mm, engagement_mm=row.length_mm, protrusion_mm=length_mm - least_mm,
    )  # fmt: skip
    return _joint(mount, row, screw, washers, over_mm, part_sources(tables, head, length_mm, washers), tables)


def _over_mm(mount: MountPoint, row: ExpandingNut, washers: tuple[StackPart, ...], tables: Tables) -> float:
    over_mm = sum(washer.thickness_mm for washer in washers) + mount.item_thickness_mm + limited_soft_mm(mount, tables)
    return over_mm + row.flange_thickness_mm


def _joint(
    mount: MountPoint, row: ExpandingNut, screw: Screw, washers: tuple[StackPart, ...], over_mm: float,
    sources: tuple[str, ...], tables: Tables,
) -> Joint:  # fmt: skip
    behind = _backing(mount, row, tables)
    gripped_mm = mount.thickness_max_mm + sum(washer.thickness_mm for washer in behind)
    receiver = Receiver(
        kind=KINDS[row.series], series=f"{mm(row.flange_mm)} flange", thread=row.thread, length_mm=row.length_mm,
        material="rubber" if row.series == RUBBER else "plastic", grip=Span(row.grip_min_mm, row.grip_max_mm),
        flange=Flange(row.flange_mm, row.flange_thickness_mm), body=Body(row.hole_mm), bulge=no.NO_BULGE,
        edge=no.NO_EDGE, pull=no.box_pull(row.rated_n), shear=no.NO_SHEAR, breaking=no.NO_BREAKING,
        box_torque=no.box_torque(row.torque_nm), spin_out=no.HELD, prevailing=no.RUNS_FREE, end=FarEnd.OPEN,
        from_=tables.source_id(EXPANDING_NUTS, row),
    )  # fmt: skip
    past_mm = screw.length_mm - over_mm - mount.thickness_min_mm
    joint = Joint(
        method=NAME, kind=JointKind.LOCATED, layers=layers(mount, tables, (*washers, *behind), None),
        hole=stack.hole_with_bit(tables, row.hole_mm, 0.0, row.hole_plus_mm, depth_mm=None, shape=row.shape),
        receiver=receiver, screw=screw, washers=(*washers, *behind), grip_mm=gripped_mm,
        sheet_mm=mount.thickness_min_mm, sheet_max_mm=mount.thickness_max_mm,
        behind_set_mm=row.length_mm - mount.thickness_min_mm, behind_done_mm=past_mm, lock=kinds.NUT_GRIPS,
        from_=(receiver.from_, *sources),
    )  # fmt: skip
    return with_limiter(joint, mount, tables)


def stocked(tables: Tables) -> Iterator[Stocked]:
    """Every nut; the screw of a rubber one is a machine screw, of a square one a tapping screw."""
    yield from machine_screws(tables)
    yield from tapping_screw.stocked(tables)
    for row in tables.rows(EXPANDING_NUTS):
        material = "rubber" if row.series == RUBBER else "plastic"
        if (kind := KINDS.get(row.series)) is not None:
            yield Stocked(kind, row.thread, f"{mm(row.flange_mm)} flange", material, row.length_mm)
