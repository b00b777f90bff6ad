"""A document as CSV: its sections one under the other, every cell made harmless to a spreadsheet."""

import csv
import re
from io import StringIO

from fasten.report.forms.document import Document, Section
from fasten.report.safe import safe
from fasten.text.letters import JOINERS

# What a spreadsheet takes for the beginning of a formula, full-width forms and the minus sign among them.
FORMULA = frozenset("=+-@＝＋－＠−\t\r\n")
DEFUSED = "'"
_UNSEEN = f" \u00a0\u200b\ufeff{JOINERS}"
# Where commas are decimals, a spreadsheet takes a semicolon for the end of a cell, whatever stands in quotes.
_AFTER_SEMICOLON = re.compile(rf"(;[\s\"'{JOINERS}]*)(?=[{re.escape(''.join(FORMULA))}])")


def document_csv(document: Document) -> str:
    """The document as rows: title, what is said first, then each section with its heading and its own columns."""
    text = StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow([defused(document.title)])
    writer.writerows([defused(sentence)] for sentence in document.lead)
    for section in document.sections:
        writer.writerow([])
        writer.writerow([defused(section.heading)])
        if section.columns:
            writer.writerow([defused(column.title) for column in section.columns])
        writer.writerows([defused(cell) for cell in row] for row in section.rows)
        writer.writerows(_notes(section))
    return text.getvalue()


def _notes(section: Section) -> list[list[str]]:
    """The notes, each a row, with its number where they are numbered."""
    if section.numbered:
        return [[str(count), defused(note)] for count, note in enumerate(section.notes, start=1)]
    return [[defused(note)] for note in section.notes]


def defused(cell: str) -> str:
    """The cell, with an apostrophe before whatever a spreadsheet would take as a formula, behind spaces and ; too."""
    plain = _AFTER_SEMICOLON.sub(rf"\1{DEFUSED}", safe(cell))
    begins = {cell[:1], cell.lstrip(_UNSEEN)[:1], plain.lstrip()[:1]} - {""}
    return DEFUSED + plain if begins & FORMULA else plain
