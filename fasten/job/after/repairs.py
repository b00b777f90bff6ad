"""Routes of repair that were taken at a mount point: proved anew whenever it is answered, and followed by its plan.

A route is proved with the other fixings as they are, repaired ones among them. What is not proved any more is open.
"""

from collections.abc import Iterator
from dataclasses import replace

from fasten.after.damage import Damage, damage_text, read_damage
from fasten.after.edits import LEAVE_OUT, SHIFT
from fasten.after.mixed import Odd
from fasten.after.routes import Repaired, Route, odd_of, route_of
from fasten.catalog.repairs import REPAIR_ROUTES
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.geometry.joint import drilled
from fasten.job.after.built import AS_PLANNED, with_visit
from fasten.job.after.own_tests import repaired_tests, with_tests
from fasten.job.ticked import once_repaired
from fasten.job.words import REPAIRED, Mount, Pin, Repair, Visit
from fasten.model import Answer, Check, Joint, MountPoint, Status
from fasten.record import record
from fasten.text.figures import figure, mm
from fasten.text.rounding import rounded_down, torque_digits

REPAIRS = "repair"  # the ids of checks and steps of a repair begin so


@record
class Taken:
    """A repair with the route that it comes to now; None where it comes to none, and `because` says why."""

    repair: Repair
    route: Route | None
    because: str
    whole: bool
    leaves_out: bool = False


# -- taking one -------------------------------------------------------------------------------------------------------


def check_first(mount: Mount, at: int | None) -> None:
    """Raises FastenError where the fixing was repaired already: routes are proved on the joint as it was planned."""
    for repair in mount.repairs:
        if at is None or repair.at in (None, at):
            what = f"{place_text(repair)} was repaired already, after {repair.what}, by {repair.route}"
            fix = "take that back with fasten undo first: a second repair of the same is not proved"
            raise FastenError(what, where="at", fix=fix)


def chosen(found: Repaired, text: str) -> Route:
    """The route of this number; raises FastenError where there is none, or a question comes first."""
    if found.asks:
        raise FastenError(f"no route is taken before this is answered: {found.asks}", where="take",
                          fix="if neither, add --sound")  # fmt: skip
    if not text.isdecimal() or not 1 <= int(text) <= len(found.routes):
        fix = f"say one from 1 to {len(found.routes)}, as printed without --take" if found.routes else "no route does"
        raise FastenError(f"there is no route {text!r} that does", where="take", fix=fix)
    return found.routes[int(text) - 1]


def with_repair(mount: Mount, found: Repaired, route: Route, pin: Pin | None, today: str) -> Mount:
    """The mount point with this route taken, and the visit at which it was."""
    repair = Repair(found.at, damage_text(found.damage), route.route, pin)
    whole = found.at is None or route.point.fixings == 1
    note = f"{place_text(repair)} after {repair.what}: {route.route}, {route.text}"
    visit = Visit(today, "", AS_PLANNED if whole else "", "", note, kind=REPAIRED)
    moves = route.placed.shift is not None
    ticked = once_repaired(
        mount.ticked, found.at, is_whole=whole or moves, is_elsewhere=moves or route.placed.new_place
    )
    return with_visit(replace(mount, repairs=(*mount.repairs, repair), ticked=ticked), visit)


def place_text(repair: Repair) -> str:
    """Which fixing a repair is of."""
    return "every fixing" if repair.at is None else f"fixing {repair.at}"


# -- what follows -----------------------------------------------------------------------------------------------------


def taken(mount: Mount, answer: Answer, point: MountPoint, tables: Tables) -> tuple[Taken, ...]:
    """What each repair of a mount point comes to, on the joint as it was planned, all of them together.

    What was read on test pieces of a repair since counts for it.
    """
    point = with_tests(point, repaired_tests(mount, answer.proposal.joint, point, tables))
    odd = [_odd(repair, answer, point, tables) for repair in mount.repairs]
    return tuple(
        _taken(repair, answer, point, tuple(one for one in (*odd[:at], *odd[at + 1 :]) if one is not None), tables)
        for at, repair in enumerate(mount.repairs)
    )


def others_of(mount: Mount, joint: Joint, point: MountPoint, tables: Tables) -> tuple[Odd, ...]:
    """The fixings of a mount point that are unlike the rest, because they were repaired."""
    found = (_odd_fixing(repair, joint, point, tables) for repair in mount.repairs)
    return tuple(one for one in found if one is not None)


def _odd(repair: Repair, answer: Answer, point: MountPoint, tables: Tables) -> Odd | None:
    return _odd_fixing(repair, answer.proposal.joint, point, tables)


def _odd_fixing(repair: Repair, joint: Joint, point: MountPoint, tables: Tables) -> Odd | None:
    damage = _damage(repair)
    if damage is None or repair.at is None or repair.at > point.fixings:
        return None
    return odd_of(repair.route, joint, point, damage, repair.at, tables)


def _taken(repair: Repair, answer: Answer, point: MountPoint, others: tuple[Odd, ...], tables: Tables) -> Taken:
    whole = repair.at is None or point.fixings == 1
    damage = _damage(repair)
    if damage is None:
        return Taken(repair, None, f"{repair.what} is no damage that is known", whole)
    if repair.at is not None and repair.at > point.fixings:
        return Taken(repair, None, f"there are {point.fixings} fixings now", whole)
    route = route_of(repair.route, answer.proposal.joint, point, damage, repair.at, tables, others)
    if route is None:
        return Taken(repair, None, f"{repair.route} is no route for {repair.what} here", whole)
    if route.refused is not None:
        return Taken(repair, None, f"{repair.route} does not do any more: {route.refused.because}", whole)
    proof = tables.need(REPAIR_ROUTES, route.route).proof
    return Taken(repair, route, "", whole or proof == SHIFT, proof == LEAVE_OUT)


def _damage(repair: Repair) -> Damage | None:
    try:
        return read_damage(repair.what)
    except FastenError:
        return None


def repaired_answer(
    answer: Answer, point: MountPoint, found: tuple[Taken, ...], pins: tuple[Pin | None, ...]
) -> tuple[Answer, MountPoint]:
    """The answer as it stands once repaired: every check of each route on it, and what is not proved open.

    `pins` are the joints that the routes come to now. One route for all fixings is the answer itself.
    """
    checks = (*_of_routes(found, pins), *_together(found))
    remarks = (*answer.remarks, *(_remark(one) for one in found))
    if len(found) == 1 and found[0].whole and found[0].route is not None and found[0].route.answer is not None:
        answer, point = found[0].route.answer, found[0].route.point
    else:
        checks = (*answer.proposal.checks, *checks)
    proven = all(check.status is Status.HOLDS for check in checks)
    proposal = replace(answer.proposal, checks=checks, proven=proven)
    return replace(answer, rank=1, proposal=proposal, remarks=remarks), point


def open_repairs(answer: Answer) -> tuple[str, ...]:
    """What the repairs of an answer leave open, without the word needs."""
    waiting = (check for check in answer.proposal.checks if check.status is not Status.HOLDS)
    mine = (check for check in waiting if check.id.startswith(f"{REPAIRS}/"))
    return tuple(dict.fromkeys((check.needs or check.title).removeprefix("needs ") for check in mine))


def _of_routes(found: tuple[Taken, ...], pins: tuple[Pin | None, ...]) -> Iterator[Check]:
    for number, (one, pin) in enumerate(zip(found, pins, strict=True), 1):
        head, place = f"{REPAIRS}/{number}", place_text(one.repair)
        if one.route is None:
            yield _waits(head, f"Repair of {place}", f"needs {place} proved again with fasten repair: {one.because}")
            continue
        if pin != one.repair.pin:
            needs = f"needs {place} proved again: {one.route.route} comes to other parts now than were written down"
            yield _waits(f"{head}/parts", f"Parts of the repair of {place}", needs)
        for check in one.route.checks:
            title = f"Repaired {place}: {check.title}"
            yield replace(check, id=f"{head}/{check.id}", title=title, needs=_needs(check, place))


def _needs(check: Check, place: str) -> str | None:
    return None if check.needs is None else f"needs for {place}: {check.needs.removeprefix('needs ')}"


def _together(found: tuple[Taken, ...]) -> Iterator[Check]:
    """Repairs of single fixings are proved beside each other; one of the whole pattern is not proved beside others."""
    if len(found) > 1 and any(one.whole for one in found):
        places = ", ".join(place_text(one.repair) for one in found)
        needs = f"needs a proof of all its repairs together ({places}): each is proved with the others as planned"
        yield _waits(f"{REPAIRS}/all", "Repairs together", needs)


def _waits(id_: str, title: str, needs: str) -> Check:
    return Check(id_, title, Status.NOT_CHECKED, None, None, "-", None, None, None, (), "-", (), needs)


# -- in words -------------------------------------------------------------------------------------------------------


def _remark(one: Taken) -> str:
    """What was done to which fixing, with its hole and torque."""
    repair, route = one.repair, one.route
    head = f"{place_text(repair).capitalize()} was repaired after {repair.what} by {repair.route}"
    if route is None:
        return f"{head}, which is not proved: {one.because}"
    hardware = (route.hardware,) if route.hardware and route.answer is None else ()
    said = (route.text, *opened_text(route), *_joint(route), *hardware, *route.notes)
    return f"{head}: {'; '.join(text.rstrip('.') for text in said)}"


def opened_text(route: Route) -> tuple[str, ...]:
    """What a route opens the item to, where it does."""
    return () if route.opened_mm is None else (f"opening in the item {mm(route.opened_mm)}",)


def _joint(route: Route) -> Iterator[str]:
    """The title, hole and torque of what a route comes to."""
    if route.answer is None:
        return
    joint, torque = route.answer.proposal.joint, route.answer.proposal.torque
    yield route.answer.title
    if joint.hole is not None:
        yield f"hole {figure(drilled(joint).diameter_mm)} mm"
    if torque is not None:
        yield f"torque {rounded_down(torque.target_nm, torque_digits(torque))} N·m"
