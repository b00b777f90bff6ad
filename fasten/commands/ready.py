"""`fasten ready JOB`: whether the job can begin, or what is missing and what that stops."""

import argparse


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument("job", metavar="JOB", help="the file of the job")
    parser.add_argument("--shelf", default="", metavar="FILE", help="what is at hand already")
    parser.add_argument("--json", action="store_true", help="print JSON")


def run(args: argparse.Namespace) -> int:
    """Print the verdict; 0 where the job is ready, 1 where it is not.

    Raises:
        FastenError: job or shelf cannot be read.
    """
    from fasten.commands._documents import answered, read_job, read_shelf, text_width
    from fasten.commands._tables import open_tables
    from fasten.job.assumed import assumed
    from fasten.job.list.hardware import hardware
    from fasten.job.ready import ready_of

    tables = open_tables()
    job = read_job(args, tables)
    shelf = read_shelf(args, tables)
    found = answered(job, shelf, tables)
    listed = hardware(job, found, shelf, tables)
    verdict = ready_of(job, listed, found, tables, assumed(found))
    if args.json:
        from fasten.report.job.hardware_json import ready_json
        from fasten.report.plain import json_text

        print(json_text(ready_json(verdict)))
    else:
        from fasten.report.forms.written import written
        from fasten.report.job.hardware import ready_document

        print(written(ready_document(verdict), "text", text_width()), end="")
    return 0 if verdict.ready else 1
