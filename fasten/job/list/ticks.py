"""Ticks of a box: which lines of a hardware list are packed, and so at hand, whatever the shelf says.

A tick is kept by the words of its line; that of a part says how many were packed, so that a job that grows asks for the
rest. A tick of an older file says no number: it is of the whole line.
"""

import re
from dataclasses import replace

from fasten.job.list.lists import BitLine, ConsumableLine, HardwareList, PartLine, ToolLine
from fasten.job.list.parts import part_text
from fasten.text.names import capital
from fasten.text.units import number

Line = PartLine | BitLine | ToolLine | ConsumableLine
Ticks = dict[str, int | None]  # by line, how many; None where no number is said

PARTS, BITS, CONSUMABLES = "Parts", "Bits", "Consumables"
TOOLS = {
    "setting tool": "Setting tools", "tap": "Taps", "driver": "Drivers", "countersink": "Countersinks",
    "stop": "Drill stops", "other": "Other tools",
}  # fmt: skip
_COUNTED = re.compile(rf"({PARTS}: )([0-9]+) x (.*)", re.DOTALL)


def lines_of(listed: HardwareList) -> tuple[Line, ...]:
    """Every line of a list that can be packed."""
    return (*listed.parts, *listed.bits, *listed.tools, *listed.consumables)


def line_name(line: Line) -> str:
    """What a line of the list goes by."""
    if isinstance(line, PartLine):
        text = capital(part_text(line.part))
        return f"{text} ({line.form})" if line.form else text
    if isinstance(line, BitLine):
        is_told = number(line.diameter_mm, 2) in line.name
        return line.name if is_told else f"{line.name} ({number(line.diameter_mm, 3)} mm)"
    if isinstance(line, ToolLine):
        return capital(f"{line.name} {line.size}".strip())
    return capital(f"{line.name}, {line.detail}" if line.detail else line.name)


def line_key(line: Line) -> str:
    """What a line is found by: its heading and its name."""
    if isinstance(line, ToolLine):
        return f"{TOOLS[line.heading]}: {line_name(line)}"
    heading = PARTS if isinstance(line, PartLine) else BITS if isinstance(line, BitLine) else CONSUMABLES
    return f"{heading}: {line_name(line)}"


def tick_of(line: Line) -> str:
    """How it is kept that a line is packed as it stands."""
    return f"{PARTS}: {line.total} x {line_name(line)}" if isinstance(line, PartLine) else line_key(line)


def is_packed(line: Line) -> bool:
    """Whether all of a line is packed."""
    return line.packed >= line.total if isinstance(line, PartLine) else line.packed


def ticks(packed: tuple[str, ...]) -> Ticks:
    """What the ticks of a job say, the last of a line before others."""
    return dict(map(_read, packed))


def packed_of(said: Ticks, line: PartLine) -> int:
    """How many of a part are packed."""
    count = said.get(line_key(line), 0)
    return line.total if count is None else count


def with_ticks(listed: HardwareList, said: Ticks) -> HardwareList:
    """The list with what is packed of all that is there or not; parts, which are counted, know it already."""
    return replace(
        listed,
        bits=tuple(replace(line, packed=line_key(line) in said) for line in listed.bits),
        tools=tuple(replace(line, packed=line_key(line) in said) for line in listed.tools),
        consumables=tuple(replace(line, packed=line_key(line) in said) for line in listed.consumables),
    )


def toggled(packed: tuple[str, ...], line: Line) -> tuple[str, ...]:
    """The ticks with this line packed as it stands, or with none of it where by these ticks all of it is."""
    said, others = ticks(packed), tuple(tick for tick in packed if _read(tick)[0] != line_key(line))
    full = packed_of(said, line) >= line.total if isinstance(line, PartLine) else line_key(line) in said
    return others if full else (*others, tick_of(line))


def _read(tick: str) -> tuple[str, int | None]:
    found = _COUNTED.fullmatch(tick)
    return (tick, None) if found is None else (f"{found[1]}{found[3]}", int(found[2]))
