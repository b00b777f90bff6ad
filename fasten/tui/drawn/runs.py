"""Lines as runs of text, each in a role of the palette and in weights: bold, underline, reverse, on and a role."""

from collections.abc import Iterable, Sequence
from itertools import chain, groupby

from rich.cells import cell_len, set_cell_size

GAP = 2
"""Columns between two columns of rows."""

Run = tuple[str, str]
Line = tuple[Run, ...]


def plain(line: Line) -> str:
    """The text of a line."""
    return "".join(text for text, _ in line)


def columns(line: Line) -> int:
    """How many columns a line takes."""
    return cell_len(plain(line))


def clipped(text: str, columns: int) -> str:
    """The text, or as much of it as there are columns for and a sign that there is more."""
    return text if cell_len(text) <= columns else f"{set_cell_size(text, max(columns - 1, 0)).rstrip()}…"


def joined(cells: Iterable[Run]) -> Line:
    """One line of cells: neighbours in one style are one run, as a run for each is slow to show."""
    return tuple(("".join(text for text, _ in run), style) for style, run in groupby(cells, key=lambda cell: cell[1]))


def padded(line: Line, width: int, style: str = "") -> Line:
    """The line in exactly so many columns: what is longer ends in a sign that there is more."""
    over = columns(line) - width
    if over <= 0:
        return (*line, (" " * -over, style)) if over else line
    kept: list[Run] = []
    room = width - 1
    for text, run_style in line:
        kept.append((set_cell_size(text, min(cell_len(text), room)), run_style))
        room -= cell_len(kept[-1][0])
    return (*((text, run_style) for text, run_style in kept if text), ("…", style))[: len(kept) + 1]


def beside(blocks: Sequence[tuple[Sequence[Line], int]]) -> list[Line]:
    """Blocks side by side, each with the columns that it gets."""
    high = max((len(lines) for lines, _ in blocks), default=0)
    return [
        tuple(run for lines, width in blocks for run in padded(lines[at] if at < len(lines) else (), width))
        for at in range(high)
    ]


def two_columns(blocks: Sequence[Sequence[Line]], width: int) -> list[Line]:
    """Blocks of lines down the left column and on in the right one, where the two are most alike in height."""
    each, total = (width - GAP) // 2, sum(map(len, blocks))
    ends = [sum(map(len, blocks[:at])) for at in range(len(blocks) + 1)]
    split = min(range(len(ends)), key=lambda at: max(ends[at], total - ends[at]))
    left, right = (list(chain.from_iterable(part)) for part in (blocks[:split], blocks[split:]))
    return beside([(left, each), ((), width - 2 * each), (right, each)])


def heading(words: str, width: int) -> Line:
    """A heading with its rule, to the edge."""
    return ((f"{words} ", "quiet"), ("─" * max(width - cell_len(words) - 1, 0), "rule"))
