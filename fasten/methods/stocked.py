"""The parts that a method may ask for, each as its rows have it: a shelf is read against these."""

from collections.abc import Iterator

from fasten.catalog.parts import HEADS, NUTS
from fasten.catalog.rows import PROPERTY_CLASSES
from fasten.catalog.tables import Tables
from fasten.geometry import stack
from fasten.model import Visible, kinds
from fasten.model.kinds import Kind, PartKind
from fasten.question.resolve import ASSUMED_GRADE
from fasten.record import record

ANY_MM = -1.0  # stands for a length that is sized to the joint: every one may do, and one has to be said


@record
class Stocked:
    """A part that may be asked for, by what a joint of it says: its size, series, grade and length.

    `length_mm` is None where it has none, `drive` the recess that turns it, where no table of heads has it.
    """

    kind: Kind
    size: str
    series: str
    grade: str
    length_mm: float | None
    drive: str = ""


def nothing(tables: Tables) -> Iterator[Stocked]:
    """For a method whose parts are bought by the area of their face, and are consumables."""
    return iter(())


def machine_screws(tables: Tables) -> Iterator[Stocked]:
    """The heads that are taken for each size, seen or not, in every class; the usual one first, as an example."""
    sizes = dict.fromkeys(row.size for row in tables.rows(HEADS) if row.size.startswith("M"))
    classes = dict.fromkeys((ASSUMED_GRADE, *(row.class_ for row in tables.rows(PROPERTY_CLASSES))))
    for size in sizes:
        heads = [head for seen in (Visible.NO, Visible.YES) if (head := stack.head_for(tables, size, seen)) is not None]
        for standard in dict.fromkeys(head.standard for head in heads):
            yield from (Stocked(kinds.MACHINE_SCREW, size, standard, class_, ANY_MM) for class_ in classes)


def nuts(kind: PartKind, tables: Tables, *forms: str) -> Iterator[Stocked]:
    """The nuts of these forms."""
    for nut in tables.rows(NUTS):
        if nut.form in forms:
            yield Stocked(kind, nut.size, nut.standard, "steel", None)
