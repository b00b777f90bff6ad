"""The page of runs by keys, mouse and touch: asked, answered as one types, proposed, accepted, ticked, taken back."""

from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from textual.pilot import Pilot
from textual.widgets import Input, OptionList

from fasten.job.store.storage import load_job
from fasten.job.wiring.runs import run_choices
from fasten.job.wiring.settle import to_settle
from fasten.job.words import Job
from fasten.tui.actions import HOME
from fasten.tui.work.work import WorkPlace

from .pilot import TABLES, Told, app_of, do, drive, every_size, fill, flat, lines, press, say, seen, settle

pytestmark = pytest.mark.slow

JOB = """format = 2
kind = "job"
title = "Boot"

[[mount]]
name = "left amplifier"
item = "amplifier"
onto = "plywood 18 mm"
removed = "yearly"
power = "1000 W class D"

[[mount]]
name = "ground"
item = "ground-lug"
onto = "steel 1.2 mm"
removed = "rarely"

[[section]]
name = "bonnet"
where = "engine-bay"
length = "1.2 m"

[[run]]
name = "main power"
from = "battery stud M8"
to = "left amplifier, set screw"
length = "5 m"
"""
_AMPLIFIER = JOB[JOB.index("[[mount]]") : JOB.index("[[mount]]", 60)]
PAIR = JOB[: JOB.index("[[run]]")] + _AMPLIFIER.replace("left", "right")
GROUNDED = JOB.replace('length = "5 m"', 'length = "5 m"\nground = "0.45 m"')  # nothing is left to say of it


def drive_job(size: tuple[int, int], told: Told, text: str = JOB) -> Job:
    """Drive the screen on a job; what its file holds at the end."""
    with TemporaryDirectory() as folder:
        path = Path(folder) / "job.toml"
        path.write_text(text)

        async def told_and_saved(pilot: Pilot[None]) -> None:
            await told(pilot)
            app_of(pilot).save()

        drive(size, told_and_saved, Path(folder), path)
        return load_job(path, TABLES).value


def runs(pilot: Pilot[None]) -> dict[str, dict[str, str]]:
    return {run.name: dict(run.said) for run in app_of(pilot).open_job.job.runs}


async def choose(pilot: Pilot[None], text: str) -> None:
    """Go down the list in hand to the line that shows a text, and press it."""
    focused = app_of(pilot).focused
    assert isinstance(focused, OptionList)
    for _ in range(80):
        at = focused.highlighted
        if at is not None and text in str(focused.get_option_at_index(at).prompt):
            await press(pilot, "enter")
            return
        await press(pilot, "down")
    raise AssertionError(f"{text} is not listed: {seen(pilot)}")


@every_size
def test_a_run_is_asked_for_word_by_word_and_answered_as_one_types(size: tuple[int, int]) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "r")
        await press(pilot, "n")
        await say(pilot, "72 A", "battery stud M8", "le, se")
        assert "STILL TO SAY" in seen(pilot)
        await press(pilot, *"3 m")
        assert "NOT PROVEN" in seen(pilot)
        assert "fuse" in seen(pilot)
        await press(pilot, "enter", *"0.45 m")
        assert "0.45 m" in seen(pilot)
        assert runs(pilot)["power"] == {
            "carries": "72 A", "from": "battery stud M8", "to": "left amplifier, set screw", "length": "3 m",
            "ground": "0.45 m",
        }  # fmt: skip

    kept = drive_job(size, told)
    assert [run.name for run in kept.runs] == ["main power", "power"]


@every_size
def test_what_is_not_understood_is_said_and_the_answer_is_not_current(size: tuple[int, int]) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "r")
        await press(pilot, "enter", "tab", "tab", "tab", *"far")
        assert "NOT CURRENT put right: length" in seen(pilot)
        assert "? far" in seen(pilot)
        await settle(pilot)
        assert "not kept: Length" in lines(pilot)[0]
        assert runs(pilot)["main power"]["length"] == "5 m"
        await press(pilot, *["backspace"] * 3, *"6 m")
        assert "NOT CURRENT" not in seen(pilot)
        await settle(pilot)
        assert "not kept" not in lines(pilot)[0]

    assert dict(drive_job(size, told, GROUNDED).runs[0].said)["length"] == "6 m"


def test_a_ground_lead_that_is_not_said_is_the_word_to_say_next() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "r")
        await press(pilot, "enter", *"0.45 m")

    assert dict(drive_job((120, 40), told).runs[0].said)["ground"] == "0.45 m"


def test_down_goes_on_from_the_runs_to_what_is_to_be_said_of_them() -> None:
    """On a desk the marked run stands beside the list, and the list is written anew at each step."""

    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "r")
        await choose(pilot, "Terminal")
        await press(pilot, *",se")

    more = '[[run]]\nname = "remote"\ncarries = "remote"\nfrom = "connector"\nto = "connector"\nlength = "4 m"\n'
    kept = drive_job((120, 40), told, f"{JOB.replace('left amplifier, set screw', 'left amplifier')}\n{more}")
    assert dict(kept.runs[0].said)["to"] == "left amplifier, set screw"


@every_size
def test_each_word_is_one_step_to_take_back_and_to_make_again(size: tuple[int, int]) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "r")
        await press(pilot, "n")
        await say(pilot, "72 A", "battery stud M8")
        await do(pilot, "u")
        assert runs(pilot)["power"] == {"carries": "72 A"}
        await do(pilot, "u")
        assert "power" not in runs(pilot)
        await do(pilot, "y", "y")
        assert runs(pilot)["power"] == {"carries": "72 A", "from": "battery stud M8"}

    drive_job(size, told)


@every_size
def test_what_is_proposed_is_taken_after_the_lengths_are_asked_once(size: tuple[int, int]) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "r")
        await choose(pilot, "take all of them")
        await fill(pilot, "4 m")
        assert set(runs(pilot)) == {f"left amplifier {kind}" for kind in ("ground", "remote", "signal")} | {
            "main power"
        }
        assert runs(pilot)["left amplifier ground"]["to"] == "ground"
        await do(pilot, "u")
        assert set(runs(pilot)) == {"main power"}

    drive_job(size, told)


@every_size
@pytest.mark.parametrize("line", ["take all of them", "new distribution block", "right amplifier: no power"])
def test_the_block_that_amplifiers_lack_comes_with_its_runs_and_goes_with_them(
    size: tuple[int, int], line: str
) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "r")
        await choose(pilot, line)
        assert ("to amplifiers (" in flat(pilot)) is (line != "right amplifier: no power")
        if line != "right amplifier: no power":
            await fill(pilot, *(("battery stud M8", "5 m", "4 m") if "all" in line else ("battery stud M8", "5 m")))
        assert "new mount point distribution block" in " ".join(seen(pilot).split())
        assert [mount.name for mount in app_of(pilot).open_job.job.mounts][-1] == "distribution block"
        assert set(runs(pilot)) & {"distribution block trunk", "right amplifier power"}
        await do(pilot, "u")
        assert [mount.name for mount in app_of(pilot).open_job.job.mounts][-1] == "right amplifier"
        assert not runs(pilot)

    drive_job(size, told, PAIR)


def test_a_run_that_is_not_proposed_any_more_by_the_lengths_that_are_said_is_not_taken() -> None:
    """Over 9 m no cable does for a trunk of two amplifiers of 1500 W."""

    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "r")
        await choose(pilot, "new distribution block")
        await fill(pilot, "battery stud M8", "9 m")
        assert "other runs are proposed" in " ".join(seen(pilot).split())
        assert not runs(pilot)
        assert dict(app_of(pilot).open_job.job.electrics)["to-amplifiers"] == "9 m"

    drive_job((120, 40), told, PAIR.replace("1000 W", "1500 W"))


@every_size
def test_what_was_measured_is_accepted_and_a_step_is_ticked_by_keys_alone(size: tuple[int, int]) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "r")
        await choose(pilot, "bore of the set screw".capitalize())
        (run,) = app_of(pilot).open_job.job.runs
        assert [one.partition(":")[0] for one in run.accepted] == ["bore"]
        assert "seen" in seen(pilot)
        await do(pilot, "r")
        await press(pilot, "home")
        await choose(pilot, "main power")
        await do(pilot, "v")
        await choose(pilot, "minus off")
        (run,) = app_of(pilot).open_job.job.runs
        assert len(run.ticked) == 1
        await press(pilot, "enter")
        assert app_of(pilot).open_job.job.runs[0].ticked == ()
        await press(pilot, "v")
        assert isinstance(app_of(pilot).focused, Input)

    kept = drive_job(size, told)
    assert any(one.accepted for one in to_settle(run_choices(kept, TABLES)))


@every_size
def test_a_section_is_changed_and_a_cable_is_measured_from_the_list(size: tuple[int, int]) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "r")
        await choose(pilot, "another cable")
        await fill(pilot, "4 AWG", "9.8 mm", None, None, None, None)
        await press(pilot, "home")
        await choose(pilot, "run, 5 lined")
        await fill(pilot, "engine bay", None, None, "tube", None)
        await press(pilot, "home")
        await choose(pilot, "another hole")
        await fill(pilot, "bulkhead", None, "round", None)
        assert "!" in seen(pilot)
        await press(pilot, "up")
        await fill(pilot, "20 mm", None)

    kept = drive_job(size, told, JOB.replace('length = "5 m"\n', 'length = "5 m"\nsections = ["bonnet"]\n'))
    assert [one.name for one in kept.sections] == ["engine bay"]
    assert kept.runs[0].sections == ("engine bay",)
    assert [(one.name, dict(one.said)) for one in kept.cables] == [("4 AWG", {"outside": "9.8 mm"})]
    assert [(one.name, dict(one.said)) for one in kept.holes] == [("bulkhead", {"existing": "20 mm"})]


@every_size
def test_a_run_is_named_dropped_and_put_back(size: tuple[int, int]) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "r")
        await press(pilot, "enter")
        await do(pilot, "t")
        await fill(pilot, "trunk [b]", "blue [/]")
        assert set(runs(pilot)) == {"trunk [b]"}
        assert "trunk [b]" in seen(pilot)
        await do(pilot, "d")
        assert runs(pilot) == {}
        await do(pilot, "u")

    kept = drive_job(size, told, GROUNDED)
    assert [(run.name, run.note) for run in kept.runs] == [("trunk [b]", "blue [/]")]


@every_size
def test_a_tap_takes_a_run_in_hand_a_word_and_an_offer(size: tuple[int, int]) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "r")
        at = next(row for row, line in enumerate(lines(pilot)) if "main power " in line)
        await pilot.click(offset=(8, at))
        await settle(pilot)
        assert app_of(pilot).runs.name_in_hand == "main power"
        if size[0] >= 60:
            row, line = next((row, line) for row, line in enumerate(lines(pilot)) if "battery stud" in line)
            await pilot.click(offset=(line.index("battery stud") + 2, row))
            await settle(pilot)
            assert "▌From" in seen(pilot)
        offered = "remote" if size[0] < 60 else "left amplifier"
        row, column = next((row, line.rindex(offered)) for row, line in enumerate(lines(pilot))
                           if ("signal" in line and offered in line) or "battery post" in line)  # fmt: skip
        await pilot.click(offset=(column + 1, row))
        await settle(pilot)
        assert offered in runs(pilot)["main power"].values()

    drive_job(size, told, GROUNDED)


def test_letters_are_text_in_the_entry_and_actions_in_the_list() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "r")
        await press(pilot, "n")
        await press(pilot, *"bd")
        field = app_of(pilot).focused
        assert isinstance(field, Input)
        assert field.value == "bd"
        await do(pilot, "r")
        await press(pilot, "b")
        assert app_of(pilot).place == "box"

    drive_job((80, 24), told)


def test_the_box_asks_for_the_lug_that_the_cable_of_the_run_wants() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "b")
        await do(pilot, "r")
        await choose(pilot, "take all of them")
        await fill(pilot, "4 m")
        await press(pilot, "b")
        await settle(pilot)
        from fasten.tui.box.box import BoxPlace

        box = app_of(pilot).query_one(BoxPlace).box
        assert box is not None
        lug = next(choice for choice in box.found if choice.name == "ground")
        assert "cable" in dict(lug.mount.said)
        assert any("lug" in line.text.casefold() for line in box.lines)

    drive_job((80, 24), told)


def ticks(pilot: Pilot[None]) -> tuple[str, ...]:
    return app_of(pilot).open_job.job.runs[0].ticked


@every_size
def test_a_run_is_worked_through_step_by_step_as_a_mount_point_is(size: tuple[int, int]) -> None:
    """By its key and by a tap on what is pressed, each step taken back like anything else, to the last of them."""

    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "r")
        await press(pilot, "w")
        assert "main power: step 1 of " in seen(pilot)
        assert HOME["run-work"] == "runs", "the foot fills the page that it belongs to"
        page = app_of(pilot).query_one("#run-work", WorkPlace)
        assert page.work is not None
        steps = len(page.work.spots)
        await press(pilot, "k")
        assert "main power: step 2 of " in seen(pilot)
        row = page._do.region.y + page._do.region.height // 2
        await pilot.click(offset=(size[0] // 2, row))
        await settle(pilot)
        assert len(ticks(pilot)) == 2
        await press(pilot, "u")
        assert "main power: step 2 of " in seen(pilot)
        assert len(ticks(pilot)) == 1
        await press(pilot, *["enter"] * (steps - 1))
        assert page.spot is None, "all of it is ticked, and nothing waits that cannot be"
        app_of(pilot).clear_said()
        await settle(pilot)
        assert "All of it is ticked." in seen(pilot)
        assert "on to bonnet, cable in" in seen(pilot), "what it lies in is closed once it is in"
        await press(pilot, "v")
        assert app_of(pilot).place == "runs"

    assert len(drive_job(size, told).runs[0].ticked) > 5


NEAR = """format = 2
kind = "job"
title = "Boot"

[[run]]
name = "sub"
carries = "60 A"
from = "battery stud M8"
to = "stud M8"
length = "4 m"

[[run]]
name = "rear"
carries = "45 A"
from = "battery stud M8"
to = "stud M8"
length = "1 m"
"""


def test_fewest_sizes_holds_the_thicker_cable_that_is_there_already() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "b", "f")
        await settle(pilot)
        assert "RUNS THAT TAKE ANOTHER CABLE" in seen(pilot).upper()
        await press(pilot, "tab", "enter")
        await settle(pilot)

    kept = drive_job((120, 40), told, NEAR)
    assert "cable" in dict(kept.runs[1].said)
    assert "cable" not in dict(kept.runs[0].said)
