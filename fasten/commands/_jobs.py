"""What the commands that change a job share: the job they open, the mount point they are about, how it is saved."""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Callable, Mapping
    from pathlib import Path

    from fasten.catalog.tables import Tables
    from fasten.job.store.storage import Loaded
    from fasten.job.words import Job, Pin

_TRIES, _MOMENT_S = 40, 0.05  # how often, and how far apart, a job is read again that others save meanwhile


def open_job(path: "Path", tables: "Tables") -> "Loaded[Job]":
    """The job of a file, open to be changed; what must be known of it is said on stderr.

    Raises:
        FastenError: it cannot be read or is no job.
    """
    from fasten.commands._folders import written_folder
    from fasten.commands._streams import say
    from fasten.job.store.storage import load_job
    from fasten.job.store.written import Written

    loaded = load_job(path, tables, Written(written_folder()))
    say(loaded.why)
    return loaded


def change_job(
    path: "Path", tables: "Tables", change: "Callable[[Job], Job]", new: "Job | None" = None
) -> "tuple[Job, Job]":
    """Change the job of a file, or the `new` one where there is none yet, and save it: as it was, and as it is now.

    Where another command saves the job meanwhile it is read and changed anew, for a while.
    Raises:
        FastenError: it cannot be read, changed or saved, or others save it again and again.
    """
    from time import sleep

    from fasten.job.store.storage import OutdatedError

    for _ in range(_TRIES - 1):
        try:
            return _changed(path, tables, change, new)
        except OutdatedError:
            sleep(_MOMENT_S)
    return _changed(path, tables, change, new)


def _changed(path: "Path", tables: "Tables", change: "Callable[[Job], Job]", new: "Job | None") -> "tuple[Job, Job]":
    import os

    from fasten.commands._folders import written_folder
    from fasten.job.store.storage import save_job
    from fasten.job.store.written import Written

    written = Written(written_folder())
    if new is not None and not os.path.lexists(path):
        return new, save_job(change(new), path, written=written).value
    loaded = open_job(path, tables)
    return loaded.value, save_job(change(loaded.value), path, loaded.stamp, written).value


def with_question(job: "Job", name: str, said: tuple[tuple[str, str], ...], *, replace_it: bool) -> "Job":
    """The job with this question under this name, in the place of the mount point that has it already.

    What was noted and built there stays; what was pinned goes with the question it was pinned for.
    Raises:
        FastenError: another mount point has the name, and it is not to be replaced.
    """
    from fasten.errors import FastenError
    from fasten.job.edit import named, with_mount
    from fasten.job.words import Mount
    from fasten.record import replace

    there = named(job, name)
    if there is None:
        return with_mount(job, Mount(name, said))
    if not replace_it:
        what = f"the job has a mount point '{there.name}' already, nothing was saved"
        raise FastenError(what, where="name", fix="give another name, or add --replace to ask anew for this one")
    pin = there.pin if there.said == said else None
    return with_mount(job, replace(there, said=said, pin=pin, preset=()), instead_of=there.name)


def pin_mounts(loaded: "Loaded[Job]", pins: "Mapping[str, Pin]") -> None:
    """Save the job with these pins, by the name of their mount point, and say so on stderr.

    Raises:
        FastenError: the job may only be read, has changed meanwhile, or cannot be saved.
    """
    from fasten.commands._folders import written_folder
    from fasten.commands._streams import say
    from fasten.job.store.storage import save_job
    from fasten.job.store.written import Written
    from fasten.record import replace

    mounts = tuple(replace(mount, pin=pins.get(mount.name, mount.pin)) for mount in loaded.value.mounts)
    save_job(replace(loaded.value, mounts=mounts), loaded.path, loaded.stamp, Written(written_folder()))
    say(f"pinned in {loaded.path}: {', '.join(pins)}" if len(pins) <= 3 else f"{len(pins)} pinned in {loaded.path}")
