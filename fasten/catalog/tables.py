"""All tables behind one object: read on first use, the user's rows laid over the shipped ones."""

import os
from dataclasses import dataclass, replace
from functools import cache
from pathlib import Path
from sys import intern
from typing import TypeVar

from fasten.catalog.load import Source, Table, build_table, check_format, file_name, parse, read_table, shown
from fasten.catalog.registry import TABLES
from fasten.catalog.rows import Row
from fasten.errors import CatalogError

RowT = TypeVar("RowT", bound=Row)
USERS_OWN = "user's own"
_NAMED = 6  # tables that a message names, of all that may be overlaid


def shipped_folder() -> Path:
    """The folder of the shipped tables: inside the package when installed, beside it in a checkout."""
    package = Path(__file__).resolve().parents[1]
    installed = package / "catalogs"
    return installed if installed.is_dir() else package.parent / "catalogs"


@dataclass(frozen=True)
class Overlay:
    """A table of the user's own rows and the name of its file, as messages show it."""

    where: str
    table: Table


class Tables:
    """The tables to compute with. Equal folders give equal answers; nothing is written.

    Args:
        folder: where the shipped tables are.
        overlay_folder: the user's own tables, laid over the shipped ones row by row; may be missing.

    Attributes:
        problems: what is wrong with the user's own tables, each with the file that was left out for it.
    """

    def __init__(self, folder: Path, overlay_folder: Path | None = None) -> None:
        self._folder = folder
        self._read: dict[str, Table] = {}
        self._index: dict[str, dict[object, Row]] = {}
        self.problems: list[CatalogError] = []
        self._overlays: list[Overlay] = []
        if overlay_folder is not None:
            self._read_overlays(overlay_folder)
            self._leave_out_dangling()

    def table(self, name: str) -> Table:
        """The table `name`, read on first use.

        Raises:
            CatalogError: the shipped file is missing or has the wrong shape.
        """
        if name not in self._read:
            table = read_table(self._folder / f"{name}.toml", TABLES[name], name)
            for overlay in self._overlays:
                table = _laid_over(table, overlay.table) if overlay.table.name == name else table
            self._read[name] = table
        return self._read[name]

    def rows(self, row_type: type[RowT], name: str) -> tuple[RowT, ...]:
        """The rows of the table `name`, whose rows are of `row_type`."""
        assert TABLES[name] is row_type, f"{name} holds {TABLES[name].__name__}"
        return self.table(name).rows  # type: ignore[return-value]

    def find(self, row_type: type[RowT], name: str, *key: object) -> RowT | None:
        """The row of the table `name` with this key, or None."""
        if name not in self._index:
            self._index[name] = {row.key_value(): row for row in self.rows(row_type, name)}
        return self._index[name].get(key)  # type: ignore[return-value]

    def source_id(self, name: str, row: Row) -> str:
        """The id under which answers cite the source of `row` of the table `name`."""
        return intern(f"{name}:{row.from_}")  # an answer cites hundreds, and few of them differ

    def source(self, source_id: str) -> Source:
        """The source that `source_id` names."""
        name, _, identity = source_id.partition(":")
        return self.table(name).sources[identity]

    def _read_overlays(self, folder: Path) -> None:
        try:
            names = _overlay_names(folder)
        except CatalogError as error:
            self.problems.append(error)
            return
        for name in names:
            try:
                overlay = _read_overlay(_inside(folder, name))
                _check_keys_apart(overlay, self._overlays)
                self._overlays.append(overlay)
            except CatalogError as error:
                self.problems.append(error)

    def _leave_out_dangling(self) -> None:
        """Leave out the overlays whose rows point to nothing once all are laid over, and then those that need these."""
        left_out = True
        while left_out:
            left_out = False
            for overlay in list(self._overlays):
                try:
                    self._check_references(overlay)
                except CatalogError as error:
                    self.problems.append(error)
                    self._overlays.remove(overlay)
                    self._read.pop(overlay.table.name, None)
                    left_out = True

    def _check_references(self, overlay: Overlay) -> None:
        from fasten.catalog.check import check_row_references, place

        for number, row in enumerate(overlay.table.rows, 1):
            check_row_references(self, row, place(overlay.where, number, row))


def _overlay_names(folder: Path) -> list[str]:
    """Names of the table files in a folder, sorted; a folder that is not there has none. Hidden files are editors'."""
    try:
        return sorted(name for name in os.listdir(folder) if name.endswith(".toml") and not name.startswith("."))
    except FileNotFoundError:
        return []
    except NotADirectoryError as error:
        wrong = "a file stands where the folder of your own tables should be"
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


def _read_overlay(path: Path) -> Overlay:
    from fasten.catalog.check import check_table

    data, where = parse(path), file_name(path)
    check_format(data, where)
    name = data.get("table")
    if not isinstance(name, str) or name not in TABLES or not TABLES[name].parts:
        wrong = f"table is {shown(name)}, which takes no rows of your own" if name is not None else "table is missing"
        parts = [table for table, row_type in TABLES.items() if row_type.parts]
        named = f"{', '.join(parts[:_NAMED])} or another table of parts that `fasten tables` lists"
        raise CatalogError(wrong, where=where, fix=f"use one of {named}")
    table = build_table(data, where, TABLES[name], name)
    for source in table.sources.values():
        if source.basis != USERS_OWN:
            wrong = f"the source {shown(source.id)} of your own rows has the basis '{source.basis}'"
            raise CatalogError(wrong, where=where, fix=f'write basis = "{USERS_OWN}"')
    check_table(table, where)
    return Overlay(where, table)


def _check_keys_apart(overlay: Overlay, earlier: list[Overlay]) -> None:
    from fasten.catalog.check import place

    for other in earlier:
        if other.table.name != overlay.table.name:
            continue
        theirs = {row.key_value() for row in other.table.rows}
        for number, row in enumerate(overlay.table.rows, 1):
            if row.key_value() in theirs:
                wrong = f"the row stands in {other.where} too"
                raise CatalogError(wrong, where=place(overlay.where, number, row), fix="keep one of them")


def _laid_over(table: Table, overlay: Table) -> Table:
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
        if TABLES[table.name].order
        else rows.values()
    )
    return replace(table, sources=sources, rows=tuple(ordered))


def _free_id(wanted: str, taken: dict[str, Source]) -> str:
    """`wanted`, numbered where another file took it: two files may call their source the same."""
    number, found = 1, wanted
    while found in taken:
        number, found = number + 1, f"{wanted}-{number + 1}"
    return found


@cache
def builtin() -> Tables:
    """The shipped tables alone, shared by all who ask."""
    return Tables(shipped_folder())
