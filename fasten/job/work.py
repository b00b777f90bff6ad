"""The work sheet of a job: what comes once before everything, each entry in order of work, what comes last."""

from collections.abc import Container, Iterator

from fasten.advice.cautions import for_all_work
from fasten.advice.steps import in_order
from fasten.advice.tasks import once
from fasten.advice.tools import unsized
from fasten.after.judge import Judged
from fasten.catalog import practice
from fasten.catalog.job_parts import AT_BATTERIES, AT_VISIT, AT_WORK, WORK_ORDER
from fasten.catalog.practice import JOB
from fasten.catalog.tables import Tables
from fasten.job.after.judged import verdict_of
from fasten.job.entry import Entry, plans_of
from fasten.job.list.hardware import hardware
from fasten.job.list.lists import HardwareList, Setting
from fasten.job.list.needs import tool_line
from fasten.job.list.ticks import with_ticks
from fasten.job.shelf.known import with_known
from fasten.job.shelf.view import ShelfView
from fasten.job.ticked import StepState, states
from fasten.job.words import Job, Shelf, Visit
from fasten.model import Caution, Phase, Task, WorkStep
from fasten.model.line import Part
from fasten.model.plan import Plan
from fasten.progress import Step, stepped, unseen
from fasten.question.fields import BATTERY
from fasten.question.item import item_of
from fasten.record import lean, record, replace

EACH = "each"


@lean
class Bagged:
    """A part that goes into the bag of an entry, and how many: those that are fitted, without spares."""

    part: Part
    form: str
    count: int


@lean
class WorkEntry:
    """One entry as it is worked on.

    Without a `plan` there are no steps: `reason` stands in their place. `cautions` are its own, without those for all
    work; `built` is what was really used when it was built before, and `verdict` what that comes to. `source` is what
    the plan is from: a page shows of it what is not part of every plan, such as a drawing.
    """

    name: str
    note: str
    plan: Plan | None
    reason: str
    steps: tuple[StepState, ...]
    cautions: tuple[Caution, ...]
    built: Visit | None
    bag: tuple[Bagged, ...]
    source: Entry
    verdict: Judged | None = None


@record
class WorkSheet:
    """The work of a job, or of some of its entries.

    `first` comes once before everything, `last` once after it; `cautions` are for all of it. `box` is the hardware
    list of these entries: every tool and bit once, with all its sizes.
    """

    title: str
    vehicle: str
    note: str
    first: tuple[StepState, ...]
    cautions: tuple[Caution, ...]
    box: HardwareList
    entries: tuple[WorkEntry, ...]
    last: tuple[StepState, ...]


def work_sheet(
    job: Job, found: tuple[Entry, ...], shelf: Shelf | None, tables: Tables, step: Step = unseen
) -> WorkSheet:
    """The work sheet of the entries that `found` is of; they get what it says.

    `step` is called for each entry and may raise Stopped.
    """
    return WorkSheet(
        title=job.title, vehicle=job.vehicle, note=job.note, first=of_job(job, Phase.BEFORE, tables),
        cautions=for_all_work(tables), box=_with_tools(job, hardware(job, found, shelf, tables), found, shelf, tables),
        entries=tuple(_entries(found, tables, step)), last=of_job(job, Phase.AFTER, tables),
    )  # fmt: skip


def _entries(found: tuple[Entry, ...], tables: Tables, step: Step) -> Iterator[WorkEntry]:
    """The work of each; mount points that ask the same, of which nothing is done yet, share their steps."""
    known: dict[int, tuple[StepState, ...]] = {}  # by their tasks, which they share as well
    for entry in stepped(found, step):
        plan, is_begun = entry.plan, entry.ticked or entry.built is not None
        if plan is None or is_begun:
            steps = () if plan is None else states_of(entry.ticked, plan, entry.built, tables)
        else:
            if id(plan.tasks) not in known:
                known[id(plan.tasks)] = states_of((), plan, None, tables)
            steps = known[id(plan.tasks)]
        yield _entry(entry, steps, tables)


def marker_names(place: int, plan: Plan) -> Iterator[tuple[str, str]]:
    """The wire markers of a run at this place of the work sheet, by its number and a letter, and where each goes."""
    yield from ((f"{place}{chr(ord('A') + at)}", where) for at, where in enumerate(plan.markers))


def of_job(job: Job, phase: Phase, tables: Tables) -> tuple[StepState, ...]:
    """What comes once for the whole job before everything, or after it, and what of it is ticked."""
    has_second = any(item_of(dict(mount.said)) == BATTERY for mount in job.mounts)
    left_out = {AT_VISIT} if has_second else {AT_VISIT, AT_BATTERIES}
    ordered = _ordered(phase.value, phase, tables, has_runs=bool(job.runs), left_out=left_out)
    return states(job.ticked, once(ordered, tables, JOB), None)


def _ordered(
    when: str, phase: Phase, tables: Tables, *, has_runs: bool = False,
    left_out: Container[str] = (AT_VISIT, AT_BATTERIES),
) -> tuple[WorkStep, ...]:  # fmt: skip
    rows = (row for row in tables.rows(WORK_ORDER) if row.when == when and (has_runs or not row.cable))
    return tuple(
        WorkStep(phase, row.step, row.text, f"{JOB}/{when}/{row.step}") for row in rows if row.at not in left_out
    )


def at_visit(job: Job, phase: Phase, tables: Tables) -> tuple[str, ...]:
    """What comes once before everything of a return visit, or after it."""
    left_out = (AT_WORK, AT_BATTERIES)
    rows = (row for row in tables.rows(WORK_ORDER) if row.when == phase.value and row.at not in left_out)
    return tuple(row.text for row in rows if job.runs or not row.cable)


def _with_tools(
    job: Job, box: HardwareList, found: tuple[Entry, ...], shelf: Shelf | None, tables: Tables
) -> HardwareList:
    """The list with the tools that are always out before all others, whatever the methods ask for."""
    view = ShelfView(shelf, tables)
    always = [row.tool for row in tables.rows(practice.TOOLS) if row.method == practice.JOB]
    used = tuple(Setting(plan.name, None) for plan in plans_of(found))
    first = (tool_line(unsized(key, tables), used, view) for key in always)
    whole = replace(box, tools=(*first, *(line for line in box.tools if line.key not in always)))
    return with_known(replace(with_ticks(whole, job), apart=()), shelf, tables)


def _entry(entry: Entry, steps: tuple[StepState, ...], tables: Tables) -> WorkEntry:
    plan = entry.plan
    return WorkEntry(
        name=entry.name, note=entry.note, plan=plan, reason=entry.reason, steps=steps,
        cautions=tuple(one for one in plan.cautions if not one.for_all) if plan is not None else (),
        built=entry.built, bag=_bag(plan) if plan is not None else (), source=entry.explained(tables),
        verdict=verdict_of(entry, tables),
    )  # fmt: skip


def states_of(ticked: tuple[str, ...], plan: Plan, built: Visit | None, tables: Tables) -> tuple[StepState, ...]:
    """The steps of a plan with what is recorded there, before what comes later; and what of them is ticked."""
    recorded = once(_ordered(EACH, Phase.RECORD, tables), tables) if plan.is_recorded else ()
    by_step = {task.step: task for task in (*plan.tasks, *recorded)}
    ordered: tuple[Task, ...] = tuple(by_step[step] for step in in_order(by_step))
    return states(ticked, ordered, built)


def _bag(plan: Plan) -> tuple[Bagged, ...]:
    return tuple(Bagged(need.part, need.form, need.count) for need in plan.parts)
