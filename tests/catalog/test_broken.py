"""Every fault a table file can have is told in one short line that names the file, the row and its key.

One kind of table is broken in every way, and every kind in the ways that depend on its row type. A table starts as the
first rows of the shipped one, or as made-up rows where those do not serve; the made-up figures mean nothing.
"""

import json
import math
import re
import tomllib
from collections.abc import Callable
from copy import deepcopy
from dataclasses import dataclass, fields
from datetime import date
from functools import cache
from pathlib import Path
from typing import Any

import pytest

from fasten.catalog.check import check_references, check_table
from fasten.catalog.load import UNIT_SUFFIX, file_name, read_table
from fasten.catalog.registry import TABLES
from fasten.catalog.rows import Row
from fasten.catalog.tables import Tables, shipped_folder
from fasten.errors import CatalogError

Data = dict[str, Any]
TYPES = {name: table.row_type for name, table in TABLES.items()}
KINDS = {row_type: name for name, row_type in reversed(list(TYPES.items()))}
NAMES = sorted(KINDS.values())
MOST = 300
LONG = "k" * 100_000


# --- a small good table of each kind ---


def toml(value: Any) -> str:
    """A value as TOML. JSON's escapes are TOML's, but for DEL."""
    if isinstance(value, str):
        return json.dumps(value, ensure_ascii=False).replace("\x7f", "\\u007f")
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, list):
        return f"[{', '.join(toml(item) for item in value)}]"
    if isinstance(value, dict):
        return f"{{{', '.join(f'{toml(key)} = {toml(item)}' for key, item in value.items())}}}"
    return str(value)


def render(data: Data) -> str:
    return "\n".join(f"{toml(key)} = {toml(value)}" for key, value in data.items())


def printed(field: str) -> tuple[str, str]:
    """Column and unit of a field."""
    for suffix, unit in sorted(
        ((suffix, unit) for unit, suffix in UNIT_SUFFIX.items()), key=lambda pair: -len(pair[0])
    ):
        if suffix and field.endswith(f"_{suffix}"):
            return field.removesuffix(f"_{suffix}"), unit
    return field.rstrip("_"), ""


def kind_of(row_type: type[Row]) -> dict[str, str]:
    """Each field's type, without the leave to be absent."""
    return {field.name: str(getattr(field.type, "__name__", field.type)).split(" |")[0] for field in fields(row_type)}


def made_up(row_type: type[Row]) -> Data:
    made: dict[str, Callable[[int], Any]] = {
        "str": lambda n: f"made up {n}",
        "int": lambda n: n,
        "float": lambda n: n + 0.5,
    }
    columns = [field for field in kind_of(row_type) if field != "from_"]
    return {
        "columns": [*(printed(field)[0] for field in columns), "from"],
        "units": [*(printed(field)[1] for field in columns), ""],
        "rows": [[*(made[kind_of(row_type)[field]](n) for field in columns), "one"] for n in (1, 2, 3)],
    }


@cache
def shipped(name: str) -> Data | None:
    """The first rows of the shipped table, if they show all that the faults need."""
    path = shipped_folder() / f"{name}.toml"
    if not path.is_file():
        return None
    data = tomllib.loads(path.read_text(encoding="utf-8"))
    data["data"]["rows"] = data["data"]["rows"][:6]
    return data if len(data["data"]["rows"]) > 1 and (not TYPES[name].order or rise(data, TYPES[name])) else None


def rise(data: Data, row_type: type[Row]) -> int:
    """Number of the first row that comes after the one before it, 0 where none does."""
    orders = [[row[position(data, field)] for field in row_type.order] for row in data["data"]["rows"]]
    return next((n for n in range(1, len(orders)) if orders[n - 1] < orders[n]), 0)


def position(data: Data, field: str) -> int:
    pairs = list(zip(data["data"]["columns"], data["data"]["units"], strict=True))
    return pairs.index(printed(field))


def good(name: str) -> Data:
    header = {"format": 1, "table": name, "title": "Made up", "standard": "none", "limits": "Made up for a test."}
    source = [{"id": "one", "basis": "from memory", "text": "made up for a test"}]
    return deepcopy(shipped(name)) or {**header, "source": source, "data": made_up(TYPES[name])}


# --- faults ---


@dataclass(frozen=True)
class Fault:
    """One way to break a table, the words that tell it, and the number of the row it is in, 0 for the whole file."""

    name: str
    break_it: Callable[[Data, type[Row]], object]
    says: str
    row: int = 0
    needs: Callable[[type[Row]], object] = lambda row_type: True


def of_kind(*kinds: str, without: tuple[str, ...] = ()) -> Callable[[type[Row]], list[str]]:
    """Fields of these types that no class variable of the row names in `without`."""

    def found(row_type: type[Row]) -> list[str]:
        leave = {field for attribute in without for field in getattr(row_type, attribute)}
        return [field for field, kind in kind_of(row_type).items() if kind in kinds and field not in leave]

    return found


NUMBERS = of_kind("int", "float")
TEXTS = of_kind("str")


def cell(value: Any, which: Callable[[type[Row]], list[str]]) -> Callable[[Data, type[Row]], None]:
    """Put `value`, or what it makes of the old one, in the second row of each such column's first."""

    def break_it(data: Data, row_type: type[Row]) -> None:
        row, column = data["data"]["rows"][1], position(data, which(row_type)[-1])
        row[column] = value(row[column]) if callable(value) else value

    return break_it


def cell_fault(name: str, value: Any, says: str, which: Callable[[type[Row]], list[str]]) -> Fault:
    return Fault(name, cell(value, which), says, row=2, needs=which)


def key_cell(value: Any) -> Callable[[Data, type[Row]], None]:
    def break_it(data: Data, row_type: type[Row]) -> None:
        data["data"]["rows"][1][position(data, row_type.key[0])] = value

    return break_it


def swap(data: Data, row_type: type[Row]) -> None:
    """Put the first row that rises before the one it follows: the second row of two is then out of order."""
    n, rows = rise(data, row_type), data["data"]["rows"]
    data["data"]["rows"] = [rows[n], rows[n - 1]]


def in_data(entry: str, change: Callable[[Any], Any]) -> Callable[[Data, type[Row]], None]:
    def break_it(data: Data, row_type: type[Row]) -> None:
        data["data"][entry] = change(data["data"][entry])

    return break_it


def first_unit(unit: str) -> Callable[[Data, type[Row]], None]:
    """Give the first column that has a unit another one."""

    def break_it(data: Data, row_type: type[Row]) -> None:
        units = data["data"]["units"]
        units[next(n for n, found in enumerate(units) if found)] = unit

    return break_it


def has_unit(row_type: type[Row]) -> bool:
    return any(printed(field)[1] for field in kind_of(row_type))


def first_source(**changes: Any) -> Callable[[Data, type[Row]], None]:
    return lambda data, row_type: data["source"][0].update(changes)


def header(**changes: Any) -> Callable[[Data, type[Row]], None]:
    return lambda data, row_type: data.update(changes)


def without_column(data: Data, row_type: type[Row]) -> None:
    for line in (data["data"]["columns"], data["data"]["units"], *data["data"]["rows"]):
        del line[0]


def another_column(name: str | None) -> Callable[[Data, type[Row]], None]:
    """Add a column at the end; without a name, the first one once more."""

    def break_it(data: Data, row_type: type[Row]) -> None:
        data["data"]["columns"].append(name or data["data"]["columns"][0])
        data["data"]["units"].append("" if name else data["data"]["units"][0])
        for row in data["data"]["rows"]:
            row.append(row[0])

    return break_it


ROW_FAULTS = [
    cell_fault("text for a number", "thick", "'thick': input should be a valid", NUMBERS),
    cell_fault("number for text", 7, "is 7: input should be a valid string", TEXTS),
    cell_fault("NaN", math.nan, "is nan, not a number", of_kind("float")),
    cell_fault("infinity", math.inf, "is inf, not a number", of_kind("float")),
    cell_fault("NaN for a whole number", math.nan, "is nan: input should be", of_kind("int")),
    cell_fault("a fraction for a whole number", 1.5, "is 1.5: input should be a valid integer", of_kind("int")),
    cell_fault("negative", -1, "is -1, it must be", of_kind("int", "float", without=("signed",))),
    cell_fault("zero", 0, "is 0, it must be more than zero", of_kind("int", "float", without=("signed", "zero_ok"))),
    cell_fault("a truth for a number", True, "is true: input should be a valid", NUMBERS),
    cell_fault("a truth for text", False, "is false: input should be a valid string", TEXTS),
    cell_fault("a date for text", date(2001, 2, 3), "is a date or time, neither text nor a number", TEXTS),
    cell_fault("a list for a number", [1.0], "is a list: input should be a valid", NUMBERS),
    cell_fault("a list of lists for text", [["a"]], "is a list, neither text nor a number", TEXTS),
    cell_fault("a block for text", {"a": 1}, "is a block, neither text nor a number", TEXTS),
    cell_fault("a number too large", 10**400, "is a number too large to show, at most", NUMBERS),
    cell_fault("a large number for text", 2**63, "is a number too large to show, at most", TEXTS),
    cell_fault("terminal escapes", lambda old: f"{old}\x1b[31m", r"\x1b[31m', with a control character", TEXTS),
    cell_fault("a line break", lambda old: f"a\n{old}", r"is 'a\n", TEXTS),
    cell_fault("a bell and a delete", "\a\x7f", r"is '\x07\x7f', with a control character", TEXTS),
    cell_fault("text turned backwards", "a\u202eb", r"is 'a\u202eb', with a control character", TEXTS),
    cell_fault("a space at the end", lambda old: f"{old} ", "with a space at its end", TEXTS),
    cell_fault("a source that is not there", "nowhere", "the source 'nowhere' has no [[source]]", lambda t: ["from_"]),
    Fault("a key of 100 kB", key_cell(LONG), "kkkk…kkkk", row=2),
    Fault("control characters in the key", key_cell("M\x1b[2J\r6"), r"(M\x1b[2J\r6", row=2),
    Fault("a row too short", lambda data, row_type: data["data"]["rows"][1].pop(), "values for", row=2),
    Fault("a row too long", lambda data, row_type: data["data"]["rows"][1].append(1), "values for", row=2),
    Fault("out of order", swap, "out of order", row=2, needs=lambda row_type: row_type.order),
    Fault("a row twice", in_data("rows", lambda rows: [rows[0], rows[0]]), "is there twice, first as row 1", row=2),
]
FILE_FAULTS = [
    Fault("a wrong unit", first_unit("psi"), "is in psi, wanted ", needs=has_unit),
    Fault("no unit", first_unit(""), "is in no unit, wanted ", needs=has_unit),
    Fault("an unknown unit", first_unit("cubit"), "the unknown unit 'cubit'", needs=has_unit),
    Fault("a number for a unit", in_data("units", lambda units: [5, *units[1:]]), "the unknown unit 5"),
    Fault("a unit too few", in_data("units", lambda units: units[1:]), "units"),
    Fault("a missing column", without_column, "is missing"),
    Fault("an unknown column", another_column("colour"), "the column 'colour' is not known"),
    Fault("a column twice", another_column(None), "is there twice"),
    Fault("a number for a column", in_data("columns", lambda columns: [5, *columns[1:]]), "a column is named 5"),
    Fault("a column of 100 kB", another_column(LONG), "is not known"),
    Fault("control characters in a column", another_column("\x1b[2J\n"), r"the column '\x1b[2J\n' is not known"),
    Fault("rows not a list", in_data("rows", lambda rows: "none"), "rows of [data] is 'none'"),
    Fault("rows missing", lambda data, row_type: data["data"].pop("rows"), "rows of [data] is missing"),
    Fault("no rows", in_data("rows", lambda rows: []), "has no rows"),
    Fault("a row that is no list", in_data("rows", lambda rows: [rows[0], 5]), "row 2: the row is 5, not a list"),
    Fault("an unknown entry beside the rows", lambda data, row_type: data["data"].update(x=1), "'x' of [data]"),
    Fault("a later format", header(format=2), "format is 2, this program reads 1"),
    Fault("a true format", header(format=True), "format is true, this program reads 1"),
    Fault("a format of 5000 digits", header(format=10**4200), "format is a number too large to show"),
    Fault("another table", header(table="spoons"), "table is 'spoons', wanted"),
    Fault("another table, named in 100 kB", header(table=LONG), "table is 'kkk"),
    Fault("an unknown entry", header(colour="red"), "the entry 'colour' is not known"),
    Fault("an unknown entry with a line break", header(**{"a\nb": 1}), r"the entry 'a\nb' is not known"),
    Fault("an unknown basis", first_source(basis="hearsay"), "has the basis 'hearsay'; use one of standard"),
    Fault("a number for a source's name", first_source(id=5), "a source's id is 5, not text"),
    Fault("a list for a source's name", first_source(id=[]), "a source's id is a list, not text"),
    Fault("an unknown entry of a source", first_source(page=5), "exactly id, basis and text"),
    Fault("escapes in a source", first_source(text="\x1b[2J"), r"is '\x1b[2J', with a control character"),
    Fault("a source twice", lambda data, row_type: data["source"].append(data["source"][0]), "is there twice"),
    Fault("source not a list", header(source="one"), "'source' or 'data' has the wrong shape"),
    Fault("data a list", header(data=[]), "'source' or 'data' has the wrong shape"),
    Fault("a number for the title", header(title=5), "title is 5, not text"),
    Fault("a line break in the title", header(title="a\nb"), r"title is 'a\nb', with a control character"),
    Fault("limits of 100 kB", header(limits=LONG), "limits is 'kkk"),
    *(
        Fault(f"no {entry}", lambda data, row_type, entry=entry: data.pop(entry), f"the entry '{entry}' is missing")  # type: ignore[misc]
        for entry in ("format", "table", "title", "standard", "limits", "source", "data")
    ),
]


ONE_KIND = "metric-threads"
OF_EVERY_KIND = {
    "text for a number",
    "number for text",
    "negative",
    "a source that is not there",
    "out of order",
    "a wrong unit",
    "a missing column",
}


def kinds_for(fault: Fault) -> list[str]:
    """The kinds of table that are broken in this way: one that can be, or all of those."""
    can = [name for name in NAMES if fault.needs(TYPES[name])]
    if fault.name in OF_EVERY_KIND:
        return can
    return [ONE_KIND if ONE_KIND in can else can[0]]


def cases(faults: list[Fault]) -> list[Any]:
    return [pytest.param(name, fault, id=f"{name}: {fault.name}") for fault in faults for name in kinds_for(fault)]


def told(path: Path, name: str) -> str:
    """The one line that a broken table is refused with."""
    with pytest.raises(CatalogError) as caught:
        check_table(read_table(path, TABLES[name]), file_name(path))
    assert type(caught.value) is CatalogError
    message = str(caught.value)
    assert message.isprintable(), "control characters and line breaks must not reach the terminal"
    assert len(message) < MOST
    assert not re.search(r"[.!?]\s+[A-Z]|[.!?]$", f"{caught.value.what}; {caught.value.fix}"), "more than one sentence"
    assert caught.value.fix
    return message


def said(value: Any) -> str:
    """A key's value as a message shows it."""
    if isinstance(value, bool | float):
        return str(value).lower().removesuffix(".0")
    if isinstance(value, int) and value >= 2**63:
        return "a number too large to show"
    return {list: "a list", dict: "a block", date: "a date or time"}.get(type(value), str(value))


def key_said(data: Data, row_type: type[Row], number: int) -> str:
    """How the message must show the key of a row: its first characters, up to one that cannot be shown."""
    row = data["data"]["rows"][number - 1]
    places = [position(data, field) for field in row_type.key]
    key = " ".join(said(row[place]) for place in places if place < len(row))
    return key[: next((n for n, char in enumerate(key) if n == 20 or not char.isprintable()), 20)]


# --- tests ---


def test_the_faults_of_every_kind_are_faults() -> None:
    assert {fault.name for fault in ROW_FAULTS + FILE_FAULTS} >= OF_EVERY_KIND


@pytest.mark.parametrize("name", NAMES)
def test_unbroken_table_is_read(tmp_path: Path, name: str) -> None:
    path, data = tmp_path / f"{name}.toml", good(name)
    path.write_text(render(data), encoding="utf-8")
    table = read_table(path, TABLES[name])
    check_table(table, path.name)
    assert len(table.rows) == len(data["data"]["rows"])


@pytest.mark.parametrize(("name", "fault"), cases(ROW_FAULTS))
def test_fault_in_a_row_names_file_row_and_key(tmp_path: Path, name: str, fault: Fault) -> None:
    data = good(name)
    fault.break_it(data, TYPES[name])
    path = tmp_path / f"{name}.toml"
    path.write_text(render(data), encoding="utf-8")
    message = told(path, name)
    assert message.startswith(f"{name}.toml, row {fault.row} ({key_said(data, TYPES[name], fault.row)}")
    assert fault.says in message


@pytest.mark.parametrize(("name", "fault"), cases(FILE_FAULTS))
def test_fault_of_the_whole_table_names_the_file(tmp_path: Path, name: str, fault: Fault) -> None:
    data = good(name)
    fault.break_it(data, TYPES[name])
    path = tmp_path / f"{name}.toml"
    path.write_text(render(data), encoding="utf-8")
    message = told(path, name)
    assert message.startswith(f"{name}.toml")
    assert fault.says in message


def test_reference_that_leads_nowhere_names_table_row_and_key(tmp_path: Path) -> None:
    for name in TABLES:
        data = good(name)
        for field, other in TYPES[name].refs.items():
            rows = good(other.name)["data"]["rows"]
            key = rows[0][position(good(other.name), other.row_type.key[0])]
            for row in data["data"]["rows"]:
                row[position(data, field)] = key
        if name == "metric-tap-drills":
            data["data"]["rows"][1][position(data, "thread")] = "M\x1b99"
        (tmp_path / f"{name}.toml").write_text(render(data), encoding="utf-8")
    with pytest.raises(CatalogError) as caught:
        check_references(Tables(tmp_path).table)
    assert str(caught.value) == (
        r"metric-tap-drills, row 2 (M\x1b99): thread 'M\x1b99' is not in the table metric-threads; "
        "add it to metric-threads or correct it"
    )
