"""Adhesive and foam tape: the last resort, for light things that never or rarely come off."""

from collections.abc import Iterator, Mapping

from fasten.catalog.face_parts import ADHESIVES, FACE_SIZES
from fasten.catalog.tables import Tables
from fasten.methods import common
from fasten.methods import stocked as parts
from fasten.methods.common import Always, needs_sort, refuse
from fasten.methods.face_common import (
    BY_FREQUENCY,
    RECTANGLE,
    comes_off,
    face_joint,
    no_foam,
    not_heavy,
    sizes,
    takes_bond,
)
from fasten.methods.screw_end import own_length
from fasten.model import Joint, MountPoint, Patch, Refusal, Removal, Subject, kinds
from fasten.proof.fit import faces as face_fit
from fasten.proof.modes import faces as face_modes
from fasten.proof.modes.mode import Mode
from fasten.proof.torque import limits as caps
from fasten.proof.torque import tightening

NAME = "adhesive"
GROUND = common.NO_GROUND
fit = face_fit.checks
limits = caps.no_more_limits
torque = tightening.not_tightened
ALWAYS = Always(in_hole=False, patches=(kinds.FOAM_TAPE, kinds.ADHESIVE))
EXEMPT: Mapping[Subject, str] = {Subject.ITEM: "nothing goes through the item: the check of the bond covers its face"}
screw_end = own_length
stocked = parts.nothing
KINDS = {"tape": kinds.FOAM_TAPE, "paste": kinds.ADHESIVE}


STUCK = ("gear", "box", "trim", "clamp")


def gates(mount: MountPoint, tables: Tables) -> Refusal | None:
    """Light, seldom off, no foam under it, faces that it sticks to."""
    wrong = (
        not_heavy(NAME, "adhesive", mount, tables)
        or needs_sort(NAME, "a speaker shakes loose from a bond", mount, tables, *STUCK)
        or no_foam(NAME, mount)
    )
    if wrong is not None:
        return wrong
    if BY_FREQUENCY.index(mount.removed) > BY_FREQUENCY.index(Removal.RARELY):
        return refuse(NAME, f"comes off only by cutting, and this comes off {mount.removed.value}",
                      ("removals without new adhesive", 0, "-"))  # fmt: skip
    return takes_bond(NAME, mount, tables, mount.material, mount.item_material)


def joints(mount: MountPoint, tables: Tables) -> Iterator[Joint]:
    """A joint for each tape or adhesive that may be cut as often, and each size, the smallest first."""
    for row in tables.rows(ADHESIVES):
        if row.use == "laminate" or not comes_off(row, mount):
            continue
        for size in sizes(KINDS[row.kind], tables):
            patch = Patch(
                kind=KINDS[row.kind], series=row.adhesive, length_mm=size.length_mm, width_mm=size.width_mm,
                thickness_mm=row.thickness_mm, shape=RECTANGLE, from_=tables.source_id(ADHESIVES, row),
                bond=row.adhesive,
            )  # fmt: skip
            yield face_joint(NAME, mount, tables, patch, tables.source_id(FACE_SIZES, size))


def modes(mount: MountPoint, tables: Tables) -> tuple[Mode, ...]:
    """What parts a bond, or by its makers' guides a tape."""
    return (*face_modes.BONDED, *face_modes.TAPED)
