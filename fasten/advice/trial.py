"""The best that a method has for a mount point, with no more proved than it takes to be sure of it.

What a proof finds out of a joint only adds points: for what it leaves open, and for how near its limit the tightest
check is. So joints are proved from the one with the fewest points on, until none that is left can come before it.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from functools import cached_property
from itertools import count
from math import inf

from fasten.advice.method import Method, existing_hole_refusal, gates, joints
from fasten.advice.owned import Owned, fitted
from fasten.advice.ranking import Place, among_rivals, place_of, rivals
from fasten.advice.spread import but_for_sunk, has_wider, is_behind, is_worth_it, past_help, short_of, wider
from fasten.catalog.tables import Tables
from fasten.geometry.stack import spreaders_of
from fasten.model import Demand, Joint, MountPoint, Proposal, Refusal
from fasten.proof import ground as grounds
from fasten.proof.demands import demands
from fasten.proof.prove import Proving, fails_whatever_joint, unproved
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
    return tried(_trial_of(method, mount, loads, tables, owned))


def _trial_of(
    method: Method, mount: MountPoint, loads: tuple[Demand, ...], tables: Tables, owned: Owned | None
) -> "Trial | Refusal":
    return gates(method, mount, tables) or Trial(method, mount, loads, tables, owned)


def tried(trial: "Trial | Refusal") -> Tried:
    """What a method comes to once it is looked into."""
    if isinstance(trial, Refusal):
        return Tried((), (trial,), None)
    kept = trial.kept()
    nearest = [] if kept else trial.nearest()
    holes = trial.largest_hole()
    if not kept and not nearest and not holes:
        nearest = [_nothing_at_all(trial.method, trial.mount)]
    return Tried(kept, (*nearest, *holes), trial.bare())


def proposals(method: Method, mount: MountPoint, tables: Tables, owned: Owned | None) -> Iterator[Proposal]:
    """Every joint of a method that is proved, those with wider parts where all others are short of load."""
    trial = Trial(method, mount, demands(mount, tables), tables, owned)
    yield from filter(None, map(trial.proof, trial.worth_it))


def candidates(method: Method, mount: MountPoint, tables: Tables) -> list[Joint]:
    """The method's candidates, and where they are short of load those with wider parts beside them."""
    if not has_wider(mount, tables, method.NAME):
        return list(joints(method, mount, tables))
    trial = Trial(method, mount, demands(mount, tables), tables, None)
    return trial.joints_worth_it()


def first_proved(method: Method, mount: MountPoint, tables: Tables) -> Proposal | None:
    """The first joint of a method that can be proved here, without any wider part."""
    if gates(method, mount, tables) is not None or fails_whatever_joint(mount, method, tables):
        return None
    proving = Proving(mount, method, demands(mount, tables), tables)
    for joint in method.joints(mount, tables):
        if existing_hole_refusal(joint, mount) is None and proving.fits(joint):
            found = proving.within(0, joint)
            if isinstance(found, Proposal):
                return found
    return None


Best = tuple[Place, int, Proposal]
"""What is best of some joints: its place, its number and its proof."""


class Trial:
    """The joints of a method at a mount point, each proved once at most. They go by their numbers, in their order.

    Attributes:
        plain: the joints without a wider part.
        may_widen: whether any with one would be tried, were all of `plain` short of load.
        is_hopeless: whether no joint can be proved here, whatever it is.
    """

    def __init__(
        self, method: Method, mount: MountPoint, loads: tuple[Demand, ...], tables: Tables, owned: Owned | None
    ) -> None:
        self.method, self.mount = method, mount
        self._tables, self._owned = tables, owned
        self._proving = Proving(mount, method, loads, tables)
        self._within = self._proving.within
        self.is_hopeless = fails_whatever_joint(mount, method, tables)
        self._proofs: dict[int, Proposal | None] = {}
        self._bests: dict[tuple[int, ...], Best | None] = {}
        self._refusals: dict[int, Refusal] = {}
        self._leasts: dict[tuple[int, bool], Place] = {}
        self._joints = list(self._offered(mount))
        self._spread: list[list[Joint]] = []
        self._more = self._each_wider()
        self._holes = dict(self._too_wide())
        self.plain = [at for at in range(len(self._joints)) if at not in self._holes]
        self.may_widen = not self.is_hopeless and has_wider(mount, tables, method.NAME) and self._has_screws()

    @cached_property
    def worth_it(self) -> list[int]:
        """Every joint that may be kept, those with a wider part among them where all others are short of load."""
        return [*self.plain, *self._wider_ones(self._short_of())] if self.may_widen else self.plain

    def joints_worth_it(self) -> list[Joint]:
        """The candidates, and those with a wider part where all others are short of load."""
        more = [self._joints[at] for at in self.worth_it[len(self.plain) :]]
        return [*self._joints[: len(self.plain) + len(self._holes)], *more]

    def kept(self) -> tuple[Proposal, ...]:
        """The best of each thread that is proved."""
        return self._kept(self.worth_it)

    def bare(self) -> tuple[Place, Proposal] | None:
        """What would be best without a shelf; None where there is none."""
        best = None if self._owned is None else self._best(self.worth_it, None, is_bare=True)
        return None if best is None else (best[0], best[2])

    def least(self, at: int, *, is_bare: bool) -> Place:
        """The place that a joint has at best, whatever its proof finds."""
        if (at, is_bare) not in self._leasts:
            self._leasts[at, is_bare] = self._place_of(self._joints[at], is_bare)
        return self._leasts[at, is_bare]

    def may_widen_before(self, place: Place) -> bool:
        """Whether a joint with a wider part may have as good a place."""
        return any(self._place_of(joint, is_bare=False) <= place for new in self._spreading() for joint in new)

    def teams(self, at: list[int]) -> list[tuple[int, ...]]:
        """These joints by their threads: of each the best alone is kept."""
        among: dict[str, list[int]] = {}
        for one in at:
            among.setdefault(rivals(self._joints[one]), []).append(one)
        return [tuple(ones) for ones in among.values()]

    def best(self, team: tuple[int, ...], most: Place | None = None, *, is_bare: bool = False) -> Best | None:
        """The best of these that is proved, without a shelf if `is_bare`; past the place `most` another, or none."""
        if is_bare or most is not None:
            return self._bests[team] if team in self._bests and not is_bare else self._best(team, most, is_bare)
        if team not in self._bests:
            self._bests[team] = self._best(team, None, is_bare)
        return self._bests[team]

    @property
    def is_load_enough(self) -> bool:
        """Whether a joint was proved already that is short of no load, so that nothing wider is tried."""
        return any(proof is not None and short_of(proof) == 0 for proof in self._proofs.values())

    def nearest(self) -> list[Refusal]:
        """What comes nearest of all that a check refuses: one at most."""
        best: Refusal | None = None
        for at in self.plain:
            found = self._refusal(at, inf if best is None else best.fails)
            if found is not None and (best is None or _miss(found) < _miss(best)):
                best = found
        return [] if best is None else [best]

    def largest_hole(self) -> list[Refusal]:
        """Of what an existing hole is too wide for, what needs the largest: one at most."""
        return sorted(self._holes.values(), key=lambda refusal: -refusal.figures[1].value)[:1]

    def _offered(self, mount: MountPoint) -> Iterator[Joint]:
        found = joints(self.method, mount, self._tables)
        return found if self._owned is None else (fitted(joint, self._owned) for joint in found)

    def _too_wide(self) -> Iterator[tuple[int, Refusal]]:
        """The joints for which an existing hole is too wide."""
        if self.mount.existing_hole_mm is not None:
            for at, joint in enumerate(self._joints):
                refused = existing_hole_refusal(joint, self.mount)
                if refused is not None:
                    yield at, refused

    def _kept(self, at: list[int]) -> tuple[Proposal, ...]:
        found = map(self.best, self.teams(at))
        return tuple(best[2] for best in found if best is not None)

    def _best(self, at: Iterable[int], most: Place | None, is_bare: bool) -> Best | None:
        """The best by its place that is proved; of two alike the first."""
        if self.is_hopeless:
            return None
        best: Best | None = None
        for least, one in sorted((self.least(one, is_bare=is_bare), one) for one in at):
            if (best is not None and (least, one) >= best[:2]) or (most is not None and least > most):
                break
            proposal = self.proof(one)
            found = None if proposal is None else (self._place(proposal, is_bare), one, proposal)
            if found is not None and (best is None or found[:2] < best[:2]):
                best = found
        return best

    def _place_of(self, joint: Joint, is_bare: bool) -> Place:
        return self._place(unproved(joint, self.mount, self._tables), is_bare)

    def _place(self, proposal: Proposal, is_bare: bool) -> Place:
        """Among those of its thread; without a shelf among all, which is the same but for that."""
        owned = None if is_bare else self._owned
        place = place_of(proposal, self.mount, self._tables, owned)
        return place if is_bare else among_rivals(place, proposal, self.mount, self._tables, owned)

    def proof(self, at: int) -> Proposal | None:
        if at not in self._proofs:
            found = self._within(0, self._joints[at])
            self._proofs[at] = found if isinstance(found, Proposal) else None
        return self._proofs[at]

    def _refusal(self, at: int, most: float) -> Refusal | None:
        """The refusal of a joint that is not proved; None where more than `most` checks refuse it."""
        if at not in self._refusals:
            found = self._within(most, self._joints[at])
            if not isinstance(found, Refusal):
                return None
            self._refusals[at] = found
        return self._refusals[at]

    def _has_screws(self) -> bool:
        """Whether anything is screwed: nothing else has a place for a wider part."""
        return any(joint.screw is not None for joint in self._joints)

    def _short_of(self) -> int:
        """How short of load the joint is that comes nearest; the best of each thread often says that none is."""
        if any(short_of(proposal) == 0 for proposal in self._kept(self.plain)):
            return 0
        short = list[int]()
        for proposal in filter(None, map(self.proof, self.plain)):
            short.append(short_of(proposal))
            if short[-1] == 0:
                break
        if short:
            return min(short)
        refusals = (found for at in self.plain if (found := self._refusal(at, inf)) is not None)
        return next(filter(is_worth_it, map(short_of, refusals)), 0)

    def _wider_ones(self, least: int) -> Iterator[int]:
        """The joints with a wider part that are less short of load than any without."""
        if not is_worth_it(least):
            return
        for new in self._spreading():
            found = [proof for proof in map(self._other, new) if proof is not None]
            better = [proof for proof in found if short_of(proof) < least]
            yield from map(self._added, better)
            least = min([least, *map(short_of, better)])
            if least == 0:
                return

    def _spreading(self) -> Iterator[list[Joint]]:
        """The joints with each wider part in turn, made once, when the part is come to."""
        for number in count():
            if number == len(self._spread):
                new = next(self._more, None)
                if new is None:
                    return
                self._spread.append(new)
            yield self._spread[number]

    def _each_wider(self) -> Iterator[list[Joint]]:
        """Some parts have no place, or make one joint with several: none is there twice."""
        alike = defaultdict[tuple[object, ...], list[Joint]](list)
        for joint in self._joints:
            alike[_looks(joint)].append(joint)
        past = past_help(self._joints, self._proving)
        plain = at_head = list(self._joints)
        for spread in wider(self.mount, self._tables, self.method.NAME, past):
            new, left = list[Joint](), spread
            if self._owned is None:  # a shelf may have another screw for another length
                left = but_for_sunk(spread, plain, at_head, self._proving.sinks_in)
            for joint in self._offered(left):
                if spreaders_of(joint, self._tables) and joint not in alike[_looks(joint)]:
                    alike[_looks(joint)].append(joint)
                    new.append(joint)
            at_head = at_head if is_behind(spread) else new
            yield new

    def _other(self, joint: Joint) -> Proposal | None:
        """The proof of a joint that is none of the plain ones."""
        found = None if existing_hole_refusal(joint, self.mount) else self._within(0, joint)
        return found if isinstance(found, Proposal) else None

    def _added(self, proposal: Proposal) -> int:
        """The number of a joint that is one more from now on."""
        self._proofs[len(self._joints)] = proposal
        self._joints.append(proposal.joint)
        return len(self._joints) - 1


class Trials:
    """Every method at a mount point, each looked into once, when it is asked for.

    Attributes:
        first: the first answer of all, once it is known, with a shelf and without one.
    """

    def __init__(self, methods: tuple[Method, ...], mount: MountPoint, tables: Tables, owned: Owned | None) -> None:
        self.methods, self.mount, self.tables, self.owned = methods, mount, tables, owned
        self._loads = demands(mount, tables)
        self._known: dict[str, Trial | Refusal] = {}
        self.first: dict[bool, Proposal | None] = {}

    def of(self, method: Method) -> Trial | Refusal:
        """The joints of a method, none of them proved yet; a refusal where it cannot apply at all."""
        if method.NAME not in self._known:
            self._known[method.NAME] = _trial_of(method, self.mount, self._loads, self.tables, self.owned)
        return self._known[method.NAME]


def _looks(joint: Joint) -> tuple[object, ...]:
    """What is the same of joints that are: a joint itself takes long to hash."""
    return rivals(joint), joint.grip_mm, joint.behind_set_mm, *[washer.outer_mm for washer in joint.washers]


def _nothing_at_all(method: Method, mount: MountPoint) -> Refusal:
    if mount.ring is not None:
        return grounds.no_stud(method.NAME, mount)
    return Refusal(method.NAME, "no stocked length or hole size suits this stack", ())


def _miss(refusal: Refusal) -> tuple[int, float]:
    """How far off a refusal is: how many checks failed, then demand over capacity."""
    if len(refusal.figures) < 2 or refusal.figures[1].value <= 0:
        return refusal.fails, float("inf")
    return refusal.fails, refusal.figures[0].value / refusal.figures[1].value
