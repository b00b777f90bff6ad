"""What of a section or hole a look settles, the id each goes by, and what the user has accepted of it.

An id names what was seen: the kind of check, the section or hole, and every figure of the check. When one of these
changes, what was accepted lapses by itself.
"""

from collections.abc import Iterator

from fasten.model import Check
from fasten.model.plan import Plan
from fasten.proof.checks import waits
from fasten.record import replace
from fasten.text.shown import shown
from fasten.wiring.accepted import PROPOSED, Confirm, taken
from fasten.wiring.holes import BELLOWS, GROOVE
from fasten.wiring.pieces import is_open
from fasten.wiring.places import slug

_BY_A_LOOK = frozenset({"grommet", BELLOWS, GROOVE, PROPOSED, "separation", "slack", "hinge"})
_HAS_A_FIGURE = frozenset({"grommet", BELLOWS, GROOVE})  # without one there is none on the list yet


def still_open(left_out: tuple[str, ...], proposed: str) -> Iterator[Check]:
    """What else of a section or hole is open: runs through it that get no cable, and what was only proposed of it."""
    if left_out:
        needs = f"needs the cable of these, which go through as well: {', '.join(map(shown, left_out))}"
        yield waits("left-out", "Cables that are left out", "mm", None, needs, (), "", ())
    if proposed:
        needs = f"needs these confirmed or said otherwise, which were only proposed: {proposed}"
        yield waits(PROPOSED, "What was proposed", "", None, needs, (), "", ())


def way_confirms(plan: Plan, accepted: tuple[str, ...]) -> tuple[Confirm, ...]:
    """What of the open checks of a section or hole can be accepted, in their order."""
    found = ((check, _id(plan.name, check)) for check in plan.checks if _can_be_accepted(check))
    return tuple(Confirm(id_, check.id, check.title, id_ in accepted) for check, id_ in found)


def with_accepted(plan: Plan, confirms: tuple[Confirm, ...]) -> Plan:
    """The plan whose checks hold where they are accepted."""
    return replace(plan, checks=tuple(taken(check, confirms) for check in plan.checks))


def _can_be_accepted(check: Check) -> bool:
    return is_open(check) and check.id in _BY_A_LOOK and (check.demand is not None or check.id not in _HAS_A_FIGURE)


def _id(name: str, check: Check) -> str:
    figures = (f"{value:g}" for value in (check.demand, *(one.value for one in check.inputs)) if value is not None)
    return ":".join((check.id, slug(name), *figures))
