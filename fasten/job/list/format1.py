"""How job files of format 1 worded a line of the hardware list in their ticks: frozen, so that they are read for ever.

Nothing here reads what lines are called today: words are made anew from the keys and sizes of their ids. What was added
to the program since has no words here, and none of those files ticks it.
"""

import re

from fasten.job.list.lists import BitLine, ConsumableLine, PartLine, ToolLine
from fasten.model.line import Sort

_PART = re.compile(
    r"Parts: (?:([0-9]+) x )?(.*?)(?: \([^()]*\))?", re.DOTALL
)  # in brackets stood its head or its sizes
_HEADINGS = {
    "setting tool": "Setting tools", "tap": "Taps", "driver": "Drivers", "countersink": "Countersinks",
    "stop": "Drill stops", "other": "Other tools",
}  # fmt: skip
_KINDS = {
    "rivet_nut": "rivet nut", "clip_nut": "clip nut", "rubber_bodied_expanding_nut": "rubber-bodied expanding nut",
    "square_hole_plastic_nut": "square-hole plastic nut", "push_in_clip": "push-in clip", "ball_socket": "ball socket",
    "screw_in_insert": "screw-in insert", "heat_set_insert": "heat-set insert",
    "self_tapping_insert": "self-tapping insert", "tee_nut": "tee nut",
    "prevailing_torque_nut": "prevailing-torque nut", "hexagon_nut": "hexagon nut", "blind_rivet": "blind rivet",
    "screw": "screw", "self_drilling_screw": "self-drilling screw", "ball_stud": "ball stud",
    "bonded_in_stud": "bonded-in stud", "pot magnet": "pot magnet", "washer": "washer",
    "spring_washer": "spring washer", "stop_sleeve": "stop sleeve",
}  # fmt: skip
_OVER, _ACROSS = {"countersink"}, {"spanner for the nut"}  # the tools whose size was said in mm
_SHEET = {
    "test piece of the same sheet", "test piece of the same plastic", "scrap of the same board",
    "test piece of both faces", "test piece of the same material",
}  # fmt: skip
LAYER, WIDE = {"gasket tape"}, {"hook-and-loop", "acrylic foam tape"}


def worded(line: PartLine | BitLine | ToolLine | ConsumableLine) -> str:
    """What the tick of a line was in format 1, but for how many of a part, and what stood after it in brackets."""
    match line:
        case PartLine():
            return f"Parts: {_capital(_part(line))}"
        case BitLine():
            size = _number(line.diameter_mm, 3)
            return (
                f"Bits: {line.name}" if _number(line.diameter_mm, 2) in line.name else f"Bits: {line.name} ({size} mm)"
            )
        case ToolLine():
            return f"{_HEADINGS.get(line.heading, '')}: {_capital(_tool(line))}"
        case ConsumableLine():
            detail = _detail(line.id.key, line.id.sizes)
            return f"Consumables: {_capital(f'{line.id.key}, {detail}' if detail else line.id.key)}"


def read(tick: str) -> tuple[str, int | None]:
    """The words of a tick as `worded` has them, and how many of a part it says; the oldest said none."""
    found = _PART.fullmatch(tick)
    if found is None:
        return tick, None
    return f"Parts: {found[2]}", None if found[1] is None else int(found[1])


def is_worded(tick: str) -> bool:
    """Whether a tick is of format 1: an id begins with the name of a sort, in small letters."""
    return not tick.startswith(tuple(f"{sort.value}:" for sort in Sort))


def _part(line: PartLine) -> str:
    size, series, grade, outside, length = line.id.sizes
    long = f" x {_number(float(length), 2)} mm" if length else ""
    wide = f"{_figure(float(outside))} mm outside" if outside else ""
    name = ", ".join(filter(None, (_words(series), wide)))
    kind = _KINDS.get(line.id.key, "")
    return ", ".join(filter(None, (f"{kind} {_words(size)}{long}".strip(), name, _words(grade))))


def _tool(line: ToolLine) -> str:
    key, sizes = line.id.key, " ".join(filter(None, line.id.sizes))
    if key in _OVER | _ACROSS:
        sizes = f"{'over ' if key in _OVER else ''}{_figure(float(sizes))} mm" if sizes else ""
    return f"{key} {_words(sizes)}".strip()


def _detail(key: str, sizes: tuple[str, ...]) -> str:
    if not sizes:
        return ""
    if key in _SHEET | LAYER:
        return f"{_words(sizes[0])} {' to '.join(sizes[1:])} mm"
    return f"{sizes[0]} mm wide" if key in WIDE else _words(sizes[0])


def _words(text: str) -> str:
    return " ".join(text.replace("_", " ").split())


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _figure(value: float) -> str:
    return _number(value, 1 if value >= 100 else 2)


def _number(value: float, digits: int) -> str:
    text = f"{value:.{digits}f}"
    return text.rstrip("0").rstrip(".") if "." in text else text
