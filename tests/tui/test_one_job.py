"""Every page shows the job that is open, at once; nothing that was shown of another does anything to this one."""

import os
from collections.abc import Awaitable, Callable
from pathlib import Path
from threading import Event

import pytest
from built.few import ALL, sample
from textual.events import Resize
from textual.pilot import Pilot
from textual.widgets import Input, OptionList, Static

from fasten.catalog.tables import Tables
from fasten.job.store.storage import job_text, load_job, load_shelf, save_job, save_shelf
from fasten.job.words import Job, Mount, Shelf, ShelfPart
from fasten.model.line import Part
from fasten.progress import Step
from fasten.tui.box import box as box_module
from fasten.tui.box.box import Box, BoxPlace
from fasten.tui.mounts.mount_list import MountList
from fasten.tui.widgets.panels import Panel

from .pilot import TABLES, app_of, do, drive, every_size, fill, flat, hit, notices, press, say, seen, settle, until

pytestmark = pytest.mark.slow

REFUSED = "the job has changed since this was shown; nothing was done; look at it as it is now, then do this again"
AMP = (("item", "amplifier"), ("onto", "steel 0.8 mm"), ("removed", "yearly"))
BOARD = (("item", "amplifier"), ("onto", "mdf 18 mm"), ("removed", "yearly"))
FRONT = Job("Front", "", "", (Mount("left amp", AMP), Mount("right amp", BOARD)))
HATCH = Job("Hatchback", "", "", (Mount("hatch amp", AMP), Mount("hatch horn", BOARD)))


def jobs_in(folder: Path) -> None:
    """Two jobs, of which the first is opened."""
    for number, (name, job) in enumerate((("hatch", HATCH), ("front", FRONT))):
        save_job(job, folder / f"{name}.toml")
        os.utime(folder / f"{name}.toml", (1_000 + number, 1_000 + number))


def kept(folder: Path) -> tuple[Job, Job]:
    return load_job(folder / "front.toml", TABLES).value, load_job(folder / "hatch.toml", TABLES).value


async def open_hatch(pilot: Pilot[None]) -> None:
    await do(pilot, "j")
    await press(pilot, *"hatch:", "enter")
    assert app_of(pilot).open_job.job.title == "Hatchback"


def in_box(pilot: Pilot[None]) -> str:
    """The lines of the box as they are listed, seen or not."""
    lines = pilot.app.query_one("#box-lines", OptionList)
    return "\n".join(str(option.prompt) for option in lines.options)


# -- what is shown -----------------------------------------------------------------------------------------------------


@every_size
def test_the_box_is_that_of_the_job_that_was_opened_and_what_is_ticked_is_ticked_there(
    size: tuple[int, int], tmp_path: Path
) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "b")
        assert "left amp" in in_box(pilot)
        await open_hatch(pilot)
        assert "NOT READY 0 of " in flat(pilot)
        assert "hatch horn" in in_box(pilot)
        assert "left amp" not in in_box(pilot)
        await press(pilot, "enter")
        assert "NOT READY 1 of " in flat(pilot)

    jobs_in(tmp_path)
    drive(size, told, tmp_path)
    front, hatch = kept(tmp_path)
    assert front == FRONT
    assert len(hatch.packed) == 1


async def another(pilot: Pilot[None], _folder: Path) -> None:
    await open_hatch(pilot)


async def a_new_one(pilot: Pilot[None], _folder: Path) -> None:
    await do(pilot, "j")
    await press(pilot, *"start a new", "enter")


async def what_another_program_made_of_it(pilot: Pilot[None], folder: Path) -> None:
    (folder / "front.toml").write_text(job_text(Job("Theirs", "", "", HATCH.mounts)))
    await do(pilot, "j")
    await press(pilot, *"in hand", "enter")


async def a_mount_point_less(pilot: Pilot[None], _folder: Path) -> None:
    await do(pilot, "u")


async def a_mount_point_again(pilot: Pilot[None], _folder: Path) -> None:
    await do(pilot, "u", "y")


Turn = Callable[[Pilot[None], Path], Awaitable[None]]
TURNS: dict[Turn, tuple[str, ...]] = {
    another: ("hatch amp", "hatch horn"),
    a_new_one: (),
    what_another_program_made_of_it: ("hatch amp", "hatch horn"),
    a_mount_point_less: ("left amp", "right amp"),
    a_mount_point_again: ("left amp", "right amp", "speaker"),
}


# In the shelf, undo is of the shelf.
WHERE = [(turn, place) for turn in TURNS for place in ("mlbs" if turn is another else "mb" if ALL else "b")]


@pytest.mark.parametrize(("turn", "place"), WHERE, ids=[f"{place} {turn.__name__}" for turn, place in WHERE])
def test_whatever_becomes_of_the_job_every_page_shows_it_at_once(turn: Turn, place: str, tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "n")
        await say(pilot, "speaker", "mdf 18 mm", "rarely")
        await do(pilot, place)
        await turn(pilot, tmp_path)
        app = app_of(pilot)
        names = [mount.name for mount in app.open_job.job.mounts]
        assert names == list(TURNS[turn])
        assert seen(pilot).startswith(f" {app.open_job.job.title or 'job'}  ")
        in_hand = app.open_job.mount
        said = {name: text for name, text in app.mounts.form.said().items() if text}
        assert said == (dict(in_hand.said) if in_hand else {})
        if place == "b":
            listed = in_box(pilot)
            assert all((name in listed) is (name in names) for name in ("left amp", "hatch amp", "speaker"))
            assert pilot.app.query_one(BoxPlace).seen == app.open_job.revision
        if place == "m" and len(names) > 1:
            assert all(name in seen(pilot) for name in names)

    jobs_in(tmp_path)
    drive((120, 40), told, tmp_path)


def test_a_box_that_is_worked_out_late_is_not_shown_for_another_job(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    go_on, whole = Event(), box_module.box_of

    def slow(job: Job, shelf: Shelf | None, tables: Tables, step: Step) -> Box:
        if job.title == "Front":
            go_on.wait(20)
        return whole(job, shelf, tables, step)

    async def told(pilot: Pilot[None]) -> None:
        hit(pilot, ";", "b")
        await until(pilot, lambda: app_of(pilot).place == "box")
        hit(pilot, "enter", "k", "h", ";", "j", *"hatch:", "enter")
        await until(pilot, lambda: "hatch horn" in in_box(pilot))
        go_on.set()
        await settle(pilot)
        assert "hatch horn" in in_box(pilot)
        assert "left amp" not in in_box(pilot)

    jobs_in(tmp_path)
    monkeypatch.setattr(box_module, "box_of", slow)
    drive((80, 24), told, tmp_path)
    assert kept(tmp_path) == (FRONT, HATCH)


# -- what was shown ----------------------------------------------------------------------------------------------------


async def change_under_it(pilot: Pilot[None]) -> None:
    """Another job is opened, whatever is in front: no key does that, and if ever anything does, no harm comes of it."""
    app = app_of(pilot)
    assert app.open_job.path is not None
    app.take_up(app.job_files.open(app.open_job.path.with_name("hatch.toml")))
    await settle(pilot)


def assert_refused(pilot: Pilot[None], folder: Path, before: tuple[Job, Job]) -> None:
    why = [str(line.content) for line in pilot.app.screen.query(".panel-why").results(Static)]
    assert REFUSED in notices(pilot) or why == [f"! {REFUSED}"]
    app_of(pilot).save()
    assert kept(folder) == before


def test_a_line_of_the_box_that_is_no_more_cannot_be_ticked(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "b")
        rows, place = pilot.app.query_one("#box-lines", OptionList), pilot.app.query_one(BoxPlace)
        at, line = rows.highlighted, place.in_hand
        assert at is not None
        assert line is not None
        assert line.thing is not None
        late = OptionList.OptionSelected(rows, rows.get_option_at_index(at), at)
        tick = BoxPlace.Ticked(line.thing, app_of(pilot).open_job.revision)
        await open_hatch(pilot)
        for message in (late, tick):
            (rows if message is late else place).post_message(message)
            await settle(pilot)
            assert_refused(pilot, tmp_path, (FRONT, HATCH))
            app_of(pilot).clear_said()

    jobs_in(tmp_path)
    drive((120, 40), told, tmp_path)


def test_a_box_that_goes_as_the_screen_gets_another_size_is_no_fault(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "b")
        place, size = pilot.app.query_one(BoxPlace), pilot.app.size
        place.on_resize(Resize(size, size))  # what it does is done once the screen is drawn
        app_of(pilot).take_up(app_of(pilot).job_files.new())
        await settle(pilot)
        assert "amp" not in in_box(pilot)

    jobs_in(tmp_path)
    drive((120, 40), told, tmp_path)


def test_a_mount_point_that_was_deleted_is_not_taken_in_hand_by_a_late_tap(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        tap = MountList.Picked(1, app_of(pilot).open_job.revision)
        await do(pilot, "d")
        assert [mount.name for mount in app_of(pilot).open_job.job.mounts] == ["right amp"]
        app_of(pilot).mounts.mount_list.post_message(tap)
        await settle(pilot)
        assert REFUSED in notices(pilot)
        assert app_of(pilot).open_job.at == 0

    jobs_in(tmp_path)
    drive((120, 40), told, tmp_path)


def test_what_is_typed_is_taken_before_a_tap_goes_to_another_mount_point(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        app = app_of(pilot)
        await do(pilot, "a")
        await press(pilot, "2", "enter")
        hit(pilot, "down", *["backspace"] * 5, *"12 mm")
        app.mounts.mount_list.post_message(MountList.Picked(0, app.open_job.revision))
        await settle(pilot)
        app.save()
        assert app.open_job.at == 0
        assert [dict(mount.said)["onto"] for mount in kept(tmp_path)[0].mounts] == ["steel 0.8 mm", "mdf 12 mm"]

    jobs_in(tmp_path)
    drive((120, 40), told, tmp_path)


OPENED = {
    "the menu": ((";",), ("d",)),
    "a name": ((";", "t"), (*"x", "enter", "enter", "enter")),
    "a job's name": ((";", "j", *"name the", "enter"), (*"x", "enter", "enter", "enter")),
    "a choice": ((";", "c"), ("tab", "enter")),
    "instead of a screw": ((";", "i"), (*"25 mm", "enter")),
    "what is to be held instead": ((";", "i", *"16 mm", "enter"), ("tab", "enter")),
    "fewest sizes": ((";", "b", "f"), ("tab", "enter")),
    "a list of mount points": ((";", "a"), ("enter",)),
    "papers": ((";", "x"), (*"hardware", "enter")),
}


@pytest.mark.parametrize("panel", sample(list(OPENED), 5))
def test_what_is_half_done_in_a_panel_is_not_done_to_another_job(panel: str, tmp_path: Path) -> None:
    opening, ending = OPENED[panel]

    async def told(pilot: Pilot[None]) -> None:
        await press(pilot, *opening)
        assert isinstance(pilot.app.screen, Panel)
        await change_under_it(pilot)
        await press(pilot, *ending)
        assert_refused(pilot, tmp_path, (FRONT, HATCH))
        assert app_of(pilot).open_job.at == 0
        assert {path.name for path in tmp_path.iterdir()} - {"shelf"} == {"front.toml", "hatch.toml"}

    jobs_in(tmp_path)
    drive((120, 40), told, tmp_path)


# -- the shelf ---------------------------------------------------------------------------------------------------------

SCREWS = ShelfPart(Part("screw", "M5", "ISO 15071", "8.8", 16.0), 20)
OWN = Shelf("", "", "", (SCREWS,), ("3 mm",), (), ())
GONE = "this line of the shelf has changed since it was shown; nothing was done"


def shelf_file(folder: Path) -> Path:
    return folder / "shelf" / "shelf.toml"


def own(folder: Path, shelf: Shelf) -> None:
    shelf_file(folder).parent.mkdir(exist_ok=True)
    shelf_file(folder).unlink(missing_ok=True)
    save_shelf(shelf, shelf_file(folder))


def owned(folder: Path) -> Shelf:
    return load_shelf(shelf_file(folder)).value


@pytest.mark.parametrize("line", [0, 1], ids=["a part", "a bit"])
def test_a_line_that_went_from_the_shelf_while_it_was_changed_does_not_come_back(line: int, tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "s")
        await press(pilot, "home", *["down"] * line, "enter")
        assert isinstance(pilot.app.focused, Input)
        own(tmp_path, less)
        await fill(pilot, *[None] * (9 if line == 0 else 1))
        assert "another program changed the shelf" in flat(pilot)
        for _ in range(2):
            await press(pilot, "enter")
            assert GONE in flat(pilot)
        assert owned(tmp_path) == less

    less = Shelf("", "", "", (), ("5 mm",), (), ())
    own(tmp_path, OWN)
    drive((120, 40), told, tmp_path)


def test_a_line_of_the_shelf_that_is_no_more_where_it_was_is_not_changed_in_its_place(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "s")
        rows = pilot.app.query_one("#shelf-lines", OptionList)
        late = OptionList.OptionSelected(rows, rows.get_option_at_index(1), 1)
        await press(pilot, "home", "d")
        assert owned(tmp_path).parts == ()
        rows.post_message(late)
        await settle(pilot)
        field = pilot.app.focused
        assert isinstance(field, Input)
        assert field.value == "3 mm"
        await fill(pilot, "4 mm")
        assert owned(tmp_path).bits == ("4 mm",)

    own(tmp_path, OWN)
    drive((120, 40), told, tmp_path)
