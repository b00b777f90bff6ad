"""A sheet gauge in every metal, and a length: which gauge, which bit, which screw measures so, what goes into it."""

from collections.abc import Iterator
from itertools import groupby

from fasten.catalog.rows import (
    GAUGES,
    METRIC_THREADS,
    SELF_DRILLING,
    TAPPING_THREADS,
    UNIFIED_THREADS,
)
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.geometry.threads import MM_PER_INCH, Range, metric_limits, unified_limits
from fasten.look.bit import Neighbour, inches, neighbours
from fasten.look.tapping import THIN, Hole, hole_for_sheet, tapping_holes
from fasten.record import record
from fasten.text.figures import words

MATERIALS = ("steel", "galvanised_steel", "stainless_steel", "aluminium")


@record
class Thickness:
    """Nominal thickness of a gauge in one metal; galvanised is with its zinc."""

    from_: tuple[str, ...]
    material: str
    thickness_mm: float
    thickness_in: float


@record
class GaugeEntry:
    """A gauge number in every metal that has it, or in the one that was named."""

    kind: str
    from_: tuple[str, ...]
    number: int
    thickness: tuple[Thickness, ...]
    notes: tuple[str, ...]


@record
class NearGauge:
    """The gauge that comes nearest in one metal; a deviation above zero is a thicker sheet."""

    from_: tuple[str, ...]
    material: str
    number: int
    thickness_mm: float
    thickness_in: float
    deviation_mm: float


@record
class Screw:
    """A screw whose thread measures so across, within its limits."""

    from_: tuple[str, ...]
    designation: str
    major_mm: Range


@record
class DrillsThrough:
    """A self-drilling screw that drills a sheet so thick."""

    from_: tuple[str, ...]
    size: str
    min_mm: float
    max_mm: float


@record
class Length:
    """A length seen as a sheet, as a hole and as a screw's diameter."""

    kind: str
    from_: tuple[str, ...]
    length_mm: float
    length_in: float
    gauges: tuple[NearGauge, ...]
    bits: tuple[Neighbour, ...]
    screws: tuple[Screw, ...]
    sheet_holes: tuple[Hole, ...]
    self_drilling: tuple[DrillsThrough, ...]
    notes: tuple[str, ...]


def gauge_entry(number: int, metal: str | None, tables: Tables) -> GaugeEntry:
    """The entry of a gauge number, in one metal or in all.

    Raises:
        FastenError: no table has that number.
    """
    wanted = (metal,) if metal else MATERIALS
    found = tuple(thickness for material in wanted for thickness in _thickness(number, material, tables))
    if not found:
        raise FastenError(f"{number} ga is in no table of {_words(wanted)}", fix=_numbers(wanted, tables))
    missing = [material for material in wanted if material not in {item.material for item in found}]
    notes = (f"no gauge {number} is printed for {_words(missing)}",) if missing else ()
    if not metal:
        notes = (*notes, "a gauge means nothing without its metal")
    return GaugeEntry("gauge", (), number, found, notes)


def length_entry(length_mm: float, tables: Tables) -> Length:
    """The entry of a length [mm]."""
    holes = tuple(_sheet_holes(length_mm, tables))
    pitch_mm = {row.designation: row.pitch_mm for row in tables.rows(TAPPING_THREADS)}
    thin = any(length_mm < pitch_mm[hole.size] for hole in holes)
    return Length(
        kind="length", from_=(), length_mm=length_mm, length_in=inches(length_mm),
        gauges=tuple(_near_gauges(length_mm, tables)), bits=_bits(length_mm, tables),
        screws=tuple(_screws(length_mm, tables)), sheet_holes=holes,
        self_drilling=tuple(_drills_through(length_mm, tables)), notes=(THIN,) if thin else (),
    )  # fmt: skip


def _words(materials: tuple[str, ...] | list[str]) -> str:
    return ", ".join(map(words, materials))


def _thickness(number: int, material: str, tables: Tables) -> Iterator[Thickness]:
    row = tables.find(GAUGES[material], number)
    if row is not None:
        used = (tables.source_id(GAUGES[material], row),)
        yield Thickness(used, material, round(row.thickness_in * MM_PER_INCH, 6), row.thickness_in)


def _numbers(materials: tuple[str, ...], tables: Tables) -> str:
    numbers = [row.number for material in materials for row in tables.rows(GAUGES[material])]
    return f"write a gauge from {min(numbers)} ga to {max(numbers)} ga"


def _near_gauges(length_mm: float, tables: Tables) -> Iterator[NearGauge]:
    """The nearest gauge of each metal whose table reaches so thin and so thick."""
    for material in MATERIALS:
        rows = [(round(row.thickness_in * MM_PER_INCH, 6), row) for row in tables.rows(GAUGES[material])]
        thicknesses = [mm for mm, _ in rows]
        if min(thicknesses) <= length_mm <= max(thicknesses):
            mm, row = min(rows, key=lambda pair: abs(pair[0] - length_mm))
            used = (tables.source_id(GAUGES[material], row),)
            yield NearGauge(used, material, row.number, mm, row.thickness_in, round(mm - length_mm, 6))


def _bits(length_mm: float, tables: Tables) -> tuple[Neighbour, ...]:
    """The bits next to the length, unless every bit is far from it."""
    found = tuple(neighbours(length_mm, tables))
    near = any(-0.1 <= item.deviation_mm / length_mm <= 0.1 for item in found)
    return found if near else ()


def _screws(length_mm: float, tables: Tables) -> Iterator[Screw]:
    for row in tables.rows(METRIC_THREADS):
        major = metric_limits(tables, row.designation).external.major_mm
        yield from _screw(row.designation, Range(major.min, row.major_mm), length_mm,
                          tables.source_id(METRIC_THREADS, row))  # fmt: skip
    for inch in tables.rows(UNIFIED_THREADS):
        limits = unified_limits(tables, inch.designation)
        yield from _screw(inch.designation, Range(limits.external.major_mm.min, limits.basic.major_mm), length_mm,
                          tables.source_id(UNIFIED_THREADS, inch))  # fmt: skip
    for tapping in tables.rows(TAPPING_THREADS):
        yield from _screw(tapping.designation, Range(tapping.major_min_mm, tapping.major_max_mm), length_mm,
                          tables.source_id(TAPPING_THREADS, tapping))  # fmt: skip


def _screw(designation: str, major_mm: Range, length_mm: float, used: str) -> Iterator[Screw]:
    if major_mm.min <= length_mm <= major_mm.max + 1e-6:
        yield Screw((used,), designation, major_mm)


def _sheet_holes(sheet_mm: float, tables: Tables) -> Iterator[Hole]:
    for _, group in groupby(tapping_holes(tables), key=lambda hole: (hole.table, hole.material, hole.made, hole.size)):
        hole = hole_for_sheet(list(group), sheet_mm)
        if hole is not None:
            yield hole


def _drills_through(sheet_mm: float, tables: Tables) -> Iterator[DrillsThrough]:
    for row in tables.rows(SELF_DRILLING):
        if row.min_mm <= sheet_mm <= row.max_mm:
            used = (tables.source_id(SELF_DRILLING, row),)
            yield DrillsThrough(used, row.size, row.min_mm, row.max_mm)
