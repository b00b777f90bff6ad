"""A property class of metric screws or a grade of inch screws."""

from fasten.catalog.rows import INCH_GRADES, PROPERTY_CLASSES, InchGrade
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.geometry.threads import unified_thread
from fasten.record import record
from fasten.text.figures import figure

MPA_PER_PSI = 4.4482216152605 / 25.4**2
"""Exact [MPa/psi]. Source: the pound force over the square inch (memory)."""


@record
class Strength:
    """Strength of a class or grade; inch figures are null for a metric class."""

    kind: str
    from_: tuple[str, ...]
    standard: str
    class_: str
    from_size_in: float | None
    to_size_in: float | None
    tensile_mpa: float
    yield_mpa: float | None
    proof_mpa: float | None
    tensile_psi: float | None
    yield_psi: float | None
    proof_psi: float | None
    notes: tuple[str, ...]


def class_entry(name: str, tables: Tables, notes: tuple[str, ...]) -> Strength:
    """The entry of a metric property class.

    Raises:
        FastenError: there is no such class.
    """
    row = tables.find(PROPERTY_CLASSES, name)
    if row is None:
        raise FastenError(f"class {name} is not in the tables")
    used = (tables.source_id(PROPERTY_CLASSES, row),)
    if row.proof_mpa is None:
        notes = (*notes, f"{row.standard} gives no proof stress for this class")
    return Strength(
        kind="property_class", from_=used, standard=row.standard, class_=row.class_, from_size_in=None, to_size_in=None,
        tensile_mpa=row.tensile_mpa, yield_mpa=row.yield_mpa, proof_mpa=row.proof_mpa,
        tensile_psi=None, yield_psi=None, proof_psi=None, notes=notes,
    )  # fmt: skip


def grade_entry(name: str, tables: Tables, notes: tuple[str, ...], asked: tuple[str, ...]) -> Strength:
    """The entry of an inch grade, with a note if it does not exist for the threads that were asked for.

    Raises:
        FastenError: there is no such grade.
    """
    row = next((row for row in tables.rows(INCH_GRADES) if row.grade == name), None)
    if row is None:
        grades = ", ".join(row.grade for row in tables.rows(INCH_GRADES))
        raise FastenError(f"grade {name} is not in the tables", fix=f"SAE J429 grades here are {grades}")
    return Strength(
        kind="grade", from_=(tables.source_id(INCH_GRADES, row),), standard=row.standard, class_=f"grade {row.grade}",
        from_size_in=row.from_size_in, to_size_in=row.to_size_in,
        tensile_mpa=row.tensile_psi * MPA_PER_PSI, yield_mpa=_mpa(row.yield_psi), proof_mpa=row.proof_psi * MPA_PER_PSI,
        tensile_psi=row.tensile_psi, yield_psi=row.yield_psi, proof_psi=row.proof_psi,
        notes=notes + _too_small(row, tables, asked),
    )  # fmt: skip


def _mpa(psi: float | None) -> float | None:
    return None if psi is None else psi * MPA_PER_PSI


def _too_small(row: InchGrade, tables: Tables, asked: tuple[str, ...]) -> tuple[str, ...]:
    """A note naming the threads that are smaller than the grade's first size."""
    small = [name for name in asked if unified_thread(tables, name).major_in < row.from_size_in]
    if not small:
        return ()
    return (
        f"{row.standard} begins at {figure(row.from_size_in)} in: there is no grade {row.grade} for {', '.join(small)}"
        ", and its strength must not be assumed",
    )
