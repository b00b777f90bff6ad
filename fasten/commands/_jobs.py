"""What the commands that change a job share: the job they open, the mount point they are about, how it is saved."""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from collections.abc import Mapping
    from pathlib import Path

    from fasten.catalog.tables import Tables
    from fasten.job.storage import Loaded
    from fasten.job.words import Job, Mount, Pin


def open_job(path: "Path", tables: "Tables") -> "Loaded[Job]":
    """The job of a file, open to be changed; what must be known of it is said on stderr.

    Raises:
        FastenError: it cannot be read or is no job.
    """
    from fasten.commands._streams import say
    from fasten.job.storage import load_job

    loaded = load_job(path, tables)
    say(loaded.why)
    return loaded


def with_question(
    job: "Job", name: str, said: tuple[tuple[str, str], ...], *, replace_it: bool
) -> "tuple[Job, Mount | None]":
    """The job with this question under this name, and the mount point that it takes the place of.

    What was noted and built there stays; what was pinned goes with the question it was pinned for.
    Raises:
        FastenError: another mount point has the name, and it is not to be replaced.
    """
    from dataclasses import replace

    from fasten.errors import FastenError
    from fasten.job.edit import named, with_mount
    from fasten.job.words import Mount

    there = named(job, name)
    if there is None:
        return with_mount(job, Mount(name, said)), None
    if not replace_it:
        what = f"the job has a mount point '{there.name}' already, nothing was saved"
        raise FastenError(what, where="name", fix="give another name, or add --replace to ask anew for this one")
    pin = there.pin if there.said == said else None
    return with_mount(job, replace(there, said=said, pin=pin), instead_of=there.name), there


def pin_mounts(loaded: "Loaded[Job]", pins: "Mapping[str, Pin]") -> None:
    """Save the job with these pins, by the name of their mount point, and say so on stderr.

    Raises:
        FastenError: the job may only be read, has changed meanwhile, or cannot be saved.
    """
    from dataclasses import replace

    from fasten.commands._streams import say
    from fasten.job.storage import save_job

    mounts = tuple(replace(mount, pin=pins.get(mount.name, mount.pin)) for mount in loaded.value.mounts)
    save_job(replace(loaded.value, mounts=mounts), loaded.path, loaded.stamp)
    say(f"pinned in {loaded.path}: {', '.join(pins)}" if len(pins) <= 3 else f"{len(pins)} pinned in {loaded.path}")
