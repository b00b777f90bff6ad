"""The box is packed line by line, what is owned is kept on the shelf, and both change the verdict."""

from collections.abc import Callable
from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import Input, OptionList

from fasten.job.list.ticks import tick_of
from fasten.job.store.storage import load_job, load_shelf, save_job
from fasten.job.words import Job, Mount, Shelf, ShelfPart
from fasten.model.line import Part
from fasten.tui.app import FastenApp
from fasten.tui.box.box import Box, BoxPlace
from fasten.tui.state.long_work import LongWork

from .pilot import AMPLIFIER, TABLES, app_of, do, drive, every_size, fill, flat, least_room, press, say, seen

pytestmark = pytest.mark.slow

SHELF = Path("shelf") / "shelf.toml"


def shelf_on_disk(folder: Path) -> Shelf:
    return load_shelf(folder / SHELF).value


def box_of(pilot: Pilot[None]) -> BoxPlace:
    return pilot.app.query_one(BoxPlace)


def missing(pilot: Pilot[None]) -> int:
    box = box_of(pilot).box
    return sum(line.to_buy > 0 for line in box.listed.parts) if box is not None else 0


# -- the box -----------------------------------------------------------------------------------------------------------


@every_size
def test_what_is_ticked_is_kept_in_the_file_and_can_be_taken_out_again(size: tuple[int, int], tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await do(pilot, "b")
        assert "NOT READY 0 of " in seen(pilot)
        await press(pilot, "k", "down", "k")
        line = box_of(pilot).in_hand
        assert line is not None
        packed = load_job(tmp_path / "job.toml", TABLES).value.packed
        assert len(packed) == 2
        assert packed[0].startswith("part:rivet_nut/M5/")
        assert packed[0].endswith(" = 6")
        assert line.thing is not None
        assert packed[1] == tick_of(line.thing)
        assert "NOT READY 2 of " in seen(pilot)
        await press(pilot, "k")
        assert load_job(tmp_path / "job.toml", TABLES).value.packed == packed[:1]
        await press(pilot, "u")
        assert "NOT READY 2 of " in seen(pilot)

    drive(size, told, tmp_path)


@least_room
def test_a_box_that_is_ready_before_it_is_first_laid_out_stands_at_its_first_line(
    size: tuple[int, int], tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    def at_once(app: FastenApp, do: Callable[[LongWork], Box], then: Callable[[Box], object], _: object) -> LongWork:
        work = LongWork()
        then(do(work))
        return work

    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        monkeypatch.setattr(FastenApp, "work_beside", at_once)
        await do(pilot, "b")
        listed = pilot.app.query_one("#box-lines", OptionList)
        box = box_of(pilot).box
        assert box is not None
        assert listed.highlighted, "the first line to pack is marked, which comes after others"
        assert listed.scroll_offset.y == 0
        assert box.lines[0].text[:20] in flat(pilot)

    drive(size, told, tmp_path)


def test_what_the_verdict_says_of_a_thing_can_be_read_but_is_nothing_to_pack(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await do(pilot, "b")
        await press(pilot, "end")
        line = box_of(pilot).in_hand
        assert line is not None
        assert "needs 15.4 mm behind" in line.text
        assert "needs 15.4 mm behind" in flat(pilot)
        await press(pilot, "k", "enter", "h")
        assert load_job(tmp_path / "job.toml", TABLES).value.packed == ()
        assert "Mark a line of the box first" in flat(pilot)

    drive((44, 15), told, tmp_path)


def test_a_tick_that_is_of_nothing_on_the_list_is_shown_and_can_be_taken_away(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "b")
        box = box_of(pilot)
        assert box.box is not None
        assert [line.text for line in box.box.lines if line.key == "bit:99"] == ["99"]
        assert "NOT READY 0 of " in seen(pilot)
        at = next(at for at, line in enumerate(box.box.lines) if line.key == "bit:99")
        pilot.app.query_one("#box-lines", OptionList).highlighted = at
        await press(pilot, "h")
        assert "Mark a line of the box first" in flat(pilot)
        await press(pilot, "k")
        assert load_job(tmp_path / "job.toml", TABLES).value.packed == ()
        assert all(line.key != "bit:99" for line in box_of(pilot).box.lines)  # type: ignore[union-attr]
        await press(pilot, "u")
        assert any(line.key == "bit:99" for line in box_of(pilot).box.lines)  # type: ignore[union-attr]

    mount = Mount("amp", (("item", "amplifier"), ("onto", "steel 0.8 mm"), ("removed", "yearly")))
    save_job(Job("", "", "", (mount,), ("bit:99",)), tmp_path / "job.toml")
    drive((80, 24), told, tmp_path)


def test_what_is_packed_is_at_hand_and_the_verdict_says_so_at_once(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await press(pilot, *"40 mm", "enter", *"40 mm", "enter", *"firm")
        await do(pilot, "b")
        before = missing(pilot)
        await press(pilot, "k")
        assert missing(pilot) == before - 1
        assert "4 needed and 2 spare, 6 packed: amplifier 4" in flat(pilot)
        lines = pilot.app.query_one("#box-lines", OptionList)
        now = box_of(pilot).box
        assert now is not None
        for key in [line.key for line in now.lines if line.is_thing][1:]:
            now = box_of(pilot).box
            assert now is not None
            lines.highlighted = next(at for at, line in enumerate(now.lines) if line.key == key)
            await press(pilot, "k")
        count = len([line for line in now.lines if line.is_thing])
        assert seen(pilot).splitlines()[1].startswith(f" READY  {count} of {count} packed"), seen(pilot)
        assert "is at hand, and every answer is proven" in flat(pilot)

    drive((80, 24), told, tmp_path)


@every_size
def test_every_line_of_the_box_can_be_reached(size: tuple[int, int]) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await do(pilot, "b")
        shown = ""
        await press(pilot, "home")
        for key in ("pagedown", "pageup"):  # there and back, until nothing moves any more
            before = ""
            while (now := flat(pilot)) != before:
                before, shown = now, shown + now
                await press(pilot, key)
        box = box_of(pilot).box
        assert box is not None
        words = {word for line in box.lines if line.text for word in line.text.split()}
        assert {word for word in words if word not in shown} == set()

    drive(size, told)


def test_have_it_puts_a_line_on_the_shelf_as_it_stands_there_and_the_verdict_changes(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await do(pilot, "b")
        before = missing(pilot)
        await press(pilot, "h")
        assert missing(pilot) == before - 1
        (part,) = shelf_on_disk(tmp_path).parts
        assert (part.part.kind, part.part.size, part.count) == ("rivet nut", "M5", 6)
        assert "4 needed and 2 spare, 6 on the shelf: amplifier 4" in flat(pilot)
        await press(pilot, "h")
        assert shelf_on_disk(tmp_path).parts == (part,)

    drive((80, 24), told, tmp_path)


def test_a_job_is_ready_once_everything_is_on_the_shelf_and_proven(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await press(pilot, *"40 mm", "enter", *"40 mm", "enter", *"firm")
        await do(pilot, "b")
        lines = pilot.app.query_one("#box-lines", OptionList)
        box = box_of(pilot).box
        assert box is not None
        for thing in [line for line in box.lines if line.is_thing]:
            now = box_of(pilot).box
            assert now is not None
            lines.highlighted = next(at for at, line in enumerate(now.lines) if line.key == thing.key)
            await press(pilot, "h")
        assert seen(pilot).splitlines()[1].startswith(" READY  0 of "), seen(pilot)
        assert "every answer is proven" in flat(pilot)

    drive((80, 24), told, tmp_path)


def test_a_shelf_that_cannot_be_read_is_told_of_and_nothing_is_taken_to_be_owned(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await do(pilot, "b")
        assert "line 3" in flat(pilot)
        assert "NOT READY" in seen(pilot)
        await press(pilot, "h")
        assert (tmp_path / SHELF).read_text() == broken

    broken = 'format = 1\nkind = "shelf"\ntitle = \n'
    (tmp_path / SHELF).parent.mkdir()
    (tmp_path / SHELF).write_text(broken)
    drive((80, 24), told, tmp_path)


def test_a_paper_never_takes_the_place_of_an_older_one(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        for name in ("job-work.txt", "job-work-2.txt"):
            await do(pilot, "x")
            await press(pilot, *"work plain", "enter")
            assert f"{name} is written" in flat(pilot)
            assert (tmp_path / name).exists()

    drive((44, 30), told, tmp_path)


def test_a_drilling_template_wants_a_mount_point_and_says_so(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "x")
        await press(pilot, *"drilling", "enter")
        assert "no mount point is in hand" in flat(pilot)
        assert list(tmp_path.glob("*.svg")) == []

    drive((44, 15), told, tmp_path)


# -- the shelf ---------------------------------------------------------------------------------------------------------


async def own(pilot: Pilot[None], sort: str, *filled: str | None) -> None:
    await press(pilot, "h", *sort, "enter")
    await fill(pilot, *filled)


async def own_a_screw(pilot: Pilot[None]) -> None:
    await own(pilot, "part", "screw", "M5", "16 mm", "ISO 15071", "8.8", "20", "100", "0,12", "top drawer")


SCREW = ShelfPart(Part("screw", "M5", "ISO 15071", "8.8", 16.0), 20, 100, 0.12, "top drawer")


@every_size
def test_parts_bits_tools_and_consumables_are_owned_changed_and_taken_off(
    size: tuple[int, int], tmp_path: Path
) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "s")
        assert "The shelf is empty" in seen(pilot)
        await own_a_screw(pilot)
        assert shelf_on_disk(tmp_path).parts == (SCREW,)
        assert " 20 □ screw M5 x 16 mm," in flat(pilot)
        assert "0.12 each, top drawer" in flat(pilot)
        for sort, name in (("bit", "3 mm"), ("tool", "rivet-nut setter"), ("consumable", "bare-edge primer")):
            await own(pilot, f"a {sort}", name)
            assert f"{sort}: {name}" in flat(pilot)
        await own(pilot, "a bit", "3 mm")
        assert shelf_on_disk(tmp_path).bits == ("3 mm",)
        await press(pilot, "home", "enter")
        await fill(pilot, *[None] * 5, "12", None, None, None)
        assert shelf_on_disk(tmp_path).parts[0].count == 12
        await press(pilot, "home", "enter")
        await fill(pilot, None, "M6", *[None] * 7)
        assert [entry.part.size for entry in shelf_on_disk(tmp_path).parts] == ["M6"]
        await press(pilot, "home", "enter")
        await fill(pilot, *[None] * 5, "0", None, None, None)
        assert shelf_on_disk(tmp_path).parts == ()
        await press(pilot, "home", "enter")
        await fill(pilot, "1/8 in")
        assert shelf_on_disk(tmp_path).bits == ("1/8 in",)
        await press(pilot, "home", "d")
        assert shelf_on_disk(tmp_path).bits == ()
        assert "1/8 in is off the shelf" in flat(pilot)

    drive(size, told, tmp_path)


def test_every_change_of_the_shelf_is_taken_back_and_made_again(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        job = app_of(pilot).open_job.job
        await do(pilot, "s")
        await own_a_screw(pilot)
        await own(pilot, "a bit", "3 mm")
        await press(pilot, "u")
        assert (shelf_on_disk(tmp_path).parts, shelf_on_disk(tmp_path).bits) == ((SCREW,), ())
        await press(pilot, "u")
        assert shelf_on_disk(tmp_path).parts == ()
        assert "The shelf is empty" in seen(pilot)
        await press(pilot, "u")
        assert "nothing to take back" in flat(pilot)
        await press(pilot, "y", "y")
        assert (shelf_on_disk(tmp_path).parts, shelf_on_disk(tmp_path).bits) == ((SCREW,), ("3 mm",))
        await press(pilot, "y")
        assert "nothing to make again" in flat(pilot)
        assert app_of(pilot).open_job.job == job

    drive((80, 24), told, tmp_path)


@pytest.mark.parametrize(
    ("filled", "why"),
    [
        (("", "M5", "", "", "", "20", "", "", ""), "what it is and how many"),
        (("screw", "M5", "16", "", "", "20", "", "", ""), "length"),
        (("screw", "M5", "", "", "", "a few", "", "", ""), "not a whole number"),
        (("screw", "M5", "16 mm", "ISO 15071", "8.8", "20", "0", "", ""), "pack"),
        (("screw", "M5", "", "", "", "20", "", "cheap", ""), "not a price"),
    ],
    ids=["kind", "length", "count", "pack", "price"],
)
def test_a_part_that_is_not_filled_in_rightly_is_refused_in_its_panel(
    filled: tuple[str, ...], why: str, tmp_path: Path
) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "s")
        await own(pilot, "part", *filled)
        assert why in flat(pilot).partition("! ")[2]
        assert pilot.app.screen.query_one("#fill-size", Input).value == "M5"
        assert not (tmp_path / SHELF).exists()

    drive((44, 15), told, tmp_path)


@every_size
def test_what_a_line_lacks_is_asked_for_before_it_is_kept(size: tuple[int, int], tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "s")
        await own(pilot, "part", "screw", "M5", "", "ISO 15071", "8.8", "20", "", "", "")
        assert "does not say its length" in flat(pilot).partition("! ")[2]
        await press(pilot, "enter")
        assert "does not say its length" in flat(pilot).partition("! ")[2], "as often as it is kept"
        await press(pilot, *["shift+tab"] * 6)
        await fill(pilot, "16 mm", *[None] * 6)
        assert " 20 □ screw M5 x 16 mm, ISO 15071, 8.8" in flat(pilot)
        await own(pilot, "a tool", "rivet-nut mandrel")
        assert "does not say its size" in flat(pilot)
        await fill(pilot, "rivet nut mandrel M5")
        assert "! is taken for rivet-nut mandrel" in flat(pilot)
        assert shelf_on_disk(tmp_path).tools == ("rivet nut mandrel M5",)

    drive(size, told, tmp_path)


async def say_in_box(pilot: Pilot[None]) -> None:
    """Ask for an amplifier and go to the box."""
    await do(pilot, "m")
    await say(pilot, *AMPLIFIER)
    await do(pilot, "b")


def test_what_nothing_is_like_is_kept_when_it_is_kept_once_more_and_says_so_on_the_shelf(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "s")
        await own(pilot, "part", "bolt", "M5", "16 mm", "ISO 15071", "8.8", "20", "", "", "")
        assert "the nearest is screw M5 x 16 mm, ISO 15071, 8.8, or keep it once more to keep it as it is" in flat(
            pilot
        )
        assert not (tmp_path / SHELF).exists()
        await press(pilot, "enter")
        assert shelf_on_disk(tmp_path).parts[0].part.kind == "bolt"
        assert "! matches nothing; the nearest is screw M5 x 16 mm" in flat(pilot)
        await say_in_box(pilot)
        assert "On the shelf, part: 'bolt M5 x 16 mm, ISO 15071, 8.8' matches nothing; the nearest is" in flat(pilot)
        await do(pilot, "s")
        await press(pilot, "home", "enter")
        await fill(pilot, *[None] * 5, "0", None, None, None)
        assert shelf_on_disk(tmp_path).parts == ()

    drive((80, 24), told, tmp_path)


def test_a_shelf_changed_by_another_program_is_not_overwritten(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "s")
        await own_a_screw(pilot)
        theirs = (tmp_path / SHELF).read_text().replace("20", "19")
        (tmp_path / SHELF).write_text(theirs)
        await own(pilot, "a bit", "3 mm")
        assert "another program changed the shelf" in flat(pilot)
        assert (tmp_path / SHELF).read_text() == theirs
        await press(pilot, "enter")  # what was filled in still stands there, and goes on top of what they did
        assert "19 □ screw M5" in flat(pilot)
        assert (tmp_path / SHELF).read_text() == theirs.replace("bits = []", 'bits = [\n    "3 mm",\n]')

    drive((80, 24), told, tmp_path)
