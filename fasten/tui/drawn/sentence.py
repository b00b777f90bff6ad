"""The question as a sentence: given, preset, not given and current words differ by form, and each can be tapped."""

from collections.abc import Sequence
from enum import Enum
from itertools import groupby

from rich.cells import cell_len, set_cell_size

from fasten.record import record
from fasten.tui.drawn.runs import Line

MORE = ""
"""What the word for all that is folded away goes by: no field has this name."""
NOT_GIVEN, NONE = "?", "none"
_LONGEST = 34  # columns of one word; the entry line shows all of it
_WHOLE = 14  # letters of a word that is not broken at the end of a row


class Kind(Enum):
    """How a word stands in the sentence; each its own form, and a role that repeats it."""

    GIVEN = "bold underline ink"
    PRESET = "underline quiet"
    OPEN = "bold open"
    MISREAD = "bold underline bad"
    MORE = "underline accent"


_CURRENT, _ROUND = "bold reverse accent", "quiet"


@record
class Word:
    """A word of the sentence: the field it is of, what it says, how it stands, and what stands round it."""

    name: str
    text: str
    kind: Kind
    before: str = ""
    after: str = ""


@record
class Sentence:
    """Rows of runs, and of each row from which column to which a word stands, as its place among the words."""

    rows: tuple[Line, ...]
    spans: tuple[tuple[tuple[int, int, int], ...], ...]

    def at(self, column: int, row: int) -> int | None:
        """The place of the word there; None where there is none."""
        found = self.spans[row] if 0 <= row < len(self.spans) else ()
        return next((place for start, end, place in found if start <= column < end), None)


_Cell = tuple[str, str, int]  # a letter, its style, and the place of its word; -1 between words


def sentence_of(words: Sequence[Word], current: int, width: int, rows: int) -> Sentence:
    """The sentence in so many columns and rows; of a longer one the rows up to the end of the current word."""
    lines = _wrapped(
        [cell for place, word in enumerate(words) for cell in _cells(word, place, place == current)], width
    )
    ends = [at for at, line in enumerate(lines) if any(place == current for _, _, place in line)]
    first = min(max(max(ends, default=0) - rows + 1, 0), max(len(lines) - rows, 0))
    shown, rest = lines[first : first + rows], lines[first + rows :]
    if rest:
        shown[-1] = _cut(shown[-1], [cell for cell in rest[-1] if words[cell[2]].name == MORE and cell[2] >= 0], width)
    return Sentence((*map(_line, shown), *[()] * (rows - len(shown))), tuple(map(_spans, shown)))


def height_of(words: Sequence[Word], width: int) -> int:
    """How many rows all of the sentence takes."""
    return len(_wrapped([cell for place, word in enumerate(words) for cell in _cells(word, place, False)], width))


def _cells(word: Word, place: int, is_current: bool) -> list[_Cell]:
    text = word.text if cell_len(word.text) <= _LONGEST else f"{set_cell_size(word.text, _LONGEST - 1).rstrip()}…"
    style = _CURRENT if is_current else word.kind.value
    before, after = ([(letter, _ROUND, -1) for letter in said] for said in (word.before, word.after))
    return [*before, *((letter, style, place) for letter in text), *after]


def _wrapped(cells: Sequence[_Cell], width: int) -> list[list[_Cell]]:
    """Lines broken at spaces; a word that is longer than a line is broken where the line ends."""
    lines: list[list[_Cell]] = [[]]
    room = width
    for piece in _pieces(cells):
        text = "".join([letter for letter, _, _ in piece])
        if cell_len(text.rstrip()) > room and lines[-1]:
            lines.append([])
            room = width
        lines[-1] += piece[:width]
        room -= _columns(text)
    return lines


def _pieces(cells: Sequence[_Cell]) -> list[list[_Cell]]:
    """The letters up to each space, with it; a short word is one piece, so that no size is parted from its unit."""
    short = {place for place, run in groupby(cells, key=lambda cell: cell[2]) if len(list(run)) <= _WHOLE} - {-1}
    pieces: list[list[_Cell]] = [[]]
    for cell in cells:
        pieces[-1].append(cell)
        if cell[0] == " " and cell[2] not in short:
            pieces.append([])
    return [piece for piece in pieces if piece]


def _line(cells: Sequence[_Cell]) -> Line:
    cells = list(cells)
    while cells and cells[-1][0] == " ":
        cells.pop()
    return tuple(
        ("".join([letter for letter, _, _ in run]), style)
        for (style, _), run in groupby(cells, key=lambda cell: cell[1:])
    )


def _spans(cells: Sequence[_Cell]) -> tuple[tuple[int, int, int], ...]:
    spans, column = [], 0
    for place, run in groupby(cells, key=lambda cell: cell[2]):
        wide = _columns("".join([letter for letter, _, _ in run]))
        if place >= 0:
            spans.append((column, column + wide, place))
        column += wide
    return tuple(spans)


def _cut(line: Sequence[_Cell], last: Sequence[_Cell], width: int) -> list[_Cell]:
    """The line with a sign that there is more, and the last word after it, which would not be seen."""
    end: list[_Cell] = [(letter, _ROUND, -1) for letter in (" … " if last else " …")] + list(last)
    kept = list(line)
    over = _columns("".join([letter for letter, _, _ in kept + end])) - width
    while kept and (over > 0 or kept[-1][0] == " "):
        over -= cell_len(kept.pop()[0])
    return kept + end


def _columns(letters: str) -> int:
    """How many columns letters take, each by itself, also where it joins the one before."""
    return len(letters) if letters.isascii() else sum(map(cell_len, letters))
