"""The bits that an answer drills with, and what each of them drills."""

from collections.abc import Iterator

from fasten.advice.rows import PILOT as PILOT_BIT
from fasten.catalog.tables import Tables
from fasten.geometry.bits import OWN_POINT, Bit, thickest_metric_bit
from fasten.model import Answer, Hole, MountPoint
from fasten.model.plan import BitNeed

HOLE, PILOT, TRIAL = "hole", "pilot", "hole in a test piece"


def bits_of(answer: Answer, point: MountPoint, tables: Tables) -> Iterator[BitNeed]:
    """What is drilled for an answer; where the hole exists, only the test piece is drilled."""
    hole = answer.proposal.joint.hole
    if hole is None:
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
    there = mount.hole_there_mm
    return there is not None and there >= hole.diameter_mm - hole.tolerance_mm.minus


def drilled_with(hole: Hole | None, point: MountPoint) -> str | None:
    """The bit that drills the hole itself; None where none has to be there for it."""
    return None if hole is None or is_there(hole, point) or hole.bit.name == OWN_POINT else hole.bit.name
