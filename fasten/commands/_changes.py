"""What the commands share that change a job by name: the change is saved, and said in a sentence."""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    import argparse
    from collections.abc import Callable

    from fasten.catalog.tables import Tables
    from fasten.job.words import Job
    from fasten.report.job.done import Done

    Change = Callable[[Job, Tables], tuple[Job, Done]]


def of_mount(parser: "argparse.ArgumentParser", what: str = "a mount point of it by its name") -> None:
    """Declare the job, what of it is changed, and `--json`."""
    parser.add_argument("job", metavar="JOB", help="the file of the job")
    parser.add_argument("mount", metavar="MOUNT", help=what)
    parser.add_argument("--json", action="store_true", help="print JSON")


def change(args: "argparse.Namespace", do: "Change") -> int:
    """Change the job, save it and say what was done.

    Raises:
        FastenError: the job cannot be read, changed so or saved.
    """
    from pathlib import Path

    from fasten.commands._jobs import change_job
    from fasten.commands._tables import open_tables

    tables = open_tables()
    said: list[Done] = []

    def changed(job: "Job") -> "Job":
        now, done = do(job, tables)
        said[:] = [done]
        return now

    change_job(Path(args.job), tables, changed)
    tell(args, said[0])
    return 0


def tell(args: "argparse.Namespace", done: "Done") -> None:
    """Print what was done."""
    from fasten.commands._documents import text_width
    from fasten.report.job.done import done_json, done_text
    from fasten.report.plain import json_text

    print(json_text(done_json(done)) if args.json else done_text(done, text_width()), end="\n" if args.json else "")
