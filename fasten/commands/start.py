"""`fasten start JOB --with "two amplifiers, four door speakers, sub box"`: a job from a few words."""

import argparse
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

    from fasten.catalog.tables import Tables
    from fasten.job.words import Job


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument("job", nargs="?", default="", metavar="JOB", help="the file of the job, new or there already")
    parser.add_argument("--with", dest="with_", default="", metavar="…", help="what you are fitting; nothing: a list")
    parser.add_argument("--add", action="store_true", help="add to the mount points that the job has")
    parser.add_argument("--json", action="store_true", help="print JSON")


def run(args: argparse.Namespace) -> int:
    """Put the mount points of what is fitted in the job and print them; without `--with` print what there is.

    Raises:
        FastenError: a word is not known, the job is there already, or it cannot be read or saved.
    """
    from pathlib import Path

    from fasten.commands._tables import open_tables
    from fasten.errors import FastenError

    tables = open_tables()
    if not args.with_.strip():
        if args.add:
            raise FastenError("nothing is said to be added", where="with", fix="add --with 'two amplifiers'")
        return _listed(args, tables)
    if not args.job:
        raise FastenError("no job is named to keep it in", where="job", fix="write the file after start: car.toml")
    was, now = _saved(Path(args.job), args.with_, tables, add=args.add)
    return _printed(args, was, now, tables)


def _listed(args: argparse.Namespace, tables: "Tables") -> int:
    from fasten.report.job.start import installs_json, installs_text

    if args.json:
        from fasten.report.plain import json_text

        print(json_text(installs_json(tables)))
    else:
        from fasten.commands._documents import text_width

        print(installs_text(tables, text_width()), end="")
    return 0


def _saved(path: "Path", text: str, tables: "Tables", *, add: bool) -> "tuple[Job, Job]":
    """The job before and after what is wanted was added to it and saved."""
    from fasten.commands._jobs import change_job
    from fasten.job.start.start import check_new, started
    from fasten.job.start.wanted import read_wanted
    from fasten.job.words import Job

    wanted = read_wanted(text, tables)

    def added(job: "Job") -> "Job":
        check_new(job, add=add)
        return started(job, wanted, tables)

    return change_job(path, tables, added, Job(path.stem, "", "", ()))


def _printed(args: argparse.Namespace, was: "Job", now: "Job", tables: "Tables") -> int:
    from fasten.report.job.start import started, started_json, started_text

    made = started(was, now, args.job, tables)
    if args.json:
        from fasten.report.plain import json_text

        print(json_text(started_json(made)))
    else:
        from fasten.commands._documents import text_width

        print(started_text(made, text_width()), end="")
    return 0
