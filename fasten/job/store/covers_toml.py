"""The covers of a job as plain data of its file, and back; and that all that is covered names what there is."""

from collections.abc import Iterator, Mapping
from typing import Any

from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.store.unknown import unknown_of
from fasten.job.words import Cover, Job, Mount
from fasten.question.fields import FIXINGS, REMOVED
from fasten.text.letters import one_name
from fasten.text.shown import shown

COVER, COVERED_BY = "cover", "covered-by"
COVER_KEYS = ("name", REMOVED.name, FIXINGS.name, "renewed", "renew-every", "rated", "note")
_LISTED = 5
_NEAR = 0.8  # how alike two names are of which one may be a slip


def covers_data(job: Job) -> dict[str, Any]:
    """The covers in the order of the file; nothing where there are none."""
    return {COVER: [_data(cover) for cover in job.covers]} if job.covers else {}


def _data(cover: Cover) -> dict[str, Any]:
    found = {key: getattr(cover, key.replace("-", "_")) for key in COVER_KEYS}
    return {key: value for key, value in found.items() if value is not None and value != ""}


def cover_said(cover: Cover) -> dict[str, str]:
    """What is said of a cover, field by field, as it is written."""
    return {key: str(value) for key, value in _data(cover).items() if key != COVER_KEYS[0]}


def read_covers(data: Mapping[str, Any]) -> tuple[Cover, ...]:
    """The covers of checked data."""
    return tuple(
        Cover(**{key.replace("-", "_"): entry[key] for key in COVER_KEYS if entry.get(key) is not None})
        for entry in data.get(COVER, ())
    )  # fmt: skip


def unknown_of_cover(data: Mapping[str, Any], number: int) -> tuple[Any, ...]:
    """What is not known of a cover of a file."""
    return unknown_of(data[COVER][number], COVER_KEYS, "", f"{COVER}.")


def check_covers(job: Job, where: str, tables: Tables | None = None) -> None:
    """Check that what covers something is a cover or mount point, in no circle, and how often each cover comes off.

    Raises: FastenError that names the mount point or cover, with the nearest name, or the names of the circle.
    """
    if not job.covers and not any(mount.covered_by for mount in job.mounts):
        return
    _check_names(job, where)
    for cover in job.covers if tables is not None else ():
        _check_removed(cover, where, tables)
    names = _names(job)
    for mount in job.mounts:
        for name in mount.covered_by:
            if one_name(name) not in names:
                raise FastenError(
                    f"{shown(name)} is no cover and no mount point of the job",
                    where=_at(where, "mount", mount.name, COVERED_BY), fix=_nearest(name, names),
                )  # fmt: skip
    circle = circle_of(job)
    if circle:
        chain = ", which is under ".join(shown(name) for name in circle)
        what = f"{chain}: they cover each other in a circle"
        raise FastenError(what, where=_at(where, "mount", circle[0], COVERED_BY), fix="take one of them out")


def _check_names(job: Job, where: str) -> None:
    taken = {one_name(mount.name): "mount point" for mount in job.mounts}
    for cover in job.covers:
        if one_name(cover.name) in taken:
            what = f"a {taken[one_name(cover.name)]} has this name already"
            raise FastenError(what, where=_at(where, COVER, cover.name), fix="give one of them another name")
        taken[one_name(cover.name)] = "cover"


def _check_removed(cover: Cover, where: str, tables: Tables | None) -> None:
    if not cover.removed or tables is None:
        return
    try:
        REMOVED.read(cover.removed, tables)
    except FastenError as error:
        raise FastenError(error.what, where=_at(where, COVER, cover.name, REMOVED.name), fix=error.fix) from error


def circle_of(job: Job) -> tuple[str, ...]:
    """The names of a circle of covers, its first again as the last; empty where there is none."""
    under = {one_name(mount.name): mount for mount in job.mounts}
    clear: set[str] = set()
    return next((found for mount in job.mounts if (found := _circle(mount, under, (), clear))), ())


def _circle(mount: Mount, under: Mapping[str, Mount], way: tuple[str, ...], clear: set[str]) -> tuple[str, ...]:
    same = [one_name(name) for name in way]
    if one_name(mount.name) in same:
        return (*way[same.index(one_name(mount.name)) :], mount.name)
    if one_name(mount.name) in clear:
        return ()
    covers = (under[one_name(name)] for name in mount.covered_by if one_name(name) in under)
    found = next((circle for one in covers if (circle := _circle(one, under, (*way, mount.name), clear))), ())
    clear.add(one_name(mount.name))
    return found


def _names(job: Job) -> dict[str, str]:
    return {one_name(name): name for name in _every_name(job)}


def _every_name(job: Job) -> Iterator[str]:
    yield from (cover.name for cover in job.covers)
    yield from (mount.name for mount in job.mounts)


def check_nearest(name: str, job: Job) -> None:
    """Raises FastenError where a name is nearly that of a cover or mount point, and so may be a slip."""
    from difflib import get_close_matches

    names = {one_name(found): found for found in _every_name(job) if one_name(found) != one_name(name)}
    if get_close_matches(one_name(name)[:100], names, n=1, cutoff=_NEAR):
        what = f"{shown(name)} is no cover and no mount point of the job"
        raise FastenError(what, where=COVERED_BY, fix=_nearest(name, names))


def _nearest(name: str, names: Mapping[str, str]) -> str:
    from difflib import get_close_matches

    close = get_close_matches(one_name(name)[:100], names, n=3)
    if close:
        return f"did you mean {' or '.join(shown(names[one]) for one in close)}?"
    listed = ", ".join(shown(one) for one in list(names.values())[:_LISTED])
    return f"name one of {listed}, or add a [[cover]] of this name"


def _at(where: str, kind: str, name: str, *keys: str) -> str:
    from fasten.job.store.check import entry_place

    return ", ".join(filter(None, (where, entry_place(kind, 0, {"name": name}), *keys)))
