"""What is owned, as ranking asks for it: a frozen extract of a shelf, hashable, so that advice is kept by it.

Prices, packs and notes are left out of it: they make no other answer.
"""

from functools import cached_property

from fasten.catalog.tables import Tables
from fasten.geometry.bits import Bit, NearestBit, nearest_bit
from fasten.job.list.parts import same_part
from fasten.job.shelf.view import EQUAL_MM, ShelfView
from fasten.job.words import Shelf
from fasten.model.line import Part
from fasten.record import record
from fasten.text.names import plain_name


@record
class Owned:
    """Parts with their counts, bits, tools and consumables, each under the one spelling it is compared by."""

    parts: frozenset[tuple[Part, int]]
    bits: tuple[Bit, ...]
    tools: frozenset[str]
    consumables: frozenset[str]

    def bit_for(self, hole_mm: float, minus_mm: float, plus_mm: float) -> NearestBit | None:
        """The bit that drills a hole within its tolerance."""
        best = nearest_bit(hole_mm, minus_mm, plus_mm, self.bits) if self.bits else None
        return best if best is not None and best.holds else None

    def has_bit(self, diameter_mm: float) -> bool:
        """Whether a bit of this diameter is there."""
        return any(-EQUAL_MM < bit.diameter_mm - diameter_mm < EQUAL_MM for bit in self.bits)

    def has_tool(self, names: frozenset[str]) -> bool:
        """Whether a tool is there under one of the names that it may go by."""
        return not self.tools.isdisjoint(names)

    def has_part(self, part: Part, count: int) -> bool:
        """Whether so many of a part are there."""
        return self._counts.get(same_part(part), 0) >= count

    @cached_property
    def _counts(self) -> dict[Part, int]:
        return dict(self.parts)

    def has_consumable(self, names: tuple[str, ...]) -> bool:
        """Whether a consumable is there under one of its names, whatever else is said of it after that."""
        starts = [plain_name(name) for name in names]
        longer = tuple(f"{start}{more}" for start in starts for more in (" ", ", "))
        return any(name in starts or name.startswith(longer) for name in self.consumables)


def owned_of(shelf: Shelf | None, tables: Tables) -> Owned | None:
    """What a shelf says is owned; None without a shelf."""
    if shelf is None:
        return None
    view = ShelfView(shelf, tables)
    counts = frozenset((part, kept.count) for part, kept in view.parts.items())
    return Owned(counts, view.bits, view.tools, frozenset(view.consumables))
