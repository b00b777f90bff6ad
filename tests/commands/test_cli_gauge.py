"""`fasten gauge`: what is printed, what is kept in the job, and how it ends."""

import csv
import json
from pathlib import Path

import pytest

from fasten.__main__ import DONE, MISUSE, NO_FIT, main
from fasten.catalog.tables import builtin
from fasten.job.store.storage import load_job, save_job
from fasten.job.words import Job, Mount

pytestmark = pytest.mark.slow

ADAPTER = {
    "item": "speaker-adapter",
    "onto": "steel door",
    "removed": "yearly",
    "panel": "door",
    "between": "foam 3 mm",
}
UNFIT = {"item": "enclosure", "onto": "steel floor", "removed": "rarely"}
Text = pytest.CaptureFixture[str]


@pytest.fixture
def saved(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("FASTEN_TABLES", str(tmp_path / "none"))
    monkeypatch.setenv("FASTEN_DATA", str(tmp_path / "data"))
    monkeypatch.setenv("COLUMNS", "80")
    path = tmp_path / "job.toml"
    save_job(Job("[M8] doors", "", "", (Mount("left adapter", tuple(ADAPTER.items())),)), path)
    return path


def said(path: Path) -> dict[str, str]:
    return dict(load_job(path, builtin()).value.mounts[0].said)


def test_what_to_cut_comes_first_then_a_line_to_tick_for_each_mark(saved: Path, capsys: Text) -> None:
    assert main(["gauge", str(saved)]) == DONE
    lines = capsys.readouterr().out.splitlines()
    assert lines[1].startswith("Cut a probe of 22 mm, a strip of 14 mm.")
    ticks = [line.strip() for line in lines if "[ ]" in line]
    assert ticks[0] == "[ ] probe 22 goes in behind"
    assert any(line.strip().startswith("under 22: M4 rivet nut") for line in lines)


def test_the_width_of_a_phone_holds(saved: Path, capsys: Text, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("COLUMNS", "44")
    main(["gauge", str(saved)])
    assert max(map(len, capsys.readouterr().out.splitlines())) <= 44


def test_a_tick_is_kept_in_the_job_and_asked_no_more(saved: Path, capsys: Text) -> None:
    assert main(["gauge", str(saved), "--tick", "left adapter"]) == DONE
    assert (said(saved)["behind"], said(saved)["edge"]) == ("at least 22 mm", "at least 14 mm")
    assert "[ ]" not in capsys.readouterr().out
    assert main(["ready", str(saved), "--json"]) == NO_FIT  # no shelf, but nothing is unresolved
    assert not json.loads(capsys.readouterr().out)["unproven"]


def test_where_a_gauge_stops_the_depth_is_kept(saved: Path) -> None:
    assert main(["gauge", str(saved), "--stopped", "left adapter: behind = 21 mm"]) == DONE
    assert said(saved)["behind"] == "21 mm"


@pytest.mark.parametrize(
    "more", [["--stopped", "left adapter: behind"], ["--stopped", "left adapter: behind = far"], ["--tick", "nobody"],
             ["--within", "far"], ["--within", "1 mm, 2 mm, 3 mm"]],
)  # fmt: skip
def test_what_names_nothing_is_refused_and_nothing_is_kept(saved: Path, more: list[str], capsys: Text) -> None:
    before = saved.read_bytes()
    assert main(["gauge", str(saved), *more]) == MISUSE
    assert capsys.readouterr().err.startswith("fasten: ")
    assert saved.read_bytes() == before


def test_closer_gauges_are_cut_where_less_is_allowed_over_a_need(tmp_path: Path, saved: Path, capsys: Text) -> None:
    bracket = {"item": "bracket", "onto": "steel 1.2 mm", "removed": "yearly", "panel": "side"}
    holder = {"item": "fuse-holder", "onto": "steel 0.8 mm", "removed": "rarely", "panel": "side"}
    path = tmp_path / "two.toml"
    save_job(Job("", "", "", (Mount("bracket", tuple(bracket.items())), Mount("holder", tuple(holder.items())))), path)
    counts = []
    for within in ("5 mm, 10 mm", "0 mm"):
        main(["gauge", str(path), "--within", within, "--json"])
        counts.append(sum(one["tool"] in ("probe", "strip") for one in json.loads(capsys.readouterr().out)["gauges"]))
    assert counts[0] < counts[1]


def test_a_mount_point_that_no_measuring_settles_ends_with_1(saved: Path, capsys: Text) -> None:
    job = load_job(saved, builtin()).value
    save_job(Job("", "", "", (*job.mounts, Mount("enclosure", tuple(UNFIT.items())))), saved.with_name("other.toml"))
    assert main(["gauge", str(saved.with_name("other.toml"))]) == NO_FIT
    assert "enclosure" in capsys.readouterr().out


@pytest.mark.parametrize("form", ["csv", "md", "html"])
def test_it_is_written_like_other_documents(saved: Path, form: str) -> None:
    out = saved.with_name(f"pass.{form}")
    assert main(["gauge", str(saved), "--format", form, "--out", str(out)]) == DONE
    assert "probe 22 goes in behind" in out.read_text(encoding="utf-8")


@pytest.mark.parametrize("command", ["gauge", "hardware", "runs", "work"])
def test_csv_is_one_rectangular_table(saved: Path, command: str) -> None:
    """RFC 4180 2.4: each line should contain the same number of fields throughout the file."""
    out = saved.with_name("one.csv")
    assert main([command, str(saved), "--out", str(out)]) == DONE
    rows = list(csv.reader(out.read_text(encoding="utf-8-sig").splitlines()))
    assert len({len(row) for row in rows}) == 1
    assert len(rows) > 1 or command == "runs"


def test_the_work_sheet_begins_with_what_is_still_to_be_measured(saved: Path, capsys: Text) -> None:
    main(["work", str(saved)])
    said = capsys.readouterr().out
    assert said.index("MEASURE FIRST") < said.index("[ ] probe 22 goes in behind") < said.index("BEFORE EVERYTHING")
    main(["gauge", str(saved), "--tick", "all"])
    capsys.readouterr()
    main(["work", str(saved)])
    assert "MEASURE FIRST" not in capsys.readouterr().out
