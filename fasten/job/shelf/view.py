"""What a shelf holds, asked under one spelling: parts with counts, bits by diameter, tools and consumables by name."""

import re
from functools import cached_property, lru_cache
from typing import TYPE_CHECKING

from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.geometry.bits import METRIC, Bit, all_bits, metric_name, nearest_bit
from fasten.job.list.parts import same_part
from fasten.job.words import Shelf, ShelfPart
from fasten.model.line import Part
from fasten.model.plan import ConsumableNeed
from fasten.record import record
from fasten.text import units
from fasten.text.names import plain_name, spelled
from fasten.text.units import Dimension
from fasten.wiring.parts import CABLE

if TYPE_CHECKING:  # what reads amounts and reels is loaded where there is a shelf
    from fasten.job.shelf.amounts import Amount
    from fasten.job.shelf.reels import Reel

EQUAL_MM = 1e-6
_RANGE = re.compile(r", (?:up to|(?P<low>[0-9]+(?:\.[0-9]+)?) to) (?P<high>[0-9]+(?:\.[0-9]+)?) N\u00b7m$")


@record
class Kept:
    """A part as the shelf knows it, all its entries together."""

    count: int
    pack: int | None
    price: float | None


NOTHING = Kept(0, None, None)


@record
class Have:
    """Whether a consumable is there, and how much is in each piece of it; None where that is not known."""

    there: bool
    each: tuple[float, ...] | None


NOT_THERE = Have(there=False, each=())


class ShelfView:
    """A shelf to ask; without one nothing is there."""

    def __init__(self, shelf: Shelf | None, tables: Tables) -> None:
        self._shelf = shelf
        self._tables = tables

    @property
    def there(self) -> bool:
        """Whether there is a shelf at all."""
        return self._shelf is not None

    @property
    def currency(self) -> str:
        """What prices are in."""
        return self._shelf.currency if self._shelf is not None else ""

    def part(self, part: Part) -> Kept:
        """What is known of a part."""
        return self.parts.get(same_part(part), NOTHING)

    def has_tool(self, names: frozenset[str]) -> bool:
        """Whether a tool is there under one of the names that it may go by."""
        return not self.tools.isdisjoint(names)

    def consumable(self, need: ConsumableNeed) -> Have:
        """What is there of a consumable, by one of its names or by that and what else is said of it; cable by reels."""
        if self._shelf is None:
            return NOT_THERE
        from fasten.job.shelf.amounts import in_unit

        found = self._cable(need) if need.id.key == CABLE else self._named(need.names, need.detail)
        each = [None if amount is None else in_unit(amount, need.unit, need.width_mm) for amount in found]
        known = tuple(one for one in each if one is not None)
        return Have(bool(each), known if len(known) == len(each) else None)

    def reaches(self, names: frozenset[str], torque_nm: float) -> bool:
        """Whether one of the tools of these names reaches a torque; one whose range is not said may."""
        ranges = [reach for name, reach in self._reaches if name in names]
        return any(reach is None or reach[0] <= torque_nm <= reach[1] for reach in ranges)

    @cached_property
    def _reaches(self) -> tuple[tuple[str, tuple[float, float] | None], ...]:
        """The tools under one spelling, each with the torque it reaches; None where that is not said."""
        kept = self._shelf.tools if self._shelf is not None else ()
        return tuple((plain_name(without_range(tool)), _reach(tool)) for tool in kept)

    def has_consumable(self, names: tuple[str, ...], detail: str) -> bool:
        """Whether a consumable is there, by one of its names or by that and what else is said of it."""
        return bool(self._named(names, detail))

    def _named(self, names: tuple[str, ...], detail: str) -> "list[Amount | None]":
        if self._shelf is None:
            return []
        full = (text for name in names for text in (name, f"{name} {detail}", f"{name}, {detail}"))
        return [amount for text in dict.fromkeys(map(plain_name, full)) for amount in self.consumables.get(text, ())]

    def _cable(self, need: ConsumableNeed) -> "list[Amount | None]":
        from fasten.job.shelf.amounts import Amount
        from fasten.job.shelf.reels import takes

        lengths = (reel.length_mm for reel in self.reels if takes(reel, need))
        return [None if length is None else Amount(length, need.unit) for length in lengths]

    def has_bit(self, diameter_mm: float) -> bool:
        """Whether a bit of this diameter is there, under whatever name."""
        return any(-EQUAL_MM < bit.diameter_mm - diameter_mm < EQUAL_MM for bit in self.bits)

    def bit_for(self, hole_mm: float, minus_mm: float, plus_mm: float) -> str | None:
        """The bit of the shelf that drills a hole within its tolerance."""
        if not self.bits:
            return None
        best = nearest_bit(hole_mm, minus_mm, plus_mm, self.bits)
        return best.name if best.holds else None

    @cached_property
    def bits(self) -> tuple[Bit, ...]:
        """The bits of the shelf whose names are understood."""
        if self._shelf is None or not self._shelf.bits:
            return ()
        found = [bit_named(name, self._tables) for name in self._shelf.bits]
        return tuple(bit for bit in found if bit is not None)

    @cached_property
    def parts(self) -> dict[Part, Kept]:
        """What is known of every part, under the one spelling of each."""
        found: dict[Part, Kept] = {}
        for entry in self._shelf.parts if self._shelf is not None else ():
            key = same_part(entry.part)
            found[key] = _together(found.get(key, NOTHING), entry)
        return found

    @cached_property
    def tools(self) -> frozenset[str]:
        """The tools under one spelling."""
        kept = self._shelf.tools if self._shelf is not None else ()
        return frozenset(plain_name(without_range(tool)) for tool in kept)

    @cached_property
    def consumables(self) -> "dict[str, tuple[Amount | None, ...]]":
        """The consumables under one spelling, each with the amounts that are there; None where that is not said."""
        if self._shelf is None:
            return {}
        from fasten.job.shelf.amounts import split

        found: dict[str, tuple[Amount | None, ...]] = {}
        for text in self._shelf.consumables:
            name, amount = split(text)
            found[plain_name(name)] = (*found.get(plain_name(name), ()), amount)
        return found

    @cached_property
    def reels(self) -> "tuple[Reel, ...]":
        """The cable that is there."""
        from fasten.job.shelf.reels import reels

        return reels(self._shelf, self._tables)


def _reach(tool: str) -> tuple[float, float] | None:
    found = _RANGE.search(tool)
    return None if found is None else (float(found["low"] or 0.0), float(found["high"]))


def without_range(tool: str) -> str:
    """The name of a tool without the torque it reaches, which makes no other tool of it."""
    return _RANGE.sub("", tool)


def bit_named(name: str, tables: Tables) -> Bit | None:
    """The bit of a name as a shelf may write it; None where it is the name of none."""
    return _bits(tables).get(_bit_name(name)) or _metric(name)


@lru_cache(maxsize=2)  # who reads tables anew lets go of the old ones
def _bits(tables: Tables) -> dict[str, Bit]:
    return {_bit_name(bit.name): bit for bit in all_bits(tables)}


def _together(kept: Kept, entry: ShelfPart) -> Kept:
    """Counts add up; the first pack and the first price that are known hold."""
    pack = kept.pack if kept.pack is not None else entry.pack
    price = kept.price if kept.price is not None else entry.price
    return Kept(kept.count + entry.count, pack, price)


def _bit_name(name: str) -> str:
    plain = spelled(name).removesuffix(" bit").removeprefix("bit ").replace(" ", "").replace(",", ".")
    for word in ("no.", "no", "number"):
        plain = f"#{plain.removeprefix(word)}" if plain.startswith(word) else plain
    return plain.removesuffix("in") if "/" in plain else plain


def _metric(name: str) -> Bit | None:
    """A metric bit that is in no series, by its size."""
    try:
        diameter_mm = units.read(name, Dimension.LENGTH, "bit")
    except FastenError:
        return None
    return Bit(metric_name(diameter_mm), diameter_mm, METRIC)
