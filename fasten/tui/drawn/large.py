"""A row of large actions: side by side, each with its letter underlined, the first of them filled."""

from collections.abc import Sequence

from rich.cells import cell_len

from fasten.record import record
from fasten.tui.drawn.foot import Word, lettered
from fasten.tui.drawn.runs import Line, padded

_GAP = 1


@record
class Large:
    """The lines, and from which column to which each action is pressed, with what it does."""

    lines: tuple[Line, ...]
    spans: tuple[tuple[int, int, str], ...]

    def at(self, column: int) -> str:
        """What the action in a column does; empty between them."""
        return next((name for start, end, name in self.spans if start <= column < end), "")


def large_of(width: int, words: Sequence[Word], rows: int, *, filled: bool = True) -> Large:
    """The actions in so many columns and rows, as wide as one another; the first `filled` unless another block is."""
    if not words:
        return Large((), ())
    each = (width - _GAP * (len(words) - 1)) // len(words)
    starts = [number * (each + _GAP) for number in range(len(words))]
    widths = [*(each for _ in words[1:]), width - starts[-1]]
    blocks = [
        block(word, wide, rows, filled=filled and number == 0)
        for number, (word, wide) in enumerate(zip(words, widths, strict=True))
    ]
    lines = tuple(_joined([lines[row] for lines in blocks]) for row in range(rows))
    spans = ((start, start + wide, word.name) for start, wide, word in zip(starts, widths, words, strict=True))
    return Large(lines, tuple(spans))


def block(word: Word, width: int, rows: int, *, filled: bool) -> tuple[Line, ...]:
    """One action, its words in the middle."""
    style = "bold accent reverse" if filled else "bold ink on raised"
    text, at = lettered(word)
    left = max((width - cell_len(text)) // 2, 0)
    letter = f"{style} underline" if filled else "bold underline accent on raised"
    parts = ((" " * left, style), (text[:at], style), (text[at : at + 1], letter), (text[at + 1 :], style))
    said = padded(tuple((part, role) for part, role in parts if part), width, style)
    empty: Line = ((" " * width, style),)
    return tuple(said if row == rows // 2 else empty for row in range(rows))


def _joined(lines: Sequence[Line]) -> Line:
    found: list[tuple[str, str]] = []
    for line in lines:
        found += [(" " * _GAP, "")] * bool(found)
        found += line
    return tuple(found)
