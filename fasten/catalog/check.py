"""Every value of a table looked at: types, numbers, duplicates, order, sources and references.

Used for the user's own tables whenever they are read, and for the shipped ones by the tests and `fasten tables --check`.
"""

import json
import math
from dataclasses import asdict
from typing import TYPE_CHECKING, Any

from pydantic import TypeAdapter, ValidationError

from fasten.catalog.load import Table
from fasten.catalog.registry import TABLES
from fasten.catalog.rows import Row
from fasten.errors import CatalogError

if TYPE_CHECKING:
    from fasten.catalog.tables import Tables


def check_table(table: Table, where: str) -> None:
    """Check every value of one table by itself.

    Raises:
        CatalogError: names the file, the row with its key, and what is wrong with it.
    """
    row_type = TABLES[table.name]
    if not table.rows:
        raise CatalogError("the table has no rows", where=where, fix="add a row or leave the file out")
    _check_types(table.rows, row_type, where)
    seen: dict[tuple[Any, ...], int] = {}
    before: tuple[Any, ...] | None = None
    for number, row in enumerate(table.rows, 1):
        place = f"{where}, row {number} ({_short(row.name())})"
        _check_numbers(row, place)
        if row.from_ not in table.sources:
            raise CatalogError(
                f"the source {row.from_!r} has no [[source]] block",
                where=place,
                fix="add the block or correct the name",
            )
        if row.key_value() in seen:
            raise CatalogError(
                f"the row stands twice, first as row {seen[row.key_value()]}", where=place, fix="remove one"
            )
        seen[row.key_value()] = number
        order = tuple(getattr(row, name) for name in row.order)
        if before is not None and order < before:
            raise CatalogError(
                f"the row is out of order: {', '.join(row.order)} falls", where=place, fix="sort the rows"
            )
        before = order


def check_references(tables: "Tables") -> None:
    """Check that every row's references into other tables lead to a row there.

    Raises:
        CatalogError: names the table, row and field that point nowhere.
    """
    for name in TABLES:
        for number, row in enumerate(tables.table(name).rows, 1):
            check_row_references(tables, row, f"{name}, row {number} ({_short(row.name())})")


def check_row_references(tables: "Tables", row: Row, where: str) -> None:
    """Check that one row's references lead to a row.

    Raises:
        CatalogError: names the field that points nowhere.
    """
    for field, other in row.refs.items():
        value = getattr(row, field)
        if value is not None and all(value != found.key_value()[0] for found in tables.table(other).rows):
            fix = f"add it to {other} or correct it"
            raise CatalogError(f"{field} {_short(repr(value))} is not in the table {other}", where=where, fix=fix)


def _check_types(rows: tuple[Row, ...], row_type: type[Row], where: str) -> None:
    try:
        TypeAdapter(list[row_type]).validate_json(json.dumps([asdict(row) for row in rows], default=str), strict=True)  # type: ignore[valid-type]
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        index, field = int(first["loc"][0]), str(first["loc"][1]) if len(first["loc"]) > 1 else ""
        raise CatalogError(
            f"{field.rstrip('_')} is {_short(repr(first['input']))}: {first['msg'][0].lower()}{first['msg'][1:]}",
            where=f"{where}, row {index + 1} ({_short(rows[index].name())})", fix="correct the value",
        ) from error  # fmt: skip


def _check_numbers(row: Row, place: str) -> None:
    for field, value in vars(row).items():
        if isinstance(value, bool) or not isinstance(value, int | float):
            continue
        if not math.isfinite(value):
            raise CatalogError(f"{field} is {value}, not a number", where=place, fix="give the figure or '-'")
        if field not in row.signed and (value < 0 or (value == 0 and field not in row.zero_ok)):
            raise CatalogError(f"{field} is {value}, it must be more than zero", where=place, fix="correct the value")


def _short(text: str) -> str:
    return text if len(text) <= 40 else f"{text[:37]}..."
