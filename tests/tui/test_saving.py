"""A job is saved as it changes, every change can be taken back, and no file is ever overwritten blindly."""

from collections.abc import Awaitable, Callable
from pathlib import Path

import pytest
from textual.pilot import Pilot

from fasten.errors import FastenError
from fasten.job.store.storage import load_job
from fasten.job.words import Job
from fasten.tui.app import FastenApp
from fasten.tui.state.job_files import JobFiles
from fasten.tui.state.open_job import OpenJob
from fasten.tui.state.open_shelf import OpenShelf

from .pilot import (
    AMPLIFIER,
    TABLES,
    act,
    app_of,
    do,
    drive,
    fill,
    flat,
    least_room,
    lines,
    press,
    say,
    seen,
    settle,
    type_text,
    write_down,
)

pytestmark = pytest.mark.slow

Step = Callable[[Pilot[None]], Awaitable[None]]


def job_of(pilot: Pilot[None]) -> Job:
    return app_of(pilot).open_job.job


async def name_mount(pilot: Pilot[None]) -> None:
    await do(pilot, "t")
    await fill(pilot, "left", "under the seat", None)


async def record(pilot: Pilot[None]) -> None:
    await write_down(pilot, date="2024-03-14", hole="7.6 mm", hardware="M5 x 16", torque="1.5 N·m", note="by hand")
    await do(pilot, "m")


async def name_job(pilot: Pilot[None]) -> None:
    await do(pilot, "j")
    await press(pilot, *"name the", "enter")
    await fill(pilot, "front", "blue estate", "")


async def hold_the_second(pilot: Pilot[None]) -> None:
    await do(pilot, "c")
    await press(pilot, "down", "enter")


async def change_a_field(pilot: Pilot[None]) -> None:
    await press(pilot, "shift+tab", "shift+tab", *["backspace"] * 6, *"1.2 mm")


async def another_mount(pilot: Pilot[None]) -> None:
    await do(pilot, "n")
    await say(pilot, "trim", "MDF 18 mm", "rarely")


async def delete(pilot: Pilot[None]) -> None:
    await do(pilot, "d")


async def pack(pilot: Pilot[None]) -> None:
    await do(pilot, "b")
    await press(pilot, "enter")


CHANGES: tuple[Step, ...] = (
    change_a_field, name_mount, record, hold_the_second, name_job, another_mount, delete, pack,
)  # fmt: skip


def test_every_change_is_saved_can_be_taken_back_and_made_again(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        stood = [job_of(pilot)]
        for change in CHANGES:
            await change(pilot)
            app_of(pilot).save()
            stood.append(job_of(pilot))
            assert stood[-1] != stood[-2], change.__name__
            assert on_disk(tmp_path) == stood[-1], change.__name__
        for before in reversed(stood[:-1]):
            await act(pilot, "undo")
            assert job_of(pilot) == before
            app_of(pilot).save()
            assert on_disk(tmp_path) == before
        for after in stood[1:]:
            await act(pilot, "redo")
            assert job_of(pilot) == after
        await do(pilot, "u", "y")
        assert job_of(pilot) == stood[-1]
        await do(pilot, "y")
        assert "There is nothing to make again" in flat(pilot)

    drive((80, 24), told, tmp_path)


def test_a_field_that_is_left_late_does_not_part_the_next_one_into_two_steps() -> None:
    """On a slow machine a half typed size is taken before it is known that the field before it was left."""
    open_job = OpenJob(lambda job: None)
    for onto in ("steel 0.8 mm", "steel 1 mm", "steel 1.2 mm"):
        open_job.say({"item": "amplifier", "onto": onto, "removed": "yearly"}, "amp", open_job.hand)
        open_job.rest("onto" if onto == "steel 0.8 mm" else "item")
    open_job.undo()
    assert open_job.said["onto"] == "steel 0.8 mm"


def on_disk(folder: Path, name: str = "job") -> Job:
    return load_job(folder / f"{name}.toml", TABLES).value


def test_the_last_change_is_no_step_back_where_there_is_none() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "u")
        assert "There is nothing to take back" in flat(pilot)

    drive((44, 15), told)


def test_a_field_that_is_left_is_saved_and_one_that_is_typed_in_within_a_second(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        assert dict(on_disk(tmp_path).mounts[0].said) == {
            "item": "amplifier", "onto": "steel 0.8 mm", "removed": "yearly",
        }  # fmt: skip
        await press(pilot, "up", *["backspace"] * 6, *"weekly")
        for _ in range(200):
            if dict(on_disk(tmp_path).mounts[0].said).get("removed") == "weekly":
                break
            await pilot.pause()
        assert dict(on_disk(tmp_path).mounts[0].said)["removed"] == "weekly"
        await settle(pilot)
        assert "  saved" in lines(pilot)[0]

    drive((80, 24), told, tmp_path)


def test_a_field_while_it_is_misread_keeps_in_the_file_what_was_said_last(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await change_a_field(pilot)
        await type_text(pilot, "xy")
        await press(pilot, "tab")
        assert dict(on_disk(tmp_path).mounts[0].said)["onto"] == "steel 1.2 mm"

    drive((80, 24), told, tmp_path)


def test_a_word_that_was_begun_and_went_on_otherwise_is_not_kept(tmp_path: Path) -> None:
    """The first letter alone would be a speaker; nobody said one."""

    async def told(pilot: Pilot[None]) -> None:
        await type_text(pilot, "mid")
        assert "= speaker" in flat(pilot)
        await type_text(pilot, "dle")
        await press(pilot, "tab", *"steel 1 mm", "tab")
        assert dict(on_disk(tmp_path).mounts[0].said) == {"onto": "steel 1 mm"}
        assert "not kept: What" in lines(pilot)[0]
        await press(pilot, *"rar", "tab")
        await press(pilot, "shift+tab", "end", *"zz", "tab")
        assert dict(on_disk(tmp_path).mounts[0].said) == {"onto": "steel 1 mm", "removed": "rarely"}

    drive((80, 24), told, tmp_path)


@least_room
def test_what_is_not_understood_is_never_under_a_line_that_says_saved(size: tuple[int, int], tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await press(pilot, "shift+tab", "shift+tab", *"xy")
        assert "saved" not in lines(pilot)[0]
        await press(pilot, "tab")
        assert "not kept: Onto what" in lines(pilot)[0]
        await press(pilot, "end", *"zz", "tab")
        assert "not kept: Onto what and 1 more" in lines(pilot)[0]
        await press(pilot, "shift+tab", "backspace", "backspace", "shift+tab", "backspace", "backspace", "tab")
        assert "not kept" not in flat(pilot)
        assert on_disk(tmp_path) == job_of(pilot)

    drive(size, told, tmp_path)


def test_what_is_not_understood_is_told_once_more_as_it_goes(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await press(pilot, "shift+tab", "shift+tab", *"xy")
        await do(pilot, "n")
        assert "Not kept: Onto what" in flat(pilot)
        assert "not kept" not in lines(pilot)[0]

    drive((80, 24), told, tmp_path)


def test_a_fault_in_working_out_an_answer_leaves_the_job_as_it_was_saved(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def fails(*_: object) -> None:
        raise ZeroDivisionError("boom")

    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        kept = on_disk(tmp_path)
        monkeypatch.setattr("fasten.tui.mounts.entry.consider", fails)
        await press(pilot, "up", "backspace")
        assert "fault of the program" in flat(pilot)
        assert "not kept: How often off" in lines(pilot)[0]
        await do(pilot, "q")
        assert on_disk(tmp_path) == kept

    monkeypatch.delenv("FASTEN_DEBUG", raising=False)
    drive((80, 24), told, tmp_path)


def test_keys_that_come_without_a_pause_do_what_they_would_have_done_with_one(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await press(
            pilot, *"amp", "enter", *"steel 0.8 mm", "enter", *"yearly;ntrim", "enter", *"MDF 18 mm;tpanel", "enter",
            *"a note", "enter", "enter", *";jname the", "enter", *"front", "enter", "enter", "enter",
        )  # fmt: skip
        job = job_of(pilot)
        assert [(mount.name, mount.note) for mount in job.mounts] == [("amplifier", ""), ("trim-panelpanel", "a note")]
        assert dict(job.mounts[0].said)["removed"] == "yearly"
        assert dict(job.mounts[1].said)["onto"] == "MDF 18 mm"
        assert job.title == "front"
        await press(pilot, ";", "q", "q", "q")
        assert not pilot.app.is_running

    drive((80, 24), told, tmp_path)
    assert on_disk(tmp_path).title == "front"


# -- other programs, other versions, broken files ----------------------------------------------------------------------


def changed_by_another(path: Path) -> str:
    text = path.read_text().replace("0.8 mm", "2 mm")
    path.write_text(text)
    return text


def test_a_job_changed_by_another_program_is_not_overwritten_and_can_be_saved_as_another_file(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        theirs = changed_by_another(tmp_path / "job.toml")
        await name_mount(pilot)
        assert "NOT SAVED" in lines(pilot)[0]
        assert "another program changed the file" in flat(pilot)
        await do(pilot, "q")
        assert pilot.app.is_running
        await press(pilot, *"another", "enter")
        assert "job-2" in flat(pilot)
        assert (tmp_path / "job.toml").read_text() == theirs
        assert on_disk(tmp_path, "job-2") == job_of(pilot)
        await do(pilot, "q")
        assert not pilot.app.is_running

    drive((80, 24), told, tmp_path)


@pytest.mark.parametrize(("choice", "is_left"), [("stay", False), ("leave", True)])
def test_what_cannot_be_saved_is_lost_only_where_that_was_asked_for(choice: str, is_left: bool, tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        theirs = changed_by_another(tmp_path / "job.toml")
        await name_mount(pilot)
        await do(pilot, "q")
        await press(pilot, *choice, "enter")
        assert pilot.app.is_running is not is_left
        assert (tmp_path / "job.toml").read_text() == theirs
        assert job_of(pilot).mounts[0].name == "left"

    drive((44, 15), told, tmp_path)


def newer(folder: Path) -> Path:
    path = folder / "car.toml"
    path.write_text(
        'format = 3\nkind = "job"\ntitle = "from tomorrow"\n[[mount]]\nname = "left"\nitem = "amplifier"\n'
        'onto = "steel 0.8 mm"\nremoved = "yearly"\n# end\n'
    )
    return path


def test_a_job_of_a_newer_version_opens_for_reading_only_and_says_so(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        assert "  READ ONLY" in lines(pilot)[0]
        assert "from tomorrow" in lines(pilot)[0]
        assert "newer than this program reads" in flat(pilot)
        await name_mount(pilot)
        await do(pilot, "q")
        assert "The job is not saved" in flat(pilot)
        await press(pilot, *"another", "enter")
        assert on_disk(tmp_path, "car-2").mounts[0].name == "left"

    path = newer(tmp_path)
    before = path.read_text()
    drive((80, 24), told, tmp_path, path)
    assert path.read_text() == before


def test_a_newer_job_that_was_only_read_is_left_without_a_question(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await press(pilot, "down", "down")
        await do(pilot, "q")
        assert not pilot.app.is_running

    drive((80, 24), told, tmp_path, newer(tmp_path))


def test_a_broken_job_is_refused_with_its_line_and_the_one_in_hand_stays(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        (tmp_path / "broken.toml").write_text('format = 1\nkind = "job"\ntitle = \n')
        await do(pilot, "j")
        assert "broken" in seen(pilot)
        await press(pilot, *"broken", "enter")
        assert "line 3" in flat(pilot)
        assert job_of(pilot).mounts[0].name == "amplifier"

    drive((80, 24), told, tmp_path)


def test_a_broken_job_that_was_changed_last_does_not_bar_the_way(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        assert app_of(pilot).open_job.path == tmp_path / "job-2.toml"

    (tmp_path / "job.toml").write_text("format = 1\nkind = ")
    drive((80, 24), told, tmp_path)


def test_a_named_job_that_is_broken_is_refused(tmp_path: Path) -> None:
    (tmp_path / "job.toml").write_text("format = 1\nkind = ")
    with pytest.raises(FastenError, match="line 2"):
        FastenApp(TABLES, JobFiles(tmp_path, TABLES), OpenShelf(tmp_path / "shelf.toml"), tmp_path / "job.toml")


def test_several_jobs_are_told_apart_by_their_titles_and_each_is_saved_before_another_is_opened(
    tmp_path: Path,
) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await name_job(pilot)
        await do(pilot, "j")
        await press(pilot, *"start", "enter")
        assert job_of(pilot).mounts == ()
        await say(pilot, "speaker")
        await do(pilot, "j")
        assert "job: front" in flat(pilot)
        assert "job-2 (in hand)" in flat(pilot)
        await press(pilot, *"front", "enter")
        assert [mount.name for mount in job_of(pilot).mounts] == ["amplifier"]
        assert [mount.name for mount in on_disk(tmp_path, "job-2").mounts] == ["speaker"]

    drive((44, 30), told, tmp_path)


def test_the_job_in_hand_taken_up_again_stays_as_it_is(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await name_mount(pilot)
        await do(pilot, "j")
        await press(pilot, *"hand", "enter")
        assert job_of(pilot).mounts[0].name == "left"
        await do(pilot, "u")
        assert job_of(pilot).mounts[0].name == "amplifier"
        await settle(pilot)

    drive((80, 24), told, tmp_path)


def test_a_save_that_comes_as_the_screens_are_gone_saves_and_shows_nothing() -> None:
    apps = list[FastenApp]()

    async def told(pilot: Pilot[None]) -> None:
        apps.append(app_of(pilot))

    drive((80, 24), told)
    assert not apps[0].screen_stack
    apps[0].save()
    assert apps[0].open_job.is_saved
