"""`fasten undo JOB`: take back the last change of the file of a job; once more makes it again."""

import argparse


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument("job", metavar="JOB", help="the file of the job")
    parser.add_argument("--json", action="store_true", help="print JSON")


def run(args: argparse.Namespace) -> int:
    """Put the copy that was kept at the last save in the place of the file, and keep the file in its turn.

    Raises:
        FastenError: no copy is kept beside it, one of the two is no job, or it cannot be saved.
    """
    from pathlib import Path

    from fasten.commands._changes import tell
    from fasten.commands._jobs import open_job
    from fasten.commands._tables import open_tables
    from fasten.job.store.undo import taken_back
    from fasten.report.job.done import Done
    from fasten.text.figures import counted

    tables = open_tables()
    was = open_job(Path(args.job), tables)
    now = taken_back(was, tables)
    points = f"{counted(len(was.value.mounts), 'mount point')} before, {len(now.mounts)} now"
    tell(args, Done(f"the last change of {args.job} is taken back, {points}; undo once more makes it again", args.job))
    return 0
