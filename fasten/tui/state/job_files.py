"""Where jobs are kept: their files are opened, made and saved here, and nowhere else on the screen."""

import os
import re
import stat
from contextlib import suppress
from itertools import chain
from pathlib import Path

from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.store.written import UNKNOWN, Written
from fasten.job.words import Job
from fasten.question.fields import ONTO
from fasten.record import record
from fasten.tui.state.open_job import EMPTY, OpenJob

_HEAD_BYTES = 20_000  # of a job that is named by its title: what comes before its first mount point takes less


class _File:
    """A job's file and what it held when it was last read or written; no stamp before there is one."""

    def __init__(self, path: Path, written: Written, stamp: object = None) -> None:
        self.path = path
        self.written = written
        self.stamp = stamp

    def save(self, job: Job) -> None:
        from fasten.job.store.files import make_folder
        from fasten.job.store.storage import save_job

        if self.stamp is None:  # a folder that went away with its file is not made again: it may be put back
            make_folder(self.path.parent)
        self.stamp = save_job(job, self.path, self.stamp, self.written).stamp  # type: ignore[arg-type]

    def is_stale(self) -> bool:
        """Whether another program wrote or removed the file since it was read."""
        from fasten.job.store.storage import changed

        return self.stamp is not None and changed(self.path, self.stamp)  # type: ignore[arg-type]


def left_off(job: Job) -> int | None:
    """Which mount point is gone on with: the last whose work is begun, else the first of which something is still to be
    said or confirmed, else the first that is not built, else the first; None where there is none.

    Nothing is calculated for it.
    """
    mounts = [*enumerate(job.mounts)]
    unbuilt = [(at, mount) for at, mount in mounts if mount.built is None]
    begun = [at for at, mount in unbuilt if mount.ticked]
    unsaid = [at for at, mount in unbuilt if mount.preset or ONTO.name not in dict(mount.said)]
    return next(iter((*begun[-1:], *unsaid, *(at for at, _ in (*unbuilt, *mounts)))), None)


@record
class JobFiles:
    """The folder jobs are kept in."""

    folder: Path
    tables: Tables
    written: Written = UNKNOWN

    def open(self, path: Path) -> OpenJob:
        """The job of a file, what is to be gone on with in hand; raises FastenError if it cannot be opened."""
        from fasten.job.store.storage import load_job

        loaded = load_job(path, self.tables, self.written)
        file = _File(loaded.path, self.written, loaded.stamp)
        at = left_off(loaded.value)
        why = loaded.why if loaded.read_only else ""
        note = "" if loaded.read_only else loaded.why
        return OpenJob(file.save, loaded.path, loaded.value, at, why, loaded.value, file.is_stale, file_note=note)

    def new(self, path: Path | None = None) -> OpenJob:
        """A job with nothing in it; its file is made when there is something to save."""
        file = _File(path or _free(self.folder), self.written)
        return OpenJob(file.save, file.path, EMPTY, None, "", EMPTY, file.is_stale)

    def copy(self, open_job: OpenJob, path: Path | None = None) -> None:
        """Save the job of a open_job as a new file and go on with that one; it is the one named, or is found for it.

        Raises: FastenError if it cannot be saved there, neither beside its own nor where jobs are kept.
        """
        with open_job.writing:
            file = self._copied(open_job) if path is None else _File(path, self.written)
            if path is not None:
                file.save(open_job.job)
            open_job.save_job, open_job.is_stale = file.save, file.is_stale
            open_job.path, open_job.saved, open_job.read_only = file.path, open_job.job, ""

    def _copied(self, open_job: OpenJob) -> _File:
        beside = open_job.path.parent if open_job.path else self.folder
        stem = re.sub(r"-\d+$", "", open_job.path.stem) if open_job.path else "job"
        if beside != self.folder and os.path.isdir(beside):  # one that went away is not made again: nobody looks there
            try:
                return self._saved(open_job.job, beside, stem)
            except FastenError as error:
                with suppress(FastenError):
                    return self._saved(open_job.job, self.folder, stem)
                raise error from None
        return self._saved(open_job.job, self.folder, stem)

    def _saved(self, job: Job, folder: Path, stem: str) -> _File:
        file = _File(_free(folder, stem), self.written)
        file.save(job)
        return file

    def start(self, path: Path | None) -> OpenJob:
        """The job named, new where there is no such file; else the one changed last; else a new one."""
        if path is not None:
            from fasten.job.store.files import is_there

            return self.open(path) if is_there(path) else self.new(path)
        paths = self.paths()
        if not paths:
            return self.new()
        try:
            return self.open(paths[0])
        except FastenError:
            return self.new()  # a broken file must not bar the way; opening it by name says what is wrong with it

    def paths(self) -> list[Path]:
        """The jobs there are, the one changed last first."""
        try:
            paths = [self.folder / name for name in os.listdir(self.folder) if name.endswith(".toml")]
        except OSError:
            return []  # the first save says what is wrong with the folder
        found = [(changed, path.name, path) for path in paths if (changed := _changed(path)) is not None]
        return [path for *_, path in sorted(found, key=lambda entry: (-entry[0], entry[1]))]

    def label(self, path: Path) -> str:
        """A job in a few words: the name of its file and, where it has one, its title."""
        from fasten.catalog.plain_toml import loads

        try:
            with path.open("rb") as file:
                head = file.read(_HEAD_BYTES).partition(b"\n[[")[0]
            title = loads(head.decode("utf-8-sig")).get("title", "")
        except (OSError, ValueError, RecursionError):
            return path.stem
        return f"{path.stem}: {title}" if title else path.stem


def _free(folder: Path, stem: str = "job") -> Path:
    """A path in the folder at which nothing stands."""
    names = (f"{stem}-{number}.toml" for number in range(2, 10_000))
    return next(path for name in chain((f"{stem}.toml",), names) if not os.path.lexists(path := folder / name))


def _changed(path: Path) -> float | None:
    """When a file was changed last; None where it is no plain file or went away."""
    try:
        found = path.stat()
    except OSError:
        return None
    return found.st_mtime if stat.S_ISREG(found.st_mode) else None
