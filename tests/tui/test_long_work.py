"""Long work leaves the screen in use, says how far it is and is stopped by a key; what it finds late does no harm."""

from dataclasses import replace
from pathlib import Path
from threading import Event
from typing import Any

import pytest
from textual.pilot import Pilot
from textual.widgets import OptionList, Static

from fasten.job import choices as choices_module
from fasten.job.choices import Choice
from fasten.job.store.storage import load_job, save_job, save_shelf
from fasten.job.words import Job, Mount, Shelf, ShelfPart
from fasten.model.line import Part
from fasten.tui.box import box as box_module
from fasten.tui.box.box import Box, BoxPlace

from .pilot import SIZES, TABLES, app_of, do, drive, every_size, flat, hit, lines, notices, press, seen, settle, until
from .terminal import Terminal

pytestmark = pytest.mark.slow

MOUNTS, SLOW_AT = 40, 16
MANY = Job("Estate", "", "", tuple(
    Mount(f"amp {n}", (("item", "amplifier"), ("onto", "steel 0.8 mm"), ("removed", "yearly"), ("mass", f"{n + 1} g")))
    for n in range(MOUNTS)
))  # fmt: skip


class Slow:
    """Answers to mount points, quick until the one that waits to be let go; how many were begun."""

    def __init__(self, monkeypatch: pytest.MonkeyPatch) -> None:
        self.go_on, self.begun = Event(), 0
        self._first = choices_module.choice(MANY.mounts[0], TABLES)
        monkeypatch.setattr(choices_module, "choice", self.answer)

    def answer(self, mount: Mount, *_given: object) -> Choice:
        self.begun += 1
        if mount.name == f"amp {SLOW_AT}":
            self.go_on.wait(60)
        return replace(self._first, mount=mount)


@pytest.fixture
def slow(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Slow:
    save_job(MANY, tmp_path / "estate.toml")
    monkeypatch.setattr("fasten.tui.app._MOST_RAILED", 0)  # the rail would take the answers that are waited for
    return Slow(monkeypatch)


def kept(folder: Path) -> Job:
    return load_job(folder / "estate.toml", TABLES).value


async def begin(pilot: Pilot[None], *keys: str, count: str) -> None:
    """Begin work and see how far it is in the top line."""
    hit(pilot, *keys)
    await until(pilot, lambda: count in lines(pilot)[0])


async def stop(pilot: Pilot[None], key: str) -> None:
    hit(pilot, key)
    await until(pilot, lambda: "stops it" not in lines(pilot)[0])


def verdict(pilot: Pilot[None]) -> str:
    return str(pilot.app.query_one("#verdict", Static).content)


@every_size
def test_the_top_line_counts_the_box_and_the_key_that_it_names_stops_it(
    size: tuple[int, int], slow: Slow, tmp_path: Path
) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await begin(pilot, ";", "b", count="Box: 16 of 40, q stops it")
        await stop(pilot, "q")
        slow.go_on.set()
        await settle(pilot)
        assert slow.begun == SLOW_AT + 1, "it ends at its next step"
        assert verdict(pilot) == "The box was not calculated to its end. Press b to calculate it."
        assert pilot.app.query_one("#box-lines", OptionList).option_count == 0
        await press(pilot, "b")
        assert verdict(pilot).startswith("▞▞▞ NOT READY 0 of ")
        assert kept(tmp_path) == MANY

    drive(size, told, tmp_path)


def test_every_key_does_what_it_does_while_work_goes_on(slow: Slow, tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await begin(pilot, ";", "b", count="Box: 16 of 40")
        hit(pilot, ";", "n", *"speaker", "enter", *"mdf 18 mm", "enter", *"rarely", "enter")
        await until(pilot, lambda: len(kept(tmp_path).mounts) == MOUNTS + 1)
        assert dict(kept(tmp_path).mounts[-1].said)["onto"] == "mdf 18 mm"
        await until(pilot, lambda: "Box: 16 of 40, ;q stops it" in lines(pilot)[0])
        hit(pilot, "escape")
        await until(pilot, lambda: "  saved" in lines(pilot)[0])
        slow.go_on.set()
        await settle(pilot)

    drive((80, 24), told, tmp_path)


def test_where_work_goes_on_the_menu_offers_to_stop_it_and_else_to_leave(slow: Slow, tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await begin(pilot, ";", "b", count="Box: 16")
        hit(pilot, ";")
        await until(pilot, lambda: "q stop: end the work that the top line counts" in flat(pilot))
        await stop(pilot, "q")
        slow.go_on.set()
        await settle(pilot)
        assert "not calculated to its end" in verdict(pilot)
        await press(pilot, ";")
        assert "q quit: the job is saved" in flat(pilot)

    drive((120, 40), told, tmp_path)


def test_a_tap_on_the_top_line_stops_it_and_does_nothing_else(slow: Slow, tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await pilot.click("#title")
        await begin(pilot, ";", "b", count="Box: 16")
        await pilot.click("#title")
        slow.go_on.set()
        await settle(pilot)
        assert "not calculated to its end" in verdict(pilot)

    drive((44, 15), told, tmp_path)


@pytest.mark.parametrize("leaving", ["\x03", ";q"])
def test_nobody_who_leaves_waits_for_work(leaving: str, tmp_path: Path) -> None:
    """Each answer takes two seconds here, the whole box longer than any test waits."""
    planted = tmp_path / "planted"
    planted.mkdir()
    (planted / "sitecustomize.py").write_text(
        "import time, fasten.job.choices as at\nwhole = at.choice\n"
        "at.choice = lambda *given: time.sleep(2) or whole(*given)\n"
    )
    save_job(MANY, tmp_path / "estate.toml")
    with Terminal(tmp_path, ["estate.toml"], PYTHONPATH=str(planted)) as terminal:
        terminal.shows("Fasten", "Mounts")
        terminal.keys(";b")
        terminal.shows(" of 40, q stops it")
        terminal.keys(leaving)
        if leaving == ";q":
            terminal.shows("not calculated to its end")
            terminal.keys(leaving)
        assert terminal.ended() == 0
        assert terminal.is_sane()


# -- what is found late ------------------------------------------------------------------------------------------------

FEWEST = (";", "b", "f")


async def in_box(pilot: Pilot[None], slow: Slow) -> None:
    """In the box, worked out; the next answers wait."""
    slow.go_on.set()
    await do(pilot, "b")
    slow.go_on.clear()


def test_the_fewest_sizes_are_looked_for_beside_the_screen_and_then_shown(slow: Slow, tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await in_box(pilot, slow)
        await begin(pilot, "f", count="Answers: 16 of 40, q stops it")
        slow.go_on.set()
        await settle(pilot)
        assert "Fewest different sizes" in seen(pilot)
        await press(pilot, ";")
        assert kept(tmp_path) == MANY

    drive((120, 40), told, tmp_path)


def test_work_on_a_job_that_is_another_by_then_comes_to_nothing(slow: Slow, tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await in_box(pilot, slow)
        await begin(pilot, "f", count="Answers: 16")
        hit(pilot, ";", "j", *"start a new", "enter")
        await until(pilot, lambda: not app_of(pilot).open_job.job.mounts)
        slow.go_on.set()
        await settle(pilot)
        assert "Fewest different sizes" not in seen(pilot)
        assert "the job has changed since this was shown" in notices(pilot)

    drive((120, 40), told, tmp_path)


def test_no_panel_comes_up_over_whatever_else_is_done_meanwhile(slow: Slow, tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await in_box(pilot, slow)
        await begin(pilot, "f", count="Answers: 16")
        hit(pilot, "l")
        await until(pilot, lambda: app_of(pilot).place == "look")
        slow.go_on.set()
        await settle(pilot)
        await press(pilot, *"M5")
        assert "The fewest sizes are found; press f in the box to read them" in notices(pilot)
        begun = slow.begun
        await do(pilot, "b", "f")
        assert "Fewest different sizes" in seen(pilot)
        assert slow.begun == begun, "what is found is not looked for again"

    drive((120, 40), told, tmp_path)


@pytest.mark.parametrize("end", ["stopped", "changed"])
@pytest.mark.parametrize("paper", ["work sheet, plain", "hardware list, plain"])
def test_a_paper_that_is_stopped_or_of_a_job_that_is_another_by_then_is_not_written(
    paper: str, end: str, slow: Slow, tmp_path: Path
) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await begin(pilot, ";", "x", *paper, "enter", count="Answers: 16 of 40, ;q stops it")
        if end == "stopped":
            await stop(pilot, "escape")
        else:
            hit(pilot, ";", "d")
            await until(pilot, lambda: len(app_of(pilot).open_job.job.mounts) < MOUNTS)
        slow.go_on.set()
        await settle(pilot)
        assert not list(tmp_path.glob("*.txt"))
        told = "Stopped; nothing was" if end == "stopped" else "the job has changed since this was shown"
        assert told in notices(pilot)

    drive((44, 15), told, tmp_path)


def test_a_paper_is_written_while_something_else_is_done(slow: Slow, tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await begin(pilot, ";", "x", *"hardware list, plain", "enter", count="Answers: 16")
        hit(pilot, ";", "l")
        await until(pilot, lambda: app_of(pilot).place == "look")
        slow.go_on.set()
        await settle(pilot)
        assert "Estate-hardware.txt is written" in notices(pilot)

    drive((80, 24), told, tmp_path)
    assert "Hardware list: Estate" in (tmp_path / "Estate-hardware.txt").read_text()


OWN = Shelf("", "", "", (ShelfPart(Part("screw", "M5", "ISO 15071", "8.8", 16.0), 7),), (), (), ())


def test_a_tick_while_the_box_is_worked_out_by_another_shelf_does_not_bring_the_old_one_back(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    go_on, whole = Event(), box_module.box_of
    go_on.set()

    def waits(*given: Any) -> Box:
        go_on.wait(60)
        return whole(*given)

    async def told(pilot: Pilot[None]) -> None:
        app = app_of(pilot)
        await do(pilot, "b")
        place = pilot.app.query_one(BoxPlace)
        go_on.clear()
        save_shelf(OWN, tmp_path / "shelf" / "shelf.toml")
        app.show_box()
        hit(pilot, "k")
        await until(pilot, lambda: len(app.open_job.job.packed) == 1)
        go_on.set()
        await settle(pilot)
        box = place.box
        assert box is not None
        assert box.by == OWN
        assert sum(line.on_shelf for line in box.listed.parts) == 7
        assert "1 of" in verdict(pilot)

    (tmp_path / "shelf").mkdir()
    save_job(replace(MANY, mounts=MANY.mounts[:1]), tmp_path / "estate.toml")
    monkeypatch.setattr(box_module, "box_of", waits)
    drive(SIZES[0], told, tmp_path)
