"""The steps of repairs that were taken: the old part out, what the route does, and the joint that its fixing gets."""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from fasten.advice.doings import doings_of, label_of
from fasten.advice.steps import in_order
from fasten.after.damage import read_damage
from fasten.after.routes import OUT, OutStep, Route, out_steps
from fasten.catalog.repairs import REPAIR_ROUTES
from fasten.catalog.tables import Tables
from fasten.job.after.repairs import REPAIRS, opened_text, place_text
from fasten.job.after.taken import Taken, in_force
from fasten.job.ticked import LOOSENED
from fasten.job.words import Mount, Repair
from fasten.model import Doing, Phase, WorkStep

_APART = 100  # places within a phase that the steps of one repair are after those of the one before
_AS_PLANNED = frozenset({Phase.RECORD, Phase.LATER})  # once for all fixings of a mount point
_OLD_PART = "Old part out"


def with_steps(doings: tuple[Doing, ...], found: tuple[Taken, ...], tables: Tables) -> tuple[Doing, ...]:
    """The steps in their order once repaired: those of a repaired fixing are its own and name its hole and torque."""
    for one in in_force(found):
        if one.route is not None:
            planned = _without_hole(doings, one, one.route)
            doings = (*planned, *_numbered(one, _apart(planned, _steps(one, one.route, tables))))
    by_step = {doing.step: doing for doing in doings}
    return tuple(by_step[step] for step in in_order(by_step))


def _without_hole(doings: tuple[Doing, ...], one: Taken, route: Route) -> tuple[Doing, ...]:
    """The steps without the hole of a fixing that has another now, or none."""
    at = one.repair.at
    if one.whole or at is None or (route.answer is None and not one.leaves_out):
        return doings
    left = (replace(doing, holes=tuple(hole for hole in doing.holes if hole != at)) for doing in doings)
    return tuple(now for doing, now in zip(doings, left, strict=True) if now.holes or not doing.holes)


def _apart(planned: Iterable[Doing], own: Iterable[Doing]) -> Iterator[Doing]:
    """The steps of a repair without those that say the same as what is done again at all fixings, once it was off."""
    again = {doing.step.text for doing in planned if doing.step.phase in LOOSENED}
    return (doing for doing in own if doing.step.text not in again)


def _numbered(one: Taken, own: Iterable[Doing]) -> Iterator[Doing]:
    """The steps of a repair, found again by its number, after those of the same phase that were planned."""
    head = f"{'At ' if one.repair.at is None else 'Only at '}{place_text(one.repair)}"
    for place, doing in enumerate(own, 1):
        text, step = doing.step.text, doing.step
        said = f"{head}: {text[0].lower()}{text[1:]}" if text[1:2].islower() else f"{head}: {text}"
        at = f"{one.repair.at}/" if one.of_all else ""
        id_ = f"{_id(one.number)}{at}{step.id}"
        yield replace(doing, step=replace(step, step=_APART * one.number + place, text=said, id=id_))


def _steps(one: Taken, route: Route, tables: Tables) -> Iterator[Doing]:
    for step in () if one.of_all else out_steps(route.point, read_damage(one.repair.what), tables):
        if tables.need(REPAIR_ROUTES, step.route).sort == OUT:  # a reason to stop was answered before it was taken
            yield _out(step, one.repair)
    own = None if one.whole or one.leaves_out else route.answer
    if own is None or route.notes or route.placed.plate is not None:
        yield _route(one, route)
    if own is None:
        return
    alone = replace(route.point, fixings=1, pattern=None)
    for doing in doings_of(own, alone, tables):
        if doing.step.phase not in _AS_PLANNED:
            at = one.repair.at
            yield replace(doing, holes=(at,) if doing.holes and at is not None else ())


def _out(step: OutStep, repair: Repair) -> Doing:
    bits = f" Bit: {step.bits}." if step.bits else ""
    danger = f" Mind: {step.danger}." if step.danger else ""
    work = WorkStep(Phase.LOOK, 0, f"{step.text}{bits}{danger}", step.route)
    return Doing(work, _OLD_PART, None, (), f"{place_text(repair)}: {step.title}")


def _route(one: Taken, route: Route) -> Doing:
    """What a route does beside its joint, or all of it where it is none."""
    hardware = (route.hardware,) if route.hardware and route.answer is None else ()
    said = "; ".join(text.rstrip(".") for text in (route.text, *opened_text(route), *hardware, *route.notes))
    phase = Phase.LOOK if route.answer is not None else Phase.OPEN_UP
    step, place = WorkStep(phase, 0, f"{said}.", route.route), place_text(one.repair)
    return Doing(step, f"Repair of {place}" if phase is Phase.LOOK else label_of(phase), None, (),
                 f"{place}: {route.title}")  # fmt: skip


def _id(number: int) -> str:
    return f"{REPAIRS}/{number}/"


def first_steps_of(mount: Mount) -> str:
    """How the ids of the steps of the last repair of a mount point begin."""
    return _id(len(mount.repairs))
