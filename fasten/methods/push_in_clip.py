"""Push-in clip: a barbed stem pressed through a hole; light trim, seldom removed, never alone for what is heavy."""

from collections.abc import Iterator

from fasten.catalog.parts import PUSH_IN_CLIPS, PushInClip
from fasten.catalog.tables import Tables
from fasten.geometry import stack
from fasten.geometry.soft import staying
from fasten.methods import common
from fasten.methods import receivers as no
from fasten.methods.common import (
    IN_HOLE,
    NOTHING_EXEMPT,
    layers,
    limited_soft_mm,
    needs_family,
    needs_few_removals,
    needs_light_trim,
    needs_sort,
    needs_strength,
    refuse,
)
from fasten.methods.screw_end import own_length
from fasten.methods.stocked import Stocked
from fasten.model import Joint, JointKind, MountPoint, Receiver, Refusal, Span, kinds
from fasten.model.known import Body, FarEnd, Flange
from fasten.proof.fit.sheet import around_hole
from fasten.proof.modes import common as failure
from fasten.proof.modes import plastic as plastic_modes
from fasten.proof.modes.item import through_item
from fasten.proof.modes.mode import Mode
from fasten.proof.torque import limits as caps
from fasten.proof.torque import tightening
from fasten.text.figures import figure, mm

NAME = "push_in_clip"
GROUND = common.NO_GROUND
fit = around_hole
limits = caps.no_more_limits
torque = tightening.not_tightened
ALWAYS = IN_HOLE
EXEMPT = NOTHING_EXEMPT
screw_end = own_length


def gates(mount: MountPoint, tables: Tables) -> Refusal | None:
    """A panel it snaps behind, few removals, light trim, and a clip whose stem passes the item and grips the layers."""
    wrong = (
        needs_family(NAME, mount, tables, "sheet", *plastic_modes.FAMILIES)
        or needs_strength(NAME, mount, tables)
        or needs_light_trim(NAME, "clip", mount, tables)
        or needs_sort(NAME, "for covers, trim and clamps only", mount, tables, "trim", "clamp")
        or needs_few_removals(NAME, "a few pulls wear a clip", mount, tables)
    )
    filling = [row for row in _rows(tables) if _fills(mount, row)] or list(_rows(tables))
    rows = [row for row in filling if _passes(mount, row)]
    if wrong is not None or any(_grips(mount, row, tables) for row in rows):
        return wrong
    if not rows:
        return _no_stem(mount, filling)
    under = _most_mm(mount, tables)
    least, most = min(row.grip_min_mm for row in rows), max(row.grip_max_mm for row in rows)
    return refuse(NAME, f"none grips {mm(under)} of item and panel together: they take {figure(least)} to {mm(most)}",
                  ("layers together", under, "mm"), ("greatest grip", most, "mm"))  # fmt: skip


def joints(mount: MountPoint, tables: Tables) -> Iterator[Joint]:
    """A joint for each clip whose stem passes the item's hole and that grips item and panel together."""
    for row in _rows(tables):
        if _passes(mount, row) and _grips(mount, row, tables):
            yield _joint(mount, row, tables)


def modes(mount: MountPoint, tables: Tables) -> tuple[Mode, ...]:
    """The clip by its own box, the panel round its stem, the item under its head and on its stem."""
    bears = plastic_modes.BEARING if plastic_modes.is_plastic(mount, tables) else failure.SHEET_BEARING
    return plastic_modes.RATED_PULL, plastic_modes.RATED_SHEAR, bears, *through_item(mount, tables)


def _rows(tables: Tables) -> tuple[PushInClip, ...]:
    return tables.rows(PUSH_IN_CLIPS)


def _passes(mount: MountPoint, row: PushInClip) -> bool:
    """Its barbs spring back in a hole of its own size: the item's is no smaller than the panel's."""
    return row.hole_mm <= mount.item_hole_mm + stack.FITS_HOLE


def _fills(mount: MountPoint, row: PushInClip) -> bool:
    """An existing hole can be opened up, never closed."""
    return mount.existing_hole_mm is None or row.hole_mm + row.hole_plus_mm >= mount.existing_hole_mm


def _no_stem(mount: MountPoint, filling: list[PushInClip]) -> Refusal:
    least_mm = min(row.hole_mm for row in filling)
    least = f"{least_mm:.1f}"
    article = "an" if least.startswith("8") else "a"
    there = "" if mount.existing_hole_mm is None else f" for the existing {mm(mount.existing_hole_mm)} hole"
    return refuse(NAME, f"no clip{there} has a stem that fits through a {mm(mount.item_hole_mm)} item hole",
                  ("item hole", mount.item_hole_mm, "mm"), ("least hole", least_mm, "mm"),
                  change=f"{article} {least} mm item hole")  # fmt: skip


def _under_head_mm(mount: MountPoint, tables: Tables) -> float:
    return mount.item_thickness_mm + limited_soft_mm(mount, tables) + mount.thickness_max_mm


def _grips(mount: MountPoint, row: PushInClip, tables: Tables) -> bool:
    least_mm = _under_head_mm(mount, tables) - (mount.thickness_max_mm - mount.thickness_min_mm)
    return row.grip_min_mm <= least_mm and _most_mm(mount, tables) <= row.grip_max_mm


def _most_mm(mount: MountPoint, tables: Tables) -> float:
    """Nothing holds a soft layer round a clip: its barbs must catch where it is not pressed at all."""
    free_mm = sum(layer.thickness_mm for layer in staying(mount.between))
    return _under_head_mm(mount, tables) + max(0.0, free_mm - limited_soft_mm(mount, tables))


def _joint(mount: MountPoint, row: PushInClip, tables: Tables) -> Joint:
    """The clip is its own screw and receiver: it is the receiver here, and there is no screw."""
    grip_mm = _under_head_mm(mount, tables)
    receiver = Receiver(
        kind=kinds.PUSH_IN_CLIP, series="barbed stem", thread=mm(row.hole_mm), length_mm=row.length_mm,
        material="plastic", grip=Span(row.grip_min_mm, row.grip_max_mm),
        flange=Flange(row.head_mm, row.head_height_mm), body=Body(row.hole_mm), bulge=no.NO_BULGE, edge=no.NO_EDGE,
        pull=no.box_pull(row.rated_n), shear=no.NO_SHEAR, breaking=no.NO_BREAKING, box_torque=no.NOT_TIGHTENED,
        spin_out=no.HELD, prevailing=no.RUNS_FREE, end=FarEnd.OPEN, from_=tables.source_id(PUSH_IN_CLIPS, row),
    )  # fmt: skip
    behind_mm = row.length_mm - (grip_mm - mount.thickness_max_mm) - mount.thickness_min_mm
    return Joint(
        method=NAME, kind=JointKind.LOCATED, layers=layers(mount, tables, (), None),
        hole=stack.hole_with_bit(tables, row.hole_mm, 0.0, row.hole_plus_mm, depth_mm=None, shape="round"),
        receiver=receiver, screw=None, washers=(), grip_mm=grip_mm, sheet_mm=mount.thickness_min_mm,
        sheet_max_mm=mount.thickness_max_mm, behind_set_mm=behind_mm, behind_done_mm=behind_mm,
        lock=kinds.BARBS, from_=(receiver.from_,),
    )  # fmt: skip


def stocked(tables: Tables) -> Iterator[Stocked]:
    """Every clip."""
    for row in _rows(tables):
        yield Stocked(kinds.PUSH_IN_CLIP, mm(row.hole_mm), "barbed stem", "plastic", row.length_mm)
