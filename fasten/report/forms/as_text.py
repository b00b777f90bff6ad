"""A document as plain text of a given width: tables in columns where they fit, else a row as a short paragraph."""

from collections.abc import Iterable, Iterator
from functools import lru_cache

from fasten.report.forms.document import Document, Section, in_words, shown
from fasten.report.safe import safe
from fasten.report.wrap import wrapped

GAP = "  "
_MOST_SHARED = 500
RULE, TOP = "=", 2
MARK = {False: "- ", True: "! "}
_LEAST_LAST = 24  # columns left for the last cell, which is the one that wraps, below which rows become paragraphs


def document_text(document: Document, width: int) -> str:
    """The document in lines of at most `width` columns, ended by a line feed.

    Raises: ValueError for a width of less than 20.
    """
    return "".join(text_pieces(document.title, document.lead, document.sections, width))


def text_pieces(title: str, lead: Iterable[str], sections: Iterable[Section], width: int) -> Iterator[str]:
    """The same piece by piece: what comes first, then each section as soon as it is made.

    Raises: ValueError for a width of less than 20.
    """
    if width < 20:
        raise ValueError(f"width {width}: text needs at least 20 columns")
    yield _ended(line for sentence in (title, *lead) for line in wrapped(sentence, width))
    yield from (
        _own(section, width) if section.page or section.svg else _shared(section, width) for section in sections
    )


def _own(section: Section, width: int) -> str:
    return _ended(section_lines(section, width))


_shared = lru_cache(_MOST_SHARED)(_own)  # pages have sections in common, such as the steps of what is fastened alike


def _ended(lines: Iterable[str]) -> str:
    return "".join(f"{line}\n" for line in lines)


def section_lines(section: Section, width: int) -> list[str]:
    """A section by itself: a blank line, its heading and what stands under it."""
    return [*_heading(section, width), *_body(shown(section), width)]


def _heading(section: Section, width: int) -> list[str]:
    """A blank line and the heading: one that begins a page under a line, one below another in plain letters."""
    over = ["", RULE * width] if section.page else [""]
    heading = section.heading if section.level > TOP and not section.loud else section.heading.upper()
    return [*over, *wrapped(heading, width)]


def _body(section: Section, width: int) -> Iterator[str]:
    yield from map(safe, section.drawing)
    if section.rows:
        yield from _in_columns(section, width) if _fits(section, width) else _as_paragraphs(section, width)
    for count, note in enumerate(section.notes, start=1):
        first = f"{f'{count}.':{len(str(len(section.notes))) + 2}}" if section.numbered else MARK[section.loud]
        yield from wrapped(note, width, first=first, rest=" " * len(first))


def _widths(section: Section) -> list[int]:
    cells = zip(*((column.title for column in section.columns), *section.rows), strict=True)
    return [max(len(safe(cell)) for cell in column) for column in cells]


def _fits(section: Section, width: int) -> bool:
    *firsts, last = _widths(section)
    left = width - sum(firsts) - len(GAP) * len(firsts)
    return left >= min(last, _LEAST_LAST)


def _in_columns(section: Section, width: int) -> Iterator[str]:
    *firsts, _ = _widths(section)
    for row in (tuple(column.title for column in section.columns), *section.rows):
        cells = [
            f"{safe(cell):>{size}}" if column.figures else f"{safe(cell):{size}}"
            for cell, size, column in zip(row, firsts, section.columns, strict=False)
        ]
        start = "".join(cell + GAP for cell in cells)
        if row[-1]:
            yield from wrapped(row[-1], width, first=start, rest=" " * len(start))
        else:
            yield start.rstrip()


def _as_paragraphs(section: Section, width: int) -> Iterator[str]:
    for name, *lines in in_words(section):
        yield from wrapped(name, width, first="- ", rest="  ")
        for line in lines:
            yield from wrapped(line, width, first="    ", rest="      ")
