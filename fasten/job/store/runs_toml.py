"""The runs of cable of a job as plain data of its file, and back; with the cables, sections and holes they name."""

from collections.abc import Iterator, Mapping
from typing import Any

from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.store.unknown import unknown_of
from fasten.job.words import CableRun, Job, Recorded
from fasten.wiring.fields import FIELDS, NAMES

ELECTRICS = ("system", "battery", "to-amplifiers", "to-dash", "to-doors")
RUN_KEYS = ("name", *NAMES, "sections", "holes", "accepted", "preset", "ticked", "note")
# Of what is recorded beside runs: what it goes by, and what may be said of it.
RECORDED = {
    "cable": ("size", ("outside", "conductor", "marked", "material", "note")),
    "section": ("name", ("where", "length", "cover", "note")),
    "hole": ("name", ("through", "existing", "note")),
}
# What stands in an empty field where one of these is asked for.
EXAMPLES = {
    "size": "4 AWG", "outside": "9.8 mm", "conductor": "6.9 mm", "marked": "105 C", "material": "copper",
    "where": "engine-bay, underfloor, open, channel", "length": "1.2 m", "cover": "tube, tape", "name": "bonnet",
    "through": "steel 0.9 mm", "existing": "20 mm", "system": "12 V",
}  # fmt: skip
RUN = "run"
TABLES = (*RECORDED, RUN)  # in the order of the file


def recorded_data(job: Job) -> dict[str, list[dict[str, Any]]]:
    """The tables of what is recorded beside runs, in the order of the file; those that are empty left out."""
    recorded = {"cable": job.cables, "section": job.sections, "hole": job.holes}
    return {
        table: [_recorded_data(entry, RECORDED[table][0]) for entry in entries]
        for table, entries in recorded.items() if entries
    }  # fmt: skip


def _recorded_data(entry: Recorded, key: str) -> dict[str, Any]:
    lists = {"accepted": list(entry.accepted), "preset": list(entry.preset), "ticked": list(entry.ticked)}
    return {key: entry.name.strip(), **_stripped(entry.said), **{name: ids for name, ids in lists.items() if ids}}


def unknowns(job: Job, table: str) -> tuple[Any, ...]:
    """What is not known of each entry of a table, in its order."""
    entries: Mapping[str, tuple[Any, ...]] = {"cable": job.cables, "section": job.sections, "hole": job.holes}
    return tuple(entry.unknown for entry in entries[table])


def electrics_data(job: Job) -> dict[str, str]:
    """What was said of the vehicle's wiring as a whole, in the order of the file."""
    said = dict(job.electrics)
    return {name: said[name].strip() for name in ELECTRICS if said.get(name, "").strip()}


def read_runs(data: Mapping[str, Any]) -> dict[str, Any]:
    """The parts of a job that are about cable, from checked data, by the names of their attributes."""
    return {
        "electrics": tuple((name, data[name]) for name in ELECTRICS if data.get(name)),
        "cables": _recorded(data, "cable"), "sections": _recorded(data, "section"), "holes": _recorded(data, "hole"),
        "runs": tuple(read_run(entry) for entry in data.get(RUN, ())),
    }  # fmt: skip


def unknown_in(data: Mapping[str, Any], table: str, number: int) -> tuple[Any, ...]:
    """What is not known of an entry of a table of a file."""
    entries = data.get(table, ())
    lists = {"section": ("accepted", "preset", "ticked"), "hole": ("accepted", "ticked")}.get(table, ())
    known = RUN_KEYS if table == RUN else (RECORDED[table][0], *RECORDED[table][1], *lists)
    return unknown_of(entries[number], known, "", f"{table}.")


def check_runs(job: Job, tables: Tables, where: str) -> None:
    """Check that every field of every run can be read; raises FastenError that names the run and the field.

    A run that is not finished passes, as a mount point does.
    """
    for run, name, text in _fields_of(job):
        field = next(one for one in FIELDS if one.name == name)
        try:
            field.reader(text, tables, name)
        except FastenError as error:
            from fasten.job.store.check import entry_place

            at = ", ".join(filter(None, (where, entry_place(RUN, 0, {"name": run.name}), error.where)))
            raise FastenError(error.what, where=at, fix=error.fix) from error


def _fields_of(job: Job) -> Iterator[tuple[CableRun, str, str]]:
    return ((run, name, text) for run in job.runs for name, text in run.said)


def _stripped(said: tuple[tuple[str, str], ...]) -> dict[str, str]:
    return {name: text.strip() for name, text in said}


def run_data(run: CableRun) -> dict[str, Any]:
    """A run as plain data in the order of its table."""
    said = _stripped(run.said)
    ordered = {name: said.pop(name) for name in NAMES if name in said}
    lists = {
        "sections": list(run.sections), "holes": list(run.holes), "accepted": list(run.accepted),
        "preset": list(run.preset), "ticked": list(run.ticked),
    }  # fmt: skip
    return {"name": run.name.strip(), **ordered, **said, **{key: names for key, names in lists.items() if names},
            "note": run.note}  # fmt: skip


def _recorded(data: Mapping[str, Any], table: str) -> tuple[Recorded, ...]:
    key, names = RECORDED[table]
    return tuple(_entry(entry, key, names) for entry in data.get(table, ()))


def _entry(entry: Mapping[str, Any], key: str, names: tuple[str, ...]) -> Recorded:
    said = tuple((name, entry[name]) for name in names if entry.get(name))
    preset, accepted, ticked = (tuple(entry.get(name, ())) for name in ("preset", "accepted", "ticked"))
    return Recorded(entry[key], said, preset=preset, accepted=accepted, ticked=ticked)


def read_run(entry: Mapping[str, Any]) -> CableRun:
    """The run of checked data."""
    said = tuple((name, entry[name]) for name in NAMES if entry.get(name))
    sections, holes = tuple(entry.get("sections", ())), tuple(entry.get("holes", ()))
    accepted, preset, ticked = (tuple(entry.get(name, ())) for name in ("accepted", "preset", "ticked"))
    return CableRun(entry["name"], said, sections, holes, entry.get("note", ""), accepted, preset=preset, ticked=ticked)
