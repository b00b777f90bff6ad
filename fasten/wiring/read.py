"""Text to what a run carries, its ends and its cable. Each reader takes a text, the tables and the field's name.

carries = amps "A" [volts "V"] | [n "x"] watts "W class" AB|D [volts "V"] | "loudspeaker" watts "W" ohms "ohm"
        | "remote" | "signal" | "data"
end     = "battery post" +|- | "battery stud" stud [+|-] | "stud" stud | "body" [stud] | "set screw" ["bore" size |
          "takes" cable] | ("clamp plate" | "push-in") ["takes" cable] | "tab" WxT | "bare" |
          "plug" [size] ["lead" size] | "butt" | "lap" | "connector" | the name of something of the job
cable   = gauge "AWG" | area "mm2"
"""

import re
from collections.abc import Callable
from enum import Enum
from functools import lru_cache
from typing import TypeVar

from fasten.catalog.materials import RING_STUDS
from fasten.catalog.tables import Tables
from fasten.catalog.wiring import FUSE_FAMILIES
from fasten.errors import FastenError
from fasten.question.read_electric import (
    figure_of,
    folded_text,
    match_load,
    read_load,
    read_power,
    read_volts,
    refuse_high_voltage,
    volts_last,
)
from fasten.question.read_parts import read_cable
from fasten.text import units
from fasten.text.figures import figure
from fasten.text.names import choice, either, folded
from fasten.text.shown import shown
from fasten.text.units import Dimension
from fasten.wiring.sizes import size_of
from fasten.wiring.words import (
    LOUDSPEAKER,
    Amps,
    BatteryPost,
    Carries,
    DeviceEnd,
    End,
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

_N = r"(?P<{}>[0-9]+(?:[.,][0-9]+)?)"
_SPEAKER = re.compile(r"(?:loudspeaker|speaker) (?P<load>.+)")
_AMPS = re.compile(rf"(?P<amps>[0-9.,]+ ?a(?:mps?)?)(?: {_N.format('volts')} ?v)?")
_CARRIES_FIX = "write 72 A, 600 W class AB, loudspeaker 100 W 4 ohm, remote, signal or data"
_ENDS_FIX = (
    "write battery stud M8, battery post +, stud M8, set screw, clamp plate, push-in, tab 6.3x0.8, bare, plug 14 mm, "
    "butt, lap, connector or body"
)
BODY = "body"  # how an end at bare body metal is written
_BODY_MOST_MOHM = 100.0  # ten times as much would not start an engine
LEAST_PRINTED_C = 60.0  # of the coolest insulation of cable
_Choice = TypeVar("_Choice", bound=Enum)
Makes = Callable[["re.Match[str]", Tables, str], End]


def read_carries(text: str, tables: Tables, where: str) -> Carries:
    """What a run carries; raises FastenError if it is none of these, or work for a licence."""
    plain = folded_text(text, where)
    if plain in {one.value for one in Unsized}:
        return Unsized(plain)
    speaker = _SPEAKER.fullmatch(plain)
    if speaker is not None and (load := match_load(speaker["load"])) is not None:
        return Loudspeaker(*read_load(load, text, where))
    if found := _AMPS.fullmatch(volts_last(plain)):
        full_a = units.read(found["amps"], Dimension.CURRENT, where)
        return Amps(full_a, read_volts(found["volts"], text, where))
    if speaker is None and re.search(r"[0-9] ?k?w\b", plain):
        return read_power(text, tables, where)
    raise FastenError(f"{shown(text)} is nothing that a run carries", where=where, fix=_CARRIES_FIX)


def read_end(text: str, tables: Tables, where: str) -> End:
    """An end of a run; what is none of the known ends is the name of something of the job."""
    plain = folded_text(text, where)
    fixed = _FIXED_ENDS.get(plain)
    if fixed is not None:
        return fixed
    for pattern, make in _ENDS:
        if found := re.fullmatch(pattern, plain):
            return make(found, tables, where)
    name, comma, terminal = " ".join(text.split()).partition(", ")
    return NamedEnd(name, read_end(terminal, tables, where) if comma else None)


def unknown_end(end: NamedEnd, names: tuple[str, ...], where: str) -> FastenError:
    """The refusal of an end that is neither a known end nor a name of the job."""
    own = f", or the name of a mount point: {either(list(names[:6]))}" if names else ""
    return FastenError(f"{shown(end.name)} is no end of a run that is known", where=where, fix=f"{_ENDS_FIX}{own}")


def read_length(text: str, _tables: Tables, where: str) -> float:
    """A length of cable [mm]."""
    try:
        return units.read(text, Dimension.LENGTH, where)
    except FastenError as error:
        raise FastenError(error.what, where=where, fix="write it along the route, such as 5m") from error


def read_measured(text: str, _tables: Tables, where: str) -> bool:
    """Whether a length is measured straight; raises FastenError unless it is along the route or straight."""
    return choice(text, {"route": False, "straight": True}, where)


def read_size(text: str, tables: Tables, where: str) -> Size:
    """A size of cable; raises FastenError if it is none, or none that anything is known of."""
    folded_text(text, where)  # which refuses what is too long, or high voltage
    if re.fullmatch(r"[0-9.,/]+", text.strip()):
        raise FastenError(f"{shown(text)} does not say by which measure", where=where, fix="write 4 AWG or 4 mm2")
    area_mm2 = read_cable(text, tables, where)
    size = size_of(area_mm2, Series.AWG if "awg" in text.casefold() else Series.METRIC, tables)
    if size is None:
        what = f"nothing is known of cable of {shown(text)}"
        raise FastenError(what, where=where, fix="write a size from 18 to 4/0 AWG, or from 0.75 to 95 mm2")
    return size


def read_insulation(text: str, _tables: Tables, where: str) -> float:
    """The temperature printed on the cable [°C]; raises FastenError where nothing is known for it."""
    bare = f"{text} C" if re.fullmatch(r"[0-9]{2,3}", text.strip()) else text
    printed_c = units.read(bare, Dimension.TEMPERATURE, where)
    if not LEAST_PRINTED_C <= printed_c <= 250:
        what = f"{shown(text)} is printed on no cable for vehicles"
        raise FastenError(what, where=where, fix="write what is printed on it, such as 105 C")
    return printed_c


def read_limit(text: str, _tables: Tables, where: str) -> Limit:
    """The voltage drop to size by: "3 %" or "0.5 V"."""
    found = re.fullmatch(rf"{_N.format('value')} ?(?P<unit>%|v|mv)", folded_text(text, where))
    value = figure_of(found["value"]) if found else 0.0
    if found is None or value <= 0:
        raise FastenError(f"{shown(text)} is no limit of a voltage drop", where=where, fix="write 3 % or 0.5 V")
    return Limit(value / 1000 if found["unit"] == "mv" else value, found["unit"] == "%")


def read_holder(text: str, tables: Tables, where: str) -> str:
    """The family of the fuse; raises FastenError with the nearest."""
    return choice(text, {row.family: row.family for row in tables.rows(FUSE_FAMILIES)}, where)


def read_body(text: str, _tables: Tables, where: str) -> float:
    """The resistance of the body, measured from a ground point to the minus of the battery [mΩ]."""
    found = re.fullmatch(rf"{_N.format('value')} ?m(?:illi)?(?:ω|ohms?)", folded_text(text, where))
    value = figure_of(found["value"]) if found else 0.0
    if not 0 < value <= _BODY_MOST_MOHM:
        fix = f"write 1.2 mohm: millivolts at full output over amperes, up to {figure(_BODY_MOST_MOHM)} mohm"
        raise FastenError(f"{shown(text)} is no resistance of a body", where=where, fix=fix)
    return value


def read_series(text: str, _tables: Tables, where: str) -> Series:
    """By which measure cable is sold."""
    return _one_of(Series, text, where)


_OF_DRUM = {
    "ofc": Material.COPPER, "cca": Material.CLAD, "copper clad aluminium": Material.CLAD,
    "copper clad aluminum": Material.CLAD,
}  # fmt: skip


def read_material(text: str, _tables: Tables, where: str) -> Material:
    """What the conductor is of, by the letters on its drum too."""
    return _OF_DRUM.get(folded(text)) or _one_of(Material, text, where)


def read_where(text: str, _tables: Tables, where: str) -> RunWhere:
    """Where a run lies."""
    return _one_of(RunWhere, text, where)


@lru_cache(maxsize=16)  # it is of each run of a job
def read_system(text: str, where: str) -> int:
    """The voltage of the vehicle, 12 or 24; raises FastenError for any other, and for high voltage."""
    plain = folded_text(text, where)
    refuse_high_voltage(plain if plain.endswith("v") else f"{plain} v", where)
    found = re.fullmatch(r"(12|24) ?v?", plain)
    if found is None:
        raise FastenError(f"{shown(text)} is no system of a vehicle", where=where, fix="write 12 V or 24 V")
    return int(found[1])


def read_through(text: str, tables: Tables, where: str) -> StudEnd:
    """A device that the run goes through, by its studs: "isolator stud M8"."""
    found = re.fullmatch(r"(?:(?P<called>[a-z -]+) )?stud (?P<stud>\S+)", folded_text(text, where))
    if found is None:
        raise FastenError(f"{shown(text)} is no device with studs", where=where, fix="write isolator stud M8")
    return StudEnd(_stud(found["stud"], tables, where), StudAt.DEVICE, called=found["called"] or "")


def _stud(text: str, tables: Tables, where: str) -> str:
    studs = {row.stud: row.stud for row in tables.rows(RING_STUDS)}
    return choice(text, studs, where)


def _stud_at(at: StudAt) -> Makes:
    return lambda found, tables, where: StudEnd(_stud(found["stud"], tables, where), at)


def _battery_stud(found: re.Match[str], tables: Tables, where: str) -> StudEnd:
    pole = Pole.MINUS if found["pole"] == Pole.MINUS.value else Pole.PLUS
    return StudEnd(_stud(found["stud"], tables, where), StudAt.BATTERY, pole)


def _set_screw(found: re.Match[str], tables: Tables, where: str) -> TerminalEnd:
    bore = None if found["bore"] is None else units.read(found["bore"], Dimension.LENGTH, where)
    takes = None if found["takes"] is None else read_cable(found["takes"], tables, where)
    return TerminalEnd(Terminal.SET_SCREW, bore, takes)


def _clamp(found: re.Match[str], tables: Tables, where: str) -> TerminalEnd:
    return TerminalEnd(Terminal(found["clamp"]), takes_mm2=read_cable(found["takes"], tables, where))


def _tab(found: re.Match[str], _tables: Tables, _where: str) -> TerminalEnd:
    return TerminalEnd(Terminal.TAB, tab=f"{figure_of(found['wide']):g}x{figure_of(found['thick'] or '0.8'):g}")


def _plug(found: re.Match[str], _tables: Tables, where: str) -> TerminalEnd:
    size, lead = (
        None if text is None else units.read(text, Dimension.LENGTH, where)
        for text in (found["size"] or None, found["lead"])
    )
    return TerminalEnd(Terminal.PLUG, bore_mm=size, lead_mm=lead)


def _one_of(kind: type[_Choice], text: str, where: str) -> _Choice:
    return choice(text, {folded(one.value): one for one in kind}, where)


_FIXED_ENDS: dict[str, End] = {
    **{f"battery post {pole.value}": BatteryPost(pole) for pole in Pole},
    **{one.value: TerminalEnd(one) for one in (Terminal.CLAMP_PLATE, Terminal.PUSH_IN, Terminal.BARE, Terminal.PLUG)},
    **{one.value: SpliceEnd(one) for one in Splice},
    BODY: StudEnd(None, StudAt.BODY),
    LOUDSPEAKER: DeviceEnd(LOUDSPEAKER, speaker=True),
}
_ENDS: tuple[tuple[str, Makes], ...] = (
    (r"battery stud (?P<stud>\S+)(?: (?P<pole>[+-]))?", _battery_stud),
    (r"(?:device )?stud (?P<stud>\S+)", _stud_at(StudAt.DEVICE)),
    (r"body (?:stud )?(?P<stud>m[0-9]+)", _stud_at(StudAt.BODY)),
    (r"set screw(?: bore (?P<bore>.+)| takes (?P<takes>.+))?", _set_screw),
    (rf"tab {_N.format('wide')} ?[x×] ?{_N.format('thick')}(?: mm)?", _tab),
    (r"(?P<clamp>clamp plate|push-in) takes (?P<takes>.+)", _clamp),
    (r"plug(?: (?P<size>(?!lead ).+?))?(?: lead (?P<lead>.+))?", _plug),
)
