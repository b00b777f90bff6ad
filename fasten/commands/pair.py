"""`fasten pair JOB MOUNT`: the mount point of the other side, left or right, nearside or offside."""

import argparse
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fasten.catalog.tables import Tables
    from fasten.job.words import Job
    from fasten.report.job.done import Done


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    from fasten.commands._changes import of_mount

    of_mount(parser, "a mount point of it whose name says its side")


def run(args: argparse.Namespace) -> int:
    """Save the other side, and say what of it is to be measured again.

    Raises:
        FastenError: the job has no such mount point, its name says no side, or the other side is there already; or the
            job cannot be read or saved.
    """
    from fasten.commands._changes import change

    def paired(job: "Job", _tables: "Tables") -> "tuple[Job, Done]":
        from fasten.job.start.same import paired as pair
        from fasten.report.job.copied import of_copy

        found = pair(job, args.mount)
        return found.job, of_copy(found, args.mount)

    return change(args, paired)
