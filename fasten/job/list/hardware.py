"""The hardware list: everything that all mount points of a job need, each thing once with where it goes."""

from dataclasses import dataclass, replace
from math import ceil, fsum

from fasten.catalog.job_parts import SPARES
from fasten.catalog.tables import Tables
from fasten.job.choices import Choice
from fasten.job.list.consumed import consumables
from fasten.job.list.lists import HardwareList, PartLine, Place, Remark, Unfit
from fasten.job.list.needs import Fit, bits, fits_of, tools
from fasten.job.list.parts import Fitted, fitted_parts, form_of, same_part
from fasten.job.list.ticks import with_ticks
from fasten.job.shelf.known import with_known
from fasten.job.shelf.view import ShelfView
from fasten.job.words import Job, Shelf
from fasten.model.kinds import Listed, Spares
from fasten.model.line import Part

PLACES = {place: number for number, place in enumerate(Listed)}
_DUST = 1e-9


@dataclass
class _Line:
    fitted: Fitted
    places: list[Place]
    renewed: int = 0


def hardware(job: Job, found: tuple[Choice, ...], shelf: Shelf | None, tables: Tables) -> HardwareList:
    """The list of a job whose mount points get what `found` says, against a shelf where there is one."""
    fits, view = fits_of(found), ShelfView(shelf, tables)
    listed = HardwareList(
        title=job.title, vehicle=job.vehicle, shelf=view.there, currency=view.currency, mounts=len(found),
        parts=_parts(fits, view, tables), bits=bits(fits, view, tables), tools=tools(fits, view, tables),
        consumables=consumables(fits, view, tables),
        unfit=tuple(Unfit(choice.name, choice.reason) for choice in found if choice.answer is None),
        cost=None, unpriced=0,
        remarks=tuple(Remark(fit.name, text) for fit in fits for text in fit.answer.remarks),
    )  # fmt: skip
    return with_known(_with_costs(with_ticks(listed, job)), shelf, tables)


def spares_of(spares: Spares, size: str, needed: int, tables: Tables) -> int:
    """Spares of a part by the first rule that is for its kind and size; none where nothing is needed."""
    if not needed:
        return 0
    for row in tables.rows(SPARES):
        if row.kind in {spares.value, Spares.ANY.value} and _is_size(size, row.up_to_mm):
            return max(row.least, ceil(row.share * needed - _DUST))
    return 0


def _parts(fits: tuple[Fit, ...], shelf: ShelfView, tables: Tables) -> tuple[PartLine, ...]:
    lines: dict[Part, _Line] = {}
    for fit in fits:
        for fitted, each in fitted_parts(fit.joint, tables):
            line = lines.setdefault(same_part(fitted.part), _Line(fitted, []))
            count = each * fit.point.fixings
            line.places.append(Place(fit.name, count))
            line.renewed += count if fitted.kind.key in fit.answer.proposal.removals.renewed else 0
    return tuple(_line(line, shelf, tables) for line in sorted(lines.values(), key=_place_of))


def _line(line: _Line, shelf: ShelfView, tables: Tables) -> PartLine:
    """The line before anything of it is packed."""
    fitted, needed = line.fitted, sum(place.count for place in line.places)
    kept = shelf.part(fitted.part)
    spares = spares_of(fitted.kind.spares, fitted.part.size, needed, tables) + line.renewed
    return PartLine(
        id=fitted.id, part=fitted.part, form=form_of(fitted.part, fitted.kind, tables), needed=needed, spares=spares,
        total=needed + spares, on_shelf=kept.count, to_buy=0, pack=kept.pack, packs=None, price=kept.price, cost=None,
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


def _is_size(size: str, up_to_mm: float | None) -> bool:
    return up_to_mm is None or size_mm(size) <= up_to_mm


def size_mm(size: str) -> float:
    """Diameter that a size names: M5, ST4.2, 4 mm; none where it names no such."""
    digits = size.upper().removeprefix("ST").removeprefix("M").split("X")[0].removesuffix("MM").strip()
    return float(digits) if digits.replace(".", "", 1).isdecimal() else float("inf")


def _place_of(line: _Line) -> tuple[int, str, str, str, float, Part]:
    part, kind = line.fitted.part, line.fitted.kind
    diameter = size_mm(part.size)
    return PLACES[kind.listed], kind.key, f"{diameter:08.3f}", part.name, part.length_mm or 0.0, part
