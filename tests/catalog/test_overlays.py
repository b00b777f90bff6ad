"""The user's own rows lie over the shipped ones; what is wrong with a file of theirs is told and leaves only it out."""

import os
import shutil
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

import pytest

from fasten.catalog import load, parts, registry, rows
from fasten.catalog.registry import TABLES
from fasten.catalog.tables import Tables, builtin, shipped_folder
from fasten.record import record

MOST = 300
SHIPPED = shipped_folder()
OVERLAID = sorted(name for name, table in TABLES.items() if table.row_type.parts)
WASHER_COLUMNS = """
columns = ["standard", "form", "size", "hole", "outer", "thickness", "from"]
units = ["", "", "", "mm", "mm", "mm", ""]
"""
DRILL_COLUMNS = """
columns = ["diameter", "from"]
units = ["mm", ""]
"""


def own(table: str, data: str, basis: str = "user's own", text: str = "measured with a made-up caliper") -> str:
    """A file of the user's own rows; every figure in these tests is made up."""
    return f"""format = 1
table = "{table}"
title = "My own"
standard = "none"
limits = "Made up for a test."
[[source]]
id = "mine"
basis = "{basis}"
text = "{text}"
[data]
{data}
"""


def washers(*found: str, **header: str) -> str:
    return own("washers", f"{WASHER_COLUMNS}rows = [{', '.join(found)}]", **header)


def drills(*diameters: float, **header: str) -> str:
    listed = ", ".join(f"[{diameter}, 'mine']" for diameter in diameters)
    return own("drills-metric", f"{DRILL_COLUMNS}rows = [{listed}]", **header)


def washer(size: str, outer_mm: float = 40) -> str:
    return f'["ISO 7089", "plain", "{size}", 6.4, {outer_mm}, 1.6, "mine"]'


def overlaid(folder: Path, **files: str | bytes) -> Tables:
    """The shipped tables with these files of the user's own; `my_drills` is my_drills.toml."""
    for name, content in files.items():
        (folder / f"{name}.toml").write_bytes(content.encode() if isinstance(content, str) else content)
    return Tables(SHIPPED, folder)


def problems(tables: Tables) -> list[str]:
    """The problems as text, each on one short line."""
    messages = [str(problem) for problem in tables.problems]
    assert all(message.isprintable() and len(message) < MOST for message in messages)
    return messages


def as_shipped(tables: Tables) -> bool:
    """Whether these tables answer just as the shipped ones."""
    return all(tables.table(name) == builtin().table(name) for name in OVERLAID)


def find_washer(tables: Tables, size: str) -> parts.Washer:
    found = tables.find(parts.WASHERS, "ISO 7089", size)
    assert found is not None
    return found


# --- good overlays ---


def test_row_replaces_the_shipped_one_of_its_key_and_cites_the_user(tmp_path: Path) -> None:
    tables = overlaid(tmp_path, my_washers=washers(washer("M6", outer_mm=40)))
    found = find_washer(tables, "M6")
    assert problems(tables) == []
    assert found.outer_mm == 40
    source = tables.source(tables.source_id(parts.WASHERS, found))
    assert (source.basis, source.text) == ("user's own", "measured with a made-up caliper")
    assert len(tables.table("washers").rows) == len(builtin().table("washers").rows)


def test_replaced_row_keeps_its_place_and_leaves_the_others_alone(tmp_path: Path) -> None:
    before = builtin().rows(parts.WASHERS)
    after = overlaid(tmp_path, my_washers=washers(washer("M6"))).rows(parts.WASHERS)
    assert [row.key_value() for row in after] == [row.key_value() for row in before]
    assert [now.key_value() for now, then in zip(after, before, strict=True) if now != then] == [("ISO 7089", "M6")]


def test_shipped_rows_still_cite_their_own_source(tmp_path: Path) -> None:
    tables = overlaid(tmp_path, my_washers=washers(washer("M6")))
    source = tables.source(tables.source_id(parts.WASHERS, find_washer(tables, "M5")))
    assert source == builtin().source(builtin().source_id(parts.WASHERS, find_washer(builtin(), "M5")))


def test_shipped_tables_are_untouched(tmp_path: Path) -> None:
    overlaid(tmp_path, my_washers=washers(washer("M6", outer_mm=40)))
    assert find_washer(builtin(), "M6").outer_mm != 40


def test_new_row_is_added_in_order(tmp_path: Path) -> None:
    tables = overlaid(tmp_path, my_drills=drills(0.001, 6.66, 999))
    diameters = [row.diameter_mm for row in tables.rows(rows.DRILLS_METRIC)]
    assert problems(tables) == []
    assert diameters == sorted(diameters)
    assert {0.001, 6.66, 999.0} <= set(diameters)


def test_new_row_of_a_table_without_order_comes_last(tmp_path: Path) -> None:
    tables = overlaid(tmp_path, my_washers=washers(washer("M99")))
    assert tables.table("washers").rows[-1].name() == "ISO 7089 M99"


def test_two_files_of_one_table_each_cite_their_own_source(tmp_path: Path) -> None:
    one, two, three = (drills(d, text=f"drawer of {d}") for d in (6.661, 6.662, 6.663))
    tables = overlaid(tmp_path, one=one, two=two, three=three)
    assert problems(tables) == []
    for diameter in (6.661, 6.662, 6.663):
        row = tables.find(rows.DRILLS_METRIC, diameter)
        assert row is not None
        assert tables.source(tables.source_id(rows.DRILLS_METRIC, row)).text == f"drawer of {diameter}"


@pytest.mark.parametrize("name", ["a", "my washers", "Ünterlegscheiben", "wash\x1bers"])
def test_any_file_name_will_do(tmp_path: Path, name: str) -> None:
    assert find_washer(overlaid(tmp_path, **{name: washers(washer("M6"))}), "M6").outer_mm == 40


@pytest.mark.parametrize(
    "content",
    [
        b"\xef\xbb\xbf" + washers(washer("M6")).encode(),
        washers(washer("M6")).replace("\n", "\r\n").encode(),
        b"\xef\xbb\xbf" + washers(washer("M6")).replace("\n", "\r\n").encode(),
    ],
    ids=["byte order mark", "CRLF", "both"],
)
def test_files_of_other_editors_read_right(tmp_path: Path, content: bytes) -> None:
    tables = overlaid(tmp_path, my_washers=content)
    assert problems(tables) == []
    assert find_washer(tables, "M6").outer_mm == 40


def test_hidden_files_of_an_editor_and_other_files_are_passed_over(tmp_path: Path) -> None:
    (tmp_path / ".#my_washers.toml").symlink_to("nobody@nowhere")
    (tmp_path / "notes.txt").write_text("not a table", encoding="utf-8")
    (tmp_path / "my_washers.toml~").write_text("an older copy", encoding="utf-8")
    assert problems(overlaid(tmp_path)) == []


# --- broken overlays ---


def test_broken_file_is_left_out_and_told_while_the_others_count(tmp_path: Path) -> None:
    broken = washers(washer("M6"), washer("M8", outer_mm=-5))
    tables = overlaid(tmp_path, a_broken=broken, b_good=drills(6.66))
    assert problems(tables) == [
        "a_broken.toml, row 2 (ISO 7089 M8): outer_mm is -5, it must be more than zero; correct the value"
    ]
    assert tables.table("washers") == builtin().table("washers")
    assert tables.find(rows.DRILLS_METRIC, 6.66) is not None


def test_every_broken_file_is_told(tmp_path: Path) -> None:
    tables = overlaid(tmp_path, a="", b="M6", c=b"\xff", d=washers())
    assert [message.split(":")[0] for message in problems(tables)] == ["a.toml", "b.toml", "c.toml", "d.toml"]
    assert as_shipped(tables)


def test_second_file_with_the_same_key_is_left_out(tmp_path: Path) -> None:
    one, two = washers(washer("M6", outer_mm=41)), washers(washer("M99"), washer("M6", outer_mm=42))
    tables = overlaid(tmp_path, one=one, two=two)
    assert problems(tables) == ["two.toml, row 2 (ISO 7089 M6): the row is in one.toml too; keep one of them"]
    assert find_washer(tables, "M6").outer_mm == 41
    assert tables.find(parts.WASHERS, "ISO 7089", "M99") is None


def test_same_key_in_two_tables_is_no_clash(tmp_path: Path) -> None:
    letters, numbers = (
        own(name, 'columns = ["name", "diameter", "from"]\nunits = ["", "in", ""]\nrows = [["mine", 0.123, "mine"]]')
        for name in ("drills-letter", "drills-number")
    )
    assert problems(overlaid(tmp_path, letters=letters, numbers=numbers)) == []


@pytest.mark.parametrize("name", sorted(set(TABLES) - set(OVERLAID)))
def test_tables_that_decide_take_no_rows_of_the_users(tmp_path: Path, name: str) -> None:
    shutil.copy(SHIPPED / f"{name}.toml", tmp_path / "sly.toml")
    tables = Tables(SHIPPED, tmp_path)
    assert problems(tables)[0].startswith(
        f"sly.toml: table is '{name}', which takes no rows of your own; use one of drills-number, "
    )
    assert tables.table(name) == builtin().table(name)


@pytest.mark.parametrize("name", ["factors", "weights", "cautions", "load-cases", "rules", "metric-threads"])
def test_no_factor_caution_weight_or_standard_can_be_overlaid(name: str) -> None:
    assert name not in OVERLAID


@pytest.mark.parametrize("name", ["spoons", "../washers", "washers\x1b[2J", "w" * 100_000])
def test_unknown_table_is_told(tmp_path: Path, name: str) -> None:
    tables = overlaid(tmp_path, mine=own(name.replace("\x1b", "\\u001b"), "rows = []"))
    assert problems(tables)[0].startswith(f"mine.toml: table is '{name[:7]}")


def test_file_that_names_no_table_is_told(tmp_path: Path) -> None:
    assert problems(overlaid(tmp_path, mine="format = 1"))[0].startswith("mine.toml: table is missing; use one of ")


def test_format_is_read_before_anything_else(tmp_path: Path) -> None:
    tables = overlaid(tmp_path, mine='format = 2\ntable = "a table of later days"')
    assert problems(tables) == ["mine.toml: format is 2, this program reads 1; write format = 1"]


@pytest.mark.parametrize("basis", ["standard", "handbook", "common practice", "from memory"])
def test_users_rows_cannot_claim_another_basis(tmp_path: Path, basis: str) -> None:
    tables = overlaid(tmp_path, mine=washers(washer("M6"), basis=basis))
    assert problems(tables) == [
        f"mine.toml: the source 'mine' of your own rows has the basis '{basis}'; write basis = \"user's own\""
    ]
    assert as_shipped(tables)


# --- references ---


@record
class Hook(rows.Row):
    """A made-up part that goes on another of its kind and into a hole of a letter drill."""

    key = ("hook",)
    parts = True
    hook: str
    drill: str
    goes_on: str | None


HOOKS = rows.TableOf(Hook, "hooks")
Hook.refs = {"drill": rows.INCH_DRILLS["letter"], "goes_on": HOOKS}


def hooks(*found: str, **header: str) -> str:
    listed = ", ".join(found)
    columns = '["hook", "drill", "goes_on", "from"]'
    return own("hooks", f'columns = {columns}\nunits = ["", "", "", ""]\nrows = [{listed}]', **header)


@pytest.fixture
def hook_tables(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder of shipped tables with hooks in it."""
    monkeypatch.setitem(registry._TABLES, "hooks", HOOKS)
    folder = tmp_path / "shipped"
    folder.mkdir()
    for name in OVERLAID:
        shutil.copy(SHIPPED / f"{name}.toml", folder)
    shipped_hooks = hooks('["plain", "F", "-", "mine"]', basis="common practice")
    (folder / "hooks.toml").write_text(shipped_hooks, encoding="utf-8")
    return folder


def with_hooks(folder: Path, **files: str) -> Tables:
    mine = folder.parent / "mine"
    mine.mkdir()
    overlaid(mine, **files)
    return Tables(folder, mine)


def test_dangling_reference_leaves_only_its_file_out(hook_tables: Path) -> None:
    bad = hooks('["good", "F", "-", "mine"]', '["bad", "FF", "-", "mine"]')
    tables = with_hooks(hook_tables, bad=bad, drills=drills(6.66), good=hooks('["mine", "G", "plain", "mine"]'))
    assert problems(tables) == [
        "bad.toml, row 2 (bad): drill 'FF' is not in the table drills-letter; add it to drills-letter or correct it"
    ]
    assert [row.name() for row in tables.table("hooks").rows] == ["plain", "mine"]
    assert tables.find(rows.DRILLS_METRIC, 6.66) is not None


def test_reference_into_another_file_of_the_users_holds(hook_tables: Path) -> None:
    first, second = hooks('["a", "F", "b", "mine"]'), hooks('["b", "F", "a", "mine"]')
    tables = with_hooks(hook_tables, first=first, second=second)
    assert problems(tables) == []
    assert [row.name() for row in tables.table("hooks").rows] == ["plain", "a", "b"]


def test_file_that_needs_one_left_out_is_left_out_too(hook_tables: Path) -> None:
    needs, dangles = hooks('["a", "F", "b", "mine"]'), hooks('["b", "FF", "-", "mine"]')
    tables = with_hooks(hook_tables, a_needs=needs, b_dangles=dangles)
    assert [message.split(":")[0] for message in problems(tables)] == [
        "b_dangles.toml, row 1 (b)",
        "a_needs.toml, row 1 (a)",
    ]
    assert [row.name() for row in tables.table("hooks").rows] == ["plain"]


# --- folders ---


@contextmanager
def unprivileged() -> Iterator[None]:
    """As a user whom permissions bind: root reads everything."""
    if os.geteuid() != 0:
        yield
        return
    os.seteuid(65534)
    try:
        yield
    finally:
        os.seteuid(0)


def test_folder_that_is_missing_is_no_problem(tmp_path: Path) -> None:
    tables = Tables(SHIPPED, tmp_path / "nowhere")
    assert problems(tables) == []
    assert as_shipped(tables)


def test_folder_that_is_a_file_is_told(tmp_path: Path) -> None:
    (tmp_path / "mine").touch()
    tables = Tables(SHIPPED, tmp_path / "mine")
    assert problems(tables) == [
        "mine: there is a file where the folder of your own tables should be; put a folder in its place"
    ]
    assert as_shipped(tables)


def test_folder_that_leads_to_itself_is_told(tmp_path: Path) -> None:
    (tmp_path / "mine").symlink_to("mine")
    tables = Tables(SHIPPED, tmp_path / "mine")
    assert problems(tables)[0].startswith("mine: the folder of your own tables cannot be read: ")
    assert as_shipped(tables)


def test_folder_that_may_not_be_read_is_told(tmp_path: Path) -> None:
    tmp_path.chmod(0)
    with unprivileged():
        tables = Tables(SHIPPED, tmp_path)
    tmp_path.chmod(0o700)
    assert problems(tables) == [
        f"{tmp_path.name}: the folder of your own tables cannot be read: Permission denied; "
        "check its name and permissions"
    ]
    assert as_shipped(tables)


def test_files_that_may_not_be_looked_at_are_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object) -> Any:
        raise PermissionError(13, "Permission denied")

    (tmp_path / "mine.toml").touch()
    monkeypatch.setattr(load, "stat", refuse)
    assert problems(overlaid(tmp_path)) == [
        "mine.toml: the file cannot be read: Permission denied; check its name and permissions"
    ]


def test_folder_in_the_folder_is_told(tmp_path: Path) -> None:
    (tmp_path / "mine.toml").mkdir()
    (tmp_path / "older").mkdir()
    assert problems(overlaid(tmp_path)) == [
        "mine.toml: there is a folder where the table should be; put a .toml file there"
    ]
