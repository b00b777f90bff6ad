"""A first start asks what is being fitted: rows grow as it is typed, and are taken with their presets marked."""

from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import Input

from fasten.tui.drawn.sentence import Kind
from fasten.tui.drawn.verdict import verdict_of
from fasten.tui.start.start_rows import examples, made_of
from fasten.tui.state.open_job import EMPTY

from .pilot import TABLES, app_of, drive, every_size, flat, press, seen, settle, take, type_text


def test_what_is_typed_makes_mount_points_with_what_each_will_ask() -> None:
    made = made_of("amplifier, two door speakers, bracket, zzz", EMPTY, TABLES)
    assert [mount.name for mount in made.job.mounts][:1] + [made.job.mounts[-1].name] == ["amplifier", "bracket"]
    words = {row.name: row.state.word for row in made.rows}
    assert words["amplifier"].startswith("asks ")
    assert words["right door driver"] == "twin"
    assert "names no install" in made.why
    assert dict(made.job.mounts[-1].said) == {"item": "bracket"}


def test_every_example_can_be_taken() -> None:
    for said, _ in examples(TABLES):
        made = made_of(said, EMPTY, TABLES)
        assert made.rows
        assert not made.why


@pytest.mark.slow
@every_size
def test_a_first_start_asks_what_is_fitted_and_goes_on_to_its_first_question(size: tuple[int, int]) -> None:
    async def told(pilot: Pilot[None]) -> None:
        app = app_of(pilot)
        assert "What are you fitting?" in seen(pilot)
        await type_text(pilot, "amp")
        assert "1 · amplifier" in seen(pilot)
        await type_text(pilot, "zz")
        assert "? 'ampzz' names no install" in flat(pilot)
        await press(pilot, "enter")
        assert app.place == "start", "what is not understood is not taken"
        await press(pilot, "backspace", "backspace", "enter")
        assert [mount.name for mount in app.open_job.job.mounts] == ["amplifier"]
        form = app.mounts.form
        assert (app.place, form.current) == ("mounts", "onto")
        assert next(word for word in form.words() if word.name == "onto").kind is Kind.PRESET
        answer = app.mounts.first_answer()
        assert answer is not None
        assert not answer.proposal.proven
        good, asked = app.mounts.outcome.good, app.mounts.outcome.asked
        assert good is not None
        needs = verdict_of(good.advice, asked).reasons
        assert ["confirmed" in needs[0], "push" in needs[1]] == [True, True], "what is asked first stands first"
        assert "is only proposed" in str(app.query_one("#words").render())
        await press(pilot, "enter")
        assert form.current == "support", "what its answer waits for, not what is preset"
        mount = app.open_job.mount
        assert mount is not None
        assert "onto" not in mount.preset
        assert "is only proposed" not in str(app.query_one("#words").render())
        await take(pilot, "removed")
        await press(pilot, *"monthly")
        assert "removed" not in app.open_job.job.mounts[0].preset

    drive(size, told, is_first=True)


@pytest.mark.slow
def test_an_install_is_added_by_a_tap_and_all_taken_by_another() -> None:
    async def told(pilot: Pilot[None]) -> None:
        row = next(at for at, line in enumerate(seen(pilot).splitlines()) if "+ tweeters" in line)
        await pilot.click(offset=(8, row))
        await settle(pilot)
        assert pilot.app.query_one("#start-field", Input).value == "tweeters"
        await pilot.click("#start-take")
        await settle(pilot)
        assert len(app_of(pilot).open_job.job.mounts) == 2
        assert app_of(pilot).place == "mounts"

    drive((44, 30), told, is_first=True)


@pytest.mark.slow
def test_nothing_to_start_from_goes_on_to_an_empty_question() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await press(pilot, "enter", *"amp")
        assert app_of(pilot).place == "mounts"
        assert dict(app_of(pilot).open_job.said) == {"item": "amplifier"}

    drive((80, 24), told, is_first=True)


@pytest.mark.slow
@every_size
def test_a_new_job_asks_what_is_fitted_as_the_first_did(size: tuple[int, int], tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await press(pilot, *"amplifier", "enter", ";", "j")
        await press(pilot, *"start", "enter", *"two tweeters", "enter")
        assert [mount.name for mount in app_of(pilot).open_job.job.mounts] == ["left tweeter", "right tweeter"]
        assert app_of(pilot).place == "mounts"
        assert len(list(tmp_path.rglob("*.toml"))) == 2

    drive(size, told, tmp_path, is_first=True)


@pytest.mark.slow
def test_a_new_job_asks_what_is_fitted_also_where_one_that_is_not_saved_is_left_for_it(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await press(pilot, *"amplifier", "enter")
        path = app_of(pilot).open_job.path
        assert path is not None
        path.write_text(f"{path.read_text()}# by somebody else\n")
        await press(pilot, *"steel 1 mm", "enter", ";", "j")
        await press(pilot, *"start", "enter", *"lose", "enter")
        assert app_of(pilot).open_job.job == EMPTY
        assert "What are you fitting?" in flat(pilot)

    drive((80, 24), told, tmp_path, is_first=True)
