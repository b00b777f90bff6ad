"""The lines of the box: what must be in it, how each thing stands, and what the verdict says of it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import zip_longest
from typing import TYPE_CHECKING

from fasten.record import record
from fasten.tui.drawn.rows import BUY, DONE, HERE, Row, State

if TYPE_CHECKING:
    from fasten.catalog.tables import Tables
    from fasten.job.list.lists import HardwareList
    from fasten.job.list.ticks import Line as Thing
    from fasten.job.list.ticks import Stray
    from fasten.job.words import Shelf
    from fasten.report.forms.document import Document, Section

_EVERYWHERE = "everywhere"
_ON_SHELF_TITLE = "on shelf"
_NAMED = 3  # lines of the shelf that match nothing and are named one by one
_ON_SHELVES = {"yes": "on the shelf", "no": "not on the shelf", "packed": "packed",
               "not known": "not known to be here"}  # fmt: skip
_PACKED = State(DONE, "packed", "good", 2)
_ON_SHELF = State(HERE, "here", "ink", 1)
SHORT = 0  # the rank of what is to buy
_BUY = State(BUY, "buy", "open", SHORT)
_NOT_KNOWN = State(BUY, "not known", "open", SHORT)
_BY_CELL = {"yes": _ON_SHELF, "no": _BUY, "packed": _PACKED, "not known": _NOT_KNOWN}


@record
class Line:
    """One line of the box: what it is found by, what it says and, where it is a thing to pack, which, and its row.

    A tick that is of nothing on the list is a line too, so that it can be taken away.
    """

    key: str
    text: str
    thing: Thing | Stray | None = None
    is_heading: bool = False
    row: Row | None = None

    @property
    def is_thing(self) -> bool:
        """Whether it can be packed."""
        return self.thing is not None


def lines_of_box(document: Document, verdict: Document, listed: HardwareList) -> tuple[Line, ...]:
    """Every thing of the list under its heading, then what the verdict says of each."""
    return (*_things(document, listed), *_findings(verdict))


def in_order(lines: Iterable[Line], ranks: dict[str, int]) -> tuple[Line, ...]:
    """The things of each heading, what is short first, then what is here, then what is packed.

    A thing that is among the `ranks` keeps its place by them, others are put there: a row that is ticked does not move.
    """
    ordered: list[Line] = []
    section: list[Line] = []
    for line in lines:
        if line.row is not None:
            ranks.setdefault(line.key, line.row.state.rank)
            section.append(line)
        else:
            ordered += [*sorted(section, key=lambda thing: ranks[thing.key]), line]
            section = []
    return (*ordered, *sorted(section, key=lambda thing: ranks[thing.key]))


def state_of(thing: Thing | Stray) -> State:
    """How a thing stands: packed, here, to buy, or not known to be here."""
    from fasten.job.list.lists import BitLine, PartLine
    from fasten.job.list.ticks import Stray, is_packed

    if isinstance(thing, Stray) or is_packed(thing):
        return _PACKED
    if isinstance(thing, PartLine):
        return State(BUY, f"buy {thing.to_buy}", "open", SHORT) if thing.to_buy else _ON_SHELF
    if thing.on_shelf or (isinstance(thing, BitLine) and thing.instead):
        return _ON_SHELF
    return _BUY if thing.known else _NOT_KNOWN


def passed_over(shelf: Shelf | None, tables: Tables) -> list[str]:
    """The lines of the shelf that match nothing, or lack something: none of them counts."""
    from fasten.job.shelf.check import troubles

    found = [trouble for trouble in troubles(shelf, tables) if not trouble.taken] if shelf is not None else []
    named = [f"On the shelf, {trouble.error}" for trouble in found[:_NAMED]]
    more = [f"On the shelf, {len(found) - _NAMED} more lines match nothing"] if len(found) > _NAMED else []
    return named + more


def _things(document: Document, listed: HardwareList) -> list[Line]:
    from fasten.job.list.ticks import Stray, lines_of

    things: dict[str, Thing | Stray] = {line.id.text: line for line in lines_of(listed)}
    things |= {tick: Stray(tick) for tick in listed.apart}
    return [
        line
        for section in document.sections if section.keys
        for line in (_heading(section), *_rows(section, things))
    ]  # fmt: skip


def _findings(verdict: Document) -> list[Line]:
    """What the verdict says of each thing that is missing and of each mount point that is not proven or unfit."""
    return [
        line
        for section in verdict.sections if not section.keys
        for line in (_heading(section), *(Line("", text) for text in _sentences(section)))
    ]  # fmt: skip


def _heading(section: Section) -> Line:
    return Line("", section.heading.upper(), is_heading=True)


def _rows(section: Section, things: dict[str, Thing | Stray]) -> list[Line]:
    """A thing a row: how many, of what, how it stands, and beneath what its document says of it."""
    states = [state_of(things[key]) for key in section.keys]
    said = section.lines or tuple((text, cells) for text, cells in _cells(section, states))
    found = zip(section.keys, said, strict=True)
    return [Line(key, text, things[key], row=_row(things[key], text, beneath)) for key, (text, *beneath) in found]


def _row(thing: Thing | Stray, text: str, beneath: Iterable[str]) -> Row:
    from fasten.job.list.lists import PartLine
    from fasten.report.job.hardware import line_name

    count, name = (str(thing.total), line_name(thing)) if isinstance(thing, PartLine) else ("", text)
    state = state_of(thing)
    return Row(count, name, state, tuple(said for said in beneath if said not in ("", state.word)))


def _sentences(section: Section) -> list[str]:
    """Each row in words: what it is of, then each cell under its column's name."""
    return [f"{of}: {cells}" if cells else of for of, cells in _cells(section)]


def _cells(section: Section, states: Sequence[State] = ()) -> list[tuple[str, str]]:
    """What each row is of, and its cells, each under its column's name, but what its state says already."""
    from fasten.report.forms.document import shown

    section = shown(section)
    titles = [column.title.lower() for column in section.columns[1:]]
    rows = zip_longest(section.rows, states)
    return [(of, _said(zip(titles, cells, strict=True), state)) for (of, *cells), state in rows]


def _said(cells: Iterable[tuple[str, str]], state: State | None) -> str:
    left = (pair for pair in cells if pair[1] and (pair[0] != _ON_SHELF_TITLE or _BY_CELL.get(pair[1]) != state))
    return ", ".join(_cell_text(title, cell) for title, cell in left)


def _cell_text(title: str, cell: str) -> str:
    """A cell in words under the title of its column."""
    if title == "where":
        return "for every mount point" if cell == _EVERYWHERE else f"for {cell}"
    if title == _ON_SHELF_TITLE and cell in _ON_SHELVES:
        return _ON_SHELVES[cell]
    return f"{title} {cell}"
