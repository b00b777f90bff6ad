"""The consumables of a list: what all entries use of each, waste included."""

from math import ceil, fsum

from fasten.catalog.job_parts import CONSUMABLES
from fasten.catalog.tables import Tables
from fasten.job.list.alike import Alike
from fasten.job.list.lists import ConsumableLine, Used
from fasten.job.shelf.view import ShelfView
from fasten.model.line import LineId
from fasten.model.plan import ConsumableNeed, Plan
from fasten.wiring.parts import CABLE

WHOLE = frozenset({"piece", "drop"})
_DUST = 1e-9  # 0.25 x 8 pieces are 2, and no third one for the rounding of the machine


def consumables(plans: tuple[Plan, ...], shelf: ShelfView, tables: Tables) -> tuple[ConsumableLine, ...]:
    """Every consumable of the job, those with an amount in the order of the table, then the others by name."""
    found: dict[LineId, tuple[ConsumableNeed, list[Used]]] = {}
    alike = Alike(lambda plan: [(need, found.setdefault(need.id, (need, []))[1]) for need in plan.consumables])
    for plan in plans:
        for need, used in alike.of(plan, plan.consumables):
            again = need.shared and bool(used)
            used.append(Used(plan.name, 0.0 if again else need.amount))
    places = {row.consumable: place for place, row in reversed(list(enumerate(tables.rows(CONSUMABLES))))}
    ordered = sorted(found, key=lambda at: (places.get(at.key, len(places)), at.key, at.sizes))
    return tuple(_line(*found[line_id], shelf) for line_id in ordered)


def _line(need: ConsumableNeed, used: list[Used], shelf: ShelfView) -> ConsumableLine:
    unknown = tuple(entry.mount for entry in used if entry.amount is None)
    known = [entry.amount for entry in used if entry.amount is not None]
    amount = _whole(need.in_the_box(fsum(known)), need.unit) if known and need.unit else None
    have = shelf.consumable(need)
    each = have.each if have.there else None
    short = None if amount is None or each is None else _short(amount, known, each, need)
    return ConsumableLine(
        need.id, need.id.key, need.names[-1], need.detail, amount, need.unit, need.plus, need.waste,
        have.there and not short, tuple(used), unknown, need.width_mm,
        at_hand=None if each is None else fsum(each), short=short,
    )  # fmt: skip


def _short(amount: float, known: list[float], each: tuple[float, ...], need: ConsumableNeed) -> float:
    """How much is missing: of the whole, and of cable also what no one reel is long enough for."""
    whole = max(amount - fsum(each), 0.0)
    return max(whole, _not_cut(known, each) if need.id.key == CABLE else 0.0)


def _not_cut(runs: list[float], reels: tuple[float, ...]) -> float:
    """What is left to cut where each run is cut from one reel: the longest first, from the shortest that has it."""
    left, short = sorted(reels), 0.0
    for run in sorted(runs, reverse=True):
        at = next((at for at, reel in enumerate(left) if reel + _DUST >= run), None)
        if at is None:
            short += run
        else:
            left = sorted([*left[:at], left[at] - run, *left[at + 1 :]])
    return short


def _whole(amount: float, unit: str) -> float:
    return float(ceil(amount - _DUST)) if unit in WHOLE else amount
