"""`fasten hardware JOB`: everything that has to be in the box, each thing once with where it goes."""

import argparse


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument("job", metavar="JOB", help="the file of the job")
    parser.add_argument("--shelf", default="", metavar="FILE", help="what is at hand already")
    parser.add_argument(
        "--format",
        choices=("text", "csv", "md", "html"),
        default="",
        help="how it is written; else as the file that --out names ends",
    )
    parser.add_argument("--ids", action="store_true", help="with the id of each line, for pack")
    parser.add_argument("--json", action="store_true", help="print JSON")
    parser.add_argument("--out", default="", metavar="FILE", help="write it to this file or into this folder")
    parser.add_argument("--force", action="store_true", help="replace the file that is there")


def run(args: argparse.Namespace) -> int:
    """Print or write the list, with the mount points that are not on it, since nothing fits there.

    Raises:
        FastenError: job or shelf cannot be read, or the list cannot be written.
    """
    from fasten.commands._documents import answered, document_name, form_of, put, read_job, read_shelf, text_width
    from fasten.commands._tables import open_tables
    from fasten.job.list.hardware import hardware

    form, tables = form_of(args), open_tables()
    job = read_job(args, tables)
    shelf = read_shelf(args, tables)
    listed = hardware(job, answered(job, shelf, tables), shelf, tables)
    name = document_name(args, job, "hardware")
    if form == "json":
        from fasten.report.job.hardware_json import hardware_json
        from fasten.report.plain import json_text

        text = json_text(hardware_json(listed))
        put(f"{text}\n", args, name, "json")
    else:
        from fasten.report.forms.written import written
        from fasten.report.job.hardware import hardware_document, with_ids

        document = with_ids(hardware_document(listed)) if args.ids else hardware_document(listed)
        put(written(document, form, text_width()), args, name, form)
    return 0
