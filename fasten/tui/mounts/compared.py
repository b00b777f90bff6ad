"""Proposals side by side: in columns where there is room for them, else one under the other, label by label."""

from itertools import zip_longest

from fasten.report.forms.document import Document, Section
from fasten.report.wrap import wrapped

_LABEL, _GAP = 9, 2
_LEAST = 20  # columns a proposal needs to be read beside another


def compared(document: Document, width: int) -> str:
    """The sections of a comparison as text of at most `width` columns."""
    lines = [line for sentence in document.lead for line in wrapped(sentence, width)]
    for section in document.sections:
        count = len(section.columns) - 1
        each = (width - _LABEL) // count - _GAP
        lines += _in_columns(section, each) if each >= _LEAST else _one_under_the_other(section, width)
    return "\n".join(lines)


def _in_columns(section: Section, each: int) -> list[str]:
    lines: list[str] = []
    for row in (tuple(column.title for column in section.columns), *section.rows):
        cells = [wrapped(cell, each) for cell in row[1:]]
        for at, line in enumerate(zip_longest(*cells, fillvalue="")):
            label = row[0] if at == 0 else ""
            lines.append(f"{label:{_LABEL}}{''.join(f'{cell:{each + _GAP}}' for cell in line)}".rstrip())
    return lines


def _one_under_the_other(section: Section, width: int) -> list[str]:
    lines: list[str] = []
    for label, *cells in section.rows:
        lines.append(label)
        for column, cell in zip(section.columns[1:], cells, strict=True):
            lines += wrapped(cell, width, first=f"  {column.title} ", rest="    ")
    return lines
