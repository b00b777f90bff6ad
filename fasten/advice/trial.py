"""The best that a method has for a mount point, with no more proved than it takes to be sure of it.

What a proof finds out of a joint only adds points: for what it leaves open, and for how near its limit the tightest
check is. So joints are proved from the one with the fewest points on, until none that is left can come before it.
"""

from collections.abc import Callable, Iterable, Iterator
from functools import partial
from math import inf

from fasten.advice.method import Method, existing_hole_refusal, gates, joints
from fasten.advice.owned import Owned, fitted
from fasten.advice.ranking import Place, among_rivals, order, rivals, score
from fasten.advice.spread import is_worth_it, short_of, wider
from fasten.catalog.tables import Tables
from fasten.geometry.stack import spreaders_of
from fasten.model import Demand, Joint, MountPoint, Proposal, Refusal
from fasten.proof import ground as grounds
from fasten.proof.demands import demands
from fasten.proof.prove import fails_whatever_joint, fits, prove_within, unproved
from fasten.record import record


@record
class Tried:
    """What a method comes to: its best of each thread, what was refused, and its best without a shelf."""

    kept: tuple[Proposal, ...]
    refused: tuple[Refusal, ...]
    bare: tuple[Place, Proposal] | None


def best_of_method(
    method: Method, mount: MountPoint, loads: tuple[Demand, ...], tables: Tables, owned: Owned | None
) -> Tried:
    """The best proposal of each thread, and what was refused: the nearest miss where nothing is left."""
    refused = gates(method, mount, tables)
    if refused is not None:
        return Tried((), (refused,), None)
    trial = _Trial(method, mount, loads, tables, owned)
    at = trial.all_worth_it()
    kept = trial.kept(at)
    nearest = [] if kept else trial.nearest()
    holes = trial.largest_hole()
    if not kept and not nearest and not holes:
        nearest = [_nothing_at_all(method, mount)]
    return Tried(kept, (*nearest, *holes), None if owned is None else trial.bare(at))


def proposals(method: Method, mount: MountPoint, tables: Tables, owned: Owned | None) -> Iterator[Proposal]:
    """Every joint of a method that is proved, those with wider parts where all others are short of load."""
    trial = _Trial(method, mount, demands(mount, tables), tables, owned)
    yield from filter(None, map(trial.proof, trial.all_worth_it()))


def candidates(method: Method, mount: MountPoint, tables: Tables) -> list[Joint]:
    """The method's candidates, and where they are short of load those with wider parts beside them."""
    if not any(wider(mount, tables)):
        return list(joints(method, mount, tables))
    trial = _Trial(method, mount, demands(mount, tables), tables, None)
    trial.all_worth_it()
    return trial.joints


def first_proved(method: Method, mount: MountPoint, tables: Tables) -> Proposal | None:
    """The first joint of a method that can be proved here, without any wider part."""
    if gates(method, mount, tables) is not None or fails_whatever_joint(mount, method, tables):
        return None
    loads = demands(mount, tables)
    for joint in method.joints(mount, tables):
        if existing_hole_refusal(joint, mount) is None and fits(joint, mount, method, tables):
            found = prove_within(0, joint, mount, method, loads, tables)
            if isinstance(found, Proposal):
                return found
    return None


_Best = tuple[Place, int, Proposal]


class _Trial:
    """The joints of a method at a mount point, each proved once at most. They go by their numbers, in their order."""

    def __init__(
        self, method: Method, mount: MountPoint, loads: tuple[Demand, ...], tables: Tables, owned: Owned | None
    ) -> None:
        self._method, self._mount, self._tables, self._owned = method, mount, tables, owned
        self._within = partial(prove_within, mount=mount, method=method, demands=loads, tables=tables)
        self._is_hopeless = fails_whatever_joint(mount, method, tables)
        self._proofs: dict[int, Proposal | None] = {}
        self._bests: dict[tuple[int, ...], _Best | None] = {}
        self._refusals: dict[int, Refusal] = {}
        self.joints = list(self._offered(mount))
        holes = ((at, existing_hole_refusal(joint, mount)) for at, joint in enumerate(self.joints))
        self._holes = {at: refused for at, refused in holes if refused is not None}
        self._plain = [at for at in range(len(self.joints)) if at not in self._holes]

    def all_worth_it(self) -> list[int]:
        """Every joint that may be kept, those with a wider part among them where all others are short of load."""
        if self._is_hopeless or not any(wider(self._mount, self._tables)) or not self._has_screws():
            return self._plain
        return [*self._plain, *self._wider_ones(self._short_of())]

    def kept(self, at: list[int]) -> tuple[Proposal, ...]:
        """The best of each thread that is proved."""
        among: dict[str, list[int]] = {}
        for one in at:
            among.setdefault(rivals(self.joints[one]), []).append(one)
        for ones in map(tuple, among.values()):
            if ones not in self._bests:
                self._bests[ones] = self._best(ones, self._place)
        found = (self._bests[tuple(ones)] for ones in among.values())
        return tuple(best[2] for best in found if best is not None)

    def bare(self, at: list[int]) -> tuple[Place, Proposal] | None:
        """What would be best without a shelf."""
        best = self._best(at, self._bare_place)
        return None if best is None else (best[0], best[2])

    def nearest(self) -> list[Refusal]:
        """What comes nearest of all that a check refuses: one at most."""
        best: Refusal | None = None
        for at in self._plain:
            found = self._refusal(at, inf if best is None else best.fails)
            if found is not None and (best is None or _miss(found) < _miss(best)):
                best = found
        return [] if best is None else [best]

    def largest_hole(self) -> list[Refusal]:
        """Of what an existing hole is too wide for, what needs the largest: one at most."""
        return sorted(self._holes.values(), key=lambda refusal: -refusal.figures[1].value)[:1]

    def _offered(self, mount: MountPoint) -> Iterator[Joint]:
        found = joints(self._method, mount, self._tables)
        return found if self._owned is None else (fitted(joint, self._owned) for joint in found)

    def _best(self, at: Iterable[int], place: Callable[[Proposal], Place]) -> _Best | None:
        """The best by its place that is proved; of two alike the first."""
        best: _Best | None = None
        for least, one in sorted((place(self._unproved(one)), one) for one in ([] if self._is_hopeless else at)):
            if best is not None and (least, one) >= best[:2]:
                break
            proposal = self.proof(one)
            found = None if proposal is None else (place(proposal), one, proposal)
            if found is not None and (best is None or found[:2] < best[:2]):
                best = found
        return best

    def _unproved(self, at: int) -> Proposal:
        return unproved(self.joints[at], self._mount, self._tables)

    def _place(self, proposal: Proposal) -> Place:
        place = order(score(proposal, self._mount, self._tables, self._owned), proposal)
        return among_rivals(place, proposal, self._mount, self._tables, self._owned)

    def _bare_place(self, proposal: Proposal) -> Place:
        return order(score(proposal, self._mount, self._tables), proposal)

    def proof(self, at: int) -> Proposal | None:
        if at not in self._proofs:
            found = self._within(0, self.joints[at])
            self._proofs[at] = found if isinstance(found, Proposal) else None
        return self._proofs[at]

    def _refusal(self, at: int, most: float) -> Refusal | None:
        """The refusal of a joint that is not proved; None where more than `most` checks refuse it."""
        if at not in self._refusals:
            found = self._within(most, self.joints[at])
            if not isinstance(found, Refusal):
                return None
            self._refusals[at] = found
        return self._refusals[at]

    def _has_screws(self) -> bool:
        """Whether anything is screwed: nothing else has a place for a wider part."""
        return any(joint.screw is not None for joint in self.joints)

    def _short_of(self) -> int:
        """How short of load the joint is that comes nearest; the best of each thread often says that none is."""
        if any(short_of(proposal) == 0 for proposal in self.kept(self._plain)):
            return 0
        short = list[int]()
        for proposal in filter(None, map(self.proof, self._plain)):
            short.append(short_of(proposal))
            if short[-1] == 0:
                break
        if short:
            return min(short)
        refusals = (found for at in self._plain if (found := self._refusal(at, inf)) is not None)
        return next(filter(is_worth_it, map(short_of, refusals)), 0)

    def _wider_ones(self, least: int) -> Iterator[int]:
        """The joints with a wider part that are less short of load than any without.

        Many methods have no place for a wider part, and offer the plain joints again, or one joint for several: none
        is tried twice.
        """
        if not is_worth_it(least):
            return
        tried = set(self.joints)
        for spread in wider(self._mount, self._tables):
            spreading = (joint for joint in self._offered(spread) if spreaders_of(joint, self._tables))
            new = [joint for joint in dict.fromkeys(spreading) if joint not in tried]
            tried.update(new)
            found = [proof for proof in map(self._other, new) if proof is not None]
            better = [proof for proof in found if short_of(proof) < least]
            yield from map(self._added, better)
            least = min([least, *map(short_of, better)])
            if least == 0:
                return

    def _other(self, joint: Joint) -> Proposal | None:
        """The proof of a joint that is none of the plain ones."""
        found = None if existing_hole_refusal(joint, self._mount) else self._within(0, joint)
        return found if isinstance(found, Proposal) else None

    def _added(self, proposal: Proposal) -> int:
        """The number of a joint that is one more from now on."""
        self._proofs[len(self.joints)] = proposal
        self.joints.append(proposal.joint)
        return len(self.joints) - 1


def _nothing_at_all(method: Method, mount: MountPoint) -> Refusal:
    if mount.ring is not None:
        return grounds.no_stud(method.NAME, mount)
    return Refusal(method.NAME, "no stocked length or hole size suits this stack", ())


def _miss(refusal: Refusal) -> tuple[int, float]:
    """How far off a refusal is: how many checks failed, then demand over capacity."""
    if len(refusal.figures) < 2 or refusal.figures[1].value <= 0:
        return refusal.fails, float("inf")
    return refusal.fails, refusal.figures[0].value / refusal.figures[1].value
