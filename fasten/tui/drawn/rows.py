"""A row of any list: count, mark, name, its state in a word at the right, and beneath why and where."""

from collections.abc import Iterator
from itertools import chain

from rich.cells import cell_len

from fasten.record import record
from fasten.report.wrap import wrapped
from fasten.tui.drawn.runs import Line, Run, padded

HERE, DONE, BUY = "□", "■", "◇"
"""Here or to do; packed, built or made; to buy. One mark, one meaning, in every list."""

_COUNT, _LEAST_NAME = 4, 14  # columns
NUMBER = _COUNT - 1
"""Columns of the count or number at the beginning of a row."""


@record
class State:
    """How a thing stands: its mark, a word, its role, and its place among others: what is short comes first."""

    mark: str
    word: str
    role: str
    rank: int


NO_FIT, TO_SAY = State("╳", "no fit", "bad", 0), State("·", "to say", "open", 1)
"""Nothing fits; and what is not known, because not enough was said to tell."""


@record
class Row:
    """One row: how many, of what, how it stands, and what is said beneath; what of that goes on hangs so far in."""

    count: str
    name: str
    state: State
    beneath: tuple[str, ...] = ()
    hang: int = 0


def row_lines(row: Row, width: int) -> list[Line]:
    """The row in so many columns, all of it; where the name needs the room, its state begins the line beneath."""
    inset = " " * (_COUNT + 2)
    room, state = width - len(inset), row.state
    is_beside = cell_len(state.word) + _LEAST_NAME < room
    first, *more = wrapped(row.name, room - (cell_len(state.word) + 1 if is_beside else 0))
    gap = room - cell_len(first) - cell_len(state.word)
    said: Line = ((" " * gap, "ink"), (state.word, state.role)) if is_beside else ()
    lead: Line = ((f"{row.count:>{NUMBER}} ", "quiet"), (f"{state.mark} ", state.role), (first, "ink"))
    under = chain.from_iterable(wrapped(text, room, rest=" " * row.hang) for text in row.beneath)
    rest = [] if is_beside else [((inset, ""), (state.word, state.role))]
    return [(*lead, *said), *_inset(inset, more, "ink"), *rest, *_inset(inset, under, "quiet")]


def brief_row(row: Row, width: int, lines: int) -> list[Line]:
    """The row in so many lines at most; what is longer ends in a sign that there is more."""
    state, inset = row.state, " " * (_COUNT + 2)
    lead: Line = ((f"{row.count:>{NUMBER}} ", "quiet"), (f"{state.mark} ", state.role))
    room = max(width - len(inset) - cell_len(state.word) - 1, 1)
    first: Line = (*lead, *padded(((row.name, "ink"),), room), (f" {state.word}", state.role))
    under = [((inset, ""), *padded(((text, "quiet"),), max(width - len(inset), 1))) for text in row.beneath]
    return [first, *under][:lines]


def _inset(inset: str, texts: "Iterator[str] | list[str]", role: str) -> Iterator[Line]:
    for text in texts:
        run: Run = (text, role)
        yield ((inset, ""), run)
