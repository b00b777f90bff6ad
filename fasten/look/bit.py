"""A drill bit: what it taps, what it clears, what it pilots, and its neighbours in every series."""

from collections.abc import Iterator

from fasten.catalog.rows import (
    METRIC_CLEARANCE,
    METRIC_THREADS,
    TAPPING_CLEARANCE,
    UNIFIED_CLEARANCE,
    UNIFIED_THREADS,
)
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.geometry.bits import INCH_SERIES, METRIC, Bit, all_bits, bit_named
from fasten.geometry.threads import MM_PER_INCH, PERCENT_BASIS, Limits, Range, metric_limits, unified_limits
from fasten.geometry.threads import thread_percent as percent
from fasten.look.tapping import tapping_holes
from fasten.look.thread import TapDrill, cite_formulas, metric_tap_drill, unified_tap_drill
from fasten.record import record

PERCENT = "percent-thread-handbook"
SLACK_MM = 0.05
"""How far a bit may be from a tabled hole to be named for it [mm]: half a step of the metric series."""


@record
class Taps:
    """A thread this bit drills for: inside the minor diameter's limits, `listed_drill` what the charts name."""

    from_: tuple[str, ...]
    thread: str
    minor_mm: Range
    thread_percent: float
    percent_basis: str
    listed_drill: str | None


@record
class Clears:
    """A screw that passes the hole: the loosest fit that is reached, and how much wider the bit is than that fit."""

    from_: tuple[str, ...]
    size: str
    fit: str
    hole_mm: float
    deviation_mm: float


@record
class Pilots:
    """A tapping screw this bit drills for, in sheet of that material and thickness."""

    from_: tuple[str, ...]
    size: str
    table: str
    material: str
    sheet_mm: Range
    hole_mm: float
    deviation_mm: float


@record
class Neighbour:
    """The nearest bit of a series, thinner or thicker; a deviation above zero is thicker."""

    from_: tuple[str, ...]
    name: str
    series: str
    diameter_mm: float
    diameter_in: float
    deviation_mm: float


@record
class BitEntry:
    """All about a drill bit."""

    kind: str
    from_: tuple[str, ...]
    name: str
    series: str
    diameter_mm: float
    diameter_in: float
    taps: tuple[Taps, ...]
    clears: tuple[Clears, ...]
    pilots: tuple[Pilots, ...]
    neighbours: tuple[Neighbour, ...]
    notes: tuple[str, ...]


def bit_entry(name: str, tables: Tables) -> BitEntry:
    """The entry of a bit.

    Raises:
        FastenError: there is no such bit.
    """
    bit = bit_named(tables, name)
    if bit is None:
        raise FastenError(f"{name} is not a bit of the tables")
    return BitEntry(
        kind="bit", from_=(bit.from_,), name=bit.name, series=bit.series,
        diameter_mm=bit.diameter_mm, diameter_in=inches(bit.diameter_mm),
        taps=tuple(_taps(bit.diameter_mm, tables)), clears=tuple(_clears(bit.diameter_mm, tables)),
        pilots=tuple(_pilots(bit.diameter_mm, tables)),
        neighbours=tuple(neighbours(bit.diameter_mm, tables, bit.name)), notes=(),
    )  # fmt: skip


def inches(mm: float) -> float:
    """A diameter [mm] in inches, freed of the noise of the division."""
    return round(mm / MM_PER_INCH, 8)


def neighbours(diameter_mm: float, tables: Tables, but: str = "") -> Iterator[Neighbour]:
    """In every series the bits next below and above, or the one that is equal, less the one named."""
    bits = [bit for bit in all_bits(tables) if bit.name != but]
    for series in (METRIC, *INCH_SERIES):
        for bit in _next_to(diameter_mm, [bit for bit in bits if bit.series == series]):
            deviation_mm = round(bit.diameter_mm - diameter_mm, 6)
            yield Neighbour(
                (bit.from_,), bit.name, series, bit.diameter_mm, inches(bit.diameter_mm), deviation_mm
            )  # fmt: skip


def _next_to(diameter_mm: float, bits: list[Bit]) -> list[Bit]:
    equal = [bit for bit in bits if round(bit.diameter_mm - diameter_mm, 6) == 0]
    below = [bit for bit in bits if bit.diameter_mm < diameter_mm]
    above = [bit for bit in bits if bit.diameter_mm > diameter_mm]
    by_size = {bit.diameter_mm: bit for bit in below}
    found = [by_size[max(by_size)]] if by_size else []
    return equal or found + sorted(above, key=lambda bit: bit.diameter_mm)[:1]


def _taps(diameter_mm: float, tables: Tables) -> Iterator[Taps]:
    for row in tables.rows(METRIC_THREADS):
        limits = metric_limits(tables, row.designation)
        if _inside(diameter_mm, limits):
            used = (tables.source_id(METRIC_THREADS, row), *cite_formulas(tables, "iso-965-limits", PERCENT))
            share = percent(row.major_mm, diameter_mm, row.pitch_mm)
            yield _tap(row.designation, limits, share, used, metric_tap_drill(row, tables))
    for inch in tables.rows(UNIFIED_THREADS):
        limits = unified_limits(tables, inch.designation)
        if _inside(diameter_mm, limits):
            used = (tables.source_id(UNIFIED_THREADS, inch), *cite_formulas(tables, "b1-1-limits", PERCENT))
            share = percent(limits.basic.major_mm, diameter_mm, MM_PER_INCH / inch.threads_per_in)
            yield _tap(inch.designation, limits, share, used, unified_tap_drill(inch, tables))


def _inside(diameter_mm: float, limits: Limits) -> bool:
    return limits.internal.minor_mm.min <= diameter_mm <= limits.internal.minor_mm.max


def _tap(name: str, limits: Limits, share: float, used: tuple[str, ...], listed: TapDrill | None) -> Taps:
    cited = tuple(dict.fromkeys(used + (listed.from_ if listed else ())))
    return Taps(cited, name, limits.internal.minor_mm, share, PERCENT_BASIS, listed.name if listed else None)


def _clears(diameter_mm: float, tables: Tables) -> Iterator[Clears]:
    for row in tables.rows(METRIC_CLEARANCE):
        holes = {"fine": row.fine_mm, "medium": row.medium_mm, "coarse": row.coarse_mm}
        yield from _clear(row.size, diameter_mm, holes, (tables.source_id(METRIC_CLEARANCE, row),))
    for inch in tables.rows(UNIFIED_CLEARANCE):
        bits = {fit: bit_named(tables, getattr(inch, fit)) for fit in ("close", "normal", "loose")}
        named = {fit: bit.diameter_mm for fit, bit in bits.items() if bit}
        yield from _clear(inch.size, diameter_mm, named, (tables.source_id(UNIFIED_CLEARANCE, inch),))
    for tapping in tables.rows(TAPPING_CLEARANCE):
        deviation_mm = round(diameter_mm - tapping.hole_mm, 6)
        if -SLACK_MM <= deviation_mm <= SLACK_MM:
            used = (tables.source_id(TAPPING_CLEARANCE, tapping),)
            yield Clears(used, tapping.size, "tapping screw", tapping.hole_mm, deviation_mm)


def _clear(size: str, bit_mm: float, holes: dict[str, float], used: tuple[str, ...]) -> Iterator[Clears]:
    reached = [(hole, fit) for fit, hole in holes.items() if hole <= bit_mm + 1e-6]
    if reached and bit_mm <= max(holes.values()) + SLACK_MM:
        hole_mm, fit = max(reached)
        yield Clears(used, size, fit, hole_mm, round(bit_mm - hole_mm, 6))


def _pilots(diameter_mm: float, tables: Tables) -> Iterator[Pilots]:
    for hole in tapping_holes(tables):
        deviation_mm = round(diameter_mm - hole.hole_mm, 6)
        if hole.made == "drilled" and -SLACK_MM <= deviation_mm <= SLACK_MM:
            yield Pilots(
                hole.from_, hole.size, hole.table, hole.material, hole.sheet_mm, hole.hole_mm, deviation_mm
            )  # fmt: skip
