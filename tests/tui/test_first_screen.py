"""The first screen, with keys only, at each size it must work at."""

import re
import sys
from pathlib import Path
from types import SimpleNamespace

import pytest
from built.few import ALL, sample
from textual.pilot import Pilot
from textual.widgets import Input

from fasten.advice.advise import advise
from fasten.errors import FastenError
from fasten.model import Advice
from fasten.question.fields import FORM, NAMES
from fasten.question.read import read_question
from fasten.question.resolve import resolve
from fasten.report.answer.as_text import Chapter, chapters
from fasten.tui import not_a_terminal, run
from fasten.tui.mounts.answer import AnswerPanel
from fasten.tui.widgets.panels import DoPanel

from .pilot import (
    AMPLIFIER,
    TABLES,
    app_of,
    drive,
    every_size,
    flat,
    least_room,
    lines,
    press,
    say,
    seen,
    settle,
    take,
    type_text,
)

SHORT = (44, 15)


def plain_advice(**said: str) -> Advice:
    """What the command line answers to the same question."""
    fields = {"item": "amplifier", "onto": "steel 0.8 mm", "removed": "yearly"} | said
    return advise(resolve(read_question(fields, TABLES), TABLES), TABLES)


def words_of(pilot: Pilot[None]) -> str:
    """The whole answer, scrolled off or not."""
    return str(pilot.app.query_one("#words").render())


def band_of(pilot: Pilot[None]) -> str:
    """The verdict, without its hatch."""
    return " ".join(str(pilot.app.query_one("#band").render()).strip("▞ ").split())


def steps_of(pilot: Pilot[None]) -> list[str]:
    """The first line of each step, also where the plan stands beside it."""
    found = (re.search(r"(?:^|\s)(\d{1,2}\.\s+\S.*)$", line) for line in words_of(pilot).splitlines())
    return [step[1].rstrip() for step in found if step is not None]


@every_size
def test_three_answers_give_hole_bit_and_torque_in_the_words_of_the_command_line(size: tuple[int, int]) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, "amplifier", "steel 0.8 mm", "yearly")
        shown = flat(pilot)
        width = min(pilot.app.query_one("#reading").scrollable_content_region.width, 96)
        advice = plain_advice()
        own = (Chapter.PROOF, Chapter.STEPS)  # the proof folds, and the plan may stand beside the steps
        plain = [lines for chapter, lines in chapters(advice, width, in_form=True).items() if chapter not in own]
        assert {line for found in plain for line in found} <= set(words_of(pilot).splitlines())
        steps = [step.text for step in advice.answers[0].steps]
        assert [step.split()[1:4] for step in steps_of(pilot)[: len(steps)]] == [text.split()[:3] for text in steps]
        words = " ".join(words_of(pilot).split())
        assert all(check.title in words for check in advice.answers[0].proposal.checks)
        for text in ("hole and bit 7.6 mm", "torque 1.49 N·m", "NOT PROVEN needs 15.4 mm behind"):
            assert text in shown, shown
        assert "Fasten amplifier to steel 0.8 mm, off yearly" in shown

    drive(size, told)


@pytest.mark.slow
@every_size
def test_a_bad_entry_says_why_beside_it_and_keeps_the_last_answer_under_its_own_entry(size: tuple[int, int]) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        steps = steps_of(pilot)
        await press(pilot, "shift+tab", "shift+tab", "end")
        await type_text(pilot, "xy")
        shown = seen(pilot)
        assert "? " in shown
        assert "no known unit" in " ".join(shown.split())
        assert band_of(pilot).startswith("FOR steel 0.8 mm")
        assert "put right: onto what" in flat(pilot)
        assert steps_of(pilot) == steps
        assert not set("█▀▄┌├└") & set(words_of(pilot).partition("STEPS")[0])  # no figure to drill by, and no drawing
        assert any(line.lstrip(" │").startswith("hole    7.6 mm") for line in text_right_of_form(pilot))

    drive(size, told)


def text_right_of_form(pilot: Pilot[None]) -> list[str]:
    left = pilot.app.query_one(AnswerPanel).region.x
    return [line[left:] for line in lines(pilot)]


@pytest.mark.slow
def test_the_answer_is_current_again_once_the_entry_is_good_again() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await press(pilot, "shift+tab", "shift+tab", *["backspace"] * 6)
        assert band_of(pilot).startswith("FOR steel 0.8 mm")
        await type_text(pilot, "1.2 mm")
        assert band_of(pilot).startswith("NOT PROVEN")
        assert "Fasten amplifier to steel 1.2 mm, off yearly" in flat(pilot)

    drive((80, 24), told)


@pytest.mark.slow
def test_an_emptied_field_leaves_the_answer_marked_and_says_what_is_still_to_say() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await press(pilot, "shift+tab", "backspace")
        assert band_of(pilot) == "FOR yearly still to say: how often off"

    drive((80, 24), told)


def test_a_changed_further_word_is_named_over_the_answer_that_was_without_it() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER, "40 mm")
        await press(pilot, "shift+tab", "backspace")
        await type_text(pilot, "x")
        assert band_of(pilot) == "FOR space behind 40 mm put right: space behind"

    drive((80, 24), told)


@pytest.mark.slow
def test_a_word_said_since_is_named_over_the_answer_that_did_not_know_it() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await press(pilot, "x", "tab")
        await type_text(pilot, "30 mm")
        assert band_of(pilot) == "WITHOUT edge put right: space behind"

    drive((120, 40), told)


@pytest.mark.slow
@least_room
def test_the_word_in_hand_and_its_reason_and_the_answers_first_lines_are_in_view_together(
    size: tuple[int, int],
) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        for ask in FORM[3 :: 1 if ALL else 9]:
            await take(pilot, ask.name)
            await type_text(pilot, "[b")
            shown = seen(pilot)
            assert f"▌{ask.label} [b" in shown, shown
            assert any("? " in line for line in lines(pilot)[3:]), shown
            assert "M5 rivet nut" in shown, shown
            await press(pilot, "backspace", "backspace")

    drive(size, told)


MARKUP = ("[M8]", "[A2-70]", "[/", "[b", "[@click=app.quit]x[/]")


@pytest.mark.slow
def test_text_that_looks_like_markup_can_be_typed_and_stands_as_typed() -> None:
    async def told(pilot: Pilot[None]) -> None:
        for text in MARKUP:
            await type_text(pilot, text)
            shown = lines(pilot)
            assert any(line.startswith(f"▌What {text}") for line in shown), shown
            assert any("? " in line and text[:12] in line for line in shown[4:]), shown
            pilot.app.query_one("#entry", Input).value = ""

    drive((80, 24), told)


@pytest.mark.slow
def test_text_that_looks_like_markup_stands_as_typed_in_every_field_and_harms_nothing() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        text = sample(MARKUP, 2)[0]
        for ask in FORM if ALL else FORM[::5]:
            await take(pilot, ask.name)
            await type_text(pilot, text)
            assert f"▌{ask.label} {text}" in seen(pilot), seen(pilot)
            assert "? " in flat(pilot)
            assert band_of(pilot).startswith(("FOR ", "WITHOUT ", "NOT CURRENT "))
            await press(pilot, *["backspace"] * len(text))
        said = dict(zip(("item", "onto", "removed"), AMPLIFIER, strict=True))
        assert {name: typed for name, typed in app_of(pilot).mounts.form.said().items() if typed} == said

    drive((120, 40), told)


@pytest.mark.slow
def test_keys_typed_without_a_pause_reach_the_field_they_were_meant_for() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await press(pilot, *"amp", "enter", *"steel 0.8 mm", "tab", *"y", "down", *"40 mm", "enter", *"9 cm")
        typed = {name: text for name, text in app_of(pilot).mounts.form.said().items() if text}
        assert typed == {"item": "amp", "onto": "steel 0.8 mm", "removed": "y", "behind": "40 mm", "edge": "9 cm"}

    drive((44, 15), told)


@pytest.mark.slow
def test_on_a_small_screen_the_answer_can_have_it_all_and_the_way_back_is_a_button() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await press(pilot, ";", "v")
        assert pilot.app.focused is pilot.app.query_one("#reading")
        assert "Space behind" not in seen(pilot)
        assert pilot.app.query_one("#sentence").size.height == 1
        assert "Fasten amplifier" in seen(pilot), "what it is of, whatever word is in hand"
        await press(pilot, "v")
        assert pilot.app.focused is pilot.app.query_one("#entry")
        assert "Space behind" in seen(pilot)

    drive(SHORT, told)


@pytest.mark.slow
@every_size
def test_every_line_of_the_answer_can_be_reached_while_a_field_has_the_focus(size: tuple[int, int]) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        found: set[str] = set()
        for _ in range(40):
            found |= {line.strip(" │▁▂▃▄▅▆▇█") for line in text_right_of_form(pilot)}
            await press(pilot, "pagedown")
        assert {line.strip(" │▁▂▃▄▅▆▇█") for line in words_of(pilot).splitlines()} <= found

    drive(size, told)


@pytest.mark.slow
def test_a_resize_keeps_what_was_typed_the_answer_and_the_focus() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        focused = pilot.app.focused
        await pilot.resize_terminal(44, 15)
        await settle(pilot)
        assert "hole and bit 7.6 mm" in seen(pilot)
        assert max(map(len, words_of(pilot).splitlines())) <= 44
        assert pilot.app.focused is focused

    drive((120, 40), told)


@pytest.mark.slow
@every_size
def test_quit_is_two_plain_keys_away_while_a_field_has_the_focus(size: tuple[int, int]) -> None:
    async def told(pilot: Pilot[None]) -> None:
        assert " ; " in seen(pilot)
        await press(pilot, ";")
        assert isinstance(pilot.app.screen, DoPanel)
        await press(pilot, "q")
        assert not pilot.app.is_running

    drive(size, told)


@pytest.mark.slow
def test_where_nothing_fits_every_refusal_stands_instead_of_an_empty_answer() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await type_text(pilot, "2 mm")
        assert "NO FIT would fit with" in seen(pilot)
        assert "DOES NOT FIT" in words_of(pilot)

    drive((120, 40), told)


@pytest.mark.slow
def test_a_fault_in_working_out_an_answer_leaves_the_screen_and_what_was_typed(monkeypatch: pytest.MonkeyPatch) -> None:
    def fails(*_: object, **__: object) -> None:
        raise ZeroDivisionError("[boom")

    async def told(pilot: Pilot[None]) -> None:
        monkeypatch.setattr("fasten.tui.mounts.entry.consider", fails)
        await say(pilot, "amp")
        assert "fault of the program, not yours: ZeroDivisionError: [boom" in flat(pilot)
        assert app_of(pilot).mounts.form.said()["item"] == "amp"

    monkeypatch.delenv("FASTEN_DEBUG", raising=False)
    drive((80, 24), told)


@pytest.mark.parametrize("closed", ["stdin", "stdout", "stderr"])
def test_without_a_terminal_one_sentence_names_the_plain_commands(closed: str, monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("stdin", "stdout", "stderr"):
        monkeypatch.setattr(sys, name, SimpleNamespace(isatty=lambda name=name: name != closed))
    sentence = not_a_terminal()
    assert sentence is not None
    assert "fasten pick" in sentence
    assert "fasten look" in sentence
    assert "\n" not in sentence


def test_a_dumb_terminal_is_none_and_a_real_one_is(monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("stdin", "stdout", "stderr"):
        monkeypatch.setattr(sys, name, SimpleNamespace(isatty=lambda: True, encoding="utf-8"))
    monkeypatch.setenv("TERM", "dumb")
    assert not_a_terminal() is not None
    monkeypatch.setenv("TERM", "xterm-256color")
    assert not_a_terminal() is None


def test_a_named_job_that_is_broken_is_refused_before_the_screen_opens(tmp_path: Path) -> None:
    broken = tmp_path / "car.toml"
    broken.write_text("format = 1\nkind = ", encoding="utf-8")
    with pytest.raises(FastenError, match="line 2"):
        run(str(broken), tables=TABLES)


def test_every_field_of_a_question_is_asked_once() -> None:
    assert sorted(ask.name for ask in FORM) == sorted(NAMES)


def test_a_label_leaves_room_for_what_is_typed_on_a_phone() -> None:
    assert max(len(ask.label) for ask in FORM) < 16
