"""What is mounted and what it is fastened to, as people type them.

onto     = material, thickness or gauge, place, "ring", in any order   steel 0.8 mm, 20 ga steel, MDF ring 18 mm
between  = soft layers from the item down, each with its thickness, and whether it is cut out
           foam 3 mm; carpet 12 mm cut out; carpet 12 mm, deadener 2 mm
"""

import re
from collections.abc import Mapping
from functools import lru_cache
from typing import TypeVar

from fasten.catalog.materials import (
    ITEMS,
    MATERIALS,
    PLACES,
    REFUSED_MATERIALS,
    SOFT_LAYERS,
    Item,
    Material,
    Place,
    RefusedMaterial,
    SoftLayer,
)
from fasten.catalog.rows import GAUGES
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.model import Between, Outline
from fasten.record import record, replace
from fasten.text import units
from fasten.text.figures import words
from fasten.text.names import either, folded, phrases, tokens, unknown
from fasten.text.shown import shown
from fasten.text.units import Dimension

NO_PANEL = ("tinned_copper",)  # an item may be of it; the sheet equations are for steel and aluminium only
PLACE_MATERIALS = ("steel", "galvanised_steel")  # the thickness range of a place is that of its body steel

_LONGEST_TEXT = 100
_BETWEEN_LAYERS = re.compile(r"(?<!\d),|,(?!\d)|\s\+\s|\sand\s|\sover\s", re.IGNORECASE)
MOST_LAYERS = 4
_OFTEN_MM = {"sheet": "0.8", "board": "18", "wood": "18"}
_CUT_OUT = re.compile(r"[\s,]+cut[\s-]*out\s*$", re.IGNORECASE)
_NOISE = frozenset({"bare", "sheet", "plate", "panel"})
_OUTLINES = dict.fromkeys(("ring", "round ring", "adapter ring", "speaker ring", "spacer ring"), Outline.RING)

Value = TypeVar("Value")


def find_item(text: str, tables: Tables, where: str) -> Item:
    """The item preset of this name, as its key, title or another name; raises FastenError with the nearest names."""
    names = _items(tables)
    if (row := names.get(folded(text))) is None:
        raise unknown(text, "a known item", [row.item for row in tables.rows(ITEMS)], where, among=names)
    return row


def read_item(text: str, tables: Tables, where: str) -> str:
    """The key of the item of this name; raises FastenError with the nearest names."""
    return find_item(text, tables, where).item


def item_names(tables: Tables) -> dict[str, str]:
    """Every name of every item with its key; the key of an item wins over another's second name."""
    rows = tables.rows(ITEMS)
    others = {other: row.item for row in rows for other in (row.title, *row.other_names.split("|"))}
    return others | {row.item: row.item for row in rows}


def read_material(text: str, tables: Tables, where: str) -> str:
    """The key of the hard material of this name; raises FastenError with the nearest names, or why it is refused."""
    names = _materials(tables)
    if refused := _refused(tables).get(folded(text)):
        raise FastenError(refused.because, where=where, fix=refused.instead)
    if (row := names.get(folded(text))) is None:
        raise unknown(text, "a known material", _titles(tables), where, among=names)
    return row.material


def read_onto(text: str, tables: Tables, where: str) -> tuple[str, float | None, str | None, Outline | None]:
    """A substrate as (material, thickness [mm] or None, place or None, outline or None).

    Thickness or place is always there; an outline is known where the text says so.

    Raises: FastenError if the material, or both thickness and place, are missing, anything is not known, or nothing is
    fastened to such a material.
    """
    materials, soft, refused = _materials(tables), _soft(tables), _refused(tables)
    places = _places(tables)
    found = _split(text, where, _titles(tables), materials, places, soft, refused, _OUTLINES)
    if never := found.only(refused, "materials"):
        raise FastenError(never.because, where=where, fix=never.instead)
    if layer := found.only(soft, "soft layers"):
        what = f"{layer.material} is a soft layer, which carries no fixing"
        raise FastenError(what, where=where, fix=f"say what is under it, and {layer.material} 3 mm as between")
    place = found.only(places, "places")
    gauge = found.gauge()
    metal = materials.get(folded(gauge.metal)) if gauge and gauge.metal else None
    material = found.only(materials, "materials") or metal
    if material is None:
        raise _no_material(text, found)
    if material.material in NO_PANEL:
        what = f"{material.title} is what rings are made of, no panel to fasten to"
        raise FastenError(what, where=where, fix="say what the ring is screwed to, such as steel 0.8 mm")
    thickness_mm = _gauge_mm(gauge.number, material, tables, where) if gauge else found.length_mm()
    check_thickness(material, thickness_mm, place.place if place else None, where)
    outline = found.only(_OUTLINES, "outlines")
    return material.material, thickness_mm, place.place if place else None, outline


def check_thickness(material: Material, thickness_mm: float | None, place: str | None, where: str) -> None:
    """Check that the thickness is said, or follows from a place; raises FastenError, which asks for it."""
    name, fix, of_body = _title(material), _example(material), material.material in PLACE_MATERIALS
    if thickness_mm is not None or (place is not None and of_body):
        return
    if place is not None:
        what = f"a place gives the thickness of body steel only, not of {name}"
        raise FastenError(what, where=where, fix=f"give a thickness: {fix} {place}")
    fix = f"give a thickness or a place: {fix}, {name} floor" if of_body else f"give a thickness: {fix}"
    raise FastenError(f"{name} has no thickness", where=where, fix=fix)


def read_between(text: str, tables: Tables, where: str) -> Between:
    """The soft layers between, from the item down: "foam 3 mm", "carpet 12 mm cut out", "carpet 12 mm, butyl 2 mm".

    Raises: FastenError if there are too many, the material or thickness of one is missing, or it is refused.
    """
    texts = _layer_texts(text, tables)
    if len(texts) > MOST_LAYERS:
        what = f"{len(texts)} soft layers are too many: {MOST_LAYERS} at most"
        raise FastenError(what, where=where, fix="name those that stay under the item")
    *over, last = texts
    found = _read_layer(last, tables, where)
    for layer_text in reversed(over):
        found = replace(_read_layer(layer_text, tables, where), under=found)
    return found


def _layer_texts(text: str, tables: Tables) -> list[str]:
    """The text of each layer: a comma, an and or a plus parts two where another layer is named behind it."""
    names = {words.split()[0] for words in (*_soft(tables), *_refused(tables))}
    found: list[str] = []
    for part in re.split(_BETWEEN_LAYERS, text):
        starts = {word.casefold() for word in tokens(part)} & names
        if found and not starts:
            found[-1] += f" {part}"
        else:
            found.append(part)
    return found


def _read_layer(text: str, tables: Tables, where: str) -> Between:
    layer_text = re.sub(_CUT_OUT, "", text)
    names, refused = _soft(tables), _refused(tables)
    choices = [row.material for row in tables.rows(SOFT_LAYERS)]
    found = _split(layer_text, where, choices, names, refused)
    if never := found.only(refused, "materials"):
        raise FastenError(never.because, where=where, fix=never.instead)
    layer, thickness_mm = found.only(names, "soft layers"), found.length_mm()
    if layer is None:
        what = f"{shown(text)} does not say of what"
        raise FastenError(what, where=where, fix=f"write {either(choices)} before it")
    if thickness_mm is None:
        raise FastenError(f"{layer.material} has no thickness", where=where, fix=f"write {layer.material} 3 mm")
    return Between(layer.material, thickness_mm, cut_out=layer_text != text)


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


@lru_cache(maxsize=4)
def _items(tables: Tables) -> dict[str, Item]:
    rows = reversed(tables.rows(ITEMS))
    return {phrase: row for row in rows for phrase in phrases(row.item, row.title, row.other_names)}


@lru_cache(maxsize=4)
def _places(tables: Tables) -> dict[str, Place]:
    return {words: row for row in tables.rows(PLACES) for words in phrases(row.place)}


@lru_cache(maxsize=4)
def _materials(tables: Tables) -> dict[str, Material]:
    """Every name of a material that can carry a fixing; its key wins over another's second name."""
    rows = [row for row in tables.rows(MATERIALS) if row.family != "soft"]
    names = {words: row for row in reversed(rows) for words in phrases(row.title, row.other_names)}
    return names | {words: row for row in rows for words in phrases(row.material)}


@lru_cache(maxsize=4)
def _refused(tables: Tables) -> dict[str, RefusedMaterial]:
    return {words: row for row in tables.rows(REFUSED_MATERIALS) for words in phrases(row.material, row.other_names)}


@lru_cache(maxsize=4)
def _soft(tables: Tables) -> dict[str, SoftLayer]:
    return {words: row for row in tables.rows(SOFT_LAYERS) for words in phrases(row.material, row.other_names)}


def _title(material: Material) -> str:
    return words(material.material)


@lru_cache(maxsize=4)
def _titles(tables: Tables) -> list[str]:
    return [_title(row) for row in tables.rows(MATERIALS) if row.family != "soft"]


def _split(text: str, where: str, choices: list[str], *dictionaries: Mapping[str, object]) -> _Found:
    """Take the names of the dictionaries out of a text, the longest first; what is left must be one size or nothing."""
    if len(text) > _LONGEST_TEXT:
        what = f"{shown(text)} is {len(text)} characters long, at most {_LONGEST_TEXT}"
        raise FastenError(what, where=where, fix="write it short")
    names = dict[str, object]()
    for dictionary in dictionaries:
        names.update(dictionary)
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
        meant = [name for name, row in names.items() if not isinstance(row, RefusedMaterial)]
        raise unknown(stray, f"known in {where}", choices, where, among=meant)
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


def _gauge_mm(number: int, material: Material, tables: Tables, where: str) -> float:
    """The thickness [mm] of a gauge, by the metal's own table."""
    known = phrases(material.material, material.title, material.other_names)
    table = next((GAUGES[metal] for phrase in known if (metal := phrase.replace(" ", "_")) in GAUGES), None)
    name, fix = _title(material), f"write its thickness: {_example(material)}"
    if table is None:
        raise FastenError(f"{name} is not sold by gauge", where=where, fix=fix)
    if (row := tables.find(table, number)) is None:
        numbers = [gauge.number for gauge in tables.rows(table)]
        what = f"{number} ga is not in the gauge table of {name}, {min(numbers)} to {max(numbers)} ga"
        raise FastenError(what, where=where, fix=fix)
    # Read as text, so that 0.0359 in and its gauge give the same float.
    return units.read(f"{row.thickness_in} in", Dimension.LENGTH, where)


def _no_material(text: str, found: _Found) -> FastenError:
    if gauge := found.gauge():
        what = f"{gauge.number} ga is a gauge, which needs its metal"
        return FastenError(what, where=found.where, fix=f"write {gauge.number} ga steel")
    found.length_mm()  # what is no length is the first thing to put right
    what = f"{shown(text)} names no material, and it is never guessed"
    return FastenError(
        what, where=found.where, fix=f"say what it is made of, such as steel {found.size or folded(text)}"
    )


def _example(material: Material) -> str:
    """The material as it is often met; what is bent, moulded or laid up is thin."""
    return f"{_title(material)} {_OFTEN_MM.get(material.family, '3')} mm"
