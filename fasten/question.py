"""What a person typed, field by field, as a Question: one reading for the command line, the screen and job files.

    onto     = material, thickness or gauge, place, in any order        steel 0.8 mm, 20 ga steel, steel floor
    between  = soft layer and its thickness                             foam 3 mm
    pattern  = "rectangle" size "x" size | "circle" size | "row" size   rectangle 240x180, circle 165 mm

Inside a pattern, and only there, bare numbers are millimetres; where one side has a unit, it counts for both.
Whatever is not said stays unsaid: nothing here fills a gap.
"""

import re
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass
from enum import Enum
from typing import TypeVar

from fasten import units
from fasten.catalog.load import shown
from fasten.catalog.parts import Item, LoadCase, Material, Place, SoftLayer
from fasten.catalog.registry import TABLES
from fasten.catalog.rows import Gauge, MetricClearance, PropertyClass
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.model import Between, Panel, Pattern, Question, Reach, Removal, Visible, Where
from fasten.units import Dimension

FIELDS = (
    "item", "onto", "removed", "mass", "fixings", "pattern", "item-thickness", "item-hole", "item-material", "cg",
    "panel", "between", "behind", "edge", "reach", "where", "visible", "grade", "body", "hole-there", "case",
)  # fmt: skip
MOST_FIXINGS = 100
SMALLEST_SCREW_MM = 3.0  # no method of the program uses a screw under M3
PLACE_MATERIALS = ("steel", "galvanised-steel")  # the thickness range of a place is that of its body steel

_LONGEST_TEXT = 100
_LISTED = 120  # characters of a list of choices in a message
_NOISE = frozenset({"sheet", "plate", "panel"})
_KINDS = ("rectangle", "circle", "row")

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
    reader = _Reader(said, tables)
    item, onto, removed = reader.required("item"), reader.required("onto"), reader.required("removed")
    material, thickness_mm, place = read_onto(onto, tables)
    question = Question(
        item=find_item(item, tables).item,
        material=material,
        thickness_mm=thickness_mm,
        place=place,
        removed=read_enum(removed, Removal, "removed"),
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
        reach=reader.enum("reach", Reach),
        where=reader.enum("where", Where),
        visible=reader.enum("visible", Visible),
        grade=reader.optional("grade", lambda text: _read_grade(text, tables)),
        body_mm=reader.size("body"),
        hole_there_mm=reader.size("hole-there"),
        case=reader.optional("case", lambda text: _read_case(text, tables)),
    )
    if question.pattern is not None and question.fixings is not None:
        check_count(question.pattern, question.fixings)
    return question


def find_item(text: str, tables: Tables) -> Item:
    """The item preset of this name, as its key, title or another name; raises FastenError with the nearest names."""
    rows = tables.rows(Item, "items")
    names = {phrase: row for row in reversed(rows) for phrase in _phrases(row.item, row.title, row.other_names)}
    row = names.get(_words(text))
    if row is None:
        raise unknown(text, "a known item", [row.item for row in rows], "item", among=names)
    return row


def find_material(text: str, tables: Tables, where: str) -> str:
    """The key of the hard material of this name; raises FastenError with the nearest names."""
    names = _material_names(tables)
    if (row := names.get(_words(text))) is None:
        raise unknown(text, "a known material", _hard_materials(tables), where, among=names)
    return _hard(row, where).material


def read_onto(text: str, tables: Tables) -> tuple[str, float | None, str | None]:
    """A substrate as (material, thickness [mm] or None, place or None); one of the last two is always there.

    Raises: FastenError if the material, or both thickness and place, are missing, or anything is not known.
    """
    materials, places = _material_names(tables), _place_names(tables)
    found = _split(text, "onto", materials, places)
    material, place = found.only(materials, "materials"), found.only(places, "places")
    if not found.size and material is None and place is None:
        raise unknown(text, "a known material", _hard_materials(tables), "onto", among=[*materials, *places])
    thickness_mm = _thickness(found, material, tables)
    if material is None:
        raise _no_material(text, found.size)
    _hard(material, "onto")
    place_name = place.place if place else None
    check_thickness(material, thickness_mm, place_name)
    return material.material, thickness_mm, place_name


def check_thickness(material: Material, thickness_mm: float | None, place: str | None) -> None:
    """Check that the thickness is said, or follows from a place; raises FastenError, which asks for it."""
    name, example = material.material, _example(material)
    if thickness_mm is not None or (place is not None and name in PLACE_MATERIALS):
        return
    if place is not None:
        what = f"a place gives the thickness of body steel only, not of {name}"
        raise FastenError(what, where="onto", fix=f"give a thickness: {example} {place}")
    places = f" or a place: {example}, {name} floor" if name in PLACE_MATERIALS else f": {example}"
    raise FastenError(f"{name} has no thickness", where="onto", fix=f"give a thickness{places}")


def read_between(text: str, tables: Tables) -> Between:
    """A soft layer between item and substrate, "foam 3 mm"; raises FastenError if material or thickness is missing."""
    names = {phrase: row for row in tables.rows(SoftLayer, "soft-layers") for phrase in _phrases(row.material)}
    found = _split(text, "between", names)
    layer = found.only(names, "layers")
    if layer is None:
        choices = [row.material for row in names.values()]
        raise unknown(text, "a soft layer with its thickness", choices, "between", example=f"{choices[0]} 3 mm")
    if not found.size:
        fix = f"write {layer.material} 3 mm"
        raise FastenError(f"{layer.material} has no thickness", where="between", fix=fix)
    return Between(layer.material, units.read(found.size, Dimension.LENGTH, "between"))


def read_fixings(text: str) -> int:
    """A count of fixings; raises FastenError unless it is a whole number from 1 to 100."""
    count = int(text) if re.fullmatch("[0-9]{1,4}", text) else 0
    if not 1 <= count <= MOST_FIXINGS:
        what = f"{shown(text)} is not a whole number from 1 to {MOST_FIXINGS}"
        raise FastenError(what, where="fixings", fix="write how many fixings hold the item, such as 4")
    return count


def read_pattern(text: str) -> Pattern:
    """Where the fixings sit, "rectangle 240x180", "circle 165 mm" or "row 100 mm"; bare numbers are mm.

    Raises: FastenError if it is none of these.
    """
    kind, _, rest = " ".join(text[: _LONGEST_TEXT + 1].split()).partition(" ")
    if len(text) > _LONGEST_TEXT or kind.lower() not in _KINDS:
        example = "rectangle 240x180, circle 165 mm or row 100 mm"
        raise unknown(text, "a pattern of fixings", _KINDS, "pattern", near=kind, example=example)
    return _pattern(kind.lower(), re.split(" ?[xX×] ?", rest) if rest else [])


def check_count(pattern: Pattern, count: int) -> None:
    """Check that so many fixings can sit in the pattern; raises FastenError."""
    if count == 1:
        raise FastenError("one fixing takes no pattern", where="pattern", fix="leave it out or say how many fixings")
    if pattern.kind == "rectangle" and (count < 4 or count % 2):
        what = f"a rectangle takes an even count of fixings from 4, not {count}"
        raise FastenError(what, where="pattern", fix="change fixings, or write circle 165 mm or row 100 mm")


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


def read_enum(text: str, kind: type[EnumT], where: str) -> EnumT:
    """The member of an enum that the text names; raises FastenError with the nearest, or all of them."""
    names = {str(member.value): member for member in kind}
    return _choice(text, names, where)


def unknown(
    text: str,
    wanted: str,
    choices: Iterable[str],
    where: str,
    *,
    among: Iterable[str] = (),
    near: str = "",
    example: str = "",
) -> FastenError:
    """The refusal of a text that is none of the choices, with the nearest of them or `example`, or else the choices.

    `among` holds every spelling to look for near ones in, `near` the part of the text that should be one."""
    from difflib import get_close_matches

    names = list(dict.fromkeys(choices))
    spellings = list(dict.fromkeys([*names, *among]))
    close = get_close_matches(_words((near or text)[:_LONGEST_TEXT]), spellings, n=3, cutoff=0.6)
    what = f"{shown(text)} is not {wanted}"
    if close:
        return FastenError(what, where=where, fix=f"did you mean {_either(close)}?")
    return FastenError(what, where=where, fix=f"write {example or _either(_few(names))}")


@dataclass(frozen=True)
class _Reader:
    """The fields that were said and the tables to understand them by."""

    said: Mapping[str, str]
    tables: Tables

    def required(self, name: str) -> str:
        if name not in self.said:
            raise missing(name)
        return self.said[name]

    def optional(self, name: str, reading: Callable[[str], Value]) -> Value | None:
        return reading(self.said[name]) if name in self.said else None

    def size(self, name: str, dimension: Dimension = Dimension.LENGTH, *, allow_zero: bool = False) -> float | None:
        return self.optional(name, lambda text: units.read(text, dimension, name, allow_zero=allow_zero))

    def enum(self, name: str, kind: type[EnumT]) -> EnumT | None:
        return self.optional(name, lambda text: read_enum(text, kind, name))


@dataclass(frozen=True)
class _Found:
    """What a text of names and one size was split into: the rows named, in order, and the text of the size."""

    where: str
    rows: tuple[object, ...]
    size: str

    def only(self, names: Mapping[str, Value], what: str) -> Value | None:
        """The one row named out of a dictionary of names."""
        rows = [row for row in names.values() if any(row is found for found in self.rows)]
        distinct = list({id(row): row for row in rows}.values())
        if len(distinct) > 1:
            raise FastenError(f"two {what} are named", where=self.where, fix="name one")
        return distinct[0] if distinct else None


def missing(name: str) -> FastenError:
    what, fix = {
        "item": ("nothing is said to be mounted", "say what it is, such as amplifier"),
        "onto": ("nothing is said to mount it on", "say material and thickness, such as steel 0.8 mm"),
        "removed": ("nothing is said", "say how often it comes off: never, rarely, yearly, monthly or weekly"),
    }[name]
    return FastenError(what, where=name, fix=fix)


def _words(text: str) -> str:
    """A name as names are compared: lower case, single spaces, none of the hyphens between words."""
    return " ".join(_name_tokens(text))


def _name_tokens(text: str) -> list[str]:
    tokens: list[str] = []
    for token in text.casefold().split():
        tokens += re.split("[-_]+", token.strip("-_")) if token[0].isalpha() else [token]
    return [token for token in tokens if token]


def _phrases(*names: str) -> list[str]:
    """Every name a row goes by, as names are compared; `|` splits several, `-` alone is none."""
    return [words for name in names for part in name.split("|") if (words := _words(part)) not in ("", "-")]


def _material_names(tables: Tables) -> dict[str, Material]:
    rows = tables.rows(Material, "materials")
    names = {words: row for row in reversed(rows) for words in _phrases(row.title, row.other_names)}
    return names | {words: row for row in rows for words in _phrases(row.material)}


def _place_names(tables: Tables) -> dict[str, Place]:
    return {words: row for row in tables.rows(Place, "places") for words in _phrases(row.place)}


def _hard_materials(tables: Tables) -> list[str]:
    return [row.material for row in tables.rows(Material, "materials") if row.family != "soft"]


def _hard(material: Material, where: str) -> Material:
    if material.family == "soft":
        what = f"{material.material} is a soft layer, which carries no fixing"
        raise FastenError(what, where=where, fix=f"say what is under it, and {material.material} under between")
    return material


def _split(text: str, where: str, *dictionaries: Mapping[str, object]) -> _Found:
    """Take the names of the dictionaries out of a text, the longest first; what is left must be one size or nothing."""
    if len(text) > _LONGEST_TEXT:
        what = f"{shown(text)} is {len(text)} characters long, at most {_LONGEST_TEXT}"
        raise FastenError(what, where=where, fix="write it short")
    names = {words: row for dictionary in dictionaries for words, row in dictionary.items()}
    tokens = [part for token in text.split() for part in _name_tokens_kept(token.rstrip(",;"))]
    rows: list[object] = []
    rest: list[str] = []
    while tokens:
        length = next((n for n in range(len(tokens), 0, -1) if " ".join(tokens[:n]).casefold() in names), 0)
        if length:
            rows.append(names[" ".join(tokens[:length]).casefold()])
        elif tokens[0].casefold() not in _NOISE:
            rest.append(tokens[0])
        tokens = tokens[max(length, 1) :]
    return _Found(where, tuple(rows), _size_text(rest, where, names))


def _name_tokens_kept(token: str) -> list[str]:
    """A token split at the hyphens between words, in its own case; one that begins a size is left alone."""
    return [part for part in re.split("[-_]+", token) if part] if token[:1].isalpha() else [token] * bool(token)


def _size_text(rest: list[str], where: str, names: Mapping[str, object]) -> str:
    """The words left over as the text of one size, or a refusal naming the word that is not known."""
    start = next((n for n, token in enumerate(rest) if not token[0].isalpha()), len(rest))
    if start:
        raise unknown(" ".join(rest[:start]), "a known name", [], where, among=names, example="steel 0.8 mm")
    for end in range(len(rest), 0, -1):
        try:
            units.read_any(" ".join(rest[:end]))
        except FastenError:
            continue
        if end < len(rest):
            raise unknown(" ".join(rest[end:]), "a known name", [], where, among=names, example="steel 0.8 mm")
    return " ".join(rest)


def _thickness(found: _Found, material: Material | None, tables: Tables) -> float | None:
    """The thickness [mm] of the size that was found; a gauge by its metal's own table."""
    if not found.size:
        return None
    try:
        size = units.read_any(found.size)
    except FastenError:
        size = None
    if not isinstance(size, units.Gauge):
        return units.read(found.size, Dimension.LENGTH, found.where)
    if material is None:
        what = f"{size.number} ga is a gauge, which needs its metal"
        raise FastenError(what, where=found.where, fix=f"write {size.number} ga steel")
    return _gauge_mm(size.number, material, tables)


def _gauge_mm(number: int, material: Material, tables: Tables) -> float:
    phrases = _phrases(material.material, material.title, material.other_names)
    table = next((name for phrase in phrases if (name := f"gauges-{phrase.replace(' ', '-')}") in TABLES), None)
    if table is None:
        what = f"{material.material} is not sold by gauge"
        raise FastenError(what, where="onto", fix=f"write its thickness: {_example(material)}")
    row = tables.find(Gauge, table, number)
    if row is None:
        numbers = [gauge.number for gauge in tables.rows(Gauge, table)]
        what = f"{number} ga is not in the gauge table of {material.material}, {min(numbers)} to {max(numbers)} ga"
        raise FastenError(what, where="onto", fix=f"write its thickness: {_example(material)}")
    # Read as text, so that 0.0359 in and its gauge give the same float.
    return units.read(f"{row.thickness_in} in", Dimension.LENGTH, "onto")


def _no_material(text: str, size: str) -> FastenError:
    example = f"steel {size}" if size else f"steel {_words(text)}"
    what = f"{shown(text)} names no material, and it is never guessed"
    return FastenError(what, where="onto", fix=f"say what it is made of, such as {example}")


def _example(material: Material) -> str:
    return f"{material.material} {'0.8' if material.family == 'sheet' else '18'} mm"


def _pattern(kind: str, sides: list[str]) -> Pattern:
    wanted, example = (2, "rectangle 240x180") if kind == "rectangle" else (1, f"{kind} 165 mm")
    if len(sides) != wanted:
        what = f"a {kind} has {'two sides' if wanted == 2 else 'one size'}"
        raise FastenError(what, where="pattern", fix=f"write {example}")
    unit = next((found for side in reversed(sides) if (found := _unit(side))), "")
    sizes = [units.read(side if _unit(side) else _with_unit(side, unit), Dimension.LENGTH, "pattern") for side in sides]
    return Pattern(kind, sizes[0], sizes[1] if wanted == 2 else None)


def _unit(side: str) -> str:
    """The unit after a number; nothing where there is none."""
    match = re.fullmatch("[-+0-9.,/ ½¼¾⅛⅜⅝⅞⁄]*(.*)", side, re.DOTALL)
    return match[1] if match else ""


def _with_unit(side: str, unit: str) -> str:
    """A side without a unit takes the other's; a bare fraction stays what it is everywhere, inches."""
    bare_fraction = not unit and re.search("[/½¼¾⅛⅜⅝⅞⁄]", side)
    return side if bare_fraction or not side else f"{side} {unit or 'mm'}"


def _read_grade(text: str, tables: Tables) -> str:
    names = {row.class_: row.class_ for row in tables.rows(PropertyClass, "property-classes")}
    return _choice(text, names, "grade")


def _read_case(text: str, tables: Tables) -> str:
    return _choice(text, {row.case: row.case for row in tables.rows(LoadCase, "load-cases")}, "case")


def _choice(text: str, names: Mapping[str, Value], where: str) -> Value:
    by_words = {_words(name): value for name, value in names.items()}
    if (words := _words(text)) not in by_words:
        raise unknown(text, f"a known {where}", names, where)
    return by_words[words]


def _few(names: list[str]) -> list[str]:
    """As many of the names as fit a message."""
    fitting = [name for n, name in enumerate(names) if len(", ".join(names[: n + 1])) <= _LISTED]
    return fitting if len(fitting) == len(names) else [*fitting, "another"]


def _either(names: list[str]) -> str:
    return " or ".join([", ".join(names[:-1])] * (len(names) > 1) + names[-1:])
