"""Whether an answer uses what exists already, and the item holes with which one would where a preset is in the way."""

from collections.abc import Iterator
from dataclasses import replace

from fasten.catalog.rows import METRIC_CLEARANCE
from fasten.catalog.tables import Tables
from fasten.geometry.joint import nut_is_there
from fasten.methods import factory_thread
from fasten.model import Answer, MountPoint, Origin, kinds

_SIZES = ("M4", "M5", "M6", "M8", "M10")


def is_blocked(mount: MountPoint, answers: tuple[Answer, ...]) -> bool:
    """Whether what exists already is left unused, and the item's hole is a preset that may keep it from use."""
    exists = mount.hole_there_mm is not None or mount.thread_there is not None
    is_preset = dict(mount.origins).get("item_hole_mm") is Origin.PRESET
    return exists and is_preset and mount.ring is None and not (answers and uses(mount, answers[0]))


def uses(mount: MountPoint, answer: Answer) -> bool:
    """Whether an answer goes into the existing thread, nut or hole."""
    joint = answer.proposal.joint
    if nut_is_there(mount):
        return joint.receiver is not None and joint.receiver.kind is kinds.RIVET_NUT
    if mount.thread_there is not None:
        return answer.method == factory_thread.NAME
    return joint.hole is not None


def opened(mount: MountPoint, tables: Tables) -> Iterator[MountPoint]:
    """The mount point with the item's holes opened for each larger screw, the smallest first."""
    there = mount.thread_there
    for size in _SIZES if there is None else (there.thread,):
        row = tables.find(METRIC_CLEARANCE, size)
        if row is not None and row.medium_mm > mount.item_hole_mm:
            yield with_item_hole(mount, row.medium_mm)


def with_item_hole(mount: MountPoint, hole_mm: float) -> MountPoint:
    """The mount point with item holes that nobody gave: they are opened to this size."""
    origins = tuple((name, Origin.ASSUMED if name == "item_hole_mm" else origin) for name, origin in mount.origins)
    return replace(mount, item_hole_mm=hole_mm, origins=origins)
