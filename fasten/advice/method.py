"""What a method offers at a mount point."""

from collections.abc import Iterator
from typing import Protocol

from fasten.catalog.tables import Tables
from fasten.methods.common import Always
from fasten.methods.screw_end import ScrewEnd
from fasten.methods.stocked import Stocked
from fasten.model import Figure, Joint, MountPoint, Refusal
from fasten.proof import ground as grounds
from fasten.proof.prove import Proved
from fasten.text.figures import mm
from fasten.text.units import number

EXISTING_HOLE = "hole-there"


class Method(Proved, Protocol):
    """What a module of `fasten.methods` offers."""

    NAME: str
    ALWAYS: Always

    def gates(self, mount: MountPoint, tables: Tables) -> Refusal | None:
        """A refusal where the method cannot apply at all."""

    def joints(self, mount: MountPoint, tables: Tables) -> Iterator[Joint]:
        """Sized candidates, unchecked."""

    def screw_end(self, joint: Joint, mount: MountPoint, tables: Tables) -> ScrewEnd | None:
        """What the end of another screw must reach; None where there is none, or it has the length of its part."""

    def stocked(self, tables: Tables) -> Iterator[Stocked]:
        """Every part that it may ask for, except washers and limiters."""


def gates(method: Method, mount: MountPoint, tables: Tables) -> Refusal | None:
    """A refusal where the method cannot apply at all: what every method must pass, then its own gates."""
    return grounds.gate(method, mount, tables) or method.gates(mount, tables)


def joints(method: Method, mount: MountPoint, tables: Tables) -> Iterator[Joint]:
    """The method's candidates; of a ground lug those with the thread of its ring."""
    return (joint for joint in method.joints(mount, tables) if grounds.on_its_stud(joint, mount))


def existing_hole_refusal(joint: Joint, mount: MountPoint) -> Refusal | None:
    """An existing hole can be opened up, never closed."""
    there, hole = mount.existing_hole_mm, joint.hole
    if there is None or hole is None or hole.diameter_mm + hole.tolerance_mm.plus >= there:
        return None
    figures = (Figure("existing hole", there, "mm"), Figure("hole needed", hole.diameter_mm, "mm"))
    part = f"{joint.receiver.thread}, {joint.receiver.series}: " if joint.receiver is not None else ""
    wanted = f"{mm(hole.diameter_mm)} is needed, and a hole cannot be made smaller"
    because = f"{part}the existing hole is {number(there, 2)} mm, {wanted}"
    return Refusal(joint.method, because, figures, check=EXISTING_HOLE)
