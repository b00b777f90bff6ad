"""At a desk the rail shows how each mount point stands, what it gets, and the verdict on the box."""

import shutil
from dataclasses import replace
from pathlib import Path

import pytest
from textual.pilot import Pilot

from fasten.commands.demo import demo_folder
from fasten.job.choices import choice
from fasten.job.words import Mount, Visit
from fasten.report.job.built import as_advised
from fasten.tui.drawn.rail import Standing, mount_lines, mounts_heading, standing_of
from fasten.tui.drawn.runs import columns, plain

from .pilot import TABLES, app_of, do, drive, lines, press, seen, settle

SAID = (("item", "amplifier"), ("onto", "steel 0.8 mm"), ("removed", "yearly"))
KNOWN = (("behind", "40 mm"), ("edge", "40 mm"), ("support", "firm"))


def standing(*more: tuple[str, str], built: Visit | None = None) -> Standing:
    return standing_of(choice(Mount("left", (*SAID, *more), visits=(built,) if built else ()), TABLES), TABLES)


def test_each_state_has_a_mark_and_a_word_of_its_own() -> None:
    said = as_advised(choice(Mount("left", (*SAID, *KNOWN)), TABLES).answer)
    record = Visit("2026-03-14", said["hole"], "", said["torque"], "")
    found = [standing(*KNOWN), standing(), standing(("behind", "2 mm")), standing(*KNOWN, built=record)]
    assert [one.state.word for one in found] == ["holds", "needs 3", "no fit", "built"]
    assert len({one.state.mark for one in found}) == 4
    assert found[0].beneath == "hole 7.6, M5 rivet nut, round, large head, knurled"
    assert "nothing fits" in found[2].beneath
    assert plain(mounts_heading([*found, None], 60)).startswith("5 MOUNTS  1 hold, 1 built, 1 no fit, 1 need ─")


def test_what_is_not_said_yet_is_not_called_what_does_not_fit() -> None:
    unsaid = standing_of(choice(Mount("head unit", (("item", "amplifier"),)), TABLES), TABLES)
    assert (unsaid.state.mark, unsaid.state.word) == ("·", "to say")
    found = [unsaid, standing(("behind", "2 mm"))]
    assert plain(mounts_heading(found, 60)).startswith("2 MOUNTS  1 no fit, 1 to say ─")


def test_a_narrow_rail_says_how_all_of_them_stand() -> None:
    unsaid = standing_of(choice(Mount("head unit", (("item", "amplifier"),)), TABLES), TABLES)
    found = [*(standing(*KNOWN),) * 2, *(standing(),) * 9, unsaid]
    text = plain(mounts_heading(found, 33))
    assert columns(mounts_heading(found, 33)) == 33
    assert text.startswith("12  2 hold, 1 to say, 9 need ─")


def test_a_record_that_does_not_hold_has_not_the_mark_of_what_is_built() -> None:
    tight, untold = (standing(*KNOWN, built=Visit("", "7.6 mm", "", nm, "")).state for nm in ("2.4 N·m", ""))
    assert (tight.mark, tight.word) == ("╳", "does not hold")
    assert (untold.mark, untold.word) == ("◐", "needs 1")


@pytest.mark.parametrize("width", [24, 40])
@pytest.mark.parametrize("rows", [1, 2])
def test_a_mount_point_takes_its_rows_and_its_columns(width: int, rows: int) -> None:
    for name in ("left", "a name that is longer than there is room for in the rail"):
        for found in (None, standing(*KNOWN)):
            shown = mount_lines(3, name, found, width, rows, current=True)
            assert len(shown) == rows
            assert {columns(line) for line in shown} == {width}
            assert any("reverse" in style for _, style in shown[0])


def test_the_rail_follows_the_job_and_a_tap_on_either_row_takes_a_mount_point_in_hand(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        assert "12 MOUNTS  11 hold, 1 no fit" in seen(pilot)
        assert "NOT READY" in seen(pilot)
        at = next(number for number, line in enumerate(lines(pilot)) if " 3 ● amplifier board" in line)
        await pilot.click(offset=(8, at + 1))
        await settle(pilot)
        assert app_of(pilot).open_job.at == 2
        await do(pilot, "d")
        assert "11 MOUNTS  10 hold, 1 no fit" in seen(pilot)
        assert " 3 ● left crossover" in seen(pilot)
        await press(pilot, ";", "u")
        assert "12 MOUNTS  11 hold, 1 no fit" in seen(pilot)

    shutil.copytree(demo_folder(), tmp_path / "example")
    drive((120, 40), told, tmp_path, tmp_path / "example" / "job.toml")


def test_what_is_known_of_a_mount_point_is_not_calculated_again(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        standings, job = app_of(pilot).standings, app_of(pilot).open_job.job
        shelf = app_of(pilot).open_shelf.known()
        assert standings.missing(job, shelf, 60) == []
        others = replace(job, mounts=(replace(job.mounts[0], name="another"), *job.mounts[1:]))
        assert standings.missing(others, shelf, 60) == [others.mounts[0]]

    shutil.copytree(demo_folder(), tmp_path / "example")
    drive((120, 40), told, tmp_path, tmp_path / "example" / "job.toml")
