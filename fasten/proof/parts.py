"""Figures of a joint's parts that more than one mode, fit or limit asks for."""

from fasten.model import Joint, Receiver
from fasten.model.known import Absent, Body, Bulge, Flange, Plate


def receiver_of(joint: Joint) -> Receiver:
    """The receiver of a joint that has one."""
    assert joint.receiver is not None, f"{joint.method} has no receiver"
    return joint.receiver


def outside_mm(receiver: Receiver) -> float:
    """Outside of what sits in the hole or on the stud [mm]. Raises: LookupError where nothing does."""
    if isinstance(receiver.body, Body):
        return receiver.body.outside_mm
    raise LookupError(f"a {receiver.part} has no body: {receiver.body.why}")


def across_mm(receiver: Receiver) -> float:
    """Width of its flange, plate or flats [mm]. Raises: LookupError where it has none."""
    if isinstance(receiver.flange, Flange | Plate):
        return receiver.flange.across_mm
    raise LookupError(f"a {receiver.part} has no flange: {receiver.flange.why}")


def bulge_mm(receiver: Receiver | None) -> float:
    """Width of what swells behind [mm]; 0 where nothing does."""
    return receiver.bulge.across_mm if receiver is not None and isinstance(receiver.bulge, Bulge) else 0.0


def flange_behind_mm(receiver: Receiver | None) -> float:
    """Width of a flange that bears on the back [mm]; 0 where there is none."""
    return 0.0 if receiver is None or isinstance(receiver.flange, Absent) else receiver.flange.across_mm
