"""A mount point of a job as a table of its file, and back."""

from collections.abc import Mapping
from functools import lru_cache
from typing import Any

from fasten.job.store.after_toml import (
    BUILT_KEYS,
    PIN_KEYS,
    REPAIR_KEYS,
    VISIT_KEYS,
    pin_as_written,
    pin_data,
    read_pin,
    read_repair,
    read_visit,
    repair_data,
    visit_as_written,
    visit_data,
)
from fasten.job.store.covers_toml import COVERED_BY
from fasten.job.store.parse import table_text
from fasten.job.store.unknown import PIN, REPAIR, VISIT, repair_place, unknown_of, visit_place
from fasten.job.words import Mount, Unknown, Visit
from fasten.question.fields import NAMES

STARTED = ("preset", "install", "twin")  # of a mount point that an install was started with
MOUNT_KEYS = ("name", *NAMES, *STARTED, COVERED_BY, "note", "ticked", "pin", "built", "visit", "repair")
MOST_KEPT = 4096  # mount points or runs, as they are saved every second while something is typed


@lru_cache(MOST_KEPT)
def mount_text(mount: Mount) -> str:
    """A mount point as the text of its table: from one save to the next of a job, few are others."""
    return _text(mount_data(mount), mount.unknown)


def mount_data(mount: Mount) -> dict[str, Any]:
    """A mount point as plain data in the order of its table."""
    said = {name: text.strip() for name, text in mount.said}
    ordered = {name: said.pop(name) for name in NAMES if name in said}  # a field that is no field stays, to be refused
    started = {"preset": list(mount.preset), "install": mount.install.strip(), "twin": mount.twin.strip(),
               COVERED_BY: list(mount.covered_by)}  # fmt: skip
    more = {name: value for name, value in started.items() if value}
    data: dict[str, Any] = {"name": mount.name.strip(), **ordered, **said, **more, "note": mount.note}
    if mount.ticked:
        data["ticked"] = list(mount.ticked)
    if mount.pin is not None:
        data["pin"] = pin_data(mount.pin)
    if mount.visits:
        data[VISIT] = [visit_data(visit) for visit in mount.visits]
    if mount.repairs:
        data[REPAIR] = [repair_data(repair) for repair in mount.repairs]
    return data


def _text(data: dict[str, Any], unknown: tuple[Unknown, ...]) -> str:
    pin, visits, repairs = data.pop(PIN, None), data.pop(VISIT, ()), data.pop(REPAIR, ())
    more = added_to(unknown, "")
    pins = [(f"[mount.{PIN}]", pin, PIN)] if pin is not None else []
    inner = [
        *pins, *((f"[[mount.{VISIT}]]", visit, visit_place(number)) for number, visit in enumerate(visits, 1)),
        *((f"[[mount.{REPAIR}]]", repair, repair_place(number)) for number, repair in enumerate(repairs, 1)),
    ]  # fmt: skip
    tables = (
        f"{table_text(entries, head)}{added.plain}{added.tables}"
        for head, entries, place in inner if (added := added_to(unknown, place))
    )  # fmt: skip
    return f"{table_text(data, '[[mount]]')}{more.plain}{more.tables}{''.join(tables)}"


def read_mount(data: Mapping[str, Any]) -> Mount:
    """The mount point of checked data."""
    pin, built = data["pin"], data["built"]
    return Mount(
        name=data["name"],
        said=tuple((name, data[name]) for name in NAMES if data[name]),
        note=data["note"],
        pin=pin and read_pin(pin),
        visits=(*((Visit(**built),) if built else ()), *map(read_visit, data["visit"])),
        preset=tuple(data["preset"]), install=data["install"], twin=data["twin"], ticked=tuple(data["ticked"]),
        covered_by=tuple(data[COVERED_BY]),
        repairs=tuple(map(read_repair, data["repair"])),
    )  # fmt: skip


def mount_as_written(entry: dict[str, Any]) -> dict[str, Any]:
    """What checking makes of a table that the program wrote."""
    pin, built = entry.get("pin"), entry.get("built")
    return {
        **dict.fromkeys((*NAMES, "install", "twin", "note"), ""), "preset": [], "ticked": [], COVERED_BY: [], **entry,
        "pin": pin and pin_as_written(pin),
        "built": None if built is None else {name: built.get(name, "") for name in BUILT_KEYS},
        "visit": [visit_as_written(visit) for visit in entry.get("visit", ())],
        "repair": [
            {"at": 0, **pin_as_written(repair)} for repair in entry.get("repair", ())
        ],
    }  # fmt: skip


def unknown_of_mount(entry: dict[str, Any]) -> tuple[Unknown, ...]:
    """What is not known of a mount point, its pin, visits and repairs: the record of an older version is the first."""
    pin = unknown_of(entry.get(PIN, {}), PIN_KEYS, PIN, f"mount.{PIN}.")
    old = [(entry["built"], BUILT_KEYS)] if "built" in entry else []
    visits = [*old, *((visit, VISIT_KEYS) for visit in entry.get(VISIT, ()))]
    of_visits = (
        unknown_of(visit, keys, visit_place(number), f"mount.{VISIT}.")
        for number, (visit, keys) in enumerate(visits, 1)
    )  # fmt: skip
    of_repairs = (
        unknown_of(repair, REPAIR_KEYS, repair_place(number), f"mount.{REPAIR}.")
        for number, repair in enumerate(entry.get(REPAIR, ()), 1)
    )  # fmt: skip
    inner = (found for one in (*of_visits, *of_repairs) for found in one)
    return (*unknown_of(entry, MOUNT_KEYS, "", "mount."), *pin, *inner)


def entry_text(table: str, data: dict[str, Any], unknown: tuple[Unknown, ...]) -> str:
    """An entry of a list of tables as text, with what is not known of it."""
    more = added_to(unknown, "")
    return f"{table_text(data, f'[[{table}]]')}{more.plain}{more.tables}"


def added_to(unknown: tuple[Unknown, ...], table: str) -> Unknown:
    """What is not known of a table, to be written after the rest of it."""
    return next((entry for entry in unknown if entry.table == table), Unknown(table, (), "", ""))
