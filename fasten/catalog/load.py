"""Read one table file and build its rows, with the cheap checks that every start can afford.

Only the shape is looked at here: size, encoding, header, columns and their units. `fasten.catalog.check` looks at every
value; the tables that ship have passed it.
"""

import tomllib
from dataclasses import Field, dataclass, fields
from pathlib import Path
from typing import Any

from fasten.catalog.rows import Row
from fasten.errors import CatalogError

FORMAT = 1
MAX_BYTES = 1_000_000
ABSENT = "-"
BASES = ("standard", "handbook", "common practice", "from memory", "user's own")
UNIT_SUFFIX = {
    "": "", "mm": "mm", "µm": "um", "in": "in", "1/in": "per_in", "mm2": "mm2", "cm2": "cm2", "N": "n", "kN": "kn", "lbf": "lbf",
    "N·m": "nm", "MPa": "mpa", "psi": "psi", "kg": "kg", "g/cm3": "g_cm3", "kg/m3": "kg_m3", "°C": "c", "deg": "deg", "V": "v",
    "mV": "mv", "A": "a", "g": "g", "h": "h", "N/cm2": "n_cm2",
}  # fmt: skip
HEADER = {"format", "table", "title", "standard", "limits", "source", "data"}


@dataclass(frozen=True)
class Source:
    """Where values come from: a standard, a handbook, common practice, memory or the user."""

    id: str
    basis: str
    text: str


@dataclass(frozen=True)
class Table:
    """One table: what it is, its sources by id, its rows in printed order."""

    name: str
    title: str
    standard: str
    limits: str
    sources: dict[str, Source]
    rows: tuple[Row, ...]


def read_table(path: Path, row_type: type[Row], name: str) -> Table:
    """Read `path` as the table `name` with rows of `row_type`.

    Raises:
        CatalogError: the file cannot be read or its shape is wrong; says file, row and column.
    """
    return build_table(parse(path), path.name, row_type, name)


def parse(path: Path) -> dict[str, Any]:
    """Read a table file as plain data.

    Raises:
        CatalogError: not a file, too large, not UTF-8 or not TOML.
    """
    where = path.name
    if not path.is_file():
        kind = "is a folder, a table must be a file" if path.is_dir() else "is not there"
        raise CatalogError(f"the table {kind}", where=where, fix="put a .toml file in its place")
    try:
        if path.stat().st_size > MAX_BYTES:
            raise CatalogError(
                f"the file is over {MAX_BYTES // 1_000_000} MB, too large for a table", where=where, fix="leave it out"
            )
        return tomllib.loads(path.read_bytes().decode("utf-8-sig").replace("\r\n", "\n"))
    except UnicodeDecodeError as error:
        raise CatalogError(
            f"byte {error.start} is not UTF-8 text", where=where, fix="save the file as UTF-8"
        ) from error
    except tomllib.TOMLDecodeError as error:
        raise CatalogError(f"not TOML: {error}", where=where, fix="mend that line") from error
    except OSError as error:
        raise CatalogError(
            f"cannot be read: {error.strerror}", where=where, fix="check the file's permissions"
        ) from error


def build_table(data: dict[str, Any], where: str, row_type: type[Row], name: str) -> Table:
    """Build a table from plain data.

    Raises:
        CatalogError: a header entry, column or row does not have the shape that `row_type` declares.
    """
    _check_header(data, where, name)
    sources = {source.id: source for source in (_source(entry, where) for entry in data["source"])}
    names = _field_names(data["data"], where, row_type)
    converters = _converters(names, row_type)
    rows = tuple(
        _row(values, names, converters, row_type, f"{where}, row {n}")
        for n, values in enumerate(data["data"]["rows"], 1)
    )
    return Table(name, data["title"], data["standard"], data["limits"], sources, rows)


def _check_header(data: dict[str, Any], where: str, name: str) -> None:
    if data.get("format") != FORMAT:
        raise CatalogError(
            f"format is {data.get('format')!r}, this program reads {FORMAT}",
            where=where,
            fix=f"write format = {FORMAT}",
        )
    missing = sorted(HEADER - data.keys())
    unknown = sorted(data.keys() - HEADER)
    if missing or unknown:
        entry, how = (missing[0], "is missing") if missing else (unknown[0], "is not known")
        raise CatalogError(
            f"the entry {entry!r} {how}", where=where, fix=f"the entries are {', '.join(sorted(HEADER))}"
        )
    if data["table"] != name:
        raise CatalogError(
            f"table is {data['table']!r}, wanted {name!r}", where=where, fix="name the table this file holds"
        )
    if not isinstance(data["source"], list) or not isinstance(data["data"], dict):
        raise CatalogError(
            "[[source]] or [data] has the wrong shape", where=where, fix="see the README beside the tables"
        )
    if any(not isinstance(data[key], str) for key in ("title", "standard", "limits")):
        raise CatalogError("title, standard and limits must be text", where=where, fix="put them in quotes")


def _source(entry: Any, where: str) -> Source:
    if not isinstance(entry, dict) or set(entry) != {"id", "basis", "text"}:
        raise CatalogError(
            "a source needs exactly id, basis and text", where=where, fix="complete the [[source]] block"
        )
    if entry["basis"] not in BASES:
        raise CatalogError(
            f"source {entry['id']!r} has the basis {entry['basis']!r}",
            where=where,
            fix=f"use one of {', '.join(BASES)}",
        )
    return Source(**entry)


def _field_names(data: dict[str, Any], where: str, row_type: type[Row]) -> list[str]:
    columns, units, rows = data.get("columns"), data.get("units"), data.get("rows")
    if not (isinstance(columns, list) and isinstance(units, list) and isinstance(rows, list)):
        raise CatalogError(
            "[data] needs the lists columns, units and rows", where=where, fix="complete the [data] block"
        )
    if len(columns) != len(units):
        raise CatalogError(
            f"{len(columns)} columns but {len(units)} units",
            where=where,
            fix='give one unit a column, "" where it has none',
        )
    wanted = {field.name: field for field in fields(row_type)}
    names = [_field_name(column, unit, wanted, where) for column, unit in zip(columns, units, strict=True)]
    for field_name in wanted:
        if field_name not in names:
            raise CatalogError(
                f"the column {field_name.rstrip('_')!r} is missing", where=where, fix="add it, with its unit"
            )
        if names.count(field_name) > 1:
            raise CatalogError(f"the column {field_name!r} stands twice", where=where, fix="remove one")
    return names


def _field_name(column: Any, unit: Any, wanted: dict[str, Field[Any]], where: str) -> str:
    suffix = UNIT_SUFFIX.get(unit) if isinstance(unit, str) else None
    if suffix is None:
        raise CatalogError(
            f"column {column!r} has the unknown unit {unit!r}",
            where=where,
            fix=f"use one of {', '.join(filter(None, UNIT_SUFFIX))}",
        )
    name = f"{column}_{suffix}" if suffix else str(column)
    for candidate in (name, f"{name}_"):
        if candidate in wanted:
            return candidate
    for field_name in wanted:
        if any(field_name == (f"{column}_{other}" if other else column) for other in UNIT_SUFFIX.values()):
            raise CatalogError(
                f"column {column!r} is in {unit or 'no unit'!r}, wanted {field_name}",
                where=where,
                fix="convert the values and the unit",
            )
    raise CatalogError(f"the column {column!r} is not known", where=where, fix="remove it or correct its name")


def _converters(names: list[str], row_type: type[Row]) -> list[tuple[bool, bool]]:
    """For each column: may it be absent, and is it a float."""
    types = {
        field.name: str(field.type if isinstance(field.type, str) else _type_text(field.type))
        for field in fields(row_type)
    }
    return [("None" in types[name], types[name].startswith("float")) for name in names]


def _type_text(kind: Any) -> str:
    return getattr(kind, "__name__", str(kind)) if not hasattr(kind, "__args__") else str(kind)


def _row(values: Any, names: list[str], converters: list[tuple[bool, bool]], row_type: type[Row], where: str) -> Row:
    if not isinstance(values, list) or len(values) != len(names):
        raise CatalogError(
            f"has {len(values) if isinstance(values, list) else 'no'} values for {len(names)} columns",
            where=where,
            fix="give one value a column",
        )
    filled: dict[str, Any] = {}
    for name, value, (optional, is_float) in zip(names, values, converters, strict=True):
        if optional and value == ABSENT:
            filled[name] = None
        elif is_float and type(value) is int:
            filled[name] = float(value)
        elif isinstance(value, list):
            filled[name] = tuple(value)
        else:
            filled[name] = value
    return row_type(**filled)
