"""What was said of a run, in words: as it is read back, the words that may be typed, and the one that a text begins."""

from collections.abc import Callable, Iterable, Mapping
from enum import Enum
from typing import Any

from fasten.catalog.tables import Tables
from fasten.catalog.wiring import FUSE_FAMILIES
from fasten.errors import FastenError
from fasten.model import OwnFuses, Power
from fasten.text.figures import figure, with_unit
from fasten.text.given import given_text
from fasten.text.names import folded
from fasten.text.units import number
from fasten.wiring.fields import BODY_PATH, CARRIES, FROM, HOLDER, INSULATION, TO, RunField
from fasten.wiring.read import BODY
from fasten.wiring.words import (
    LOUDSPEAKER,
    Amps,
    BatteryPost,
    Branches,
    DeviceEnd,
    Limit,
    Loudspeaker,
    Material,
    NamedEnd,
    Pole,
    RunWhere,
    Series,
    Size,
    Splice,
    SpliceEnd,
    StudAt,
    StudEnd,
    Terminal,
    TerminalEnd,
    Unsized,
)

_AT_DEVICE = ("set screw", "stud M8", "clamp plate", "push-in", "tab 6.3x0.8")
_ENDS = (
    "battery stud M8", "battery stud M8 -", *(f"battery post {pole.value}" for pole in Pole), *_AT_DEVICE, BODY,
    LOUDSPEAKER, *(one.value for one in Splice), Terminal.BARE.value,
)  # fmt: skip
_LOADS = (*(one.value for one in Unsized), "loudspeaker 100 W 4 ohm", "1000 W class D", "72 A")
_CHOSEN: Mapping[str, tuple[str, ...]] = {
    "measured": ("route", "straight"), "material": tuple(one.value for one in Material),
    "series": tuple(one.value for one in Series), "where": tuple(one.value for one in RunWhere),
}  # fmt: skip


def worded(field: RunField, value: Any) -> str:
    """What a field was read as, in words that may be typed again."""
    if field in (INSULATION, BODY_PATH):
        return f"{figure(value)} {'°C' if field is INSULATION else 'mΩ'}"
    write = _WORDS.get(type(value))
    return given_text(value) or "" if write is None else write(value)


def options(field: RunField, names: Iterable[str], tables: Tables) -> tuple[str, ...]:
    """Words that a field takes, the most wanted first; `names` are what an end of the job may be at."""
    if field in (FROM, TO):
        return (*names, *_ENDS)
    if field is CARRIES:
        return _LOADS
    if field is HOLDER:
        return tuple(row.family for row in tables.rows(FUSE_FAMILIES))
    return _CHOSEN.get(field.name, ())


def completed(text: str, words: Iterable[str]) -> str:
    """The word that a text begins, where only one does; after a comma the terminal that it begins. Else the text.

    What is a word already stays. Words that hold a figure are examples and complete nothing.
    """
    words = tuple(words)
    name, comma, terminal = text.partition(",")
    if comma and terminal.strip():
        return f"{_begun(name.strip(), words)}, {_begun(terminal.strip(), _AT_DEVICE)}"
    return _begun(text.strip(), words)


def misread(error: FastenError) -> str:
    """Why a text is not understood, and what to write."""
    return f"{error.what}; {error.fix}" if error.fix else error.what


def _begun(text: str, words: Iterable[str]) -> str:
    typed, known = folded(text), {folded(word): word for word in words if not any(map(str.isdigit, word))}
    if typed in known:
        return known[typed]
    found = [word for begins, word in known.items() if begins.startswith(typed)]
    return found[0] if len(found) == 1 else text


def _end_words(end: Any) -> str:
    at = {StudAt.BATTERY: "battery stud", StudAt.BODY: BODY, StudAt.DEVICE: "stud"}
    if isinstance(end, StudEnd):
        minus = end.pole.value if end.pole is Pole.MINUS else ""
        return " ".join(filter(None, (at[end.at], end.stud, minus)))
    if isinstance(end, BatteryPost):
        return f"battery post {end.pole.value}"
    if isinstance(end, SpliceEnd):
        return end.splice.value
    if isinstance(end, NamedEnd):
        return end.name if end.terminal is None else f"{end.name}, {_end_words(end.terminal)}"
    return end.name if isinstance(end, DeviceEnd) else _terminal_words(end)


def _terminal_words(end: TerminalEnd) -> str:
    sizes = {
        "bore": end.bore_mm and f"{'' if end.is_plug else 'bore '}{figure(end.bore_mm)} mm",
        "takes": end.takes_mm2 and f"takes {figure(end.takes_mm2)} mm²", "tab": end.tab,
    }  # fmt: skip
    return " ".join((end.terminal.value, *(text for text in sizes.values() if text)))


def _value(value: Enum) -> str:
    return str(value.value)


def _length(mm: float) -> str:
    return f"{number(mm / 1000, 3)} m"


_WORDS: Mapping[type, Callable[[Any], str]] = {
    Amps: lambda load: with_unit(load.full_a, "A"),
    Branches: lambda load: f"{with_unit(load.full_a, 'A')} of its branches",
    Loudspeaker: lambda load: f"loudspeaker {with_unit(load.power_w, 'W')} {figure(load.impedance_ohm)} ohm",
    Power: lambda load: given_text(load) or "", OwnFuses: lambda fuses: given_text(fuses) or "",
    Size: lambda size: size.name, Limit: lambda limit: f"{figure(limit.value)} {'%' if limit.percent else 'V'}",
    float: _length, bool: lambda straight: "straight" if straight else "along the route", str: str,
    **dict.fromkeys((StudEnd, BatteryPost, SpliceEnd, NamedEnd, DeviceEnd, TerminalEnd), _end_words),
    **dict.fromkeys((Unsized, Material, Series, RunWhere), _value),
}  # fmt: skip
