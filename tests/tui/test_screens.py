"""The pictures that the README shows, drawn from the example job as it is opened, one a moment of use.

    FASTEN_SNAPSHOTS=write .venv/bin/python -m pytest -q tests/tui/test_screens.py

draws them anew; look at them before they are committed.
"""

import re
import shutil
from pathlib import Path

import pytest
from textual.pilot import Pilot

from fasten.commands.demo import demo_folder
from fasten.tui.palette import DARK, LIGHT

from .picture import picture
from .pilot import app_of, do, drive, press, settle, type_text
from .test_snapshots import IS_WRITING, still

pytestmark = pytest.mark.slow

FOLDER = Path(__file__).parent / "screens"
README = Path(__file__).parents[2] / "README.md"


async def at_the_bench(pilot: Pilot[None]) -> None:
    """The first mount point, an amplifier, and its joint to scale."""
    await do(pilot, "a")
    await press(pilot, "home", "enter")


async def on_the_shelf(pilot: Pilot[None]) -> None:
    """What a bit is for."""
    await do(pilot, "l")
    await type_text(pilot, "5.1 mm")


async def in_the_box(pilot: Pilot[None]) -> None:
    """What goes in the box, two lines of it packed."""
    await do(pilot, "b")
    await press(pilot, "enter", "down", "enter")


MOMENTS = {
    "mount-point": (at_the_bench, (120, 40), DARK),
    "look-up": (on_the_shelf, (80, 24), DARK),
    "box": (in_the_box, (80, 24), LIGHT),
    "phone": (at_the_bench, (44, 30), DARK),
}


@pytest.mark.parametrize("name", MOMENTS)
def test_the_pictures_of_the_readme_are_of_this_screen(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    to, size, look = MOMENTS[name]
    path = FOLDER / f"{name}.svg"

    async def told(pilot: Pilot[None]) -> None:
        app_of(pilot).look_in(look)
        await to(pilot)
        app_of(pilot).clear_said()
        await settle(pilot)
        drawn = picture(pilot)
        if IS_WRITING:
            FOLDER.mkdir(exist_ok=True)
            path.write_text(drawn, encoding="utf-8")
        if path.read_text(encoding="utf-8") != drawn:  # not by assert, which would print both
            pytest.fail(f"{path.name} is of another screen: look at it as it is, and draw it anew")

    still(monkeypatch)
    shutil.copytree(demo_folder(), tmp_path / "example")
    drive(size, told, tmp_path, tmp_path / "example" / "job.toml", is_drawn=True)


def test_the_readme_shows_every_picture() -> None:
    text = README.read_text(encoding="utf-8")
    assert set(re.findall(r"\(tests/tui/screens/([\w-]+)\.svg\)", text)) == set(MOMENTS)
