"""The work sheet of a job: what comes once before everything, each mount point in order of work, what comes last."""

from dataclasses import replace

from fasten.advice.advise import advise
from fasten.advice.cautions import for_all_work
from fasten.advice.steps import in_order
from fasten.catalog import practice
from fasten.catalog.job_parts import WORK_ORDER
from fasten.catalog.tables import Tables
from fasten.job.choices import Choice
from fasten.job.list.hardware import hardware
from fasten.job.list.lists import HardwareList, Setting, ToolLine
from fasten.job.list.needs import unsized
from fasten.job.list.parts import fitted_parts, form_of
from fasten.job.list.ticks import with_ticks
from fasten.job.shelf.known import with_known
from fasten.job.shelf.view import ShelfView
from fasten.job.words import Built, Job, Shelf
from fasten.model import Answer, Caution, MountPoint, Phase, Refusal, WorkStep
from fasten.model.line import Part
from fasten.progress import Step, stepped, unseen
from fasten.record import record

BEFORE, EACH, AFTER = "before", "each", "after"


@record
class Bagged:
    """A part that goes into the bag of a mount point, and how many: those that are fitted, without spares."""

    part: Part
    form: str
    count: int


@record
class WorkMount:
    """One mount point as it is worked on.

    Without an `answer` there are no steps: `reason` and `refusals` stand in their place. `cautions` are its own,
    without those for all work; `built` is what was really used when it was built before.
    """

    name: str
    note: str
    point: MountPoint | None
    answer: Answer | None
    reason: str
    refusals: tuple[Refusal, ...]
    steps: tuple[WorkStep, ...]
    cautions: tuple[Caution, ...]
    built: Built | None
    bag: tuple[Bagged, ...]


@record
class WorkSheet:
    """The work of a job, or of some of its mount points.

    `first` comes once before everything, `last` once after it; `cautions` are for all of it. `box` is the hardware
    list of these mount points: every tool and bit once, with all its sizes.
    """

    title: str
    vehicle: str
    note: str
    first: tuple[str, ...]
    cautions: tuple[Caution, ...]
    box: HardwareList
    mounts: tuple[WorkMount, ...]
    last: tuple[str, ...]


def work_sheet(
    job: Job, found: tuple[Choice, ...], shelf: Shelf | None, tables: Tables, step: Step = unseen
) -> WorkSheet:
    """The work sheet of the mount points that `found` is of; they get what it says.

    `step` is called for each mount point and may raise Stopped.
    """
    return WorkSheet(
        title=job.title, vehicle=job.vehicle, note=job.note, first=_ordered(BEFORE, tables),
        cautions=for_all_work(tables), box=_with_tools(job, hardware(job, found, shelf, tables), found, shelf, tables),
        mounts=tuple(_mount(choice, tables) for choice in stepped(found, step)), last=_ordered(AFTER, tables),
    )  # fmt: skip


def _ordered(when: str, tables: Tables) -> tuple[str, ...]:
    return tuple(row.text for row in tables.rows(WORK_ORDER) if row.when == when)


def _with_tools(
    job: Job, box: HardwareList, found: tuple[Choice, ...], shelf: Shelf | None, tables: Tables
) -> HardwareList:
    """The list with the tools that are always out before all others, whatever the methods ask for."""
    view = ShelfView(shelf, tables)
    always = [row.tool for row in tables.rows(practice.TOOLS) if row.method == practice.JOB]
    tools = (unsized(key, tables) for key in always)
    used = tuple(Setting(choice.name, None) for choice in found if choice.answer is not None)
    first = (
        ToolLine(one.id, one.heading, one.key, one.name, one.size, view.has_tool(one.names), used) for one in tools
    )
    whole = replace(box, tools=(*first, *(line for line in box.tools if line.key not in always)))
    return with_known(replace(with_ticks(whole, job), apart=()), shelf, tables)


def _mount(choice: Choice, tables: Tables) -> WorkMount:
    answer, point = choice.answer, choice.point
    fits = answer is not None and point is not None
    return WorkMount(
        name=choice.name, note=choice.mount.note, point=point, answer=answer, reason=choice.reason,
        refusals=() if fits or point is None else advise(point, tables).refusals,
        steps=_steps(answer.steps, tables) if answer is not None else (),
        cautions=tuple(one for one in answer.cautions if not one.for_all) if answer is not None else (),
        built=choice.mount.built,
        bag=_bag(answer, point, tables) if answer is not None and point is not None else (),
    )  # fmt: skip


def _steps(own: tuple[WorkStep, ...], tables: Tables) -> tuple[WorkStep, ...]:
    """The steps of an answer with what is recorded at each mount point, before what comes later."""
    recorded = (WorkStep(Phase.RECORD, place, text) for place, text in enumerate(_ordered(EACH, tables), start=1))
    return in_order((*own, *recorded))


def _bag(answer: Answer, point: MountPoint, tables: Tables) -> tuple[Bagged, ...]:
    parts = fitted_parts(answer.proposal.joint, tables)
    return tuple(Bagged(one.part, form_of(one.part, one.kind, tables), each * point.fixings) for one, each in parts)
