"""A class or grade by itself, and a torque in every unit."""

from collections.abc import Iterator

from fasten.catalog.tables import Tables
from fasten.look.first.line import Answer
from fasten.look.query import Sort, Value
from fasten.look.strength import Strength, class_entry, grade_entry
from fasten.text.units import Dimension, nm_to_inlbf, number, read

_INCHES_PER_FOOT = 12.0


def of_strength(value: Value, tables: Tables) -> Iterator[Answer]:
    """The line for a class, a grade or a torque."""
    if value.sort is Sort.TORQUE:
        yield _torque(value)
        return
    make = class_entry if value.sort is Sort.STRENGTH else None
    entry = make(value.named.upper(), tables, ()) if make else grade_entry(value.named, tables, (), ())
    yield strength_line(entry)


def strength_line(entry: Strength) -> Answer:
    """What a class stands, in one line."""
    kinds = (("tensile", entry.tensile_mpa), ("yield", entry.yield_mpa), ("proof", entry.proof_mpa))
    stands = ", ".join(f"{kind} {number(mpa, 0)} MPa" for kind, mpa in kinds if mpa is not None)
    stands += "" if entry.tensile_psi is None else f" (tensile {number(entry.tensile_psi / 1000.0, 0)} ksi)"
    return Answer("strength", f"{entry.class_}, {entry.standard}: {stands}", entry.from_)


def _torque(value: Value) -> Answer:
    unit = "in·lbf" if "in" in value.more else "ft·lbf" if "ft" in value.more else "N·m"
    nm = read(f"{value.named} {unit}", Dimension.TORQUE, "torque")
    inlbf = nm_to_inlbf(nm)
    others = f"{number(inlbf, 1)} in·lbf, {number(inlbf / _INCHES_PER_FOOT, 2)} ft·lbf"
    return Answer("torque", f"{value.text}: {number(nm, 2)} N·m, {others}", ())
