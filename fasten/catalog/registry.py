"""Which tables there are: all that are declared below a row type, by name.

A table that one method alone reads may stand in the module of that method: the entry `row_type` of its file says so,
such as `quarter_turn.QuarterTurn`. Only what checks, lists or overlays tables needs this: to read a table, name it, and
only its own module is loaded.
"""

import re
from collections.abc import Iterator, Mapping
from functools import cache
from importlib import import_module
from itertools import chain
from types import ModuleType

from fasten.catalog import (
    face_parts,
    gauging,
    head_forms,
    installs,
    job_parts,
    materials,
    parts,
    practice,
    repairs,
    rows,
    shelf_words,
    vocabulary,
    wiring,
    wiring_ends,
    wiring_work,
)
from fasten.catalog.folder import shipped_folder
from fasten.catalog.rows import Row, TableOf

_DECLARED = re.compile(r'^row_type = "([a-z_]+)\.[A-Za-z]+"$', re.MULTILINE)


def _tables_of(module: ModuleType) -> Iterator[TableOf[Row]]:
    for declared in vars(module).values():
        for table in declared.values() if isinstance(declared, dict) else (declared,):
            if isinstance(table, TableOf) and table.row_type.__module__ == module.__name__:
                yield table


_MODULES = (
    rows,
    parts,
    head_forms,
    face_parts,
    materials,
    practice,
    job_parts,
    installs,
    wiring,
    wiring_ends,
    wiring_work,
    vocabulary,
    gauging,
    shelf_words,
    repairs,
)
_TABLES = {table.name: table for module in _MODULES for table in _tables_of(module)}


class _Registry(Mapping[str, TableOf[Row]]):
    """Tables by name; the module of a method is loaded when its table is asked for."""

    def __getitem__(self, name: str) -> TableOf[Row]:
        if name in _TABLES:
            return _TABLES[name]
        module = import_module(f"fasten.methods.{_of_methods()[name]}")
        return next(table for table in _tables_of(module) if table.name == name)

    def __contains__(self, name: object) -> bool:
        return name in _TABLES or name in _of_methods()

    def __iter__(self) -> Iterator[str]:
        return chain(_TABLES, _of_methods())

    def __len__(self) -> int:
        return len(_TABLES) + len(_of_methods())


@cache
def _of_methods() -> dict[str, str]:
    """The modules of methods that the files of the shipped tables name, by table; others are not looked into."""
    others = (path for path in sorted(shipped_folder().glob("*.toml")) if path.stem not in _TABLES)
    found = ((path.stem, _DECLARED.search(path.read_text("utf-8").partition("\n[")[0])) for path in others)
    return {name: declared[1] for name, declared in found if declared is not None}


TABLES: Mapping[str, TableOf[Row]] = _Registry()
