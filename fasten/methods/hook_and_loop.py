"""Hook-and-loop: light trim that comes off often, held by its face; a parked car's heat decides how it is backed."""

from collections.abc import Iterator, Mapping

from fasten.catalog.face_parts import FACE_SIZES, HOOK_AND_LOOP
from fasten.catalog.tables import Tables
from fasten.methods import common
from fasten.methods import stocked as parts
from fasten.methods.common import Always, needs_sort
from fasten.methods.face_common import (
    RECTANGLE,
    bond_of,
    face_joint,
    no_foam,
    not_heavy,
    sizes,
    stays_clean,
    takes_bond,
)
from fasten.methods.screw_end import own_length
from fasten.model import Joint, MountPoint, Patch, Refusal, Subject, kinds
from fasten.proof.fit import faces as face_fit
from fasten.proof.modes import faces as face_modes
from fasten.proof.modes.mode import Mode
from fasten.proof.torque import limits as caps
from fasten.proof.torque import tightening

NAME = "hook_and_loop"
GROUND = common.NO_GROUND
fit = face_fit.checks
limits = caps.no_more_limits
torque = tightening.not_tightened
ALWAYS = Always(in_hole=False, patches=(kinds.HOOK_AND_LOOP,))
EXEMPT: Mapping[Subject, str] = {
    Subject.ITEM: "nothing goes through the item: what holds lies on its whole face",
    Subject.SUBSTRATE_TENSION: "its own backing is sold to outlast the pair: common practice, no figure for its pull",
    Subject.SUBSTRATE_SHEAR: "its own backing is sold to outlast the pair: common practice, no figure for its shear",
}
screw_end = own_length
stocked = parts.nothing


def gates(mount: MountPoint, tables: Tables) -> Refusal | None:
    """Light, clean, no foam under it, and faces that its backing sticks to."""
    return (
        not_heavy(NAME, "hook-and-loop", mount, tables)
        or needs_sort(NAME, "for trim and light boxes only", mount, tables, "trim", "box")
        or no_foam(NAME, mount)
        or stays_clean(NAME, mount)
        or takes_bond(NAME, mount, tables, mount.material, mount.item_material)
    )


def joints(mount: MountPoint, tables: Tables) -> Iterator[Joint]:
    """A joint for each strip and size, the smallest first."""
    for row in tables.rows(HOOK_AND_LOOP):
        for size in sizes(kinds.HOOK_AND_LOOP, tables):
            patch = Patch(
                kind=kinds.HOOK_AND_LOOP, series=row.series, length_mm=size.length_mm, width_mm=size.width_mm,
                thickness_mm=row.thickness_mm, shape=RECTANGLE, from_=tables.source_id(HOOK_AND_LOOP, row),
                bond=None if row.bond == "-" else bond_of(row.bond, mount, tables),
            )  # fmt: skip
            yield face_joint(NAME, mount, tables, patch, tables.source_id(FACE_SIZES, size))


def modes(mount: MountPoint, tables: Tables) -> tuple[Mode, ...]:
    """The strips part, or the bond of a strip without a backing of its own."""
    return (face_modes.HOOK_SHEAR, face_modes.HOOK_PULL, *face_modes.BONDED)
