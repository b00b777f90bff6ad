"""The rows of a table as people read them, by the name of a table or a plain word."""

import json

import pytest

from fasten.__main__ import main
from fasten.catalog.registry import TABLES
from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.report.rows_text import rows_json, rows_text, tables_named


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("items", "amplifier: "), ("materials", "MDF: "), ("cases", "hard-stop forward: kind hard stop, x 20 g"),
        ("grades", "tensile 800 MPa, yield 640 MPa, proof 580 MPa [s]"),  # ISO 898-1 class 8.8
        ("Rivet nuts", "spin out"),
    ],
)  # fmt: skip
def test_a_table_is_printed_by_its_name(name: str, said: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["tables", *name.split(" ", 0)]) == 0
    text = " ".join(capsys.readouterr().out.split())
    assert said in text


def test_a_name_of_no_table_is_refused_with_the_nearest() -> None:
    with pytest.raises(FastenError, match="did you mean rivet-nuts"):
        tables_named("rivetnuts")


def test_every_table_can_be_printed_and_every_row_has_its_basis() -> None:
    tables = [builtin().table(name) for name in TABLES]
    assert max(map(len, rows_text(tables, 60).splitlines())) <= 60
    rows = [row for table in rows_json(tables)["tables"] for row in table["rows"]]
    assert len(rows) == sum(len(table.rows) for table in tables)
    assert all(row["basis"] and row["source"] for row in rows)


def test_the_help_names_the_tables(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["tables", "--help"]) == 0
    assert "items, materials, grades, cases" in " ".join(capsys.readouterr().out.split())
    assert main(["tables", "grades", "--json"]) == 0
    assert json.loads(capsys.readouterr().out)["tables"][0]["name"] == "property-classes"
