"""Job and shelf files: opened with a stamp of what they held, saved whole or not at all and never blindly."""

from pathlib import Path
from typing import Generic, TypeVar

from fasten.catalog.tables import Tables
from fasten.job.store.files import OutdatedError, Stamp, changed, label, read_file, write_file
from fasten.job.store.job_toml import check_mount, checked_job, job_text, read_job
from fasten.job.store.parse import check_size
from fasten.job.store.shelf_toml import checked_shelf, read_shelf, shelf_text
from fasten.job.store.unknown import unknown_text
from fasten.job.store.written import UNKNOWN, Written
from fasten.job.words import Job, Shelf
from fasten.record import record, replace

__all__ = [
    "LARGE", "Loaded", "OutdatedError", "Stamp", "changed", "check_mount", "job_text", "load_job", "load_shelf",
    "save_job", "save_shelf", "shelf_text", "size_note",
]  # fmt: skip

LARGE = 500  # mount points from which a whole job takes noticeably long

Value = TypeVar("Value", Job, Shelf)


@record
class Loaded(Generic[Value]):
    """What a file holds, where it is, and the stamp that the next save of it asks for.

    `read_only` is set where a newer version of the program wrote the file; `why` then says so in a sentence, and else
    what of it is not known.
    """

    value: Value
    path: Path
    stamp: Stamp
    read_only: bool = False
    why: str = ""


def load_job(path: Path, tables: Tables, written: Written = UNKNOWN) -> Loaded[Job]:
    """Open a job; every field in it is read, so that what is broken is reported now; a question may be unfinished.

    Raises: FastenError if the file cannot be read or is no job; it says which line, or which table and key.
    """
    content, stamp = read_file(path)
    job, why = read_job(content, label(path), tables, own=written.knows(stamp))
    return Loaded(job, path, replace(stamp, newer=bool(why)), bool(why), why or _unknown_kept(job, path))


def load_shelf(path: Path, written: Written = UNKNOWN) -> Loaded[Shelf]:
    """Open a shelf; raises FastenError if the file cannot be read or is no shelf."""
    content, stamp = read_file(path)
    shelf, why = read_shelf(content, label(path), own=written.knows(stamp))
    return Loaded(shelf, path, replace(stamp, newer=bool(why)), bool(why), why)


def save_job(job: Job, path: Path, stamp: Stamp | None = None, written: Written = UNKNOWN) -> Loaded[Job]:
    """Save a job over the file that `stamp` was made of, or as a new file where there is none.

    The questions are the caller's to check (`check_mount`): what cannot be read would be refused at the next opening.
    Raises: FastenError if the file has changed since, is there already, or cannot be written; it is then as it was.
    """
    kept = checked_job(job, label(path))
    return Loaded(kept, path, _write(path, job_text(kept), stamp, written))


def save_shelf(shelf: Shelf, path: Path, stamp: Stamp | None = None, written: Written = UNKNOWN) -> Loaded[Shelf]:
    """Save a shelf, as `save_job` does a job."""
    kept = checked_shelf(shelf, label(path))
    return Loaded(kept, path, _write(path, shelf_text(kept), stamp, written))


def _write(path: Path, text: str, stamp: Stamp | None, written: Written) -> Stamp:
    saved = write_file(path, check_size(text.encode(), label(path)), stamp)
    written.note(saved)
    return saved


def _unknown_kept(job: Job, path: Path) -> str:
    said = unknown_text(job)
    return f"{path.name}: {said}" if said else ""


def size_note(job: Job) -> str:
    """A sentence for a job so large that answering it takes long; empty for others."""
    count = len(job.mounts)
    return (
        f"this job is large: {count} mount points, and answers for all of them take a while" if count >= LARGE else ""
    )
