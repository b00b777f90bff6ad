"""What one mount point gets with this much room: its first answer, or the joint that is pinned."""

from typing import Protocol

from fasten.advice.advise import advise
from fasten.advice.contest import Contest, first_with
from fasten.advice.owned import Owned
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.job.choices import nothing_fits, pin_refused, pinned, pinned_on
from fasten.job.words import Pin
from fasten.model import Asks, Bound, MountPoint, Proposal, Refusal
from fasten.record import replace

ROOM = (Asks.BEHIND, Asks.EDGE)


class Field(Protocol):
    """What may be first at a mount point, wherever its room ends."""

    @property
    def proposals(self) -> tuple[Proposal, ...]:
        """What does where there is room for all."""

    def first(self, mount: MountPoint) -> Proposal | None:
        """The first of them with this room; None where nothing fits."""

    def why_none(self, mount: MountPoint) -> str:
        """Why nothing fits."""


class All(Contest):
    """All that may be proposed."""

    def why_none(self, mount: MountPoint) -> str:
        """What came nearest, and what would turn it."""
        return _why_none(mount, self.tables, self.owned)


class First:
    """The first of all that may be proposed: where no room is to be measured, no other can become it."""

    def __init__(self, tables: Tables, owned: Owned | None) -> None:
        self._tables, self._owned = tables, owned
        self._found: dict[MountPoint, Proposal | None] = {}
        self.proposals: tuple[Proposal, ...] = ()

    def first(self, mount: MountPoint) -> Proposal | None:
        """The first answer with this room; None where nothing fits."""
        if mount not in self._found:
            self._found[mount] = first_with(mount, self._tables, self._owned)
        return self._found[mount]

    def why_none(self, mount: MountPoint) -> str:
        """What came nearest, and what would turn it."""
        return _why_none(mount, self._tables, self._owned)


def _why_none(mount: MountPoint, tables: Tables, owned: Owned | None) -> str:
    return nothing_fits(advise(mount, tables, owned, changes=False).refusals)


class Pinned:
    """The joint that is pinned, and no other."""

    def __init__(self, pin: Pin, roomy: MountPoint, tables: Tables, owned: Owned | None) -> None:
        self._pin, self._tables, self._owned = pin, tables, owned
        first = self.first(roomy)
        self.proposals = () if first is None else (first,)

    def first(self, mount: MountPoint) -> Proposal | None:
        """The pinned joint with this room; None where it does not do."""
        found = pinned(self._pin, pinned_on(self._pin, mount, self._tables), self._tables, self._owned)
        return None if isinstance(found, Refusal) else found.proposal

    def why_none(self, mount: MountPoint) -> str:
        """Why the pinned joint does not do."""
        found = pinned(self._pin, pinned_on(self._pin, mount, self._tables), self._tables, self._owned)
        return pin_refused(self._pin, found) if isinstance(found, Refusal) else ""


def field_of(
    roomy: MountPoint, pin: Pin | None, tables: Tables, owned: Owned | None, *, is_open: bool = True
) -> Field:  # fmt: skip
    """What may be first at a mount point that has room for all, where a room `is_open`: to be measured."""
    if pin is not None:
        return Pinned(pin, roomy, tables, owned)
    return All(roomy, tables, owned) if is_open else First(tables, owned)


def roomy(point: MountPoint, tables: Tables) -> MountPoint:
    """The mount point with room enough wherever its room was not measured."""
    plenty = rule(tables, Rules.GAUGE_ROOM).value
    for asks in ROOM:
        if is_open(point, asks):
            point = with_room(point, asks, plenty)
    return point


def is_open(point: MountPoint, asks: Asks) -> bool:
    """Whether a room was not measured: nothing was said of it, or there may be more than a gauge found."""
    length, bound = _room(point, asks)
    return length is None or bound is Bound.AT_LEAST


def known_mm(point: MountPoint, asks: Asks) -> float:
    """What is known of a room at least."""
    return _room(point, asks)[0] or 0.0


def with_room(point: MountPoint, asks: Asks, length_mm: float) -> MountPoint:
    """The mount point with so much room, as if it were measured."""
    if asks is Asks.BEHIND:
        return replace(point, behind_mm=length_mm, behind_bound=Bound.EXACT)
    return replace(point, edge_mm=length_mm, edge_bound=Bound.EXACT)


def _room(point: MountPoint, asks: Asks) -> tuple[float | None, Bound | None]:
    if asks is Asks.BEHIND:
        return point.behind_mm, point.behind_bound
    return point.edge_mm, point.edge_bound
