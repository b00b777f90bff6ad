"""Ticks by the numbers of a work sheet: `5` is a step, `5.3` hole 3 of it, `before.2` what comes once before all."""

import re
from collections.abc import Sequence

from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.edit import find_mount, with_mount
from fasten.job.entry import Entry
from fasten.job.store.job_toml import same_name
from fasten.job.ticked import StepState, with_tick, without_tick
from fasten.job.wiring.ways import left_out_at
from fasten.job.words import CableRun, Job, Mount, Recorded
from fasten.job.work import of_job, states_of
from fasten.model import Phase, Task
from fasten.record import record, replace
from fasten.text.shown import shown

_WANTED = re.compile(r"(?:(before|after)\.)?([1-9][0-9]{0,2})(?:\.([1-9][0-9]{0,2}))?")
_FIX = "write its number on the sheet: 5, 5.3 for hole 3 of it, before.1 or after.1"


@record
class _Asked:
    """A step by its number, of what comes before or after everything or else of an entry; a hole of it (0: none)."""

    when: str
    number: int
    hole: int
    is_made: bool


def with_ticks(
    job: Job, found: Sequence[Entry], name: str, made: Sequence[str], unmade: Sequence[str], tables: Tables
) -> tuple[Job, tuple[str, ...]]:
    """The job with these steps ticked, and those not any more, of the entry of this name; what was said of each.

    `found` is what its entries get.
    Raises: FastenError where there is no such step, or it is ticked by something else.
    """
    said: list[str] = []
    for asked in (*(_read(text, is_made=True) for text in made), *(_read(text, is_made=False) for text in unmade)):
        if asked.when:
            states = of_job(job, Phase(asked.when), tables)
            job = replace(job, ticked=_changed(job.ticked, states, asked, said))
        else:
            job = _of_entry(job, found, name, asked, said, tables)
    return job, tuple(said)


def _read(text: str, *, is_made: bool) -> _Asked:
    found = _WANTED.fullmatch(text.strip())
    if found is None:
        raise FastenError(f"{shown(text)} is no step", where="tick", fix=_FIX)
    when, number, hole = found.groups()
    return _Asked(when or "", int(number), int(hole or 0), is_made)


def _of_entry(job: Job, found: Sequence[Entry], name: str, asked: _Asked, said: list[str], tables: Tables) -> Job:
    """The job with the ticks of a mount point, or of a run, section or hole, changed."""
    if not name:
        raise FastenError("no mount point is said", where="tick", fix="write the name of one after the job")
    kept = _named(job, name) or find_mount(job, name)
    entry = next((one for one in found if one.name == kept.name), None)
    if entry is None:
        raise left_out_at(kept.name)
    if entry.plan is None:
        raise FastenError(f"nothing fits at {shown(kept.name)}", where="tick", fix="change it until something fits")
    ticked = _changed(kept.ticked, states_of(kept.ticked, entry.plan, entry.built, tables), asked, said)
    if isinstance(kept, Mount):
        return with_mount(job, replace(kept, ticked=ticked), instead_of=kept.name)
    return with_cable_ticked(job, kept, ticked)


def with_cable_ticked(job: Job, kept: CableRun | Recorded, ticked: tuple[str, ...]) -> Job:
    """The job whose run, section or hole has these ticks."""
    if isinstance(kept, CableRun):
        return replace(job, runs=tuple(replace(one, ticked=ticked) if one is kept else one for one in job.runs))
    sections, holes = (
        tuple(replace(one, ticked=ticked) if one is kept else one for one in ways) for ways in (job.sections, job.holes)
    )
    return replace(job, sections=sections, holes=holes)


def _named(job: Job, name: str) -> CableRun | Recorded | None:
    """The run, section or hole of a name; a mount point of the same name goes before a section or hole."""
    ways = () if same_name(name) in map(same_name, job.named) else (*job.sections, *job.holes)
    cable: tuple[CableRun | Recorded, ...] = (*job.runs, *ways)
    return next((one for one in cable if same_name(one.name) == same_name(name)), None)


def _changed(ticked: tuple[str, ...], states: Sequence[StepState], asked: _Asked, said: list[str]) -> tuple[str, ...]:
    """The ticks with a step, or a hole of it, made or not; all its holes where none is named."""
    task = _task(states, asked)
    for place in (asked.hole,) if asked.hole or not task.holes else task.holes:
        ticked = (with_tick if asked.is_made else without_tick)(ticked, task, place)
        what = task.said(place)
        said.append(what if asked.is_made else f"not {what}")
    return ticked


def _task(states: Sequence[StepState], asked: _Asked) -> Task:
    number, hole = asked.number, asked.hole
    if number > len(states):
        raise FastenError(f"there is no step {number}, the last is {len(states)}", where="tick", fix=_FIX)
    task = states[number - 1].task
    if task.step.phase is Phase.RECORD:
        what = f"step {number} is done once what was used is written down"
        raise FastenError(what, where="tick", fix="write it down with fasten built")
    if hole and hole not in task.holes:
        fix = f"it has {', '.join(map(str, task.holes))}" if task.holes else "leave the hole out, it is ticked once"
        raise FastenError(f"step {number} has no hole {hole}", where="tick", fix=fix)
    return task
