"""`fasten move JOB MOUNT PLACE`: another place in the order of the job."""

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
    parser.add_argument("place", metavar="PLACE", help="its place from now on, 1 for the first")


def run(args: argparse.Namespace) -> int:
    """Save the new order.

    Raises:
        FastenError: the job has no such mount point or place, or cannot be read or saved.
    """
    from fasten.commands._changes import change

    def moved(job: "Job", _tables: "Tables") -> "tuple[Job, Done]":
        from fasten.job.change import moved as move
        from fasten.job.change import read_place
        from fasten.job.edit import find_mount
        from fasten.report.job.done import Done

        name, place = find_mount(job, args.mount).name, read_place(args.place)
        return move(job, name, place), Done(f"{name} is at place {place} now", name)

    return change(args, moved)
