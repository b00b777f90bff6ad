"""All tables behind one object: read on first use, the user's rows laid over the shipped ones."""

from dataclasses import replace
from functools import cache
from pathlib import Path
from typing import TypeVar

from fasten.catalog.load import Source, Table, build_table, parse, read_table
from fasten.catalog.registry import TABLES
from fasten.catalog.rows import Row
from fasten.errors import CatalogError

RowT = TypeVar("RowT", bound=Row)
USERS_OWN = "user's own"


def shipped_folder() -> Path:
    """The folder of the shipped tables: inside the package when installed, beside it in a checkout."""
    package = Path(__file__).resolve().parents[1]
    installed = package / "catalogs"
    return installed if installed.is_dir() else package.parent / "catalogs"


class Tables:
    """The tables to compute with. Equal folders give equal answers; nothing is written.

    Args:
        folder: where the shipped tables are.
        overlay_folder: the user's own tables, laid over the shipped ones row by row; may be missing.
    """

    def __init__(self, folder: Path, overlay_folder: Path | None = None) -> None:
        self._folder = folder
        self._read: dict[str, Table] = {}
        self._index: dict[str, dict[object, Row]] = {}
        self.problems: list[CatalogError] = []
        self._overlays: list[Table] = []
        if overlay_folder is not None and overlay_folder.is_dir():
            self._overlays = self._read_overlays(overlay_folder)
            self._leave_out_dangling()

    def table(self, name: str) -> Table:
        """The table `name`, read on first use.

        Raises:
            CatalogError: the shipped file is missing or has the wrong shape.
        """
        if name not in self._read:
            table = read_table(self._folder / f"{name}.toml", TABLES[name], name)
            for overlay in self._overlays:
                table = _laid_over(table, overlay) if overlay.name == name else table
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
        return f"{name}:{row.from_}"

    def source(self, source_id: str) -> Source:
        """The source that `source_id` names."""
        name, _, identity = source_id.partition(":")
        return self.table(name).sources[identity]

    def _leave_out_dangling(self) -> None:
        """Leave out an overlay whose rows point to nothing, once all are laid over."""
        from fasten.catalog.check import check_row_references

        for overlay in list(self._overlays):
            try:
                for row in overlay.rows:
                    check_row_references(self, row, f"{overlay.name} of your own, row {row.name()}")
            except CatalogError as error:
                self.problems.append(error)
                self._overlays.remove(overlay)
                self._read.pop(overlay.name, None)

    def _read_overlays(self, folder: Path) -> list[Table]:
        found: list[Table] = []
        for path in sorted(folder.glob("*.toml")):
            try:
                overlay = _read_overlay(path)
                _check_keys_apart(overlay, found, path.name)
                found.append(overlay)
            except CatalogError as error:
                self.problems.append(error)
        return found


def _read_overlay(path: Path) -> Table:
    from fasten.catalog.check import check_table

    data = parse(path)
    name = data.get("table")
    allowed = sorted(table for table, row_type in TABLES.items() if row_type.parts)
    if name not in allowed:
        raise CatalogError(
            f"table is {name!r}, not one that takes rows of your own",
            where=path.name,
            fix=f"use one of {', '.join(allowed)}",
        )
    table = build_table(data, path.name, TABLES[name], name)
    if any(source.basis != USERS_OWN for source in table.sources.values()):
        raise CatalogError(
            "a source of your own rows has another basis", where=path.name, fix=f'write basis = "{USERS_OWN}"'
        )
    check_table(table, path.name)
    return table


def _check_keys_apart(overlay: Table, found: list[Table], where: str) -> None:
    keys = {row.key_value() for row in overlay.rows}
    for other in found:
        shared = {row.key_value() for row in other.rows} & keys if other.name == overlay.name else set()
        if shared:
            raise CatalogError(
                f"row {sorted(shared, key=str)[0]} stands in another file of yours too",
                where=where,
                fix="keep one of them",
            )


def _laid_over(table: Table, overlay: Table) -> Table:
    """`table` with the rows of `overlay` in place of its own of the same key, in the table's order."""
    rows = {row.key_value(): row for row in table.rows}
    sources = dict(table.sources)
    for identity, source in overlay.sources.items():
        sources[f"own-{identity}"] = source
    rows |= {row.key_value(): replace(row, from_=f"own-{row.from_}") for row in overlay.rows}
    ordered = (
        sorted(rows.values(), key=lambda row: tuple(getattr(row, name) for name in row.order))
        if TABLES[table.name].order
        else rows.values()
    )
    return replace(table, sources=sources, rows=tuple(ordered))


@cache
def builtin() -> Tables:
    """The shipped tables alone, shared by all who ask."""
    return Tables(shipped_folder())
