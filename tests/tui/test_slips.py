"""What a hurried hand does: a wrong letter, Enter where no field follows, the mark in the box, the shelf changed."""

import time
from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import Input

from fasten.job.list.ticks import tick_of
from fasten.job.store.storage import save_shelf
from fasten.job.words import Shelf, ShelfPart
from fasten.model.line import Part
from fasten.tui.box.box import BoxPlace
from fasten.tui.widgets.panels import DoPanel, Panel
from fasten.tui.widgets.text_fields import SizeField

from .pilot import AMPLIFIER, app_of, do, drive, fill, flat, lines, press, say, seen, type_text

pytestmark = pytest.mark.slow

FUSES = ("fuse", "pine 20 mm", "rarely")


def test_a_letter_that_does_nothing_here_is_told_and_the_menu_stays() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await press(pilot, ";", "f")
        assert isinstance(pilot.app.screen, DoPanel)
        assert "Nothing here goes by f" in seen(pilot)
        await press(pilot, "escape")
        assert not isinstance(pilot.app.screen, DoPanel)

    drive((80, 24), told)


def test_another_mount_point_is_asked_for_from_every_place() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        for letter in "lbs":
            await do(pilot, letter, "n")
            assert app_of(pilot).place == "mounts"
            assert app_of(pilot).open_job.at is None
            assert pilot.app.focused is pilot.app.query_one("#entry")
            assert app_of(pilot).mounts.form.current == "item"
            await do(pilot, letter, "a")
            await press(pilot, "enter")
            assert app_of(pilot).open_job.at == 0

    drive((80, 24), told)


def test_enter_leaves_the_cursor_where_sizes_are_looked_up() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "l")
        await type_text(pilot, "5.1")
        await press(pilot, "enter")
        await type_text(pilot, " mm")
        field = pilot.app.focused
        assert isinstance(field, Input)
        assert (app_of(pilot).place, field.value) == ("look", "5.1 mm")

    drive((80, 24), told)


def test_what_is_put_on_the_shelf_keeps_its_line_in_hand() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await do(pilot, "b")
        await press(pilot, "down")
        box = pilot.app.query_one(BoxPlace)
        line = box.in_hand
        assert line is not None
        await press(pilot, "h", "k")
        assert box.in_hand is not None
        assert box.in_hand.key == line.key
        assert line.thing is not None
        assert app_of(pilot).open_job.job.packed == (tick_of(line.thing),)

    drive((80, 24), told)


def test_enter_on_the_shelf_opens_its_line_once_and_what_follows_at_once_goes_into_it(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        app = app_of(pilot)
        await do(pilot, "s")
        await press(pilot, "home", "down", "enter", "end", *["backspace"] * 4, *"7 mm", "enter")
        assert list(app.open_shelf.shelf.bits) == ["3 mm", "7 mm"]
        await press(pilot, *["enter"] * 5, "escape", "d")  # opened, kept as it was, opened again …
        assert not isinstance(app.screen, Panel)
        assert list(app.open_shelf.shelf.bits) == ["3 mm"]

    shelf = tmp_path / "shelf" / "shelf.toml"
    shelf.parent.mkdir()
    save_shelf(Shelf("", "", "", (), ("3 mm", "5 mm"), (), ()), shelf)
    drive((80, 24), told, tmp_path)


def test_the_mounts_answer_by_the_shelf_as_the_box_does_and_a_change_is_told(tmp_path: Path) -> None:
    """What is all there need not be bought, so that by a shelf another answer may be the best; which one is told."""

    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *FUSES)
        await do(pilot, "b")
        box = pilot.app.query_one(BoxPlace)
        assert box.box is not None
        before = dict(box.box.titles)
        await do(pilot, "s")
        await press(pilot, *"hpart", "enter")
        await fill(pilot, "screw", "3.5 mm", "20 mm", "EN 14592", "case-hardened", "50", "100", "0.12", "")
        await press(pilot, *"hpart", "enter")
        await fill(pilot, "washer", "M4", "", "ISO 7093-1", "", "50", "", "", "")
        await do(pilot, "b")
        after = dict(box.box.titles)
        assert after != before, "this shelf changes nothing: take another"
        assert f"By what is on the shelf, fuse-holder now gets {after['fuse-holder']}" in flat(pilot)
        await do(pilot, "m")
        good = app_of(pilot).mounts.outcome.good
        assert good is not None
        assert good.advice.answers[0].title == after["fuse-holder"]
        [remark] = good.advice.answers[0].remarks
        assert remark == f"First because of your shelf; without it: {before['fuse-holder']}"

    drive((80, 24), told, tmp_path)


def test_a_shelf_that_another_program_wrote_counts_from_the_next_key_on(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *FUSES)
        screws = ShelfPart(Part("screw", "M5", "ISO 15071", "8.8", 20.0), 50, None, None, "")
        (tmp_path / "shelf").mkdir()
        save_shelf(Shelf("", "", "", (screws,), (), (), ()), tmp_path / "shelf" / "shelf.toml", None)
        await do(pilot, "b")
        box = pilot.app.query_one(BoxPlace).box
        assert box is not None
        await do(pilot, "m")
        good = app_of(pilot).mounts.outcome.good
        assert good is not None
        assert good.advice.answers[0].title == dict(box.titles)["fuse-holder"]

    drive((80, 24), told, tmp_path)


def test_text_at_the_last_word_of_the_question_deletes_nothing() -> None:
    """There is no field of the question behind it: what is typed there looks for one."""

    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await press(pilot, *["down"] * 20)
        before = app_of(pilot).open_job.job
        await press(pilot, *"d")
        assert app_of(pilot).open_job.job == before
        assert not isinstance(pilot.app.screen, Panel)
        await do(pilot, "d")
        assert app_of(pilot).open_job.job.mounts == ()

    drive((80, 24), told)


def test_a_key_that_comes_as_a_panel_goes_is_one_of_what_was_under_it() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await press(pilot, ";", "down", "enter", "ctrl+d", "escape", ";", ";")
        assert not isinstance(pilot.app.screen, Panel)

    drive((80, 24), told)


def test_on_a_slow_machine_no_key_comes_late_into_another_mount_point(monkeypatch: pytest.MonkeyPatch) -> None:
    """A letter takes longer to be taken in than any wait for it."""

    def slowly(self: SizeField, value: str) -> str:
        time.sleep(0.15)
        return value

    async def told(pilot: Pilot[None]) -> None:
        await press(pilot, *"amplifier;n")
        assert [mount.name for mount in app_of(pilot).open_job.job.mounts] == ["amplifier"]
        assert app_of(pilot).mounts.form.said()["item"] == ""

    monkeypatch.setattr(SizeField, "validate_value", slowly)
    drive((80, 24), told)


@pytest.mark.parametrize(("size", "rows"), [((44, 15), [12, 13]), ((80, 24), [21, 22])], ids=["44x15", "80x24"])
def test_what_is_said_moves_nothing_and_goes_with_the_next_key_once_it_was_seen(
    size: tuple[int, int], rows: list[int], monkeypatch: pytest.MonkeyPatch
) -> None:
    nothing, first = "There is nothing to take back", "Mark a line of the box first"

    async def told(pilot: Pilot[None]) -> None:
        before = lines(pilot)
        app_of(pilot).say(first, warn=True)
        await do(pilot, "u")
        shown = lines(pilot)
        assert [number for number, line in enumerate(shown) if first in line or nothing in line] == rows
        assert [line for at, line in enumerate(shown) if at not in rows] == [
            line for at, line in enumerate(before) if at not in rows
        ]
        await press(pilot, "pagedown")
        assert nothing in seen(pilot), "a key that came before it could be seen takes nothing away"
        monkeypatch.setattr("fasten.tui.terminal.working.READ_S", 0.0)
        await press(pilot, "pagedown")
        assert lines(pilot) == before

    monkeypatch.setattr("fasten.tui.terminal.working.READ_S", 60.0)
    drive(size, told)
