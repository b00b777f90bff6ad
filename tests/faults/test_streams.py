"""What is printed where nobody takes it, and what is answered where nobody is at home."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest
from built.few import sample

from fasten.__main__ import main
from fasten.catalog.tables import builtin
from fasten.commands._folders import jobs_folder
from fasten.commands._tables import overlay_folder
from fasten.errors import FastenError
from fasten.job.store.storage import load_job

from .commands import WRITING, Told, environment

pytestmark = pytest.mark.slow


def shell(line: str, folder: Path, **more: str) -> tuple[int, str, str]:
    """What a line of the shell ends in, prints and says; `fasten` in it is the program."""
    command = f'fasten() {{ "{sys.executable}" -m fasten "$@"; }}; {line}'
    run = subprocess.run(
        ["sh", "-c", command], cwd=folder, env=environment(**more), capture_output=True, text=True, check=False
    )
    return run.returncode, run.stdout, run.stderr


NOT_TAKEN = (
    "fasten: the answer could not be written out: no space left on device; send it somewhere else, or make room\n"
)
CLOSED = NOT_TAKEN.replace("no space left on device", "standard output is closed or takes nothing")
PRINTING = ("look M6", "--help", "--version", "work job.toml", "tables --json")


@pytest.mark.parametrize("line", [*PRINTING, "look M6, unbuffered", "--help, unbuffered", "--version, unbuffered"])
def test_a_report_that_no_disk_takes(line: str, car: Path) -> None:
    if not os.path.exists("/dev/full"):
        pytest.skip("this system has no disk that is always full")
    command, _, unbuffered = line.partition(", ")
    code, out, error = shell(f"fasten {command} >/dev/full", car, PYTHONUNBUFFERED=unbuffered)
    said = f"fasten: {json.loads(error)['error']['what']}\n" if "--json" in command else error
    assert (code, out, said) == (3, "", NOT_TAKEN)


@pytest.mark.parametrize("line", PRINTING)
def test_a_report_that_nobody_wants(line: str, car: Path) -> None:
    """As `head` leaves when it has enough."""
    assert shell(f"fasten {line} | true", car) == (0, "", "")


NOWHERE = [
    (line, away, "1" * one) for line in PRINTING[:3] for away in (">&-", ">&- <&-", "1</dev/null") for one in (0, 1)
]


@pytest.mark.parametrize(("line", "away", "unbuffered"), sample(NOWHERE, 5))
def test_a_report_that_goes_nowhere_is_not_lost_in_silence(line: str, away: str, unbuffered: str, car: Path) -> None:
    assert shell(f"fasten {line} {away}", car, PYTHONUNBUFFERED=unbuffered) == (3, "", CLOSED)
    assert shell(f"fasten {line} {away} 2>&-", car, PYTHONUNBUFFERED=unbuffered) == (3, "", "")


def test_what_prints_nothing_needs_no_standard_output(car: Path) -> None:
    code, out, said = shell("fasten hardware job.toml --out list.txt >&-", car)
    assert (code, out, said) == (0, "", "fasten: written to list.txt\n")
    assert (car / "list.txt").read_text(encoding="utf-8").startswith("Hardware")
    code, out, said = shell("fasten frobnicate >&-", car)
    assert (code, out, said.count("\n")) == (2, "", 1)


def test_what_is_said_and_nobody_hears_does_not_stop_the_work_nor_lands_in_the_report(car: Path) -> None:
    words = f"fasten pick amplifier --onto 'steel 0.8 mm' --removed yearly --into-job {car}/job.toml --json --name"
    _, plain, said = shell(f"{words} 'amp 1'", car)
    assert "amp 1 is saved" in said
    for number, away in enumerate(("2>&-", "2>/dev/full", "2>/dev/full 1>&2 || true; echo done"), 2):
        code, out, said = shell(f"{words} 'amp {number}' {away}", car)
        assert code == 0
        assert (out, said) == (plain if number < 4 else "done\n", "")
    assert shell("fasten frobnicate 2>&-", car) == (2, "", "")
    assert shell("fasten frobnicate 2>/dev/full", car) == (2, "", "")
    assert shell("fasten frobnicate >&- 2>&- <&-", car) == (2, "", "")
    mounts = load_job(car / "job.toml", builtin()).value.mounts
    assert [mount.name for mount in mounts] == ["amp", "cover", "amp 1", "amp 2", "amp 3", "amp 4"]


@pytest.mark.parametrize("line", sample(PRINTING, 3))
def test_a_terminal_of_plain_ascii(line: str, car: Path) -> None:
    """What it cannot show is written as an escape; nothing is left out, and nothing fails."""
    env = {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0", "PYTHONIOENCODING": "ascii"}
    code, out, said = shell(f"fasten {line}", car, **env)
    usual = shell(f"fasten {line}", car, PYTHONIOENCODING="utf-8")
    assert (code, said) == (usual[0], "")
    assert out.isascii()
    assert out.encode().decode("unicode_escape").split() == usual[1].split() or "json" in line


def test_a_fault_of_the_system_that_no_command_foresaw_is_no_fault_of_the_program(
    told: Told, monkeypatch: pytest.MonkeyPatch
) -> None:
    def run(_: list[str]) -> int:
        raise PermissionError(13, "Permission denied", "a\x1b[2J.toml")

    monkeypatch.setattr("fasten.cli.run", run)
    assert told(()) == ("fasten: a\\x1b[2J.toml: permission denied; check that it is there and that you may use it\n")


# -- nobody at home ---------------------------------------------------------------------------------------------------


@pytest.fixture
def homeless(monkeypatch: pytest.MonkeyPatch) -> None:
    """HOME is not set, and the system does not know the user either, as in many a container."""
    for name in ("HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME", "FASTEN_TABLES", "FASTEN_DATA"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setattr("pwd.getpwuid", {}.__getitem__)


@pytest.mark.usefixtures("homeless")
def test_without_a_home_everything_is_answered_from_the_tables_of_the_program(car: Path) -> None:
    assert overlay_folder() is None
    for words in (("look", "M6"), ("tables",), *WRITING.values()):
        assert main(list(words)) in {0, 1}
    assert not (car / "~").exists()


@pytest.mark.usefixtures("homeless")
def test_without_a_home_no_jobs_are_kept_in_whatever_folder_one_stands_in() -> None:
    with pytest.raises(
        FastenError, match="no home folder is known in which to keep your jobs; set HOME, or FASTEN_DATA"
    ):
        jobs_folder()


@pytest.mark.parametrize("named", ["job.toml", "/dev/null", "nowhere", "job.toml/x"])
def test_a_folder_of_tables_that_is_none_is_told_and_the_rest_answers(
    named: str, car: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setenv("FASTEN_TABLES", named)
    assert main(["look", "M6"]) == 0
    said = capsys.readouterr().err
    assert said.count("\n") == (0 if named == "nowhere" else 1)
