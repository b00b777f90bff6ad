"""Read one table file and build its rows, with the cheap checks that every start can afford.

Only the shape is looked at here: size, encoding, header, columns and their units. `fasten.catalog.check` looks at every
value; the tables that ship have passed it.
"""

import errno
import os
from collections.abc import Callable, Iterable
from os import stat
from stat import S_ISDIR, S_ISREG
from typing import Any

from fasten.catalog.plain_toml import loads
from fasten.catalog.rows import Row, TableOf
from fasten.errors import CatalogError
from fasten.record import record, types_of
from fasten.text.shown import ABSENT, MAX_INT, shown, visible

FORMAT = 1
MAX_BYTES = 1_000_000
OWN_TEST_BASIS = "own test"
BASES = ("standard", "handbook", "common practice", "from memory", "user's own")
UNIT_SUFFIX = {
    "": "", "mm": "mm", "µm": "um", "in": "in", "1/in": "per_in", "mm2": "mm2", "cm2": "cm2", "N": "n", "kN": "kn",
    "lbf": "lbf", "N·m": "nm", "MPa": "mpa", "psi": "psi", "kg": "kg", "g/cm3": "g_cm3", "kg/m3": "kg_m3", "°C": "c",
    "deg": "deg", "V": "v", "mV": "mv", "A": "a", "g": "g", "h": "h", "N/cm2": "n_cm2", "mΩ/m": "mohm_per_m",
}  # fmt: skip
Reading = Callable[[str], dict[str, Any]]
FilePath = str | os.PathLike[str]

HEADER = {"format", "table", "title", "standard", "limits", "source", "data"}
MAY_SAY = {"row_type"}  # in which method the type of its rows is declared; see `registry`
COLUMN_OF_UNIT = sorted(
    ((suffix, unit) for unit, suffix in UNIT_SUFFIX.items() if unit), key=lambda pair: -len(pair[0])
)
_NOT_THERE = (errno.ENOENT, errno.ENOTDIR, errno.ELOOP)


@record
class Source:
    """Where values come from: a standard, a handbook, common practice, memory or the user."""

    id: str
    basis: str
    text: str


def of_own_test(identity: str) -> Source:
    """The source of readings of the user's own, by `<what>/<how many>/<the last day>`."""
    read, count, day = identity.split("/")
    return Source(identity, OWN_TEST_BASIS, f"own test, {read.replace('_', ' ')}, n = {count}{day and f', {day}'}")


@record
class Table:
    """One table: what it is, its sources by id, its rows in printed order."""

    name: str
    title: str
    standard: str
    limits: str
    sources: dict[str, Source]
    rows: tuple[Row, ...]


def label(key: Iterable[object]) -> str:
    """The key of a row as a message shows it: as it is written in the file, text and what is absent without quotes."""
    written = (ABSENT if value is None else value if isinstance(value, str) else shown(value) for value in key)
    return visible(" ".join(written), 40)


def file_name(path: FilePath) -> str:
    """The name of a file as a message shows it."""
    return visible(os.path.basename(path))


def read_table(path: FilePath, wanted: TableOf[Row], read: Reading = loads) -> Table:
    """Read `path` as the table that is wanted, its text by `read`.

    Raises:
        CatalogError: the file cannot be read or its shape is wrong; says file, row and column.
    """
    return build_table(parse(path, read), file_name(path), wanted)


def parse(path: FilePath, read: Reading = loads) -> dict[str, Any]:
    """Read a table file as plain data.

    Raises:
        CatalogError: not a file, too large, not UTF-8 or not TOML.
    """
    where = file_name(path)
    try:
        return read(_content(path, where).decode("utf-8-sig"))
    except UnicodeDecodeError as error:
        raise CatalogError(f"byte {error.start} is not UTF-8 text", where=where, fix="save it as UTF-8") from error
    except ValueError as error:
        from tomllib import TOMLDecodeError

        if not isinstance(error, TOMLDecodeError):  # a number of thousands of digits
            raise CatalogError("holds a number too long to read", where=where, fix="correct the number") from error
        raise CatalogError(f"not TOML: {visible(str(error), 100)}", where=where, fix="correct that line") from error
    except RecursionError as error:
        raise CatalogError("lists or blocks are nested too deep", where=where, fix="see the other tables") from error
    except OSError as error:
        fix = "check its name and permissions"
        raise CatalogError(f"the file cannot be read: {error.strerror}", where=where, fix=fix) from error


def _content(path: FilePath, where: str) -> bytes:
    found = _status(path)
    if found is None:
        raise CatalogError("the table is not there", where=where, fix="put a .toml file in its place")
    if S_ISDIR(found.st_mode):
        raise CatalogError("there is a folder where the table should be", where=where, fix="put a .toml file there")
    if not S_ISREG(found.st_mode):  # a pipe or a device would wait for ever
        raise CatalogError("the table is not a plain file", where=where, fix="put a .toml file in its place")
    content = b""
    if found.st_size <= MAX_BYTES:
        with open(path, "rb") as file:
            content = file.read()  # with room for no more than there is: for all that may be is made anew each time
    if max(found.st_size, len(content)) > MAX_BYTES:
        large = f"the file is over {MAX_BYTES // 1_000_000} MB, too large for a table"
        raise CatalogError(large, where=where, fix="leave it out")
    return content


def _status(path: FilePath) -> os.stat_result | None:
    """What kind of thing stands there; None where nothing does, and OSError where it may not be looked at."""
    try:
        return stat(path)
    except OSError as error:
        if error.errno in _NOT_THERE:
            return None
        raise


def build_table(data: dict[str, Any], where: str, wanted: TableOf[Row]) -> Table:
    """Build a table from plain data.

    Raises:
        CatalogError: a header entry, column or row does not have the shape that its row type declares.
    """
    row_type = wanted.row_type
    check_format(data, where)
    _check_header(data, where, wanted.name)
    sources = _sources(data["source"], where)
    names = _field_names(data["data"], where, row_type)
    rows = _rows(data["data"]["rows"], names, row_type, where)
    return Table(wanted.name, data["title"], data["standard"], data["limits"], sources, rows)


def check_format(data: dict[str, Any], where: str) -> None:
    """Check the format number, before anything else is looked at.

    Raises:
        CatalogError: there is none, or another than this program reads.
    """
    fix = f"write format = {FORMAT}"
    if "format" not in data:
        raise CatalogError("the entry 'format' is missing", where=where, fix=fix)
    found = data["format"]
    if type(found) is not int or found != FORMAT:
        raise CatalogError(f"format is {shown(found)}, this program reads {FORMAT}", where=where, fix=fix)


def _check_header(data: dict[str, Any], where: str, name: str) -> None:
    missing = sorted(HEADER - data.keys())
    unknown = sorted(data.keys() - HEADER - MAY_SAY)
    if missing or unknown:
        entry, how = (missing[0], "is missing") if missing else (unknown[0], "is not known")
        fix = f"the entries are {', '.join(sorted(HEADER))}"
        raise CatalogError(f"the entry {shown(entry)} {how}", where=where, fix=fix)
    if data["table"] != name:
        wrong = f"table is {shown(data['table'])}, wanted '{name}'"
        raise CatalogError(wrong, where=where, fix="name the table this file holds")
    for entry in ("title", "standard", "limits"):
        if not isinstance(data[entry], str):
            raise CatalogError(f"{entry} is {shown(data[entry])}, not text", where=where, fix="put it in quotes")
    if not isinstance(data["source"], list) or not isinstance(data["data"], dict):
        wrong = "the entry 'source' or 'data' has the wrong shape"
        raise CatalogError(wrong, where=where, fix="write [[source]] blocks and one [data] block")


def _sources(entries: list[Any], where: str) -> dict[str, Source]:
    sources: dict[str, Source] = {}
    for entry in entries:
        source = _source(entry, where)
        if source.id in sources:
            raise CatalogError(f"the source {shown(source.id)} is there twice", where=where, fix="remove one")
        sources[source.id] = source
    return sources


def _source(entry: Any, where: str) -> Source:
    if not isinstance(entry, dict) or set(entry) != {"id", "basis", "text"}:
        wrong = "a source needs exactly id, basis and text"
        raise CatalogError(wrong, where=where, fix="complete the [[source]] block")
    for name, value in entry.items():
        if not isinstance(value, str):
            raise CatalogError(f"a source's {name} is {shown(value)}, not text", where=where, fix="put it in quotes")
    if entry["basis"] not in BASES:
        wrong = f"the source {shown(entry['id'])} has the basis {shown(entry['basis'])}"
        raise CatalogError(wrong, where=where, fix=f"use one of {', '.join(BASES)}")
    return Source(**entry)


def _field_names(data: dict[str, Any], where: str, row_type: type[Row]) -> list[str]:
    for entry in sorted(data.keys() | {"columns", "units", "rows"}):
        if entry not in {"columns", "units", "rows"}:
            fix = "the entries are columns, units and rows"
            raise CatalogError(f"the entry {shown(entry)} of [data] is not known", where=where, fix=fix)
        if not isinstance(data.get(entry), list):
            wrong = f"{entry} of [data] is {shown(data[entry]) if entry in data else 'missing'}"
            raise CatalogError(wrong, where=where, fix=f"write {entry} as a list")
    columns, units = data["columns"], data["units"]
    if len(columns) != len(units):
        fix = 'give one unit a column, "" where it has none'
        raise CatalogError(f"there are {len(columns)} columns but {len(units)} units", where=where, fix=fix)
    wanted = types_of(row_type)
    names = [_field_name(column, unit, wanted, where) for column, unit in zip(columns, units, strict=True)]
    for field_name in wanted:
        if field_name not in names:
            column, unit = _column_and_unit(field_name)
            fix = f"add it, in {unit}" if unit else "add it"
            raise CatalogError(f"the column '{column}' is missing", where=where, fix=fix)
        if names.count(field_name) > 1:
            column = columns[names.index(field_name)]
            raise CatalogError(f"the column {shown(column)} is there twice", where=where, fix="remove one")
    return names


def _field_name(column: Any, unit: Any, wanted: dict[str, Any], where: str) -> str:
    if not isinstance(column, str):
        raise CatalogError(f"a column is named {shown(column)}, not text", where=where, fix="put its name in quotes")
    suffix = UNIT_SUFFIX.get(unit) if isinstance(unit, str) else None
    if suffix is None:
        fix = f"use one of {', '.join(filter(None, UNIT_SUFFIX))}"
        raise CatalogError(f"the column {shown(column)} has the unknown unit {shown(unit)}", where=where, fix=fix)
    name = f"{column}_{suffix}" if suffix else column
    for candidate in (name, f"{name}_"):
        if candidate in wanted:
            return candidate
    for field_name in wanted:
        known, right_unit = _column_and_unit(field_name)
        if column in (known, field_name.rstrip("_")):
            fix = "convert the values and the unit" if right_unit and unit else "correct the unit"
            wrong = f"the column {shown(column)} is in {unit or 'no unit'}, wanted {right_unit or 'no unit'}"
            raise CatalogError(wrong, where=where, fix=fix)
    raise CatalogError(f"the column {shown(column)} is not known", where=where, fix="remove it or correct its name")


def _column_and_unit(field_name: str) -> tuple[str, str]:
    """The column and the unit that a table prints for a field: `pitch_mm` is `pitch` in `mm`."""
    for suffix, unit in COLUMN_OF_UNIT:
        if field_name.endswith(f"_{suffix}"):
            return field_name.removesuffix(f"_{suffix}"), unit
    return field_name.rstrip("_"), ""


def _converters(names: list[str], row_type: type[Row]) -> list[tuple[int, bool, bool]]:
    """For each field in order: which column fills it, may it be absent, and is it a float."""
    types = {name: kind if isinstance(kind, str) else _type_text(kind) for name, kind in types_of(row_type).items()}
    return [(names.index(name), "None" in kind, kind.startswith("float")) for name, kind in types.items()]


def _type_text(kind: Any) -> str:
    return getattr(kind, "__name__", str(kind)) if not hasattr(kind, "__args__") else str(kind)


def _rows(listed: list[Any], names: list[str], row_type: type[Row], where: str) -> tuple[Row, ...]:
    """The rows as they are listed, their values put in order column by column."""
    for number, values in enumerate(listed, 1):
        if not isinstance(values, list) or len(values) != len(names):
            raise _wrong_length(values, names, row_type, f"{where}, row {number}")
    columns = list(zip(*listed, strict=True)) or [()] * len(names)
    filled = (
        _filled(columns[at], optional=optional, is_float=is_float)
        for at, optional, is_float in _converters(names, row_type)
    )
    return tuple(map(row_type, *filled))


def _filled(values: tuple[Any, ...], *, optional: bool, is_float: bool) -> Iterable[Any]:
    """The values of a column as its field takes them; most are that already."""
    kinds = set(map(type, values))
    if list not in kinds and not (is_float and int in kinds) and not (optional and ABSENT in values):
        return values
    return [_value(value, optional=optional, is_float=is_float) for value in values]


def _value(value: Any, *, optional: bool, is_float: bool) -> Any:
    if optional and value == ABSENT:
        return None
    if is_float and type(value) is int and -MAX_INT <= value <= MAX_INT:
        return float(value)
    return tuple(value) if isinstance(value, list) else value


def _wrong_length(values: Any, names: list[str], row_type: type[Row], where: str) -> CatalogError:
    if not isinstance(values, list):
        return CatalogError(f"the row is {shown(values)}, not a list", where=where, fix="give one value a column")
    found = dict(zip(names, values, strict=False))
    key = label(found[field] for field in row_type.key if field in found)
    wrong = f"the row has {len(values)} values for {len(names)} columns"
    return CatalogError(wrong, where=f"{where} ({key})", fix="give one value a column")
