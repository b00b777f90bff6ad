"""A table is named once, below the type of its rows, and named by that everywhere."""

import ast
import subprocess
import sys
from collections import Counter

import pytest
from built.code import modules, walked

from fasten.catalog.registry import TABLES
from fasten.catalog.rows import GAUGES, METRIC_THREADS, TableOf
from fasten.catalog.tables import builtin, shipped_folder
from fasten.errors import CatalogError


def test_every_file_is_one_table_and_every_table_one_file() -> None:
    assert sorted(TABLES) == sorted(path.stem for path in shipped_folder().glob("*.toml"))


@pytest.mark.slow
def test_no_table_is_declared_twice() -> None:
    declared = Counter(
        ast.unparse(node.args[1])
        for _, tree in modules()
        for node in walked(tree)
        if isinstance(node, ast.Call) and ast.unparse(node.func) == TableOf.__name__
    )
    assert declared
    assert set(declared.values()) == {1}


def test_rows_of_a_table_are_of_its_type_and_cite_it_by_its_name() -> None:
    for table in TABLES.values():
        rows = builtin().rows(table)
        assert {type(row) for row in rows} == {table.row_type}
        assert builtin().source_id(table, rows[0]) == f"{table.name}:{rows[0].from_}"
    assert builtin().find(METRIC_THREADS, "M6") in builtin().rows(METRIC_THREADS)
    assert {table.name.removeprefix("gauges-").replace("-", "_") for table in GAUGES.values()} == set(GAUGES)


def test_reading_one_table_loads_no_row_types_of_others() -> None:
    code = (
        "import sys; from fasten.catalog.rows import METRIC_THREADS; from fasten.catalog.tables import builtin; "
        "builtin().rows(METRIC_THREADS); print(*(name for name in sys.modules if name.startswith('fasten.catalog.')))"
    )
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    declaring = {
        f"fasten.catalog.{name}" for name in ("registry", "rows", "parts", "face_parts", "materials", "practice")
    }
    assert set(ran.stdout.split()) & declaring == {"fasten.catalog.rows"}


def test_a_row_that_must_be_there_and_is_not_is_said_by_its_table() -> None:
    """Not a fault of the program: a table of somebody's own may name what no table has."""
    assert builtin().need(METRIC_THREADS, "M6").designation == "M6"
    with pytest.raises(CatalogError, match=r"there is no row M6\.5") as caught:
        builtin().need(METRIC_THREADS, "M6.5")
    assert caught.value.where == f"{METRIC_THREADS.name}.toml"
