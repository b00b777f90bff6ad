"""A document as CSV: one rectangular table, every cell made harmless to a spreadsheet."""

import csv
import re
from collections.abc import Iterator
from functools import lru_cache
from io import StringIO

from fasten.report.forms.document import Document, Section
from fasten.report.safe import safe
from fasten.text.letters import JOINERS

# What a spreadsheet takes for the beginning of a formula, full-width forms and the minus sign among them.
FORMULA = frozenset("=+-@＝＋－＠−\t\r\n")
DEFUSED = "'"
_MOST_KEPT = 4096  # cells: most rows say nothing in most columns, and sheets repeat themselves
SECTION, WHAT, ID, NOTE = "Section", "What", "Id", "Note"
_UNSEEN = f" \u00a0\u200b\ufeff{JOINERS}"
# Where commas are decimals, a spreadsheet takes a semicolon for the end of a cell, whatever stands in quotes.
_AFTER_SEMICOLON = re.compile(rf"(;[\s\"'{JOINERS}]*)(?=[{re.escape(''.join(FORMULA))}])")


def document_csv(document: Document) -> str:
    """The document as one table: a row for each row and note of its sections, every row with every column.

    Its columns are the section, what the row is of, those of all sections together, the id of a line that can be
    packed, and a note. What is said first stands last, under the title.
    """
    titles = tuple(dict.fromkeys(column.title for section in document.sections for column in section.columns[1:]))
    columns = (SECTION, WHAT, *(title for title in titles if title != ID), ID, NOTE)
    rows = (row for section in document.sections for row in _rows(section))
    lead = ({SECTION: document.title, NOTE: sentence} for sentence in document.lead or ("",))
    text = StringIO()
    writer = csv.writer(text, lineterminator="\r\n")
    writer.writerow(map(defused, columns))
    writer.writerows([defused(row.get(column, "")) for column in columns] for row in (*rows, *lead))
    return text.getvalue()


def _rows(section: Section) -> Iterator[dict[str, str]]:
    """What a section says, each row by the titles of its columns; a note has its number where they are numbered."""
    keys = section.keys or ("",) * len(section.rows)
    for row, key in zip(section.rows, keys, strict=True):
        cells = zip(section.columns[1:], row[1:], strict=True)
        yield {SECTION: section.heading, WHAT: row[0], ID: key, **{column.title: cell for column, cell in cells}}
    for count, note in enumerate(section.notes, start=1):
        yield {SECTION: section.heading, WHAT: str(count) if section.numbered else "", NOTE: note}


@lru_cache(_MOST_KEPT)
def defused(cell: str) -> str:
    """The cell, with an apostrophe before whatever a spreadsheet would take as a formula, behind spaces and ; too."""
    plain = _AFTER_SEMICOLON.sub(rf"\1{DEFUSED}", safe(cell))
    begins = {cell[:1], cell.lstrip(_UNSEEN)[:1], plain.lstrip()[:1]} - {""}
    return DEFUSED + plain if begins & FORMULA else plain
