"""Covers on the screen: what a mount point is under, what is known of a cover of the car, and what comes off first."""

from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import Input

from fasten.job.store.storage import load_job, save_job
from fasten.job.words import Cover, Job, Mount

from .pilot import TABLES, app_of, do, drive, every_size, fill, flat, press, say, seen
from .test_journey import read_to

pytestmark = pytest.mark.slow

SPEAKER = {"item": "speaker-adapter", "onto": "steel 0.9 mm", "removed": "yearly", "panel": "door"}


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    save_job(Job("", "", "", (Mount("speaker", tuple(SPEAKER.items())),)), tmp_path / "job.toml")
    return tmp_path


async def lay_under(pilot: Pilot[None], what: str) -> None:
    """Say what the mount point in hand is under: Enter does not come by that, Down does."""
    await do(pilot, "t")
    await press(pilot, "down", "down", "down")
    await fill(pilot, what)


def kept(folder: Path) -> Job:
    return load_job(folder / "job.toml", TABLES).value


@every_size
def test_a_new_cover_is_asked_how_often_it_comes_off_and_the_answer_says_that_it_comes_off_first(
    size: tuple[int, int], folder: Path
) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await lay_under(pilot, "door card")
        assert "A cover of the car" in flat(pilot)
        await fill(pilot, "rarely", "9", "trim clips", "3", "20", "")
        assert kept(folder).mounts[0].covered_by == ("door card",)
        assert kept(folder).covers == (Cover("door card", "rarely", 9, "trim clips", 3, 20),)
        await do(pilot, "v")
        await read_to(pilot, "door card comes off first: it comes off 15 times in ten years")
        await press(pilot, *"uu")
        assert kept(folder).covers == ()
        assert kept(folder).mounts[0].covered_by == ()

    drive(size, told, folder, folder / "job.toml")


def test_a_cover_stands_in_the_list_of_mount_points_and_what_is_said_of_it_is_changed_there(folder: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await lay_under(pilot, "door card")
        await fill(pilot, "rarely", "", "", "", "", "")
        await do(pilot, "a")
        assert "it comes off 15 times in ten years" in flat(pilot) or "door card" in seen(pilot)
        await press(pilot, *"door", "enter")
        assert pilot.app.screen.query_one("#fill-removed", Input).value == "rarely"
        await fill(pilot, None, "nine", None, None, None, None)
        assert "nine is no count" in flat(pilot)
        await press(pilot, *["shift+tab"] * 4)
        await fill(pilot, "9", None, None, "8", None)
        assert (kept(folder).covers[0].fixings, kept(folder).covers[0].rated) == (9, 8)

    drive((80, 24), told, folder, folder / "job.toml")


def test_a_mount_point_over_another_comes_off_first_and_as_often_as_both(folder: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "n")
        await say(pilot, "crossover", "mdf 18 mm", "monthly")
        await lay_under(pilot, "speaker")
        assert "speaker comes off first" in flat(pilot)
        await do(pilot, "a")
        await press(pilot, "1", "enter")
        answer = app_of(pilot).mounts.first_answer()
        assert answer is not None
        assert any("for itself and for crossover under it" in text for text in answer.remarks)

    drive((120, 40), told, folder, folder / "job.toml")


def test_a_slip_in_a_name_makes_no_cover_and_a_circle_is_refused(folder: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await lay_under(pilot, "door card")
        await press(pilot, *["enter"] * 6)
        await lay_under(pilot, "dor card")
        assert "did you mean 'door card'?" in flat(pilot)
        await fill(pilot, "speaker")
        assert "they cover each other in a circle" in flat(pilot)
        await press(pilot, "escape")
        assert [cover.name for cover in kept(folder).covers] == ["door card"]
        assert app_of(pilot).open_job.mount == kept(folder).mounts[0]

    drive((80, 24), told, folder, folder / "job.toml")
