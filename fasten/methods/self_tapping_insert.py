"""Self-tapping insert in a thermoplastic boss: for what comes off often."""

from collections.abc import Iterator

from fasten.catalog.tables import Tables
from fasten.methods import common
from fasten.methods.common import IN_HOLE, NOTHING_EXEMPT
from fasten.methods.plastic_insert import insert_gates, insert_joints, insert_modes, insert_screw_end, insert_stocked
from fasten.methods.screw_end import ScrewEnd
from fasten.methods.stocked import Stocked
from fasten.model import Joint, MountPoint, Refusal
from fasten.proof.fit import plastic as plastic_fit
from fasten.proof.modes.mode import Mode
from fasten.proof.torque import limits as caps
from fasten.proof.torque import tightening

NAME = "self_tapping_insert"
GROUND = common.NO_GROUND
fit = plastic_fit.bossed
limits = caps.boss_insert_limit
torque = tightening.window
ALWAYS = IN_HOLE
EXEMPT = NOTHING_EXEMPT
SERIES = "self-tapping"


def gates(mount: MountPoint, tables: Tables) -> Refusal | None:
    """A plastic that takes one, a thread for the item's hole, and a boss or as much plastic."""
    return insert_gates(NAME, SERIES, mount, tables)


def joints(mount: MountPoint, tables: Tables) -> Iterator[Joint]:
    """A joint for each insert of the series whose screw passes the item's hole."""
    return insert_joints(NAME, SERIES, mount, tables)


def modes(mount: MountPoint, tables: Tables) -> tuple[Mode, ...]:
    """Screw, the plastic round the insert and beside it, the item under the head."""
    return insert_modes(mount, tables)


def screw_end(joint: Joint, mount: MountPoint, tables: Tables) -> ScrewEnd | None:
    """As deep in brass as it must be."""
    return insert_screw_end(joint)


def stocked(tables: Tables) -> Iterator[Stocked]:
    """Its screw and every insert of its series."""
    return insert_stocked(SERIES, tables)
