"""The rows of a table as people read them, and as JSON: each with its key first, then its other columns."""

from collections.abc import Iterator, Sequence
from typing import Any

from fasten.catalog.load import COLUMN_OF_UNIT, Table
from fasten.catalog.registry import TABLES
from fasten.catalog.rows import Row
from fasten.record import names_of
from fasten.report.look_text import MARKS, wrapped
from fasten.report.plain import to_plain
from fasten.text.figures import figure, words
from fasten.text.names import folded, unknown

FORMAT = 1
_SEVERAL = {
    "grades": ("property-classes", "inch-grades"), "classes": ("property-classes", "inch-grades"),
    "cases": ("load-cases",), "threads": ("metric-threads", "unified-threads", "tapping-threads"),
    "gauges": ("gauges-steel", "gauges-galvanised-steel", "gauges-stainless-steel", "gauges-aluminium"),
}  # fmt: skip


def tables_named(name: str) -> tuple[str, ...]:
    """The tables that a name stands for, several for a word such as grades.

    Raises:
        FastenError: there is none of that name; says which come nearest.
    """
    wanted = "-".join(folded(name).split())
    if wanted in _SEVERAL:
        return _SEVERAL[wanted]
    if wanted not in TABLES:
        raise unknown(name, "a table", ("items", "materials", "grades", "cases"), "", among=(*TABLES, *_SEVERAL))
    return (wanted,)


def rows_text(tables: Sequence[Table], width: int) -> str:
    """Each table: its title, a block a row, what limits it and the legend of the marks."""
    lines: list[str] = []
    for table in tables:
        standard = "" if table.standard.startswith("none") else f", {table.standard}"
        lines += wrapped(f"{table.title}{standard}", width, "", "  ")
        for row in table.rows:
            lines += _row(row, table, width)
        lines += ["", *wrapped(f"note: {' '.join(table.limits.split())}", width, "", "  "), ""]
    used = {table.sources[row.from_].basis for table in tables for row in table.rows}
    legend = "  ".join(f"[{mark}] {basis}" for basis, mark in MARKS.items() if basis in used)
    return "\n".join([*lines, *wrapped(legend, width, "", "")]) + "\n"


def _row(row: Row, table: Table, width: int) -> Iterator[str]:
    mark = f" [{MARKS[table.sources[row.from_].basis]}]"
    said = ", ".join(_said(row))
    yield from wrapped(f"{words(row.name())}: {said}{mark}" if said else f"{row.name()}{mark}", width, "", "    ")


def _said(row: Row) -> Iterator[str]:
    """The columns of a row beside its key, with their units."""
    for name in names_of(type(row)):
        value = getattr(row, name)
        if name not in row.key and name != "from_" and value not in (None, "-", ()):
            column, unit = _column(name)
            yield f"{words(column)} {_shown(value)}{f' {unit}' if unit else ''}"


def _column(name: str) -> tuple[str, str]:
    """A field as a table heads it: `pitch_mm` is `pitch` in `mm`."""
    found = ((name.removesuffix(f"_{suffix}"), unit) for suffix, unit in COLUMN_OF_UNIT if name.endswith(f"_{suffix}"))
    return next(found, (name.rstrip("_"), ""))


def _shown(value: object) -> str:
    if isinstance(value, tuple):
        return ", ".join(map(_shown, value))
    if isinstance(value, bool) or not isinstance(value, float | int):
        return words(str(value)).replace("|", ", ")
    return figure(float(value))


def rows_json(tables: Sequence[Table]) -> Any:
    """The tables as JSON, each row with the basis and source that it rests on."""
    return {"format": FORMAT, "tables": [
        {"name": table.name, "title": table.title, "standard": table.standard, "limits": table.limits,
         "rows": [_plain(row, table) for row in table.rows]}
        for table in tables
    ]}  # fmt: skip


def _plain(row: Row, table: Table) -> Any:
    source = table.sources[row.from_]
    return to_plain(row) | {"basis": source.basis, "source": source.text}
