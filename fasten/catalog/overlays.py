"""The user's own tables: found in their folder, checked, and laid row by row over the shipped ones."""

import os
from pathlib import Path

from fasten.catalog.load import Source, Table, build_table, check_format, file_name, parse
from fasten.catalog.registry import TABLES
from fasten.errors import CatalogError
from fasten.record import record, replace
from fasten.text.shown import shown

USERS_OWN = "user's own"
_NAMED = 6  # tables that a message names, of all that may be overlaid


@record
class Overlay:
    """A table of the user's own rows and the name of its file, as messages show it."""

    where: str
    table: Table


def overlay_names(folder: Path) -> list[str]:
    """Names of the table files in a folder, sorted; a folder that is not there has none. Hidden files are editors'."""
    try:
        return sorted(name for name in os.listdir(folder) if name.endswith(".toml") and not name.startswith("."))
    except FileNotFoundError:
        return []
    except NotADirectoryError as error:
        wrong = "there is a file where the folder of your own tables should be"
        raise CatalogError(wrong, where=file_name(folder), fix="put a folder in its place") from error
    except OSError as error:
        wrong = f"the folder of your own tables cannot be read: {error.strerror}"
        raise CatalogError(wrong, where=file_name(folder), fix="check its name and permissions") from error


def _inside(folder: Path, name: str) -> Path:
    """The path of a file in the folder; raises CatalogError for a link that leads out: a folder may be a stranger's."""
    path = folder / name
    if path.is_symlink() and not Path(os.path.realpath(path)).is_relative_to(os.path.realpath(folder)):
        wrong = "a link that leads out of the folder of your own tables is not followed"
        raise CatalogError(wrong, where=file_name(path), fix="put the file itself there")
    return path


def read_overlay(folder: Path, name: str) -> Overlay:
    """A table of the user's own, checked by itself; raises CatalogError if it cannot be used."""
    from fasten.catalog.check import check_table

    path = _inside(folder, name)
    data, where = parse(path), file_name(path)
    check_format(data, where)
    named_table = data.get("table")
    if not isinstance(named_table, str) or named_table not in TABLES or not TABLES[named_table].row_type.parts:
        named = f"table is {shown(named_table)}, which takes no rows of your own"
        wrong = named if named_table is not None else "table is missing"
        parts = [name for name, table in TABLES.items() if table.row_type.parts]
        named = f"{', '.join(parts[:_NAMED])} or another table of parts that `fasten tables` lists"
        raise CatalogError(wrong, where=where, fix=f"use one of {named}")
    table = build_table(data, where, TABLES[named_table])
    for source in table.sources.values():
        if source.basis != USERS_OWN:
            wrong = f"the source {shown(source.id)} of your own rows has the basis '{source.basis}'"
            raise CatalogError(wrong, where=where, fix=f'write basis = "{USERS_OWN}"')
    check_table(table, where)
    return Overlay(where, table)


def check_keys_apart(overlay: Overlay, earlier: list[Overlay]) -> None:
    """Raises CatalogError where a row stands in another of the user's own tables too."""
    from fasten.catalog.check import place

    for other in earlier:
        if other.table.name != overlay.table.name:
            continue
        theirs = {row.key_value() for row in other.table.rows}
        for number, row in enumerate(overlay.table.rows, 1):
            if row.key_value() in theirs:
                wrong = f"the row is in {other.where} too"
                raise CatalogError(wrong, where=place(overlay.where, number, row), fix="keep one of them")


def laid_over(table: Table, overlay: Table) -> Table:
    """`table` with the rows of `overlay` in place of its own of the same key, in the table's order."""
    rows = {row.key_value(): row for row in table.rows}
    sources = dict(table.sources)
    own_ids: dict[str, str] = {}
    for identity, source in overlay.sources.items():
        own_ids[identity] = _free_id(f"own-{identity}", sources)
        sources[own_ids[identity]] = source
    rows |= {row.key_value(): replace(row, from_=own_ids[row.from_]) for row in overlay.rows}
    ordered = (
        sorted(rows.values(), key=lambda row: tuple(getattr(row, name) for name in row.order))
        if TABLES[table.name].row_type.order
        else rows.values()
    )
    return replace(table, sources=sources, rows=tuple(ordered))


def _free_id(wanted: str, taken: dict[str, Source]) -> str:
    """`wanted`, numbered where another file took it: two files may call their source the same."""
    number, found = 1, wanted
    while found in taken:
        number, found = number + 1, f"{wanted}-{number + 1}"
    return found
