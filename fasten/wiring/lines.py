"""The lines of a run's list: how many of each part, with spares and trials, and how much cable and heat-shrink."""

from collections.abc import Iterator

from fasten.catalog.spares import extra_of
from fasten.catalog.tables import Tables
from fasten.model import Status
from fasten.model.plan import ConsumableNeed, PartNeed, Plan
from fasten.record import record
from fasten.wiring.ends import EndFit

CONFIRM, PROPOSED = "confirm", "proposed"
_MM_PER_M = 1000.0


@record
class RunLine:
    """A line of a run's list. Of cable and heat-shrink `cut_m` is cut and `pack_m` goes in the box; None for parts.

    `state` is confirm where something of it must be measured first, and `why` says what.
    """

    part: str
    size: str
    stud: str
    type_: str
    colour: str
    needed: int | None
    spare: int | None
    trial: int | None
    cut_m: float | None
    pack_m: float | None
    state: str
    why: tuple[str, ...]


def lines_of(plan: Plan, ends: tuple[EndFit, ...], tables: Tables) -> tuple[RunLine, ...]:
    """Every line: parts first, then cable and heat-shrink."""
    return (*(_part(need, ends, tables) for need in plan.parts), *map(_consumable, plan.consumables))


def _part(need: PartNeed, ends: tuple[EndFit, ...], tables: Tables) -> RunLine:
    size, stud, type_, colour = need.id.sizes
    extra = extra_of(need.spares, need.part.size, need.count, tables)
    why = tuple(dict.fromkeys(_open(need, ends)))
    return RunLine(
        need.part.kind, size, stud, type_, colour, need.count, extra.spare, extra.trial, None, None,
        CONFIRM if why else PROPOSED, why,
    )  # fmt: skip


def _open(need: PartNeed, ends: tuple[EndFit, ...]) -> Iterator[str]:
    """What must be measured or confirmed at the ends that take the part."""
    for end in ends:
        part = end.part
        if part is None or (part.kind.key, part.size, part.stud, part.type_, part.colour) != (
            need.id.key,
            *need.id.sizes,
        ):
            continue
        yield from (_said(one.needs) for one in end.checks if one.status is Status.NOT_CHECKED)


def _said(needs: str | None) -> str:
    return (needs or "").removeprefix("needs ")


def _consumable(need: ConsumableNeed) -> RunLine:
    used, long = need.amount or 0.0, need.unit == "mm"
    size, type_, colour = (
        (need.detail, "", "") if not need.id.sizes else (need.id.sizes[0], need.detail, need.id.sizes[-1])
    )
    return RunLine(
        need.id.key, size, "", type_, colour if need.id.key == "cable" else "",
        None if long or need.amount is None else round(used), None if long else 0, None if long else 0,
        used / _MM_PER_M if long else None, need.in_the_box(used) / _MM_PER_M if long else None, PROPOSED, (),
    )  # fmt: skip
