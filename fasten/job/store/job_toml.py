"""A job as the text of its file, and back."""

from collections.abc import Mapping
from functools import lru_cache
from typing import Any, TypeVar

from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.store.covers_toml import (
    COVER,
    check_covers,
    covers_data,
    read_covers,
    unknown_of_cover,
)
from fasten.job.store.mount_toml import (
    MOST_KEPT,
    added_to,
    entry_text,
    mount_as_written,
    mount_data,
    mount_text,
    read_mount,
    unknown_of_mount,
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
    read_run,
    read_runs,
    recorded_data,
    run_data,
    unknown_in,
    unknowns,
)
from fasten.job.store.runs_toml import TABLES as RUN_TABLES
from fasten.job.store.unknown import unknown_of
from fasten.job.words import CableRun, Cover, Job, Mount, Recorded
from fasten.question.fields import field_named
from fasten.question.read import read_question
from fasten.record import replace
from fasten.text.letters import one_name

EntryT = TypeVar("EntryT", Mount, Recorded, CableRun, Cover)

KIND = "job"
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


def job_text(job: Job) -> str:
    """The text of a job's file: stable order, only what was said, every text as it was said."""
    data = _head_data(job)
    covers, more = data.pop(COVER, []), added_to(job.unknown, "")
    texts = (
        *(entry_text(COVER, entry, cover.unknown) for entry, cover in zip(covers, job.covers, strict=True)),
        *map(mount_text, job.mounts),
        *(entry_text(table, entry, unknown) for table, entries in recorded_data(job).items()
          for entry, unknown in zip(entries, unknowns(job, table), strict=True)),
        *map(_run_text, job.runs),
    )  # fmt: skip
    return f"{HEAD}{table_text(data)}{more.plain}{more.tables}{''.join(texts)}\n{END}\n"


@lru_cache(MOST_KEPT)
def _run_text(run: CableRun) -> str:
    return entry_text(RUN, run_data(run), run.unknown)


def _head_data(job: Job) -> dict[str, Any]:
    """What stands before the first mount point, in the order of the file."""
    head = {"format": JOB_FORMAT, "kind": KIND, "title": job.title, "vehicle": job.vehicle, "note": job.note}
    ticked = {"packed": list(job.packed), "packed-apart": list(job.apart), "ticked": list(job.ticked)}
    return {
        **head,
        **{name: ticks for name, ticks in ticked.items() if ticks},
        **electrics_data(job),
        **({"preset": list(job.preset)} if job.preset else {}),
        **covers_data(job),
    }


def job_data(job: Job) -> dict[str, Any]:
    """A job as plain data in the order of its file."""
    runs = {RUN: [run_data(run) for run in job.runs]} if job.runs else {}
    return {**_head_data(job), "mount": [mount_data(mount) for mount in job.mounts], **recorded_data(job), **runs}


def checked_job(job: Job, where: str) -> Job:
    """The job as its file would give it back, every text stripped; raises FastenError if it could not be read again.

    From one save to the next few mount points and runs are others: each is checked by itself, and then the rest.
    """
    from fasten.job.store.check import JobFile, checked

    try:
        mounts, runs = tuple(map(_kept_mount, job.mounts)), tuple(map(_kept_run, job.runs))
    except FastenError:
        checked(job_data(job), JobFile, where)  # which says which of them it is
        raise
    rest = _job(checked(job_data(replace(job, mounts=(), runs=())), JobFile, where), where)
    kept = replace(
        rest, unknown=job.unknown, mounts=mounts, runs=runs, cables=_as_unknown(rest.cables, job.cables),
        sections=_as_unknown(rest.sections, job.sections), holes=_as_unknown(rest.holes, job.holes),
        covers=_as_unknown(rest.covers, job.covers),
    )  # fmt: skip
    _check_apart(mounts, where)
    _check_apart(runs, where, RUN)
    check_covers(kept, where)
    return kept


@lru_cache(MOST_KEPT)
def _kept_mount(mount: Mount) -> Mount:
    from fasten.job.store.check import MountEntry, checked

    return replace(read_mount(checked(mount_data(mount), MountEntry, "")), unknown=mount.unknown)


@lru_cache(MOST_KEPT)
def _kept_run(run: CableRun) -> CableRun:
    from fasten.job.store.check import RunEntry, checked

    return replace(read_run(checked(run_data(run), RunEntry, "")), unknown=run.unknown)


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
        mount = read_mount(checked(known_only(entry, MountEntry), MountEntry, where))
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
    mounts = [mount_as_written(entry) for entry in data.get("mount", ())]
    empty = {"title": "", "vehicle": "", "note": "", "packed": [], "packed-apart": [], "preset": [], "ticked": []}
    return {**empty, **data, "mount": mounts}


def _with_unknown(job: Job, data: dict[str, Any], where: str) -> Job:
    """The job of a file with what of the file this version does not know."""
    try:
        mounts = tuple(
            replace(mount, unknown=unknown_of_mount(entry))
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


def _job(data: Mapping[str, Any], where: str) -> Job:
    """The job of checked data. The ticks of format 1 are by words: which lines they are of is seen with the list."""
    mounts = tuple(read_mount(entry) for entry in data["mount"])
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
