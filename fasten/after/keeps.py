"""Which joints a route of repair tries, each a question of a joint beside the one that is repaired."""

from fasten.after.case import Case
from fasten.after.openings import is_same, series_of, thread_of
from fasten.model import Joint, Position


def is_larger(joint: Joint, case: Case) -> bool:
    """Whether its screw is thicker."""
    return joint.screw is not None and case.joint.screw is not None and (
        joint.screw.diameter_mm > case.joint.screw.diameter_mm
    )  # fmt: skip


def other_series(joint: Joint, case: Case) -> bool:
    """Whether it is of the same thread and another series."""
    return thread_of(joint) == thread_of(case.joint) and series_of(joint) != series_of(case.joint)


def has_larger_body(joint: Joint, case: Case) -> bool:
    """Whether it is of another series, for a larger hole than the one that was made."""
    hole, was = joint.hole, case.joint.hole
    larger = hole is None or was is None or hole.diameter_mm > was.diameter_mm
    return larger and other_series(joint, case)


def same_thread(joint: Joint, case: Case) -> bool:
    """Whether it is of the same thread."""
    return thread_of(joint) == thread_of(case.joint)


def hexagon(joint: Joint, case: Case) -> bool:
    """Whether its hole is a hexagon."""
    return joint.hole is not None and joint.hole.shape == "hexagon"


def washered(joint: Joint, case: Case) -> bool:
    """Whether it is the same part with a washer between item and substrate."""
    return is_same(joint, case) and any(part.place is Position.BETWEEN for part in joint.washers)


def whichever(joint: Joint, case: Case) -> bool:
    """Any joint."""
    return True
