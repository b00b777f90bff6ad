"""A machine-screw thread: limits, stress area, tap drill, clearance holes, proof loads."""

from fasten.catalog.rows import (
    FORMULAS,
    INCH_GRADES,
    INCH_LOADS,
    ISO_965_BY_PITCH,
    ISO_965_PITCH_DIAMETER,
    METRIC_CLEARANCE,
    METRIC_LOADS,
    METRIC_TAP_DRILLS,
    METRIC_THREADS,
    PROPERTY_CLASSES,
    UNIFIED_CLEARANCE,
    UNIFIED_TAP_DRILLS,
    UNIFIED_THREADS,
    MetricThread,
    Row,
    TableOf,
    UnifiedThread,
)
from fasten.catalog.tables import Tables
from fasten.geometry import threads
from fasten.geometry.bits import Bit, bit_named, metric_name
from fasten.geometry.threads import MM_PER_INCH, PERCENT_BASIS, Basic, External, Internal, Limits
from fasten.record import record

NO_GRADE = "SAE J429 has no grade below 1/4 in, so no proof load is given"
CALCULATED = "proof loads are stress area times proof stress; the standard prints none for this thread"


@record
class TapDrill:
    """The drill before tapping, and how much thread it leaves."""

    from_: tuple[str, ...]
    name: str
    diameter_mm: float
    diameter_in: float | None
    thread_percent: float
    percent_basis: str


@record
class ClearanceHole:
    """A hole that lets the screw through."""

    from_: tuple[str, ...]
    fit: str
    name: str
    diameter_mm: float
    diameter_in: float | None


@record
class ProofLoad:
    """The load a screw of a class takes without lasting stretch."""

    from_: tuple[str, ...]
    class_: str
    load_n: float
    load_lbf: float | None


@record
class Thread:
    """All about a machine-screw thread; inch lengths are null for a metric one."""

    kind: str
    from_: tuple[str, ...]
    designation: str
    series: str
    pitch_mm: float
    pitch_in: float | None
    threads_per_in: int | None
    basic: Basic
    internal: Internal
    external: External
    stress_area_mm2: float
    stress_area_in2: float | None
    tap_drill: TapDrill | None
    clearance: tuple[ClearanceHole, ...]
    proof_loads: tuple[ProofLoad, ...]
    notes: tuple[str, ...]


def metric_entry(designation: str, tables: Tables, notes: tuple[str, ...]) -> Thread:
    """The entry of a metric thread that is in the tables."""
    row = threads.metric_thread(tables, designation)
    by_pitch, by_diameter = threads.metric_tolerances(tables, row)
    limits = threads.metric_limits(tables, designation)
    area_mm2 = threads.stress_area_mm2(row.major_mm, row.pitch_mm)
    loads = _printed_metric(row, tables)
    used = (
        tables.source_id(METRIC_THREADS, row),
        tables.source_id(ISO_965_BY_PITCH, by_pitch),
        tables.source_id(ISO_965_PITCH_DIAMETER, by_diameter),
        *cite_formulas(tables, "iso-965-limits", "iso-898-1-stress-area"),
    )
    return Thread(
        kind="thread", from_=tuple(dict.fromkeys(used)), designation=designation, series=row.series,
        pitch_mm=row.pitch_mm, pitch_in=None, threads_per_in=None,
        basic=limits.basic, internal=limits.internal, external=limits.external,
        stress_area_mm2=area_mm2, stress_area_in2=None,
        tap_drill=metric_tap_drill(row, tables), clearance=_metric_clearance(row, tables),
        proof_loads=loads or _calculated_metric(area_mm2, tables), notes=notes if loads else (*notes, CALCULATED),
    )  # fmt: skip


def unified_entry(designation: str, tables: Tables, notes: tuple[str, ...]) -> Thread:
    """The entry of a unified thread that is in the tables."""
    row = threads.unified_thread(tables, designation)
    limits: Limits = threads.unified_limits(tables, designation)
    pitch_in = 1.0 / row.threads_per_in
    loads = _printed_inch(row, tables)
    used = (
        tables.source_id(UNIFIED_THREADS, row),
        *cite_formulas(tables, "b1-1-limits", "b1-1-stress-area"),
    )
    return Thread(
        kind="thread", from_=used, designation=designation, series=row.series,
        pitch_mm=pitch_in * MM_PER_INCH, pitch_in=pitch_in, threads_per_in=row.threads_per_in,
        basic=limits.basic, internal=limits.internal, external=limits.external,
        stress_area_mm2=threads.unified_stress_area_mm2(row.major_in, row.threads_per_in),
        stress_area_in2=threads.unified_stress_area_in2(row.major_in, row.threads_per_in),
        tap_drill=unified_tap_drill(row, tables), clearance=_unified_clearance(row, tables),
        proof_loads=loads, notes=(*notes, NO_GRADE) if _below_grades(row, tables) else notes,
    )  # fmt: skip


def _cite(tables: Tables, table: TableOf[Row], row: Row) -> tuple[str, ...]:
    return (tables.source_id(table, row),)


def cite_formulas(tables: Tables, *ids: str) -> tuple[str, ...]:
    """Source ids of the equations with these names."""
    rows = (tables.find(FORMULAS, name) for name in ids)
    return tuple(tables.source_id(FORMULAS, row) for row in rows if row is not None)


def metric_tap_drill(thread: MetricThread, tables: Tables) -> TapDrill | None:
    """The tabled tap drill of a metric thread."""
    row = tables.find(METRIC_TAP_DRILLS, thread.designation)
    if row is None:
        return None
    percent = threads.thread_percent(thread.major_mm, row.drill_mm, thread.pitch_mm)
    used = _cite(tables, METRIC_TAP_DRILLS, row) + cite_formulas(tables, "percent-thread-handbook")
    return TapDrill(used, metric_name(row.drill_mm), row.drill_mm, None, percent, PERCENT_BASIS)


def unified_tap_drill(thread: UnifiedThread, tables: Tables) -> TapDrill | None:
    """The tabled tap drill of a unified thread."""
    row = tables.find(UNIFIED_TAP_DRILLS, thread.designation)
    bit = bit_named(tables, row.drill) if row else None
    if row is None or bit is None:
        return None
    percent = threads.thread_percent(
        thread.major_in * MM_PER_INCH, bit.diameter_mm, MM_PER_INCH / thread.threads_per_in
    )
    used = (*_cite(tables, UNIFIED_TAP_DRILLS, row), bit.from_, *cite_formulas(tables, "percent-thread-handbook"))
    return TapDrill(used, bit.name, bit.diameter_mm, _inches(bit), percent, PERCENT_BASIS)


def _metric_clearance(thread: MetricThread, tables: Tables) -> tuple[ClearanceHole, ...]:
    row = tables.find(METRIC_CLEARANCE, f"M{thread.major_mm:g}")
    if row is None:
        return ()
    holes = {"fine": row.fine_mm, "medium": row.medium_mm, "coarse": row.coarse_mm}
    used = _cite(tables, METRIC_CLEARANCE, row)
    return tuple(ClearanceHole(used, fit, metric_name(hole), hole, None) for fit, hole in holes.items())


def _unified_clearance(thread: UnifiedThread, tables: Tables) -> tuple[ClearanceHole, ...]:
    row = tables.find(UNIFIED_CLEARANCE, thread.size)
    if row is None:
        return ()
    named = {"close": row.close, "normal": row.normal, "loose": row.loose}
    used = _cite(tables, UNIFIED_CLEARANCE, row)
    holes = ((fit, bit_named(tables, name)) for fit, name in named.items())
    return tuple(
        ClearanceHole((*used, bit.from_), fit, bit.name, bit.diameter_mm, _inches(bit)) for fit, bit in holes if bit
    )


def _inches(bit: Bit) -> float | None:
    return None if bit.series == "metric" else round(bit.diameter_mm / MM_PER_INCH, 6)


def _printed_metric(thread: MetricThread, tables: Tables) -> tuple[ProofLoad, ...]:
    rows = tables.rows(METRIC_LOADS)
    return tuple(
        ProofLoad(_cite(tables, METRIC_LOADS, row), row.class_, row.proof_n, None)
        for row in rows
        if row.thread == thread.designation
    )


def _calculated_metric(area_mm2: float, tables: Tables) -> tuple[ProofLoad, ...]:
    rows = tables.rows(PROPERTY_CLASSES)
    return tuple(
        ProofLoad(_cite(tables, PROPERTY_CLASSES, row), row.class_, round(area_mm2 * row.proof_mpa, 6), None)
        for row in rows
        if row.proof_mpa is not None
    )


def _printed_inch(thread: UnifiedThread, tables: Tables) -> tuple[ProofLoad, ...]:
    from fasten.text.units import newtons_per_lbf

    return tuple(
        ProofLoad(_cite(tables, INCH_LOADS, row), f"grade {row.grade}", row.proof_lbf * newtons_per_lbf, row.proof_lbf)
        for row in tables.rows(INCH_LOADS)
        if row.thread == thread.designation
    )


def _below_grades(thread: UnifiedThread, tables: Tables) -> bool:
    return all(thread.major_in < row.from_size_in for row in tables.rows(INCH_GRADES))
