"""What of a joint is owned: asked of a shelf by parts, bits, tools and consumables, so that it knows no joint."""

from typing import Protocol

from fasten.advice.consumables import consumable_names
from fasten.advice.parts import joint_parts, receiver_parts, stuck_with
from fasten.advice.tools import setting_tools, shaping_tools
from fasten.catalog.tables import Tables
from fasten.geometry.bits import IN_PLACE, OWN_POINT, NearestBit
from fasten.model import BitChoice, Hole, Joint
from fasten.model.line import Part
from fasten.model.plan import ToolNeed
from fasten.record import replace


class Owned(Protocol):
    """What ranking needs to know of a shelf. Whatever answers must be hashable: advice is kept by it."""

    def __hash__(self) -> int:
        """The same for what is equal."""

    def bit_for(self, hole_mm: float, minus_mm: float, plus_mm: float) -> NearestBit | None:
        """The bit of the shelf that drills a hole within its tolerance."""

    def has_bit(self, diameter_mm: float) -> bool:
        """Whether a bit of this diameter is there."""

    def has_tool(self, names: frozenset[str]) -> bool:
        """Whether a tool is there under one of the names that it may go by."""

    def has_part(self, part: Part, count: int) -> bool:
        """Whether so many of a part are there."""

    def has_consumable(self, names: tuple[str, ...]) -> bool:
        """Whether a consumable is there under one of its names, whatever else is said of it after that."""


def fitted(joint: Joint, owned: Owned) -> Joint:
    """The joint with a bit of the shelf for its hole where one is within tolerance."""
    hole = joint.hole
    if hole is None or drills(hole, owned) or not hole.bit.holds:
        return joint
    best = owned.bit_for(hole.diameter_mm, hole.tolerance_mm.minus, hole.tolerance_mm.plus)
    if best is None:
        return joint
    bit = BitChoice(best.name, best.diameter_mm, best.deviation_mm, best.holds)
    return replace(joint, hole=replace(hole, bit=bit))


def drills(hole: Hole, owned: Owned) -> bool:
    """Whether the bit that the hole names is there, or the screw has its own point."""
    return owned.has_bit(hole.bit.diameter_mm) or hole.bit.name in {OWN_POINT, IN_PLACE}


def sets(joint: Joint, owned: Owned, tables: Tables) -> bool:
    """Whether every tool is there that sets or taps what the joint holds by."""
    return _has_all(setting_tools(joint, tables), owned)


def shapes(joint: Joint, owned: Owned, tables: Tables) -> bool:
    """Whether the file is there that makes the drilled hole of a joint a hexagon or a square."""
    needed = shaping_tools(joint, tables)
    return bool(needed) and _has_all(needed, owned)


def complete(joint: Joint, fixings: int, owned: Owned, tables: Tables) -> bool:
    """Whether all that the joint is made of is there: parts in number for so many fixings, and what sticks it on.

    A joint that is made of nothing a shelf may list is not.
    """
    parts, stuck = joint_parts(joint, tables), stuck_with(joint, tables)
    in_number = all(owned.has_part(part, each * fixings) for part, each in parts)
    return bool(parts or stuck) and in_number and all(owned.has_consumable(consumable_names(k, tables)) for k in stuck)


def received(joint: Joint, fixings: int, owned: Owned) -> bool:
    """Whether what stays in the substrate is there in number."""
    parts = receiver_parts(joint)
    return bool(parts) and all(owned.has_part(part, fixings) for part in parts)


def _has_all(tools: tuple[ToolNeed, ...], owned: Owned) -> bool:
    return all(owned.has_tool(tool.names) for tool in tools)
