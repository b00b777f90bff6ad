"""The question as a sentence: its words, the entry line, what is folded away, and a tap on any of it."""

import pytest
from textual.pilot import Pilot
from textual.widgets import Input, OptionList

from fasten.job.start.ask import asked_of
from fasten.tui.drawn.sentence import Kind

from .pilot import AMPLIFIER, TABLES, app_of, drive, every_size, flat, press, say, seen, settle, take, type_text


@pytest.mark.slow
def test_the_word_in_hand_and_no_other_is_filled() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, "amp")
        drawn = app_of(pilot).mounts.form.sentence.drawn
        assert [text for row in drawn.rows for text, style in row if "reverse" in style] == ["?"]
        assert [text for row in drawn.rows for text, style in row if style == Kind.GIVEN.value] == ["amplifier"]
        await say(pilot, "steel 0.8 mm", "y")
        drawn = app_of(pilot).mounts.form.sentence.drawn
        forms = {style for row in drawn.rows for _, style in row}
        assert {kind.value for kind in (Kind.GIVEN, Kind.PRESET, Kind.OPEN)} <= forms
        assert len({kind.value for kind in Kind}) == len(Kind)

    drive((80, 24), told)


@pytest.mark.slow
def test_only_what_concerns_the_item_is_shown_and_the_rest_is_behind_the_last_word() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        form = app_of(pilot).mounts.form
        names = [word.name for word in form.rows()]
        assert {"boss", "into", "on-board", "run", "ring"} & set(names) == set()
        told = len(names) - len(form.words()) + 1
        assert f"{told} more" in seen(pilot)
        await press(pilot, *["down"] * 20)
        assert form.is_at_more, "Down stays at the end of the question"
        assert "more; or name one" in flat(pilot)
        await type_text(pilot, "carp")
        await press(pilot, "enter")
        assert "? nothing is called so" in seen(pilot)
        await press(pilot, *["backspace"] * 4, *"between")
        assert "= in between" in seen(pilot)
        await press(pilot, "enter")
        await say(pilot, "carpet 12 mm")
        assert "in between carpet 12 mm" in flat(pilot)
        assert dict(app_of(pilot).open_job.said)["between"] == "carpet 12 mm"
        await press(pilot, *["down"] * 30, "enter")
        assert f"{told - 1} more" in seen(pilot)
        assert "in between carpet 12 mm" in flat(pilot)
        await press(pilot, "enter")
        assert form.current == next(name for name in names if name in ("item-thickness", "item-hole"))

    drive((80, 24), told)


@pytest.mark.slow
def test_what_is_typed_replaces_a_word_and_erased_brings_it_back() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await press(pilot, "up", "up", "up", *"speak")
        entry = pilot.app.query_one("#entry", Input)
        assert entry.value == "speak"
        await press(pilot, *["backspace"] * 5)
        assert entry.value == "amp"
        await press(pilot, *"dsp", "down", "end", "backspace", "backspace", *"cm")
        assert dict(app_of(pilot).open_job.said) == {
            "item": "signal-processor",
            "onto": "steel 0.8 cm",
            "removed": "yearly",
        }
        await press(pilot, "down", "down", "down", "up", "up", "up", "up", "up", "up")
        assert app_of(pilot).mounts.form.current == "item", "Up stays at the beginning"

    drive((80, 24), told)


@pytest.mark.slow
@every_size
def test_a_tap_takes_a_word_in_hand_and_on_a_phone_opens_the_words_as_rows(size: tuple[int, int]) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        form = app_of(pilot).mounts.form
        place = next(at for at, word in enumerate(form.words()) if word.name == "onto")
        row, column = next(
            (y, x) for y, spans in enumerate(form.sentence.drawn.spans) for x, _, at in spans if at == place
        )
        assert await pilot.click("#sentence", offset=(column, row))
        await settle(pilot)
        if size[0] < 60:
            rows = pilot.app.screen.query_one(OptionList)
            assert rows.option_count == len(form.rows())
            high = rows.get_option_at_index(1).prompt
            assert len(str(high).split("\n")) == (3 if size[1] >= 20 else 2)
            await press(pilot, "down", "enter")
        assert form.current == "onto"
        assert pilot.app.focused is pilot.app.query_one("#entry")

    drive(size, told)


@pytest.mark.slow
def test_what_was_understood_stands_beside_the_entry_and_a_few_letters_are_enough_for_a_word() -> None:
    async def told(pilot: Pilot[None]) -> None:
        said = {
            "dsp": "signal-processor",
            "0,8mm steel": "steel 0.8 mm",
            "w": "weekly",
            "4cm": "40 mm",
            "2 cm": "20 mm",
        }
        for typed, understood in said.items():
            await type_text(pilot, typed)
            assert f"= {understood}" in seen(pilot), seen(pilot)
            await press(pilot, "enter")
        await take(pilot, "edge")
        assert "= 20 mm, centre to edge" in seen(pilot)

    drive((80, 24), told)


@pytest.mark.slow
def test_letters_that_begin_several_words_are_not_taken_for_one_of_them() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await type_text(pilot, "s")
        assert "? s… may be signal-processor, speaker-adapter, speaker" in flat(pilot)
        await type_text(pilot, "pea")
        assert "? more than one begins so: speaker-adapter, speaker" in flat(pilot)
        await press(pilot, *["backspace"] * 4, *"trim", "enter", "up", "r")
        assert dict(app_of(pilot).open_job.said) == {"item": "trim-panel"}, "a letter alone is no other item"

    drive((80, 24), told)


@pytest.mark.slow
def test_a_field_left_empty_shows_what_was_preset_or_assumed_for_it() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await take(pilot, "mass")
        assert "(preset: 5 kg)" in seen(pilot)
        await take(pilot, "reach")
        assert "(assumed: one-side)" in seen(pilot)
        assert "5 kg, 4 fixings, rectangle 240 x 180 mm, from one-side" in flat(pilot)

    drive((120, 40), told)


@pytest.mark.slow
def test_the_choices_of_the_field_in_hand_can_be_read_on_a_narrow_screen() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await press(pilot, "tab", "tab")
        assert "(never, rarely, yearly, monthly, weekly)" in " ".join(seen(pilot).split())

    drive((44, 15), told)


@pytest.mark.slow
def test_enter_offers_what_is_asked_next_and_nothing_twice() -> None:
    """First what the first answer waits for, then what decides most, as the commands say; then the last word."""

    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        app, form = app_of(pilot), app_of(pilot).mounts.form
        mount, answer = app.open_job.mount, form.answer
        assert mount is not None
        assert answer is not None
        wanted = asked_of(mount, answer.proposal, app.open_job.job, TABLES)
        assert wanted[:3] == ("behind", "edge", "support")
        assert form.current == "behind"
        await say(pilot, "40 mm")
        offered = []
        for _ in range(30):
            if form.is_at_more:
                break
            offered.append(form.current)
            await press(pilot, "enter")  # not known: go on
        assert offered == list(wanted[1:])
        await take(pilot, "mass")
        await press(pilot, *"4 kg", "enter")
        assert form.is_at_more, "what was gone on from is not asked again"
        await press(pilot, "enter")
        walked = [word.name for word in form.words()]
        at = walked.index(form.current)
        await press(pilot, "enter")
        assert form.current == walked[at + 1], "once all is unfolded it is walked"

    drive((80, 24), told)


@pytest.mark.slow
@every_size
def test_enter_on_what_is_not_understood_stays_there_with_the_reason_in_sight(size: tuple[int, int]) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, "amplifier", "steel 0.8")
        form = app_of(pilot).mounts.form
        assert form.current == "onto"
        assert "no unit" in flat(pilot)
        await press(pilot, *" mm", "enter")
        assert form.current == "removed"
        await press(pilot, "x", "enter")
        assert form.current == "removed"
        await press(pilot, "shift+tab")
        assert form.current == "onto", "Tab leaves it as it is"

    drive(size, told)
