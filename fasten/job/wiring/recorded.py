"""Sections, holes and measured cables of a job, and what is said once of the vehicle: put in, changed, taken out."""

from collections.abc import Callable, Mapping
from dataclasses import replace

from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.store.job_toml import same_name
from fasten.job.store.runs_toml import ELECTRICS, RECORDED
from fasten.job.words import CableRun, Job, Recorded
from fasten.text import units
from fasten.text.shown import shown
from fasten.text.units import Dimension
from fasten.wiring.read import (
    read_end,
    read_insulation,
    read_length,
    read_material,
    read_size,
    read_system,
    unknown_end,
)
from fasten.wiring.ways import hole_plan, section_plan
from fasten.wiring.words import NamedEnd

CABLE, SECTION, HOLE = RECORDED  # as their tables in the file

RECORDED_AS = {table: key for table, (key, _) in RECORDED.items()}
"""What an entry of each table goes by."""


def recorded(job: Job, table: str) -> tuple[Recorded, ...]:
    """The entries of a table of a job: section, hole or cable."""
    return {SECTION: job.sections, HOLE: job.holes, CABLE: job.cables}[table]


def with_recorded(job: Job, table: str, old: str, filled: Mapping[str, str], tables: Tables) -> Job:
    """The job with an entry as it was filled in, in place of the `old` one of that name; nameless it is taken out.

    Runs that name a section or hole name it as it is called now.

    Raises: FastenError where it cannot be read, or another entry has its name.
    """
    key, names = RECORDED[table]
    name = filled.get(key, "").strip()
    before = next((one for one in recorded(job, table) if old and same_name(one.name) == same_name(old)), None)
    others = tuple(one for one in recorded(job, table) if one is not before)
    if not name:
        return _renamed(_kept(job, table, others), table, old, "")
    if any(same_name(one.name) == same_name(name) for one in others):
        raise FastenError(f"the job has a {table} {shown(name)} already", where=key, fix="give this one another name")
    said = tuple((one, filled[one].strip()) for one in names if filled.get(one, "").strip())
    _CHECKS[table](name, dict(said), tables)
    entry = Recorded(name, said) if before is None else replace(before, name=name, said=said)
    at = recorded(job, table).index(before) if before is not None else len(others)
    return _renamed(_kept(job, table, (*others[:at], entry, *others[at:])), table, old, name)


def with_electrics(job: Job, said: Mapping[str, str], tables: Tables) -> Job:
    """The job with what was said of the vehicle's wiring as a whole; what is empty stays as it was.

    Raises: FastenError where a text cannot be read; its `where` is what it was said of.
    """
    given = {name: text.strip() for name, text in said.items() if text.strip()}
    for name, text in given.items():
        if name == "system":
            read_system(text, name)
        elif name == "battery":
            _check_battery(text, job, tables)
        else:
            read_length(text, tables, name)
    kept = dict(job.electrics) | given
    return replace(job, electrics=tuple((name, kept[name]) for name in ELECTRICS if name in kept))


def _check_battery(text: str, job: Job, tables: Tables) -> None:
    end, names = read_end(text, tables, "battery"), tuple(mount.name for mount in job.mounts)
    if isinstance(end, NamedEnd) and same_name(end.name) not in map(same_name, names):
        raise unknown_end(end, names, "battery")


def _kept(job: Job, table: str, entries: tuple[Recorded, ...]) -> Job:
    if table == SECTION:
        return replace(job, sections=entries)
    return replace(job, holes=entries) if table == HOLE else replace(job, cables=entries)


def _renamed(job: Job, table: str, old: str, new: str) -> Job:
    """The job whose runs name a section or hole by its new name, or not any more."""
    if table == CABLE or not old or old == new:
        return job

    def named(names: tuple[str, ...]) -> tuple[str, ...]:
        found = (new if same_name(one) == same_name(old) else one for one in names)
        return tuple(filter(None, found))

    def changed(run: CableRun) -> CableRun:
        return replace(run, sections=named(run.sections)) if table == SECTION else replace(run, holes=named(run.holes))

    return replace(job, runs=tuple(map(changed, job.runs)))


def _check_cable(name: str, said: Mapping[str, str], tables: Tables) -> None:
    read_size(name, tables, "size")
    for measured in ("outside", "conductor"):
        if measured in said:
            units.read(said[measured], Dimension.LENGTH, measured)
    if "marked" in said:
        read_insulation(said["marked"], tables, "marked")
    if "material" in said:
        read_material(said["material"], tables, "material")


_CHECKS: Mapping[str, Callable[[str, Mapping[str, str], Tables], object]] = {
    SECTION: lambda name, said, tables: section_plan(name, said, (), clamps=1, tables=tables),
    HOLE: lambda name, said, tables: hole_plan(name, said, (), tables),
    CABLE: _check_cable,
}
