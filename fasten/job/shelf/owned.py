"""What is owned, as ranking asks for it: a frozen extract of a shelf, hashable, so that advice is kept by it.

Prices, packs and notes are left out of it: they make no other answer.
"""

from dataclasses import replace

from fasten.catalog.tables import Tables
from fasten.geometry.bits import OWN_POINT, Bit, nearest_bit
from fasten.job.list.consumed import consumable_names
from fasten.job.list.needs import setting_tools, shaping_tools
from fasten.job.list.parts import joint_parts, plain_name, same_part, stuck_with
from fasten.job.shelf.view import EQUAL_MM, ShelfView
from fasten.job.words import Shelf
from fasten.model import BitChoice, Hole, Joint
from fasten.model.line import Part
from fasten.record import record


@record
class Owned:
    """Parts with their counts, bits, tools and consumables, each under the one spelling it is compared by."""

    parts: frozenset[tuple[Part, int]]
    bits: tuple[Bit, ...]
    tools: frozenset[str]
    consumables: frozenset[str]

    def fitted(self, joint: Joint) -> Joint:
        """The joint with a bit of the shelf for its hole where one is within tolerance."""
        hole = joint.hole
        if hole is None or not self.bits or self.drills(hole) or not hole.bit.holds:
            return joint
        best = nearest_bit(hole.diameter_mm, hole.tolerance_mm.minus, hole.tolerance_mm.plus, self.bits)
        if not best.holds:
            return joint
        bit = BitChoice(best.name, best.diameter_mm, best.deviation_mm, best.holds)
        return replace(joint, hole=replace(hole, bit=bit))

    def drills(self, hole: Hole) -> bool:
        """Whether the bit that the hole names is there, or the screw has its own point."""
        wanted_mm = hole.bit.diameter_mm
        there = any(-EQUAL_MM < bit.diameter_mm - wanted_mm < EQUAL_MM for bit in self.bits)
        return there or hole.bit.name == OWN_POINT

    def sets(self, joint: Joint, tables: Tables) -> bool:
        """Whether every tool is there that sets or taps what the joint holds by."""
        return not any(self.tools.isdisjoint(tool.names) for tool in setting_tools(joint, tables))

    def shapes(self, joint: Joint, tables: Tables) -> bool:
        """Whether the file is there that makes the drilled hole of a joint a hexagon or a square."""
        needed = shaping_tools(joint, tables)
        return bool(needed) and not any(self.tools.isdisjoint(tool.names) for tool in needed)

    def complete(self, joint: Joint, fixings: int, tables: Tables) -> bool:
        """Whether all that the joint is made of is there: parts in number for so many fixings, and what sticks it on.

        A joint that is made of nothing a shelf may list is not.
        """
        counts, parts, stuck = dict(self.parts), joint_parts(joint, tables), stuck_with(joint, tables)
        in_number = all(counts.get(same_part(part), 0) >= each * fixings for part, each in parts)
        return bool(parts or stuck) and in_number and all(self._has(consumable_names(key, tables)) for key in stuck)

    def _has(self, names: tuple[str, ...]) -> bool:
        """Whether a consumable is there under one of its names, whatever else is said of it after that."""
        starts = [plain_name(name) for name in names]
        told = tuple(f"{start}{more}" for start in starts for more in (" ", ", "))
        return any(name in starts or name.startswith(told) for name in self.consumables)


def owned_of(shelf: Shelf | None, tables: Tables) -> Owned | None:
    """What a shelf says is owned; None without a shelf."""
    if shelf is None:
        return None
    view = ShelfView(shelf, tables)
    counts = frozenset((part, kept.count) for part, kept in view.parts.items())
    return Owned(counts, view.bits, view.tools, view.consumables)
