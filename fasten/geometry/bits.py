"""Drill bits of every series, and the nearest one to a wanted hole."""

from collections.abc import Iterable

from fasten.catalog.rows import DRILLS_METRIC, INCH_DRILLS, MetricDrill
from fasten.catalog.tables import Tables
from fasten.record import record
from fasten.require import not_negative, positive, refuse

MM_PER_INCH = 25.4
INCH_SERIES = tuple(INCH_DRILLS)
METRIC = "metric"
IN_PLACE = "none, the nut is in place"
OWN_POINT = "the screw's own point"  # in place of a bit
# Diameters are printed to a hundredth of a millimetre or a ten-thousandth of an inch: nearer than this is equal.
EQUAL_MM = 1e-6


@record
class Bit:
    """A drill bit: its name as stamped, its diameter and its series."""

    name: str
    diameter_mm: float
    series: str
    from_: str = ""


@record
class NearestBit:
    """The bit that comes nearest to a wanted hole; `holds` says whether the hole's tolerance still holds."""

    name: str
    diameter_mm: float
    deviation_mm: float
    holds: bool


def all_bits(tables: Tables) -> tuple[Bit, ...]:
    """Every bit of every series, metric first, then by series as printed.

    tables: the tables to look in [-]
    Returns: the bits [-]
    Source: the drill tables, each row with its own.
    """
    found = list(metric_bits(tables))
    for series in INCH_SERIES:
        found += inch_bits(tables, series)
    return tuple(found)


def metric_bits(tables: Tables) -> tuple[Bit, ...]:
    """The bits of the metric series, named by their diameter.

    tables: the tables to look in [-]
    Returns: the bits, thinnest first [-]
    Source: the metric drill table, each row with its own.
    """
    return tuple(_metric_bit(row, tables) for row in tables.rows(DRILLS_METRIC))


def thickest_metric_bit(most_mm: float, tables: Tables) -> Bit | None:
    """The thickest bit of the metric series up to a diameter; None where there is none.

    most_mm: the largest diameter that will do [mm]
    tables: the tables to look in [-]
    Returns: the bit [-]
    Source: the metric drill table, each row with its own.
    """
    rows = [row for row in tables.rows(DRILLS_METRIC) if row.diameter_mm <= most_mm]
    return _metric_bit(max(rows, key=lambda row: row.diameter_mm), tables) if rows else None


def _metric_bit(row: MetricDrill, tables: Tables) -> Bit:
    return Bit(metric_name(row.diameter_mm), row.diameter_mm, METRIC, tables.source_id(DRILLS_METRIC, row))


def inch_bits(tables: Tables, series: str) -> tuple[Bit, ...]:
    """The bits of one inch series.

    tables: the tables to look in [-]
    series: `number`, `letter` or `fraction` [-]
    Returns: the bits, thinnest first [-]
    Raises ValueError for another series.
    Source: the drill table of that series, each row with its own.
    """
    if series not in INCH_SERIES:
        raise refuse("series", series, f"one of {', '.join(INCH_SERIES)}", "no other series is in inches")
    table = INCH_DRILLS[series]
    return tuple(
        Bit(row.name_, round(row.diameter_in * MM_PER_INCH, 6), series, tables.source_id(table, row))
        for row in tables.rows(table)
    )


def series_of(name: str) -> str:
    """The series a bit's name belongs to: `#21` number, `F` letter, `9/64` fraction, `5.1 mm` metric.

    name: the bit's name [-]
    Returns: the series [-]
    Source: common practice, how bits are stamped.
    """
    if name.startswith("#"):
        return "number"
    if name.isalpha():
        return "letter"
    return METRIC if name.endswith("mm") else "fraction"


def metric_name(diameter_mm: float) -> str:
    """Name of a metric bit: its diameter without needless zeros.

    diameter_mm: diameter [mm]
    Returns: the name, such as `5.1 mm` [-]
    Raises ValueError where the diameter is not above zero.
    Source: common practice, how bits are stamped.
    """
    positive(diameter_mm=diameter_mm)
    return f"{diameter_mm:.2f}".rstrip("0").rstrip(".") + " mm"


def bit_named(tables: Tables, name: str) -> Bit | None:
    """The bit of that name, reading only the table of its series.

    tables: the tables to look in [-]
    name: the bit's name, as `series_of` shows them [-]
    Returns: the bit, or None [-]
    Source: the drill tables, each row with its own.
    """
    series = series_of(name)
    bits = metric_bits(tables) if series == METRIC else inch_bits(tables, series)
    return next((bit for bit in bits if bit.name == name), None)


def nearest_bit(wanted_mm: float, minus_mm: float, plus_mm: float, bits: Iterable[Bit]) -> NearestBit:
    """The bit that comes nearest to a wanted hole.

    An exact bit wins; then one inside the tolerance; then the smaller deviation; then a metric one; then the thinner,
    since a hole can be opened up but not closed; then the first by name, so that the answer never depends on order.

    wanted_mm: diameter of the wanted hole [mm]
    minus_mm: how much smaller the hole may be [mm]
    plus_mm: how much larger the hole may be [mm]
    bits: the bits to choose from [-]
    Returns: the bit, with its deviation, above zero where the hole comes out large [mm]
    Raises ValueError where the hole is not above zero, a tolerance is below zero, or there is no bit.
    Source: common practice.
    """
    positive(wanted_mm=wanted_mm)
    not_negative(minus_mm=minus_mm, plus_mm=plus_mm)
    ranked = [(_rank(bit, wanted_mm, minus_mm, plus_mm), bit) for bit in bits]
    if not ranked:
        raise refuse("bits", (), "one bit or more", "a hole needs a bit to drill it")
    _, best = min(ranked, key=lambda pair: pair[0])
    deviation_mm = round(best.diameter_mm - wanted_mm, 6)
    return NearestBit(best.name, best.diameter_mm, deviation_mm, _holds(deviation_mm, minus_mm, plus_mm))


def _rank(bit: Bit, wanted_mm: float, minus_mm: float, plus_mm: float) -> tuple[bool, float, bool, float, str]:
    """An exact bit comes first by itself: it holds, and none is nearer."""
    deviation_mm = round(bit.diameter_mm - wanted_mm, 6)
    return (
        not _holds(deviation_mm, minus_mm, plus_mm),
        abs(deviation_mm),
        bit.series != METRIC,
        bit.diameter_mm,
        bit.name,
    )


def _holds(deviation_mm: float, minus_mm: float, plus_mm: float) -> bool:
    return -minus_mm - EQUAL_MM <= deviation_mm <= plus_mm + EQUAL_MM
