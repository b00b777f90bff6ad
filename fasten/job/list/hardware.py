"""The hardware list: everything that all mount points of a job need, each thing once with where it goes."""

from math import ceil, fsum

from fasten.catalog.spares import extra_of, size_mm
from fasten.catalog.tables import Tables
from fasten.job.after.covered import cover_text, cover_times
from fasten.job.entry import Entry, plans_of
from fasten.job.list.alike import Alike
from fasten.job.list.consumables import consumables
from fasten.job.list.lists import HardwareList, PartLine, Place, Remark, Unfit
from fasten.job.list.needs import bits, tools
from fasten.job.list.parts import same_part
from fasten.job.list.ticks import with_ticks
from fasten.job.shelf.known import with_known
from fasten.job.shelf.view import ShelfView
from fasten.job.words import CableRun, Job, Recorded, Shelf
from fasten.model.kinds import Listed
from fasten.model.line import Part
from fasten.model.plan import PartNeed, Plan
from fasten.record import replace

PLACES = {place: number for number, place in enumerate(Listed)}


class _Line:
    def __init__(self, need: PartNeed) -> None:
        self.need = need
        self.places: list[Place] = []
        self.renewed = 0


def hardware(job: Job, found: tuple[Entry, ...], shelf: Shelf | None, tables: Tables) -> HardwareList:
    """The list of a job whose entries get what `found` says, against a shelf where there is one."""
    plans, view = plans_of(found), ShelfView(shelf, tables)
    listed = HardwareList(
        title=job.title, vehicle=job.vehicle, shelf=view.there, currency=view.currency, mounts=len(found),
        parts=_parts(plans, view, tables), bits=bits(plans, view), tools=tools(plans, view),
        consumables=consumables(plans, view, tables),
        unfit=tuple(Unfit(entry.name, entry.reason, entry.is_said) for entry in found if entry.plan is None),
        cost=None, unpriced=0,
        remarks=(
            *(Remark(plan.name, text) for plan in plans for text in plan.remarks),
            *(Remark(one.cover.name, cover_text(one)) for one in cover_times(job, tables)),
        ),
        runs=_among(found, job.runs), ways=_among(found, (*job.sections, *job.holes)),
    )  # fmt: skip
    return with_known(_with_costs(with_ticks(listed, job)), shelf, tables)


def _among(found: tuple[Entry, ...], of: tuple[CableRun | Recorded, ...]) -> int:
    """How many of these are among the entries."""
    names = {one.name for one in of}
    return sum(entry.name in names for entry in found)


def _parts(plans: tuple[Plan, ...], shelf: ShelfView, tables: Tables) -> tuple[PartLine, ...]:
    lines: dict[Part, _Line] = {}
    alike = Alike(lambda plan: [(need, lines.setdefault(same_part(need.part), _Line(need))) for need in plan.parts])
    for plan in plans:
        for need, line in alike.of(plan, plan.parts):
            line.places.append(Place(plan.name, need.count))
            line.renewed += need.renewed
    return tuple(_line(line, shelf, tables) for line in sorted(lines.values(), key=_place_of))


def _line(line: _Line, shelf: ShelfView, tables: Tables) -> PartLine:
    """The line before anything of it is packed."""
    need, needed = line.need, sum(place.count for place in line.places)
    kept = shelf.part(need.part)
    extra = extra_of(need.spares, need.part.size, needed, tables)
    spares = extra.spare + extra.trial + line.renewed
    return PartLine(
        id=need.id, part=need.part, form=need.form, needed=needed, spares=spares, total=needed + spares,
        on_shelf=kept.count, to_buy=0, pack=kept.pack, packs=None, price=kept.price, cost=None,
        places=tuple(line.places), packed=0,
    )  # fmt: skip


def _with_costs(listed: HardwareList) -> HardwareList:
    """The list with what is to buy of each part, and what all of that costs."""
    parts = tuple(map(_to_buy, listed.parts))
    buying = [line for line in parts if line.to_buy]
    costs = [line.cost for line in buying if line.cost is not None]
    return replace(listed, parts=parts, cost=fsum(costs) if costs else None, unpriced=len(buying) - len(costs))


def _to_buy(line: PartLine) -> PartLine:
    """The line with what is not at hand, in packs where they are known, and what that costs."""
    to_buy = max(line.total - line.at_hand, 0)
    packs = None if line.pack is None else ceil(to_buy / line.pack)
    bought = to_buy if packs is None or line.pack is None else packs * line.pack
    cost = None if line.price is None else line.price * bought
    return replace(line, to_buy=to_buy, packs=packs, cost=cost)


def _place_of(line: _Line) -> tuple[int, str, str, str, float, Part]:
    part = line.need.part
    diameter = f"{size_mm(part.size):08.3f}"
    return PLACES[line.need.listed], line.need.id.key, diameter, part.name, part.length_mm or 0.0, part
