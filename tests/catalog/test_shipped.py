"""The folder of shipped tables: every file is a table, and the rows of a series stand together and rise."""

import json
import tomllib
from itertools import pairwise
from pathlib import Path

import pytest

from fasten.catalog.check import unregistered
from fasten.catalog.plain_toml import loads, loads_by_json, plain_head
from fasten.catalog.registry import TABLES
from fasten.catalog.rows import Row
from fasten.catalog.spares import size_mm
from fasten.catalog.tables import Tables, builtin, shipped_folder
from fasten.errors import CatalogError

SERIES = ("series", "standard")
SIZES = ("thread", "size")
IN_SERIES = sorted(
    name for name, table in TABLES.items()
    if table.row_type.parts and any(field in table.row_type.__dataclass_fields__ for field in SERIES)
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


@pytest.mark.parametrize("name", sorted(path.stem for path in shipped_folder().glob("*.toml")))
def test_the_rows_are_json_too_and_both_readings_agree(name: str) -> None:
    """The program reads them as JSON, which is quicker, the check and other programs as TOML."""
    text = (shipped_folder() / f"{name}.toml").read_text(encoding="utf-8")
    try:
        json.loads(text.partition("\nrows = ")[2])
    except ValueError as error:
        pytest.fail(f"catalogs/{name}.toml: {error}: no comma after the last row, no comment among the rows")
    assert repr(loads_by_json(text)) == repr(loads(text))
    head = text.partition("\nrows = ")[0]
    assert repr(plain_head(head)) == repr(loads(head))


@pytest.mark.parametrize(
    "line",
    [
        'a = "x"', "a = 12", 'a = ["x", "y"]', "a = []", 'a = """x \\\n  y\nz"""', "",
        '[[source]]\na = "x"\n[[source]]',
        'a = "x" # said', "# said", "a = 012", "a = 1_0", "a = -1", "a = 1.5", "a = true", "a = 'x'", 'a = "x\\ty"',
        'a = "x"y"', 'a = ["x",]', 'a = ["x" "y"]', "a = [1, 2]", 'a = [["x"]]', 'a.b = "x"', '"a" = "x"', "a", "= 1",
        'a = "x', "a = [", 'a = """x', 'a = """\nx"""', 'a = """x"y"""', 'a = """x\n\ny"""', 'a = """"""', "a = ",
        "[other]", "[data]\n[data]", "source = 1\n[[source]]", "[source]", 'a = "x"\na = "y"', "é = 1", "a = ١",
        'a = "\u00a0"', 'a = "\t"', "[data]\na = 1\n[[source]]\na = 2", 'a = ["x"]]', 'a = [",", "["]', "  a = 1",
        'a = """x  \ny"""', 'a = """x \\  \n  y"""', 'a = "x"  ',
        'source = ["x"]\n[[source]]', "source = []\n[[source]]",
    ],
)  # fmt: skip
def test_a_head_that_is_not_plain_is_left_to_the_other_reading(line: str) -> None:
    text = f'format = 1\n{line}\nlast = "z"'
    try:
        meant = repr(loads(text))
    except ValueError:
        meant = "None"
    assert repr(plain_head(text)) in ("None", meant)


@pytest.mark.parametrize(
    "text",
    [
        'a = 1\n[data]\ncolumns = []\nrows = [\n  ["M6", 1],  # a comment\n]\n',
        'a = 1\n[data]\nrows = [\n  ["M6", 1_000, 0x1F, +1, inf],\n]\n',
        'a = 1\n[data]\nrows = [["M6"]]\nunits = ["mm"]\n',
        "a = 1\n[data]\nrows = [['M6']]\n",
        "rows = [[1]]",
        "[other]\nrows = [[1]]",
        "[data]\n[data.more]\nrows = [[1]]",
        "data = 1\nrows = [[1]]",
        'text = """\nrows = [1]\n"""\n',
    ],
)
def test_what_is_no_json_or_stands_elsewhere_is_read_as_toml(text: str) -> None:
    assert repr(loads_by_json(text)) == repr(loads(text))


@pytest.mark.parametrize("text", ["[data]\nrows = [[NaN]]", "[data]\nrows = [[1", "[data]\nrows = [[1]]\nrows = [[1]]"])
def test_what_toml_refuses_is_refused(text: str) -> None:
    with pytest.raises(tomllib.TOMLDecodeError):
        loads_by_json(text)


def test_who_checks_reads_as_toml_alone(tmp_path: Path) -> None:
    """JSON lets a null pass, TOML does not."""
    text = (shipped_folder() / "washers.toml").read_text(encoding="utf-8")
    (tmp_path / "washers.toml").write_text(text.replace('"iso-', 'null, "iso-', 1).replace('["', '[null, "', 1))
    with pytest.raises(CatalogError, match=r"washers\.toml: not TOML"):
        Tables(tmp_path, strict=True).table("washers")


def test_every_file_of_the_folder_is_a_registered_table() -> None:
    assert [str(error) for error in unregistered(shipped_folder())] == []


def test_a_file_that_is_no_registered_table_is_told(tmp_path: Path) -> None:
    for name in ("nut-plates.toml", "washers.toml", "README.md"):
        (tmp_path / name).touch()
    assert [str(error) for error in unregistered(tmp_path)] == [
        "nut-plates.toml: is no registered table; "
        "declare it below the type of its rows (DEVELOPERS.md tells how), or take the file out"
    ]
