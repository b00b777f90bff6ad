"""`fasten pack JOB LINE …`: tick lines of the hardware list as packed; without a line show each with its id."""

import argparse
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fasten.catalog.tables import Tables
    from fasten.job.list.lists import HardwareList
    from fasten.job.words import Job, Shelf
    from fasten.report.job.done import Done


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument("job", metavar="JOB", help="the file of the job")
    parser.add_argument("lines", nargs="*", metavar="LINE", help="lines by their ids, as hardware --ids prints them")
    parser.add_argument("--not", dest="not_", action="store_true", help="they are not packed after all")
    parser.add_argument("--shelf", default="", metavar="FILE", help="what is at hand already")
    parser.add_argument("--json", action="store_true", help="print JSON")


def run(args: argparse.Namespace) -> int:
    """Save what is packed, or print every line with its id.

    Raises:
        FastenError: there is no such line, or job or shelf cannot be read or saved.
    """
    from fasten.commands._changes import change
    from fasten.commands._documents import read_shelf
    from fasten.commands._tables import open_tables

    tables = open_tables()
    shelf = read_shelf(args, tables)
    if not args.lines:
        return _shown(args, tables, shelf)

    def packed(job: "Job", tables: "Tables") -> "tuple[Job, Done]":
        from fasten.job.list.pack import packed as pack
        from fasten.report.job.done import Done
        from fasten.report.job.hardware import line_name

        now, lines = pack(job, _listed(job, shelf, tables), args.lines, is_packed_now=not args.not_)
        names = ", ".join(map(line_name, lines))
        return now, Done(f"{'not packed' if args.not_ else 'packed'}: {names}", lines[0].id.text)

    return change(args, packed)


def _listed(job: "Job", shelf: "Shelf | None", tables: "Tables") -> "HardwareList":
    from fasten.commands._documents import answered
    from fasten.job.list.hardware import hardware

    return hardware(job, answered(job, shelf, tables), shelf, tables)


def _shown(args: argparse.Namespace, tables: "Tables", shelf: "Shelf | None") -> int:
    from fasten.commands._documents import read_job, text_width
    from fasten.report.plain import json_text

    listed = _listed(read_job(args, tables), shelf, tables)
    if args.json:
        from fasten.report.job.hardware_json import hardware_json

        print(json_text(hardware_json(listed)))
    else:
        from fasten.report.forms.written import written
        from fasten.report.job.packing import packing_document

        print(written(packing_document(listed), "text", text_width()), end="")
    return 0
