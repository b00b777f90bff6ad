"""A job from a few words on the screen, what is confirmed, what is asked of twins once, and copies and pairs by key."""

import shlex
from pathlib import Path

import pytest
from textual.pilot import Pilot

from fasten.__main__ import main
from fasten.cli import COMMANDS as COMMAND_LINE
from fasten.job.edit import find_mount
from fasten.job.preset import proposed_onto
from fasten.job.store.storage import load_job
from fasten.job.words import Job
from fasten.tui.actions import ACTIONS, COMMANDS
from fasten.tui.box.box import BoxPlace

from .pilot import (
    TABLES,
    Told,
    app_of,
    do,
    drive,
    every_size,
    fill,
    flat,
    lines,
    notices,
    press,
    say,
    settle,
    take,
    type_text,
)

pytestmark = pytest.mark.slow

SCREEN_ONLY = {
    "read",
    "read_run",
    "all_steps",
    "section",
    "view_route",
    "run_answer",
    "all_mounts",
    "shade",
    "quit",
}
"""What moves about or looks otherwise."""
MOST_KEYS = 600


def job_on_disk(folder: Path) -> Job:
    return load_job(folder / "job.toml", TABLES).value


def hand(pilot: Pilot[None]) -> str:
    mount = app_of(pilot).open_job.mount
    assert mount is not None
    return mount.name


def test_what_the_screen_does_commands_do_and_the_other_way_round() -> None:
    """An action that is added must be done by a command too, or be one that only moves about; and so for a command."""
    actions = {action.name for action in ACTIONS}
    assert set(COMMANDS) <= actions
    assert {name for name in actions if not COMMANDS.get(name)} == SCREEN_ONLY
    named = {command for commands in COMMANDS.values() for command in commands}
    assert named <= set(COMMAND_LINE)
    assert set(COMMAND_LINE) == named


@every_size
def test_a_few_words_start_a_job_whose_values_are_all_preset(size: tuple[int, int], tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await type_text(pilot, "amplifier, doors")
        assert "Enter adds 5 mount points" in flat(pilot)
        assert "put right" not in flat(pilot)
        await press(pilot, "enter")
        assert "Not kept" not in notices(pilot)
        assert hand(pilot) == "amplifier"
        names = [mount.name for mount in job_on_disk(tmp_path).mounts]
        assert names[:3] == ["amplifier", "left door adapter", "right door adapter"]
        assert "(proposed)" in flat(pilot)
        await do(pilot, "u")
        assert job_on_disk(tmp_path).mounts == ()

    drive(size, told, tmp_path)


def test_an_item_by_itself_is_asked_as_ever_and_words_that_are_nothing_say_why(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await type_text(pilot, "kayak")
        assert "Enter adds" not in flat(pilot)
        assert "not a known item" in flat(pilot)
        await press(pilot, *["backspace"] * 5)
        await say(pilot, "amplifier", "steel 0.8 mm", "y")
        assert [mount.install for mount in job_on_disk(tmp_path).mounts] == [""]

    drive((80, 24), told, tmp_path)


def test_of_several_things_it_says_which_is_not_known(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await type_text(pilot, "amplifier, kayak, doors")
        assert "Enter adds" not in flat(pilot)
        assert "'kayak' names no install; write amplifier, board" in flat(pilot)

    drive((80, 24), told, tmp_path)


def test_enter_confirms_what_is_proposed_for_one_its_twin_or_the_whole_install(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, "amplifier, doors")
        await press(pilot, "enter", "enter")  # its item, then what it is on: it is the only one of its install
        assert proposed_onto(job_on_disk(tmp_path).mounts[0]) == ""
        assert not pilot.app.screen.is_modal
        app_of(pilot).open_job.go_to(1, app_of(pilot).open_job.revision)
        app_of(pilot).tell()
        await take(pilot, "onto")
        await press(pilot, "enter")
        assert "the same at right door adapter" in flat(pilot)
        await press(pilot, "enter")
        job = job_on_disk(tmp_path)
        assert [bool(proposed_onto(mount)) for mount in job.mounts] == [False, False, False, True, True]
        await take(pilot, "onto")
        await press(pilot, "enter")
        assert not pilot.app.screen.is_modal  # it is said by now
        app_of(pilot).open_job.go_to(3, app_of(pilot).open_job.revision)
        app_of(pilot).tell()
        await take(pilot, "onto")
        await press(pilot, "enter", *"this", "enter")
        assert [bool(proposed_onto(mount)) for mount in job_on_disk(tmp_path).mounts][3:] == [False, True]

    drive((80, 24), told, tmp_path)


async def by_rail(pilot: Pilot[None]) -> None:
    await pilot.click("#mount_list", offset=(8, 2))
    await settle(pilot)


async def by_list(pilot: Pilot[None]) -> None:
    await do(pilot, "a")
    await press(pilot, "1", "enter")


async def by_title(pilot: Pilot[None]) -> None:
    await pilot.click(offset=(lines(pilot)[0].index("‹"), 0))
    await settle(pilot)


async def to_another_page(pilot: Pilot[None]) -> None:
    await do(pilot, "l")


@pytest.mark.parametrize("leave", [by_rail, by_list, by_title, to_another_page])
def test_both_is_asked_once_however_a_mount_point_is_left(leave: Told, tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, "amplifier", "steel 0.8 mm", "y")
        await do(pilot, "t")
        await fill(pilot, "left amp", "", "1")
        await do(pilot, "p")
        await take(pilot, "mass")
        await press(pilot, *"4 kg")
        await leave(pilot)
        assert "The same at its twin?" in flat(pilot)
        await press(pilot, "enter")
        assert [dict(mount.said).get("mass") for mount in job_on_disk(tmp_path).mounts] == ["4 kg", "4 kg"]
        if leave is to_another_page:
            await do(pilot, "m")
        else:
            assert hand(pilot) == "left amp"
            assert app_of(pilot).mounts.form.said()["mass"] == "4 kg", "what is in hand is shown as it is now"
        await do(pilot, "s")
        assert "The same at its twin?" not in flat(pilot), "it is asked once"

    drive((120, 40), told, tmp_path)


def test_both_is_asked_once_when_a_word_is_left_and_nothing_is_said_of_a_twin_silently(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, "doors")
        await take(pilot, "item-hole")
        await type_text(pilot, "5 mm")
        assert "item-hole" not in dict(find_mount(job_on_disk(tmp_path), "right door adapter").said)
        await press(pilot, "enter")
        assert "The same at its twin?" in flat(pilot)
        await press(pilot, "enter")
        job = job_on_disk(tmp_path)
        assert {dict(mount.said).get("item-hole") for mount in job.mounts[:2]} == {"5 mm"}
        await take(pilot, "mass")
        await say(pilot, "0.7 kg")
        await press(pilot, *"only", "enter")
        assert "mass" not in dict(find_mount(job_on_disk(tmp_path), "right door adapter").said)
        await take(pilot, "mass")
        await say(pilot, "0.8 kg")
        assert not pilot.app.screen.is_modal  # it differs there already
        await take(pilot, "behind")
        await say(pilot, "40 mm")
        assert not pilot.app.screen.is_modal  # it is measured on each side

    drive((80, 24), told, tmp_path)


def test_a_key_copies_a_key_pairs_and_what_is_to_be_measured_again_is_said(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, "left amp")
        await take(pilot, "behind")
        await say(pilot, "40 mm")
        await do(pilot, "p")
        assert hand(pilot) == "right amplifier"
        assert "measure again: space behind" in notices(pilot)
        await do(pilot, "o")
        assert hand(pilot) == "right amplifier 2"
        await do(pilot, "u", "u")
        assert [mount.name for mount in job_on_disk(tmp_path).mounts] == ["left amplifier"]

    drive((80, 24), told, tmp_path)


def test_the_place_in_the_list_is_set_where_it_is_named(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, "amplifier, box")
        await do(pilot, "t")
        await fill(pilot, "front amp", "under the seat", "2")
        job = job_on_disk(tmp_path)
        assert [mount.name for mount in job.mounts] == ["enclosure", "front amp"]
        assert hand(pilot) == "front amp"
        await do(pilot, "t")
        await fill(pilot, None, None, "9")
        assert "no place 9" in flat(pilot)

    drive((80, 24), told, tmp_path)


FITTED = "amplifier, two doors, enclosure, power"


def test_from_nothing_to_a_list_of_all_of_it_takes_at_most_600_keys(tmp_path: Path) -> None:
    keys = 0

    async def told(pilot: Pilot[None]) -> None:
        async def person(*pressed: str) -> None:
            nonlocal keys
            keys += len(pressed)
            await press(pilot, *pressed)

        await person(*FITTED, "enter")
        await person("enter", "enter")  # what the amplifier is on
        for name in ("left door adapter", "enclosure", "fuse holder"):
            await person(";", "a", *name, "enter", "enter", "enter")
            if pilot.app.screen.is_modal:
                await person(*"all", "enter")
        await person(";", "a", *"amplifier", "enter")
        await person(*["tab"] * 30, *"power", "enter", *"600 W class D", "enter", ";", "b")
        await settle(pilot)
        box = pilot.app.query_one(BoxPlace).box
        assert box is not None
        assert box.listed.parts

    drive((80, 24), told, tmp_path)
    job = job_on_disk(tmp_path)
    assert not [mount.name for mount in job.mounts if proposed_onto(mount)]
    assert dict(find_mount(job, "amplifier").said)["power"] == "600 W class D"
    assert keys <= MOST_KEYS


def test_the_same_by_commands(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("FASTEN_TABLES", str(tmp_path / "none"))
    typed = (
        f"fasten start car.toml --with '{FITTED}'", "fasten set car.toml amplifier power='600 W class D' --onto",
        "fasten set car.toml door-speakers --onto", "fasten set car.toml enclosure --onto",
        "fasten set car.toml power-run --onto", "fasten hardware car.toml",
    )  # fmt: skip
    for line in typed:
        assert main(shlex.split(line)[1:]) == 0, line
    listed = capsys.readouterr().out
    assert "PARTS" in listed
    assert "amplifier power" in listed
    assert sum(len(line) + 1 for line in typed) <= MOST_KEYS
