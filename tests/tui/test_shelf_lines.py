"""The shelf on the screen: lines typed and pasted, kits, and the question that a line leaves."""

from pathlib import Path

import pytest
from textual.events import Paste
from textual.pilot import Pilot

from fasten.job.store.storage import load_shelf
from fasten.job.words import Shelf

from .pilot import do, drive, flat, notices, press, settle, type_text

pytestmark = pytest.mark.slow


def on_disk(folder: Path) -> Shelf:
    return load_shelf(folder / "shelf" / "shelf.toml").value


async def add(pilot: Pilot[None], text: str) -> None:
    await do(pilot, "s")
    await press(pilot, "h")
    await type_text(pilot, "lines")
    await press(pilot, "enter")
    assert pilot.app.focused is not None
    pilot.app.focused.post_message(Paste(text))
    await settle(pilot)
    await press(pilot, "enter")


def test_pasted_lines_are_each_a_part_or_a_question(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await add(pilot, "M5x16 flange 50\nM6 nuts 50\n\ndrills 1 to 3 x 0.5\n")
        shelf = on_disk(tmp_path)
        assert [(entry.part.name, entry.count) for entry in shelf.parts] == [("ISO 15071", 50)]
        assert (shelf.asked, len(shelf.bits)) == (("M6 nuts 50",), 5)
        assert "2 of 3 taken; 1 not counted yet" in notices(pilot)
        assert "assumed: class 8.8" in flat(pilot)

    drive((80, 24), told, tmp_path)


def test_a_line_is_typed_where_it_is_asked_what_it_is(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "s")
        await press(pilot, "h")
        await type_text(pilot, "20 x M5 x 16 mm flange bolts")
        assert "add: 20 x M5 x 16 mm flange bolts" in flat(pilot)
        await press(pilot, "enter")
        assert [(entry.part.name, entry.count) for entry in on_disk(tmp_path).parts] == [("ISO 15071", 20)]

    drive((80, 24), told, tmp_path)


def test_a_question_is_answered_where_it_stands(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await add(pilot, "M6 nuts 50")
        await press(pilot, "enter")
        assert "plain or locking" in flat(pilot)
        await type_text(pilot, "1")
        await press(pilot, "enter")
        shelf = on_disk(tmp_path)
        assert (shelf.asked, shelf.parts[0].part.name, shelf.parts[0].count) == ((), "ISO 7040", 50)

    drive((80, 24), told, tmp_path)


def test_a_question_is_dropped_and_put_back(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await add(pilot, "M6 nuts 50")
        await press(pilot, "d")
        assert on_disk(tmp_path).asked == ()
        await press(pilot, "u")
        assert on_disk(tmp_path).asked == ("M6 nuts 50",)

    drive((80, 24), told, tmp_path)


def test_a_kit_is_ticked_and_said_to_be_there(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "s")
        await press(pilot, "h")
        await type_text(pilot, "kit")
        await press(pilot, "enter")
        await type_text(pilot, "metric")
        await press(pilot, "enter")
        assert len(on_disk(tmp_path).bits) == 25
        await press(pilot, "h")
        await type_text(pilot, "kit")
        await press(pilot, "enter")
        assert "metric bits 1 to 13 mm by 0.5, there" in flat(pilot)

    drive((80, 24), told, tmp_path)
