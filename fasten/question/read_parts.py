"""Counts, a hole that is there, what an item carries and a ground lug, as people type them; for `question` to read.

    hole-there = size of a hole | thread ["stud"]                       5.1 mm, M6, M6 stud
    carries  = part {"," part},  part = [item] [mass] ["at" height]     amplifier 5 kg, signal-processor, 2 kg at 80 mm
    ring     = metric size of the stud the ring terminal is for         M8
    cable    = area | number of mm² | American gauge "AWG"              50 mm2, 50, 4 AWG, 1/0 AWG

A comma between two digits is a decimal, every other one parts two things. A height is that of the thing's centre of
gravity off the panel, as `cg` is.
"""

import re
from collections.abc import Callable

from fasten.catalog.materials import Item, RingStud
from fasten.catalog.rows import MetricThread
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.mechanics.grounding import awg_area_mm2
from fasten.model import Carried, ThreadThere
from fasten.text import units
from fasten.text.shown import shown, visible
from fasten.text.units import Dimension

MOST_FIXINGS = 100
MOST_CARRIED = 20
MOST_RINGS = 99
THINNEST_AWG = 36  # the gauge that the standard's series is defined down to

_LONGEST_TEXT = 400
_TAPPED, _STUD = frozenset({"tapped", "weld", "nut", "boss", "thread", "hole"}), frozenset({"stud", "bolt"})
_PARTED = r"(?<![0-9]),|,(?![0-9])"
_AWG = r"(?:(?P<aughts>[1-4])/0|(?P<zeros>0{1,4})|(?P<number>[1-9][0-9]?))[ -]?awg"
_CARRIES_FIX = "write amplifier, amplifier 5 kg or 5 kg at 80 mm, with commas between"


def read_fixings(text: str) -> int:
    """A count of fixings; raises FastenError unless it is a whole number from 1 to 100."""
    count = int(text) if re.fullmatch("[0-9]{1,4}", text) else 0
    if not 1 <= count <= MOST_FIXINGS:
        what = f"{shown(text)} is not a whole number from 1 to {MOST_FIXINGS}"
        raise FastenError(what, where="fixings", fix="write how many fixings hold the item, such as 4")
    return count


def read_hole_there(text: str, tables: Tables) -> float | ThreadThere:
    """What is there already: a hole by its size [mm], "5.1 mm", or a thread, "M6", "M6 weld nut" or "M6 stud".

    Raises: FastenError if it is neither, or a thread of no known kind.
    """
    words = text.casefold().replace("×", "x").split()
    said = [word for word in words if word in _TAPPED | _STUD]
    rest = "".join(word for word in words if word not in said)
    if not said and not re.match("m[0-9]|[#0-9/]+-[0-9]{2}(?![0-9/])", rest):
        return units.read(text, Dimension.LENGTH, "hole-there")
    threads = tables.rows(MetricThread, "metric-threads")
    rows = {f"m{row.major_mm:g}x{row.pitch_mm:g}": row for row in threads}
    rows |= {row.designation.casefold(): row for row in threads}
    if (row := rows.get(rest)) is None:
        what = f"{shown(text)} is no metric thread that is known here"
        raise FastenError(what, where="hole-there", fix="write M6 for a tapped thread, M6 stud, or 6.2 mm for a hole")
    return ThreadThere(row.designation, "stud" if _STUD & set(said) else "tapped")


def read_carries(text: str, find: Callable[[str], Item]) -> tuple[Carried, ...]:
    """What the item carries, "amplifier 5 kg, signal-processor", names looked up by `find`.

    Raises: FastenError if a name is not known, a mass or height is no size, or a part says neither name nor mass.
    """
    parts = re.split(_PARTED, text)
    if len(text) > _LONGEST_TEXT or len(parts) > MOST_CARRIED:
        what = f"{shown(text)} is too much: at most {MOST_CARRIED} things in {_LONGEST_TEXT} characters"
        raise FastenError(what, where="carries", fix="add up the small ones, such as 2 kg")
    return tuple(_carried(part.split(), find) for part in parts)


def read_ring(text: str, tables: Tables) -> str:
    """The stud that a ring terminal is for, "M8"; raises FastenError if no ring terminal is made for it."""
    studs = [row.stud for row in tables.rows(RingStud, "ring-studs")]
    found = next((stud for stud in studs if stud.casefold() == text.casefold()), None)
    if found is None:
        fix = f"write {', '.join(studs[:-1])} or {studs[-1]}: what the terminal is marked with"
        raise FastenError(f"{shown(text)} is no stud that a ring terminal is known for", where="ring", fix=fix)
    return found


def read_rings(text: str) -> int:
    """How many rings share a stud; raises FastenError unless it is a whole number from 1 to 99."""
    count = int(text) if re.fullmatch("[0-9]{1,2}", text) else 0
    if count < 1:
        what = f"{shown(text)} is not a whole number from 1 to {MOST_RINGS}"
        raise FastenError(what, where="rings", fix="write how many rings go on the stud, such as 1")
    return count


def read_cable(text: str) -> float:
    """The area of a cable's conductor [mm²]: "50 mm2", "50" or "1/0 AWG"; raises FastenError for any other text."""
    plain = " ".join(text.split()).casefold()
    if found := re.fullmatch(_AWG, plain):
        return _awg_mm2(found, text)
    if re.fullmatch("[0-9]+(?:[.,][0-9]+)?", plain):
        return units.read(f"{plain} mm²", Dimension.AREA, "cable")
    if re.fullmatch("[0-9/]+ ?(?:ga|gauge|gage|g|b&s)?", plain):
        size = visible(plain.rstrip("abegsu& "), 20)
        what = f"{shown(text)} does not say by which measure"
        raise FastenError(what, where="cable", fix=f"write {size} AWG, or the area, such as 50 mm2")
    return units.read(text, Dimension.AREA, "cable")


def _carried(words: list[str], find: Callable[[str], Item]) -> Carried:
    at = next((n for n, word in enumerate(words) if word.casefold() == "at"), len(words))
    start = next((n for n, word in enumerate(words[:at]) if not word[0].isalpha()), at)
    name, mass, height = (" ".join(part) for part in (words[:start], words[start:at], words[at + 1 :]))
    if not name and not mass:
        raise FastenError("a part says neither what nor how heavy", where="carries", fix=_CARRIES_FIX)
    return Carried(
        name=_item(name, find) if name else None,
        mass_kg=units.read(mass, Dimension.MASS, "carries") if mass else None,
        cg_mm=units.read(height, Dimension.LENGTH, "carries") if at < len(words) else None,
    )


def _item(name: str, find: Callable[[str], Item]) -> str:
    try:
        return find(name).item
    except FastenError as error:
        raise FastenError(error.what, where="carries", fix=error.fix or _CARRIES_FIX) from error


def _awg_mm2(found: re.Match[str], text: str) -> float:
    """One gauge number is one step; 1/0 is number 0, and each aught more lies a step before it."""
    aughts = int(found["aughts"] or len(found["zeros"] or ""))
    number = int(found["number"] or 0)
    if number > THINNEST_AWG:
        what = f"{shown(text)} is thinner than {THINNEST_AWG} AWG, where the series ends"
        raise FastenError(what, where="cable", fix="write the area, such as 0.01 mm2")
    return awg_area_mm2(steps=4 - aughts if aughts else number + 3)
