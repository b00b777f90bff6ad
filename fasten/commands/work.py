"""`fasten work JOB [MOUNT …]`: the work sheet, mount point by mount point in order of work, with bag labels."""

import argparse
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fasten.job.entry import Entry
    from fasten.job.words import Job
    from fasten.job.work import WorkSheet


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument("job", metavar="JOB", help="the file of the job")
    parser.add_argument(
        "mount", nargs="*", metavar="MOUNT", help="only these mount points and runs, by name, in this order"
    )
    parser.add_argument("--shelf", default="", metavar="FILE", help="what is at hand already")
    parser.add_argument("--format", choices=("text", "csv", "md", "html"), default="text", help="how it is written")
    parser.add_argument("--json", action="store_true", help="print JSON")
    parser.add_argument("--out", default="", metavar="FILE", help="write it to this file or into this folder")
    parser.add_argument("--force", action="store_true", help="replace the file that is there")


def run(args: argparse.Namespace) -> int:
    """Print or write the sheet; 1 where nothing fits at a mount point of it.

    Raises:
        FastenError: job or shelf cannot be read, a mount point is not there, or the sheet cannot be written.
    """
    from fasten.commands._documents import put, text_width
    from fasten.commands._progress import progress
    from fasten.job.names import file_name

    sheet = _sheet(args)
    name = f"{file_name(sheet.title or sheet.vehicle)}-work"
    if args.json:
        from fasten.report.job.work_json import work_json
        from fasten.report.plain import json_text

        text = json_text(work_json(sheet))
        put(f"{text}\n", args, name, "json")
    else:
        from fasten.report.forms.written import written
        from fasten.report.job.work import work_document

        width = text_width()
        with progress("drawing sections") as step:
            document = work_document(sheet, width, step)
        put(written(document, args.format, width), args, name, args.format)
    return 1 if any(entry.plan is None for entry in sheet.entries) else 0


def _sheet(args: argparse.Namespace) -> "WorkSheet":
    from fasten.commands._documents import answered, read_job, read_shelf
    from fasten.commands._progress import progress
    from fasten.commands._tables import open_tables
    from fasten.job.store.job_toml import same_name
    from fasten.job.work import work_sheet

    tables = open_tables()
    job, shelf = read_job(args, tables), read_shelf(args, tables)
    found = answered(job, shelf, tables)
    if args.mount:
        named = {same_name(entry.name): entry for entry in found}
        found = tuple(dict.fromkeys(named.get(same_name(name)) or _mount(job, name, named) for name in args.mount))
    with progress("laying out the work") as step:
        return work_sheet(job, found, shelf, tables, step)


def _mount(job: "Job", name: str, named: "dict[str, Entry]") -> "Entry":
    """The entry of a mount point by its name; raises FastenError with the nearest names."""
    from fasten.job.edit import find_mount
    from fasten.job.store.job_toml import same_name

    return named[same_name(find_mount(job, name).name)]
