"""Self-drilling screw: drills its own hole in sheet of its range; light, and rarely or never removed."""

from collections.abc import Iterator

from fasten.catalog.rows import SELF_DRILLING, SelfDrilling
from fasten.catalog.tables import Tables
from fasten.geometry.bits import OWN_POINT
from fasten.methods import common, tapping_screw
from fasten.methods.common import IN_HOLE, NOTHING_EXEMPT, needs_family, needs_hard_layers, refuse
from fasten.methods.screw_end import ScrewEnd
from fasten.methods.stocked import Stocked
from fasten.model import BitChoice, Hole, Joint, MountPoint, Refusal, Tolerance, kinds
from fasten.proof.modes.mode import Mode
from fasten.text.figures import figure, mm

NAME = "self_drilling_screw"
GROUND = common.NO_GROUND_TAPPING
fit = tapping_screw.fit
limits = tapping_screw.limits
torque = tapping_screw.torque
ALWAYS = IN_HOLE
EXEMPT = NOTHING_EXEMPT


def gates(mount: MountPoint, tables: Tables) -> Refusal | None:
    """Sheet inside the drilling range of a size that passes the item's hole, and thick enough to hold its thread."""
    wrong = needs_family(NAME, mount, tables, "sheet") or needs_hard_layers(NAME, mount, tables)
    if wrong is not None:
        return wrong
    sizes = tapping_screw.fitting(mount, tables)
    if not sizes:
        return tapping_screw.no_size(NAME, mount)
    named = {thread.designation for thread, _ in sizes}
    if not [row for row in tables.rows(SELF_DRILLING) if row.size in named and _drills(row, mount)]:
        rows = [row for row in tables.rows(SELF_DRILLING) if row.size in named]
        least, greatest = min(row.min_mm for row in rows), max(row.max_mm for row in rows)
        reach = f"they drill {figure(least)} to {mm(greatest)}"
        return refuse(NAME, f"no point drills {mm(mount.thickness_max_mm)}: {reach}",
                      ("sheet", mount.thickness_max_mm, "mm"), ("least", least, "mm"),
                      ("greatest", greatest, "mm"))  # fmt: skip
    finest = min(thread.pitch_mm for thread, _ in sizes)
    return tapping_screw.thin_sheet_gate(NAME, mount, finest, tables)


def joints(mount: MountPoint, tables: Tables) -> Iterator[Joint]:
    """A joint for each size whose point drills this sheet; its own point makes the hole."""
    for thread, head in tapping_screw.fitting(mount, tables):
        row = tables.find(SELF_DRILLING, thread.designation)
        if row is None or not tapping_screw.holds_thread(mount, thread, tables) or not _drills(row, mount):
            continue
        point = BitChoice(OWN_POINT, thread.minor_max_mm, 0.0, True)
        hole = Hole(thread.minor_max_mm, Tolerance(0.0, 0.0), None, point)
        found = (hole, tables.source_id(SELF_DRILLING, row))
        yield from tapping_screw.sized(NAME, kinds.SELF_DRILLING, mount, thread, head, found, tables)


def modes(mount: MountPoint, tables: Tables) -> tuple[Mode, ...]:
    """As a tapping screw."""
    return tapping_screw.modes(mount, tables)


def screw_end(joint: Joint, mount: MountPoint, tables: Tables) -> ScrewEnd | None:
    """As a tapping screw."""
    return tapping_screw.screw_end(joint, mount, tables)


def _drills(row: SelfDrilling, mount: MountPoint) -> bool:
    most = row.max_stainless_mm if mount.material == "stainless_steel" else row.max_mm
    return most is not None and row.min_mm <= mount.thickness_min_mm and mount.thickness_max_mm <= most


def stocked(tables: Tables) -> Iterator[Stocked]:
    """Every size of the tapping screw that has a point of its own."""
    drilling, kind = {row.size for row in tables.rows(SELF_DRILLING)}, kinds.SELF_DRILLING
    found = (screw for screw in tapping_screw.stocked(tables) if screw.size in drilling)
    yield from (Stocked(kind, screw.size, screw.series, kind.grade, screw.length_mm) for screw in found)
