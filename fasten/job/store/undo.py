"""The last change of the file of a job or shelf, taken back by the copy that every save keeps beside it."""

import os
from collections.abc import Callable
from pathlib import Path

from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.store.files import PREVIOUS, is_there, label, read_file, write_file
from fasten.job.store.job_toml import read_job
from fasten.job.store.shelf_toml import read_shelf
from fasten.job.store.storage import Loaded, Value
from fasten.job.words import Job, Shelf


def taken_back(loaded: Loaded[Job], tables: Tables) -> Job:
    """Put the job before the last save in the place of the file, which is kept in its turn.

    Raises: FastenError if no copy is kept, it is no job, or the file has changed since it was read.
    """
    return _taken_back(loaded, lambda content, where: read_job(content, where, tables))


def shelf_taken_back(loaded: Loaded[Shelf]) -> Shelf:
    """The same of a shelf."""
    return _taken_back(loaded, read_shelf)


def _taken_back(loaded: Loaded[Value], read: Callable[[bytes, str], tuple[Value, str]]) -> Value:
    target = Path(os.path.realpath(loaded.path))
    kept = target.with_name(target.name + PREVIOUS)
    if not is_there(kept):
        what = "no change of the file is kept beside it, nothing was taken back"
        raise FastenError(what, where=label(loaded.path), fix="change it first")
    content, _ = read_file(kept)
    before, why = read(content, label(kept))
    if why:
        raise FastenError(why, where=label(kept), fix="bring the program up to date")
    write_file(loaded.path, content, loaded.stamp)
    return before
