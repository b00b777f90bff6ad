"""What the entry of the page of runs holds goes into the run it was filled from, and into no other."""

from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import Input

from .pilot import app_of, do, drive, every_size, fill, flat, hit, lines, notices, press, seen, settle, until
from .test_runs_page import GROUNDED, NEAR, choose, drive_job, runs

pytestmark = pytest.mark.slow

AT_REST_S = 0.3  # by then all is drawn that a terminal shows of a key
TWO = f'{NEAR}ground = "0.4 m"\n'


@every_size
def test_to_work_on_the_next_run_takes_nothing_of_the_one_before_into_it(size: tuple[int, int]) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "r")
        await press(pilot, "enter", "up", "up", "up", "up")
        await do(pilot, "w")
        await app_of(pilot).go_run_by(1)
        await settle(pilot)
        assert "rear: step 1 of " in seen(pilot)
        await press(pilot, "r")
        assert "45 A" in seen(pilot)
        await press(pilot, "tab", "tab")
        await do(pilot, "r")

    kept = drive_job(size, told, TWO)
    assert {run.name: dict(run.said)["carries"] for run in kept.runs} == {"sub": "60 A", "rear": "45 A"}


@every_size
@pytest.mark.parametrize("keys", ["tab", "enter", ";"])
def test_what_is_taken_back_stands_in_the_entry_as_it_was(size: tuple[int, int], keys: str) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "r")
        await press(pilot, "enter", "up", "up", "up", "up", "down", "down", "down", *"7 m")
        assert runs(pilot)["sub"]["length"] == "7 m"
        await do(pilot, "u")
        field = app_of(pilot).focused
        assert isinstance(field, Input)
        assert field.value == "4 m"
        await press(pilot, keys, "escape")
        assert runs(pilot)["sub"]["length"] == "4 m"

    assert dict(drive_job(size, told, TWO).runs[0].said)["length"] == "4 m"


def test_a_run_that_is_taken_back_leaves_nothing_in_the_entry_that_would_make_it_again() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "r")
        await press(pilot, "n", *"72 A")
        await do(pilot, "u")
        await press(pilot, "tab", "tab")
        assert set(runs(pilot)) == {"sub", "rear"}
        await do(pilot, "y")
        assert runs(pilot)["power"] == {"carries": "72 A"}

    drive_job((80, 24), told, TWO)


def test_what_is_not_understood_goes_with_its_run_and_that_is_said() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "r")
        await press(pilot, "enter", "up", "up", "up", "up", *"60 Q")
        await do(pilot, "n")
        assert "Not kept: Carries" in notices(pilot)
        await press(pilot, "tab")
        assert runs(pilot)["sub"]["carries"] == "60 A"
        assert set(runs(pilot)) == {"sub", "rear"}

    drive_job((80, 24), told, TWO)


def test_what_the_list_renames_is_not_written_back_by_the_entry() -> None:
    """On a desk the entry stands beside the list, with the name of the section as it was."""

    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "r")
        await press(pilot, "enter")
        app_of(pilot).runs.take_word("sections")
        await settle(pilot)
        await press(pilot, *"bonnet")
        await do(pilot, "r")
        await choose(pilot, "run, 5 lined")
        await fill(pilot, "engine bay", None, None, "tube", None)
        app_of(pilot).runs.read()
        await settle(pilot)
        assert app_of(pilot).open_job.job.runs[0].sections == ("engine bay",)
        await press(pilot, "tab")
        assert app_of(pilot).open_job.job.runs[0].sections == ("engine bay",)

    drive_job((120, 40), told, GROUNDED)


@every_size
def test_what_no_word_is_called_stays_where_it_was_typed(size: tuple[int, int]) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "r")
        await press(pilot, "enter", *["down"] * 20, *"elsewhere", "enter")
        assert "? nothing is called so" in flat(pilot)
        await press(pilot, *["backspace"] * 9, *"along", "enter")
        assert "▌Along sections" in seen(pilot)

    drive_job(size, told, TWO)


@pytest.mark.slow
def test_the_list_is_as_wide_as_the_screen_where_it_was_out_of_view_as_it_was_made_anew(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "r")
        await do(pilot, "n")
        await press(pilot, *"remote", "enter")
        await do(pilot, "u", "y")
        hit(pilot, ";")
        await pilot.pause(AT_REST_S)
        hit(pilot, "r")
        await until(pilot, lambda: app_of(pilot).runs.is_listing)
        await pilot.pause(AT_REST_S)
        assert lines(pilot)[1].endswith("──")

    path = tmp_path / "job.toml"
    path.write_text(TWO)
    drive((80, 24), told, tmp_path, path, is_drawn=True)
