"""Figures, counts and names of the tables as a person reads them: the one place that turns any of them into words."""

from functools import lru_cache
from math import isfinite

from fasten.errors import FastenError
from fasten.text.units import Gauge, number, read_any

_ID_DIGITS = 4  # decimals of a millimetre to which two sizes are one
_MOST_KEPT = 4096
_OF_A_NUMBER = "-+−0123456789.,/ ½¼¾⅛⅜⅝⅞⁄"


def figure(value: float) -> str:
    """A figure to about four digits: more decimals the smaller it is, so that nothing small reads as nothing."""
    return _figure(value)


@lru_cache(_MOST_KEPT)
def _figure(value: float) -> str:
    # The same few figures come again and again: sizes of parts, and demands of mount points that ask the same.
    if not isfinite(value):
        return "no limit"
    digits = 0 if value <= -1000 or value >= 1000 else 1 if value <= -100 or value >= 100 else 2
    while digits < 9 and value != 0 and number(value, digits) == "0":
        digits += 1
    return number(value, digits)


def with_unit(value: float, unit: str) -> str:
    """A figure with its unit; a bare number where the unit is only a dash."""
    return figure(value) if unit in {"", "-"} else f"{figure(value)} {unit}"


def mm(value: float) -> str:
    """A length with its unit."""
    return f"{figure(value)} mm"


_LETTERS = frozenset({"mdf", "osb", "abs", "asa", "petg", "pp", "hdpe", "pc", "pa", "pvc"})


@lru_cache(_MOST_KEPT)
def words(name: str) -> str:
    """A name of the tables or an enum value in plain words, a material that goes by its letters in capitals."""
    return " ".join(part.upper() if part in _LETTERS else part for part in name.split("_"))


def counted(count: float, thing: str) -> str:
    """So many of a thing, one of it or more: 1 pack, 2 packs, 1.5 metres."""
    return f"{figure(count)} {thing}{'' if count == 1 else 's'}"


def unit_spelled(text: str) -> str:
    """A size as it was typed, with its unit as it stands everywhere else: 5 nm is 5 N·m; what is no size as it is."""
    try:
        found = read_any(text)
    except FastenError:
        return text
    if isinstance(found, Gauge):
        return text
    typed = text.strip()
    return f"{typed[: len(typed) - len(typed.lstrip(_OF_A_NUMBER))].strip()} {found.unit}"


def id_size(mm: float | None) -> str:
    """A size in the id of a line, in mm without its unit; empty where there is none."""
    return "" if mm is None else number(mm, _ID_DIGITS)
