"""Magnet and plate: pot magnets screwed to the item, a steel plate for each on the substrate; light things only."""

from collections.abc import Iterator, Mapping

from fasten.catalog.face_parts import POT_MAGNETS, PotMagnet
from fasten.catalog.tables import Tables
from fasten.geometry import stack
from fasten.methods import common
from fasten.methods.common import Always, needs_sort, refuse
from fasten.methods.face_common import ROUND, bond_of, face_joint, no_foam, not_heavy, stays_clean, takes_bond
from fasten.methods.screw_end import own_length
from fasten.methods.stocked import Stocked
from fasten.model import Joint, MountPoint, Patch, Refusal, Subject, kinds
from fasten.proof.fit import faces as face_fit
from fasten.proof.modes import faces as face_modes
from fasten.proof.modes.mode import Mode
from fasten.proof.torque import limits as caps
from fasten.proof.torque import tightening
from fasten.text.figures import mm

NAME = "magnet_and_plate"
GROUND = common.NO_GROUND
fit = face_fit.checks
limits = caps.no_more_limits
torque = tightening.not_tightened
ALWAYS = Always(in_hole=False, patches=(kinds.POT_MAGNET,))
EXEMPT: Mapping[Subject, str] = {
    Subject.ITEM: "the head of the screw in the pot bears on the item with more than the magnet ever pulls",
    Subject.SUBSTRATE_TENSION: "the magnet sits on the steel itself and lets go long before it",
    Subject.SUBSTRATE_SHEAR: "the magnet sits on the steel itself and slides long before it gives way",
}
screw_end = own_length
DRAWN = frozenset({"steel", "structural_steel", "galvanised_steel"})  # what a magnet holds to


def gates(mount: MountPoint, tables: Tables) -> Refusal | None:
    """Light and clean, a screw for the pot through the item's hole, a face that the plate sticks to."""
    wrong = (
        not_heavy(NAME, "magnets", mount, tables)
        or needs_sort(NAME, "for covers and trim only", mount, tables, "trim")
        or no_foam(NAME, mount)
        or stays_clean(NAME, mount)
    )
    if wrong is not None:
        return wrong
    fitting = _fitting(mount, tables)
    if not fitting:
        return refuse(NAME, f"no pot magnet has a screw that fits through a {mm(mount.item_hole_mm)} hole",
                      ("item hole", mount.item_hole_mm, "mm"))  # fmt: skip
    if any(_holds_to_sheet(mount, row) for row in fitting):
        return None
    return takes_bond(NAME, mount, tables, mount.material)


def joints(mount: MountPoint, tables: Tables) -> Iterator[Joint]:
    """A joint for each magnet; thick sheet steel takes the place of a flat plate."""
    for row in _fitting(mount, tables):
        direct = _holds_to_sheet(mount, row)
        across_mm = row.diameter_mm if direct else row.plate_diameter_mm
        patch = Patch(
            kind=kinds.POT_MAGNET, series=row.series, length_mm=across_mm, width_mm=across_mm,
            thickness_mm=row.height_mm if direct else row.height_mm + row.plate_mm, shape=ROUND,
            from_=tables.source_id(POT_MAGNETS, row), bond=None if direct else bond_of(row.bond, mount, tables),
        )  # fmt: skip
        yield face_joint(NAME, mount, tables, patch, stack.clearance_source(tables, row.thread))


def modes(mount: MountPoint, tables: Tables) -> tuple[Mode, ...]:
    """The magnet slides or comes off its plate, or the plate comes off."""
    return (face_modes.MAGNET_SLIP, face_modes.MAGNET_PULL, *face_modes.BONDED)


def _fitting(mount: MountPoint, tables: Tables) -> list[PotMagnet]:
    rows = tables.rows(POT_MAGNETS)
    threads = stack.threads_for_hole(tables, mount.item_hole_mm, tuple({row.thread for row in rows}))
    passing = {thread.designation for thread in threads}
    return [row for row in rows if row.thread in passing]


def _holds_to_sheet(mount: MountPoint, row: PotMagnet) -> bool:
    return row.rim_mm is None and mount.material in DRAWN and mount.thickness_min_mm >= row.plate_mm


def stocked(tables: Tables) -> Iterator[Stocked]:
    """A magnet goes by its plate, and by itself where the sheet takes the place of that."""
    for row in tables.rows(POT_MAGNETS):
        for across_mm in (row.diameter_mm, row.plate_diameter_mm):
            yield Stocked(kinds.POT_MAGNET, mm(across_mm), row.series, "", None)
