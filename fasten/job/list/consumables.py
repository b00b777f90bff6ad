"""The consumables of a list: what all entries use of each, waste included."""

from math import ceil, fsum

from fasten.catalog.job_parts import CONSUMABLES
from fasten.catalog.tables import Tables
from fasten.job.list.lists import ConsumableLine, Used
from fasten.job.shelf.view import ShelfView
from fasten.model.line import LineId
from fasten.model.plan import ConsumableNeed, Plan

WHOLE = frozenset({"piece", "drop"})
_DUST = 1e-9  # 0.25 x 8 pieces are 2, and no third one for the rounding of the machine


def consumables(plans: tuple[Plan, ...], shelf: ShelfView, tables: Tables) -> tuple[ConsumableLine, ...]:
    """Every consumable of the job, those with an amount in the order of the table, then the others by name."""
    found: dict[LineId, tuple[ConsumableNeed, list[Used]]] = {}
    for plan in plans:
        for need in plan.consumables:
            again = need.shared and need.id in found
            found.setdefault(need.id, (need, []))[1].append(Used(plan.name, 0.0 if again else need.amount))
    places = {row.consumable: place for place, row in reversed(list(enumerate(tables.rows(CONSUMABLES))))}
    ordered = sorted(found, key=lambda at: (places.get(at.key, len(places)), at.key, at.sizes))
    return tuple(_line(*found[line_id], shelf) for line_id in ordered)


def _line(need: ConsumableNeed, used: list[Used], shelf: ShelfView) -> ConsumableLine:
    unknown = tuple(entry.mount for entry in used if entry.amount is None)
    known = [entry.amount for entry in used if entry.amount is not None]
    amount = _whole(need.in_the_box(fsum(known)), need.unit) if known and need.unit else None
    return ConsumableLine(
        need.id, need.id.key, need.names[-1], need.detail, amount, need.unit, need.plus, need.waste,
        shelf.has_consumable(need.names, need.detail), tuple(used), unknown, need.width_mm,
    )  # fmt: skip


def _whole(amount: float, unit: str) -> float:
    return float(ceil(amount - _DUST)) if unit in WHOLE else amount
