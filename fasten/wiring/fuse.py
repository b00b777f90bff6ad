"""The fuse of a run: the family first, then the smallest rating of its own series in the window."""

from collections.abc import Iterator

from fasten.catalog.tables import Tables
from fasten.catalog.wiring import FUSE_FAMILIES, FuseFamily
from fasten.catalog.wiring_rules import WiringRules, rule_figure
from fasten.model import Check, Input
from fasten.proof.checks import at_most
from fasten.record import record
from fasten.wiring.words import BatteryPost, DeviceEnd, End, Pole, Run, StudAt, StudEnd

_DUST = 1e-9


@record
class Fuse:
    """A fuse, the window it was chosen from, how many there are, and how far from its source each may be."""

    family: FuseFamily
    rating_a: float
    least_a: float
    most_a: float
    within_mm: float
    count: int
    from_: tuple[str, ...]


def fuse_of(
    floor_a: float, ampacity_a: float, area_mm2: float, holder: str | None, sources: int, tables: Tables,
    *, is_chosen: bool = False,
) -> Fuse | None:  # fmt: skip
    """The fuse for a cable of an area that carries `ampacity_a`; None where the window holds no rating.

    Cable that `is_chosen` takes one of a family that is otherwise only taken where it is asked for, before it has none.
    """
    within_mm, within_source = rule_figure(tables, WiringRules.FUSE_WITHIN)
    for row in _families(area_mm2, holder, tables, is_chosen=is_chosen):
        ratings = [rating for rating in row.ratings_a if floor_a - _DUST <= rating <= min(ampacity_a, row.up_to_a)]
        if ratings:
            source = tables.source_id(FUSE_FAMILIES, row)
            return Fuse(row, float(ratings[0]), floor_a, ampacity_a, within_mm, sources, (source, within_source))
    return None


def fuse_check(fuse: Fuse, tables: Tables, ampacity_from: tuple[str, ...]) -> Check:
    """The fuse protects the thinnest conductor behind it."""
    inputs = Input("least", fuse.least_a, "A"), Input("rating", fuse.rating_a, "A")
    return at_most(
        "fuse", "Fuse, of what the cable carries", fuse.rating_a, fuse.most_a, "A", inputs,
        "least <= rating <= what the thinnest conductor behind it carries", (*fuse.from_[:1], *ampacity_from),
    )  # fmt: skip


def smaller_of(fuse: Fuse, tables: Tables) -> float | None:
    """The smallest rating in the window of a fuse, where the holder of that takes other cable; None where it has it."""
    ratings = [
        rating for row in tables.rows(FUSE_FAMILIES) if row.cable_least_mm2 is not None
        for rating in row.ratings_a if fuse.least_a - _DUST <= rating <= row.up_to_a
    ]  # fmt: skip
    least_a = min(ratings, default=fuse.rating_a)
    return float(least_a) if least_a < fuse.rating_a else None


def least_rating(floor_a: float, area_mm2: float, holder: str | None, tables: Tables) -> float | None:
    """The smallest rating that a fuse may have, whatever the cable carries; None where none is so high."""
    ratings = [
        rating
        for row in _families(area_mm2, holder, tables, is_chosen=True)
        for rating in row.ratings_a if floor_a - _DUST <= rating <= row.up_to_a
    ]  # fmt: skip
    return float(min(ratings)) if ratings else None


def sources_of(*ends: End) -> int:
    """How many of the ends are a source that needs a fuse of its own: the batteries, but at least one."""
    return max(1, sum(is_battery(end) for end in ends))


def is_battery(end: End) -> bool:
    """Whether an end is at the plus of a battery, or at one of which that is not said."""
    if isinstance(end, BatteryPost):
        return end.pole is Pole.PLUS
    if isinstance(end, DeviceEnd):
        return end.battery
    return isinstance(end, StudEnd) and end.at is StudAt.BATTERY and end.pole is Pole.PLUS


def is_grounded(end: End) -> bool:
    """Whether an end is at the body or at the minus of a battery: such a run has no fuse of its own."""
    return is_minus(end) or is_body(end)


def is_body(end: End) -> bool:
    """Whether an end is at the body."""
    return isinstance(end, StudEnd) and end.at is StudAt.BODY


def is_minus(end: End) -> bool:
    """Whether an end is at the minus of a battery."""
    if isinstance(end, StudEnd):
        return end.at is StudAt.BATTERY and end.pole is Pole.MINUS
    return isinstance(end, BatteryPost) and end.pole is Pole.MINUS


def is_ground(run: Run) -> bool:
    """Whether a run is a ground, or joins others at a block that is grounded: it has no fuse of its own."""
    return run.joins_ground or is_grounded(run.from_) or is_grounded(run.to)


def is_minus_lead(run: Run) -> bool:
    """Whether a run joins the minus of a battery and the body; at a battery by its name it can be at no other pole."""
    ends = run.from_, run.to
    at_minus = any(is_minus(end) or (isinstance(end, DeviceEnd) and end.battery) for end in ends)
    return at_minus and any(map(is_body, ends))


def _families(area_mm2: float, holder: str | None, tables: Tables, *, is_chosen: bool) -> Iterator[FuseFamily]:
    """The families for a cable, or the one that is asked for, in their order."""
    for row in tables.rows(FUSE_FAMILIES):
        least, most = row.cable_least_mm2, row.cable_most_mm2
        is_for = is_chosen if least is None or most is None else least <= area_mm2 <= most
        if row.family == holder or (holder is None and is_for):
            yield row
