"""Damage to a joint at a mount point, and what a route of repair comes to there."""

from collections.abc import Callable

from fasten.advice.advise import method_of
from fasten.advice.method import Method
from fasten.advice.ranking import order, score
from fasten.after import mixed
from fasten.after.before import NOTHING_BEFORE, Before, Fixing, Plate, Point, places_of
from fasten.after.damage import CORRODED, CRACKED, OFF, WAYS, Damage, hole_left_mm
from fasten.after.mixed import Odd
from fasten.catalog.repairs import RepairRoute
from fasten.catalog.tables import Tables
from fasten.geometry.shift import Move
from fasten.model import Check, Demand, Figure, Joint, MountPoint, Proposal, Refusal
from fasten.model.tested import REPAIR_PART
from fasten.proof.checks import waits
from fasten.proof.demands import demands
from fasten.record import record, replace


@record
class Case:
    """Damage to a joint at a mount point: at one fixing, numbered from 1, or at all; how wide the hole is now.

    `joint` and `mount` are those of the fixing that is repaired as it is now, `planned` and `group` those of the
    fixings that no repair made unlike the rest. `before` is what repairs left.
    """

    joint: Joint
    mount: MountPoint
    damage: Damage
    at: int | None
    left_mm: float | None
    planned: Joint
    group: MountPoint
    before: Before = NOTHING_BEFORE

    @property
    def bad_mm(self) -> float:
        """How wide a circle about the hole is in which nothing holds: the hole, and a crack that runs from it."""
        crack_mm = self.damage.size_mm if self.damage.what == CRACKED else None
        return (self.left_mm or 0.0) + 2 * (crack_mm or 0.0)

    @property
    def alone(self) -> bool:
        """Whether one fixing of several is repaired, so that it is unlike the others."""
        return self.at is not None and self.group.fixings > 1 and self.group.pattern is not None

    @property
    def own(self) -> Fixing | None:
        """The fixing that is repaired, where a repair before made it unlike the rest."""
        return self.before.at(self.at)

    @property
    def others(self) -> tuple[Odd, ...]:
        """The other fixings that are unlike the rest, as they are beside those."""
        return self.before.others(self.at)

    @property
    def place_mm(self) -> Point:
        """Where the fixing that is repaired is now, about the middle of those that were planned."""
        return places_of(self.group, self.before)[(self.at or 1) - 1]

    @property
    def off_mm(self) -> Point:
        """How far the hole is off its place, where it is known which way."""
        if self.damage.what != OFF or self.damage.way is None:
            return (0.0, 0.0)
        (x, y), far = WAYS[self.damage.way], self.damage.size_mm or 0.0
        return x * far, y * far

    @property
    def unsure_mm(self) -> float:
        """How far the hole is off its place, where it is not known which way."""
        return self.damage.size_mm or 0.0 if self.damage.what == OFF and self.damage.way is None else 0.0

    @property
    def hole_at_mm(self) -> Point:
        """Where the hole of the fixing that is repaired is now."""
        (x, y), (off_x, off_y) = self.place_mm, self.off_mm
        return x + off_x, y + off_y


def case_of(joint: Joint, mount: MountPoint, damage: Damage, at: int | None, before: Before) -> Case:
    """Damage where a joint was planned: of a fixing that was repaired before, to what is there now.

    A hole that was measured wider than it was planned is as wide as that.
    """
    own, wide_mm = before.at(at), before.wide_mm(at)
    if own is None:
        left_mm = max(hole_left_mm(damage, joint) or 0.0, wide_mm) or None
        return Case(joint, _left(mount, damage), damage, at, left_mm, joint, mount, before)
    left_mm = max(hole_left_mm(damage, own.joint) or 0.0, own.bad_mm, wide_mm) or None
    return Case(own.joint, _left(own.mount, damage), damage, at, left_mm, joint, mount, before)


def _left(mount: MountPoint, damage: Damage) -> MountPoint:
    """The mount point with what is left of its sheet, where that is corroded and was measured."""
    if damage.what != CORRODED or damage.size_mm is None:
        return mount
    least, most = (min(damage.size_mm, size) for size in (mount.thickness_min_mm, mount.thickness_max_mm))
    return replace(mount, thickness_min_mm=least, thickness_max_mm=most)


@record
class Found:
    """What a route comes to: its proof or refusal, None where it is no joint; what it needs besides, and where.

    `notes` are what of it no joint says, `shift` is how the whole pattern moves, `plate` what is riveted over the hole,
    `slot_mm` how wide the item's slot is, where it has one.
    """

    proof: Proposal | Refusal | None
    more: tuple[Check, ...]
    point: MountPoint
    notes: tuple[str, ...] = ()
    shift: Move | None = None
    plate: Plate | None = None
    slot_mm: float | None = None


def own_odd(case: Case, moved_mm: Point | None = None) -> Odd:
    """The fixing that is repaired as it is beside the others; a hole that is off its place counts where it is."""
    assert case.at is not None
    if moved_mm is None and case.off_mm != (0.0, 0.0):
        moved_mm = case.hole_at_mm
    elif moved_mm is None and case.own is not None:
        moved_mm = case.own.odd.moved_mm
    return Odd(case.at - 1, moved_mm=moved_mm)


def loads_of(mount: MountPoint, case: Case, tables: Tables, moved_mm: Point | None = None) -> tuple[Demand, ...]:
    """The demands on the fixing that is repaired: beside others the worst share that its stiffness may give it."""
    if mount.fixings != case.group.fixings:
        return demands(mount, tables)
    among = replace(mount, pattern=case.group.pattern)
    if case.alone:
        own = own_odd(case, moved_mm)
        return mixed.loads_at(among, (own, *case.others), (own.place,), tables)
    left = left_of(case)
    return mixed.loads_at(among, case.others, left, tables) if case.others and left else demands(mount, tables)


def left_of(case: Case) -> tuple[int, ...]:
    """The places of the fixings that stay as they were planned."""
    odd = {one.place for one in case.others} | ({case.at - 1} if case.at is not None else set())
    return tuple(at for at in range(case.group.fixings) if at not in odd)


def least(found: list[Proposal | Refusal], mount: MountPoint, method: str, tables: Tables) -> Proposal | Refusal:
    proposals = [one for one in found if isinstance(one, Proposal)]
    if proposals:
        return min(proposals, key=lambda one: (not one.proven, order(score(one, mount, tables), one)))
    refusals = [one for one in found if isinstance(one, Refusal)]
    there = () if mount.existing_hole_mm is None else (Figure("existing hole", mount.existing_hole_mm, "mm"),)
    nothing = Refusal(method, "no part of the tables is this one and fits here", there)
    return min(refusals, key=lambda one: (miss_of(one), one.fails), default=nothing)


def miss_of(refusal: Refusal) -> float:
    if len(refusal.figures) < 2 or refusal.figures[1].value <= 0:
        return float("inf")
    return refusal.figures[0].value / refusal.figures[1].value


def miss(found: Found) -> float:
    """How far off what a route comes to is; nothing where it is proved."""
    return miss_of(found.proof) if isinstance(found.proof, Refusal) else 0.0


def thinnest(
    route: RepairRoute, thicknesses_mm: tuple[float, ...], in_plate: Callable[[float, Method], Found]
) -> Found:  # fmt: skip
    """What the methods of a route come to in the thinnest plate that does; in none, what is nearest to it."""
    found = [
        in_plate(thick_mm, method)
        for thick_mm in thicknesses_mm for name in route.methods if (method := method_of(name)) is not None
    ]  # fmt: skip
    return next((one for one in found if not isinstance(one.proof, Refusal)), min(found, key=miss))


def figures_of(check: Check) -> tuple[Figure, ...]:
    """The figures of a check that fails."""
    both = (("demand", check.demand), ("capacity", check.allowable))
    return tuple(Figure(name, value, check.unit) for name, value in both if value is not None)


def crack_checks(case: Case) -> tuple[Check, ...]:
    """A plate reaches over all of a crack: how long that is must be known."""
    if case.damage.what != CRACKED or case.damage.size_mm is not None:
        return ()
    needs = "needs how long the crack is, from the hole to its end: cracked 25 mm"
    return (waits("crack-length", "Plate over all of the crack", "mm", None, needs, (), "-", ()),)


def repair_part(route: str, line: str) -> str:
    """What test pieces of a repair are of: the route, and the joint that it was of by the id of its line."""
    return f"{REPAIR_PART}{route}/{line}"
