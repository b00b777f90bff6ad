"""The bits that an answer drills with, and what each of them drills."""

from collections.abc import Iterator

from fasten.advice.rows import PILOT as PILOT_BIT
from fasten.catalog.tables import Tables
from fasten.geometry.bits import IN_PLACE, OWN_POINT, Bit, thickest_metric_bit
from fasten.geometry.joint import nut_is_there
from fasten.geometry.stack import hole_with_bit
from fasten.model import Answer, Hole, MountPoint, Origin
from fasten.model.plan import BitNeed

HOLE, PILOT, TRIAL = "hole", "pilot", "hole in a test piece"
ITEM = "hole of the item"


def bits_of(answer: Answer, point: MountPoint, tables: Tables) -> Iterator[BitNeed]:
    """What is drilled for an answer; where the hole exists, only the test piece is drilled."""
    hole = answer.proposal.joint.hole
    if item_opened(point):
        opened = hole_with_bit(tables, point.item_hole_mm, 0.1, 0.3, depth_mm=None, shape="round")
        yield _drilled(opened, ITEM, point.fixings)
    if hole is None:
        return
    if hole.bit.name == IN_PLACE:
        return
    there = is_there(hole, point)
    pilot = None if there else pilot_of(answer, tables)
    if pilot is not None:
        yield BitNeed(pilot.name, pilot.diameter_mm, PILOT, pilot.diameter_mm, None, 1, ream=False, within=None)
    if hole.bit.name != OWN_POINT:
        yield _drilled(hole, TRIAL, 1) if there else _drilled(hole, HOLE, point.fixings)


def _drilled(hole: Hole, purpose: str, count: int) -> BitNeed:
    bit = hole.bit
    return BitNeed(
        bit.name, bit.diameter_mm, purpose, hole.diameter_mm, hole.depth_mm, count, ream=not bit.holds,
        within=hole.tolerance_mm,
    )  # fmt: skip


def pilot_of(answer: Answer, tables: Tables) -> Bit | None:
    """The bit that an answer probes with, or the largest that leaves the hole; None where nothing is probed."""
    most_mm = next((need.size_mm for need in answer.tools if need.key == PILOT_BIT), None)
    return None if most_mm is None else thickest_metric_bit(most_mm, tables)


def is_there(hole: Hole, mount: MountPoint) -> bool:
    """Whether the existing hole is already as wide as it must be."""
    if nut_is_there(mount):
        return True
    there = mount.existing_hole_mm if mount.existing_holes_mm is None else min(mount.existing_holes_mm)
    return there is not None and there >= hole.diameter_mm - hole.tolerance_mm.minus


def item_opened(mount: MountPoint) -> bool:
    """Whether the item's holes are opened for an existing hole or thread: nobody gave their size."""
    return dict(mount.origins).get("item_hole_mm") is Origin.ASSUMED


def drilled_with(hole: Hole | None, point: MountPoint) -> str | None:
    """The bit that drills the hole itself; None where none has to be there for it."""
    return None if hole is None or is_there(hole, point) or hole.bit.name == OWN_POINT else hole.bit.name
