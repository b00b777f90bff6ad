"""Which answer is first where there is less room: the candidates are proved once with room for all of them, and then
only those that may come first are proved again.

Less space behind and a nearer edge never turn a refusal nor better a place. What needs an edge near it is refused where
there is room, and is asked for again as soon as its method can apply.
"""

from collections.abc import Iterable, Iterator

from fasten.advice.advise import METHODS
from fasten.advice.method import Method, gates, joints
from fasten.advice.owned import Owned
from fasten.advice.ranking import Place, among_rivals, order, rivals, score
from fasten.advice.studs import is_plain
from fasten.advice.trial import proposals
from fasten.catalog.tables import Tables
from fasten.model import Joint, MountPoint, Proposal
from fasten.proof import ground as grounds
from fasten.proof.demands import demands
from fasten.proof.prove import prove, unproved
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
    place = order(score(found, mount, tables, owned), found)
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


@record
class Standing:
    """Whether a joint is first: its proof where it is, and whether that is sure or takes a whole contest to say."""

    proposal: Proposal | None
    is_sure: bool


def standing(joint: Joint, mount: MountPoint, tables: Tables, owned: Owned | None = None) -> Standing:
    """Whether a joint is first at a mount point.

    No proof makes a place better than the joint alone has it, so a method that is behind by that is not proved. What a
    shelf prefers among rivals, and a lug that may go on a smaller stud, are left to a whole contest.
    """
    loads = demands(mount, tables)
    offered = [
        (method, (*joints(method, mount, tables),)) for method in METHODS if gates(method, mount, tables) is None
    ]
    mine = next((method for method, found in offered if joint in found), None)
    proof = None if mine is None else prove(joint, mount, mine, loads, tables)
    if mine is None or not isinstance(proof, Proposal):
        return Standing(None, is_sure=owned is None)
    own = _entrant(mine, joint, proof, mount, tables, owned)
    if any(_ahead(own, offered, mount, tables, owned)):
        return Standing(None, is_sure=owned is None)
    return Standing(proof, is_sure=_plain(own))


def _ahead(
    own: Entrant, offered: list[tuple[Method, tuple[Joint, ...]]], mount: MountPoint, tables: Tables,
    owned: Owned | None,
) -> Iterator[bool]:  # fmt: skip
    """Whether another joint comes before it, one by one; a method is proved only where one of its joints may."""
    for method, found in offered:
        if any(_before(_unproved(method, one, mount, tables, owned), own) for one in found if one != own.joint):
            for proof in proposals(method, mount, tables, owned):
                if proof.joint != own.joint:
                    yield _before(_entrant(method, proof.joint, proof, mount, tables, owned), own)


def _before(one: Entrant, own: Entrant) -> bool:
    return min(one.place, one.among) < max(own.place, own.among)


def _unproved(method: Method, joint: Joint, mount: MountPoint, tables: Tables, owned: Owned | None) -> Entrant:
    """A joint as if every check of it held: it can have no better place."""
    return _entrant(method, joint, unproved(joint, mount, tables), mount, tables, owned)
