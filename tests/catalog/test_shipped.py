"""The folder of shipped tables: every file is a table, and the rows of a series stand together and rise."""

from itertools import pairwise
from pathlib import Path

import pytest

from fasten.catalog.check import unregistered
from fasten.catalog.registry import TABLES
from fasten.catalog.rows import Row
from fasten.catalog.tables import builtin, shipped_folder
from fasten.job.hardware import size_mm

SERIES = ("series", "standard")
SIZES = ("thread", "size")
IN_SERIES = sorted(
    name for name, row_type in TABLES.items()
    if row_type.parts and any(field in row_type.__dataclass_fields__ for field in SERIES)
)  # fmt: skip


def first_of(row: Row, fields: tuple[str, ...]) -> str:
    return next((str(getattr(row, field)) for field in fields if hasattr(row, field)), "")


@pytest.mark.parametrize("name", IN_SERIES)
def test_rows_of_a_series_stand_together_and_rise_by_size_then_length(name: str) -> None:
    """A list of parts is read by people: sort the rows of catalogs/<name>.toml where this fails."""
    rows = builtin().table(name).rows
    series = [first_of(row, SERIES) for row in rows]
    parted = [now for before, now in pairwise(series) if now != before]
    assert len(parted) + 1 == len(set(series)), f"catalogs/{name}.toml: a series stands in two places: {parted}"
    for row, following in pairwise(rows):
        if first_of(row, SERIES) == first_of(following, SERIES):
            here, there = (
                (size_mm(first_of(entry, SIZES)), getattr(entry, "length_mm", 0.0)) for entry in (row, following)
            )
            assert here <= there, f"catalogs/{name}.toml: {following.name()} stands after {row.name()}, sort the rows"


def test_every_file_of_the_folder_is_a_registered_table() -> None:
    assert [str(error) for error in unregistered(shipped_folder())] == []


def test_a_file_that_is_no_registered_table_is_told(tmp_path: Path) -> None:
    for name in ("nut-plates.toml", "washers.toml", "README.md"):
        (tmp_path / name).touch()
    assert [str(error) for error in unregistered(tmp_path)] == [
        "nut-plates.toml: is no registered table; "
        "name it and its row type in fasten/catalog/registry.py, or take the file out"
    ]
