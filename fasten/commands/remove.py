"""`fasten remove JOB MOUNT`: take a mount point, run, section, hole or cable out of the job."""

import argparse
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fasten.catalog.tables import Tables
    from fasten.job.words import Job
    from fasten.report.job.done import Done


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    from fasten.commands._changes import of_mount

    of_mount(parser, "a mount point, run, section, hole, cable or cover of it")


def run(args: argparse.Namespace) -> int:
    """Save the job without it; `undo` takes that back.

    Raises:
        FastenError: the job has no such mount point or run, or cannot be read or saved.
    """
    from fasten.commands._changes import change

    def without(job: "Job", tables: "Tables") -> "tuple[Job, Done]":
        from fasten.job.change import removed
        from fasten.report.job.done import Done

        left, notes = removed(job, args.mount, tables)
        return left, Done(f"{args.mount} is out of the job; fasten undo takes it back", args.mount, notes=notes)

    return change(args, without)
