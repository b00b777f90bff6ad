"""What goes wrong with files while the screen is open is one sentence, and what was said there is kept somewhere."""

import os
import resource
import shutil
import stat
import sys
from collections.abc import Awaitable, Callable, Iterator
from contextlib import contextmanager
from pathlib import Path
from unittest.mock import patch

import pytest
from built.few import sample
from textual.pilot import Pilot

from fasten.errors import FastenError
from fasten.job.store.storage import job_text, load_job, load_shelf
from fasten.job.words import Job
from fasten.tui.app import FastenApp
from fasten.tui.state.job_files import JobFiles
from fasten.tui.state.open_shelf import OpenShelf

from .pilot import AMPLIFIER, TABLES, app_of, do, drive, fill, flat, lines, press, say, settle

pytestmark = pytest.mark.slow

Told = Callable[[Pilot[None]], Awaitable[None]]


@contextmanager
def no_room() -> Iterator[None]:
    """No file may grow beyond a few bytes meanwhile: what a disk does that takes no more."""
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    with patch.object(sys, "dont_write_bytecode", True):  # what is imported meanwhile would be kept cut off
        resource.setrlimit(resource.RLIMIT_FSIZE, (64, hard))
        try:
            yield
        finally:
            resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))


def on_disk(path: Path) -> Job:
    return load_job(path, TABLES).value


def job_of(pilot: Pilot[None]) -> Job:
    return app_of(pilot).open_job.job


async def name_mount(pilot: Pilot[None], name: str = "left") -> None:
    await do(pilot, "t")
    await fill(pilot, name, None, None)


async def try_again(pilot: Pilot[None]) -> None:
    """As happens every second."""
    app_of(pilot).save()
    await settle(pilot)


def is_saved(pilot: Pilot[None]) -> bool:
    state = lines(pilot)[0].rpartition("  ")[2]
    assert state.startswith(("saved", "NOT SAVED"))
    return state.startswith("saved")


def driven(told: Told, folder: Path) -> None:
    drive((120, 40), told, folder / "jobs", folder / "car" / "van.toml")


@pytest.fixture
def van(tmp_path: Path) -> Path:
    """A job in a folder of its own, away from where jobs are kept."""
    path = tmp_path / "car" / "van.toml"
    path.parent.mkdir()
    path.write_text(
        'format = 1\nkind = "job"\n[[mount]]\nname = "amp"\nitem = "amplifier"\nonto = "steel 0.8 mm"\n'
        'removed = "yearly"\n'
    )
    return path


# -- the job ----------------------------------------------------------------------------------------------------------


def test_a_job_that_a_full_disk_does_not_take_is_saved_once_there_is_room(van: Path, tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        with no_room():
            await name_mount(pilot)
            assert not is_saved(pilot)
            assert "not saved, it cannot be written: file too large; nothing was overwritten" in flat(pilot)
            assert van.read_bytes() == before
            await try_again(pilot)
        assert [path.name for path in van.parent.iterdir()] == ["van.toml"]
        await try_again(pilot)
        assert is_saved(pilot)
        assert on_disk(van) == job_of(pilot)

    before = van.read_bytes()
    driven(told, tmp_path)


def test_a_folder_that_goes_is_not_made_again_and_the_job_is_saved_when_it_is_back(van: Path, tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        van.parent.rename(tmp_path / "away")
        await name_mount(pilot)
        assert not is_saved(pilot)
        assert "the file is gone since it was read" in flat(pilot)
        await try_again(pilot)
        assert not van.parent.exists()
        (tmp_path / "away").rename(van.parent)
        await try_again(pilot)
        assert is_saved(pilot)
        assert on_disk(van) == job_of(pilot)

    driven(told, tmp_path)


def test_a_job_whose_folder_is_deleted_is_saved_where_jobs_are_kept(van: Path, tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        shutil.rmtree(van.parent)
        await name_mount(pilot)
        await do(pilot, "q")
        await press(pilot, *"another", "enter")
        assert is_saved(pilot)
        assert on_disk(tmp_path / "jobs" / "van.toml") == job_of(pilot)
        await name_mount(pilot, "right")
        assert on_disk(tmp_path / "jobs" / "van.toml").mounts[0].name == "right"
        assert not van.parent.exists()

    driven(told, tmp_path)


IN_ITS_PLACE: dict[str, tuple[Callable[[Path], object], str]] = {
    "a folder": (Path.mkdir, "a folder stands where the file should be"),
    "a pipe": (os.mkfifo, "this is not a plain file"),
    "a link to nothing": (lambda path: path.symlink_to("nothing"), "the file is gone since it was read"),
    "a link to another": (lambda path: path.symlink_to("other.toml"), "another program changed the file"),
    "no text": (lambda path: path.write_bytes(b"\xff\0"), "another program changed the file"),
    "nothing in it": (Path.touch, "another program changed the file"),
}


@pytest.mark.parametrize("what", sample(list(IN_ITS_PLACE), 3))
def test_what_stands_in_its_place_is_left_alone_and_the_job_goes_beside(what: str, van: Path, tmp_path: Path) -> None:
    put, why = IN_ITS_PLACE[what]

    async def told(pilot: Pilot[None]) -> None:
        van.unlink()
        (van.parent / "other.toml").write_text("precious")
        put(van)
        before = van.lstat()
        await name_mount(pilot)
        assert not is_saved(pilot)
        assert why in flat(pilot)
        await do(pilot, "q")
        await press(pilot, *"another", "enter")
        assert is_saved(pilot)
        assert on_disk(van.parent / "van-2.toml") == job_of(pilot)
        assert (van.lstat().st_ino, van.lstat().st_mtime_ns) == (before.st_ino, before.st_mtime_ns)
        assert (van.parent / "other.toml").read_text() == "precious"

    driven(told, tmp_path)


def test_a_job_that_has_no_place_at_all_is_saved_in_a_file_that_is_named(tmp_path: Path) -> None:
    """Where the folder for jobs should be stands a file."""

    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        assert not is_saved(pilot)
        assert "the folder cannot be made: a file stands in its way" in flat(pilot)
        await do(pilot, "q")
        await press(pilot, *"another", "enter")
        assert "a file stands in its way" in flat(pilot)
        await fill(pilot, "")
        assert "! no file is named" in flat(pilot)
        await fill(pilot, str(tmp_path / "file" / "x"))
        assert "! " in flat(pilot)
        await fill(pilot, str(tmp_path / "taken.toml"))
        assert "! " in flat(pilot)
        assert not is_saved(pilot)
        await fill(pilot, str(tmp_path / "car"))
        assert is_saved(pilot)
        assert on_disk(tmp_path / "car.toml") == job_of(pilot)
        await do(pilot, "q")
        assert not pilot.app.is_running

    (tmp_path / "file").touch()
    (tmp_path / "taken.toml").write_text("precious")
    drive((120, 40), told, tmp_path / "file" / "jobs")
    assert (tmp_path / "taken.toml").read_text() == "precious"


# -- two programs on one job ------------------------------------------------------------------------------------------


def theirs(path: Path) -> Job:
    """The job as another program changes it meanwhile."""
    path.write_text(job_text(Job("theirs", "", "", on_disk(path).mounts)))
    return on_disk(path)


@pytest.mark.parametrize("is_changed_here", [True, False])
def test_what_another_program_made_of_the_job_in_hand_is_opened_again(
    is_changed_here: bool, van: Path, tmp_path: Path
) -> None:
    async def told(pilot: Pilot[None]) -> None:
        other = theirs(van)
        if is_changed_here:
            await name_mount(pilot)
            assert "another program changed the file since it was read" in flat(pilot)
        await do(pilot, "j")
        await press(pilot, *"(in hand)", "enter")
        if is_changed_here:
            assert job_of(pilot).mounts[0].name == "left"
            await press(pilot, *"open it, and lose", "enter")
        assert job_of(pilot) == other
        await name_mount(pilot, "right")
        assert is_saved(pilot)
        assert on_disk(van).title == "theirs"
        assert on_disk(van).mounts[0].name == "right"

    driven(told, tmp_path)


@pytest.mark.parametrize("way", ["stay", "another"])
def test_no_other_job_is_opened_over_one_that_cannot_be_saved_without_a_question(
    way: str, van: Path, tmp_path: Path
) -> None:
    async def told(pilot: Pilot[None]) -> None:
        other = theirs(van)
        await name_mount(pilot)
        mine = job_of(pilot)
        await do(pilot, "j")
        await press(pilot, *"start a new", "enter")
        assert "The job is not saved" in flat(pilot)
        await press(pilot, *way, "enter")
        assert job_of(pilot) == mine
        assert on_disk(van) == other
        assert is_saved(pilot) is (way == "another")
        if way == "another":
            assert on_disk(van.parent / "van-2.toml") == mine

    driven(told, tmp_path)


def test_two_new_jobs_begun_at_once_do_not_share_a_file(tmp_path: Path) -> None:
    """Each screen takes the first name that is free when it opens."""

    async def told(pilot: Pilot[None]) -> None:
        (tmp_path / "job.toml").write_text("theirs")
        await say(pilot, *AMPLIFIER)
        assert "there is a file of this name already; nothing was overwritten" in flat(pilot)
        await do(pilot, "q")
        await press(pilot, *"another", "enter")
        assert on_disk(tmp_path / "job-2.toml") == job_of(pilot)

    drive((120, 40), told, tmp_path)
    assert (tmp_path / "job.toml").read_text() == "theirs"


# -- opening ----------------------------------------------------------------------------------------------------------


def opened(path: Path) -> FastenApp:
    return FastenApp(TABLES, JobFiles(path.parent, TABLES), OpenShelf(path.parent / "shelf.toml"), path)


@pytest.mark.parametrize("put", [put for put, _ in IN_ITS_PLACE.values()], ids=list(IN_ITS_PLACE))
def test_what_is_no_job_is_refused_and_left_alone(put: Callable[[Path], object], tmp_path: Path) -> None:
    put(tmp_path / "van.toml")
    before = (tmp_path / "van.toml").lstat()
    with pytest.raises(FastenError, match=r"van\.toml"):
        opened(tmp_path / "van.toml")
    assert stat.S_IFMT((tmp_path / "van.toml").lstat().st_mode) == stat.S_IFMT(before.st_mode)


def test_jobs_are_told_apart_whatever_lies_among_them(tmp_path: Path) -> None:
    """Pipes, folders, links, files of any size, names that a terminal obeys; the youngest file of all is from 2242."""

    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await do(pilot, "j")
        shown = flat(pilot)
        for name in ("job: plain", r"a\x1b[2J\u202eb", "[b] [m", "huge", "deep", "no text", r"job-3: \x1b[2J"):
            assert name in shown, name
        assert "pipe" not in shown
        assert "folder" not in shown
        assert "\x1b" not in "".join(lines(pilot))
        await press(pilot, *"[b] [m", "enter")
        assert "not TOML" in flat(pilot)

    (tmp_path / "job.toml").write_text(job_text(Job("plain", "", "", ())))
    (tmp_path / "job-3.toml").write_text('format = 1\nkind = "job"\ntitle = "\\u001b[2J"\n')
    for name in ("a\x1b[2J\u202eb", "[b] [m"):
        (tmp_path / f"{name}.toml").write_text("format = ")
    (tmp_path / "huge.toml").touch()
    os.truncate(tmp_path / "huge.toml", 100_000_000)
    (tmp_path / "deep.toml").write_text(f"title = {'[' * 5000}")
    (tmp_path / "no text.toml").write_bytes(b"\xff\xfe")
    (tmp_path / "folder.toml").mkdir()
    os.mkfifo(tmp_path / "pipe.toml")
    (tmp_path / "pipe 2.toml").symlink_to("nothing")
    os.utime(tmp_path / "huge.toml", (2**33, 2**33))
    drive((120, 40), told, tmp_path)


# -- the shelf, and what is put on paper ------------------------------------------------------------------------------


async def own(pilot: Pilot[None], name: str) -> None:
    await press(pilot, *"ha bit", "enter")
    await fill(pilot, name)


def bits(folder: Path) -> tuple[str, ...]:
    return load_shelf(folder / "shelf" / "shelf.toml").value.bits


def test_a_shelf_that_cannot_be_saved_is_as_it_was_and_what_was_filled_in_can_be_kept_later(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "s")
        (tmp_path / "shelf").touch()
        await own(pilot, "5 mm")
        assert "! " in flat(pilot)
        assert "the folder cannot be made: a file stands in its way" in flat(pilot)
        (tmp_path / "shelf").unlink()
        with no_room():
            await press(pilot, "enter")
            assert "not saved, it cannot be written: file too large" in flat(pilot)
        await press(pilot, "enter")
        assert bits(tmp_path) == ("5 mm",)
        shutil.rmtree(tmp_path / "shelf")
        await own(pilot, "6 mm")
        assert bits(tmp_path) == ("5 mm", "6 mm")

    drive((120, 40), told, tmp_path)


def test_a_shelf_that_breaks_or_changes_under_the_screen_is_never_overwritten(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        path = tmp_path / "shelf" / "shelf.toml"
        await do(pilot, "s")
        await own(pilot, "5 mm")
        mine = path.read_text()
        path.write_text("format = ")
        await own(pilot, "6 mm")
        assert "! " in flat(pilot)
        assert path.read_text() == "format = "
        path.write_text(mine.replace("5 mm", "7 mm"))
        await press(pilot, "enter")
        assert "another program changed the shelf since it was read; nothing was overwritten" in flat(pilot)
        assert bits(tmp_path) == ("7 mm",)
        await press(pilot, "enter")
        assert bits(tmp_path) == ("7 mm", "6 mm")
        path.write_text(mine)
        await press(pilot, "u")
        assert "another program changed the shelf" in flat(pilot)
        await press(pilot, "u")
        assert "There is nothing to take back on the shelf" in flat(pilot)
        assert path.read_text() == mine

    drive((120, 40), told, tmp_path)


def test_paper_that_cannot_be_written_is_told(van: Path, tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        with no_room():
            await do(pilot, "x")
            await press(pilot, *"work sheet, plain", "enter")
            assert "not saved, it cannot be written: file too large" in flat(pilot)
        assert [path.name for path in van.parent.iterdir()] == ["van.toml"]
        shutil.rmtree(van.parent)
        van.parent.touch()
        await do(pilot, "x")
        await press(pilot, *"work sheet, plain", "enter")
        assert "the folder cannot be made: a file stands in its way" in flat(pilot)
        van.parent.unlink()
        await do(pilot, "x")
        await press(pilot, *"work sheet, plain", "enter")
        assert "van-work.txt is written" in flat(pilot)

    driven(told, tmp_path)
