"""A class or grade by itself, and a torque in every unit."""

from collections.abc import Iterator

from fasten.catalog.tables import Tables
from fasten.look.first.line import Answer
from fasten.look.strength import Strength, class_entry, grade_entry
from fasten.text.units import Dimension, nm_to_inlbf, number, read
from fasten.text.values import Value, ValueSort

_INCHES_PER_FOOT = 12.0


def of_strength(value: Value, tables: Tables) -> Iterator[Answer]:
    """The line for a class, a grade or a torque."""
    if value.sort is ValueSort.TORQUE:
        yield from _torques(value)
        return
    make = class_entry if value.sort is ValueSort.STRENGTH else None
    entry = make(value.first.upper(), tables, ()) if make else grade_entry(value.first, tables, (), ())
    yield strength_line(entry)


def strength_line(entry: Strength) -> Answer:
    """What a class stands, in one line."""
    kinds = (("tensile", entry.tensile_mpa), ("yield", entry.yield_mpa), ("proof", entry.proof_mpa))
    stands = ", ".join(f"{kind} {number(mpa, 0)} MPa" for kind, mpa in kinds if mpa is not None)
    stands += "" if entry.tensile_psi is None else f" (tensile {number(entry.tensile_psi / 1000.0, 0)} ksi)"
    return Answer("strength", f"{entry.class_}, {entry.standard}: {stands}", entry.from_)


def _torques(value: Value) -> Iterator[Answer]:
    """A torque, or both ends of a range, in each unit."""
    unit = "in·lbf" if "in" in value.unit else "ft·lbf" if "ft" in value.unit else "N·m"
    for figure in filter(None, (value.first, value.second)):
        nm = read(f"{figure} {unit}", Dimension.TORQUE, "torque")
        inlbf = nm_to_inlbf(nm)
        others = f"{number(inlbf, 1)} in·lbf, {number(inlbf / _INCHES_PER_FOOT, 2)} ft·lbf"
        said = f"{figure} {unit}" if value.second else value.text
        yield Answer("torque", f"{said}: {number(nm, 2)} N·m, {others}", ())
