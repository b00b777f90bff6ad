"""Test pieces of the user's own: what was read on them, and of exactly which hardware, sheet and hole."""

from enum import StrEnum

from fasten.model.words import Into
from fasten.record import record

REPAIR_PART = "repair:"  # a part of these is a route of repair that was tested, not a line of the list
OWN_TEST = "own-test"  # ids of sources begin so where a figure rests on readings of the user's own


class Read(StrEnum):
    """What was read on a test piece: a torque, a pull, or the share of its torque that a screw still moves at."""

    SPIN_OUT = "spin-out"
    PULL_OUT = "pull-out"
    DRIVE = "drive"
    STRIP = "strip"
    KEPT = "kept"
    HELD = "held"


@record
class OwnTest:
    """Readings of one kind on test pieces, in N·m, N or as a share.

    They are of the `part`, by the id of its line, in this material, sheet and hole and of no other, `into` its face or
    its edge. `error` is the share that the `tool` may be off by, 0 where the same sets the fixing.
    """

    read: Read
    part: str
    material: str
    sheet_mm: float
    hole_mm: float
    readings: tuple[float, ...]
    error: float
    tool: str
    date: str
    into: Into = Into.FACE
