"""A library that does not load is told of as such, and never as something wrong in what was typed."""

import re
import sys
import tomllib
from collections.abc import Iterator
from pathlib import Path

import pytest

from fasten.__main__ import main
from fasten.errors import FastenError
from fasten.job.store.storage import save_job
from fasten.job.words import Job
from fasten.text import units
from fasten.text.units import Dimension, read

from .test_cli import OWN

ROOT = Path(__file__).parents[2]


@pytest.fixture
def broken_pint(monkeypatch: pytest.MonkeyPatch) -> Iterator[None]:
    """As where pint is there and cannot be imported beside what it stands on."""
    units._pint_converter.cache_clear()
    monkeypatch.setitem(sys.modules, "pint", None)
    yield
    units._pint_converter.cache_clear()


@pytest.fixture
def bench(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with a good job and a good table of one's own."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.delenv("FASTEN_DEBUG", raising=False)
    monkeypatch.setenv("FASTEN_TABLES", str(tmp_path / "tables"))
    save_job(Job("Estate", "", "", ()), tmp_path / "job.toml")
    (tmp_path / "tables").mkdir()
    (tmp_path / "tables" / "bits.toml").write_text(OWN, encoding="utf-8")
    return tmp_path


@pytest.mark.usefixtures("broken_pint")
def test_a_unit_that_cannot_be_looked_up_is_not_called_unknown() -> None:
    with pytest.raises(FastenError) as refused:
        read("3 yd", Dimension.LENGTH, "size")
    assert "has no known unit" not in str(refused.value)
    assert str(refused.value).startswith("pint: the library of rarer units does not load: ModuleNotFoundError: ")
    assert str(refused.value).endswith("; install fasten anew, or write the size in a common unit")
    assert read("3 ft", Dimension.LENGTH, "size") == pytest.approx(914.4), "what is in the table needs no library"


@pytest.mark.usefixtures("broken_pint")
def test_the_command_line_says_so_in_one_sentence(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["look", "3 yd"]) == 2
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.count("\n") == 1
    assert "does not load" in said.err


@pytest.mark.parametrize(
    ("library", "words"),
    [
        ("fasten.job.store.check", ["ready", "job.toml"]),
        ("fasten.catalog.check", ["look", "M6"]),
        ("fasten.look", ["look", "M6"]),
    ],
)
def test_any_other_that_does_not_load_is_a_fault_of_the_program(
    library: str, words: list[str], bench: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """As where pydantic does not load: neither the job nor the tables of one's own are said to be wrong."""
    job = bench / "job.toml"
    job.write_text(f"{job.read_text()}# by hand, so that it is checked\n")
    monkeypatch.setitem(sys.modules, library, None)
    assert main(words) == 3
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.startswith("fasten: this is a fault of the program, not yours: ModuleNotFoundError: ")


def test_every_library_has_a_lowest_version_which_is_what_is_tested() -> None:
    """With lowest versions that are told as `>=`, the whole check makes an environment of exactly these."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    assert project["dependencies"]
    shape = r"[a-z-]+>=[0-9.]+(,<[0-9]+([.][0-9]+)?)?"
    assert not [line for line in project["dependencies"] if not re.fullmatch(shape, line)]


def test_the_lowest_of_pint_loads_beside_the_newest_of_what_it_stands_on() -> None:
    """Lower ones do not: 0.24.3 fails to be imported with flexparser 0.4."""
    lines = (ROOT / "pyproject.toml").read_text(encoding="utf-8")
    (lowest,) = re.findall(r'"pint>=([0-9.]+)"', lines)
    assert tuple(map(int, lowest.split("."))) >= (0, 24, 4)
