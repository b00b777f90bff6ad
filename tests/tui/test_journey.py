"""The whole way with keys only, at each size: ask, look up, pack, put on paper, take back, leave and find it again."""

from pathlib import Path

import pytest
from textual.pilot import Pilot

from fasten.tui.box.box import BoxPlace

from .pilot import AMPLIFIER, app_of, do, drive, every_size, fill, flat, press, say, seen, type_text

pytestmark = pytest.mark.slow


async def read_to(pilot: Pilot[None], *words: str) -> None:
    """Page down until each of the words has been seen."""
    wanted = set(words)
    for _ in range(12):
        wanted -= {word for word in wanted if word in flat(pilot)}
        if not wanted:
            return
        await press(pilot, "pagedown")
    raise AssertionError(f"never seen: {wanted}\n{seen(pilot)}")


def mounts_of(pilot: Pilot[None]) -> list[str]:
    return [mount.name for mount in app_of(pilot).open_job.job.mounts]


async def ask_amplifier(pilot: Pilot[None]) -> None:
    await say(pilot, *AMPLIFIER)
    await read_to(pilot, "hole and bit 7.6 mm", "-0 +0.1, through", "torque 1.49 N·m", "13.2 in·lbf")


async def ask_trim_panel(pilot: Pilot[None]) -> None:
    await do(pilot, "n")
    await say(pilot, "trim", "MDF 18 mm", "rarely")
    good = app_of(pilot).mounts.outcome.good
    assert good is not None
    hole = good.advice.answers[0].proposal.joint.hole
    assert hole is not None
    await read_to(pilot, f"hole and bit {hole.diameter_mm:g} mm")


async def name_the_job(pilot: Pilot[None]) -> None:
    await do(pilot, "j")
    await press(pilot, *"name the", "enter")
    await fill(pilot, "front stage", "blue estate", "")


async def look_up(pilot: Pilot[None]) -> None:
    await do(pilot, "l")
    await type_text(pilot, "#10-32")
    await read_to(pilot, "#10-32: 32 to the inch", "tap drill 4.039 mm", "bit #21", "Enter: everything")
    await press(pilot, *["backspace"] * 6)
    await type_text(pilot, "5.1 mm")
    await press(pilot, "enter")
    await read_to(pilot, "5.1 mm", "taps", "[s] standard")


async def pack_two_lines(pilot: Pilot[None]) -> None:
    await do(pilot, "b")
    assert "NOT READY" in seen(pilot)
    assert " 0 of " in flat(pilot)
    await press(pilot, "enter", "down", "enter")
    assert " 2 of " in flat(pilot)
    box = pilot.app.query_one(BoxPlace).box
    assert box is not None
    assert [line.row.state.word for line in box.lines if line.row].count("packed") == 2


async def put_on_paper(pilot: Pilot[None], folder: Path) -> None:
    await press(pilot, "x")
    await press(pilot, *"work plain", "enter")
    assert "front-stage-work.txt is written" in flat(pilot)
    sheet = (folder / "front-stage-work.txt").read_text()
    assert "amplifier" in sheet
    assert "trim-panel" in sheet


async def take_back_the_last_mount(pilot: Pilot[None]) -> None:
    """Two ticks, the name of the job and the mount point, each one step; and then all again."""
    await press(pilot, *"uuuu")
    assert mounts_of(pilot) == ["amplifier"]
    await press(pilot, *"yyyy")
    assert mounts_of(pilot) == ["amplifier", "trim-panel"]


async def leave(pilot: Pilot[None]) -> None:
    app_of(pilot)._ended_at = None  # of a count; just after one q does nothing
    await press(pilot, "q")
    assert not pilot.app.is_running


@every_size
def test_a_whole_job_with_keys_only_and_everything_is_there_when_it_is_opened_again(
    size: tuple[int, int], tmp_path: Path
) -> None:
    async def first(pilot: Pilot[None]) -> None:
        await ask_amplifier(pilot)
        await ask_trim_panel(pilot)
        await name_the_job(pilot)
        await look_up(pilot)
        await pack_two_lines(pilot)
        await put_on_paper(pilot, tmp_path)
        await take_back_the_last_mount(pilot)
        await leave(pilot)

    async def again(pilot: Pilot[None]) -> None:
        assert mounts_of(pilot) == ["amplifier", "trim-panel"]
        assert [app_of(pilot).mounts.form.said()[name] for name in ("item", "onto")] == ["amplifier", "steel 0.8 mm"]
        await do(pilot, "b")
        assert " 2 of " in flat(pilot)
        box = app_of(pilot).query_one(BoxPlace).box
        assert box is not None
        assert [line.row.state.word for line in box.lines if line.row].count("packed") == 2
        job = app_of(pilot).open_job.job
        assert (job.title, job.vehicle) == ("front stage", "blue estate")
        await leave(pilot)

    drive(size, first, tmp_path, is_drawn=True)
    drive(size, again, tmp_path, is_drawn=True)
