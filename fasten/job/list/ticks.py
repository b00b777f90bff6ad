"""Ticks of a box: which lines of a hardware list are packed, and so at hand, whatever the shelf says.

A tick keeps the id of its line. That of what is counted or measured says how much was packed, so that a job that grows
asks for the rest. Ticks of files of format 1 were kept by words: `format1` knows them.
"""

import re
from collections.abc import Iterable

from fasten.job.list import format1
from fasten.job.list.lists import BitLine, ConsumableLine, HardwareList, PartLine, ToolLine
from fasten.job.words import Job
from fasten.model.line import words_of_line
from fasten.record import record, replace
from fasten.text.rounding import rounded_down
from fasten.text.units import number
from fasten.wiring.parts import CABLE, SHRINK
from fasten.wiring.ways import TUBE

Line = PartLine | BitLine | ToolLine | ConsumableLine

_COUNTED = re.compile(r"(.*) = ([0-9]+(?:\.[0-9]+)?)", re.DOTALL)
_DUST = 1e-5  # the share to which an amount is known
_COUNTED_UNIT = "piece"
_LONG = frozenset({CABLE, SHRINK, TUBE, *format1.LAYER})  # what is measured in mm
_WIDE = format1.WIDE  # what is measured in mm², and has its width for a size
_WIDTH = re.compile(r"[1-9][0-9]{0,5}(?:\.[0-9]+)?")
_MM_PER_M = 1000


@record
class Stray:
    """A tick that is of no line of the list, as the file has it."""

    tick: str


@record
class Ticks:
    """What the ticks of a job say: by the id of a line how much of it is packed, None where no number is said.

    `apart` are the ticks of no line of the list, as the file has them.
    """

    packed: tuple[tuple[str, float | None], ...]
    apart: tuple[str, ...]

    @property
    def by_id(self) -> dict[str, float | None]:
        """How much is packed by the id of its line."""
        return dict(self.packed)


def lines_of(listed: HardwareList) -> tuple[Line, ...]:
    """Every line of a list that can be packed."""
    return (*listed.parts, *listed.bits, *listed.tools, *listed.consumables)


def ticks(job: Job, lines: Iterable[Line]) -> Ticks:
    """What the ticks of a job say of these lines, the last of a line before others."""
    lines = tuple(lines)
    ids = {line.id.text for line in lines}
    old = {format1.worded(line): line.id.text for line in lines} if job.apart else {}
    found: dict[str, float | None] = {}
    apart: list[str] = []
    for tick in (*job.packed, *job.apart):
        (line, much), (words, count) = _read(tick), format1.read(tick)
        if line in ids:
            found[line] = much
        elif words in old:
            found[old[words]] = count
        else:
            apart.append(tick)
    return Ticks(tuple(found.items()), tuple(dict.fromkeys(apart)))


def with_ticks(listed: HardwareList, job: Job) -> HardwareList:
    """The list with what is packed of each line, and the ticks that are of none of them."""
    said = ticks(job, lines_of(listed))
    packed = said.by_id
    return replace(
        listed,
        parts=tuple(replace(line, packed=_count(line, packed)) for line in listed.parts),
        bits=tuple(replace(line, packed=line.id.text in packed) for line in listed.bits),
        tools=tuple(replace(line, packed=line.id.text in packed) for line in listed.tools),
        consumables=tuple(replace(line, packed=_is_enough(line, packed)) for line in listed.consumables),
        apart=said.apart,
    )


def tick_text(tick: str) -> str:
    """A tick that is of no line, in words."""
    (line, much), (words, count) = _read(tick), format1.read(tick)
    if format1.is_worded(tick):
        return words.partition(": ")[2] if count is None else f"{count} x {words.partition(': ')[2]}"
    said = words_of_line(line)
    return " ".join(said) if much is None else f"{_amount(much, said)} {' '.join(said)}"


def _amount(much: float, said: tuple[str, ...]) -> str:
    """How much was packed of what is of no line by now, in the unit that a person buys by, never more than it was."""
    key, size = (*said, "", "")[:2]
    if key in _LONG:
        return f"{rounded_down(much / _MM_PER_M, 2)} m"
    if key in _WIDE and _WIDTH.fullmatch(size):
        return f"{rounded_down(much / float(size) / _MM_PER_M, 2)} m"
    return f"{number(much, 3)} x"


def is_packed(line: Line | Stray) -> bool:
    """Whether all of a line is packed."""
    if isinstance(line, Stray):
        return True
    return line.packed >= line.total if isinstance(line, PartLine) else line.packed


def tick_of(line: Line | Stray) -> str:
    """How it is kept that a line is packed as it stands."""
    return line.tick if isinstance(line, Stray) else _written(line, _whole(line))


def toggled(job: Job, line: Line | Stray, listed: HardwareList) -> Job:
    """The job with this line packed as it stands, or with none of it where by its ticks all of it is.

    What its other ticks say of the list is kept by ids from now on, and those of no line are kept apart; a stray one is
    taken away.
    """
    lines = {one.id.text: one for one in lines_of(listed)}
    said = ticks(job, lines.values())
    if isinstance(line, Stray):
        return replace(job, packed=_kept(said, lines), apart=tuple(tick for tick in said.apart if tick != line.tick))
    others = Ticks(tuple(entry for entry in said.packed if entry[0] != line.id.text), ())
    was, kept = said.by_id, _kept(others, lines)
    full = _count(line, was) >= line.total if isinstance(line, PartLine) else _is_there(line, was)
    return replace(job, packed=kept if full else (*kept, tick_of(line)), apart=said.apart)


def _kept(said: Ticks, lines: dict[str, Line]) -> tuple[str, ...]:
    """The ticks as they are kept from now on; one without a number is of all that is wanted now."""
    return tuple(_written(lines[at], _whole(lines[at]) if much is None else much) for at, much in said.packed)


def _is_there(line: BitLine | ToolLine | ConsumableLine, packed: dict[str, float | None]) -> bool:
    return _is_enough(line, packed) if isinstance(line, ConsumableLine) else line.id.text in packed


def _count(line: PartLine, packed: dict[str, float | None]) -> int:
    """How many of a part are packed; of a tick without a number all that are wanted."""
    much = packed.get(line.id.text, 0)
    return line.total if much is None else int(much)


def _is_enough(line: ConsumableLine, packed: dict[str, float | None]) -> bool:
    """Whether as much is packed as is wanted now, where both are known."""
    if line.id.text not in packed:
        return False
    much = packed[line.id.text]
    return much is None or line.amount is None or line.amount <= much * (1 + _DUST)


def _whole(line: Line) -> float | None:
    """How much of a line is all of it; None where it is only there or not.

    Of consumables pieces are counted and what comes in a size for this job is measured; a bottle is there or not.
    """
    if isinstance(line, ConsumableLine):
        return line.amount if line.unit == _COUNTED_UNIT or line.id.sizes else None
    return line.total if isinstance(line, PartLine) else None


def _written(line: Line, much: float | None) -> str:
    counted = isinstance(line, PartLine | ConsumableLine) and much is not None
    return f"{line.id.text} = {number(much, 3)}" if counted and much is not None else line.id.text


def _read(tick: str) -> tuple[str, float | None]:
    found = _COUNTED.fullmatch(tick)
    return (tick, None) if found is None else (found[1], float(found[2]))
