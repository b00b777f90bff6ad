"""A second reading of sizes, by Unicode's tables for characters and pint for units, to hold `fasten.text.units` to.

It shares no code with the program: it is slow, it reads more than the program does, and it is never asked whether a
text is a size at all, only what it would be worth.
"""

import re
import unicodedata
from fractions import Fraction
from functools import cache
from math import isclose
from typing import TYPE_CHECKING

from fasten.text.units import Dimension

if TYPE_CHECKING:
    import pint

NUMBER = re.compile(
    r"(?P<sign>[+-]?)(?:(?P<whole>[0-9]+)[ -]+)?(?:(?P<over>[0-9]+)/(?P<under>[0-9]+)|(?P<plain>[0-9]*[.,]?[0-9]+))"
)
LOOKS = {
    "−": "-", "‐": "-", "‑": "-", "–": "-", "″": '"', "”": '"', "“": '"', "′": "'", "’": "'", "⁄": "/",
    "μ": "u", "µ": "u", "*": "·", "⋅": "·", "∙": "·", "•": "·", "×": "·", "º": "°", "˚": "°", "²": "2",
    "℃": "°C", "℉": "°F",
}  # fmt: skip
# Words of trades that pint spells otherwise, or takes for something else.
LENGTHS = dict.fromkeys(('"', "''", "in", "ins"), "inch") | {"'": "foot", "ft": "foot", "mil": "thou", "mils": "thou"}
FORCES = dict.fromkeys(("lb", "lbs", "lbf", "pound", "pounds"), "force_pound")
FORCES |= dict.fromkeys(("oz", "ozf", "ounce", "ounces"), "force_ounce") | {"n": "newton", "newton": "newton"}
FORCES |= dict.fromkeys(("kg", "kgf"), "kilogram_force") | {"cn": "centinewton"}
WORDS: dict[Dimension, dict[str, str]] = {
    Dimension.LENGTH: LENGTHS,
    Dimension.MASS: {"kgs": "kilogram", "kilo": "kilogram", "kilos": "kilogram", "lbs": "pound", "lb": "pound"},
    Dimension.TORQUE: FORCES | LENGTHS,
    Dimension.FORCE: {"n": "newton", "lbf": "force_pound", "kgf": "kilogram_force", "kn": "kilonewton"},
    Dimension.AREA: LENGTHS,
    Dimension.CURRENT: {"a": "ampere", "amp": "ampere", "amps": "ampere"},
    Dimension.TEMPERATURE: dict.fromkeys(("c", "°c", "celsius", "degc", "degreesc"), "degC")
    | dict.fromkeys(("f", "°f", "fahrenheit", "degf", "degreesf"), "degF") | {"k": "kelvin"},
}  # fmt: skip
WHOLE = {
    "nm": "newton * metre", "cnm": "centinewton * metre", "kgfcm": "kilogram_force * cm",
    "cmkgf": "kilogram_force * cm", "kgcm": "kilogram_force * cm", "cmkg": "kilogram_force * cm",
    "kgfm": "kilogram_force * m", "mkgf": "kilogram_force * m", "poundforce": "force_pound",
    "poundsforce": "force_pound", "sqmm": "mm ** 2", "sqcm": "cm ** 2", "sqin": "inch ** 2",
}  # fmt: skip
WHOLE |= {f"newton{metre}": "newton * metre" for metre in ("metre", "metres", "meter", "meters")}
WHOLE |= {
    f"{first}{second}": f"{LENGTHS.get(length, length)} * {FORCES[force]}"
    for length in ("in", "inch", "ft", "foot")
    for force in ("lb", "lbs", "lbf", "pound", "pounds", "oz", "ozf", "ounce", "ounces")
    for first, second in ((length, force), (force, length))
}


@cache
def registry() -> "pint.UnitRegistry[float]":
    import pint  # by whoever asks, not by every process that collects

    return pint.UnitRegistry()


def plain(text: str) -> str:
    """The text in plain characters: fractions spelt out, spaces single, joiners left out."""
    spelt = "".join(_spelt(char) for char in text if char not in "\u200c\u200d")
    return " ".join("".join(LOOKS.get(char, char) for char in spelt).split())


def _spelt(char: str) -> str:
    if char.isspace():
        return " "
    if unicodedata.decomposition(char).startswith("<fraction>"):
        value = Fraction(unicodedata.numeric(char)).limit_denominator(64)
        return f" {value.numerator}/{value.denominator} "
    return char


def values(text: str, dimension: Dimension) -> tuple[float, ...]:
    """What the text may be worth in the canonical unit of a dimension: more than one where Mm may be meant as mm."""
    words = plain(text)
    found = NUMBER.match(words)
    if found is None:
        return ()
    size = Fraction(found["whole"] or 0)
    size += Fraction(int(found["over"]), int(found["under"])) if found["over"] else _decimal(found["plain"])
    size = -size if found["sign"] == "-" else size
    unit = words[found.end() :].strip(" -").rstrip(". ")
    if not unit:
        return (float(size) * 25.4,) if found["over"] and dimension is Dimension.LENGTH else ()
    spellings = dict.fromkeys((_trade(unit, dimension), _trade(unit.lower(), dimension), unit, unit.lower()))
    read = (_in_unit(float(size), spelling, dimension) for spelling in spellings)
    return tuple(worth for worth in read if worth is not None)


def agrees(text: str, dimension: Dimension, found: float) -> bool:
    """Whether a size that was read from the text is one that it may be worth."""
    return any(isclose(found, worth, rel_tol=1e-9, abs_tol=1e-9) for worth in values(text, dimension))


def _decimal(written: str) -> Fraction:
    return Fraction(written.replace(",", ".") if written[0] not in ".," else f"0.{written[1:]}")


def _in_unit(size: float, spelling: str, dimension: Dimension) -> float | None:
    try:
        return float(registry().Quantity(size, spelling).m_as(_canonical(dimension)))
    except Exception:  # pint meets odd words with many kinds of error; all of them mean "not such a unit"
        return None


def _canonical(dimension: Dimension) -> str:
    return {"mm²": "mm ** 2", "N·m": "newton * metre", "°C": "degC"}.get(dimension.unit, dimension.unit)


def _trade(unit: str, dimension: Dimension) -> str:
    """A unit in words that pint knows: `sq in` is inch ** 2, `in lb` is inch * force_pound."""
    joined = re.sub("[ .·-]", "", unit)
    words = WORDS[dimension]
    if joined in WHOLE:
        return WHOLE[joined]
    if joined in words:
        return words[joined]
    if found := re.fullmatch(r"sq([a-z]+)|([a-z]+)(?:sq|\^?2)", joined):
        base = found[1] or found[2]
        return f"({words.get(base, base)}) ** 2"
    parts = [part for part in re.split("[ .·-]+", unit) if part]
    return " * ".join(words.get(part, part) for part in parts)
