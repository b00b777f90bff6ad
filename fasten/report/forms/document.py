"""A document as headings, tables and notes, so that text, CSV, Markdown and HTML are each written once.

Whatever a person reads is built as one of these; a format never knows what it is about.
"""

from collections.abc import Callable

from fasten.record import record, replace


@record
class Column:
    """A column of a table; `figures` stand at its right."""

    title: str
    figures: bool = False


@record
class Section:
    """A heading, a drawing and a table under it (no columns: none), then notes.

    The first cell of a row names what the row is of. A section of `level` 3 belongs to the one of 2 before it. One
    that begins a `page` does so on paper; what is `loud` is seen first; `numbered` notes are done in their order;
    rows on `cards` are cut out of the paper, each on its own. A `drawing` is lines that stay as they are; `svg` draws
    the same for HTML, put there as it is: never anything but what the program drew. Where the columns have no room,
    a row is written as `lines` of its own instead, the first of them what it is of; with none, by its columns' titles.
    `keys` find what the rows are of again, where they are of lines that can be packed.
    """

    heading: str
    columns: tuple[Column, ...] = ()
    rows: tuple[tuple[str, ...], ...] = ()
    notes: tuple[str, ...] = ()
    level: int = 2
    page: bool = False
    loud: bool = False
    numbered: bool = False
    cards: bool = False
    drawing: tuple[str, ...] = ()
    svg: Callable[[], str] | None = None
    lines: tuple[tuple[str, ...], ...] = ()
    keys: tuple[str, ...] = ()

    def __hash__(self) -> int:
        return hash((self.heading, len(self.notes), len(self.rows), len(self.drawing)))  # all its texts take long


@record
class Document:
    """A title, what is said first, and the sections."""

    title: str
    lead: tuple[str, ...]
    sections: tuple[Section, ...]


def shown(section: Section) -> Section:
    """The section without the columns that say nothing in any row."""
    if not section.columns:
        return section
    kept = [at for at in range(len(section.columns)) if at == 0 or any(row[at] for row in section.rows)]
    rows = tuple(tuple(row[at] for at in kept) for row in section.rows)
    return replace(section, columns=tuple(section.columns[at] for at in kept), rows=rows)


def in_words(section: Section) -> tuple[tuple[str, ...], ...]:
    """Each row of a section in lines: what it is of, then what is said of it."""
    if section.lines:
        return section.lines
    section = shown(section)
    titles = [column.title.lower() for column in section.columns[1:]]
    cells = [[f"{title} {cell}" for title, cell in zip(titles, row[1:], strict=True) if cell] for row in section.rows]
    return tuple((row[0], *(["; ".join(said)] if said else [])) for row, said in zip(section.rows, cells, strict=True))
