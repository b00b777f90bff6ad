"""What turns a joint tight: the recess of its screw, or the hexagon of its head or nut."""

from fasten.model import Joint
from fasten.model.kinds import Thread
from fasten.model.known import Plate
from fasten.record import lean
from fasten.text.figures import mm, words

HEXAGON = "hexagon"


@lean
class Drive:
    """The recess or hexagon that is turned, and its size as it is sold; a slot has none."""

    kind: str
    size: str

    @property
    def text(self) -> str:
        """Kind and size."""
        return f"{self.kind} {self.size}".strip()


def drive_of(joint: Joint) -> Drive | None:
    """What turns the screw, or else the nut on a stud; None for a rivet, which is set and not turned."""
    screw, receiver = joint.screw, joint.receiver
    if screw is None:
        if joint.hole is None and receiver is not None and isinstance(receiver.flange, Plate):
            return Drive(HEXAGON, mm(receiver.flange.across_mm))
        return None
    if screw.kind.thread is Thread.NONE:
        return None
    kind, _, size = words(screw.drive).rpartition(" ")
    if not kind:
        return Drive(size, "")
    return Drive(kind, f"{size} mm" if kind == HEXAGON else size)
