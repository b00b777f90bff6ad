"""Which answer is first where there is less room: the candidates are proved once with room for all of them, and then
only those that may come first are proved again.

Less space behind and a nearer edge never turn a refusal nor better a place. What needs an edge near it is refused where
there is room, and is asked for again as soon as its method can apply.
"""

from collections.abc import Iterable, Iterator

from fasten.advice.advise import METHODS
from fasten.advice.foremost import foremost
from fasten.advice.method import Method, gates
from fasten.advice.owned import Owned
from fasten.advice.ranking import Place, among_rivals, place_of, rivals
from fasten.advice.studs import is_plain
from fasten.advice.trial import Trials, proposals
from fasten.catalog.tables import Tables
from fasten.model import Joint, MountPoint, Proposal
from fasten.proof import ground as grounds
from fasten.proof.demands import demands
from fasten.proof.prove import prove
from fasten.record import record


@record
class Entrant:
    """A joint of a method with its proof, its place among the first answers and that among its rivals."""

    method: Method
    joint: Joint
    proposal: Proposal
    place: Place
    among: Place


@record
class Team:
    """The joints of which only the best is an answer, best first, with the best place that any of them may get."""

    entrants: tuple[Entrant, ...]
    least: Place


class Contest:
    """The candidates of a mount point that has room for all of them."""

    def __init__(self, roomy: MountPoint, tables: Tables, owned: Owned | None = None) -> None:
        self.tables, self.owned = tables, owned
        self._loads = demands(roomy, tables)
        self._shut = tuple(method for method in METHODS if gates(method, roomy, tables) is not None)
        open_ = (method for method in METHODS if method not in self._shut)
        self.entrants = tuple(entrant for method in open_ for entrant in self._entrants(method, roomy))
        self._teams = tuple(_teams(self.entrants))
        self._first: dict[MountPoint, Entrant | None] = {}
        smaller = grounds.smaller_stud(roomy, tables)
        self._smaller = None if smaller is None else Contest(smaller, tables, owned)

    @property
    def proposals(self) -> tuple[Proposal, ...]:
        """Every joint that does where there is room for all."""
        own = tuple(entrant.proposal for entrant in self.entrants)
        return own if self._smaller is None else (*own, *self._smaller.proposals)

    def first(self, mount: MountPoint) -> Proposal | None:
        """The first answer of the mount point with this room, without its words; None where nothing fits."""
        found = self._winner(mount)
        if self._smaller is None or (found is not None and _plain(found)):
            return None if found is None else found.proposal
        on_smaller = grounds.smaller_stud(mount, self.tables)
        other = None if on_smaller is None else self._smaller._winner(on_smaller)
        if other is not None and _plain(other):
            return other.proposal
        return None if found is None else found.proposal

    def _winner(self, mount: MountPoint) -> Entrant | None:
        if mount not in self._first:
            self._first[mount] = self._found(mount)
        return self._first[mount]

    def _found(self, mount: MountPoint) -> Entrant | None:
        best: Entrant | None = None
        for team in sorted((*self._teams, *self._opened(mount)), key=lambda team: team.least):
            if best is not None and team.least >= best.place:
                break
            found = self._best_of(team, mount)
            if found is not None and (best is None or found.place < best.place):
                best = found
        return best

    def _opened(self, mount: MountPoint) -> Iterator[Team]:
        """What can apply only where there is less room."""
        for method in self._shut:
            if gates(method, mount, self.tables) is None:
                yield from _teams(self._entrants(method, mount))

    def _best_of(self, team: Team, mount: MountPoint) -> Entrant | None:
        best: Entrant | None = None
        for entrant in team.entrants:
            if best is not None and entrant.among >= best.among:
                break
            found = prove(entrant.joint, mount, entrant.method, self._loads, self.tables)
            if isinstance(found, Proposal):
                other = self._entered(entrant.method, entrant.joint, found, mount)
                best = other if best is None or other.among < best.among else best
        return best

    def _entrants(self, method: Method, mount: MountPoint) -> Iterator[Entrant]:
        for found in proposals(method, mount, self.tables, self.owned):
            yield self._entered(method, found.joint, found, mount)

    def _entered(self, method: Method, joint: Joint, found: Proposal, mount: MountPoint) -> Entrant:
        return _entrant(method, joint, found, mount, self.tables, self.owned)


def _entrant(
    method: Method, joint: Joint, found: Proposal, mount: MountPoint, tables: Tables, owned: Owned | None
) -> Entrant:
    place = place_of(found, mount, tables, owned)
    return Entrant(method, joint, found, place, among_rivals(place, found, mount, tables, owned))


def _teams(entrants: Iterable[Entrant]) -> Iterator[Team]:
    kept: dict[tuple[str, str], list[Entrant]] = {}
    for entrant in entrants:
        kept.setdefault((entrant.proposal.method, rivals(entrant.joint)), []).append(entrant)
    for team in kept.values():
        ordered = tuple(sorted(team, key=lambda entrant: entrant.among))
        yield Team(ordered, min(entrant.place for entrant in team))


def _plain(entrant: Entrant) -> bool:
    return is_plain(entrant.place[0], entrant.joint)


def first_with(mount: MountPoint, tables: Tables, owned: Owned | None = None) -> Proposal | None:
    """The first answer of a mount point that is asked for once, without its words; None where nothing fits."""
    found, smaller = foremost(Trials(METHODS, mount, tables, owned)), grounds.smaller_stud(mount, tables)
    if smaller is None or _holds_plainly(found, mount, tables, owned):
        return found
    other = foremost(Trials(METHODS, smaller, tables, owned))
    return other if _holds_plainly(other, smaller, tables, owned) else found


def _holds_plainly(found: Proposal | None, mount: MountPoint, tables: Tables, owned: Owned | None) -> bool:
    return found is not None and is_plain(place_of(found, mount, tables, owned)[0], found.joint)
