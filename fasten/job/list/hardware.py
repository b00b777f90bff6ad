"""The hardware list: everything that all mount points of a job need, each thing once with where it goes."""

from dataclasses import dataclass, replace
from math import ceil, fsum

from fasten.catalog.job_parts import Spare
from fasten.catalog.tables import Tables
from fasten.job.choices import Choice
from fasten.job.list.consumed import consumables
from fasten.job.list.lists import HardwareList, PartLine, Place, Remark, Unfit
from fasten.job.list.needs import Fit, bits, fits_of, tools
from fasten.job.list.parts import form_of, parts_of, same_part
from fasten.job.list.ticks import Ticks, packed_of, ticks, with_ticks
from fasten.job.shelf.known import with_known
from fasten.job.shelf.view import ShelfView
from fasten.job.words import Job, Part, Shelf

ANY = "part"
# Rows of parts stand in this order of kinds; what is not here comes after, by name.
KINDS = ("rivet nut", "insert", "nut", "blind rivet", "screw", "washer", "stop sleeve")
_DUST = 1e-9


@dataclass
class _Line:
    part: Part
    places: list[Place]
    renewed: int = 0


def hardware(job: Job, found: tuple[Choice, ...], shelf: Shelf | None, tables: Tables) -> HardwareList:
    """The list of a job whose mount points get what `found` says, against a shelf where there is one."""
    fits, view, said = fits_of(found), ShelfView(shelf, tables), ticks(job.packed)
    parts = _parts(fits, view, said, tables)
    buying = [line for line in parts if line.to_buy]
    costs = [line.cost for line in buying if line.cost is not None]
    listed = HardwareList(
        title=job.title, vehicle=job.vehicle, shelf=view.there, currency=view.currency, mounts=len(found), parts=parts,
        bits=bits(fits, view, tables), tools=tools(fits, view, tables), consumables=consumables(fits, view, tables),
        unfit=tuple(Unfit(choice.name, choice.reason) for choice in found if choice.answer is None),
        cost=fsum(costs) if costs else None, unpriced=len(buying) - len(costs),
        remarks=tuple(Remark(fit.name, text) for fit in fits for text in fit.answer.remarks),
    )  # fmt: skip
    return with_known(with_ticks(listed, said), shelf, tables)


def spares_of(part: Part, needed: int, tables: Tables) -> int:
    """Spares of a part by the first rule that is for its kind and size; none where nothing is needed."""
    if not needed:
        return 0
    for row in tables.rows(Spare, "spares"):
        if _is_kind(part.kind, row.kind) and _is_size(part.size, row.up_to_mm):
            return max(row.least, ceil(row.share * needed - _DUST))
    return 0


def _parts(fits: tuple[Fit, ...], shelf: ShelfView, said: Ticks, tables: Tables) -> tuple[PartLine, ...]:
    lines: dict[Part, _Line] = {}
    for fit in fits:
        for part, each in parts_of(fit.answer, fit.point, tables):
            line = lines.setdefault(same_part(part), _Line(part, []))
            count = each * fit.point.fixings
            line.places.append(Place(fit.name, count))
            line.renewed += count if _is_renewed(part, fit) else 0
    return tuple(_line(line, shelf, said, tables) for line in sorted(lines.values(), key=_place_of))


def _line(line: _Line, shelf: ShelfView, said: Ticks, tables: Tables) -> PartLine:
    needed, kept = sum(place.count for place in line.places), shelf.part(line.part)
    spares = spares_of(line.part, needed, tables) + line.renewed
    counted = PartLine(
        part=line.part, form=form_of(line.part, tables), needed=needed, spares=spares, total=needed + spares,
        on_shelf=kept.count, to_buy=0, pack=kept.pack, packs=None, price=kept.price, cost=None,
        places=tuple(line.places), packed=0,
    )  # fmt: skip
    return _to_buy(replace(counted, packed=packed_of(said, counted)))


def _to_buy(line: PartLine) -> PartLine:
    """The line with what is not at hand, in packs where they are known, and what that costs."""
    to_buy = max(line.total - line.at_hand, 0)
    packs = None if line.pack is None else ceil(to_buy / line.pack)
    bought = to_buy if packs is None or line.pack is None else packs * line.pack
    cost = None if line.price is None else line.price * bought
    return replace(line, to_buy=to_buy, packs=packs, cost=cost)


def _is_renewed(part: Part, fit: Fit) -> bool:
    """Whether the answer renews this part within the years it is planned for: one further set is put by."""
    renewed = [text.partition(" at ")[0] for text in fit.answer.proposal.removals.replace]
    return any(_is_kind(part.kind, kind) for kind in renewed)


def _is_kind(kind: str, rule: str) -> bool:
    return rule in {ANY, kind} or kind.endswith(f" {rule}")


def _is_size(size: str, up_to_mm: float | None) -> bool:
    return up_to_mm is None or size_mm(size) <= up_to_mm


def size_mm(size: str) -> float:
    """Diameter that a size names: M5, ST4.2, 4 mm; none where it names no such."""
    digits = size.upper().removeprefix("ST").removeprefix("M").split("X")[0].removesuffix("MM").strip()
    return float(digits) if digits.replace(".", "", 1).isdecimal() else float("inf")


def _place_of(line: _Line) -> tuple[int, str, str, str, float, Part]:
    part = line.part
    place = next((at for at, kind in enumerate(KINDS) if _is_kind(part.kind, kind)), len(KINDS))
    diameter = size_mm(part.size)
    return place, part.kind, f"{diameter:08.3f}", part.name, part.length_mm or 0.0, part
