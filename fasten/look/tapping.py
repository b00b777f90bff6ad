"""A tapping-screw thread: root, pitch, holes by sheet thickness, and what a self-drilling one drills."""

from collections.abc import Iterator

from fasten.catalog.rows import (
    SELF_DRILLING,
    TAPPING_CLEARANCE,
    TAPPING_HOLES_DIN_7975,
    TAPPING_HOLES_THIN_SHEET,
    TAPPING_THREADS,
    TAPPING_TORSION,
)
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.geometry.threads import Range
from fasten.record import record, replace

DIN_7975, THIN_SHEET = TAPPING_HOLES_DIN_7975.name, TAPPING_HOLES_THIN_SHEET.name
THIN = "a sheet thinner than the screw's pitch may take the screw and not hold it: prove it on a test piece"
NO_HOLES = "no hole table has this size"


@record
class Hole:
    """A hole for a tapping screw, over the thicknesses that take the same one."""

    from_: tuple[str, ...]
    size: str
    table: str
    material: str
    made: str
    sheet_mm: Range
    hole_mm: float


@record
class Drills:
    """Thickness, all layers together, that a self-drilling screw drills."""

    from_: tuple[str, ...]
    min: float
    max: float
    max_stainless: float | None


@record
class Clearance:
    """Hole in the part that is fixed."""

    from_: tuple[str, ...]
    hole_mm: float


@record
class Breaking:
    """Least torque that breaks the screw itself."""

    from_: tuple[str, ...]
    torque_nm: float


@record
class Tapping:
    """All about a tapping-screw thread; major and root are the greatest the standard allows."""

    kind: str
    from_: tuple[str, ...]
    designation: str
    number: str
    major_mm: float
    root_mm: float
    pitch_mm: float
    threads_per_in: int
    holes: tuple[Hole, ...]
    self_drilling_mm: Drills | None
    clearance: Clearance | None
    breaking: Breaking | None
    notes: tuple[str, ...]


def tapping_entry(designation: str, tables: Tables, notes: tuple[str, ...]) -> Tapping:
    """The entry of a tapping-screw thread.

    Raises:
        FastenError: there is no such thread.
    """
    row = tables.find(TAPPING_THREADS, designation)
    if row is None:
        raise FastenError(f"{designation} is not in the tables")
    holes = tuple(hole for hole in tapping_holes(tables) if hole.size == designation)
    return Tapping(
        kind="tapping_thread", from_=(tables.source_id(TAPPING_THREADS, row),),
        designation=designation, number=row.number, major_mm=row.major_max_mm, root_mm=row.minor_max_mm,
        pitch_mm=row.pitch_mm, threads_per_in=row.threads_per_in, holes=holes,
        self_drilling_mm=_drills(designation, tables), clearance=_clearance(designation, tables),
        breaking=_breaking(designation, tables), notes=notes + _hole_notes(holes, row.pitch_mm),
    )  # fmt: skip


def _hole_notes(holes: tuple[Hole, ...], pitch_mm: float) -> tuple[str, ...]:
    if not holes:
        return (NO_HOLES,)
    return (THIN,) if any(hole.sheet_mm.min < pitch_mm for hole in holes) else ()


def tapping_holes(tables: Tables) -> Iterator[Hole]:
    """Every hole of both tables, neighbouring thicknesses that take the same hole put together."""
    yield from _merged(_din_7975(tables))
    yield from _merged(_thin_sheet(tables))


def hole_for_sheet(holes: list[Hole], sheet_mm: float) -> Hole | None:
    """The hole of one size, table and material for a sheet; between two tabled thicknesses that of the thicker.

    The thin-sheet table is in bands, over one thickness up to and with another.
    """
    fitting = (hole for hole in holes if sheet_mm <= hole.sheet_mm.max + 1e-9)
    first = next(fitting, None)
    lowest = holes[0].sheet_mm.min
    reached = lowest < sheet_mm if first and first.table == THIN_SHEET else lowest <= sheet_mm + 1e-9
    return first if reached else None


def _din_7975(tables: Tables) -> Iterator[Hole]:
    rows = tables.rows(TAPPING_HOLES_DIN_7975)
    for material, column in (
        ("sheet_100_mpa", "rm_100_mm"),
        ("sheet_300_mpa", "rm_300_mm"),
        ("sheet_500_mpa", "rm_500_mm"),
    ):
        for row in rows:
            hole_mm = getattr(row, column)
            if hole_mm is not None:
                used = (tables.source_id(TAPPING_HOLES_DIN_7975, row),)
                yield Hole(used, row.size, DIN_7975, material, "drilled", Range(row.sheet_mm, row.sheet_mm), hole_mm)


def _thin_sheet(tables: Tables) -> Iterator[Hole]:
    rows = tables.rows(TAPPING_HOLES_THIN_SHEET)
    for material in ("steel", "aluminium"):
        for made in ("drilled", "punched"):
            for row in rows:
                hole_mm = getattr(row, f"{material}_{made}_mm")
                if hole_mm is not None:
                    used = (tables.source_id(TAPPING_HOLES_THIN_SHEET, row),)
                    yield Hole(used, row.size, THIN_SHEET, material, made, Range(row.over_mm, row.to_mm), hole_mm)


def _merged(holes: Iterator[Hole]) -> Iterator[Hole]:
    last: Hole | None = None
    for hole in holes:
        if last and _same(last, hole):
            both = tuple(dict.fromkeys(last.from_ + hole.from_))
            last = replace(last, from_=both, sheet_mm=Range(last.sheet_mm.min, hole.sheet_mm.max))
            continue
        if last:
            yield last
        last = hole
    if last:
        yield last


def _same(one: Hole, other: Hole) -> bool:
    apart = one.table == THIN_SHEET and one.sheet_mm.max != other.sheet_mm.min
    alike = (one.size, one.material, one.made, one.hole_mm) == (other.size, other.material, other.made, other.hole_mm)
    return alike and not apart


def _drills(size: str, tables: Tables) -> Drills | None:
    row = tables.find(SELF_DRILLING, size)
    if row is None:
        return None
    return Drills((tables.source_id(SELF_DRILLING, row),), row.min_mm, row.max_mm, row.max_stainless_mm)


def _clearance(size: str, tables: Tables) -> Clearance | None:
    row = tables.find(TAPPING_CLEARANCE, size)
    return None if row is None else Clearance((tables.source_id(TAPPING_CLEARANCE, row),), row.hole_mm)


def _breaking(size: str, tables: Tables) -> Breaking | None:
    row = tables.find(TAPPING_TORSION, size)
    return None if row is None else Breaking((tables.source_id(TAPPING_TORSION, row),), row.breaking_nm)
