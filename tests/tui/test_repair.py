"""Repair on the screen: what happened, where, the routes proved, and one taken and taken back; by keys and by taps."""

from pathlib import Path

import pytest
from textual.pilot import Pilot
from textual.widgets import Input, OptionList

from fasten.after import routes as routes_module
from fasten.after.routes import Repaired
from fasten.job.after.damaged import planned_at, routes_at
from fasten.job.choices import choices
from fasten.job.list.hardware import hardware
from fasten.job.store.storage import load_job
from fasten.job.words import REPAIRED, Job
from fasten.progress import unseen
from fasten.tui.repair.repair import RepairPlace
from fasten.tui.repair.repair_story import Ask, Story
from fasten.tui.work.work import WorkPlace

from .pilot import (
    TABLES,
    app_of,
    do,
    drive,
    every_size,
    flat,
    hit,
    lines,
    notices,
    press,
    seen,
    settle,
    until,
    wide_or_narrow,
)
from .test_work import job_in, tap, tap_word

pytestmark = pytest.mark.slow


def kept(folder: Path) -> Job:
    return load_job(folder / "front.toml", TABLES).value


def page(pilot: Pilot[None]) -> RepairPlace:
    return pilot.app.query_one(RepairPlace)


async def to_repair(pilot: Pilot[None]) -> None:
    """The repair of the first mount point."""
    await do(pilot, "a")
    await press(pilot, "1", "enter")
    await do(pilot, "e")


async def say(pilot: Pilot[None], *answers: str) -> None:
    for answer in answers:
        await press(pilot, *answer, "enter")


@every_size
def test_by_keys_what_happened_is_said_a_route_is_taken_and_taken_back(size: tuple[int, int], tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await to_repair(pilot)
        assert "STILL TO SAY" in seen(pilot) or size[1] < 20
        await say(pilot, "oversize", "8.2 mm", "3")
        assert "oversize to 8.2 mm at fixing 3" in flat(pilot)
        assert "ROUTES" in seen(pilot)
        assert "take route 1" in seen(pilot)
        await press(pilot, "k")
        assert "written down" in notices(pilot)
        mount = kept(tmp_path).mounts[0]
        assert [(one.at, one.what) for one in mount.repairs] == [(3, "oversize 8.2 mm")]
        assert mount.visits[-1].kind == REPAIRED
        assert "taken" in flat(pilot)
        await press(pilot, "k")
        assert len(kept(tmp_path).mounts[0].repairs) == 1, "it is taken once"
        await press(pilot, "u")
        assert kept(tmp_path).mounts[0].repairs == ()
        assert "take route 1" in seen(pilot)

    drive(size, told, tmp_path, job_in(tmp_path))


@every_size
def test_by_taps_alone_from_the_work_to_a_route_and_on_to_its_step(size: tuple[int, int], tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "a")
        await press(pilot, "1", "enter")
        await do(pilot, "w")
        await tap_word(pilot, "repair")
        await tap_word(pilot, "Spun")
        await tap_word(pilot, "Fixing 2")
        await tap_word(pilot, page(pilot)._found.routes[1].title.capitalize())  # type: ignore[union-attr]
        assert "take route 2" in seen(pilot)
        if size[0] < 100:
            assert page(pilot).is_viewing, "on a small screen it is shown in full"
        await tap_word(pilot, "take route 2")
        assert kept(tmp_path).mounts[0].repairs[0].at == 2
        await tap_word(pilot, "on to the work")
        work = pilot.app.query_one(WorkPlace)
        assert app_of(pilot).place == "work"
        assert "Only at fixing 2" in flat(pilot)
        assert work.spot is not None
        assert work.spot.id.startswith("repair/1/")

    drive(size, told, tmp_path, job_in(tmp_path))


def test_the_old_part_comes_out_before_the_work_goes_on_and_nothing_open_is_passed_over(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "a")
        await press(pilot, "1", "enter")
        await do(pilot, "w")
        work = pilot.app.query_one(WorkPlace)
        while work.spot is None or not work.spot.hole:
            await press(pilot, "k")
        await press(pilot, "k", "e")
        await say(pilot, "spun", "1")
        await press(pilot, "k", "w")
        assert work.spot.id.startswith("repair/1/")
        assert "Old part out" in flat(pilot)
        await press(pilot, "down", *"k" * 40)
        assert app_of(pilot).place == "built"
        assert work.work is not None
        spots = work.work.spots
        assert all(map(work.work.is_done, spots[: spots.index(work.spot)]))

    drive((80, 24), told, tmp_path, job_in(tmp_path))


def test_list_answer_and_work_follow_the_route_that_is_taken(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        before = hardware(kept(tmp_path), choices(kept(tmp_path), TABLES), None, TABLES)
        await to_repair(pilot)
        await say(pilot, "oversize 8.2 mm", "3")
        await press(pilot, "k")
        after = hardware(kept(tmp_path), choices(kept(tmp_path), TABLES), None, TABLES)
        assert {line.part.size for line in after.parts} - {line.part.size for line in before.parts}
        await do(pilot, "m")
        assert "was repaired after oversize 8.2 mm" in flat(pilot)

    drive((120, 40), told, tmp_path, job_in(tmp_path))


@wide_or_narrow
def test_a_fixing_is_taken_by_a_tap_on_the_plan(size: tuple[int, int], tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await to_repair(pilot)
        await say(pilot, "stripped")
        await tap(pilot, "hole:4")
        assert "stripped at fixing 4" in flat(pilot)
        assert "ROUTES" in seen(pilot)

    drive(size, told, tmp_path, job_in(tmp_path))


@every_size
def test_a_crack_asks_first_whether_it_is_a_structure_and_stops_there(size: tuple[int, int], tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await to_repair(pilot)
        await say(pilot, "cracked", "1")
        assert "structure, belt, seat or airbag" in flat(pilot)
        assert "ROUTES" not in seen(pilot)
        await press(pilot, "down", "enter")
        assert "STOP" in seen(pilot)
        assert page(pilot).route is None
        await press(pilot, "k")
        assert kept(tmp_path).mounts[0].repairs == ()
        await press(pilot, "e")
        await say(pilot, "cracked", "1")
        await press(pilot, "enter")
        assert "no structure or safety part" in flat(pilot)
        assert "ROUTES" in seen(pilot)

    drive(size, told, tmp_path, job_in(tmp_path))


def test_a_whole_row_that_spins_asks_the_same(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await to_repair(pilot)
        await say(pilot, "spun", "every")
        assert "structure, belt, seat or airbag" in flat(pilot)

    drive((80, 24), told, tmp_path, job_in(tmp_path))


def test_what_is_not_understood_says_why_and_nothing_is_taken_of_it(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await to_repair(pilot)
        await say(pilot, "oversize")
        await say(pilot, "5 mm")
        assert "5 mm is not over its hole" in flat(pilot)
        await press(pilot, *["backspace"] * 4)
        await say(pilot, "9.5")
        assert "has no unit" in flat(pilot)
        await press(pilot, *["backspace"] * 3)
        await say(pilot, "9.5 mm", "7")
        assert "there is no fixing 7" in flat(pilot)

    drive((80, 24), told, tmp_path, job_in(tmp_path))


def test_a_word_that_is_said_is_taken_in_hand_again_by_a_tap_and_by_tab(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await to_repair(pilot)
        await say(pilot, "off")
        await press(pilot, *"3 mm", "down", "enter")
        assert "off by 3 mm right" in flat(pilot)
        await press(pilot, "shift+tab", "shift+tab")
        await press(pilot, *"spun", "enter")
        assert "spun at fixing ?" in flat(pilot)
        await tap_word(pilot, "spun")
        assert page(pilot)._ask is Ask.WHAT

    drive((80, 24), told, tmp_path, job_in(tmp_path))


def test_a_fixing_that_was_repaired_is_repaired_again_from_what_is_there(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await to_repair(pilot)
        await say(pilot, "oversize 8.2 mm", "3")
        await press(pilot, "k", "e")
        await say(pilot, "spun", "3")
        assert "NO ROUTE" not in seen(pilot)
        found = page(pilot)._found
        assert found is not None
        assert found.left_mm == 9.0
        assert page(pilot).taken is None
        await press(pilot, "k")
        assert page(pilot).taken is not None
        assert [one.at for one in kept(tmp_path).mounts[0].repairs] == [3, 3]

    drive((80, 24), told, tmp_path, job_in(tmp_path))


def test_what_is_typed_before_it_is_known_what_is_fitted_is_said_then_and_is_no_action(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        job = app_of(pilot).open_job.job
        hit(pilot, ";", "e", *"spun", "enter", "3", "enter")
        await settle(pilot)
        assert app_of(pilot).place == "repair"
        found = page(pilot)._found
        assert found is not None
        assert (found.damage.what, found.at) == ("spun", 3)
        assert app_of(pilot).open_job.job == job

    drive((80, 24), told, tmp_path, job_in(tmp_path))


def test_where_nothing_fits_there_is_nothing_to_repair(tmp_path: Path) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await to_repair(pilot)
        assert "has no answer, so there is no joint to repair" in flat(pilot)
        await press(pilot, "enter", "k")
        assert app_of(pilot).place == "repair"

    drive((80, 24), told, tmp_path, job_in(tmp_path, behind="2 mm", panel="door"))


def test_the_proof_of_the_routes_is_counted_and_stopped_by_q(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    from threading import Event

    go_on, first = Event(), routes_module._route

    def slow(*given: object) -> object:
        go_on.wait(60)
        return first(*given)  # type: ignore[arg-type]

    monkeypatch.setattr(routes_module, "_route", slow)

    async def told(pilot: Pilot[None]) -> None:
        await to_repair(pilot)
        await say(pilot, "spun")
        hit(pilot, "3", "enter")
        await until(pilot, lambda: "Routes: " in lines(pilot)[0])
        assert "q stops it" in lines(pilot)[0]
        hit(pilot, "q")
        await until(pilot, lambda: "stops it" not in lines(pilot)[0])
        go_on.set()
        await settle(pilot)
        assert pilot.app.is_running
        assert "not proved to their end" in flat(pilot)

    drive((80, 24), told, tmp_path, job_in(tmp_path))


def test_the_screen_shows_the_routes_that_the_command_prints(tmp_path: Path) -> None:
    job = load_job(job_in(tmp_path), TABLES).value
    planned = planned_at("left amp", job, TABLES)
    told, reading = Story(planned).read(Ask.WHAT, "oversize 8.2 mm")
    assert reading.why == ""
    told = told.read(Ask.AT, "3")[0]
    assert told.damage is not None
    found: Repaired = routes_at(planned, told.damage, told.at, TABLES, unseen)

    async def driven(pilot: Pilot[None]) -> None:
        await to_repair(pilot)
        await say(pilot, "oversize 8.2 mm", "3")
        shown = page(pilot)._found
        assert shown is not None
        assert [route.route for route in shown.routes] == [route.route for route in found.routes]
        assert [route.route for route in shown.refused] == [route.route for route in found.refused]
        assert not isinstance(pilot.app.focused, Input)
        assert isinstance(pilot.app.focused, OptionList)
        for route in found.refused:
            assert route.title[1:] in flat(pilot)

    drive((120, 40), driven, tmp_path, tmp_path / "front.toml")
