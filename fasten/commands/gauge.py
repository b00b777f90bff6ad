"""`fasten gauge JOB`: one measuring pass, with the fewest gauges after which every mount point keeps its answer."""

import argparse
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fasten.catalog.tables import Tables
    from fasten.job.gauge.gauge import Within
    from fasten.job.gauge.words import MeasuringPass
    from fasten.job.words import Job, Shelf


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument("job", metavar="JOB", help="the file of the job")
    parser.add_argument("--shelf", default="", metavar="FILE", help="what is at hand already")
    parser.add_argument(
        "--within", default="", metavar="MM", help="how much more a gauge may ask: '5 mm, 10 mm' behind and to an edge"
    )
    parser.add_argument(
        "--tick", action="append", default=[], metavar="MOUNT[: FIELD]", help="it went as it should; or all"
    )
    parser.add_argument(
        "--stopped", action="append", default=[], metavar="MOUNT: FIELD = READ",
        help="it did not, and what was read: 'left amplifier: behind = 14 mm'",
    )  # fmt: skip
    of = "how it is written; else as the file that --out names ends"
    parser.add_argument("--format", choices=("text", "csv", "md", "html"), default="", help=of)
    parser.add_argument("--json", action="store_true", help="print JSON")
    parser.add_argument("--out", default="", metavar="FILE", help="write it to this file or into this folder")
    parser.add_argument("--force", action="store_true", help="replace the file that is there")


def run(args: argparse.Namespace) -> int:
    """Print or write the pass, after what was found is kept; 1 where no measuring settles a mount point.

    Raises:
        FastenError: job or shelf cannot be read, what was found names no mark, or the job cannot be saved.
    """
    from fasten.commands._documents import document_name, form_of, put, read_job, read_shelf, text_width
    from fasten.commands._tables import open_tables

    form, tables = form_of(args), open_tables()
    shelf, within = read_shelf(args, tables), _within(args.within, tables)
    job = _kept(args, shelf, within, tables) if args.tick or args.stopped else read_job(args, tables)
    found = _found(job, shelf, within, tables)
    name = document_name(args, job, "gauge")
    if form == "json":
        from fasten.report.job.gauge import gauge_json
        from fasten.report.plain import json_text

        put(f"{json_text(gauge_json(found))}\n", args, name, "json")
    else:
        from fasten.report.forms.written import written
        from fasten.report.job.gauge import gauge_document

        put(written(gauge_document(found), form, text_width()), args, name, form)
    return 1 if found.unresolved else 0


def _kept(args: argparse.Namespace, shelf: "Shelf | None", within: "Within", tables: "Tables") -> "Job":
    """The job with what was found at the car, saved."""
    from pathlib import Path

    from fasten.commands._jobs import change_job
    from fasten.job.gauge.ticks import stopped, ticked

    def change(job: "Job") -> "Job":
        found = _found(job, shelf, within, tables)
        for wanted in args.tick:
            job = ticked(job, found, wanted)
        for wanted in args.stopped:
            job = stopped(job, found, wanted, tables)
        return job

    return change_job(Path(args.job), tables, change)[1]


def _found(job: "Job", shelf: "Shelf | None", within: "Within", tables: "Tables") -> "MeasuringPass":
    from fasten.commands._progress import progress
    from fasten.job.gauge.gauge import measuring_pass
    from fasten.job.shelf.owned import owned_of

    with progress("finding what to measure") as step:
        return measuring_pass(job, tables, owned_of(shelf, tables), within, step)


def _within(text: str, tables: "Tables") -> "Within":
    """What is said, one length for both or two with a comma between; the usual where nothing is.

    Raises:
        FastenError: it is no length, or more than two.
    """
    import re

    from fasten.errors import FastenError
    from fasten.job.gauge.gauge import usual_within
    from fasten.record import replace
    from fasten.text.units import Dimension, read

    usual = usual_within(tables)
    if not text.strip():
        return usual
    said = re.split(r",(?![0-9])|;", text)
    if len(said) > 2:
        raise FastenError(f"'{text[:40]}' is more than two lengths", where="within", fix="write such as '5 mm, 10 mm'")
    behind, edge = (read(one.strip(), Dimension.LENGTH, "within", allow_zero=True) for one in (said[0], said[-1]))
    return replace(usual, behind_mm=behind, edge_mm=edge)
