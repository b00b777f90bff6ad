"""The stack of a joint: which screw fits the item's hole, how long it must be, which washers and nuts belong to it."""

from bisect import bisect_left, bisect_right
from functools import lru_cache

from fasten.catalog.parts import HEADS, LENGTH_RANGES, NUTS, PLATE, PLATES, PREFERRED_LENGTHS, WASHERS, Head, Nut, Plate
from fasten.catalog.rows import METRIC_CLEARANCE, METRIC_THREADS, MetricThread
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry.bits import Bit, all_bits, nearest_bit
from fasten.model import BitChoice, Hole, Joint, Position, StackPart, Tolerance, Visible

FITS_HOLE = 1e-9
PENNY = "penny"


@lru_cache(maxsize=512)
def threads_for_hole(tables: Tables, hole_mm: float, sizes: tuple[str, ...]) -> tuple[MetricThread, ...]:
    """Coarse metric threads whose fine clearance hole is not above the item's hole, largest first.

    tables: the tables to look in [-]
    hole_mm: hole in the item [mm]
    sizes: designations to choose from [-]
    Returns: the threads [-]
    Source: ISO 273, fine series.
    """
    found = []
    for size in sizes:
        clearance = tables.find(METRIC_CLEARANCE, size)
        thread = tables.find(METRIC_THREADS, size)
        if clearance is not None and thread is not None and clearance.fine_mm <= hole_mm + FITS_HOLE:
            found.append(thread)
    return tuple(sorted(found, key=lambda thread: -thread.major_mm))


def clearance_hole_mm(tables: Tables, size: str) -> float:
    """Medium clearance hole of a metric screw.

    tables: the tables to look in [-]
    size: designation of the coarse thread [-]
    Returns: the hole [mm]
    Source: ISO 273, medium series.
    """
    row = tables.need(METRIC_CLEARANCE, size)
    return row.medium_mm


def fine_clearance_mm(tables: Tables, size: str) -> float:
    """Fine clearance hole of a metric screw, the least it passes.

    tables: the tables to look in [-]
    size: designation of the coarse thread [-]
    Returns: the hole [mm]
    Source: ISO 273, fine series.
    """
    row = tables.need(METRIC_CLEARANCE, size)
    return row.fine_mm


def clearance_source(tables: Tables, size: str) -> str:
    """The source id of a clearance hole.

    tables: the tables to look in [-]
    size: designation of the coarse thread [-]
    Returns: the id [-]
    Source: ISO 273.
    """
    row = tables.need(METRIC_CLEARANCE, size)
    return tables.source_id(METRIC_CLEARANCE, row)


@lru_cache(maxsize=1024)
def preferred_length_mm(tables: Tables, family: str, standard: str, size: str, least_mm: float) -> float | None:
    """Shortest first-choice length that is made and not under `least_mm`; None where none is stocked.

    tables: the tables to look in [-]
    family: `machine` or `tapping` [-]
    standard: standard of the screw, for the lengths it is stocked in [-]
    size: thread size [-]
    least_mm: least length under the head [mm]
    Returns: the nominal length, or None [mm]
    Source: ISO 888 and ISO 7049 lengths, ranges of the product standards.
    """
    stocked = tables.find(LENGTH_RANGES, standard, size)
    if stocked is None:
        return None
    for row in tables.rows(PREFERRED_LENGTHS):
        fits = row.family == family and row.choice == "first" and stocked.min_mm <= row.length_mm <= stocked.max_mm
        if fits and row.length_mm >= least_mm - FITS_HOLE:
            return row.length_mm
    return None


@lru_cache(maxsize=512)
def head_for(tables: Tables, size: str, visible: Visible) -> Head | None:
    """The head to use: a pan hexalobular head where it is seen, else a hexagon flange, else a socket cap.

    tables: the tables to look in [-]
    size: thread size [-]
    visible: whether heads are seen [-]
    Returns: the head, or None [-]
    Source: common practice.
    """
    standards = ("ISO 14583", "ISO 7380-2") if visible is Visible.YES else ("ISO 15071", "ISO 14583", "ISO 4762")
    for standard in standards:
        head = tables.find(HEADS, standard, size)
        if head is not None and tables.find(LENGTH_RANGES, standard, size) is not None:
            return head
    return None


@lru_cache(maxsize=512)
def washer_for(tables: Tables, form: str, size: str, place: Position) -> StackPart | None:
    """The washer of a form and size, or None.

    tables: the tables to look in [-]
    form: `plain`, `large`, `penny` or `spring` [-]
    size: thread size [-]
    place: where it goes: `head`, `between` or `nut` [-]
    Returns: the washer, or None [-]
    Source: ISO 7089, ISO 7093-1, ISO 7094, DIN 127.
    """
    for row in tables.rows(WASHERS):
        if row.form == form and row.size == size:
            return StackPart(row.standard, size, place, row.hole_mm, row.outer_mm, row.thickness_mm)
    return None


def spread_forms(tables: Tables) -> tuple[str, ...]:
    """What may lie where a large washer bears too little, from the smallest up: a penny washer, then the plates.

    tables: the tables to look in [-]
    Returns: forms that `spreader` knows [-]
    Source: ISO 7094; plates as the trade sells them.
    """
    return (PENNY, *(row.plate for row in tables.rows(PLATES)))


@lru_cache(maxsize=512)
def spreader(tables: Tables, form: str, size: str, place: Position) -> tuple[StackPart, ...]:
    """The washer of a form, or a plate with a large washer on it, from the head down.

    tables: the tables to look in [-]
    form: form of a washer, or a plate [-]
    size: thread size [-]
    place: where it goes: `head` or `nut` [-]
    Returns: what lies there, nothing where there is no such washer [-]
    Source: ISO 7089, ISO 7093-1, ISO 7094; plates as the trade sells them.
    """
    plate, washer = tables.find(PLATES, form), washer_for(tables, form, size, place)
    if plate is None:
        return () if washer is None else (washer,)
    large = washer_for(tables, "large", size, place)
    if large is None:
        return ()
    under = _plate(tables, plate, large)
    return (large, under) if place is Position.HEAD else (under, large)


def spreaders_of(joint: Joint, tables: Tables) -> tuple[StackPart, ...]:
    """What of a joint bears where a large washer would not do: its penny washers and plates.

    joint: the joint [-]
    tables: the tables to look in [-]
    Returns: the parts, from the head down [-]
    Source: ISO 7094; plates as the trade sells them.
    """
    rows = ((part, tables.find(WASHERS, part.standard, part.size)) for part in joint.washers)
    return tuple(part for part, row in rows if part.side_mm is not None or (row is not None and row.form == PENNY))


def spreader_text(part: StackPart) -> str:
    """A penny washer or a plate in words, and where it lies.

    part: the part [-]
    Returns: the words [-]
    Source: geometry.
    """
    what = f"{part.standard} {part.size}" if part.side_mm is not None else f"penny washer {part.size}, {part.standard},"
    return f"a {what} under the head" if part.place is Position.HEAD else f"a {what} behind"


def _plate(tables: Tables, row: Plate, washer: StackPart) -> StackPart:
    """A plate below its washer: it bears as far beyond it as it does not bend."""
    spread_mm = rule(tables, Rules.PLATE_SPREAD).value * row.thickness_mm
    bears_mm = min(washer.outer_mm + 2 * spread_mm, row.side_mm)
    return StackPart(
        PLATE, row.size, washer.place, clearance_hole_mm(tables, washer.size),
        bears_mm, row.thickness_mm, row.side_mm,
    )  # fmt: skip


@lru_cache(maxsize=512)
def nut_for(tables: Tables, form: str, size: str) -> Nut | None:
    """The nut of a form and size, or None.

    tables: the tables to look in [-]
    form: such as `prevailing_torque` [-]
    size: thread size [-]
    Returns: the nut, or None [-]
    Source: ISO 7040, ISO 10511.
    """
    return next((row for row in tables.rows(NUTS) if row.form == form and row.size == size), None)


@lru_cache(maxsize=512)
def hole_with_bit(
    tables: Tables, diameter_mm: float, minus_mm: float, plus_mm: float, *, depth_mm: float | None, shape: str
) -> Hole:
    """A hole with the bit that drills it best.

    tables: the tables to look in [-]
    diameter_mm: wanted hole [mm]
    minus_mm: how much smaller it may be [mm]
    plus_mm: how much larger it may be [mm]
    depth_mm: depth, None for a hole that goes through [mm]
    shape: `round` or `hexagon`, the latter across flats [-]
    Returns: the hole [-]
    Source: the drill tables.
    """
    best = nearest_bit(diameter_mm, minus_mm, plus_mm, bits_near(tables, diameter_mm))
    choice = BitChoice(best.name, best.diameter_mm, best.deviation_mm, best.holds)
    return Hole(diameter_mm, Tolerance(minus_mm, plus_mm), depth_mm, choice, shape)


NEAR_MM = 0.6  # no two bits of the series a shop keeps stand further apart than this


def bits_near(tables: Tables, diameter_mm: float) -> tuple[Bit, ...]:
    """The bits close enough to a hole to be worth ranking.

    tables: the tables to look in [-]
    diameter_mm: wanted hole [mm]
    Returns: the bits, all of them where none is near [-]
    Source: the drill tables.
    """
    bits, diameters = _by_diameter(tables)
    near = bits[bisect_left(diameters, diameter_mm - NEAR_MM) : bisect_right(diameters, diameter_mm + NEAR_MM)]
    return near or bits


@lru_cache(maxsize=2)  # reading tables anew lets go of the old ones
def _by_diameter(tables: Tables) -> tuple[tuple[Bit, ...], tuple[float, ...]]:
    bits = tuple(sorted(all_bits(tables), key=lambda bit: bit.diameter_mm))
    return bits, tuple(bit.diameter_mm for bit in bits)
