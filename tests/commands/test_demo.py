"""The example job: one list, not ready for three reasons, and ready once all are seen to as the program says."""

import json
import re
import subprocess
import sys
from dataclasses import replace
from pathlib import Path

import pytest

from fasten.__main__ import main
from fasten.catalog.named import material
from fasten.catalog.tables import builtin
from fasten.cli import run
from fasten.commands.demo import demo_folder
from fasten.job.choices import choices
from fasten.job.store.storage import job_text, load_job, load_shelf, save_job, save_shelf, shelf_text
from fasten.job.words import Job, Mount


@pytest.fixture
def copied(tmp_path: Path) -> Path:
    folder = tmp_path / "example"
    assert run(["demo", "--copy", str(folder)]) == 0
    return folder


def job_of(folder: Path) -> Job:
    return load_job(folder / "job.toml", builtin()).value


def said(mount: Mount, **changed: str) -> Mount:
    return replace(mount, said=tuple((name, changed.get(name, text)) for name, text in mount.said))


def test_it_covers_every_family_of_material_a_ground_a_clamp_run_and_one_that_nothing_fits(copied: Path) -> None:
    found = choices(job_of(copied), builtin())
    points = [choice.point for choice in found if choice.point is not None]
    assert len(found) >= 8
    assert {material(builtin(), point.material).family for point in points} == {
        "sheet", "board", "wood", "plastic", "laminate",
    }  # fmt: skip
    assert any(point.cable_mm2 for point in points)
    assert any(point.run_mm for point in points)
    assert [choice.name for choice in found if choice.answer is None] == ["right amplifier"]
    assert all(choice.answer.proposal.proven for choice in found if choice.answer is not None)


def test_one_list_for_the_whole_job(copied: Path, capsys: pytest.CaptureFixture[str]) -> None:
    capsys.readouterr()
    assert run(["hardware", str(copied / "job.toml"), "--shelf", str(copied / "shelf.toml")]) == 0
    text = capsys.readouterr().out
    headings = [line for line in text.splitlines() if line.isupper()]
    assert headings[0] == "PARTS"
    assert len(headings) == len(set(headings))
    assert "left crossover 4, right crossover 4" in " ".join(text.split())


def test_it_is_not_ready_for_the_shortage_and_for_what_nothing_fits(
    copied: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    capsys.readouterr()
    assert run(["ready", str(copied / "job.toml"), "--shelf", str(copied / "shelf.toml")]) == 1
    text = " ".join(capsys.readouterr().out.split())
    assert "Screw-in insert M5 x 12 mm" in text
    assert "short 4; stops false floor cover" in text
    assert "right amplifier" in text
    assert "the grommet in hand" in text


@pytest.mark.slow
def test_with_the_shortage_filled_and_the_mount_changed_as_its_refusal_says_it_is_ready(copied: Path) -> None:
    loaded = load_job(copied / "job.toml", builtin())
    unfit = next(choice for choice in choices(loaded.value, builtin()) if choice.answer is None)
    told = re.search(r"would fit with ([\d.]+) mm behind", unfit.reason)
    assert told is not None
    room_mm = 21.5  # what the closed M5 nut on the shelf needs; the refusal names the least that any nut does with
    assert float(told[1]) <= room_mm
    mounts = tuple(
        said(mount, behind=f"{room_mm} mm") if mount.name == unfit.name else mount for mount in loaded.value.mounts
    )
    save_job(replace(loaded.value, mounts=mounts), loaded.path, loaded.stamp)
    assert run(["runs", str(copied / "job.toml"), "seat back", "--accept", "all"]) == 0
    shelf = load_shelf(copied / "shelf.toml")
    parts = tuple(
        replace(entry, count=10) if entry.part.kind == "screw-in insert" else entry for entry in shelf.value.parts
    )
    save_shelf(replace(shelf.value, parts=parts), shelf.path, shelf.stamp)
    assert run(["ready", str(copied / "job.toml"), "--shelf", str(copied / "shelf.toml")]) == 0


@pytest.mark.slow
def test_it_never_copies_over_what_is_there(copied: Path) -> None:
    before = (copied / "job.toml").read_bytes()
    again = subprocess.run(
        [sys.executable, "-m", "fasten", "demo", "--copy", str(copied)], capture_output=True, text=True, check=False
    )
    assert again.returncode == 2
    assert "nothing was copied" in again.stderr
    assert (copied / "job.toml").read_bytes() == before


def test_neither_file_is_copied_where_one_is_there(copied: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (copied / "shelf.toml").unlink()
    assert main(["demo", "--copy", str(copied)]) == 2
    told = capsys.readouterr().err
    assert "job.toml is there already" in told
    assert told.count("\n") == 1
    assert not (copied / "shelf.toml").exists()


def test_a_folder_that_cannot_be_made_is_told(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    (tmp_path / "file").write_text("", encoding="utf-8")
    assert main(["demo", "--copy", str(tmp_path / "file")]) == 2
    assert capsys.readouterr().err.count("\n") == 1


def test_alone_it_says_what_it_is_and_where(capsys: pytest.CaptureFixture[str]) -> None:
    assert run(["demo"]) == 0
    told = capsys.readouterr().out
    assert "invented" in told
    assert str(demo_folder() / "job.toml") in told
    assert run(["demo", "--json"]) == 0
    plain = json.loads(capsys.readouterr().out)
    assert plain["format"] == 1
    assert Path(plain["job"]).is_file()
    assert Path(plain["shelf"]).is_file()


def test_its_files_are_as_the_program_saves_them() -> None:
    """So that the first save of a copy changes nothing but what was changed."""
    job, shelf = demo_folder() / "job.toml", demo_folder() / "shelf.toml"
    assert job_text(load_job(job, builtin()).value) == job.read_text(encoding="utf-8")
    assert shelf_text(load_shelf(shelf).value) == shelf.read_text(encoding="utf-8")
