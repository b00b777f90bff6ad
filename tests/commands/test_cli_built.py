"""`fasten built`: what was really used is written down once, each field what it is for; a record is never lost."""

import json
from datetime import date
from pathlib import Path

import pytest

from fasten.catalog.tables import builtin
from fasten.job.store.storage import load_job
from fasten.job.words import Built, Mount

from .conftest import Run


@pytest.fixture
def run(run: Run) -> Run:
    """The same with a job of one mount point in the folder."""
    asked = ("amplifier", "--onto", "steel 0.8 mm", "--removed", "yearly", "--behind", "40mm", "--edge", "30mm")
    run("pick", *asked, "--into-job", "job.toml", "--name", "amp")
    return run


def mounts() -> dict[str, Mount]:
    return {mount.name: mount for mount in load_job(Path("job.toml"), builtin()).value.mounts}


def is_one_sentence(error: str) -> bool:
    return error.startswith("fasten: ") and error.count("\n") == 1 and "Traceback" not in error


RECORD = (
    "--hole", "7.7 mm", "--hardware", "M5x16", "--torque", "2.4 N·m", "--date", "2026-05-03", "--note", "reamed",
)  # fmt: skip


def test_what_was_built_is_written_down_and_shown(run: Run) -> None:
    code, out, error = run("built", "job.toml", "AMP", *RECORD)
    assert (code, error) == (0, "fasten: written down in job.toml\n")
    assert mounts()["amp"].built == Built("2026-05-03", "7.7 mm", "M5x16", "2.4 N·m", "reamed")
    assert out.splitlines()[0] == "As built: amp"
    assert "7.7 mm" in out


def test_a_second_record_is_refused_and_the_first_is_shown(run: Run) -> None:
    run("built", "job.toml", "amp", *RECORD)
    before = Path("job.toml").read_bytes()
    code, out, error = run("built", "job.toml", "amp", "--torque", "2 N·m")
    assert (code, out) == (2, "")
    assert is_one_sentence(error)
    assert "(date 2026-05-03, hole 7.7 mm, hardware M5x16, torque 2.4 N·m, note reamed)" in error
    assert "--replace" in error
    assert Path("job.toml").read_bytes() == before


def test_a_record_is_replaced_as_a_whole_and_the_day_is_today(run: Run) -> None:
    """Hardware of one day under the date of another would be a record of nothing that ever was."""
    run("built", "job.toml", "amp", *RECORD)
    code, out, _ = run("built", "job.toml", "amp", "--torque", "2 N·m", "--replace", "--json")
    assert code == 0
    assert json.loads(out)["built"] == {
        "date": date.today().isoformat(), "hole": "", "hardware": "", "torque": "2 N·m", "note": "",
    }  # fmt: skip
    assert mounts()["amp"].built == Built(date.today().isoformat(), "", "", "2 N·m", "")


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("amp",), "nothing is said"), (("ramp", "--hole", "7 mm"), "did you mean 'amp'"),
        (("amp", "--hardware", "x" * 300), "shorten it"), (("amp", "--date", "2026-05-03"), "nothing is said"),
        (("amp", "--hole", "wide"), "hole: wide is not a number and one unit"),
        (("amp", "--hole", "7.7"), "has no unit"), (("amp", "--hole", "2 N·m"), "is a torque, wanted a length"),
        (("amp", "--torque", "tight"), "torque: tight is not a number and one unit"),
        (("amp", "--torque", "7.7 mm"), "is a length, wanted a torque"),
        (("amp", "--hole", "7.7 mm", "--date", "yesterday"), "date: 'yesterday' is not a date"),
        (("amp", "--hole", "7.7 mm", "--date", "2026-02-29"), "is not a date"),
        (("amp", "--hole", "7.7 mm", "--date", "03.05.2026"), "write year, month and day: 2026-05-03"),
    ],
)  # fmt: skip
def test_nothing_built_is_misuse(run: Run, words: tuple[str, ...], told: str) -> None:
    before = Path("job.toml").read_bytes()
    code, out, error = run("built", "job.toml", *words)
    assert (code, out) == (2, "")
    assert is_one_sentence(error)
    assert told in error
    assert Path("job.toml").read_bytes() == before


def test_what_was_built_is_on_the_work_sheet(run: Run) -> None:
    run("built", "job.toml", "amp", "--hole", "7.7 mm", "--note", "reamed")
    assert "reamed" in run("work", "job.toml")[1]
