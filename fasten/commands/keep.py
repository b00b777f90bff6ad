"""`fasten keep JOB MOUNT N`: hold answer N of a mount point, by its hardware; without N show the answers by number."""

import argparse
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fasten.catalog.tables import Tables
    from fasten.job.shelf.owned import Owned
    from fasten.job.words import Job
    from fasten.model import Advice
    from fasten.report.job.done import Done

NONE = "none"


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    from fasten.commands._changes import of_mount

    of_mount(parser)
    parser.add_argument("number", nargs="?", default="", metavar="N", help="which answer to hold, 1 …; none lets go")
    parser.add_argument("--shelf", default="", metavar="FILE", help="what is owned: it is preferred")


def run(args: argparse.Namespace) -> int:
    """Save which answer is held, or print the answers side by side; 1 where nothing fits.

    Raises:
        FastenError: the job has no such mount point, or it has no such answer; or the job cannot be read or saved.
    """
    from fasten.commands._changes import change
    from fasten.commands._documents import read_shelf
    from fasten.commands._tables import open_tables
    from fasten.job.shelf.owned import owned_of

    tables = open_tables()
    owned = owned_of(read_shelf(args, tables), tables)
    if not args.number:
        return _shown(args, tables, owned)

    def kept(job: "Job", tables: "Tables") -> "tuple[Job, Done]":
        from fasten.job.keep import kept as keep
        from fasten.job.keep import let_go
        from fasten.report.job.done import Done

        if args.number.casefold() == NONE:
            return let_go(job, args.mount), Done(f"nothing is held for {args.mount}", args.mount)
        now, title = keep(job, args.mount, args.number, tables, owned)
        return now, Done(f"held for {args.mount}: {title}", args.mount)

    return change(args, kept)


def _shown(args: argparse.Namespace, tables: "Tables", owned: "Owned | None") -> int:
    """Print the answers side by side by their numbers."""
    from fasten.commands._documents import read_job, text_width
    from fasten.job.keep import advice_of
    from fasten.report.plain import json_text

    advice: Advice = advice_of(read_job(args, tables), args.mount, tables, owned)
    if args.json:
        from fasten.report.answer.as_json import advice_json

        print(json_text(advice_json(advice)))
    else:
        from fasten.report.answer.compare import compare_document
        from fasten.report.forms.written import written

        print(written(compare_document(advice), "text", text_width()), end="")
    return 0 if advice.answers else 1
