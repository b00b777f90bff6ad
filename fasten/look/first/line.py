"""The one line that answers."""

from collections.abc import Iterable

from fasten.catalog.rows import Row, TableOf
from fasten.catalog.tables import Tables
from fasten.record import record
from fasten.text.units import number


@record
class Answer:
    """A line that answers a question, what kind of fact it is, and the sources it rests on."""

    about: str
    text: str
    from_: tuple[str, ...]


def answer(text: str, table: TableOf[Row], rows: Iterable[Row], tables: Tables) -> Answer:
    """An answer about a part: it rests on rows of one table, and is about what that table is of."""
    return Answer(table.name, text, tuple(dict.fromkeys(tables.source_id(table, row) for row in rows)))


def size(value: float) -> str:
    """A length [mm] as a table prints it, without its unit."""
    return number(value, 3)


def named(name: str, diameter_mm: float) -> str:
    """A bit by its name, with its diameter where the name does not say it."""
    return name if name.endswith("mm") else f"{name} ({size(diameter_mm)} mm)"


def either(sizes: Iterable[str]) -> str:
    """Several sizes in one unit: 7, 7.2 or 8 mm."""
    *before, last = dict.fromkeys(sizes)
    return f"{', '.join(before)} or {last} mm" if before else f"{last} mm"
