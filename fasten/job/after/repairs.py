"""Routes of repair that were taken at a mount point: proved anew whenever it is answered, and followed by its plan.

A route is proved with the other fixings as they are, repaired ones among them. What is not proved any more is open.
"""

from collections.abc import Iterator

from fasten.after.damage import damage_text
from fasten.after.routes import Repaired, Route, is_of_fixing
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.geometry.joint import drilled
from fasten.job.after.built import AS_PLANNED, with_visit
from fasten.job.after.taken import Taken, base_of, in_force, taken
from fasten.job.list.parts import part_text
from fasten.job.pins import pin_of
from fasten.job.ticked import once_repaired
from fasten.job.words import REPAIRED, Mount, Pin, Repair, Visit
from fasten.model import Answer, Check, MountPoint, Status
from fasten.model.plan import Plan
from fasten.record import replace
from fasten.text.figures import figure, mm
from fasten.text.rounding import rounded_down, torque_digits

REPAIRS = "repair"  # the ids of checks and steps of a repair begin so


# -- taking one -------------------------------------------------------------------------------------------------------


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


def with_parts(mount: Mount, plan: Plan) -> Mount:
    """The mount point with the parts of its last repair in the note of the visit at which it was done."""
    own = [need for number, need in plan.repaired if number == len(mount.repairs)]
    if not own:
        return mount
    *before, visit = mount.visits
    parts = ", ".join(f"{need.count} x {part_text(need.part)}" for need in own)
    return replace(mount, visits=(*before, replace(visit, note=f"{visit.note.rstrip('.')}; parts: {parts}")))


def place_text(repair: Repair) -> str:
    """Which fixing a repair is of."""
    return "every fixing" if repair.at is None else f"fixing {repair.at}"


# -- what follows -----------------------------------------------------------------------------------------------------


def repaired_first(
    mount: Mount, answer: Answer, point: MountPoint, tables: Tables
) -> tuple[Answer, MountPoint, tuple[Taken, ...]]:  # fmt: skip
    """An answer of a mount point and its point as they stand once it is repaired, and what each repair comes to."""
    done = taken(mount, answer, point, tables)
    return *repaired_answer(answer, point, done, tuple(map(pin_of_route, done)), tables), done


def pin_of_route(done: Taken) -> Pin | None:
    """The pin of the joint that a repair comes to; None where it is none."""
    return pin_of(done.route.answer) if done.route is not None and done.route.answer is not None else None


def repaired_answer(
    answer: Answer, point: MountPoint, found: tuple[Taken, ...], pins: tuple[Pin | None, ...], tables: Tables
) -> tuple[Answer, MountPoint]:
    """The answer as it stands once repaired: every check of each route in force on it, and what is not proved open.

    `pins` are the joints that the routes come to now. One route for all fixings is the answer itself.
    """
    base, at = base_of(found, answer, point, tables)
    checks = tuple(check for one, pin in zip(found, pins, strict=True) if not one.done for check in _of(one, pin))
    remarks = (*answer.remarks, *(_remark(one) for one in found if not one.of_all))
    if not any(one.whole and one.route is not None and one.route.answer is not None for one in in_force(found)):
        checks = (*base.proposal.checks, *checks)
    proven = all(check.status is Status.HOLDS for check in checks)
    proposal = replace(base.proposal, checks=checks, proven=proven)
    return replace(base, rank=1, proposal=proposal, remarks=remarks), at


def is_of_repair(id_: str) -> bool:
    """Whether a check or step of this id is of a repair; the number of that stands after the first stroke."""
    return id_.startswith(f"{REPAIRS}/")


def fixing_of(mount: Mount, id_: str) -> int | None:
    """Which fixing of a mount point a step of this id is of; None where it is of all, or of no repair."""
    if not is_of_repair(id_):
        return None
    _, number, then, *_ = id_.split("/")
    return int(then) if then.isdecimal() else mount.repairs[int(number) - 1].at


def open_repairs(answer: Answer) -> tuple[str, ...]:
    """What the repairs of an answer leave open, without the word needs."""
    waiting = (check for check in answer.proposal.checks if check.status is not Status.HOLDS)
    mine = (check for check in waiting if is_of_repair(check.id))
    return tuple(dict.fromkeys((check.needs or check.title).removeprefix("needs ") for check in mine))


def _of(one: Taken, pin: Pin | None) -> Iterator[Check]:
    """The checks of a repair."""
    place = place_text(one.repair)
    head = f"{REPAIRS}/{one.number}{f'/fixing-{one.repair.at}' if one.of_all else ''}"
    if one.route is None:
        yield _waits(head, f"Repair of {place}", f"needs {place} proved again with fasten repair: {one.because}")
        return
    if pin != one.repair.pin and not one.of_all:
        needs = f"needs {place} proved again: {one.route.route} comes to other parts now than were written down"
        yield _waits(f"{head}/parts", f"Parts of the repair of {place}", needs)
    for check in one.route.checks:
        if not is_of_fixing(check):  # those are proved beside the others as they are in the end
            title = f"Repaired {place}: {check.title}"
            yield replace(check, id=f"{head}/{check.id}", title=title, needs=_needs(check, place))


def _needs(check: Check, place: str) -> str | None:
    return None if check.needs is None else f"needs for {place}: {check.needs.removeprefix('needs ')}"


def _waits(id_: str, title: str, needs: str) -> Check:
    return Check(id_, title, Status.NOT_CHECKED, None, None, "-", None, None, None, (), "-", (), needs)


# -- in words -------------------------------------------------------------------------------------------------------


def _remark(one: Taken) -> str:
    """What was done to which fixing, with its hole and torque."""
    repair, route = one.repair, one.route
    head = f"{place_text(repair).capitalize()} was repaired after {repair.what} by {repair.route}"
    if route is None:
        return f"{head}, which is not proved: {one.because}"
    if one.done:
        return f"{head}, and again since"
    hardware = (route.hardware,) if route.hardware and route.answer is None else ()
    said = (route.text, *opened_text(route), *_joint(route), *hardware, *route.notes)
    return f"{head}: {'; '.join(text.rstrip('.') for text in said)}"


def opened_text(route: Route) -> tuple[str, ...]:
    """What a route opens the item to, where it does; of a slot its notes say how wide and how long."""
    if route.opened_mm is None or route.placed.slot_mm is not None:
        return ()
    return (f"opening in the item {mm(route.opened_mm)}",)


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
