"""`fasten copy JOB MOUNT`: the same again, as far as it belongs to the item and to what it is on."""

import argparse
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fasten.catalog.tables import Tables
    from fasten.job.words import Job
    from fasten.report.job.done import Done


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    from fasten.commands._changes import of_mount

    of_mount(parser)
    parser.add_argument("--as", dest="as_", default="", metavar="NAME", help="what the copy is called; else a number")


def run(args: argparse.Namespace) -> int:
    """Save the copy, and say what of it is to be measured again.

    Raises:
        FastenError: the job has no such mount point, or the name already; or it cannot be read or saved.
    """
    from fasten.commands._changes import change

    def copied(job: "Job", _tables: "Tables") -> "tuple[Job, Done]":
        from fasten.job.start.same import copied as copy
        from fasten.report.job.copied import of_copy

        found = copy(job, args.mount, args.as_)
        return found.job, of_copy(found, args.mount)

    return change(args, copied)
