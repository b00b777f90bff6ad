"""What was looked up: each answer a row with what it rests on, the size of the first one large above them."""

from collections.abc import Callable
from itertools import chain
from typing import Any

from fasten.look import Findings
from fasten.look.first.entries import lines_of
from fasten.look.first.line import Answer, size
from fasten.report.look_text import MARKS
from fasten.report.safe import safe
from fasten.report.wrap import wrapped
from fasten.tui.drawn.figures import Large, large_lines
from fasten.tui.drawn.rows import Row, State, row_lines
from fasten.tui.drawn.runs import GAP, Line, two_columns

MOST = 76  # columns from a row's name to what it rests on: farther apart, they are no longer read as one


def looked_lines(findings: Findings, width: int, high: int = 0) -> list[Line]:
    """The large figures of the first answer, where it has any, then every answer and note.

    What is longer than `high` lines stands in two columns; 0 for one of any length.
    """
    figures = large_lines(sizes_of(findings), min(width, MOST), solid=True)
    above: list[Line] = [*figures, ()] if figures else []
    blocks = _blocks(findings, min(width, MOST))
    single = list(chain.from_iterable(blocks))
    is_full = high and len(above) + len(single) > high
    double = two_columns(_blocks(findings, (width - GAP) // 2), width) if is_full else single
    return [*above, *min(single, double, key=len)]


def _blocks(findings: Findings, width: int) -> list[list[Line]]:
    """Each answer and each note in its lines."""
    bases = {source.id: source.basis for source in findings.sources}
    rows = [row_lines(_row(at, answer, bases, len(findings.answers)), width)
            for at, answer in enumerate(findings.answers)]  # fmt: skip
    first = [[_bold(line) for line in rows[0]], *rows[1:]] if rows else []
    notes = (wrapped(f"note: {safe(note)}", width) for note in findings.notes)
    quiet: list[list[Line]] = [[((text, "quiet"),) for text in note] for note in notes]
    return [*first, *quiet]


def sizes_of(findings: Findings) -> list[Large]:
    """The sizes of the entry that the first answer sums up; of an answer to a narrower question, none."""
    if not findings.found or not findings.answers:
        return []
    entry = findings.found[0]
    is_whole = next(iter(lines_of(entry)), None) == findings.answers[0]
    sizes = _SIZES.get(entry.kind)
    return sizes(entry) if is_whole and sizes is not None else []


def _row(at: int, answer: Answer, bases: dict[str, str], count: int) -> Row:
    number = str(at + 1) if count > 1 else ""
    return Row(number, safe(answer.text), State(" ", _weakest(answer, bases), "quiet", at))


def _weakest(answer: Answer, bases: dict[str, str]) -> str:
    """What the answer rests on; on several sources, the weakest of them."""
    return max((bases[source] for source in answer.from_), key=list(MARKS).index, default="")


def _bold(line: Line) -> Line:
    return tuple((text, "bold ink" if role == "ink" else role) for text, role in line)


def _mm(label: str, mm: float, beneath: str) -> Large:
    return Large(label, size(mm), "mm", f"{size(mm)} mm", beneath)


def _inch(inch: float) -> str:
    return f"{inch:.4f} in"


def _thread(entry: Any) -> list[Large]:
    """The drill before tapping and the hole of medium fit that it passes, as far as they are tabled."""
    drill, clear = entry.tap_drill, entry.clearance[1:2]
    return [
        *([_mm("tap drill", drill.diameter_mm, _bit(drill.name))] if drill else []),
        *(_mm("clearance", hole.diameter_mm, _bit(hole.name)) for hole in clear),
    ]


def _bit(name: str) -> str:
    """The name of a bit, where it is not its diameter."""
    return "" if name.endswith("mm") else f"bit {name}"


def _drill(entry: Any) -> list[Large]:
    return [_mm("bit", entry.diameter_mm, _inch(entry.diameter_in))]


def _sheet(entry: Any) -> list[Large]:
    """The sheet of the first metal, which is the one that the first answer is of."""
    return [
        _mm("sheet", item.thickness_mm, f"{item.material.replace('_', ' ')}, {_inch(item.thickness_in)}")
        for item in entry.thickness[:1]
    ]


def _length(entry: Any) -> list[Large]:
    return [_mm("length", entry.length_mm, _inch(entry.length_in))]


_SIZES: dict[str, Callable[[Any], list[Large]]] = {
    "thread": _thread, "bit": _drill, "gauge": _sheet, "length": _length,
}  # fmt: skip
