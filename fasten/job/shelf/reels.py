"""Reels of cable on a shelf, among its consumables: "cable, 8 AWG, red, 7.2 mm outside, marked 105 °C: 10 m"."""

import re
from collections.abc import Iterator
from typing import Any

from fasten.catalog.tables import Tables
from fasten.catalog.wiring_rules import WiringRules, rule_figure
from fasten.errors import FastenError
from fasten.job.shelf.amounts import Amount, split
from fasten.job.wiring.measured import COLOUR, MARKED, MATERIAL
from fasten.job.words import Job, Recorded, Shelf
from fasten.model.plan import ConsumableNeed
from fasten.record import record, replace
from fasten.text import units
from fasten.text.figures import figure
from fasten.text.shown import shown
from fasten.text.units import Dimension
from fasten.wiring.measures import CONDUCTOR, OUTSIDE, check_measures
from fasten.wiring.parts import CABLE
from fasten.wiring.pieces import ANY, PAIR
from fasten.wiring.read import read_insulation, read_size
from fasten.wiring.words import Material, Size

_PAIR, _FILLER = ("two conductors", "pair", "figure-8", "figure 8"), ("fine strand", "as at hand")
_MEASURED = re.compile(r"(?P<size>[0-9.,/ ]+ ?(?:mm|in)) (?P<what>outside|conductor)")
_MARKED = re.compile(r"(?:marked )?(?P<c>[0-9]{2,3}) ?°? ?c")
_MEASURES = {"outside", "conductor"}
_FIX = "write such as cable, 8 AWG, red, 7.2 mm outside, marked 105 °C, copper: 10 m"


@record
class Reel:
    """Cable of one size and colour; its length is None where that is not said, and so is what was not measured.

    `counted_c` is the temperature that it counts for: what is marked on it, else as cable without a mark. `material` is
    None where it is not said: a run of it is open where copper-clad aluminium would come to something else.
    """

    size: Size
    colour: str
    material: Material | None
    marked_c: float | None
    counted_c: float
    outside_mm: float | None
    conductor_mm: float | None
    length_mm: float | None


def is_cable(name: str) -> bool:
    """Whether a consumable of a shelf is cable."""
    return re.match(rf"{CABLE}(?:$|,| (?!tie))", name.strip(), re.IGNORECASE) is not None


def reel_of(text: str, tables: Tables) -> Reel:
    """Cable as a shelf names it; raises FastenError for what is said of none, or where size or colour is not said."""
    name, amount = split(text)
    said = [part.strip().casefold() for part in name.strip()[len(CABLE) :].split(",")]
    size = read_size(next((part for part in said if _is_size(part)), ""), tables, CABLE)
    found: dict[str, Any] = {
        "colour": "",
        "material": None,
        "marked_c": None,
        "outside_mm": None,
        "conductor_mm": None,
    }
    for part in said:
        found |= {} if not part or _is_size(part) else _said(part, tables)
    measured = {name: found[f"{name}_mm"] for name in (OUTSIDE, CONDUCTOR)}
    check_measures(size, {name: mm for name, mm in measured.items() if mm is not None}, CABLE)
    if not found["colour"]:
        raise FastenError("its colour is not said", where=CABLE, fix=_FIX)
    unmarked_c, _ = rule_figure(tables, WiringRules.INSULATION_UNMARKED)
    marked_c = found["marked_c"]
    return Reel(
        size, found["colour"], found["material"], marked_c, unmarked_c if marked_c is None else marked_c,
        found["outside_mm"], found["conductor_mm"], _length_mm(amount),
    )  # fmt: skip


def reels(shelf: Shelf | None, tables: Tables) -> tuple[Reel, ...]:
    """The reels of a shelf that can be read."""
    return () if shelf is None else tuple(_readable(shelf, tables))


def takes(reel: Reel, need: ConsumableNeed) -> bool:
    """Whether a need of cable can be cut from a reel: size, material, colour, and no less heat than it asks for.

    Where the material is not said it may be copper: the run is open until that is seen.
    """
    size, material, insulation_c, colour = need.id.sizes
    is_coloured = reel.colour != PAIR if colour == ANY else reel.colour == colour
    is_hot = not insulation_c or reel.counted_c >= float(insulation_c)
    may_be = reel.material or Material.COPPER
    return (reel.size.name, may_be.value) == (size, material) and is_coloured and is_hot


def with_reels(job: Job, shelf: Shelf | None, tables: Tables) -> Job:
    """The job with what was measured on reels of a shelf, of sizes of cable of which the job itself says nothing.

    Only reels count that do for cable to be bought; what those of one size do not agree on is not taken. Cable of two
    conductors is for loudspeaker leads, and they take no other; of that it counts whether its material is said.
    """
    bought_c, _ = rule_figure(tables, WiringRules.INSULATION_BOUGHT)
    there = [one for one in reels(shelf, tables) if one.material is not Material.CLAD]
    known = {read_size(cable.name, tables, CABLE).name for cable in job.cables if _is_size(cable.name.casefold())}
    free = [one for one in there if one.size.name not in known]
    pairs = _by_size([one for one in free if one.colour == PAIR])
    singles = _by_size([one for one in free if one.colour != PAIR and one.counted_c >= bought_c])
    more = (
        *(Recorded(size, ((COLOUR, PAIR), *_common(alike))) for size, alike in pairs.items()),
        *(Recorded(size, ((COLOUR, ANY), *_measures(alike), *_common(alike))) for size, alike in singles.items()),
    )
    found = tuple(entry for entry in more if _MEASURES & set(dict(entry.said)) or MATERIAL not in dict(entry.said))
    return replace(job, cables=(*job.cables, *found)) if found else job


def _by_size(there: list[Reel]) -> dict[str, list[Reel]]:
    found: dict[str, list[Reel]] = {}
    for reel in there:
        found.setdefault(reel.size.name, []).append(reel)
    return found


def _measures(alike: list[Reel]) -> Iterator[tuple[str, str]]:
    """What was measured on the reels of a size and they all agree on, as a job says it of its cable."""
    said = {
        "outside": {reel.outside_mm for reel in alike}, "conductor": {reel.conductor_mm for reel in alike},
    }  # fmt: skip
    for name, values in said.items():
        value = next(iter(values))
        if len(values) == 1 and value is not None:
            yield name, f"{figure(value)} mm"


def _common(alike: list[Reel]) -> Iterator[tuple[str, str]]:
    """The least that is marked on the reels of a size, and that they are of copper, where that is said of each."""
    yield MARKED, f"{figure(min(reel.counted_c for reel in alike))} C"
    if all(reel.material is not None for reel in alike):
        yield MATERIAL, Material.COPPER.value


def _readable(shelf: Shelf, tables: Tables) -> Iterator[Reel]:
    for name in filter(is_cable, shelf.consumables):
        try:
            yield reel_of(name, tables)
        except FastenError:
            continue  # the check of the shelf names it


def _is_size(part: str) -> bool:
    return re.fullmatch(r"[0-9/.]+ ?(?:awg|mm2|mm²)", part) is not None


def _said(part: str, tables: Tables) -> dict[str, object]:
    """What a part of the name says: a material, a measure, a mark or a colour."""
    if part in _FILLER:
        return {}
    if part in _PAIR:
        return {"colour": PAIR}
    for material in Material:
        if part == material.value:
            return {"material": material}
    measured, marked = _MEASURED.fullmatch(part), _MARKED.fullmatch(part)
    if measured is not None:
        return {f"{measured['what']}_mm": units.read(measured["size"], Dimension.LENGTH, CABLE)}
    if marked is not None:
        return {"marked_c": read_insulation(marked["c"], tables, CABLE)}
    if re.fullmatch(r"[a-z][a-z -]*", part):
        return {"colour": part}
    raise FastenError(f"{shown(part)} says nothing of cable", where=CABLE, fix=_FIX)


def _length_mm(amount: Amount | None) -> float | None:
    return amount.value if amount is not None and amount.unit == "mm" else None
