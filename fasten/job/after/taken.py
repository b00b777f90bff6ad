"""What repairs come to that were taken at a mount point: each starts from what those before it left there."""

from fasten.after.before import NOTHING_BEFORE, Before
from fasten.after.case import Case, case_of
from fasten.after.damage import check_possible, read_damage
from fasten.after.edits import LEAVE_OUT, SHIFT
from fasten.after.mixed import Odd
from fasten.after.routes import Route, at_one, fixing_of, route_of
from fasten.after.shims import beside, lift_mm
from fasten.catalog.repairs import REPAIR_ROUTES
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.after.own_tests import repaired_tests, with_tests
from fasten.job.after.start import before_repair, holes_found_mm, joint_found, point_found
from fasten.job.words import Mount, Repair
from fasten.model import Answer, Joint, MountPoint
from fasten.record import record, replace


@record
class Taken:
    """A repair with the route that it comes to now; None where it comes to none, and `because` says why.

    `number` is which repair of the mount point it is, from 1, and `done` whether one since took its place. One `of_all`
    is what a repair of every fixing comes to at one that was unlike the rest. `odd` is what its fixing is beside the
    others in the end, where it is one of several.
    """

    number: int
    repair: Repair
    route: Route | None
    because: str
    whole: bool
    leaves_out: bool = False
    done: bool = False
    of_all: bool = False
    odd: Odd | None = None


@record
class Stands:
    """What is at a mount point after repairs: the answer of its fixings, where they are, and what repairs left."""

    answer: Answer
    point: MountPoint
    before: Before = NOTHING_BEFORE

    @property
    def joint(self) -> Joint:
        """The joint of the fixings that no repair made unlike the rest."""
        return self.answer.proposal.joint

    def joint_at(self, at: int | None) -> Joint:
        """The joint of one fixing, or of all."""
        own = self.before.at(at)
        return self.joint if own is None else own.joint


def check_first(stands: Stands, at: int | None) -> None:
    """Raises FastenError where the fixing was left out, so that nothing is in its hole that could be repaired."""
    own = stands.before.at(at)
    if own is not None and own.is_left_out:
        what = f"fixing {at} was left out, so there is nothing to repair"
        raise FastenError(what, where="at", fix="take that back with fasten undo first, or repair every fixing")


def stands(mount: Mount, answer: Answer, point: MountPoint, tables: Tables) -> Stands:
    """What is at a mount point once its repairs are done, one after the other, on the joint as it was planned."""
    return _history(mount, answer, point, tables)[1]


def taken(mount: Mount, answer: Answer, point: MountPoint, tables: Tables) -> tuple[Taken, ...]:
    """What each repair of a mount point comes to, all of them together.

    Each starts from what those before it left. One of a single fixing is proved beside the others as they are in the
    end; one for all is one more at each fixing that was unlike the rest by then.
    What was read on test pieces of a repair since counts for it.
    """
    found, end = _history(mount, answer, point, tables)
    together = tuple(_together(one, case, end, tables) for one, case in found)
    there = {one.number: one.odd for one in end.before.fixings if end.point.fixings > 1}
    return tuple(
        replace(one, done=_is_done(at, together), odd=None if one.whole else there.get(one.repair.at or 0))
        for at, one in enumerate(together)
    )  # fmt: skip


def in_force(found: tuple[Taken, ...]) -> tuple[Taken, ...]:
    """The repairs that no other took the place of."""
    return tuple(one for one in found if not one.done)


def _is_done(at: int, found: tuple[Taken, ...]) -> bool:
    """Whether a repair since took its place: of the same fixing, or of all of them."""
    own, later = found[at], [one for one in found[at + 1 :] if one.route is not None]
    if own.whole:
        return own.route is not None and any(one.whole and one.route and one.route.answer for one in later)
    return any(one.route and one.route.placed.shift for one in later) or (
        own.route is not None and any(not one.whole and one.repair.at == own.repair.at for one in later)
    )


def _history(
    mount: Mount, answer: Answer, point: MountPoint, tables: Tables
) -> tuple[list[tuple[Taken, Case | None]], Stands]:  # fmt: skip
    """Each repair as it was done, with the case that it was of, and what is there after all of them."""
    point = with_tests(point, repaired_tests(mount, answer.proposal.joint, point, tables))
    now, found = Stands(answer, point), list[tuple[Taken, Case | None]]()
    for number, repair in enumerate(mount.repairs, 1):
        now = _as_found(before_repair(mount, number), now, tables)
        one, case = _one(number, repair, now, tables)
        found.append((one, case))
        if one.route is None or case is None:
            continue
        if not one.whole:
            now = replace(now, before=_with_one(now.before, one.route, case, tables))
            continue
        for at, own in one.route.also:
            each = replace(one, repair=replace(repair, at=at), route=own, whole=False, of_all=True)
            found.append((each, at_one(case, at)))
        now = _with_all(now, one.route, case, tables)
    return found, _as_found(mount, now, tables)


def _as_found(mount: Mount, now: Stands, tables: Tables) -> Stands:
    """What is there as the visits by then measured it."""
    point = point_found(mount, now.joint, now.point, tables)
    holes_mm, joint = holes_found_mm(mount, point.fixings, tables), joint_found(now.joint, point, tables)
    before = replace(now.before, measured_mm=holes_mm)
    answer = replace(now.answer, proposal=replace(now.answer.proposal, joint=joint))
    return Stands(answer, point, before)


def _one(number: int, repair: Repair, now: Stands, tables: Tables) -> tuple[Taken, Case | None]:
    """A repair at what is there now."""
    fixings = now.point.fixings
    whole = repair.at is None or fixings == 1

    def none(because: str) -> tuple[Taken, None]:
        return Taken(number, repair, None, because, whole), None

    try:
        damage = read_damage(repair.what)
    except FastenError:
        return none(f"{repair.what} is no damage that is known")
    if repair.at is not None and repair.at > fixings:
        return none(f"there are {fixings} fixings now")
    at = 1 if fixings == 1 else repair.at
    try:
        check_first(now, at)
        check_possible(damage, now.joint_at(at), now.answer.title)
    except FastenError as error:
        return none(f"{error.what}; {error.fix}" if error.fix else error.what)
    case = case_of(now.joint, now.point, damage, at, now.before)
    return _as_taken(Taken(number, repair, None, "", whole), case, tables), case


def _as_taken(one: Taken, case: Case, tables: Tables) -> Taken:
    """A repair with the route that it comes to beside what its case says is there."""
    key = one.repair.route
    route = route_of(key, case, tables)
    if route is None:
        return replace(one, route=None, because=f"{key} is no route for {one.repair.what} here")
    if route.refused is not None:
        return replace(one, route=None, because=f"{key} does not do any more: {route.refused.because}")
    proof = tables.need(REPAIR_ROUTES, route.route).proof
    whole = case.at is None or case.group.fixings == 1 or proof == SHIFT
    return replace(one, route=route, because="", whole=whole, leaves_out=proof == LEAVE_OUT)


def _together(one: Taken, case: Case | None, end: Stands, tables: Tables) -> Taken:
    """A repair of one fixing beside the others as they are in the end; they are there no more where all moved since."""
    if case is None or one.whole or one.route is None or end.before.at(case.at) is None:
        return one
    mine = tuple(own for own in case.before.fixings if own.number == case.at)
    others = tuple(own for own in end.before.fixings if own.number != case.at)
    if others == tuple(own for own in case.before.fixings if own.number != case.at):
        return one
    return _as_taken(one, replace(case, before=replace(case.before, fixings=(*others, *mine))), tables)


def _with_one(before: Before, route: Route, case: Case, tables: Tables) -> Before:
    return replace(before.with_fixing(fixing_of(route, case, tables)), old=route.placed.old)


def _with_all(now: Stands, route: Route, case: Case, tables: Tables) -> Stands:
    """What is there after a route for every fixing; a pattern that moved leaves all that was there as old holes."""
    if route.answer is None:
        return now
    point = replace(route.point, existing_hole_mm=None, existing_holes_mm=None)
    if route.placed.shift is not None:
        return Stands(route.answer, point, Before((), route.placed.old))
    plate, before = route.placed.plate, replace(now.before, old=route.placed.old)
    if point.fixings == 1:
        own = (fixing_of(route, case, tables),) if plate is not None else ()
        before = replace(before, fixings=own)
    elif plate is not None:
        before = replace(before, plate=plate)
    for at, other in route.also:
        before = before.with_fixing(fixing_of(other, at_one(case, at), tables))
    if plate is not None:  # what is drilled anew beside it is drilled as it was planned
        return replace(now, before=before)
    return Stands(route.answer, point, before)


def base_of(
    found: tuple[Taken, ...], planned: Answer, point: MountPoint, tables: Tables
) -> tuple[Answer, MountPoint]:  # fmt: skip
    """The answer of the fixings that no repair made unlike the rest, and their mount point: of the last repair of all,
    else as planned; beside those that are, and on shims where a plate lifts the item.
    """
    for one in in_force(found):
        if one.whole and one.route is not None and one.route.answer is not None:
            planned, point = one.route.answer, one.route.point
    return beside(planned, lift_of(found), odd_of(found), point, tables), point


def odd_of(found: tuple[Taken, ...]) -> tuple[Odd, ...]:
    """The fixings that repairs in force made unlike the rest, as they are beside those."""
    return tuple(one.odd for one in in_force(found) if one.odd is not None)


def lift_of(found: tuple[Taken, ...]) -> float:
    """How far plates at single fixings lift the item."""
    return lift_mm(one.route.placed.plate for one in in_force(found) if one.route is not None and not one.whole)
