"""Every value of a table looked at: types, numbers, duplicates, order, sources and references.

Used for the user's own tables whenever they are read, and for the shipped ones by the tests and by
`fasten tables --check`.
"""

import json
import math
from collections.abc import Callable, Iterable, Iterator
from pathlib import Path
from typing import Annotated, Any

from pydantic import FailFast, TypeAdapter, ValidationError

from fasten.catalog.load import Table, file_name, label
from fasten.catalog.registry import TABLES
from fasten.catalog.rows import Row
from fasten.errors import CatalogError
from fasten.text.figures import figure
from fasten.text.letters import NARROW_SPACES, is_text
from fasten.text.shown import MAX_INT, shown
from fasten.text.units import Dimension

MAX_TEXT = 1000
# What no part comes near, so that nothing calculated from a figure is endless; a length as sizes are read.
BOUNDS, BOUNDS_MM = (1e-9, 1e9), (Dimension.LENGTH.least, Dimension.LENGTH.most)


def check_table(table: Table, where: str) -> None:
    """Check every value of one table by itself.

    Raises:
        CatalogError: names the file, the row with its key, and what is wrong with it.
    """
    row_type = TABLES[table.name].row_type
    if not table.rows:
        raise CatalogError("the table has no rows", where=where, fix="add a row or leave the file out")
    _check_header_text(table, where)
    places = [place(where, number, row) for number, row in enumerate(table.rows, 1)]
    for row, at in zip(table.rows, places, strict=True):
        _check_plain(row, at)
    _check_types(table.rows, row_type, places)
    for row, at in zip(table.rows, places, strict=True):
        _check_numbers(row, at)
        _check_words(row, at)
        _check_together(row, at)
        if row.from_ not in table.sources:
            wrong = f"the source {shown(row.from_)} has no [[source]] block"
            raise CatalogError(wrong, where=at, fix="add the block or correct the name")
    _check_apart(table.rows, places)
    _check_order(table.rows, places)


def place(where: str, number: int, row: Row) -> str:
    """Where a row stands, for a message: its file or table, its number from 1, and its key."""
    return f"{where}, row {number} ({label(row.key_value())})"


def unknown(what: str, names: Iterable[str], known: Iterable[str], where: str) -> Iterator[CatalogError]:
    """What of `names`, each a `what` of the row at `where`, is none of the `known` ones."""
    for name in names:
        if name not in known:
            fix = f"write one of {', '.join(sorted(known))}"
            yield CatalogError(f"there is no {what} '{name}'", where=where, fix=fix)


def check_references(table: Callable[[str], Table]) -> None:
    """Check that every row's references into other tables lead to a row there.

    Raises:
        CatalogError: names the table, row and field that point nowhere.
    """
    for name in TABLES:
        for number, row in enumerate(table(name).rows, 1):
            check_row_references(table, row, place(name, number, row))


def check_row_references(table: Callable[[str], Table], row: Row, where: str) -> None:
    """Check that one row's references lead to a row.

    Raises:
        CatalogError: names the field that points nowhere.
    """
    for field, other in row.refs.items():
        value = getattr(row, field)
        if value is not None and all(value != found.key_value()[0] for found in table(other.name).rows):
            wrong = f"{_column(field)} {shown(value)} is not in the table {other.name}"
            raise CatalogError(wrong, where=where, fix=f"add it to {other.name} or correct it")


def unregistered(folder: Path) -> Iterator[CatalogError]:
    """Every file in the folder of shipped tables that is not in the registry, so that nothing reads it."""
    for path in sorted(folder.glob("*.toml")):
        if path.stem not in TABLES:
            fix = "declare it below the type of its rows (DEVELOPERS.md tells how), or take the file out"
            yield CatalogError("is no registered table", where=file_name(path), fix=fix)


def _check_header_text(table: Table, where: str) -> None:
    texts = {"title": table.title, "standard": table.standard, "limits": table.limits}
    for source in table.sources.values():
        texts |= {
            f"the id of source {shown(source.id)}": source.id,
            f"the text of source {shown(source.id)}": source.text,
        }
    for what, text in texts.items():
        _check_text(what, text, where)


def _check_plain(row: Row, where: str) -> None:
    """Let only text and numbers of a sensible size reach the types, so that any fault of a file can be reported."""
    for field, value in _values(row):
        if isinstance(value, str):
            _check_text(_column(field), value, where)
        elif not isinstance(value, int | float | None):
            wrong = f"{_column(field)} is {shown(value)}, neither text nor a number"
            raise CatalogError(wrong, where=where, fix="correct the value")
        elif isinstance(value, int) and not -MAX_INT <= value <= MAX_INT:
            wrong = f"{_column(field)} is {shown(value)}, at most {MAX_INT}"
            raise CatalogError(wrong, where=where, fix="correct the value")


def _check_text(what: str, text: str, where: str) -> None:
    if len(text) > MAX_TEXT:
        wrong = f"{what} is {shown(text)}, {len(text)} characters long, at most {MAX_TEXT}"
        raise CatalogError(wrong, where=where, fix="shorten it")
    if not all(is_text(char) or char in NARROW_SPACES for char in text):
        wrong = f"{what} is {shown(text)}, with a control character or a line break in it"
        raise CatalogError(wrong, where=where, fix="write it on one line in plain characters")
    if text != text.strip():
        raise CatalogError(f"{what} is {shown(text)}, with a space at its end", where=where, fix="remove the space")


def _check_types(rows: tuple[Row, ...], row_type: type[Row], places: list[str]) -> None:
    first_only = Annotated[list[row_type], FailFast()]  # type: ignore[valid-type]
    try:
        TypeAdapter(first_only).validate_json(json.dumps([vars(row) for row in rows]), strict=True)
    except ValidationError as error:
        first = error.errors(include_url=False)[0]
        index, field = int(first["loc"][0]), str(first["loc"][1])
        wrong = f"{_column(field)} is {shown(first['input'])}: {first['msg'][0].lower()}{first['msg'][1:]}"
        raise CatalogError(wrong, where=places[index], fix="correct the value") from error


def _check_numbers(row: Row, where: str) -> None:
    for field, value in _values(row):
        if isinstance(value, bool) or not isinstance(value, int | float):
            continue
        if not math.isfinite(value):
            wrong = f"{_column(field)} is {value}, not a number"
            raise CatalogError(wrong, where=where, fix="give the figure or '-'")
        if field not in row.signed and (value < 0 or (value == 0 and field not in row.zero_ok)):
            least = "at least zero" if field in row.zero_ok else "more than zero"
            wrong = f"{_column(field)} is {shown(value)}, it must be {least}"
            raise CatalogError(wrong, where=where, fix="correct the value")
        low, high = BOUNDS_MM if field.endswith("_mm") else BOUNDS
        if value != 0 and not low <= max(value, -value) <= high:
            wrong = f"{_column(field)} is {shown(value)}, a size must be {figure(low)} to {figure(high)}"
            raise CatalogError(wrong, where=where, fix="correct the value")


def _check_words(row: Row, where: str) -> None:
    for field, words in row.words.items():
        if (value := getattr(row, field)) not in words:
            wrong = f"{_column(field)} is {shown(value)}, not one of {', '.join(words)}"
            raise CatalogError(wrong, where=where, fix="write one of them")
    if lacking := row.lacks():
        raise CatalogError(f"{lacking} is '-', which this row needs", where=where, fix="give the figure")


def _check_together(row: Row, where: str) -> None:
    """Check that no least figure is over the most, that a share is no more than the whole, and what must rise does."""
    names = vars(row)
    pairs = [(field, most) for field in names if "min_" in field and (most := field.replace("min_", "max_")) in names]
    for low, high in (*pairs, *row.rising):
        least, most = names[low], names[high]
        if least is not None and most is not None and (least > most or (least == most and (low, high) in row.rising)):
            wrong = f"{_column(low)} is {shown(least)} and {_column(high)} {shown(most)}, the wrong way round"
            raise CatalogError(wrong, where=where, fix="correct one of them")
    for field, value in names.items():
        if field.endswith("share") and value is not None and value > 1:
            wrong = f"{_column(field)} is {shown(value)}, more than the whole"
            raise CatalogError(wrong, where=where, fix="write it as a part of 1, such as 0.5")


def _check_apart(rows: tuple[Row, ...], places: list[str]) -> None:
    seen: dict[tuple[Any, ...], int] = {}
    for number, (row, at) in enumerate(zip(rows, places, strict=True), 1):
        first = seen.setdefault(row.key_value(), number)
        if first != number:
            raise CatalogError(f"the row is there twice, first as row {first}", where=at, fix="remove one")


def _check_order(rows: tuple[Row, ...], places: list[str]) -> None:
    before: tuple[Any, ...] | None = None
    for row, at in zip(rows, places, strict=True):
        order = tuple(getattr(row, name) for name in row.order)
        if before is not None and order < before:
            wrong = f"the row is out of order: {', '.join(_column(name) for name in row.order)} falls"
            raise CatalogError(wrong, where=at, fix="sort the rows")
        before = order


def _values(row: Row) -> Iterator[tuple[str, Any]]:
    """Each value with its field; a list's one by one."""
    for field, value in vars(row).items():
        for item in value if isinstance(value, tuple) else (value,):
            yield field, item


def _column(field: str) -> str:
    return field.rstrip("_")
