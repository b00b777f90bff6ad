"""The steps of repairs that were taken: the old part out, what the route does, and the joint that its fixing gets."""

from collections.abc import Iterable, Iterator

from fasten.advice.steps import in_order
from fasten.advice.tasks import label_of, tasks_of
from fasten.after.damage import read_damage
from fasten.after.routes import OUT, OutStep, Route, out_steps
from fasten.catalog.repairs import REPAIR_ROUTES
from fasten.catalog.tables import Tables
from fasten.job.after.repairs import REPAIRS, opened_text, place_text
from fasten.job.after.taken import Taken, in_force
from fasten.job.ticked import LOOSENED
from fasten.job.words import Mount, Repair
from fasten.model import Phase, Task, WorkStep
from fasten.record import replace

_APART = 100  # places within a phase that the steps of one repair are after those of the one before
_AS_PLANNED = frozenset({Phase.RECORD, Phase.LATER})  # once for all fixings of a mount point
_OLD_PART = "Old part out"
_ITEM_OPENED = "every/look/4"  # a slot is longer than the hole, not wider: its note says how long


def with_steps(tasks: tuple[Task, ...], found: tuple[Taken, ...], tables: Tables) -> tuple[Task, ...]:
    """The steps in their order once repaired: those of a repaired fixing are its own and name its hole and torque."""
    for one in in_force(found):
        if one.route is not None:
            planned = _without_hole(tasks, one, one.route)
            tasks = (*planned, *_numbered(one, _apart(planned, _steps(one, one.route, tables))))
    by_step = {task.step: task for task in tasks}
    return tuple(by_step[step] for step in in_order(by_step))


def _without_hole(tasks: tuple[Task, ...], one: Taken, route: Route) -> tuple[Task, ...]:
    """The steps without the hole of a fixing that has another now, or none."""
    at = one.repair.at
    if one.whole or at is None or (route.answer is None and not one.leaves_out):
        return tasks
    left = (replace(task, holes=tuple(hole for hole in task.holes if hole != at)) for task in tasks)
    return tuple(now for task, now in zip(tasks, left, strict=True) if now.holes or not task.holes)


def _apart(planned: Iterable[Task], own: Iterable[Task]) -> Iterator[Task]:
    """The steps of a repair without those that say the same as what is done again at all fixings, once it was off."""
    again = {task.step.text for task in planned if task.step.phase in LOOSENED}
    return (task for task in own if task.step.text not in again)


def _numbered(one: Taken, own: Iterable[Task]) -> Iterator[Task]:
    """The steps of a repair, found again by its number, after those of the same phase that were planned."""
    head = f"{'At ' if one.repair.at is None else 'Only at '}{place_text(one.repair)}"
    for place, task in enumerate(own, 1):
        text, step = task.step.text, task.step
        said = f"{head}: {text[0].lower()}{text[1:]}" if text[1:2].islower() else f"{head}: {text}"
        at = f"{one.repair.at}/" if one.of_all else ""
        id_ = f"{_id(one.number)}{at}{step.id}"
        yield replace(task, step=replace(step, step=_APART * one.number + place, text=said, id=id_))


def _steps(one: Taken, route: Route, tables: Tables) -> Iterator[Task]:
    for step in () if one.of_all else out_steps(route.point, read_damage(one.repair.what), tables):
        if tables.need(REPAIR_ROUTES, step.route).sort == OUT:  # a reason to stop was answered before it was taken
            yield _out(step, one.repair)
    own = None if one.whole or one.leaves_out else route.answer
    if own is None or route.notes or route.placed.plate is not None:
        yield _route(one, route)
    if own is None:
        return
    alone = replace(route.point, fixings=1, pattern=None)
    slotted = route.placed.slot_mm is not None
    for task in tasks_of(own, alone, tables):
        if task.step.phase not in _AS_PLANNED and not (slotted and task.step.id == _ITEM_OPENED):
            at = one.repair.at
            yield replace(task, holes=(at,) if task.holes and at is not None else ())


def _out(step: OutStep, repair: Repair) -> Task:
    bits = f" Bit: {step.bits}." if step.bits else ""
    danger = f" Mind: {step.danger}." if step.danger else ""
    work = WorkStep(Phase.LOOK, 0, f"{step.text}{bits}{danger}", step.route)
    return Task(work, _OLD_PART, None, (), f"{place_text(repair)}: {step.title}")


def _route(one: Taken, route: Route) -> Task:
    """What a route does beside its joint, or all of it where it is none."""
    hardware = (route.hardware,) if route.hardware and route.answer is None else ()
    said = "; ".join(text.rstrip(".") for text in (route.text, *opened_text(route), *hardware, *route.notes))
    phase = Phase.LOOK if route.answer is not None else Phase.OPEN_UP
    step, place = WorkStep(phase, 0, f"{said}.", route.route), place_text(one.repair)
    return Task(step, f"Repair of {place}" if phase is Phase.LOOK else label_of(phase), None, (),
                 f"{place}: {route.title}")  # fmt: skip


def _id(number: int) -> str:
    return f"{REPAIRS}/{number}/"


def first_steps_of(mount: Mount) -> str:
    """How the ids of the steps of the last repair of a mount point begin."""
    return _id(len(mount.repairs))
