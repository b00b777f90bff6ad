"""`fasten rename JOB MOUNT NAME`: another name; what names it goes by the new one."""

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
    parser.add_argument("name", metavar="NAME", help="what it is called from now on")


def run(args: argparse.Namespace) -> int:
    """Save the new name.

    Raises:
        FastenError: the job has no such mount point, or the name already; or it cannot be read or saved.
    """
    from fasten.commands._changes import change

    def renamed(job: "Job", tables: "Tables") -> "tuple[Job, Done]":
        from fasten.job.change import renamed as rename
        from fasten.report.job.done import Done

        new = args.name.strip()
        return rename(job, args.mount, new, tables), Done(f"{args.mount} is {new} now", new)

    return change(args, renamed)
