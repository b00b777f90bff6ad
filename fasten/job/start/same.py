"""The same again: a mount point copied, or paired with that of the other side, and what is alike on both.

What belongs to the item and to what it is on is copied. What was measured, tested, found there, built or ticked is not.
"""

import re

from fasten.errors import FastenError
from fasten.job.edit import find_mount, named, with_mount
from fasten.job.start.start import free_twin
from fasten.job.store.job_toml import same_name
from fasten.job.words import Job, Mount
from fasten.question import fields
from fasten.record import record, replace
from fasten.text.shown import shown
from fasten.text.sides import other_side

ALIKE = tuple(field.name for field in (
    fields.ITEM, fields.ONTO, fields.REMOVED, fields.MASS, fields.FIXINGS, fields.PATTERN, fields.ITEM_THICKNESS,
    fields.ITEM_HOLE, fields.ITEM_MATERIAL, fields.CG, fields.PANEL, fields.BETWEEN, fields.DOUBLER, fields.BOARD,
    fields.BOSS, fields.INTO, fields.REACH, fields.WHERE, fields.FAR_SIDE, fields.VISIBLE, fields.GRADE, fields.CASE,
    fields.CARRIES, fields.RING, fields.RINGS, fields.CABLE, fields.CURRENT, fields.POWER, fields.OWN_FUSES,
    fields.OUTPUTS,
))  # fmt: skip
"""What belongs to the item and to what it is on."""
FOUND = tuple(field.name for field in (
    fields.BEHIND, fields.EDGE, fields.HOLES_AT, fields.SUPPORT, fields.RAILS, fields.EXISTING_HOLE, fields.BODY,
    fields.RUN,
))  # fmt: skip
"""What is measured, tested or found at one place, or of one part in hand."""


@record
class Copied:
    """A job with a mount point copied: the new one, and the fields of the old one that are to be measured again."""

    job: Job
    mount: Mount
    again: tuple[str, ...]
    left_out: tuple[str, ...]


def copied(job: Job, name: str, as_: str = "") -> Copied:
    """The job with one more mount point like the one of this name; raises FastenError where the name is taken."""
    mount = find_mount(job, name)
    return _copied(job, mount, as_.strip() or _next(job, mount.name))


def paired(job: Job, name: str) -> Copied:
    """The job with the mount point of the other side; raises FastenError where the name says none, or it is there."""
    mount = find_mount(job, name)
    other = other_side(mount.name)
    if not other:
        what = f"{shown(mount.name)} says no side"
        fix = f"name it first, such as {shown(f'left {mount.name}')}, or copy it under a name of your own"
        raise FastenError(what, where="name", fix=fix)
    return _copied(job, mount, other)


def twins(job: Job, mount: Mount) -> tuple[Mount, ...]:
    """The other mount points that are linked with this one."""
    if not mount.twin:
        return ()
    return tuple(
        one for one in job.mounts
        if same_name(one.twin) == same_name(mount.twin) and same_name(one.name) != same_name(mount.name)
    )  # fmt: skip


def asks_both(job: Job, was: Mount, now: Mount) -> tuple[Mount, ...]:
    """The twins that say the same as this mount point did of something that is alike, and would differ from it now."""
    return tuple(one for one in twins(job, was) if _shared(was, now, one))


def on_twins(job: Job, was: Mount, now: Mount) -> Job:
    """The job with what changed of this mount point, and was the same at its twins, changed there as well."""
    from fasten.job.preset import confirmed, with_said

    for one in asks_both(job, was, now):
        shared = _shared(was, now, one)
        said = dict(one.said) | dict.fromkeys(shared) | {name: text for name, text in now.said if name in shared}
        texts = tuple((name, text) for name in fields.NAMES if (text := said.get(name)) is not None)
        held = one.pin if texts == one.said else None
        job = with_mount(job, replace(confirmed(with_said(one, texts), shared), pin=held), instead_of=one.name)
    return job


def _shared(was: Mount, now: Mount, twin: Mount) -> tuple[str, ...]:
    """The fields that are said otherwise, or are confirmed, and said the same at a twin before."""
    before, after, there = dict(was.said), dict(now.said), dict(twin.said)
    return tuple(
        name for name in ALIKE
        if there.get(name) == before.get(name) and (
            before.get(name) != after.get(name)
            or (name in was.preset and name not in now.preset and name in twin.preset)
        )
    )  # fmt: skip


def _copied(job: Job, mount: Mount, name: str) -> Copied:
    linked = mount.twin or free_twin(job, mount.name)
    said = tuple((field, text) for field, text in mount.said if field in ALIKE)
    preset = tuple(field for field in mount.preset if field in ALIKE)
    new = Mount(name, said, preset=preset, install=mount.install, twin=linked)
    if not mount.twin:
        job = with_mount(job, replace(mount, twin=linked), instead_of=mount.name)
    again = tuple(field for field, _ in mount.said if field in FOUND)
    left = (("as built", mount.built), ("the choice that is held", mount.pin), ("note", mount.note),
            ("what is ticked", mount.ticked))  # fmt: skip
    return Copied(with_mount(job, new), new, again, tuple(what for what, there in left if there))


def _next(job: Job, name: str) -> str:
    """The name with the next number that is free: left amp 2."""
    begin = re.sub(r" [0-9]{1,4}$", "", name)
    names = (f"{begin} {number}" for number in range(2, len(job.mounts) + 3))
    return next(one for one in names if named(job, one) is None)
