"""A document as Markdown; nothing in it is taken for Markdown or HTML."""

import re
from collections.abc import Iterable, Iterator
from functools import lru_cache

from fasten.report.forms.document import Document, Section, shown
from fasten.report.safe import safe

# Some readers make a link of whatever looks like an address: a slash before another, a dot between letters.
_MEANS_SOMETHING = re.compile(r"([\\`*_\[\]#!|~^$@]|/(?=/)|(?<=\w)\.(?=[^\W\d]))")
_BEGINS_SOMETHING = re.compile(r"^(\s*)([-+=>]|\d+(?=[.)](?:\s|$)))")
_MOST_KEPT = 4096  # texts: sheets repeat themselves
_HTML = {"&": "&amp;", "<": "&lt;", ">": "&gt;"}


def document_md(document: Document) -> str:
    """The document as headings, tables and lists."""
    lines = [f"# {escaped(document.title)}", ""]
    for sentence in document.lead:
        lines += [escaped(sentence), ""]
    for section in document.sections:
        lines += [f"{'#' * section.level} {escaped(section.heading)}", "", *_body(shown(section))]
    return "\n".join(lines).rstrip("\n") + "\n"


@lru_cache(_MOST_KEPT)
def escaped(text: str) -> str:
    """The text as Markdown that shows just this text."""
    plain = "".join(_HTML.get(char, char) for char in _MEANS_SOMETHING.sub(r"\\\1", safe(text)))
    found = _BEGINS_SOMETHING.match(plain)
    if found is None:
        return plain
    # A number begins a list by what follows it, so that is what is escaped.
    at = found.end() if found[2].isdigit() else found.start(2)
    return f"{plain[:at]}\\{plain[at:]}"


def _body(section: Section) -> Iterator[str]:
    if section.drawing:
        yield from (f"    {safe(line)}".rstrip() for line in section.drawing)
        yield ""
    if section.rows:
        yield _row(column.title for column in section.columns)
        yield "|" + "|".join(" ---: " if column.figures else " --- " for column in section.columns) + "|"
        yield from (_row(row) for row in section.rows)
        yield ""
    if section.notes:
        yield from (
            f"{_mark(section, count)} {_said(section, note)}" for count, note in enumerate(section.notes, start=1)
        )
        yield ""


def _mark(section: Section, count: int) -> str:
    return f"{count}." if section.numbered else "-"


def _said(section: Section, note: str) -> str:
    return f"**{escaped(note.strip())}**" if section.loud and note.strip() else escaped(note)


def _row(cells: Iterable[str]) -> str:
    return "| " + " | ".join(escaped(cell) for cell in cells) + " |"
