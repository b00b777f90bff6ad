"""Lists that come up over the screen are rows: how each stands, the one in hand in full, by keys and by touch."""

from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import OptionList

from fasten.job.store.storage import save_job
from fasten.job.words import Job, Mount

from .pilot import AMPLIFIER, app_of, at_sizes, do, drive, flat, lines, press, say, seen, settle
from .test_palette import painted

pytestmark = pytest.mark.slow

KNOWN = {"behind": "40 mm", "edge": "40 mm", "support": "firm"}


def with_mounts(path: Path, count: int) -> Path:
    said = {"item": "amplifier", "onto": "steel 0.8 mm", "removed": "yearly"}
    known, open_ = tuple({**said, **KNOWN}.items()), tuple(said.items())
    mounts = (Mount(f"mount {at}", known if at % 2 else open_) for at in range(1, count + 1))
    save_job(Job("", "", "", tuple(mounts)), path / "job.toml")
    return path / "job.toml"


@at_sizes((44, 30))
def test_the_list_of_mount_points_says_how_each_stands_once_it_is_known(size: tuple[int, int], tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "a")
        for _ in range(100):
            await settle(pilot)
            if "needs" in seen(pilot):
                break
        rows = [line for line in lines(pilot)[1:] if "mount 1" in line or "mount 2" in line]
        assert "●" in rows[0]
        assert "holds" in rows[0]
        assert "◐" in rows[1]
        assert "needs" in rows[1]
        await press(pilot, *"mount 3", "enter")
        assert app_of(pilot).open_job.at == 2

    drive(size, told, job=with_mounts(tmp_path, 3))


def test_enter_takes_the_row_in_hand_not_the_first(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "a")
        await press(pilot, "down", "down", "enter")
        assert app_of(pilot).open_job.at == 2

    drive((80, 24), told, job=with_mounts(tmp_path, 3))


def test_on_a_wide_screen_many_mount_points_stand_in_two_columns(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "a")
        await settle(pilot)
        assert any(line.count(" mount ") == 2 for line in lines(pilot)[5:])

    drive((120, 40), told, job=with_mounts(tmp_path, 40))


def marked(pilot: Pilot[None]) -> int | None:
    return pilot.app.screen.query_one(OptionList).highlighted


@at_sizes((44, 15))
def test_what_is_cut_off_of_a_proposal_is_scrolled_to_before_the_next(size: tuple[int, int]) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await do(pilot, "c")
        shown = seen(pilot)
        assert "hole" in shown
        assert "points" not in shown
        keys = 0
        while marked(pilot) == 0:
            await press(pilot, "down")
            keys += 1
            shown += seen(pilot)
        assert "points" in shown
        assert keys <= 3
        assert "M4 rivet nut" in flat(pilot)

    drive(size, told)


@at_sizes((120, 40))
def test_a_tap_on_a_proposal_shows_it_and_one_more_holds_it(size: tuple[int, int], tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await do(pilot, "c")
        y = next(y for y, line in enumerate(lines(pilot)) if "M4 rivet nut" in line and "M5 rivet nut" in line)
        x = lines(pilot)[y].index("M4 rivet nut")  # beside each other, however few
        await pilot.click(offset=(x, y))
        await settle(pilot)
        assert marked(pilot) == 1
        await pilot.click(offset=(x, y))
        await settle(pilot)
        mount = app_of(pilot).open_job.mount
        assert mount is not None
        assert mount.pin is not None
        assert mount.pin.thread == "M4"

    drive(size, told, tmp_path)


@at_sizes((120, 40))
def test_the_number_of_the_row_in_hand_is_filled_and_can_be_tapped(size: tuple[int, int], tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "a")
        await settle(pilot)
        filled = [text.strip() for text, style, _ in painted(pilot) if style and style.reverse and len(text) == 3]
        assert "1" in filled
        y = next(y for y, line in enumerate(lines(pilot)) if "│" in line and " 2 " in line and "mount 2" in line)
        x = lines(pilot)[y].index(" 2 ") + 1
        await pilot.click(offset=(x, y))
        await settle(pilot)
        assert app_of(pilot).open_job.at == 1

    drive(size, told, job=with_mounts(tmp_path, 3))
