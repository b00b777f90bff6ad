"""What a method offers at a mount point, each joint with its proof."""

from collections.abc import Collection, Iterator
from typing import Protocol

from fasten.advice.owned import Owned, fitted
from fasten.advice.spread import is_worth_it, short_of, wider
from fasten.catalog.tables import Tables
from fasten.methods.screw_end import ScrewEnd
from fasten.methods.stocked import Stocked
from fasten.model import Demand, Figure, Joint, MountPoint, Proposal, Refusal
from fasten.proof import ground as grounds
from fasten.proof.demands import demands
from fasten.proof.prove import Proved, prove
from fasten.text.figures import mm
from fasten.text.units import number

EXISTING_HOLE = "hole-there"


class Method(Proved, Protocol):
    """What a module of `fasten.methods` offers."""

    NAME: str

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


def candidates(method: Method, mount: MountPoint, tables: Tables) -> list[Joint]:
    """The method's candidates, and where they are short of load those with wider parts beside them."""
    if not any(wider(mount, tables)):
        return list(joints(method, mount, tables))
    return [joint for joint, _ in proved(method, mount, demands(mount, tables), tables, None)]


def proposals(method: Method, mount: MountPoint, tables: Tables, owned: Owned | None) -> Iterator[Proposal]:
    """Every joint of a method that is not refused."""
    found = proved(method, mount, demands(mount, tables), tables, owned)
    return (proof for _, proof in found if isinstance(proof, Proposal))


def proved(
    method: Method, mount: MountPoint, loads: tuple[Demand, ...], tables: Tables, owned: Owned | None
) -> Iterator[tuple[Joint, Proposal | Refusal]]:
    """Every joint of a method with its proof; where all are short of load, also those with a wider part that mends."""
    found = tuple(_plain(method, mount, loads, tables, owned))
    yield from found
    least = min((short_of(proof) for _, proof in found), default=0)
    tried = {joint for joint, _ in found}
    for spread in wider(mount, tables) if is_worth_it(least) else ():
        others = _plain(method, spread, loads, tables, owned, mount, tried)
        better = [pair for pair in others if short_of(pair[1]) < least]
        yield from better
        least = min([least, *(short_of(proof) for _, proof in better)])
        if least == 0:
            return


def _plain(
    method: Method, mount: MountPoint, loads: tuple[Demand, ...], tables: Tables, owned: Owned | None,
    asked: MountPoint | None = None, tried: Collection[Joint] = (),
) -> Iterator[tuple[Joint, Proposal | Refusal]]:  # fmt: skip
    """The joints of a method with their proofs, for the mount point that was `asked` where it is another.

    What was `tried` is not tried again: many methods have no place for a wider part, and offer the same joints.
    """
    for candidate in joints(method, mount, tables):
        joint = candidate if owned is None else fitted(candidate, owned)
        if joint in tried:
            continue
        proof = existing_hole_refusal(joint, mount) or prove(joint, asked or mount, method, loads, tables)
        yield joint, proof


def existing_hole_refusal(joint: Joint, mount: MountPoint) -> Refusal | None:
    """An existing hole can be opened up, never closed."""
    there, hole = mount.hole_there_mm, joint.hole
    if there is None or hole is None or hole.diameter_mm + hole.tolerance_mm.plus >= there:
        return None
    figures = (Figure("existing hole", there, "mm"), Figure("hole needed", hole.diameter_mm, "mm"))
    part = f"{joint.receiver.thread}, {joint.receiver.series}: " if joint.receiver is not None else ""
    wanted = f"{mm(hole.diameter_mm)} is needed, and a hole cannot be made smaller"
    because = f"{part}the existing hole is {number(there, 2)} mm, {wanted}"
    return Refusal(joint.method, because, figures, check=EXISTING_HOLE)
