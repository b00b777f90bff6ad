"""Everything can be tapped, does by a tap what it does by its key, and stays whole when the screen changes its size."""

from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import Button, Input, OptionList

from fasten.job.store.storage import save_job
from fasten.job.words import Job, Mount
from fasten.tui.actions import PLACES
from fasten.tui.widgets.panels import DoPanel

from .pilot import AMPLIFIER, app_of, do, drive, every_size, flat, lines, press, say, seen, settle, type_text

pytestmark = pytest.mark.slow


async def tap(pilot: Pilot[None], label: str) -> None:
    """Tap the middle of a button by what stands on it."""
    for at, line in enumerate(lines(pilot)):
        if label in line:
            await pilot.click(offset=(line.index(label) + len(label) // 2, at))
            while pilot.app.screen.query("Button.-active"):
                await pilot.pause()  # it takes no second tap until it has come up again
            await settle(pilot)
            return
    raise AssertionError(f"{label} is not on the screen:\n{seen(pilot)}")


@every_size
def test_every_button_of_the_bar_is_whole_on_the_screen_and_does_what_its_key_does(size: tuple[int, int]) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        for place in reversed(PLACES):
            await tap(pilot, place.label)
            assert app_of(pilot).place == place.name.split("'")[1]
        if "view" in lines(pilot)[-1]:
            await tap(pilot, "view")
        else:  # the work goes before it where there is room for one word
            await tap(pilot, " ; ")
            await tap(pilot, "v  view")
        assert pilot.app.focused is pilot.app.query_one("#reading")
        await tap(pilot, "view")
        assert isinstance(pilot.app.focused, Input)
        await tap(pilot, " ; ")
        assert isinstance(pilot.app.screen, DoPanel)
        await tap(pilot, "[ ; Back ]")
        assert not isinstance(pilot.app.screen, DoPanel)

    drive(size, told)


def test_every_panel_is_left_and_taken_by_a_tap() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        mounts = app_of(pilot).open_job.job.mounts
        for letter in "atwijxcfhs":
            await do(pilot, letter)
            if "Back ]" in seen(pilot):
                await tap(pilot, "Back ]")
            assert len(pilot.app.screen_stack) == 1, letter
        assert app_of(pilot).open_job.job.mounts == mounts
        await tap(pilot, "Mounts")
        await do(pilot, "t")
        await type_text(pilot, " left")
        await tap(pilot, "[ Keep ]")
        assert app_of(pilot).open_job.job.mounts[0].name == "amplifier left"
        await do(pilot, "a")
        await tap(pilot, "a new one")
        assert app_of(pilot).open_job.at is None
        await do(pilot, "a")
        await tap(pilot, "[ Take ]")
        assert app_of(pilot).open_job.at == 0
        await tap(pilot, " ; ")
        await tap(pilot, "n  new")
        assert app_of(pilot).open_job.at is None

    drive((44, 15), told)


def test_a_word_is_taken_in_hand_and_a_line_of_the_box_is_ticked_by_a_tap() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await tap(pilot, "steel 0.8 mm")
        assert "Which word?" in seen(pilot)
        await tap(pilot, "Onto what")
        assert app_of(pilot).mounts.form.current == "onto"
        await tap(pilot, "Box")
        await tap(pilot, "6 ◇ Screw M5")
        assert " 1 of " in flat(pilot)
        assert "6 ■ Screw M5" in seen(pilot)
        await tap(pilot, "6 ■ Screw M5")
        assert " 0 of " in flat(pilot)

    drive((44, 30), told)


def test_where_there_is_room_all_mount_points_stand_beside_the_question_and_are_taken_in_hand_by_a_tap() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        assert "  1 ◐ amplifier" in seen(pilot)
        await do(pilot, "n")
        await say(pilot, "fuse", "mdf 15 mm", "y")
        assert "  2 ◐ fuse-holder" in seen(pilot)
        await tap(pilot, "  1 ◐ amplifier")
        assert app_of(pilot).open_job.at == 0
        assert app_of(pilot).mounts.mount_list._at == 0
        await tap(pilot, "2 MOUNTS  2 need")
        assert app_of(pilot).open_job.at == 0
        await pilot.resize_terminal(80, 24)
        await settle(pilot)
        assert "2 MOUNTS" not in seen(pilot)

    drive((120, 40), told)


def test_of_many_mount_points_those_round_the_one_in_hand_are_shown(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "a")
        await press(pilot, *"mount 150", "enter")
        assert "150 · mount 150" in seen(pilot)
        assert "mount 151" in seen(pilot)
        assert " mount 1 " not in seen(pilot)
        assert "200 MOUNTS" in seen(pilot)

    said = (("item", "amplifier"), ("onto", "steel 0.8 mm"), ("removed", "yearly"))
    save_job(Job("", "", "", tuple(Mount(f"mount {n}", said) for n in range(1, 201))), tmp_path / "many.toml")
    drive((120, 40), told, job=tmp_path / "many.toml")


def test_two_taps_on_a_button_that_closes_do_no_more_than_one() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await do(pilot, "a")
        button = pilot.app.screen.query_one("#back", Button)
        button.press()
        button.press()
        await settle(pilot)
        assert len(pilot.app.screen_stack) == 1
        await press(pilot, ";", ";", ";", ";")
        assert len(pilot.app.screen_stack) == 1

    drive((80, 24), told)


# -- resize, light and dark --------------------------------------------------------------------------------------------


def test_a_resize_keeps_what_was_typed_in_every_place_and_panel() -> None:
    async def told(pilot: Pilot[None]) -> None:
        async def through(*sizes: tuple[int, int]) -> None:
            for size in sizes:
                await pilot.resize_terminal(*size)
                await settle(pilot)
                assert len(lines(pilot)) == size[1]

        await say(pilot, *AMPLIFIER)
        await press(pilot, *"40 mm")
        await through((44, 15), (20, 6), (120, 40))
        assert app_of(pilot).mounts.form.said()["behind"] == "40 mm"
        assert app_of(pilot).mounts.form.current == "behind"
        assert pilot.app.focused is pilot.app.query_one("#entry")
        await do(pilot, "t")
        await press(pilot, *" left", "down", *"a note")
        await through((44, 15))
        assert [field.value for field in pilot.app.screen.query(Input)] == ["amplifier left", "a note", "1", ""]
        assert pilot.app.focused is pilot.app.screen.query_one("#fill-note")
        await press(pilot, "enter", "enter")
        await do(pilot, "x")
        await press(pilot, *"hardware", "down")
        await through((120, 40))
        assert pilot.app.screen.query_one(OptionList).highlighted == 1
        assert "hardware" in seen(pilot)
        await press(pilot, "tab", "tab", "tab", "enter")
        await do(pilot, "c")
        await through((80, 24))
        assert "M4 rivet nut" in flat(pilot)
        await press(pilot, ";", ";")
        await press(pilot, "down", "down")
        await through((44, 15))
        assert pilot.app.screen.query_one(OptionList).highlighted == 2
        await press(pilot, "b")
        await press(pilot, "down", "enter")
        await through((120, 40))
        assert " 1 of " in flat(pilot)
        await do(pilot, "l")
        await type_text(pilot, "M6")
        await through((80, 24))
        assert "tap drill 5 mm" in seen(pilot)

    drive((80, 24), told)


def test_light_or_dark_by_its_key_and_back() -> None:
    async def told(pilot: Pilot[None]) -> None:
        dark = pilot.app.screen.styles.background
        await do(pilot, "z")
        assert pilot.app.screen.styles.background.brightness > 0.5 > dark.brightness
        await do(pilot, "z", "z")  # over the terminal's own colours
        assert pilot.app.screen.styles.background == dark

    drive((80, 24), told)


def colours(pilot: Pilot[None]) -> set[tuple[int, ...]]:
    """Every colour that stands on the screen, as red, green and blue."""
    styles = [
        segment.style for strip in pilot.app.screen._compositor.render_strips() for segment in strip if segment.style
    ]
    found = [colour for style in styles for colour in (style.color, style.bgcolor) if colour and colour.triplet]
    return {tuple(colour.triplet) for colour in found if colour.triplet}


def test_without_colour_everything_is_still_told_in_words(monkeypatch: pytest.MonkeyPatch) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await press(pilot, "up", "up", "x")
        assert colours(pilot) == set()
        assert "? " in seen(pilot)
        assert "FOR " in seen(pilot)

    monkeypatch.setenv("NO_COLOR", "1")
    drive((80, 24), told)
