"""`fasten work JOB [MOUNT …]`: the work sheet, mount point by mount point in order of work, with bag labels."""

import argparse
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fasten.catalog.tables import Tables
    from fasten.job.entry import Entry
    from fasten.job.gauge.words import MeasuringPass
    from fasten.job.words import Job, Shelf
    from fasten.job.work import WorkSheet


def arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the options."""
    parser.add_argument("job", metavar="JOB", help="the file of the job")
    parser.add_argument(
        "mount", nargs="*", metavar="MOUNT", help="only these mount points and runs, by name, in this order"
    )
    ticks = {"tick": "a step is done, or a hole is made", "untick": "it is not, after all"}
    for name, summary in ticks.items():
        help_ = f"{summary}: its number on the sheet, such as 5, 5.3 for hole 3 of it, or before.1; may be repeated"
        parser.add_argument(f"--{name}", action="append", default=[], metavar="STEP", help=help_)
    visit = "a return visit, to these or all: what comes off first, what to renew and buy, how tight again"
    parser.add_argument("--visit", nargs="*", default=None, metavar="MOUNT", help=visit)
    parser.add_argument("--shelf", default="", metavar="FILE", help="what is at hand already")
    parser.add_argument(
        "--format",
        choices=("text", "csv", "md", "html"),
        default="",
        help="how it is written; else as the file that --out names ends",
    )
    pages = "in HTML a page for each mount point too; without names a few pages for all of them"
    parser.add_argument("--pages", action="store_true", help=pages)
    parser.add_argument("--json", action="store_true", help="print JSON")
    parser.add_argument("--out", default="", metavar="FILE", help="write it to this file or into this folder")
    parser.add_argument("--force", action="store_true", help="replace the file that is there")


def run(args: argparse.Namespace) -> int:
    """Print or write the sheet, with what is ticked saved before, and why nothing fits where nothing does.

    Raises:
        FastenError: job or shelf cannot be read, a mount point or step is not there, or job or sheet cannot be written.
    """
    from fasten.commands._documents import document_name, form_of, put, text_width
    from fasten.commands._progress import progress

    form = form_of(args)
    job, shelf, tables = _asked(args)
    if args.visit is not None:
        return _visit(args, job, shelf, tables, form)
    sheet = _sheet(args, job, shelf, tables)
    name = document_name(args, job, "work")
    if form == "json":
        from fasten.report.job.work_json import work_json
        from fasten.report.plain import json_text

        text = json_text(work_json(sheet, None if args.mount else _measuring(job, shelf, sheet, tables)))
        put(f"{text}\n", args, name, "json")
    elif form == "html" and not (args.pages or args.mount):
        from fasten.report.paper.work_sheet import work_sheet_html

        put(work_sheet_html(sheet, _measuring(job, shelf, sheet, tables)), args, name, "html")
    else:
        from fasten.report.forms.written import written
        from fasten.report.job.work import work_document

        measuring = None if args.mount else _measuring(job, shelf, sheet, tables)
        if form == "text" and not args.out:
            _print_pages(sheet, measuring)
            return 0
        width = text_width()
        with progress("drawing sections") as step:
            document = work_document(sheet, width, step, measuring)
        put(written(document, form, width), args, name, form)
    return 0


def _print_pages(sheet: "WorkSheet", measuring: "MeasuringPass | None") -> None:
    """Print each page as soon as it is drawn; on a terminal they are seen to come, and nothing need say how far."""
    import sys

    from fasten.commands._documents import text_width
    from fasten.commands._progress import progress
    from fasten.progress import unseen
    from fasten.report.forms.as_text import text_pieces
    from fasten.report.job.work import work_lead, work_sections, work_title

    width = text_width()
    with progress("drawing sections") as seen:
        sections = work_sections(sheet, width, unseen if sys.stdout.isatty() else seen, measuring)
        for piece in text_pieces(work_title(sheet), work_lead(sheet), sections, width):
            print(piece, end="")


def _visit(args: argparse.Namespace, job: "Job", shelf: "Shelf | None", tables: "Tables", form: str) -> int:
    """Print or write the sheet of a return visit."""
    from fasten.commands._documents import answered, document_name, put, text_width
    from fasten.job.after.visit import visit_sheet
    from fasten.job.choices import Choice
    from fasten.job.edit import find_mount
    from fasten.job.wiring.ways import left_out_at
    from fasten.report.forms.written import written
    from fasten.report.job.visit import visit_document, visit_json
    from fasten.report.plain import json_text

    names = tuple(find_mount(job, name).name for name in (*args.mount, *args.visit))
    found = tuple(one for one in answered(job, shelf, tables) if isinstance(one, Choice))
    if left := [name for name in names if name not in {one.name for one in found}]:
        raise left_out_at(left[0])
    sheet, name = visit_sheet(job, found, names, shelf, tables), document_name(args, job, "visit")
    if form == "json":
        put(f"{json_text(visit_json(sheet))}\n", args, name, "json")
    else:
        put(written(visit_document(sheet), form, text_width()), args, name, form)
    return 0


def _measuring(job: "Job", shelf: "Shelf | None", sheet: "WorkSheet", tables: "Tables") -> "MeasuringPass | None":
    """What is still to be measured, where something of the sheet is not proven."""
    if all(entry.plan is not None and entry.plan.proven for entry in sheet.entries):
        return None
    from fasten.commands._progress import progress
    from fasten.job.gauge.gauge import measuring_pass
    from fasten.job.shelf.owned import owned_of

    with progress("finding what to measure") as step:
        return measuring_pass(job, tables, owned_of(shelf, tables), step=step)


def _asked(args: argparse.Namespace) -> "tuple[Job, Shelf | None, Tables]":
    """Job and shelf, with what is ticked saved."""
    from fasten.commands._documents import read_job, read_shelf
    from fasten.commands._tables import open_tables

    tables = open_tables()
    shelf = read_shelf(args, tables)
    job = _ticked(args, shelf, tables) if args.tick or args.untick else read_job(args, tables)
    return job, shelf, tables


def _sheet(args: argparse.Namespace, job: "Job", shelf: "Shelf | None", tables: "Tables") -> "WorkSheet":
    from fasten.commands._documents import answered
    from fasten.commands._progress import progress
    from fasten.job.store.job_toml import same_name
    from fasten.job.work import work_sheet

    found = answered(job, shelf, tables)
    if args.mount:
        named = {same_name(entry.name): entry for entry in found}
        found = tuple(dict.fromkeys(named.get(same_name(name)) or _mount(job, name, named) for name in args.mount))
    with progress("laying out the work") as step:
        return work_sheet(job, found, shelf, tables, step)


def _ticked(args: argparse.Namespace, shelf: "Shelf | None", tables: "Tables") -> "Job":
    """The job with what is ticked, saved; what that was is said on stderr."""
    from pathlib import Path

    from fasten.commands._documents import answered
    from fasten.commands._jobs import change_job
    from fasten.commands._streams import say
    from fasten.errors import FastenError
    from fasten.job.tick_by import with_ticks

    if len(args.mount) > 1:
        raise FastenError("several mount points are named", where="tick", fix="tick the steps of one at a time")
    said: tuple[str, ...] = ()

    def change(job: "Job") -> "Job":
        nonlocal said
        found = answered(job, shelf, tables)
        changed, said = with_ticks(job, found, "".join(args.mount), args.tick, args.untick, tables)
        return changed

    _, saved = change_job(Path(args.job), tables, change)
    say(f"ticked in {args.job}: {', '.join(said)}")
    return saved


def _mount(job: "Job", name: str, named: "dict[str, Entry]") -> "Entry":
    """The entry of a mount point by its name; raises FastenError with the nearest names, or why it is left out."""
    from fasten.job.edit import find_mount
    from fasten.job.store.job_toml import same_name
    from fasten.job.wiring.ways import left_out_at

    mount = find_mount(job, name)
    if same_name(mount.name) not in named:
        raise left_out_at(mount.name)
    return named[same_name(mount.name)]
