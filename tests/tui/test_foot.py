"""The foot and its keys: whole at every width, each letter underlined in its own word, one meaning a letter."""

from itertools import groupby

import pytest
from textual.pilot import Pilot

from fasten.tui.actions import ACTIONS, LEADER, PLACES, STOP, here
from fasten.tui.drawn.foot import Word, foot_of
from fasten.tui.drawn.runs import columns, plain

from .pilot import AMPLIFIER, app_of, do, drive, hit, lines, press, say, seen

PAGES = [Word(place.label, place.key, place.name, place.label == "Box") for place in PLACES]
DOINGS = [Word(action.label, action.key, action.name) for action in here("box") if action not in PLACES]
MORE = Word("more", LEADER, "do")


def test_one_letter_means_one_thing_on_every_page() -> None:
    by_key = groupby(sorted(ACTIONS, key=lambda action: action.key), key=lambda action: action.key)
    meanings = {key: {action.label for action in found} for key, found in by_key}
    assert {key: labels for key, labels in meanings.items() if len(labels) > 1} == {}
    assert STOP.key in meanings  # it stops what goes on, the work or the program


@pytest.mark.parametrize("place", [place.name.split("'")[1] for place in PLACES])
def test_no_letter_of_a_page_clashes_with_one_that_works_everywhere(place: str) -> None:
    keys = [action.key for action in here(place)]
    assert len(keys) == len(set(keys))


@pytest.mark.parametrize("typing", [True, False])
@pytest.mark.parametrize("width", [36, 44, 60, 80, 120])
def test_every_word_is_whole_with_its_letter_underlined_and_can_be_tapped_anywhere(width: int, typing: bool) -> None:
    foot = foot_of(width, PAGES, DOINGS, MORE, typing=typing)
    text = plain(foot.line)
    assert columns(foot.line) == width
    assert [name for _, _, name in foot.spans].count("do") == 1
    for word in PAGES:
        start, end = next((start, end) for start, end, name in foot.spans if name == word.name)
        assert text[start:end] == word.text
        assert {foot.at(column) for column in range(start, end)} == {word.name}
    said = {word.name: word.key for word in (*PAGES, *DOINGS, MORE)}
    underlined = [letter for letter, style in foot.line if "underline" in style]
    shown = [said[name] for _, _, name in foot.spans]
    assert [letter.lower() for letter in underlined] == [key for key in shown if not (typing and key == LEADER)]
    assert text.startswith(f" {LEADER} ") is typing
    assert (f"{LEADER} more" in text) is not typing
    assert sum("reverse" in style for _, style in foot.line if "accent" in style) >= 1 + typing


@pytest.mark.parametrize("typing", [True, False])
@pytest.mark.parametrize("width", [20, 30, 33])
def test_a_foot_too_narrow_for_its_pages_keeps_to_its_columns_and_to_more(width: int, typing: bool) -> None:
    foot = foot_of(width, PAGES, DOINGS, MORE, typing=typing)
    assert columns(foot.line) == width
    assert "do" in {name for _, _, name in foot.spans}


def test_the_foot_is_whole_at_once_after_a_resize() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        for size in ((44, 15), (120, 40), (80, 24)):
            await pilot.resize_terminal(*size)
            await pilot.pause()
            foot = lines(pilot)[-1]
            assert all(place.label in foot for place in PLACES), size
        assert "undo" in lines(pilot)[-1]

    drive((120, 40), told)


def test_more_shows_what_can_be_done_and_nothing_else() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await press(pilot, ";")
        assert not {"compare", "undo", "title", "drop"} & set(seen(pilot).replace(":", " ").split())
        await press(pilot, ";")
        await say(pilot, *AMPLIFIER)
        await press(pilot, ";")
        assert {"compare", "undo", "title", "drop"} <= set(seen(pilot).replace(":", " ").split())
        assert "replay" not in seen(pilot)

    drive((80, 24), told)


def test_the_foot_offers_to_take_back_as_soon_as_there_is_a_change() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "s")
        app_of(pilot).save = lambda: None  # type: ignore[method-assign]  # it tells the foot too, each second
        assert "undo" not in lines(pilot)[-1]
        await press(pilot, *"hbit", "enter")
        await press(pilot, *"3 mm", "enter")
        assert "bit: 3 mm" in seen(pilot)
        assert "undo" in lines(pilot)[-1]

    drive((80, 24), told)


def test_a_key_that_was_to_stop_work_and_comes_as_it_ends_does_not_quit(monkeypatch: pytest.MonkeyPatch) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "b")
        app_of(pilot)._ended_at = None
        monkeypatch.setattr(type(app_of(pilot)), "has_just_worked", True)
        await press(pilot, "q")
        assert pilot.app.is_running
        monkeypatch.setattr(type(app_of(pilot)), "has_just_worked", False)
        hit(pilot, "q")
        for _ in range(100):
            await pilot.pause(0.01)
        assert not pilot.app.is_running

    drive((80, 24), told)
