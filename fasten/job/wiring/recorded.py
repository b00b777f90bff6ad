"""Sections, holes and measured cables of a job, and what is said once of the vehicle: put in, changed, taken out."""

from collections.abc import Callable, Mapping

from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.store.job_toml import same_name
from fasten.job.store.runs_toml import ELECTRICS, RECORDED
from fasten.job.words import CableRun, Job, Recorded
from fasten.record import record, replace
from fasten.text import units
from fasten.text.names import unknown
from fasten.text.shown import shown
from fasten.text.units import Dimension
from fasten.wiring.holes import hole_plan
from fasten.wiring.measures import CONDUCTOR, OUTSIDE, check_measures
from fasten.wiring.read import (
    read_end,
    read_insulation,
    read_length,
    read_material,
    read_size,
    read_system,
    unknown_end,
)
from fasten.wiring.ways import section_plan
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


@record
class Found:
    """What a name is of: the table of the file, the name there, and the entry; None where there is none by now."""

    table: str
    name: str
    entry: Recorded | None


def find_recorded(job: Job, text: str) -> Found | None:
    """The section, hole or cable that a name is of, said with its table or without; None where it is of none.

    With its table, as in "section sill", one that is not there is found too: it may be added.
    """
    table, _, rest = text.strip().partition(" ")
    if table.casefold() in RECORDED and rest.strip():
        return Found(table.casefold(), rest.strip(), _named(job, table.casefold(), rest))
    found = ((name, _named(job, name, text)) for name in RECORDED)
    return next((Found(name, entry.name, entry) for name, entry in found if entry is not None), None)


def with_settings(job: Job, found: Found, settings: Mapping[str, str], tables: Tables) -> Job:
    """The job with these entries of a section, hole or cable set, which is added where there is none.

    Raises: FastenError where one is not known or cannot be read.
    """
    key, names = RECORDED[found.table]
    for name in settings:
        if name not in names:
            raise unknown(name, f"an entry of a {found.table}", names, "set")
    said = {} if found.entry is None else dict(found.entry.said)
    old = "" if found.entry is None else found.entry.name
    changed = with_recorded(job, found.table, old, {key: old or found.name, **said, **settings}, tables)
    return _confirmed(changed, found, settings)


def with_name(job: Job, found: Found, new: str, tables: Tables) -> Job:
    """The job with a section, hole or cable under another name, by which the runs name it; raises FastenError."""
    entry = _there(found)
    said = dict(entry.said) | {RECORDED[found.table][0]: new}
    if not new.strip():
        raise FastenError(f"the {found.table} has no name", where="name", fix="write one")
    return with_recorded(job, found.table, entry.name, said, tables)


def without(job: Job, found: Found, tables: Tables) -> tuple[Job, tuple[str, ...]]:
    """The job without a section, hole or cable, and the names of the runs that went through it; raises FastenError."""
    entry = _there(found)
    through = (run.name for run in job.runs if _goes_through(run, found.table, entry.name))
    return with_recorded(job, found.table, entry.name, {}, tables), tuple(through)


def _there(found: Found) -> Recorded:
    if found.entry is None:
        raise FastenError(
            f"the job has no {found.table} {shown(found.name)}", where="name", fix="fasten runs lists them"
        )
    return found.entry


def _goes_through(run: CableRun, table: str, name: str) -> bool:
    ways = {SECTION: run.sections, HOLE: run.holes}.get(table, ())
    return same_name(name) in map(same_name, ways)


def _named(job: Job, table: str, name: str) -> Recorded | None:
    return next((one for one in recorded(job, table) if _key(one.name) == _key(name)), None)


def _key(name: str) -> str:
    """A name as names are compared; a size is one however its unit is written."""
    return same_name(name).replace("mm²", "mm2").replace(" ", "")


def _confirmed(job: Job, found: Found, settings: Mapping[str, str]) -> Job:
    """The job whose entry is preset no more in what is set."""
    entries = tuple(
        replace(one, preset=tuple(name for name in one.preset if name not in settings))
        if _key(one.name) == _key(found.name) else one for one in recorded(job, found.table)
    )  # fmt: skip
    return _kept(job, found.table, entries)


def with_electrics(job: Job, said: Mapping[str, str], tables: Tables) -> Job:
    """The job with what was said of the vehicle's wiring as a whole; what is empty stays as it was.

    Raises: FastenError where a text cannot be read; its `where` is what it was said of.
    """
    given = {name: text.strip() for name, text in said.items() if text.strip()}
    check_electrics(given, job, tables)
    kept = dict(job.electrics) | given
    return replace(job, electrics=tuple((name, kept[name]) for name in ELECTRICS if name in kept))


def check_electrics(given: Mapping[str, str], job: Job, tables: Tables) -> None:
    """Raises FastenError where what is said of the vehicle's wiring cannot be read."""
    for name, text in given.items():
        if name == "system":
            read_system(text, name)
        elif name == "battery":
            check_end(text, job, tables, name)
        else:
            read_length(text, tables, name)


def check_end(text: str, job: Job, tables: Tables, where: str) -> None:
    """Raises FastenError where an end is none that is known and no name of the job, or its terminal is none."""
    end, names = read_end(text, tables, where), tuple(mount.name for mount in job.mounts)
    if not isinstance(end, NamedEnd):
        return
    if same_name(end.name) not in map(same_name, names):
        raise unknown_end(end, names, where)
    if isinstance(end.terminal, NamedEnd):
        raise unknown_end(end.terminal, (), where)


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
    size = read_size(name, tables, "size")
    measured = ((one, said[one]) for one in (OUTSIDE, CONDUCTOR) if one in said)
    check_measures(size, {one: units.read(text, Dimension.LENGTH, one) for one, text in measured})
    if "marked" in said:
        read_insulation(said["marked"], tables, "marked")
    if "material" in said:
        read_material(said["material"], tables, "material")


_CHECKS: Mapping[str, Callable[[str, Mapping[str, str], Tables], object]] = {
    SECTION: lambda name, said, tables: section_plan(name, said, (), clamps=1, tables=tables),
    HOLE: lambda name, said, tables: hole_plan(name, said, (), tables),
    CABLE: _check_cable,
}
