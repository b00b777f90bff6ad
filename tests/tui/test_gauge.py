"""The measuring pass on the screen: what to cut, rows to tick, what is kept of each, and back."""

from pathlib import Path

import pytest
from textual.pilot import Pilot

from fasten.job.store.storage import load_job, save_job
from fasten.job.words import Job, Mount
from fasten.tui.gauge.gauge import GaugePlace

from .pilot import TABLES, app_of, do, drive, every_size, flat, lines, notices, press, seen, settle, take, type_text

pytestmark = pytest.mark.slow

ADAPTER = {
    "item": "speaker-adapter",
    "onto": "steel door",
    "removed": "yearly",
    "panel": "door",
    "between": "foam 3 mm",
}


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    save_job(Job("", "", "", (Mount("left [M8] adapter", tuple(ADAPTER.items())),)), tmp_path / "job.toml")
    return tmp_path


def said(folder: Path) -> dict[str, str]:
    return dict(load_job(folder / "job.toml", TABLES).value.mounts[0].said)


def page(pilot: Pilot[None]) -> GaugePlace:
    return pilot.app.query_one(GaugePlace)


async def open_pass(pilot: Pilot[None]) -> None:
    await do(pilot, "g")
    for _ in range(200):
        if page(pilot).tries:
            break
        await pilot.pause(0.05)
    await settle(pilot)


async def keep(pilot: Pilot[None]) -> None:
    """It went as it should: Enter asks what was read, and Enter keeps that nothing else was."""
    await press(pilot, "enter")
    await press(pilot, "enter")


@every_size
def test_enter_keeps_that_a_gauge_went_in_and_goes_on_to_the_next(size: tuple[int, int], folder: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await open_pass(pilot)
        assert "Cut a probe of 22 mm, a strip of 14 mm" in flat(pilot)
        assert "3 TO TRY" in seen(pilot)
        await keep(pilot)
        assert said(folder)["behind"] == "at least 22 mm"
        await keep(pilot)
        assert said(folder)["edge"] == "at least 14 mm"
        assert "1 TO TRY" in seen(pilot)
        assert [one.is_done for one in page(pilot).tries] == [True, True, False]

    drive(size, told, folder, folder / "job.toml")


def test_what_was_read_is_kept_and_what_is_no_length_is_told_there(folder: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await open_pass(pilot)
        await press(pilot, "enter")
        await type_text(pilot, "far")
        await press(pilot, "enter")
        assert "behind" not in said(folder)
        await press(pilot, *["backspace"] * 3, *"14 mm", "enter")
        assert said(folder)["behind"] == "14 mm"
        assert "14 mm" in seen(pilot)

    drive((80, 24), told, folder, folder / "job.toml")


def test_a_tick_is_taken_back_and_its_row_is_to_try_again(folder: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await open_pass(pilot)
        await keep(pilot)
        await press(pilot, "u")
        assert "behind" not in said(folder)
        assert [one.is_done for one in page(pilot).tries] == [False, False, False]
        assert "Taken back" in notices(pilot)

    drive((80, 24), told, folder, folder / "job.toml")


def test_pressed_again_it_is_found_anew_without_what_is_settled(folder: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await open_pass(pilot)
        await keep(pilot)
        await open_pass(pilot)
        assert [one.mark.field for one in page(pilot).tries] == ["edge", "item-hole"]

    drive((80, 24), told, folder, folder / "job.toml")


@every_size
def test_one_key_or_one_tap_keeps_that_a_trial_goes_as_it_should(size: tuple[int, int], folder: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await open_pass(pilot)
        assert "3 TO TRY" in seen(pilot)
        await press(pilot, "k")
        assert "2 TO TRY" in seen(pilot)
        if size[0] < 100:
            row = next(at for at, line in enumerate(lines(pilot)) if "as it should: tick" in line)
            await pilot.click(offset=(size[0] // 3, row))
            await settle(pilot)
            assert "1 TO TRY" in seen(pilot)
        await do(pilot, "u")
        assert len([one for one in page(pilot).tries if not one.is_done]) == 2 + (size[0] >= 100)

    drive(size, told, folder, folder / "job.toml")


def test_what_is_typed_after_the_pass_leaves_what_was_measured_as_it_is(folder: Path) -> None:
    """Also where the question was typed in before, so that the mount point is still in hand."""

    async def told(pilot: Pilot[None]) -> None:
        await take(pilot, "removed")
        await type_text(pilot, "rarely")
        await open_pass(pilot)
        await keep(pilot)
        assert said(folder)["behind"] == "at least 22 mm"
        await press(pilot, "m")
        await take(pilot, "removed")
        await type_text(pilot, "yearly")
        app_of(pilot).save()

    drive((80, 24), told, folder, folder / "job.toml")
    assert said(folder)["behind"] == "at least 22 mm"
    assert said(folder)["removed"] == "yearly"
