"""Text that means harm, in every name, note and table, through every way out: none of it arrives raw.

What is raw differs. For a terminal it is a character that moves, hides or turns something round: every line must be
printable. For a spreadsheet it is a cell that begins a formula, at commas and at semicolons; for Markdown, HTML and SVG
it is anything that makes another element than harmless text in its place makes, as read by a parser of each. JSON holds
the text itself, in ASCII. Jobs here are invented, and hold what no job file may: that is one more thing to test.
"""

import csv
import json
from collections.abc import Iterator
from functools import cache
from io import StringIO
from typing import Any

import pytest

from fasten.advice.advise import advise
from fasten.catalog.tables import builtin
from fasten.job.choices import choices
from fasten.job.list.hardware import hardware
from fasten.job.ready import ready
from fasten.job.shelf.owned import owned_of
from fasten.job.shelf.substitute import instead, missing_screw, on_shelf, others_on_shelf
from fasten.job.sizes.offers import fewest_sizes
from fasten.job.work import work_sheet
from fasten.question.read import read_question
from fasten.question.resolve import resolve
from fasten.report.forms.document import Document
from fasten.report.forms.written import written
from fasten.report.job.built import built_json, built_text
from fasten.report.job.fewest import fewest_document, fewest_json
from fasten.report.job.hardware import hardware_document, ready_document
from fasten.report.job.hardware_json import hardware_json, ready_json
from fasten.report.job.instead import Instead, instead_document, instead_json
from fasten.report.job.work import work_document
from fasten.report.job.work_json import work_json
from fasten.report.plain import json_text
from fasten.report.section.svg import section_svg
from fasten.report.template.svg import sheet_for, template_svg

from .hostile import (
    PLAIN,
    SAID,
    elements_html,
    elements_md,
    elements_svg,
    every_text,
    hostile,
    job_of,
    printable,
    shelf_of,
)

pytestmark = pytest.mark.slow


class Worked:
    """What a job that holds this text is worked out to, before it is shown."""

    def __init__(self, text: str) -> None:
        job, shelf, tables = job_of(text), shelf_of(text), builtin()
        found = choices(job, tables, owned_of(shelf, tables))
        self.listed = hardware(job, found, shelf, tables)
        self.ready = ready(self.listed, found)
        self.sheet = work_sheet(job, found, shelf, tables)
        self.fewest = fewest_sizes(found, tables)
        self.told = told(text)


worked = cache(Worked)


@cache
def documents(text: str, width: int = 80) -> dict[str, Document]:
    """Every document of a job that holds this text."""
    found = worked(text)
    return {
        "hardware": hardware_document(found.listed),
        "ready": ready_document(found.ready),
        "work": work_document(found.sheet, width),
        "fewest": fewest_document(found.fewest),
        "instead": instead_document(found.told),
    }


def told(text: str) -> Instead:
    """What does instead of the screw of the first mount point."""
    job, shelf, tables = job_of(text), shelf_of(text), builtin()
    asked = choices(job, tables)[0]
    assert asked.answer is not None
    return Instead(
        mount=asked.name, title=asked.answer.title, wanted=missing_screw(asked, tables), behind_mm=40.0,
        found=instead(asked, on_shelf(asked, shelf, tables), tables), others=others_on_shelf(asked, shelf, tables),
        reason=text,
    )  # fmt: skip


def plain_data(text: str) -> Iterator[Any]:
    """What a job that holds this text is to another program."""
    found = worked(text)
    yield hardware_json(found.listed)
    yield ready_json(found.ready)
    yield work_json(found.sheet)
    yield fewest_json(found.fewest)
    yield instead_json(found.told)
    yield built_json(job_of(text).mounts[0])


def pages(text: str, format_: str) -> dict[str, str]:
    return {name: written(document, format_, 80) for name, document in documents(text).items()}


@hostile
def test_text_moves_no_cursor(text: str) -> None:
    for width in (44, 80):
        for document in documents(text).values():
            printable(written(document, "text", width))
    printable(built_text(job_of(text).mounts[0]))


@hostile
def test_csv_begins_no_formula_at_commas_or_semicolons(text: str) -> None:
    for page in pages(text, "csv").values():
        printable(page.replace("\r\n", "\n"))
        for separator in ",;":
            for row in csv.reader(StringIO(page, newline=""), delimiter=separator):
                assert not [cell for cell in row if begins_formula(cell)]


def begins_formula(cell: str) -> bool:
    return cell.lstrip(' \t\r\n"\u00a0')[:1] in tuple("=+-@＝＋－＠−")


@hostile
def test_html_has_no_other_elements(text: str) -> None:
    plain = pages(PLAIN, "html")
    for name, page in pages(text, "html").items():
        printable(page)
        assert elements_html(page) == elements_html(plain[name])


@hostile
def test_markdown_has_no_other_elements(text: str) -> None:
    plain = pages(PLAIN, "md")
    for name, page in pages(text, "md").items():
        printable(page)
        assert elements_md(page) == elements_md(plain[name])


def drawings(text: str) -> tuple[str, str]:
    tables = builtin()
    point = resolve(read_question(SAID, tables), tables)
    answer = advise(point, tables, changes=False).answers[0]
    joint = answer.proposal.joint
    return template_svg(sheet_for(answer, point, text)), section_svg(joint, point.behind_mm, 160.0, text)


@hostile
def test_svg_has_no_other_elements(text: str) -> None:
    for drawn, plain in zip(drawings(text), drawings(PLAIN), strict=True):
        printable(drawn)
        assert elements_svg(drawn) == elements_svg(plain)


@hostile
def test_json_holds_the_text_itself_in_ascii(text: str) -> None:
    for plain in plain_data(text):
        page = json_text(plain)
        assert page.isascii()
        printable(page)
        assert text in every_text(json.loads(page))
