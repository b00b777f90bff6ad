"""Fewest different sizes for a whole job: the choice among what every entry might take, before and after.

It reads plans alone: what an entry offers is a plan with the pin that holds it, and `offers` makes those.
"""

from collections.abc import Mapping

from fasten.advice.bits import HOLE
from fasten.advice.tools import SET_BY
from fasten.catalog.job_parts import SIZE_WEIGHTS
from fasten.catalog.tables import Tables
from fasten.job.entry import Entry
from fasten.job.list.lists import Unfit
from fasten.job.list.parts import part_text
from fasten.job.sizes.fewest import Option, Place, Size, fewest
from fasten.job.words import Pin
from fasten.model.kinds import ALL, PartKind, PatchKind, ScrewKind
from fasten.model.plan import Plan
from fasten.progress import Step, unseen
from fasten.record import record

SCREW, RECEIVER, BIT, SETTING, RANK = "screw", "receiver", "bit", "setting tool", "rank"
KINDS = (SCREW, RECEIVER, BIT, SETTING)
_SIZED = {kind.key: SCREW for kind in ALL if isinstance(kind, ScrewKind)} | {
    kind.key: RECEIVER for kind in ALL if isinstance(kind, PartKind | PatchKind)
}  # washers follow from these


@record
class Offer:
    """What an entry may take: what it then gets, the pin that holds that, its points, and what it is called."""

    entry: Entry
    plan: Plan
    pin: Pin
    points: float
    text: str


@record
class Offered:
    """Everything that an entry may take, what it has as things stand first."""

    name: str
    offers: tuple[Offer, ...]
    is_pinned: bool


@record
class Change:
    """What a mount point has by itself and in the choice with the fewest sizes; `pin` holds the latter."""

    mount: str
    before: str
    after: str
    changed: bool
    pinned: bool
    rank_lost: float
    pin: Pin


@record
class Standard:
    """The choice with the fewest sizes beside what stood before; `choices` are what the entries then get.

    `proven` is whether no choice is better by the weights; else it is the best that was found.
    """

    before: tuple[Size, ...]
    after: tuple[Size, ...]
    before_cost: float
    cost: float
    proven: bool
    changes: tuple[Change, ...]
    unfit: tuple[Unfit, ...]
    choices: tuple[Entry, ...]

    @property
    def pins(self) -> dict[str, Pin]:
        """The pins that hold the choice, by mount point; what every mount point takes by itself needs none."""
        return {change.mount: change.pin for change in self.changes if change.changed}


def standard(
    found: tuple[Entry, ...], offered: tuple[Offered, ...], tables: Tables, step: Step = unseen, *, is_all: bool = True
) -> Standard:
    """The choice with the fewest sizes among all that is offered for the entries `found`; `is_all` says that it is all.

    `step` is called while the choice is searched for. Where it raises Stopped, the best found until then is returned.
    """
    points = {row.kind: row.points for row in tables.rows(SIZE_WEIGHTS)}
    weights, rank_weight = {kind: points[kind] for kind in KINDS}, points[RANK]
    best = fewest([_place(entry) for entry in offered], weights, rank_weight, step)
    chosen = [_by_key(entry.offers)[key] for entry, key in zip(offered, best.chosen, strict=True)]
    kept = {entry.name: offer.entry for entry, offer in zip(offered, chosen, strict=True)}
    return Standard(
        before=_sorted(best.before_sizes), after=_sorted(best.sizes), before_cost=best.before_cost, cost=best.cost,
        proven=best.proven and is_all,
        changes=tuple(_change(entry, offer) for entry, offer in zip(offered, chosen, strict=True)),
        unfit=tuple(Unfit(entry.name, entry.reason, entry.is_said) for entry in found if entry.plan is None),
        choices=tuple(kept.get(entry.name, entry) for entry in found),
    )  # fmt: skip


def sizes_of(plan: Plan) -> frozenset[Size]:
    """The distinct things that a plan needs: screw, receiver, bit, setting tools."""
    parts = ((_SIZED.get(need.id.key), need.part) for need in plan.parts)
    return frozenset([
        *((sort, part_text(part)) for sort, part in parts if sort is not None),
        *((BIT, bit.name) for bit in plan.bits if bit.purpose == HOLE),
        *((SETTING, f"{tool.name} {tool.size}".strip()) for tool in plan.tools if tool.heading in SET_BY),
    ])  # fmt: skip


def _place(entry: Offered) -> Place:
    options = _by_key(entry.offers).items()
    return Place(entry.name, tuple(Option(key, sizes_of(offer.plan), _lost(entry, offer)) for key, offer in options))


def _by_key(offers: tuple[Offer, ...]) -> Mapping[str, Offer]:
    """A stable name for each offer, by which ties are settled: what stands comes first, then a shorter screw."""
    keys = (f"{'standing' if at == 0 else 'substitute'} {_name(offer.pin)}" for at, offer in enumerate(offers))
    return dict(zip(keys, offers, strict=True))


def _name(pin: Pin) -> str:
    lengths = ("" if mm is None else f"{mm:012.6f}" for mm in (pin.receiver_length_mm, pin.screw_length_mm))
    return "|".join((pin.method, pin.thread, pin.series, *lengths))


def _lost(entry: Offered, offer: Offer) -> float:
    """Points by which an offer scores worse than the best; sums of floats, so rounded to the millionth."""
    return round(offer.points - min(other.points for other in entry.offers), 6)


def _change(entry: Offered, after: Offer) -> Change:
    before = entry.offers[0]
    return Change(
        mount=entry.name, before=before.text, after=after.text, changed=after.pin != before.pin,
        pinned=entry.is_pinned, rank_lost=_lost(entry, after), pin=after.pin,
    )  # fmt: skip


def _sorted(sizes: frozenset[Size]) -> tuple[Size, ...]:
    return tuple(sorted(sizes, key=lambda size: (KINDS.index(size[0]), size[1])))
