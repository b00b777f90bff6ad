"""Text to the electrical facts of an item: its power and class, its own fuses, its outputs. Given once, at the item.

power     = [n "x"] watts "W class" AB|D [volts "V"]           1000 W class D, 4 x 75 W class AB
own-fuses = [n "x"] amps "A", more after a comma               3 x 35 A
outputs   = n "x" watts "W" ohms "ohm", more after a comma     1 x 1000 W 2 ohm, 4 x 75 W 4 ohm
"""

import re

from fasten.catalog.tables import Tables
from fasten.catalog.wiring import AMPLIFIER_CLASSES
from fasten.errors import FastenError
from fasten.model import Output, Outputs, OwnFuses, Power
from fasten.text.names import either
from fasten.text.shown import shown
from fasten.text.units import Dimension

LONGEST = 120  # characters of a text; searching one takes time by the square of them
MOST_W, MOST_OHM, MOST_FUSES, MOST_OUTPUTS = 20_000.0, 100.0, 20, 16
HIGH_VOLTAGE_V = 48
SYSTEMS_V = (12, 24)
_NUMBER = r"[0-9]+(?:[.,][0-9]+)?"
_COUNT = r"(?:(?P<count>[0-9]{1,2}) ?[x×] ?)?"
_WATTS = rf"(?P<watts>{_NUMBER}) ?(?P<kilo>k?)w"
_POWER = rf"{_COUNT}{_WATTS}(?: class ?(?P<class>[a-z]+))?(?: (?P<volts>{_NUMBER}) ?v)?"
_LOAD = rf"{_WATTS} (?P<ohms>{_NUMBER}) ?(?:ohms?|ω)"
_HIGH = re.compile(r"orange|high[ -]?voltage|\bhv\b")
_VOLTS = re.compile(rf"({_NUMBER}) ?v\b")
_PARTED = re.compile(r"[,;+] | and ")


def read_power(text: str, tables: Tables, where: str) -> Power:
    """The power of all channels and the class; raises FastenError for any other text, and for high voltage."""
    plain = volts_last(folded_text(text, where))
    found = re.fullmatch(_POWER, plain)
    if found is None:
        raise FastenError(f"{shown(text)} is no power of an amplifier", where=where, fix="write 1000 W class D")
    classes = {row.class_.casefold(): row.class_ for row in tables.rows(AMPLIFIER_CLASSES)}
    if (named := classes.get(found["class"] or "")) is None:
        what = f"{shown(text)} names no class of amplifier whose efficiency is known"
        raise FastenError(what, where=where, fix=f"add class {either(list(classes.values()))}, or give its current")
    return Power(_watts(found, text, where), named, read_volts(found["volts"], text, where))


def read_volts(volts: str | None, text: str, where: str) -> int | None:
    """The system that a load is for [V]; None where that is not said; raises FastenError for none of a vehicle."""
    if volts is None:
        return None
    if figure_of(volts) not in SYSTEMS_V:
        raise FastenError(f"{shown(text)} is for no system of a vehicle", where=where, fix="write 12 V or 24 V")
    return round(figure_of(volts))


def volts_last(plain: str) -> str:
    """A folded text whose one voltage is written last, wherever it stood: 1000 W 12 V class D."""
    found = list(_VOLTS.finditer(plain))
    if len(found) != 1:
        return plain
    at = found[0]
    return " ".join(f"{plain[: at.start()]} {plain[at.end() :]} {at[1]} v".split())


def read_own_fuses(text: str, _tables: Tables, where: str) -> OwnFuses:
    """The fuses in an item itself, one by one; raises FastenError for any other text."""
    fuses: list[float] = []
    for part in _PARTED.split(folded_text(text, where)):
        found = re.fullmatch(rf"{_COUNT}(?P<amps>{_NUMBER}) ?a?", part.strip())
        if found is None or not 0 < figure_of(found["amps"]) <= Dimension.CURRENT.most or found["count"] == "0":
            raise FastenError(f"{shown(text)} are no fuses", where=where, fix="write 60 A, or 3 x 35 A")
        fuses += [figure_of(found["amps"])] * int(found["count"] or 1)
    if len(fuses) > MOST_FUSES:
        raise FastenError(f"{shown(text)} are more than {MOST_FUSES} fuses", where=where, fix="write those of one item")
    return OwnFuses(tuple(fuses))


def read_outputs(text: str, _tables: Tables, where: str) -> Outputs:
    """The outputs to loudspeakers, each kind with how many; raises FastenError for any other text."""
    outputs: list[Output] = []
    for part in _PARTED.split(folded_text(text, where)):
        found = re.fullmatch(rf"{_COUNT}{_LOAD}", part.strip())
        if found is None or found["count"] == "0":
            raise FastenError(f"{shown(text)} are no outputs", where=where, fix="write 4 x 75 W 4 ohm")
        watts, ohms = read_load(found, text, where)
        outputs.append(Output(int(found["count"] or 1), watts, ohms))
    if sum(output.count for output in outputs) > MOST_OUTPUTS:
        what = f"{shown(text)} are more than {MOST_OUTPUTS} outputs"
        raise FastenError(what, where=where, fix="write those of one amplifier")
    return Outputs(tuple(outputs))


def match_load(text: str) -> re.Match[str] | None:
    """The match of a load such as 100 W 4 ohm, its text already folded."""
    return re.fullmatch(_LOAD, text)


def read_load(found: re.Match[str], text: str, where: str) -> tuple[float, float]:
    """Power [W] and impedance [Ω] of a load; raises FastenError out of bounds."""
    ohms = figure_of(found["ohms"])
    if not 0 < ohms <= MOST_OHM:
        raise _out_of_bounds(text, MOST_OHM, "ohm", where)
    watts = figure_of(found["watts"]) * (1000 if found["kilo"] else 1)
    return _bounded_w(watts, text, where), ohms


def folded_text(text: str, where: str) -> str:
    """The text in lower case with single spaces; raises FastenError where it is too long or speaks of high voltage."""
    if len(text) > LONGEST:
        what = f"{shown(text)} is {len(text)} characters long, at most {LONGEST}"
        raise FastenError(what, where=where, fix="say it in a few words")
    plain = " ".join(text.casefold().split())
    refuse_high_voltage(plain, where)
    return plain


def refuse_high_voltage(text: str, where: str) -> None:
    """Raise FastenError where a text speaks of high voltage or of its orange cable."""
    plain = text.casefold()
    if _HIGH.search(plain) or any(figure_of(found) >= HIGH_VOLTAGE_V for found in _VOLTS.findall(plain)):
        what = f"{shown(text)} is high voltage or orange cable, which is licensed work"
        raise FastenError(what, where=where, fix="keep away from it, and have it done by who is licensed for it")


def figure_of(text: str) -> float:
    """A number with a decimal point or comma."""
    return float(text.replace(",", "."))


def _watts(found: re.Match[str], text: str, where: str) -> float:
    watts = figure_of(found["watts"]) * (1000 if found["kilo"] else 1) * int(found["count"] or 1)
    return _bounded_w(watts, text, where)


def _bounded_w(watts: float, text: str, where: str) -> float:
    if not 0 < watts <= MOST_W:
        raise _out_of_bounds(text, MOST_W, "W", where)
    return watts


def _out_of_bounds(text: str, most: float, unit: str, where: str) -> FastenError:
    return FastenError(f"{shown(text)} is nothing, or over {most:.0f} {unit}", where=where, fix="check the figure")
