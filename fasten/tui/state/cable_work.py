"""The work on the cable of a job, piece by piece in order of work: holes and sections, runs, and what closes them."""

from collections.abc import Iterable

from fasten.catalog.tables import Tables
from fasten.job.edit import changed_run
from fasten.job.entries import place_of_run
from fasten.job.store.job_toml import same_name
from fasten.job.tick_by import with_cable_ticked
from fasten.job.ticked import with_tick, without_tick
from fasten.job.wiring.runs import RunChoice
from fasten.job.wiring.ways import WayChoice
from fasten.job.words import Job
from fasten.job.work import marker_names, of_job, states_of
from fasten.model import Phase
from fasten.record import record, replace
from fasten.tui.state.worked import AFTER, Group, Spot, Work
from fasten.wiring.ways import is_once_laid


@record
class Unit:
    """A run; or a hole or section, with what of it is done before the runs, or where it `is_closing` after them."""

    choice: RunChoice | WayChoice
    is_closing: bool = False

    @property
    def is_way(self) -> bool:
        """Whether it is a hole or section."""
        return isinstance(self.choice, WayChoice)

    @property
    def name(self) -> str:
        """What it is called at its work."""
        return f"{self.choice.name}, cable in" if self.is_closing else self.choice.name


def units_of(ways: Iterable[WayChoice], runs: Iterable[RunChoice]) -> tuple[Unit, ...]:
    """The pieces of work in order: a hole is drilled before any cable comes, and sealed once all of it is in."""
    ordered = sorted(ways, key=lambda way: not way.is_hole)
    opening = (Unit(way) for way in ordered if way.plan is None or _phases(way, closing=False))
    closing = (Unit(way, is_closing=True) for way in ordered if _phases(way, closing=True))
    return (*opening, *map(Unit, runs), *closing)


def _phases(way: WayChoice, *, closing: bool) -> list[Phase]:
    steps = () if way.plan is None else way.plan.steps
    return [step.phase for step in steps if is_once_laid(step.phase) is closing]


def work_of_unit(units: tuple[Unit, ...], at: int, job: Job, tables: Tables) -> Work:
    """The work of one of the pieces of a job; what comes after everything stands with the last of them."""
    unit, count = units[at], len(job.mounts) + len(units)
    follows = units[at + 1].name if at + 1 < len(units) else ""
    place = len(job.mounts) + at
    choice, plan = unit.choice, unit.choice.plan
    if plan is None:
        return Work(place, count, choice, (), unit.name, follows)
    states = states_of(choice.ticked, plan, choice.built, tables)
    if isinstance(choice, WayChoice):
        states = tuple(one for one in states if is_once_laid(one.step.phase) is unit.is_closing)
    last = (Group(AFTER, of_job(job, Phase.AFTER, tables)),) if at + 1 == len(units) else ()
    markers = tuple(marker_names(_place(job, choice), plan)) if isinstance(choice, RunChoice) else ()
    return Work(place, count, choice, (Group("", states), *last), unit.name, follows, markers)


def _place(job: Job, choice: RunChoice) -> int:
    """The place of a run on the work sheet."""
    return place_of_run(
        job, next(at for at, run in enumerate(job.runs) if same_name(run.name) == same_name(choice.name))
    )


def ticked_at(job: Job, work: Work, spot: Spot) -> Job:
    """The job with a step of this work ticked, or not any more."""
    task, tick = work.state(spot).task, without_tick if work.is_done(spot) else with_tick
    if work.is_of_job(spot):
        return replace(job, ticked=tick(job.ticked, task, spot.hole))
    name = work.choice.name
    if isinstance(work.choice, WayChoice):
        ways = job.holes if work.choice.is_hole else job.sections
        way = next(one for one in ways if same_name(one.name) == same_name(name))
        return with_cable_ticked(job, way, tick(way.ticked, task, spot.hole))
    run = next(one for one in job.runs if same_name(one.name) == same_name(name))
    return changed_run(job, run.name, replace(run, ticked=tick(run.ticked, task, spot.hole)))
