"""Every screen as it stands at each size, compared with what was looked at and found good.

    FASTEN_SNAPSHOTS=write .venv/bin/python -m pytest -q tests/tui/test_snapshots.py

writes them anew; read what has changed before it is committed.
"""

import os
from datetime import date
from pathlib import Path

import pytest
from built.few import ALL
from textual.pilot import Pilot

from .pilot import AMPLIFIER, SIZES, act, app_of, at_sizes, do, drive, fill, lines, press, say, settle, stood, type_text

pytestmark = pytest.mark.slow

FOLDER = Path(__file__).parent / "snapshots"
IS_WRITING = os.environ.get("FASTEN_SNAPSHOTS") == "write"
ENDS = SIZES[0], SIZES[-1]  # most room and least; by hand, and where they are written anew, at every size


class Screens:
    """The screens of one size, each compared as it is come to; what differs is told at the end."""

    def __init__(self, pilot: Pilot[None], size: tuple[int, int]) -> None:
        self._pilot = pilot
        self._size = f"{size[0]}x{size[1]}"
        self.differ: list[str] = []

    async def show(self, name: str) -> None:
        """Compare the screen as it stands, without the notices of what was just done."""
        app_of(self._pilot).clear_said()
        await settle(self._pilot)
        path = FOLDER / f"{name}-{self._size}.txt"
        kept = path.read_text(encoding="utf-8") if path.exists() else ""
        shown = await stood(self._pilot, lambda: "\n".join(lines(self._pilot)) + "\n", kept)
        if IS_WRITING:
            FOLDER.mkdir(exist_ok=True)
            path.write_text(shown, encoding="utf-8")
        elif kept != shown:
            self.differ.append(f"{path.name} is now:\n{shown}")


class Day(date):
    """A day that stays the same."""

    @classmethod
    def today(cls) -> "Day":
        return cls(2026, 3, 14)


def still(monkeypatch: pytest.MonkeyPatch) -> None:
    """Have the clock say the same whenever it is looked at."""
    monkeypatch.setattr("fasten.tui.saving.time_of_day", lambda: "14:31")
    monkeypatch.setattr("fasten.tui.frame.time_written", lambda _path: "14:31")


async def ask(pilot: Pilot[None], screens: Screens) -> None:
    await screens.show("mounts-empty")
    await say(pilot, *AMPLIFIER)
    await screens.show("mounts-answer")
    await press(pilot, *["down"] * 20, "enter")
    await screens.show("form-unfolded")
    await press(pilot, *["down"] * 40, "enter", *["up"] * 20)


async def panels(pilot: Pilot[None], screens: Screens) -> None:
    await press(pilot, ";")
    await screens.show("what-now")
    await press(pilot, "c")
    await screens.show("compare")
    await press(pilot, ";")
    await act(pilot, "as_built")
    await screens.show("as-built")
    await press(pilot, "e")
    await press(pilot, *"oversize 8.2 mm", "enter", "3", "enter")
    await screens.show("repair")
    await press(pilot, "m")
    await do(pilot, "a")
    await screens.show("pick-mount")
    await press(pilot, "enter")


async def look_up(pilot: Pilot[None], screens: Screens) -> None:
    await do(pilot, "l")
    await type_text(pilot, "#10-32")
    await screens.show("look-up")


async def runs(pilot: Pilot[None], screens: Screens) -> None:
    await do(pilot, "r")
    await screens.show("runs-list")
    await press(pilot, "n")
    await say(pilot, "1000 W class D", "battery stud M8", "amplifier, set screw", "5 m", "0.45 m")
    app_of(pilot).save()
    await screens.show("runs-answer")
    await do(pilot, "d")
    await press(pilot, "m")


async def shelf_and_box(pilot: Pilot[None], screens: Screens) -> None:
    await do(pilot, "s")
    await screens.show("shelf-empty")
    await press(pilot, *"hpart", "enter")
    await fill(pilot, "screw", "M5", "16 mm", "ISO 15071", "8.8", "20", "100", "0.12", "")
    await press(pilot, *"hbit", "enter")
    await fill(pilot, "3 mm")
    await screens.show("shelf-parts")
    await press(pilot, "b")
    await press(pilot, "enter")
    await press(pilot, "down")
    await screens.show("box")


async def leave_unsaved(pilot: Pilot[None], screens: Screens) -> None:
    path = app_of(pilot).open_job.path
    assert path is not None
    path.write_text(path.read_text() + "# by another program\n", encoding="utf-8")
    await press(pilot, "enter")
    app_of(pilot).clear_said()
    app_of(pilot)._ended_at = None  # of a count; just after one q does nothing
    await press(pilot, "q")
    await screens.show("not-saved")


@at_sizes(*SIZES if ALL or IS_WRITING else ENDS)
def test_every_screen_stands_as_it_was_found_good(
    size: tuple[int, int], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    async def told(pilot: Pilot[None]) -> None:
        screens = Screens(pilot, size)
        for part in (ask, panels, look_up, runs, shelf_and_box, leave_unsaved):
            await part(pilot, screens)
        assert not screens.differ, "\n".join(screens.differ)

    monkeypatch.chdir(tmp_path)
    monkeypatch.setattr("fasten.tui.app.date", Day)
    still(monkeypatch)
    drive(size, told, Path("car"), is_drawn=size in ENDS)


def test_no_line_of_a_screen_is_wider_than_the_screen() -> None:
    for path in FOLDER.iterdir():
        width, height = map(int, path.stem.rpartition("-")[2].split("x"))
        shown = path.read_text(encoding="utf-8").splitlines()
        assert len(shown) == height, path.name
        assert max(map(len, shown)) <= width, path.name
