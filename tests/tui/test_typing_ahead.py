"""Typing ahead: only what stands there at last is answered, and it is drawn as if all of the screen were."""

from collections.abc import Callable
from typing import Any
from unittest.mock import patch

import pytest
from textual._compositor import ChopsUpdate, Compositor
from textual.pilot import Pilot

from fasten.tui.mounts import entry
from fasten.tui.state.outcome import Outcome
from fasten.tui.terminal.sparing import SparingCompositor

from .pilot import AMPLIFIER, app_of, do, drive, flat, hit, lines, press, say, settle, take, until, wide_or_narrow

# To the first of many keys, where more are not there yet, then the first to all, and its whole, worked out and shown.
MOST_ANSWERS = 4


def test_what_stood_between_is_not_answered() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await press(pilot, "up", "up", *"steel 1 mm")
        with patch.object(entry, "consider", wraps=entry.consider) as considered:
            hit(pilot, *["backspace"] * 10, *"aluminium 2 mm")
            await settle(pilot)
        assert considered.call_count <= MOST_ANSWERS
        assert "aluminium 2 mm" in flat(pilot)
        assert app_of(pilot).mounts.outcome.good is not None

    drive((80, 24), told)


@pytest.mark.slow
def test_a_text_that_comes_back_before_the_next_was_answered_whole_has_its_own_answer() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await press(pilot, "up", "up", *"aluminium 9 mm", "left", "left", "left")
        was = lines(pilot)[1:]  # beneath the top line, which says when the job was saved
        mounts = app_of(pilot).mounts
        with patch("fasten.tui.mounts.mounts.REST_S", 60.0):
            hit(pilot, "backspace", *"2")
            await until(pilot, lambda: "aluminium 2 mm" in flat(pilot))
            assert mounts.is_waiting, "the rest of its answer comes later"
        await press(pilot, "backspace", *"9")
        assert lines(pilot)[1:] == was

    drive((80, 24), told)


@pytest.mark.slow
def test_the_answer_is_shown_first_and_in_the_frame_after_it_what_it_is_to() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await press(pilot, "up", "up", *"aluminium 9 mm", "left", "left", "left")
        place = app_of(pilot).mounts.answer.region.y
        sentence, answer = lines(pilot)[1], lines(pilot)[place:]
        with patch("fasten.tui.mounts.mounts.SHOWN_S", 60.0):
            hit(pilot, "backspace", *"2")
            await until(pilot, lambda: lines(pilot)[place:] != answer)
            assert lines(pilot)[1] == sentence
        app_of(pilot).mounts.work_out_now()
        await settle(pilot)
        assert "aluminium 2 mm" in lines(pilot)[1]

    drive((80, 24), told)


@pytest.mark.slow
def test_what_is_left_of_an_answer_is_not_shown_where_a_key_came_while_it_was_worked_out() -> None:
    whole: list[str] = []

    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await press(pilot, "up", "up", *"steel 1 m")
        mounts, considered = app_of(pilot).mounts, entry.considered

        def meanwhile(said: dict[str, str], *given: Any, only_first: bool) -> Outcome:
            if not only_first and said["onto"] == "steel 1 mm":
                hit(pilot, "backspace", "backspace")
            return considered(said, *given, only_first=only_first)

        def shown(outcome: Outcome, kept: object = None) -> None:
            whole.append(outcome.readings["onto"].taken)

        with patch.object(entry, "considered", meanwhile), patch.object(mounts.answer, "show", shown):
            await press(pilot, "m")

    drive((80, 24), told)
    assert "steel 1 mm" not in whole
    assert whole[-1] == "steel 1 "


@pytest.mark.slow
def test_nothing_waits_any_more_where_another_mount_point_is_gone_to_before_all_is_answered() -> None:
    """What stands there is as it was loaded, so it is not taken; else the rail would wait for its answer for ever."""

    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await do(pilot, "n")
        await say(pilot, "trim", "MDF 18 mm", "rarely")
        app = app_of(pilot)
        app.go_to(0, app.open_job.revision)
        await take(pilot, "onto")
        await press(pilot, "end", "left", "left", "left")
        with patch("fasten.tui.mounts.mounts.REST_S", 60.0):
            hit(pilot, *"5")
            await until(pilot, lambda: "steel 0.85 mm" in flat(pilot))
            hit(pilot, "backspace")
            await until(pilot, lambda: "steel 0.8 mm" in flat(pilot) and not app.mounts.is_typed)
            assert app.mounts.is_waiting
            app.go_to(1, app.open_job.revision)
        assert not app.mounts.is_waiting

    drive((80, 24), told)


@pytest.mark.slow
@wide_or_narrow
def test_what_is_drawn_is_as_if_all_of_it_were(size: tuple[int, int]) -> None:
    drawn: list[int] = []

    def both(compositor: SparingCompositor) -> ChopsUpdate | None:
        dirty = set(compositor._dirty_regions)
        ours = sparing(compositor)
        compositor._dirty_regions |= dirty
        theirs = Compositor.render_partial_update(compositor)
        assert (ours is None) == (theirs is None)
        if ours is not None and theirs is not None:
            assert _cells(ours) == _cells(theirs)
            drawn.append(len(ours.spans))
        return ours

    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await press(pilot, "up", "up", *"aluminium 3.45 mm", "up", *"speak", "down", "pagedown", "pageup")
        await press(pilot, ";", "escape", ";", "b")
        await press(pilot, "down", "down", ";", "m")

    sparing: Callable[[SparingCompositor], ChopsUpdate | None] = SparingCompositor.render_partial_update
    with patch.object(SparingCompositor, "render_partial_update", both):
        drive(size, told, is_drawn=True)
    assert len(drawn) > len("speak"), "each of the keys changes something"


def _cells(update: ChopsUpdate) -> list[tuple[int, int, object]]:
    """What stands where of each span that is drawn anew."""
    return [
        (y, at, strip)
        for y, left, right in update.spans
        for (at, strip), end in zip(update.chops[y].items(), update.chop_ends[y], strict=True)
        if at < right and end > left
    ]
