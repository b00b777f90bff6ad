"""What each section and hole of a job gets, from the runs that go through it."""

from collections.abc import Callable
from dataclasses import replace

from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.runs import RunChoice
from fasten.job.store.job_toml import same_name
from fasten.job.words import Built, CableRun, Job, Recorded
from fasten.model.plan import Plan
from fasten.question.fields import CLAMP, ITEM
from fasten.record import record
from fasten.wiring.sizing import Sizing
from fasten.wiring.ways import hole_plan, section_plan

NOTE = "note"


@record
class WayChoice:
    """A section or hole of a job with what it gets: a plan, or the reason why there is none."""

    way: Recorded
    plan: Plan | None
    reason: str = ""
    built: Built | None = None
    ticked: tuple[str, ...] = ()

    @property
    def name(self) -> str:
        """The name of the section or hole."""
        return self.way.name

    @property
    def note(self) -> str:
        """What the user noted of it."""
        return dict(self.way.said).get(NOTE, "")

    def explained(self, tables: Tables) -> "WayChoice":
        """The same: its reason says all there is."""
        return self


def way_choices(job: Job, found: tuple[RunChoice, ...], tables: Tables) -> tuple[WayChoice, ...]:
    """What every section and hole of the job gets, in the job's order."""
    sections = (_choice(way, lambda at: _section(at, job, found, tables)) for way in job.sections)
    holes = (_choice(way, lambda at: _hole(at, found, tables)) for way in job.holes)
    return (*sections, *holes)


def _section(way: Recorded, job: Job, found: tuple[RunChoice, ...], tables: Tables) -> Plan:
    runs = _through(way, found, lambda run: run.sections)
    return section_plan(way.name, dict(way.said), runs, clamped=_has_clamps(way, job), tables=tables)


def _hole(way: Recorded, found: tuple[RunChoice, ...], tables: Tables) -> Plan:
    return hole_plan(way.name, dict(way.said), _through(way, found, lambda run: run.holes), tables)


def _choice(way: Recorded, plan: Callable[[Recorded], Plan]) -> WayChoice:
    try:
        return WayChoice(way, plan(way))
    except FastenError as error:
        return WayChoice(way, None, str(error))


def _through(
    way: Recorded, found: tuple[RunChoice, ...], ways: Callable[[CableRun], tuple[str, ...]]
) -> tuple[Sizing, ...]:
    """The runs that name a section or hole, those without an answer left out."""
    return tuple(
        replace(one.answer.sizing, run=replace(one.answer.sizing.run, name=one.name))
        for one in found
        if one.answer is not None and same_name(way.name) in map(same_name, ways(one.run))
    )


def _has_clamps(way: Recorded, job: Job) -> bool:
    """Whether a mount point of the job has the clamps of a section: wire clamps that go by its name."""
    return any(
        dict(mount.said).get(ITEM.name) == CLAMP and same_name(way.name) in same_name(mount.name)
        for mount in job.mounts
    )
