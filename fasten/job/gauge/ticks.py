"""What was found at the car, kept in the job: a gauge that went in, and what was read where one did not."""

from collections.abc import Iterator

from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.edit import find_mount, with_mount
from fasten.job.gauge.words import Mark, MeasuringPass, Tool
from fasten.job.store.job_toml import same_name
from fasten.job.words import Job
from fasten.question.fields import BEHIND, EDGE, ITEM_HOLE, NAMES, SUPPORT, field_named
from fasten.record import replace
from fasten.text.figures import with_unit
from fasten.text.names import unknown
from fasten.text.shown import shown

ALL = "all"
_FIX = "where a reading was wrong, say which field and what is right: --stopped 'left amplifier: behind = 14 mm'"
_SETTLED = (BEHIND.name, EDGE.name, SUPPORT.name, ITEM_HOLE.name)
_PUSHED = (Tool.FEELER, Tool.PUSH)


def ticked(job: Job, found: MeasuringPass, wanted: str) -> Job:
    """The job with the marks of a mount point that went as they should: of all its fields, or `MOUNT: field` of one.

    `all` is every mark of every mount point. Of several marks of one field the first is kept.
    Raises: FastenError if no mount point or no mark of it is named so.
    """
    if wanted.strip().casefold() == ALL:
        marks = [mark for one in found.mounts for mark in one.marks]
    else:
        name, field = _named(job, wanted)
        marks = _marks(found, name, field)
    for mark in _first_of_each(marks):
        job = kept(job, mark, mark.said)
    return job


def stopped(job: Job, found: MeasuringPass, wanted: str, tables: Tables) -> Job:
    """The job with what was read where a gauge did not go in: `MOUNT: behind = 14 mm`; a later reading replaces it.

    Raises: FastenError if it names no mark, says no figure, or one that is not understood.
    """
    named, equals, read = wanted.partition("=")
    if not equals or not read.strip():
        fix = "write how far it went, such as 'left amplifier: behind = 14 mm'"
        raise FastenError("nothing was read where it stopped", where="stopped", fix=fix)
    name, field = _named(job, named)
    if _is_settled(job, found, name, field):
        field_named(field).read(read.strip(), tables)
        return _saying(job, name, field, read.strip())
    marks = _marks(found, name, field)
    if len({mark.field for mark in marks}) > 1:
        fields = ", ".join(dict.fromkeys(mark.field for mark in marks))
        raise FastenError(f"{name} is tried for {fields}", where="stopped", fix=f"say which, such as '{name}: behind'")
    return kept(job, marks[0], read_text(marks[0], read.strip(), tables))


def read_text(mark: Mark, read: str, tables: Tables) -> str:
    """What is kept of a reading: of a push how far it moved the panel, else the figure itself.

    Raises: FastenError if it is not understood.
    """
    is_plain = mark.tool in _PUSHED and read[:1].isdigit()
    text = f"push {with_unit(mark.force_n or 0.0, 'N')} {read}" if is_plain else read
    field_named(mark.field).read(text, tables)
    return text


def kept(job: Job, mark: Mark, text: str) -> Job:
    """The job with the field that a mark settles, said so."""
    return _saying(job, mark.mount, mark.field, text)


def _saying(job: Job, name: str, field: str, text: str) -> Job:
    mount = find_mount(job, name)
    said = dict(mount.said) | {field: text}
    ordered = tuple((name, said[name]) for name in NAMES if name in said)
    return with_mount(job, replace(mount, said=ordered), instead_of=mount.name)


def _named(job: Job, wanted: str) -> tuple[str, str]:
    """The mount point and the field of `MOUNT: field`; the field empty where the whole is a mount point."""
    names = {same_name(mount.name): mount.name for mount in job.mounts}
    if same_name(wanted) in names:
        return names[same_name(wanted)], ""
    name, colon, field = wanted.rpartition(":")
    if colon and same_name(name) in names:
        return names[same_name(name)], field_named(field.strip()).name
    return find_mount(job, name.strip() if colon else wanted.strip()).name, field.strip()


def _is_settled(job: Job, found: MeasuringPass, name: str, field: str) -> bool:
    """Whether a field that gauges settle is said already and tried no more."""
    tried = any(mark.mount == name and mark.field == field for one in found.mounts for mark in one.marks)
    return field in _SETTLED and not tried and field in dict(find_mount(job, name).said)


def _marks(found: MeasuringPass, name: str, field: str) -> list[Mark]:
    marks = [mark for one in found.mounts if one.mount == name for mark in one.marks]
    left = [mark for mark in marks if field in ("", mark.field)]
    if not left:
        open_ = {f"{mark.mount}: {mark.field}": "" for one in found.mounts for mark in one.marks}
        what = f"{name}: {field}".removesuffix(": ")
        if not open_:
            raise FastenError(f"{shown(what)} is not tried: nothing is left to measure", where="mount", fix=_FIX)
        raise unknown(what, "tried in this pass", open_, "mount")
    return left


def _first_of_each(marks: list[Mark]) -> Iterator[Mark]:
    seen: set[tuple[str, str]] = set()
    for mark in marks:
        if (mark.mount, mark.field) not in seen:
            seen.add((mark.mount, mark.field))
            yield mark
