"""What of a job can be put on paper: each kind of document as text, beside the job's own file."""

import os
from collections.abc import Callable
from pathlib import Path

from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.after.visit import visit_sheet
from fasten.job.choices import Choice
from fasten.job.entries import entries, mount_choice
from fasten.job.entry import Entry
from fasten.job.gauge.gauge import measuring_pass
from fasten.job.list.hardware import hardware
from fasten.job.names import own_file_name, papers_of
from fasten.job.shelf.owned import owned_of
from fasten.job.shelf.reels import with_reels
from fasten.job.store.files import make_folder, write_file
from fasten.job.wiring.ways import left_out_at
from fasten.job.words import Job, Mount, Shelf
from fasten.job.work import work_sheet
from fasten.record import record
from fasten.report.forms.document import Document
from fasten.report.forms.written import written
from fasten.report.job.hardware import hardware_document
from fasten.report.job.visit import visit_document
from fasten.report.job.work import work_document
from fasten.report.paper.work_sheet import work_sheet_html
from fasten.report.template import written as template
from fasten.report.template.sheet import sheet_for
from fasten.tui.state.long_work import LongWork

WIDTH = 80  # of documents as text
_ENDINGS = {"text": "txt"}


@record
class Source:
    """What a document is made of; `file` is what the job's own file is called, which names a job without a title."""

    job: Job
    mount: Mount | None
    shelf: Shelf | None
    tables: Tables
    file: str = "job"


@record
class Paper:
    """One kind of document: what it is called, what its file is called after the job's name, and how it is made."""

    title: str
    suffix: str
    format: str
    make: Callable[[Source, str, LongWork], str]


def content(paper: Paper, source: Source, work: LongWork) -> bytes:
    """A document as its file holds it.

    Raises: FastenError if it cannot be made, Stopped once the work is.
    """
    # A spreadsheet takes a CSV for UTF-8 only where the mark of it stands first.
    return paper.make(source, paper.format, work).encode("utf-8-sig" if paper.format == "csv" else "utf-8")


def put(paper: Paper, source: Source, content: bytes, folder: Path) -> Path:
    """Write a document into a folder under a name that nothing has there; where it is.

    Raises: FastenError if it cannot be written.
    """
    stem = f"{_file_name(paper, source)}-{paper.suffix}"
    ending = _ENDINGS.get(paper.format, paper.format)
    names = (f"{stem}.{ending}", *(f"{stem}-{number}.{ending}" for number in range(2, 1000)))
    path = next(path for name in names if not os.path.lexists(path := folder / name))
    make_folder(folder)
    write_file(path, content, None)
    return path


def _file_name(paper: Paper, source: Source) -> str:
    if paper.make is _template and source.mount is not None:
        return own_file_name(source.mount.name, (mount.name for mount in source.job.mounts))
    return papers_of(source.job, source.file)


def _sheet(source: Source, _format: str, work: LongWork) -> str:
    found = _answered(source, work)
    sheet = work_sheet(source.job, found, source.shelf, source.tables, work.steps("Work"))
    is_open = any(entry.plan is None or not entry.plan.proven for entry in sheet.entries)
    owned, steps = owned_of(source.shelf, source.tables), work.steps("Measuring")
    measuring = measuring_pass(source.job, source.tables, owned, step=steps) if is_open else None
    return work_sheet_html(sheet, measuring)


def _work(source: Source, format_: str, work: LongWork) -> str:
    found = _answered(source, work)
    sheet = work_sheet(source.job, found, source.shelf, source.tables, work.steps("Work"))
    return _text(work_document(sheet, WIDTH, work.steps("Sections")), format_)


def _visit(source: Source, format_: str, work: LongWork) -> str:
    return _visited((), source, format_, work)


def _visit_here(source: Source, format_: str, work: LongWork) -> str:
    if source.mount is None:
        raise FastenError("no mount point is in hand", where="visit", fix="go to one first")
    return _visited((source.mount.name,), source, format_, work)


def _visited(names: tuple[str, ...], source: Source, format_: str, work: LongWork) -> str:
    found = tuple(one for one in _answered(source, work) if isinstance(one, Choice))
    if left := [name for name in names if name not in {one.name for one in found}]:
        raise left_out_at(left[0])
    return _text(visit_document(visit_sheet(source.job, found, names, source.shelf, source.tables)), format_)


def _hardware(source: Source, format_: str, work: LongWork) -> str:
    listed = hardware(source.job, _answered(source, work), source.shelf, source.tables)
    return _text(hardware_document(listed), format_)


def _answered(source: Source, work: LongWork) -> tuple[Entry, ...]:
    job = with_reels(source.job, source.shelf, source.tables)
    return entries(job, source.tables, owned_of(source.shelf, source.tables), work.steps("Answers"))


def _text(document: Document, format_: str) -> str:
    return written(document, format_, WIDTH)


def _template(source: Source, form: str, _work: LongWork) -> str:
    if source.mount is None:
        raise FastenError("no mount point is in hand", where="template", fix="go to one first")
    found = mount_choice(source.mount, source.job, source.tables, owned_of(source.shelf, source.tables))
    if found.answer is None or found.point is None:
        raise FastenError(found.reason, where=source.mount.name, fix="change it until something fits")
    if found.answer.proposal.joint.hole is None:
        raise FastenError("no hole is drilled here", where=source.mount.name, fix="take another mount point")
    return template.written(sheet_for(found.answer, found.point, source.mount.name, repairs=found.repairs), form)


PAPERS = (
    Paper("work sheet to print, two pages, HTML", "work", "html", _sheet),
    Paper("work sheet with a page for each mount point, HTML", "pages", "html", _work),
    Paper("work sheet, plain text", "work", "text", _work),
    Paper("drilling template of this mount point in tiles for A4 or Letter, HTML", "template", "html", _template),
    Paper("drilling template of this mount point, SVG at 1:1", "template", "svg", _template),
    Paper("drilling template of this mount point for a router or laser, DXF", "template", "dxf", _template),
    Paper("hardware list to print, HTML", "hardware", "html", _hardware),
    Paper("hardware list, plain text", "hardware", "text", _hardware),
    Paper("hardware list for a spreadsheet, CSV", "hardware", "csv", _hardware),
    Paper("hardware list, Markdown", "hardware", "md", _hardware),
    Paper("return visit to this mount point: what comes off, to renew and buy, HTML", "visit", "html", _visit_here),
    Paper("return visit to this mount point, plain text", "visit", "text", _visit_here),
    Paper("return visit to all of them, HTML", "visit", "html", _visit),
    Paper("return visit to all of them, plain text", "visit", "text", _visit),
)
