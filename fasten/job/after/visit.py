"""A return visit: what comes off first, what is renewed at it and bought for it, and how tight it is refitted."""

from collections.abc import Iterator

from fasten.advice.plan import fixing_parts
from fasten.after.removals import Came, Wear, since
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.after.covered import above, rates
from fasten.job.after.judged import judged, wear
from fasten.job.after.judged_odd import left_out_of, odd_of
from fasten.job.after.repairs import is_of_repair
from fasten.job.choices import Choice
from fasten.job.list.lists import AsBuilt
from fasten.job.list.parts import same_part
from fasten.job.ready import as_built_of
from fasten.job.shelf.view import ShelfView
from fasten.job.store.job_toml import same_name
from fasten.job.ticked import states
from fasten.job.words import Cover, Job, Mount, Shelf
from fasten.job.work import at_visit
from fasten.model import Phase, Proposal, Torque
from fasten.model.line import Part
from fasten.model.plan import OddFixing, PartNeed
from fasten.record import record, replace


@record
class Due:
    """A part that is renewed at this visit, how many, and after how many removals; None where it is not known."""

    part: str
    count: int | None
    every: int
    since: int


@record
class ToBuy:
    """A part that this visit takes, how many are on the shelf, and how many to buy."""

    part: Part
    count: int
    on_shelf: int
    to_buy: int


@record
class Off:
    """One thing that comes off at a visit, a `cover` of the car or a mount point, after what covers it.

    `asked` is what the visit is for. `title` is what holds it; `torque` that of refitting, with what the nut takes by
    itself on top where `past_driving`. `needs` is what is not known of it, `odd` each fixing that a repair made unlike
    the rest, with its own torque. `as_built` is what the record of a mount point leaves open.
    """

    name: str
    cover: bool
    asked: bool
    fixings: int | None
    title: str
    renew: tuple[Due, ...]
    torque: Torque | None
    past_driving: bool
    needs: str
    odd: tuple[OddFixing, ...] = ()
    as_built: AsBuilt | None = None


@record
class VisitSheet:
    """A visit: what comes off in this order and goes on again in the other, and what is bought for it.

    `first` is what is done once before anything comes off, such as the battery, and `last` once all is on again.
    """

    title: str
    vehicle: str
    off: tuple[Off, ...]
    buy: tuple[ToBuy, ...]
    shelf: bool
    first: tuple[str, ...]
    last: tuple[str, ...]


def visit_sheet(
    job: Job, found: tuple[Choice, ...], names: tuple[str, ...], shelf: Shelf | None, tables: Tables
) -> VisitSheet:
    """The visit to these mount points, all where none is named; raises FastenError where there is nothing to do."""
    wanted = {same_name(name) for name in names} or {same_name(one.name) for one in found}
    order: dict[str, Cover | Mount] = {}
    for choice in found:
        if same_name(choice.name) in wanted:
            for one in (*above(choice.mount, job), choice.mount):
                order.setdefault(same_name(one.name), one)
    if not order:
        raise FastenError("the job has no mount points", where="visit", fix="add one before you visit it")
    by_name = {same_name(choice.name): choice for choice in found}
    first = sorted(order.values(), key=lambda one: not isinstance(one, Cover))
    off = tuple(
        _cover(one, job, tables) if isinstance(one, Cover)
        else _mount(by_name[same_name(one.name)], same_name(one.name) in wanted, tables)
        for one in first
    )  # fmt: skip
    taken = [by_name[same_name(one.name)] for one in first if isinstance(one, Mount)]
    buy = (*_buy(taken, ShelfView(shelf, tables), tables), *_of_covers(off))
    first_of_all, last = (at_visit(job, phase, tables) for phase in (Phase.BEFORE, Phase.AFTER))
    return VisitSheet(job.title, job.vehicle, off, buy, shelf is not None, first_of_all, last)


def _mount(choice: Choice, asked: bool, tables: Tables) -> Off:
    if choice.answer is None or choice.point is None:
        return Off(
            choice.name, False, asked, None, "", (), None, False, choice.reason or "its question is not answered"
        )
    due = tuple(
        Due(_named(one), _count(choice, one, tables), one.every, one.since) for one in wear(choice, tables) if one.due
    )  # fmt: skip
    plan, verdict = choice.plan, judged(choice, tables)
    proved = choice.answer.proposal if verdict is None else verdict.proved
    torque = proved.torque if isinstance(proved, Proposal) else None
    needs = "" if isinstance(proved, Proposal) else f"what was built does not do: {proved.because}"
    past = plan is not None and plan.label.past_driving
    fixings = choice.point.fixings - len(left_out_of(choice.repairs))
    return Off(
        choice.name, False, asked, fixings, choice.answer.title, due, torque, past, needs,
        () if plan is None else plan.label.odd, next(as_built_of((choice,), tables), None),
    )  # fmt: skip


def _named(worn: Wear) -> str:
    return worn.part if worn.at is None else f"{worn.part} of fixing {worn.at}"


def _count(choice: Choice, worn: Wear, tables: Tables) -> int | None:
    """How many of what is worn a mount point has; None where it is nothing that is counted."""
    return sum(need.count for need in _needs_of(choice, worn, tables)) or None


def _needs_of(choice: Choice, worn: Wear, tables: Tables) -> tuple[PartNeed, ...]:
    """The parts that are worn: of one repaired fixing its own, else those of the plan without what is of such."""
    assert choice.plan is not None
    odd = {
        one.repair.at: one.route.answer.proposal
        for one in odd_of(choice.repairs)
        if one.route is not None and one.route.answer is not None
    }
    own = {at: {need.id: need for need in fixing_parts(proposal, tables)} for at, proposal in odd.items()}
    if worn.at is not None:
        return tuple(need for need in own.get(worn.at, {}).values() if need.id.key in worn.renews)
    left = (
        replace(need, count=need.count - sum(each[need.id].count for each in own.values() if need.id in each))
        for need in choice.plan.parts if need.id.key in worn.renews
    )  # fmt: skip
    return tuple(need for need in left if need.count > 0)


def _cover(cover: Cover, job: Job, tables: Tables) -> Off:
    """A cover: it came off on each day on which something under it was worked on, and at each visit without one."""
    _, every = rates(cover, tables)
    came = _came(cover, job)
    count = since(cover.name, came)
    part = cover.renewed or "its fixings"
    due = (Due(part, cover.fixings, every, count),) if every is not None and count + 1 >= every else ()
    needs = "" if every is not None else "at how many removals its fixings are renewed is not said: look at them"
    return Off(cover.name, True, False, cover.fixings, cover.renewed, due, None, False, needs)


def _came(cover: Cover, job: Job) -> tuple[Came, ...]:
    """The days on which a cover was off, in their order, with what was renewed on each by name."""
    under_it = [mount for mount in job.mounts if any(one is cover for one in above(mount, job))]
    seen = (visit for mount in under_it for visit in mount.visits if not visit.is_remark)
    visits = sorted(seen, key=lambda visit: visit.date)
    days: dict[str, str] = {}
    for at, visit in enumerate(visits):
        day = visit.date or str(at)
        days[day] = f"{days.get(day, '')} {_of_cover(visit.renewed, cover)}".strip()
    return tuple(Came(off=True, renewed=renewed) for renewed in days.values())


def _of_cover(renewed: str, cover: Cover) -> str:
    """The cover, where what was renewed names it: what is renewed of a mount point is none of its fixings."""
    return cover.name if same_name(cover.name) in same_name(renewed) else ""


def _buy(taken: list[Choice], shelf: ShelfView, tables: Tables) -> tuple[ToBuy, ...]:
    counts = dict[Part, int]()
    listed = dict[Part, Part]()  # as the list calls a part, whatever its spelling
    for need in (need for choice in taken if choice.plan is not None for need in _taken(choice, tables)):
        key = same_part(need.part)
        listed.setdefault(key, need.part)
        counts[key] = counts.get(key, 0) + need.count
    return tuple(
        ToBuy(listed[key], count, min(kept := shelf.part(key).count, count), max(count - kept, 0))
        for key, count in counts.items()
    )  # fmt: skip


def _taken(choice: Choice, tables: Tables) -> Iterator[PartNeed]:
    """The parts that a visit takes: those that are due, and those of repairs that are done at it."""
    due = [one for one in wear(choice, tables) if one.due]
    yield from {(one.at, need.id): need for one in due for need in _needs_of(choice, one, tables)}.values()
    yield from _to_repair(choice)


def _to_repair(choice: Choice) -> Iterator[PartNeed]:
    """The parts of repairs that are taken and not ticked to their end: they are done at this visit."""
    assert choice.plan is not None
    steps = states(choice.mount.ticked, choice.plan.tasks, choice.mount.built)
    left = {state.step.id.split("/")[1] for state in steps if is_of_repair(state.step.id) and not state.is_done}
    yield from (need for number, need in choice.plan.repaired if str(number) in left)


def _of_covers(off: tuple[Off, ...]) -> Iterator[ToBuy]:
    """What is renewed of covers, by the name that it has there: its size is the car's, so that no shelf has it."""
    for due in (due for one in off if one.cover for due in one.renew if due.count is not None):
        yield ToBuy(Part(due.part, "", "", "", None), due.count or 0, 0, due.count or 0)
