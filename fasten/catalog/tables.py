"""All tables behind one object: read on first use, the user's rows laid over the shipped ones."""

from __future__ import annotations

import os
from functools import cache
from sys import intern
from typing import TYPE_CHECKING, TypeVar

from fasten.catalog.folder import shipped, shipped_folder
from fasten.errors import CatalogError

if TYPE_CHECKING:
    from collections.abc import Callable

    from fasten.catalog.load import FilePath, Source, Table
    from fasten.catalog.overlays import Overlay
    from fasten.catalog.rows import Row, TableOf
    from fasten.model.tested import OwnTest

__all__ = ["Tables", "builtin", "opened", "shipped_folder"]

RowT = TypeVar("RowT", bound="Row")


class _OfTable(dict[str, str]):
    """The id of each source of a table, made once: an answer cites hundreds, and few of them differ."""

    def __init__(self, table: str) -> None:
        super().__init__()
        self._table = table

    def __missing__(self, from_: str) -> str:
        self[from_] = found = intern(f"{self._table}:{from_}")
        return found


class _Ids(dict[str, _OfTable]):
    def __missing__(self, table: str) -> _OfTable:
        self[table] = found = _OfTable(table)
        return found


class Tables:
    """The tables to compute with. Equal folders give equal answers; nothing is written.

    Args:
        folder: where the shipped tables are.
        overlay_folder: the user's own tables, laid over the shipped ones row by row; may be missing.
        strict: read the shipped ones as TOML alone, which is slower and lets no slip pass: for who checks them.

    Attributes:
        problems: what is wrong with the user's own tables, each with the file that was left out for it.
    """

    def __init__(self, folder: FilePath, overlay_folder: FilePath | None = None, *, strict: bool = False) -> None:
        self._folder = folder
        self._strict = strict
        self._read: dict[str, Table] = {}
        self._tests: Callable[[], tuple[OwnTest, ...]] = _none
        self._index: dict[str, dict[object, Row]] = {}
        self._ids = _Ids()
        self.problems: list[CatalogError] = []
        self._overlays: list[Overlay] = []
        if overlay_folder is not None and _is_there(overlay_folder):
            self._read_overlays(overlay_folder)
            self._leave_out_dangling()

    def table(self, name: str) -> Table:
        """The table `name`, read on first use.

        Raises:
            CatalogError: the shipped file is missing or has the wrong shape.
        """
        if name not in self._read:
            from fasten.catalog.registry import TABLES

            self._read[name] = self.read(TABLES[name])
        return self._read[name]

    def rows(self, table: TableOf[RowT]) -> tuple[RowT, ...]:
        """The rows of a table, read on first use; raises CatalogError as `table` does."""
        if table.name not in self._read:
            self._read[table.name] = self.read(table)
        return self._read[table.name].rows  # type: ignore[return-value]

    def find(self, table: TableOf[RowT], *key: object) -> RowT | None:
        """The row of a table with this key, or None."""
        try:
            return self._index[table.name].get(key)  # type: ignore[return-value]
        except KeyError:
            from fasten.catalog.rows import by_key

            self._index[table.name] = by_key(table.row_type, self.rows(table))
            return self._index[table.name].get(key)  # type: ignore[return-value]

    def need(self, table: TableOf[RowT], *key: object) -> RowT:
        """The row of a table with this key; raises CatalogError where there is none."""
        try:
            return self._index[table.name][key]  # type: ignore[return-value]
        except KeyError:
            row = self.find(table, *key)
        if row is None:
            raise CatalogError(
                f"there is no row {' '.join(map(str, key))}",
                where=f"{table.name}.toml",
                fix="add it there, or correct what names it",
            )
        return row

    def source_id(self, table: TableOf[Row], row: Row) -> str:
        """The id under which answers cite the source of a row of a table."""
        return self._ids[table.name][row.from_]

    def source(self, source_id: str) -> Source:
        """The source that `source_id` names."""
        name, _, identity = source_id.partition(":")
        if name not in self._read:  # a row of what is read is cited mostly: the words of the rest take long to load
            from fasten.catalog.load import of_own_test
            from fasten.model.tested import OWN_TEST

            if name == OWN_TEST:
                return of_own_test(identity)
        return self.table(name).sources[identity]

    @property
    def tests(self) -> tuple[OwnTest, ...]:
        """The user's own readings on test pieces, as they are kept now."""
        return self._tests()

    def with_tests(self, tests: tuple[OwnTest, ...]) -> Tables:
        """The same tables with these test pieces."""
        return self if tests == self.tests else self.with_kept(lambda: tests)

    def with_kept(self, tests: Callable[[], tuple[OwnTest, ...]]) -> Tables:
        """The same tables with the test pieces that are kept whenever one is asked for."""
        from copy import copy

        found = copy(self)
        found._tests = tests
        return found

    # What reads tables, and the types of all their rows, take longer to load than a screen may take to stand.

    def read(self, wanted: TableOf[Row]) -> Table:
        """Read a shipped table anew and lay the user's own rows over it; raises CatalogError as `table` does."""
        from fasten.catalog.load import read_table
        from fasten.catalog.plain_toml import loads, loads_by_json

        read = loads if self._strict else loads_by_json
        table = read_table(os.path.join(self._folder, f"{wanted.name}.toml"), wanted, read)
        for overlay in self._overlays:
            from fasten.catalog.overlays import laid_over

            table = laid_over(table, overlay.table) if overlay.table.name == wanted.name else table
        return table

    def _read_overlays(self, folder: FilePath) -> None:
        from pathlib import Path

        from fasten.catalog.overlays import check_keys_apart, overlay_names, read_overlay

        folder = Path(folder)
        try:
            names = overlay_names(folder)
        except CatalogError as error:
            self.problems.append(error)
            return
        for name in names:
            try:
                overlay = read_overlay(folder, name)
                check_keys_apart(overlay, self._overlays)
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
            check_row_references(self.table, row, place(overlay.where, number, row))


def _none() -> tuple[OwnTest, ...]:
    return ()


def _is_there(folder: FilePath) -> bool:
    """Whether anything stands there, or may stand where it cannot be looked at."""
    try:
        os.lstat(folder)
    except FileNotFoundError:
        return False
    except OSError:
        return True
    return True


def opened(overlay_folder: FilePath | None) -> Tables:
    """The shipped tables with the user's own laid over; those shared by all where the user has none."""
    if overlay_folder is None or not _is_there(overlay_folder):
        return builtin()
    return Tables(shipped(), overlay_folder)


@cache
def builtin() -> Tables:
    """The shipped tables alone, shared by all callers."""
    return _alone(shipped())


@cache
def _alone(folder: FilePath) -> Tables:
    return Tables(folder)
