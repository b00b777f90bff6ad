"""How a run goes through its holes: what of its ends passes, and which is made only once the cable is through."""

from fasten.model import end_kinds
from fasten.record import record
from fasten.wiring.ends import EndFit
from fasten.wiring.pieces import Made
from fasten.wiring.words import Loudspeaker, Run

_AS_THIN = frozenset(
    {end_kinds.END_SLEEVE, end_kinds.BATTERY_CLAMP}
)  # no wider than the cable, or put on at the battery


@record
class Passage:
    """A hole that a run goes through, and how wide it is inside its grommet; None where that is not known."""

    name: str
    inside_mm: float | None


@record
class Sides:
    """The ends of the piece that goes through, by their places among all ends: those it begins and ends with."""

    from_: tuple[int, ...]
    to: tuple[int, ...]


def passes(end: EndFit, passages: tuple[Passage, ...]) -> bool:
    """Whether an end is known to pass every hole once it is made."""
    if end.part is None or end.part.kind in _AS_THIN:
        return True
    palm = end.palm_mm
    return palm is not None and all(one.inside_mm is not None and palm <= one.inside_mm for one in passages)


def sides(made: Made, run: Run) -> Sides:
    """The ends of the longest piece between two devices: holders and blocks sit close to an end."""
    wires = 2 if isinstance(run.carries, Loudspeaker) else 1
    count = len(made.ends) - (2 if run.ground_mm else 0)  # the ground lead goes through nothing
    joints = [tuple(range(at, at + wires)) for at in range(0, count, wires)]
    pieces = list(zip(joints[::2], joints[1::2], strict=True))
    at = max(range(len(pieces)), key=lambda at: made.pieces[at].cut_mm)
    return Sides(*pieces[at])


def late(made: Made, run: Run, passages: tuple[Passage, ...]) -> frozenset[int]:
    """The ends, by their places, that are made only once the cable is through: where neither end of it passes."""
    if not passages:
        return frozenset()
    there = sides(made, run)
    stuck = [[at for at in side if not passes(made.ends[at], passages)] for side in (there.from_, there.to)]
    return frozenset(stuck[1]) if all(stuck) else frozenset()


def leads(made: Made, run: Run, passages: tuple[Passage, ...]) -> str:
    """Which end goes through first, by its label; empty where either may, or neither passes."""
    there = sides(made, run)
    is_free = [all(passes(made.ends[at], passages) for at in side) for side in (there.from_, there.to)]
    if all(is_free) or not any(is_free):
        return ""
    return made.ends[(there.from_ if is_free[0] else there.to)[0]].label
