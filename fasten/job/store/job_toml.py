"""A job as the text of its file, and back."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any, TypeVar

from fasten.catalog.tables import Tables
from fasten.errors import FastenError
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
from fasten.job.store.covers_toml import (
    COVER,
    COVERED_BY,
    check_covers,
    covers_data,
    read_covers,
    unknown_of_cover,
)
from fasten.job.store.parse import (
    END,
    HEAD,
    JOB_FORMAT,
    check_kind,
    newer_format,
    newer_refused,
    newer_why,
    parse,
    table_text,
)
from fasten.job.store.plain import is_plain
from fasten.job.store.runs_toml import (
    ELECTRICS,
    RUN,
    check_runs,
    electrics_data,
    read_runs,
    runs_data,
    unknown_in,
    unknowns,
)
from fasten.job.store.runs_toml import TABLES as RUN_TABLES
from fasten.job.store.unknown import PIN, REPAIR, VISIT, repair_place, unknown_of, visit_place
from fasten.job.words import CableRun, Cover, Job, Mount, Recorded, Unknown, Visit
from fasten.question.fields import NAMES, field_named
from fasten.question.read import read_question
from fasten.text.letters import one_name

EntryT = TypeVar("EntryT", Mount, Recorded, CableRun, Cover)

KIND = "job"
STARTED = ("preset", "install", "twin")  # of a mount point that an install was started with
# What is known of each table; `check` says what each entry may be.
JOB_KEYS = (
    "format",
    "kind",
    "title",
    "vehicle",
    "note",
    "packed",
    "packed-apart",
    "ticked",
    *ELECTRICS,
    "preset",
    COVER,
    "mount",
    *RUN_TABLES,
)
MOUNT_KEYS = ("name", *NAMES, *STARTED, COVERED_BY, "note", "ticked", "pin", "built", "visit", "repair")


def job_text(job: Job) -> str:
    """The text of a job's file: stable order, only what was said, every text as it was said."""
    data = job_data(job)
    mounts, covers, more = data.pop("mount"), data.pop(COVER, []), _added(job.unknown, "")
    runs = {table: data.pop(table) for table in RUN_TABLES if table in data}
    texts = (
        *(_entry_text(COVER, entry, cover.unknown) for entry, cover in zip(covers, job.covers, strict=True)),
        *(_mount_text(entry, mount.unknown) for entry, mount in zip(mounts, job.mounts, strict=True)),
    )
    cable = (_entry_text(table, entry, unknown) for table, entries in runs.items()
             for entry, unknown in zip(entries, unknowns(job, table), strict=True))  # fmt: skip
    return f"{HEAD}{table_text(data)}{more.plain}{more.tables}{''.join(texts)}{''.join(cable)}\n{END}\n"


def job_data(job: Job) -> dict[str, Any]:
    """A job as plain data in the order of its file."""
    head = {"format": JOB_FORMAT, "kind": KIND, "title": job.title, "vehicle": job.vehicle, "note": job.note}
    ticked = {"packed": list(job.packed), "packed-apart": list(job.apart), "ticked": list(job.ticked)}
    return {
        **head,
        **{name: ticks for name, ticks in ticked.items() if ticks},
        **electrics_data(job),
        **({"preset": list(job.preset)} if job.preset else {}),
        **covers_data(job),
        "mount": [_mount_data(mount) for mount in job.mounts],
        **runs_data(job),
    }


def checked_job(job: Job, where: str) -> Job:
    """The job as its file would give it back, every text stripped; raises FastenError if it could not be read again."""
    from fasten.job.store.check import JobFile, checked

    kept = _job(checked(job_data(job), JobFile, where), where)
    check_covers(kept, where)
    return replace(
        kept, unknown=job.unknown, mounts=_as_unknown(kept.mounts, job.mounts),
        cables=_as_unknown(kept.cables, job.cables), sections=_as_unknown(kept.sections, job.sections),
        holes=_as_unknown(kept.holes, job.holes), runs=_as_unknown(kept.runs, job.runs),
        covers=_as_unknown(kept.covers, job.covers),
    )  # fmt: skip


def _as_unknown(kept: tuple[EntryT, ...], was: tuple[EntryT, ...]) -> tuple[EntryT, ...]:
    """The entries with what was not known of them."""
    return tuple(replace(entry, unknown=before.unknown) for entry, before in zip(kept, was, strict=True))


def read_job(content: bytes, where: str, tables: Tables, *, own: bool = False) -> tuple[Job, str]:
    """The job of a file's content, and why it may only be read: empty where nothing is against changing it.

    Where the content is the program's `own`, as it wrote it, only its questions are checked.
    Raises: FastenError if the content is broken; it says where.
    """
    data = parse(content, where)
    newer = newer_format(data, where, JOB_FORMAT)
    check_kind(data, KIND, where)
    if newer is not None:
        return _newer_job(data, newer, where, tables)
    job = _read(data, content, where, own=own)
    read: set[tuple[tuple[str, str], ...]] = set()
    for mount in job.mounts:
        if mount.said not in read:
            check_mount(mount, tables, where)
            read.add(mount.said)
    check_runs(job, tables, where)
    check_covers(job, where, tables)
    return job, ""


def check_mount(mount: Mount, tables: Tables, where: str = "") -> None:
    """Check that every field of a mount point can be read; raises FastenError that names the mount and the field.

    A question that is not finished passes, and one whose fields do not go together: it was saved while it was typed,
    and must not bar the way to the rest. What is wrong with it is said once it is answered.
    """
    if _is_question(dict(mount.said), tables):
        return
    for name, text in mount.said:
        _check_field(name, text, mount.name, tables, where)


def _is_question(said: dict[str, str], tables: Tables) -> bool:
    try:
        read_question(said, tables)
    except FastenError:
        return False
    return True


def _check_field(name: str, text: str, mount: str, tables: Tables, where: str) -> None:
    """Read one field by itself."""
    try:
        field_named(name).read(text, tables)
    except FastenError as error:
        from fasten.job.store.check import entry_place

        at = ", ".join(filter(None, (where, entry_place("mount", 0, {"name": mount}), error.where)))
        raise FastenError(error.what, where=at, fix=error.fix) from error


def same_name(name: str) -> str:
    """A name as names are compared: case, the width of spaces and joiners do not tell two mount points apart."""
    return one_name(name)


def _newer_job(data: dict[str, Any], newer: int, where: str, tables: Tables) -> tuple[Job, str]:
    """What can be understood of a job that a newer version wrote."""
    from fasten.job.store.check import JobFile, checked, known_only

    mounts = data.get("mount", [])
    kept = mounts if not isinstance(mounts, list) else []  # what is no list is refused with the rest
    try:
        head = _job(checked(known_only({**data, "format": JOB_FORMAT, "mount": kept}, JobFile), JobFile, where), where)
    except FastenError as error:
        raise newer_refused(newer, JOB_FORMAT, error) from error
    found: dict[str, Mount] = {}
    for entry in mounts:
        if (mount := _newer_mount(entry, where, tables)) is not None:
            found.setdefault(same_name(mount.name), mount)
    job = replace(head, mounts=tuple(found.values()))
    return job, newer_why(newer, JOB_FORMAT, len(mounts) - len(found), "mount points")


def _newer_mount(entry: Any, where: str, tables: Tables) -> Mount | None:
    from fasten.job.store.check import MountEntry, checked, known_only

    try:
        mount = _mount(checked(known_only(entry, MountEntry), MountEntry, where))
        check_mount(mount, tables)
    except FastenError:
        return None
    return mount


def _read(data: dict[str, Any], content: bytes, where: str, *, own: bool) -> Job:
    if own:
        return _with_unknown(_job(_as_written(data), where), data, where)
    if (job := _plain_job(data, content, where)) is not None:
        return job
    from fasten.job.store.check import JobFile, checked, known_only

    if data["format"] < JOB_FORMAT:
        return _job(checked(data, JobFile, where), where)
    return _with_unknown(_job(checked(known_only(data, JobFile), JobFile, where), where), data, where)


def _plain_job(data: dict[str, Any], content: bytes, where: str) -> Job | None:
    """The job of a file that says nothing but plain texts, letter for letter as the program writes them; else None."""
    if data["format"] != JOB_FORMAT or not content.startswith(HEAD.encode()) or not is_plain(data):
        return None
    try:
        job = _job(_as_written(data), where)
    except (FastenError, KeyError):  # the check says what is wrong with it
        return None
    return job if job_text(job).encode() == content else None


def _as_written(data: dict[str, Any]) -> dict[str, Any]:
    """What checking makes of a file that the program wrote: every entry there is, lengths as numbers."""
    mounts = [_mount_as_written(entry) for entry in data.get("mount", ())]
    empty = {"title": "", "vehicle": "", "note": "", "packed": [], "packed-apart": [], "preset": [], "ticked": []}
    return {**empty, **data, "mount": mounts}


def _mount_as_written(entry: dict[str, Any]) -> dict[str, Any]:
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


def _with_unknown(job: Job, data: dict[str, Any], where: str) -> Job:
    """The job of a file with what of the file this version does not know."""
    try:
        mounts = tuple(
            replace(mount, unknown=_unknown_of_mount(entry))
            for mount, entry in zip(job.mounts, data.get("mount", ()), strict=True)
        )
        job = replace(job, unknown=unknown_of(data, JOB_KEYS, "", ""), mounts=mounts)
        return replace(
            job, cables=_unknown_of(job.cables, data, "cable"), sections=_unknown_of(job.sections, data, "section"),
            holes=_unknown_of(job.holes, data, "hole"), runs=_unknown_of(job.runs, data, RUN),
            covers=tuple(replace(cover, unknown=unknown_of_cover(data, at)) for at, cover in enumerate(job.covers)),
        )  # fmt: skip
    except RecursionError as error:
        raise FastenError("lists or blocks are nested too deep", where=where, fix="take them out") from error


def _unknown_of(entries: tuple[EntryT, ...], data: dict[str, Any], table: str) -> tuple[EntryT, ...]:
    return tuple(replace(entry, unknown=unknown_in(data, table, at)) for at, entry in enumerate(entries))


def _unknown_of_mount(entry: dict[str, Any]) -> tuple[Unknown, ...]:
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


def _job(data: Mapping[str, Any], where: str) -> Job:
    """The job of checked data. The ticks of format 1 are by words: which lines they are of is seen with the list."""
    mounts = tuple(_mount(entry) for entry in data["mount"])
    _check_apart(mounts, where)
    cable = read_runs(data)
    _check_apart(cable["runs"], where, RUN)
    packed, apart = tuple(data["packed"]), tuple(data["packed-apart"])
    ticks = ((), (*packed, *apart)) if data["format"] < JOB_FORMAT else (packed, apart)
    preset, ticked = tuple(data["preset"]), tuple(data["ticked"])
    head = data["title"], data["vehicle"], data["note"]
    return Job(*head, mounts, *ticks, **cable, preset=preset, ticked=ticked, covers=read_covers(data))


def _check_apart(mounts: tuple[Mount | CableRun, ...], where: str, kind: str = "mount") -> None:
    seen: dict[str, int] = {}
    for number, mount in enumerate(mounts, 1):
        first = seen.setdefault(same_name(mount.name), number)
        if first != number:
            from fasten.job.store.check import entry_place

            at = f"{where}, {entry_place(kind, number, {'name': mount.name})}"
            raise FastenError(f"{kind} {first} has this name already", where=at, fix="give one of them another name")


def _mount(data: Mapping[str, Any]) -> Mount:
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


def _mount_data(mount: Mount) -> dict[str, Any]:
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


def _mount_text(data: dict[str, Any], unknown: tuple[Unknown, ...]) -> str:
    pin, visits, repairs = data.pop(PIN, None), data.pop(VISIT, ()), data.pop(REPAIR, ())
    more = _added(unknown, "")
    pins = [(f"[mount.{PIN}]", pin, PIN)] if pin is not None else []
    inner = [
        *pins, *((f"[[mount.{VISIT}]]", visit, visit_place(number)) for number, visit in enumerate(visits, 1)),
        *((f"[[mount.{REPAIR}]]", repair, repair_place(number)) for number, repair in enumerate(repairs, 1)),
    ]  # fmt: skip
    tables = (
        f"{table_text(entries, head)}{added.plain}{added.tables}"
        for head, entries, place in inner if (added := _added(unknown, place))
    )  # fmt: skip
    return f"{table_text(data, '[[mount]]')}{more.plain}{more.tables}{''.join(tables)}"


def _entry_text(table: str, data: dict[str, Any], unknown: tuple[Unknown, ...]) -> str:
    more = _added(unknown, "")
    return f"{table_text(data, f'[[{table}]]')}{more.plain}{more.tables}"


def _added(unknown: tuple[Unknown, ...], table: str) -> Unknown:
    """What is not known of a table, to be written after the rest of it."""
    return next((entry for entry in unknown if entry.table == table), Unknown(table, (), "", ""))
