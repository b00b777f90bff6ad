"""What a field takes that is neither a size nor one of few words, as people type it.

    pattern  = "rectangle" size "x" size | "circle" size | "row" size   rectangle 240x180, circle 165 mm
             | where each hole is, as `read_holes` has it               points 0,0 240,0; tape 1-2 240, 2-3 181 …
    boss     = outer diameter, "x" depth it can be drilled to           8 mm, 8x14 mm
    hole-there = size of a hole {"," size} | thread                     5.1 mm; 7.6 mm, 8.2 mm; M6
             | thread "stud" [how far it stands out] | thread "rivet nut"   M6 stud 20 mm, M6 rivet nut
    carries  = part {"," part},  part = [item] [mass] ["at" height]     amplifier 5 kg, signal-processor, 2 kg at 80 mm
    body     = [thread] size of the body of a rivet nut                 7.1 mm, M5 6.9 mm
    ring     = metric size of the stud the ring terminal is for         M8
    cable    = area | number of mm² | American gauge "AWG"              50 mm2, 50, 4 AWG, 1/0 AWG

Inside a pattern or a boss, and only there, bare numbers are millimetres; where one side has a unit, it counts for both.
A comma between two digits is a decimal, every other one parts two things. A height is that of the thing's centre of
gravity off the panel, as `cg` is.
"""

import re

from fasten.catalog.materials import RING_STUDS
from fasten.catalog.parts import RIVET_NUTS
from fasten.catalog.practice import LOAD_CASES
from fasten.catalog.rows import (
    METRIC_CLEARANCE,
    METRIC_THREADS,
    PROPERTY_CLASSES,
)
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.mechanics.grounding import awg_area_mm2
from fasten.model import Boss, Carried, ExistingThread, Pattern, kinds
from fasten.question.holes_said import is_of_holes
from fasten.question.read_onto import read_item
from fasten.text import units
from fasten.text.names import choice, unknown
from fasten.text.shown import shown, visible
from fasten.text.units import Dimension

MOST_FIXINGS = 100
MOST_CARRIED = 20
MOST_RINGS = 99
SMALLEST_SCREW_MM = 3.0  # no method of the program uses a screw under M3
THINNEST_AWG = 36  # the gauge that the standard's series is defined down to

_LONGEST_TEXT, _LONGEST_CARRIES = 100, 400
_KINDS = {"rectangle": "rectangle 240x180", "circle": "circle 165 mm", "row": "row 100 mm"}
_OF_HOLES = ("points 0,0 240,0 238,181", "tape 1-2 240, 2-3 181, 1-3 300")
_BARE_SIDES = r"[0-9][0-9.,/ ½¼¾⅛⅜⅝⅞⁄-]*(?:mm|cm|in|\")? ?[xX×] ?[0-9][0-9.,/ ½¼¾⅛⅜⅝⅞⁄-]*(?:mm|cm|in|\")?"
_INCHES_UNDER_MM = 20.0  # what is screwed down at that distance is measured in mm; 9.5x7 are inches
_TAPPED, _STUD = frozenset({"tapped", "weld", "nut", "boss", "thread", "hole"}), frozenset({"stud", "bolt"})
_STUD_SIZE = r"(m[0-9.]+(?: ?x ?[0-9.]+)?)[ ,x]+([0-9.,/]+ ?[a-z\"']+)"
_RIVET = frozenset({"rivet"})
_PARTED = r"(?<![0-9]),|,(?![0-9])"
_AWG = r"(?:(?P<aughts>[1-4])/0|(?P<zeros>0{1,4})|(?P<number>[1-9][0-9]?))[ -]?awg"
_CARRIES_FIX = "write amplifier, amplifier 5 kg or 5 kg at 80 mm, with commas between"


def read_fixings(text: str, _tables: Tables, where: str) -> int:
    """A count of fixings; raises FastenError unless it is a whole number from 1 to 100."""
    count = int(text) if re.fullmatch("[0-9]{1,4}", text) else 0
    if not 1 <= count <= MOST_FIXINGS:
        what = f"{shown(text)} is not a whole number from 1 to {MOST_FIXINGS}"
        raise FastenError(what, where=where, fix="write how many fixings hold the item, such as 4")
    return count


def read_name(text: str, _tables: Tables, where: str) -> str:
    """The name of another mount point of the job; raises FastenError for one that is too long."""
    name = " ".join(text.split())
    if len(name) > _LONGEST_TEXT:
        raise FastenError(f"{shown(name)} is no name", where=where, fix="write the name of a mount point")
    return name


def read_pattern(text: str, tables: Tables, where: str) -> Pattern:
    """Where the fixings sit, "rectangle 240x180", "circle 165 mm", "row 100 mm", or each hole; bare numbers are mm.

    Raises: FastenError if it is none of these.
    """
    kind, _, rest = " ".join(text.split()).partition(" ")
    if is_of_holes(kind.casefold(), tables):
        from fasten.question.read_holes import read_holes  # with what finds holes from distances: slow to load

        return read_holes(text, tables, where)
    if len(text) <= _LONGEST_TEXT and re.fullmatch(_BARE_SIDES, text.strip()):
        return read_pattern(f"rectangle {text.strip()}", tables, where)
    if len(text) > _LONGEST_TEXT or kind.lower() not in _KINDS:
        raise unknown(kind, "a pattern of fixings", (*_KINDS.values(), *_OF_HOLES), where, among=_KINDS)
    return _pattern(kind.lower(), re.split(" ?[xX×] ?", rest) if rest else [], where)


def read_boss(text: str, _tables: Tables, where: str) -> Boss:
    """A boss by outer diameter and, where it is said, how deep it can be drilled: "8 mm", "8x14 mm".

    Raises: FastenError if it is neither one size nor two.
    """
    sides = re.split(" ?[xX×] ?", " ".join(text.split()))
    if len(text) > _LONGEST_TEXT or len(sides) > 2 or not all(sides):
        raise FastenError(f"{shown(text)} is not a boss", where=where, fix="write 8 mm, or 8x14 mm with its depth")
    unit = _unit(sides[-1]) or _unit(sides[0])
    sizes = [units.read(side if _unit(side) else _with_unit(side, unit), Dimension.LENGTH, where) for side in sides]
    return Boss(sizes[0], sizes[1] if len(sizes) == 2 else None)


def read_item_hole(text: str, tables: Tables, where: str) -> float:
    """The hole in the item [mm]; raises FastenError if it is smaller than any screw wants."""
    hole_mm = units.read(text, Dimension.LENGTH, where)
    rows = tables.rows(METRIC_CLEARANCE)
    least = min((row for row in rows if float(row.size[1:]) >= SMALLEST_SCREW_MM), key=lambda row: row.fine_mm)
    if hole_mm < least.fine_mm:
        wants = f"the smallest, {least.size}, wants {units.write(least.fine_mm, Dimension.LENGTH)}"
        what = f"{units.write(hole_mm, Dimension.LENGTH)} is smaller than any screw: {wants}"
        raise FastenError(what, where=where, fix="drill the item or measure again")
    return hole_mm


def read_body(text: str, tables: Tables, where: str) -> tuple[float, str | None]:
    """The body of a rivet nut [mm] and its thread, "M5 6.9 mm"; "7.1 mm" where bodies of one thread alone are so wide.

    Raises: FastenError if it has no size, no known thread, or bodies of more than one thread have that size.
    """
    said = re.match("[mM][0-9]+(?=[ ,;])", text.strip())
    thread = said.group().upper() if said else None
    size = text.strip()[said.end() :].lstrip(" ,;") if said else text
    body_mm = units.read(size, Dimension.LENGTH, where)
    rows = tables.rows(RIVET_NUTS)
    known = list(dict.fromkeys(row.thread for row in rows))
    if thread is not None and thread not in known:
        raise unknown(thread, "a thread of rivet nuts", known, where)
    of_size = list(dict.fromkeys(row.thread for row in rows if row.has_body(body_mm)))
    if thread is None and len(of_size) > 1:
        size = units.write(body_mm, Dimension.LENGTH)
        what = f"a body of {size} is {' or '.join(of_size)}"
        raise FastenError(what, where=where, fix=f"write its thread too, such as {of_size[0]} {size}")
    return body_mm, thread


Existing = tuple[float | None, ExistingThread | None, tuple[float, ...] | None]


def read_existing(text: str, tables: Tables, where: str) -> Existing:
    """What exists already: holes by size [mm], "5.1 mm" or several, or a thread, "M6", "M6 rivet nut", "M6 stud 20 mm".

    The first is the widest hole, the last every hole where several are said. Raises: FastenError if it is neither, or a
    thread of no known kind.
    """
    words = text.casefold().replace("×", "x").replace("rivet-nut", kinds.RIVET_NUT.name).split()
    said = [word for word in words if word in _TAPPED | _STUD | _RIVET]
    rest = " ".join(word for word in words if word not in said)
    if not said and not re.match("m[0-9]|[#0-9/]+-[0-9]{2}(?![0-9/])", rest):
        return _existing_holes(text, where)
    if "rivet" in said and "nut" not in said:
        rest = text
    kind = "stud" if _STUD & set(said) else kinds.RIVET_NUT.name if _RIVET & set(said) else "tapped"
    sized = re.fullmatch(_STUD_SIZE, rest) if kind == "stud" else None
    name, size = (sized[1], sized[2]) if sized is not None else (rest, None)
    name = name.replace(" ", "")
    threads = tables.rows(METRIC_THREADS)
    rows = {f"m{row.major_mm:g}x{row.pitch_mm:g}": row for row in threads}
    rows |= {row.designation.casefold(): row for row in threads}
    if (row := rows.get(name)) is None:
        what = f"{shown(text)} is no metric thread that is known here"
        fix = "write M6 for a tapped thread, M6 stud 20 mm, M6 rivet nut, or 6.2 mm for a hole"
        raise FastenError(what, where=where, fix=fix)
    length_mm = units.read(size, Dimension.LENGTH, where) if size else None
    return None, ExistingThread(row.designation, kind, length_mm), None


def _existing_holes(text: str, where: str) -> Existing:
    """One size, or one for each fixing in the order of the template; a unit at the end counts for all."""
    parts = [part.strip() for part in re.split(_PARTED + "|;", text) if part.strip()]
    if len(text) > _LONGEST_CARRIES or len(parts) > MOST_FIXINGS:
        raise FastenError(f"{shown(text)} is too many holes", where=where, fix=f"write {MOST_FIXINGS} sizes at most")
    unit = _unit(parts[-1]) if parts else ""
    bare = len(parts) > 1 and unit
    sizes = tuple(
        units.read(part if _unit(part) or not bare else f"{part} {unit}", Dimension.LENGTH, where)
        for part in parts or [text]
    )
    return max(sizes), None, sizes if len(sizes) > 1 else None


def read_carries(text: str, tables: Tables, where: str) -> tuple[Carried, ...]:
    """What the item carries, "amplifier 5 kg, signal-processor".

    Raises: FastenError if a name is not known, a mass or height is no size, or a part says neither name nor mass.
    """
    parts = re.split(_PARTED, text)
    if len(text) > _LONGEST_CARRIES or len(parts) > MOST_CARRIED:
        what = f"{shown(text)} is too much: at most {MOST_CARRIED} things in {_LONGEST_CARRIES} characters"
        raise FastenError(what, where=where, fix="add up the small ones, such as 2 kg")
    return tuple(_carried(part.split(), tables, where) for part in parts)


def read_ring(text: str, tables: Tables, where: str) -> str:
    """The stud that a ring terminal is for, "M8"; raises FastenError if no ring terminal is made for it."""
    studs = [row.stud for row in tables.rows(RING_STUDS)]
    found = next((stud for stud in studs if stud.casefold() == text.casefold()), None)
    if found is None:
        fix = f"write {', '.join(studs[:-1])} or {studs[-1]}: what the terminal is marked with"
        raise FastenError(f"{shown(text)} is no stud that a ring terminal is known for", where=where, fix=fix)
    return found


def read_rings(text: str, _tables: Tables, where: str) -> int:
    """How many rings share a stud; raises FastenError unless it is a whole number from 1 to 99."""
    count = int(text) if re.fullmatch("[0-9]{1,2}", text) else 0
    if count < 1:
        what = f"{shown(text)} is not a whole number from 1 to {MOST_RINGS}"
        raise FastenError(what, where=where, fix="write how many rings go on the stud, such as 1")
    return count


def read_cable(text: str, _tables: Tables, where: str) -> float:
    """The area of a cable's conductor [mm²]: "50 mm2", "50" or "1/0 AWG"; raises FastenError for any other text."""
    plain = " ".join(text.split()).casefold()
    if found := re.fullmatch(_AWG, plain):
        return _awg_mm2(found, text, where)
    if re.fullmatch("[0-9]+(?:[.,][0-9]+)?", plain):
        return units.read(f"{plain} mm²", Dimension.AREA, where)
    if re.fullmatch("[0-9/]+ ?(?:ga|gauge|gage|g|b&s)?", plain):
        size = visible(plain.rstrip("abegsu& "), 20)
        what = f"{shown(text)} does not say by which measure"
        raise FastenError(what, where=where, fix=f"write {size} AWG, or the area, such as 50 mm2")
    return units.read(text, Dimension.AREA, where)


def read_grade(text: str, tables: Tables, where: str) -> str:
    """The property class of a screw; raises FastenError with the nearest."""
    return choice(text, {row.class_: row.class_ for row in tables.rows(PROPERTY_CLASSES)}, where)


def read_case(text: str, tables: Tables, where: str) -> str:
    """A load case to choose; raises FastenError with the nearest.

    The weight alone always counts: it is no case to choose.
    """
    rows = [row for row in tables.rows(LOAD_CASES) if row.kind != "sustained"]
    return choice(text, {row.case: row.case for row in rows}, where)


def _pattern(kind: str, sides: list[str], where: str) -> Pattern:
    wanted, words = (2, "two sides") if kind == "rectangle" else (1, "one size")
    if len(sides) != wanted:
        raise FastenError(f"a {kind} has {words}", where=where, fix=f"write {_KINDS[kind]}")
    unit = _unit(sides[-1]) or _unit(sides[0])
    sizes = [units.read(side if _unit(side) else _with_unit(side, unit), Dimension.LENGTH, where) for side in sides]
    if not unit and max(sizes) < _INCHES_UNDER_MM and not any(map(_is_bare_fraction, sides)):
        raise _perhaps_inches(kind, sides, where)
    return Pattern(kind, sizes[0], sizes[1] if wanted == 2 else None)


def _perhaps_inches(kind: str, sides: list[str], where: str) -> FastenError:
    """The question that so small a pattern without a unit raises: it was likely measured in inches."""
    said = "x".join(sides)
    inches = units.read(f"{sides[0]} in", Dimension.LENGTH, where)
    what = f"{kind} {said} has no unit, and {sides[0]} in would be {units.write(inches, Dimension.LENGTH)}"
    return FastenError(what, where=where, fix=f"write {kind} {said} in or {kind} {said} mm")


def _unit(side: str) -> str:
    """The unit after a number; nothing where there is none."""
    return side.lstrip("-+0123456789.,/ ½¼¾⅛⅜⅝⅞⁄")


def _with_unit(side: str, unit: str) -> str:
    """A side without a unit takes the other's; a bare fraction stays what it is everywhere, inches."""
    bare_fraction = not unit and _is_bare_fraction(side)
    return side if bare_fraction or not side else f"{side} {unit or 'mm'}"


def _is_bare_fraction(side: str) -> bool:
    return re.search("[/½¼¾⅛⅜⅝⅞⁄]", side) is not None


def _carried(words: list[str], tables: Tables, where: str) -> Carried:
    at = next((n for n, word in enumerate(words) if word.casefold() == "at"), len(words))
    start = next((n for n, word in enumerate(words[:at]) if not word[0].isalpha()), at)
    name, mass, height = (" ".join(part) for part in (words[:start], words[start:at], words[at + 1 :]))
    if not name and not mass:
        raise FastenError("a part says neither what nor how heavy", where=where, fix=_CARRIES_FIX)
    return Carried(
        name=_item(name, tables, where) if name else None,
        mass_kg=units.read(mass, Dimension.MASS, where) if mass else None,
        cg_mm=units.read(height, Dimension.LENGTH, where) if at < len(words) else None,
    )


def _item(name: str, tables: Tables, where: str) -> str:
    try:
        return read_item(name, tables, where)
    except FastenError as error:
        raise FastenError(error.what, where=where, fix=error.fix or _CARRIES_FIX) from error


def _awg_mm2(found: re.Match[str], text: str, where: str) -> float:
    """One gauge number is one step; 1/0 is number 0, and each aught more lies a step before it."""
    aughts = int(found["aughts"] or len(found["zeros"] or ""))
    number = int(found["number"] or 0)
    if number > THINNEST_AWG:
        what = f"{shown(text)} is thinner than {THINNEST_AWG} AWG, where the series ends"
        raise FastenError(what, where=where, fix="write the area, such as 0.01 mm2")
    return awg_area_mm2(steps=4 - aughts if aughts else number + 3)
