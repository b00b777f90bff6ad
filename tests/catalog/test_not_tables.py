"""Files that are no tables at all, and names that cannot be shown, are told in one short line that names the file."""

import os
from collections.abc import Callable
from pathlib import Path

import pytest

from fasten.catalog import load
from fasten.catalog.check import check_table
from fasten.catalog.load import file_name, read_table
from fasten.catalog.registry import TABLES
from fasten.errors import CatalogError

NAMES = sorted({table.row_type: name for name, table in reversed(list(TABLES.items()))}.values())
MOST = 300
LONG = "k" * 100_000


def told(path: Path, name: str) -> str:
    """The one line that a file which is no table is refused with."""
    with pytest.raises(CatalogError) as caught:
        check_table(read_table(path, TABLES[name]), file_name(path))
    message = str(caught.value)
    assert message.isprintable(), "control characters and line breaks must not reach the terminal"
    assert len(message) < MOST
    assert caught.value.fix
    return message


def sparse(path: Path) -> None:
    path.touch()
    os.truncate(path, 10_000_000)


def looped(path: Path) -> None:
    path.symlink_to(path)


NOT_TABLES: dict[str, tuple[Callable[[Path], object], str]] = {
    "10 MB": (sparse, "the file is over 1 MB"),
    "Latin-1": (lambda path: path.write_bytes('title = "20 °C"'.encode("latin-1")), "byte 12 is not UTF-8"),
    "UTF-16": (lambda path: path.write_bytes("format = 1".encode("utf-16")), "byte 0 is not UTF-8"),
    "a folder": (lambda path: path.mkdir(), "there is a folder where the table should be"),
    "missing": (lambda path: None, "the table is not there"),
    "a link to nothing": (lambda path: path.symlink_to("nothing"), "the table is not there"),
    "a link to itself": (looped, "the table is not there"),
    "a pipe": (os.mkfifo, "the table is not a plain file"),
    "not TOML": (lambda path: path.write_text("M6 1.0 mm\n"), "not TOML: Expected '='"),
    "cut short": (lambda path: path.write_text('format = 1\ntitle = "'), "not TOML: Unterminated string"),
    "NUL bytes": (lambda path: path.write_bytes(bytes(100)), r"not TOML: Invalid statement"),
    "raw escapes": (lambda path: path.write_text('title = "\x1b[2J"'), r"not TOML: Illegal character '\x1b'"),
    "Unix line ends lost": (lambda path: path.write_bytes(b"format = 1\rtable = 2"), "not TOML: "),
    "an entry of 100 kB twice": (lambda path: path.write_text(f"[{LONG}]\n[{LONG}]"), "twice (at line 2"),
    "nested too deep": (lambda path: path.write_text(f"a = {'[' * 50_000}"), "nested too deep"),
    "a deep name": (lambda path: path.write_text("format.a.a = 1"), "format is a block"),
    "a name of many parts": (lambda path: path.write_text(f"format{'.a' * 100_000} = 1"), "nested too deep"),
    "a number too long": (lambda path: path.write_text(f"format = {'9' * 5000}"), "holds a number too long"),
    "a long hexadecimal number": (lambda path: path.write_text(f"format = 0x{'f' * 50_000}"), "a number too large"),
    "a day that is not": (lambda path: path.write_text("a = 2001-02-30"), "not TOML: Invalid date"),
    "empty": (lambda path: path.touch(), "the entry 'format' is missing"),
}


@pytest.mark.parametrize(
    ("what", "name"),
    [(what, name) for what in NOT_TABLES for name in (NAMES if what in {"missing", "empty"} else ["washers"])],
)
def test_what_is_no_table_file_names_the_file(tmp_path: Path, what: str, name: str) -> None:
    make, says = NOT_TABLES[what]
    path = tmp_path / f"{name}.toml"
    make(path)
    message = told(path, name)
    assert message.startswith(f"{name}.toml: ")
    assert says in message


@pytest.mark.parametrize(
    ("name", "shows"),
    [
        ("wash\x1b[31mers\n.toml", r"wash\x1b[31mers\n.toml: "),
        (os.fsdecode(b"wash\xffers.toml"), r"wash\udcffers.toml: "),
        ("w" * 240 + ".toml", f"{'w' * 40}…"),
        ("\x1b" * 240 + ".toml", r"\x1b\x1b"),
    ],
)
def test_file_name_is_shown_on_one_line(tmp_path: Path, name: str, shows: str) -> None:
    path = tmp_path / name
    assert told(path, "washers").startswith(shows)
    path.write_text("format = 2", encoding="utf-8")
    assert told(path, "washers").startswith(shows)


def test_name_too_long_for_the_disk_is_told(tmp_path: Path) -> None:
    message = told(tmp_path / f"{'w' * 5000}.toml", "washers")
    assert message.startswith("wwww")
    assert "cannot be read: " in message


def test_file_that_may_not_be_read_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(*_: object, **__: object) -> None:
        raise PermissionError(13, "Permission denied")

    path = tmp_path / "washers.toml"
    path.touch()
    monkeypatch.setattr(load, "open", refuse, raising=False)
    assert told(path, "washers") == (
        "washers.toml: the file cannot be read: Permission denied; check its name and permissions"
    )
