"""Where a large washer bears too little: the mount points with which a penny washer or a plate is tried instead.

They spread what presses, pulls through and dents. They make no panel stiffer, and are never tried for that.
"""

from collections.abc import Callable, Iterable, Iterator
from typing import Protocol

from fasten.catalog.named import material
from fasten.catalog.tables import Tables
from fasten.geometry import stack
from fasten.methods import (
    ball_stud,
    clip_nut,
    expanding_nut,
    factory_thread,
    heat_set_insert,
    rivet_nut,
    screw_in_insert,
    self_tapping_insert,
    tapped_hole,
    tee_nut,
    through_bolt,
)
from fasten.model import Joint, MountPoint, Position, Proposal, Reach, Refusal, Spread, Status
from fasten.model.check import LOAD_KINDS
from fasten.record import replace

NO_WIDER = Spread("large", ())
"""Of a mount point with which nothing wider is tried."""
_METHODS = (
    ball_stud, clip_nut, expanding_nut, factory_thread, heat_set_insert, rivet_nut, screw_in_insert,
    self_tapping_insert, tapped_hole, tee_nut, through_bolt,
)  # fmt: skip
UNDER_HEAD = frozenset(method.NAME for method in _METHODS)
"""The methods that lay a wider part under the head."""
BEHIND = frozenset({through_bolt.NAME})
"""The methods that lay one behind as well."""
TORQUE = "torque-window"
_REFUSED = 1000  # more than a joint has checks


class Failing(Protocol):
    """What must be known of the proofs of a method's joints."""

    def fails_by_screw(self, joint: Joint) -> bool:
        """Whether it fails by what follows from its screw and the mount point alone."""

    def is_too_long(self, joint: Joint) -> bool:
        """Whether the space behind is too short to set its receiver, whatever lies over it."""


def wider(
    mount: MountPoint, tables: Tables, method: str | None = None, past: Spread = NO_WIDER
) -> Iterator[MountPoint]:
    """The mount point with each wider part in turn, at one place and then at both; none where there is no place.

    At those places alone at which the `method` lays one, where it is given, and with nothing that is `past` help.
    """
    places = _places(mount, tables, method)
    for form in stack.spread_forms(tables) if places else ():
        at_each = [(place,) for place in places]
        for at in at_each if len(places) == 1 else (*at_each, places):
            yield replace(mount, spread=replace(past, form=form, places=at))


def has_wider(mount: MountPoint, tables: Tables, method: str) -> bool:
    """Whether there is a place for a wider part of a method."""
    return _places(mount, tables, method) != ()


def short_of(proof: Proposal | Refusal) -> int:
    """How many checks of load or torque are open or short that a wider part might mend; none where it cannot."""
    if isinstance(proof, Refusal):
        return _REFUSED if proof.check is not None and _is_load(proof.check) else 2 * _REFUSED
    left = (check for check in proof.checks if check.status is not Status.HOLDS and check.asks is None)
    return sum(_is_load(check.id) for check in left)


def is_worth_it(shortest: int) -> bool:
    """Whether a wider part may mend what comes nearest."""
    return 0 < shortest <= _REFUSED


def past_help(joints: Iterable[Joint], proving: Failing) -> Spread:
    """What of a method cannot be proved, whatever lies under the head and behind.

    Threads fail by what follows from the screw and the mount point alone, so that one joint of each says it of all.
    """
    joints = tuple(joints)
    one_of_each = {joint.screw.thread: joint for joint in joints if joint.screw is not None}
    threads = frozenset(thread for thread, joint in one_of_each.items() if proving.fails_by_screw(joint))
    unset = ((joint, joint.receiver) for joint in joints if joint.receiver is not None)
    too_long = ((one.series, one.thread, one.length_mm) for joint, one in unset if proving.is_too_long(joint))
    return replace(NO_WIDER, but_for=threads, too_long=frozenset(too_long))


def is_behind(mount: MountPoint) -> bool:
    """Whether a wider part lies behind, with one under the head or without."""
    return mount.spread is not None and Position.NUT in mount.spread.places


def but_for_sunk(
    mount: MountPoint, plain: list[Joint], at_head: list[Joint], sinks_in: Callable[[Joint], bool]
) -> MountPoint:
    """The mount point without the threads under whose heads all gives way, as it does whatever lies behind.

    `plain` has all that lies there without a wider part, `at_head` what lies there with it. What is too long for its
    stock without a part behind is so with one, so that no head is left out that may hold.
    """
    spread = mount.spread
    if spread is None or not is_behind(mount):
        return mount
    like = at_head if Position.HEAD in spread.places else plain
    sunk = _threads(like) - _threads(joint for joint in like if not sinks_in(joint))
    return replace(mount, spread=replace(spread, but_for=spread.but_for | sunk)) if sunk else mount


def _threads(joints: Iterable[Joint]) -> frozenset[str]:
    return frozenset(joint.screw.thread for joint in joints if joint.screw is not None)


def _places(mount: MountPoint, tables: Tables, method: str | None) -> tuple[Position, ...]:
    """Where one may lie: on a soft item, and behind where a hand puts it there."""
    if mount.spread is not None:
        return ()
    on_item = method in {None, *UNDER_HEAD} and material(tables, mount.item_material).family != "sheet"
    behind = mount.reach is Reach.BOTH_SIDES and method in {None, *BEHIND}
    return (*((Position.HEAD,) if on_item else ()), *((Position.NUT,) if behind else ()))


def _is_load(check: str) -> bool:
    """Whether a check is of a load on a fixing or of its torque, by its id."""
    return check == TORQUE or check.rpartition(".")[2] in LOAD_KINDS
