"""`fasten fewest JOB`: the same job with fewer different sizes, before and after; every joint in it is proved."""

import argparse
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fasten.catalog.tables import Tables
    from fasten.job.shelf.owned import Owned
    from fasten.job.sizes.standard import Standard
    from fasten.job.words import Job
    from fasten.progress import Step


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument("job", metavar="JOB", help="the file of the job")
    parser.add_argument("--shelf", default="", metavar="FILE", help="what is at hand already")
    parser.add_argument("--seconds", default="", metavar="N", help="wait no longer; the best found by then")
    parser.add_argument("--keep", action="store_true", help="hold the choice in the job")
    parser.add_argument("--json", action="store_true", help="print JSON")


def run(args: argparse.Namespace) -> int:
    """Print both, with the mount points that have no answer.

    The search is limited by its work, so that it finds the same on every machine; seconds only end the wait.
    Raises:
        FastenError: job or shelf cannot be read, the time is none or not enough, or the job cannot be saved.
    """
    from pathlib import Path
    from time import monotonic

    from fasten.commands._documents import read_shelf, text_width
    from fasten.commands._jobs import change_job, open_job, pin_mounts
    from fasten.commands._tables import open_tables
    from fasten.job.shelf.owned import owned_of
    from fasten.job.shelf.reels import with_reels
    from fasten.job.sizes.cables import fewer_cables, with_changes

    ends = monotonic() + _seconds(args.seconds)
    tables = open_tables()
    shelf = read_shelf(args, tables)
    owned, loaded = owned_of(shelf, tables), open_job(Path(args.job), tables)
    found = _found(loaded.value, tables, owned, ends)
    runs = fewer_cables(with_reels(loaded.value, shelf, tables), tables)
    if args.keep and found.pins:
        pin_mounts(loaded, found.pins)
    if args.keep and runs.changes:
        change_job(Path(args.job), tables, lambda job: with_changes(job, runs, tables))
    if args.json:
        from fasten.report.job.fewest import fewest_json
        from fasten.report.plain import json_text

        print(json_text(fewest_json(found, runs)))
    else:
        from fasten.report.forms.written import written
        from fasten.report.job.fewest import fewest_document

        print(written(fewest_document(found, runs), "text", text_width()), end="")
    return 0


def _found(job: "Job", tables: "Tables", owned: "Owned | None", ends: float) -> "Standard":
    """The fewest sizes that are found until the time is over.

    Raises:
        FastenError: by then not even every mount point has its answer.
    """
    from fasten.commands._progress import progress
    from fasten.errors import FastenError
    from fasten.job.entries import listed_choices
    from fasten.job.sizes.offers import fewest_sizes
    from fasten.progress import Stopped

    try:
        with progress("finding answers") as step:
            answered = listed_choices(job, tables, owned, _until(ends, step))
    except Stopped as stopped:
        what = "the time was over before every mount point had its answer"
        raise FastenError(what, where="seconds", fix="give it more, or leave --seconds out") from stopped
    with progress("finding fewer sizes") as step:
        return fewest_sizes(answered, tables, owned, _until(ends, step))


def _until(ends: float, step: "Step") -> "Step":
    """The step, which stops the work when the time is over."""
    from time import monotonic

    from fasten.progress import Stopped

    def timed(done: int, of: int) -> None:
        step(done, of)
        if monotonic() >= ends:
            raise Stopped

    return timed


def _seconds(text: str) -> float:
    """How long to wait, for ever where nothing is said; raises FastenError unless it is seconds up to an hour."""
    from math import inf

    from fasten.errors import FastenError

    if not text:
        return inf
    plain = text.replace(",", ".")
    if not (plain.isascii() and plain.replace(".", "", 1).isdigit() and len(plain) < 8 and float(plain) <= 3600):
        raise FastenError(f"'{text[:20]}' is no number of seconds up to 3600", where="seconds", fix="write such as 10")
    return float(plain)
