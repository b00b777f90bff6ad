"""What a person typed, field by field, as a Question: one reading for the command line, the screen and job files.

    onto     = material, thickness or gauge, place, "ring", in any order   steel 0.8 mm, 20 ga steel, mdf ring 18 mm
    between  = soft layer and its thickness                             foam 3 mm
    pattern  = "rectangle" size "x" size | "circle" size | "row" size   rectangle 240x180, circle 165 mm
    boss     = outer diameter, "x" depth it can be drilled to           8 mm, 8x14 mm

Inside a pattern or a boss, and only there, bare numbers are millimetres; where one side has a unit, it counts for both.
Whatever is not said stays unsaid: nothing here fills a gap.
"""

import re
from collections.abc import Callable, Mapping
from enum import Enum
from typing import TypeVar

from fasten.catalog.materials import Item, Material, Place, SoftLayer
from fasten.catalog.practice import LoadCase
from fasten.catalog.registry import TABLES
from fasten.catalog.rows import Gauge, MetricClearance, PropertyClass
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.model import (
    Between,
    Boss,
    Into,
    Outline,
    Panel,
    Pattern,
    Question,
    Reach,
    Removal,
    ThreadThere,
    Visible,
    Where,
)
from fasten.question.read_parts import read_cable, read_carries, read_fixings, read_hole_there, read_ring, read_rings
from fasten.record import record
from fasten.text import units
from fasten.text.figures import words
from fasten.text.names import choice, either, folded, phrases, tokens, unknown
from fasten.text.shown import shown
from fasten.text.units import Dimension

FIELDS = (
    "item", "onto", "removed", "mass", "fixings", "pattern", "item-thickness", "item-hole", "item-material", "cg",
    "panel", "between", "behind", "edge", "boss", "into", "reach", "where", "visible", "grade", "body", "hole-there",
    "case", "carries", "run", "ring", "rings", "cable", "current",
)  # fmt: skip
SMALLEST_SCREW_MM = 3.0  # no method of the program uses a screw under M3
NO_PANEL = ("tinned_copper",)  # an item may be of it; the sheet equations are for steel and aluminium only
PLACE_MATERIALS = ("steel", "galvanised_steel")  # the thickness range of a place is that of its body steel

_LONGEST_TEXT = 100
_NOISE = frozenset({"bare", "sheet", "plate", "panel"})
_OUTLINES = dict.fromkeys(("ring", "round ring", "adapter ring", "speaker ring", "spacer ring"), Outline.RING)
_KINDS = {"rectangle": "rectangle 240x180", "circle": "circle 165 mm", "row": "row 100 mm"}

Value = TypeVar("Value")
EnumT = TypeVar("EnumT", bound=Enum)


def read_question(fields: Mapping[str, str], tables: Tables) -> Question:
    """Read the fields of a question, keyed by the names in FIELDS; an empty or missing one was not said.

    Raises: FastenError, its `where` the field, if a text is not understood, or item, onto or removed is missing.
    """
    said = {name: text.strip() for name, text in fields.items() if text.strip()}
    for name in said:
        if name not in FIELDS:
            raise unknown(name, "a field of a question", FIELDS, "field")
    if unsaid := [name for name in ("item", "onto", "removed") if name not in said]:
        raise missing(unsaid[0])
    material, thickness_mm, place, outline = read_onto(said["onto"], tables)
    reader = _Reader(said)
    there = reader.optional("hole-there", lambda text: read_hole_there(text, tables))
    question = Question(
        item=find_item(said["item"], tables).item,
        material=material,
        thickness_mm=thickness_mm,
        place=place,
        removed=reader.enum("removed", Removal),
        mass_kg=reader.size("mass", Dimension.MASS),
        fixings=reader.optional("fixings", read_fixings),
        pattern=reader.optional("pattern", read_pattern),
        item_thickness_mm=reader.size("item-thickness"),
        item_hole_mm=reader.optional("item-hole", lambda text: read_item_hole(text, tables)),
        item_material=reader.optional("item-material", lambda text: find_material(text, tables, "item-material")),
        cg_mm=reader.size("cg"),
        panel=reader.enum("panel", Panel),
        between=reader.optional("between", lambda text: read_between(text, tables)),
        behind_mm=reader.size("behind", allow_zero=True),
        edge_mm=reader.size("edge"),
        outline=outline,
        boss=reader.optional("boss", read_boss),
        into=reader.enum("into", Into),
        reach=reader.enum("reach", Reach),
        where=reader.enum("where", Where),
        visible=reader.enum("visible", Visible),
        grade=reader.optional("grade", lambda text: _class(text, tables)),
        body_mm=reader.size("body"),
        hole_there_mm=there if isinstance(there, float) else None,
        thread_there=there if isinstance(there, ThreadThere) else None,
        case=reader.optional("case", lambda text: _case(text, tables)),
        carries=reader.optional("carries", lambda text: read_carries(text, lambda name: find_item(name, tables))),
        run_mm=reader.size("run"),
        ring=reader.optional("ring", lambda text: read_ring(text, tables)),
        rings=reader.optional("rings", read_rings),
        cable_mm2=reader.optional("cable", read_cable),
        current_a=reader.size("current", Dimension.CURRENT),
    )
    if question.pattern is not None and question.fixings is not None:
        check_count(question.pattern, question.fixings)
    return question


def find_item(text: str, tables: Tables) -> Item:
    """The item preset of this name, as its key, title or another name; raises FastenError with the nearest names."""
    rows = tables.rows(Item, "items")
    names = {phrase: row for row in reversed(rows) for phrase in phrases(row.item, row.title, row.other_names)}
    if (row := names.get(folded(text))) is None:
        raise unknown(text, "a known item", [row.item for row in rows], "item", among=names)
    return row


def find_material(text: str, tables: Tables, where: str) -> str:
    """The key of the hard material of this name; raises FastenError with the nearest names."""
    names = _materials(tables)
    if (row := names.get(folded(text))) is None:
        raise unknown(text, "a known material", _titles(tables), where, among=names)
    return row.material


def read_onto(text: str, tables: Tables) -> tuple[str, float | None, str | None, Outline | None]:
    """A substrate as (material, thickness [mm] or None, place or None, outline or None).

    Thickness or place is always there; an outline is known where the text says so.

    Raises: FastenError if the material, or both thickness and place, are missing, or anything is not known.
    """
    materials, soft = _materials(tables), _soft(tables)
    places = {words: row for row in tables.rows(Place, "places") for words in phrases(row.place)}
    found = _split(text, "onto", _titles(tables), materials, places, soft, _OUTLINES)
    if layer := found.only(soft, "soft layers"):
        what = f"{layer.material} is a soft layer, which carries no fixing"
        raise FastenError(what, where="onto", fix=f"say what is under it, and {layer.material} 3 mm as between")
    place = found.only(places, "places")
    gauge = found.gauge()
    metal = materials.get(folded(gauge.metal)) if gauge and gauge.metal else None
    material = found.only(materials, "materials") or metal
    if material is None:
        raise _no_material(text, found)
    if material.material in NO_PANEL:
        what = f"{material.title} is what rings are made of, no panel to fasten to"
        raise FastenError(what, where="onto", fix="say what the ring is screwed to, such as steel 0.8 mm")
    thickness_mm = _gauge_mm(gauge.number, material, tables) if gauge else found.length_mm()
    check_thickness(material, thickness_mm, place.place if place else None)
    outline = found.only(_OUTLINES, "outlines")
    return material.material, thickness_mm, place.place if place else None, outline


def check_thickness(material: Material, thickness_mm: float | None, place: str | None) -> None:
    """Check that the thickness is said, or follows from a place; raises FastenError, which asks for it."""
    name, fix, of_body = _title(material), _example(material), material.material in PLACE_MATERIALS
    if thickness_mm is not None or (place is not None and of_body):
        return
    if place is not None:
        what = f"a place gives the thickness of body steel only, not of {name}"
        raise FastenError(what, where="onto", fix=f"give a thickness: {fix} {place}")
    fix = f"give a thickness or a place: {fix}, {name} floor" if of_body else f"give a thickness: {fix}"
    raise FastenError(f"{name} has no thickness", where="onto", fix=fix)


def read_between(text: str, tables: Tables) -> Between:
    """A soft layer between item and substrate, "foam 3 mm"; raises FastenError if material or thickness is missing."""
    names = _soft(tables)
    choices = [row.material for row in names.values()]
    found = _split(text, "between", choices, names)
    layer, thickness_mm = found.only(names, "soft layers"), found.length_mm()
    if layer is None:
        what = f"{shown(text)} does not say of what"
        raise FastenError(what, where="between", fix=f"write {either(choices)} before it")
    if thickness_mm is None:
        raise FastenError(f"{layer.material} has no thickness", where="between", fix=f"write {layer.material} 3 mm")
    return Between(layer.material, thickness_mm)


def read_pattern(text: str) -> Pattern:
    """Where the fixings sit, "rectangle 240x180", "circle 165 mm" or "row 100 mm"; bare numbers are mm.

    Raises: FastenError if it is none of these.
    """
    kind, _, rest = " ".join(text.split()).partition(" ")
    if len(text) > _LONGEST_TEXT or kind.lower() not in _KINDS:
        raise unknown(kind, "a pattern of fixings", _KINDS.values(), "pattern", among=_KINDS)
    return _pattern(kind.lower(), re.split(" ?[xX×] ?", rest) if rest else [])


def check_count(pattern: Pattern, count: int) -> None:
    """Check that so many fixings can sit in the pattern; raises FastenError."""
    if count == 1:
        raise FastenError("one fixing takes no pattern", where="pattern", fix="leave it out or say how many fixings")
    if pattern.kind == "rectangle" and (count < 4 or count % 2):
        what = f"a rectangle takes an even count of fixings from 4, not {count}"
        raise FastenError(what, where="pattern", fix="change fixings, or write circle 165 mm or row 100 mm")


def read_boss(text: str) -> Boss:
    """A boss by outer diameter and, where it is said, how deep it can be drilled: "8 mm", "8x14 mm".

    Raises: FastenError if it is neither one size nor two.
    """
    sides = re.split(" ?[xX×] ?", " ".join(text.split()))
    if len(text) > _LONGEST_TEXT or len(sides) > 2:
        raise FastenError(f"{shown(text)} is not a boss", where="boss", fix="write 8 mm, or 8x14 mm with its depth")
    unit = _unit(sides[-1]) or _unit(sides[0])
    sizes = [units.read(side if _unit(side) else _with_unit(side, unit), Dimension.LENGTH, "boss") for side in sides]
    return Boss(sizes[0], sizes[1] if len(sizes) == 2 else None)


def read_item_hole(text: str, tables: Tables) -> float:
    """The hole in the item [mm]; raises FastenError if it is smaller than any screw wants."""
    hole_mm = units.read(text, Dimension.LENGTH, "item-hole")
    rows = tables.rows(MetricClearance, "metric-clearance")
    least = min((row for row in rows if float(row.size[1:]) >= SMALLEST_SCREW_MM), key=lambda row: row.fine_mm)
    if hole_mm < least.fine_mm:
        wants = f"the smallest, {least.size}, wants {units.write(least.fine_mm, Dimension.LENGTH)}"
        what = f"{units.write(hole_mm, Dimension.LENGTH)} is smaller than any screw: {wants}"
        raise FastenError(what, where="item-hole", fix="drill the item or measure again")
    return hole_mm


@record
class _Reader:
    """The fields that were said."""

    said: Mapping[str, str]

    def optional(self, name: str, reading: Callable[[str], Value]) -> Value | None:
        return reading(self.said[name]) if name in self.said else None

    def size(self, name: str, dimension: Dimension = Dimension.LENGTH, *, allow_zero: bool = False) -> float | None:
        return self.optional(name, lambda text: units.read(text, dimension, name, allow_zero=allow_zero))

    def enum(self, name: str, kind: type[EnumT]) -> EnumT | None:
        names = {str(member.value): member for member in kind}
        return self.optional(name, lambda text: choice(text, names, name))


@record
class _Found:
    """What a text of names and one size was split into: the rows named, in order, and the text of the size."""

    where: str
    rows: tuple[object, ...]
    size: str

    def only(self, names: Mapping[str, Value], what: str) -> Value | None:
        """The one row named out of a dictionary of names."""
        rows = {id(row): row for row in names.values() if any(row is found for found in self.rows)}
        if len(rows) > 1:
            raise FastenError(f"two {what} are named", where=self.where, fix="name one")
        return next(iter(rows.values()), None)

    def gauge(self) -> units.Gauge | None:
        """The sheet gauge that the size is, if it is one."""
        size = _size_or_none(self.size)
        return size if isinstance(size, units.Gauge) else None

    def length_mm(self) -> float | None:
        """The length that the size is; nothing where none was written."""
        return units.read(self.size, Dimension.LENGTH, self.where) if self.size else None


def missing(name: str) -> FastenError:
    what, fix = {
        "item": ("nothing is said to be mounted", "say what it is, such as amplifier"),
        "onto": ("nothing is said to mount it on", "say material and thickness, such as steel 0.8 mm"),
        "removed": ("nothing is said", "say how often it comes off: never, rarely, yearly, monthly or weekly"),
    }[name]
    return FastenError(what, where=name, fix=fix)


def _materials(tables: Tables) -> dict[str, Material]:
    """Every name of a material that can carry a fixing; its key wins over another's second name."""
    rows = [row for row in tables.rows(Material, "materials") if row.family != "soft"]
    names = {words: row for row in reversed(rows) for words in phrases(row.title, row.other_names)}
    return names | {words: row for row in rows for words in phrases(row.material)}


def _soft(tables: Tables) -> dict[str, SoftLayer]:
    return {words: row for row in tables.rows(SoftLayer, "soft-layers") for words in phrases(row.material)}


def _title(material: Material) -> str:
    return words(material.material)


def _titles(tables: Tables) -> list[str]:
    return [_title(row) for row in tables.rows(Material, "materials") if row.family != "soft"]


def _split(text: str, where: str, choices: list[str], *dictionaries: Mapping[str, object]) -> _Found:
    """Take the names of the dictionaries out of a text, the longest first; what is left must be one size or nothing."""
    if len(text) > _LONGEST_TEXT:
        what = f"{shown(text)} is {len(text)} characters long, at most {_LONGEST_TEXT}"
        raise FastenError(what, where=where, fix="write it short")
    names = {words: row for dictionary in dictionaries for words, row in dictionary.items()}
    left = tokens(text)
    rows: list[object] = []
    rest: list[str] = []
    while left:
        length = next((n for n in range(len(left), 0, -1) if " ".join(left[:n]).casefold() in names), 0)
        if length:
            rows.append(names[" ".join(left[:length]).casefold()])
        elif left[0].casefold() not in _NOISE:
            rest.append(left[0])
        left = left[max(length, 1) :]
    if stray := _stray(rest):
        raise unknown(stray, f"known in {where}", choices, where, among=names)
    return _Found(where, tuple(rows), " ".join(rest))


def _stray(rest: list[str]) -> str:
    """The words left over that are no part of a size: those before a number, or behind a size that reads without."""
    if _size_or_none(" ".join(rest)) is not None:
        return ""
    if start := next((n for n, token in enumerate(rest) if not token[0].isalpha()), len(rest)):
        return " ".join(rest[:start])
    ends = (end for end in range(len(rest) - 1, 0, -1) if _size_or_none(" ".join(rest[:end])) is not None)
    return " ".join(rest[next(ends, len(rest)) :])


def _size_or_none(text: str) -> units.Quantity | units.Gauge | None:
    try:
        return units.read_any(text)
    except FastenError:
        return None


def _gauge_mm(number: int, material: Material, tables: Tables) -> float:
    """The thickness [mm] of a gauge, by the metal's own table."""
    known = phrases(material.material, material.title, material.other_names)
    table = next((name for phrase in known if (name := f"gauges-{phrase.replace(' ', '-')}") in TABLES), None)
    name, fix = _title(material), f"write its thickness: {_example(material)}"
    if table is None:
        raise FastenError(f"{name} is not sold by gauge", where="onto", fix=fix)
    if (row := tables.find(Gauge, table, number)) is None:
        numbers = [gauge.number for gauge in tables.rows(Gauge, table)]
        what = f"{number} ga is not in the gauge table of {name}, {min(numbers)} to {max(numbers)} ga"
        raise FastenError(what, where="onto", fix=fix)
    # Read as text, so that 0.0359 in and its gauge give the same float.
    return units.read(f"{row.thickness_in} in", Dimension.LENGTH, "onto")


def _no_material(text: str, found: _Found) -> FastenError:
    if gauge := found.gauge():
        what = f"{gauge.number} ga is a gauge, which needs its metal"
        return FastenError(what, where="onto", fix=f"write {gauge.number} ga steel")
    found.length_mm()  # what is no length is the first thing to put right
    what = f"{shown(text)} names no material, and it is never guessed"
    return FastenError(what, where="onto", fix=f"say what it is made of, such as steel {found.size or folded(text)}")


def _example(material: Material) -> str:
    return f"{_title(material)} {'0.8' if material.family == 'sheet' else '18'} mm"


def _pattern(kind: str, sides: list[str]) -> Pattern:
    wanted, words = (2, "two sides") if kind == "rectangle" else (1, "one size")
    if len(sides) != wanted:
        raise FastenError(f"a {kind} has {words}", where="pattern", fix=f"write {_KINDS[kind]}")
    unit = _unit(sides[-1]) or _unit(sides[0])
    sizes = [units.read(side if _unit(side) else _with_unit(side, unit), Dimension.LENGTH, "pattern") for side in sides]
    return Pattern(kind, sizes[0], sizes[1] if wanted == 2 else None)


def _unit(side: str) -> str:
    """The unit after a number; nothing where there is none."""
    return side.lstrip("-+0123456789.,/ ½¼¾⅛⅜⅝⅞⁄")


def _with_unit(side: str, unit: str) -> str:
    """A side without a unit takes the other's; a bare fraction stays what it is everywhere, inches."""
    bare_fraction = not unit and re.search("[/½¼¾⅛⅜⅝⅞⁄]", side)
    return side if bare_fraction or not side else f"{side} {unit or 'mm'}"


def _class(text: str, tables: Tables) -> str:
    return choice(text, {row.class_: row.class_ for row in tables.rows(PropertyClass, "property-classes")}, "grade")


def _case(text: str, tables: Tables) -> str:
    """The weight alone always counts: it is no case to choose."""
    rows = [row for row in tables.rows(LoadCase, "load-cases") if row.kind != "sustained"]
    return choice(text, {row.case: row.case for row in rows}, "case")
