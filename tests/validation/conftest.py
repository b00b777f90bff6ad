"""Printed figures for the validation of whole tables."""

import csv
from collections.abc import Callable
from pathlib import Path

import pytest

from fasten.catalog.rows import INCH_DRILLS
from fasten.catalog.tables import builtin

DATA = Path(__file__).parent / "data"


@pytest.fixture(scope="session")
def printed() -> Callable[[str], list[dict[str, str]]]:
    """Reads a file of printed figures by its name; its first lines, with `# `, say where they come from."""

    def read(name: str) -> list[dict[str, str]]:
        lines = (DATA / name).read_text(encoding="utf-8").splitlines()
        assert lines[0].startswith("# "), f"{name} does not say where it comes from"
        return list(csv.DictReader(line for line in lines if not line.startswith("# ")))

    return read


@pytest.fixture(scope="session")
def inch_drills() -> dict[str, float]:
    """Diameter of every number, letter and fraction drill by its name, in inches."""
    return {row.name_: row.diameter_in for table in INCH_DRILLS.values() for row in builtin().rows(table)}
