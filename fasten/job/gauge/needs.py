"""The least room at which a mount point keeps its proven answer, and whether it keeps it in all that is more."""

from collections.abc import Callable, Iterator
from math import ceil

from fasten.job.gauge.first import Field, with_room
from fasten.model import Asks, Joint, MountPoint, Proposal, Status
from fasten.record import record

Same = tuple[Status, Joint, float | None]
_DIGITS = 6


@record
class Need:
    """The least whole millimetres of a room, and what the mount point gets with one less (None: nothing fits)."""

    asks: Asks
    least_mm: int
    below: Proposal | None


def same_as(proposal: Proposal | None) -> Same | None:
    """What of an answer must stay: verdict, joint and torque."""
    if proposal is None:
        return None
    torque = None if proposal.torque is None else round(proposal.torque.target_nm, _DIGITS)
    return proposal.status, proposal.joint, torque


def need(roomy: MountPoint, asks: Asks, field: Field) -> Need | None:
    """What the answer needs of one room where there is enough of the other; None where the least room will do."""
    answer = field.first(roomy)
    assert answer is not None, "nothing fits where there is room for everything"

    def stands(length_mm: int) -> bool:
        return same_as(field.first(with_room(roomy, asks, length_mm))) == same_as(answer)

    least = _least(stands, breakpoints((answer,), roomy), int(max(rooms(roomy))))
    return None if least == 1 else Need(asks, least, field.first(with_room(roomy, asks, least - 1)))


def _least(stands: Callable[[int], bool], guesses: tuple[int, ...], most: int) -> int:
    """The least length at which the answer stands: what its own checks ask is tried first, then it is halved."""
    high = next((guess for guess in guesses if stands(guess)), most)
    low = high - 1 if high > 1 and not stands(high - 1) else 0
    high = high if low == high - 1 or high == 1 else high - 1
    while high - low > 1:
        middle = (low + high) // 2
        low, high = (low, middle) if stands(middle) else (middle, high)
    return high


def breakpoints(proposals: tuple[Proposal, ...], roomy: MountPoint) -> tuple[int, ...]:
    """Where something begins to have room: each length that a check of a candidate asks, in whole millimetres."""
    found = {ceil(length) for proposal in proposals for length in _asked_mm(proposal, roomy)}
    return tuple(sorted(found))


def _asked_mm(proposal: Proposal, roomy: MountPoint) -> Iterator[float]:
    for check in proposal.checks:
        if check.unit == "mm" and check.demand and check.allowable:
            given = next((entry.value for entry in check.inputs if entry.value in rooms(roomy)), None)
            if given is not None:
                yield check.demand * given / check.allowable


def rooms(roomy: MountPoint) -> tuple[float, ...]:
    """Space behind and to an edge, as far as they are known."""
    return tuple(length for length in (roomy.behind_mm, roomy.edge_mm) if length is not None)
