"""Proposals compared and one of them held, what does instead of a missing screw, and what was really built."""

from pathlib import Path

import pytest
from textual.pilot import Pilot

from fasten.job.store.storage import load_job
from fasten.job.words import Mount, Visit

from .pilot import (
    AMPLIFIER,
    TABLES,
    act,
    app_of,
    do,
    drive,
    every_size,
    fill,
    flat,
    press,
    say,
    seen,
    write_down,
)

pytestmark = pytest.mark.slow


def mount_on_disk(folder: Path) -> Mount:
    return load_job(folder / "job.toml", TABLES).value.mounts[0]


async def hold_the_second(pilot: Pilot[None]) -> None:
    await do(pilot, "c")
    await press(pilot, "down", "enter")


def first_line_of_answer(pilot: Pilot[None]) -> str:
    answer = app_of(pilot).mounts.first_answer()
    assert answer is not None
    shown = " ".join(str(pilot.app.query_one("#words").render()).split())
    assert answer.title in shown
    return answer.title


@every_size
def test_the_second_proposal_is_held_stands_first_and_is_let_go_again(size: tuple[int, int], tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        first = first_line_of_answer(pilot)
        await do(pilot, "c")
        assert "Proposals to compare" in seen(pilot)
        assert first[:15] in flat(pilot)
        assert "Hold" in seen(pilot)
        await press(pilot, "down", "enter")
        held = first_line_of_answer(pilot)
        assert held != first
        assert held in flat(pilot)
        assert f"Held: {held}" in flat(pilot)
        pin = mount_on_disk(tmp_path).pin
        assert pin is not None
        assert held.startswith(pin.thread)
        await do(pilot, "c")
        assert "Let go" in flat(pilot)
        await press(pilot, "shift+tab", "shift+tab", "enter")
        assert first_line_of_answer(pilot) == first
        assert mount_on_disk(tmp_path).pin is None

    drive(size, told, tmp_path)


def test_what_is_held_is_proved_anew_as_the_question_changes_and_said_where_it_does_not_do(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await hold_the_second(pilot)
        assert "Held: M4" in seen(pilot)
        await press(pilot, "up", "up", *["backspace"] * 6, *"3 mm")
        assert "What is held does not do" in flat(pilot)
        assert mount_on_disk(tmp_path).pin is not None

    drive((120, 40), told, tmp_path)


def test_a_held_choice_is_held_when_the_job_is_opened_again(tmp_path: Path) -> None:
    async def first(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await hold_the_second(pilot)
        await do(pilot, "q")

    async def again(pilot: Pilot[None]) -> None:
        assert "Held: M4" in seen(pilot)
        assert first_line_of_answer(pilot).startswith("M4")

    drive((80, 24), first, tmp_path)
    drive((80, 24), again, tmp_path)


def test_there_is_nothing_to_compare_before_there_is_an_answer() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "c")
        assert "There is no answer yet to compare" in flat(pilot)
        for letter in "twi":
            await do(pilot, letter)
            await press(pilot, "enter")
            assert "othing is asked yet" in flat(pilot), letter
            await press(pilot, "tab", "tab", "enter") if letter == "i" else None

    drive((44, 15), told)


def test_a_typed_length_is_tried_instead_of_the_missing_screw_and_held(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await do(pilot, "i")
        await fill(pilot, "20")
        assert "! " in seen(pilot), "a length wants its unit"
        await fill(pilot, "20 mm")
        assert "20 mm" in flat(pilot)
        assert "Hold the first" in flat(pilot)
        await press(pilot, "tab", "enter")
        pin = mount_on_disk(tmp_path).pin
        assert pin is not None
        assert pin.screw_length_mm == 20
        assert "M5 x 20 mm" in flat(pilot)

    drive((80, 24), told, tmp_path)


def test_what_is_on_the_shelf_is_tried_instead_where_no_length_is_typed(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await do(pilot, "i")
        await fill(pilot, "")
        assert "there is no shelf to look through" in flat(pilot)
        await press(pilot, "tab", "tab", "enter")
        await do(pilot, "s", "h")
        await press(pilot, *"part", "enter")
        await fill(pilot, "screw", "M5", "20 mm", "ISO 15071", "8.8", "20", "", "", "")
        await do(pilot, "m", "i")
        await fill(pilot, "")
        assert "20 mm" in flat(pilot)
        await press(pilot, "tab", "enter")
        pin = mount_on_disk(tmp_path).pin
        assert pin is not None
        assert pin.screw_length_mm == 20

    drive((80, 24), told, tmp_path)


@every_size
def test_what_was_built_is_written_down_from_what_was_advised(size: tuple[int, int], tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await act(pilot, "as_built")
        assert "hole 7.6 mm" in flat(pilot)
        assert "M5 x 16 mm" in flat(pilot)
        assert "tightened to 1.49 N·m" in flat(pilot)
        told = {"hole": "7.65 mm", "hardware": "M5 x 20", "torque": "1.4 N·m", "note": "washer under the head"}
        await write_down(pilot, date="2024-03-14", **told)
        assert "as built 2024-03-14" in app_of(pilot).open_job.mount_line
        assert mount_on_disk(tmp_path).built == Visit(
            "2024-03-14", "7.65 mm", "M5 x 20", "1.4 N·m", "washer under the head", kind="fitted"
        )
        assert app_of(pilot).place == "work", "on with the work"
        await act(pilot, "as_built")
        assert "has a record already (date 2024-03-14, hole 7.65 mm" in flat(pilot) or size[1] < 20
        await write_down(pilot, hardware="M5 x 25", date="14 March")
        assert "'14 March' is not a date; write year, month and day: 2026-05-03" in flat(pilot)
        await write_down(pilot, date="2024-03-15", torque="tight")
        assert "tight is not a number and one unit" in flat(pilot)
        assert len(mount_on_disk(tmp_path).visits) == 1

    drive(size, told, tmp_path)


def test_letters_that_none_of_the_choices_has_are_said_to_be_so(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "j")
        await press(pilot, *"zz")
        assert "none of them has these letters" in flat(pilot)
        await press(pilot, "enter")
        assert pilot.app.screen.is_modal
        await press(pilot, "backspace", "backspace")
        assert "none of them" not in flat(pilot)

    drive((44, 30), told, tmp_path)
