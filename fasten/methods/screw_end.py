"""What a method needs of the end of its screw; `advice/screw_length.py` judges one of another length by it."""

from math import inf

from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.model import Joint, MountPoint
from fasten.record import record


@record
class ScrewEnd:
    """Least engagement, and between what a screw's end must stand past the receiver, or past the thinnest substrate."""

    engaged_mm: float = 0.0
    past_min_mm: float = -inf
    past_max_mm: float = inf


def thinner_mm(joint: Joint) -> float:
    """How much thinner the substrate may be than it was sized for: the screw stands out as much further."""
    return joint.sheet_max_mm - joint.sheet_mm


def past_receiver_mm(pitch_mm: float, tables: Tables) -> float:
    """How far the end of a screw stands out past the receiver, so that its whole thread holds."""
    return rule(tables, Rules.SCREW_PAST_RECEIVER).value * pitch_mm


def own_length(joint: Joint, mount: MountPoint, tables: Tables) -> None:
    """`screw_end` of a method without a screw, or whose screw has the length of its part: no other can be taken."""


def no_shorter(joint: Joint, mount: MountPoint, tables: Tables) -> ScrewEnd | None:
    """`screw_end` where a screw may be longer than the method's own, never shorter."""
    return None if joint.screw is None else ScrewEnd(past_min_mm=joint.screw.protrusion_mm)
