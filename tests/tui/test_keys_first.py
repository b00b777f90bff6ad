"""Nothing that goes on beside the screen holds a key: no save, no search for garbage, nothing that the rail shows."""

from dataclasses import replace
from pathlib import Path
from threading import Event, Thread, Timer
from unittest.mock import patch

import pytest
from textual.pilot import Pilot

from fasten.job.store import storage
from fasten.job.store.storage import Loaded, load_job, save_job
from fasten.job.words import Job, Mount, Shelf
from fasten.question.fields import BOARD
from fasten.tui import COLLECTED
from fasten.tui.standings import Standings
from fasten.tui.state.open_job import OpenJob
from fasten.tui.terminal.collecting import collect

from .pilot import AMPLIFIER, TABLES, app_of, drive, flat, hit, press, say, until

MOUNTS = 12
LONGEST_S = 5.0  # that anything waits here; what passes never does
SAID = (("item", "amplifier"), ("onto", "steel 0.8 mm"), ("removed", "yearly"))
MANY = Job("Estate", "", "", tuple(Mount(f"amp {n}", (*SAID, ("mass", f"{n + 1} g"))) for n in range(MOUNTS)))


# -- saving ------------------------------------------------------------------------------------------------------------


@pytest.mark.slow
def test_what_is_typed_is_answered_while_a_disk_takes_long_and_is_saved_after_it(tmp_path: Path) -> None:
    begun, go_on, whole = Event(), Event(), storage.save_job
    in_time: list[bool] = []

    def slow(*given: object) -> Loaded[Job]:
        begun.set()
        in_time.append(go_on.wait(LONGEST_S))
        return whole(*given)  # type: ignore[arg-type]

    def onto() -> str:
        return dict(load_job(tmp_path / "job.toml", TABLES).value.mounts[0].said)["onto"]

    async def told(pilot: Pilot[None]) -> None:
        await say(pilot, *AMPLIFIER)
        await press(pilot, "up", "up", *"steel 1 mm")
        with patch.object(storage, "save_job", slow):
            hit(pilot, *["backspace"] * 4, *"2 mm")
            await until(pilot, begun.is_set)
            assert not app_of(pilot).open_job.is_saved
            hit(pilot, *["backspace"] * 4, *"3 mm")
            await until(pilot, lambda: "steel 3 mm" in flat(pilot))
            go_on.set()
            await until(pilot, lambda: onto() == "steel 3 mm")

    drive((80, 24), told, tmp_path)
    assert all(in_time)


def test_a_change_that_is_taken_back_while_it_is_saved_is_taken_back_in_the_file_too() -> None:
    begun, go_on = Event(), Event()
    kept: list[Job] = []

    def save(job: Job) -> None:
        begun.set()
        assert go_on.wait(LONGEST_S)
        kept.append(job)

    open_job = OpenJob(save)
    open_job.say(dict(SAID), "amplifier", open_job.hand)
    thread = Thread(target=open_job.save)
    thread.start()
    assert begun.wait(LONGEST_S)
    open_job.undo()
    assert not open_job.is_saved
    Timer(0.01, go_on.set).start()
    open_job.save()
    thread.join()
    assert [len(job.mounts) for job in kept] == [1, 0]
    assert open_job.is_saved


# -- garbage -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("counts", "looked"),
    [((5000, 3, 30), [(0,)]), ((10, 3, 0), [(1,)]), ((10, 3, 30), [()]), ((10, 0, 0), [])],
    ids=["typed", "quiet", "quiet after long", "nothing made"],
)
def test_old_objects_are_looked_through_in_a_quiet_second_alone(
    counts: tuple[int, int, int], looked: list[tuple[int, ...]]
) -> None:
    limits = patch("gc.get_threshold", return_value=COLLECTED)
    with limits, patch("gc.get_count", return_value=counts), patch("gc.collect") as collected:
        collect()
    assert [tuple(call.args) for call in collected.call_args_list] == looked


# -- the rail ----------------------------------------------------------------------------------------------------------


@pytest.mark.slow
def test_the_rail_ends_where_something_is_typed_and_goes_on_once_it_is_answered(tmp_path: Path) -> None:
    go_on, find = Event(), Standings.find
    begun: list[str] = []

    def slow(standings: Standings, mount: Mount, job: Job, shelf: Shelf | None) -> None:
        begun.append(mount.name)
        go_on.wait(LONGEST_S)
        find(standings, mount, job, shelf)

    async def told(pilot: Pilot[None]) -> None:
        app = app_of(pilot)
        await press(pilot, "tab", "end")
        app.standings = Standings(TABLES)
        go_on.clear()
        begun.clear()
        app._rail()
        await until(pilot, lambda: bool(begun))
        with patch("fasten.tui.mounts.mounts.REST_S", 60.0):
            hit(pilot, *["backspace"] * 4, *"1 mm")
            await until(pilot, lambda: app.mounts.is_waiting and "steel 0.1 mm" in flat(pilot))
            go_on.set()
            await until(pilot, lambda: all(worker.is_finished for worker in app.workers))
        assert len(begun) == 1
        await press(pilot, "backspace", "m")
        assert len(set(begun)) == MOUNTS
        assert None not in app.mounts.mount_list.standings

    go_on.set()
    save_job(MANY, tmp_path / "estate.toml")
    with patch.object(Standings, "find", slow):
        drive((120, 40), told, tmp_path, tmp_path / "estate.toml")


def test_the_others_are_not_asked_again_while_the_mount_point_in_hand_alone_is_changed() -> None:
    standings = Standings(TABLES)
    job = replace(MANY, mounts=MANY.mounts[:3])
    standings.find(job.mounts[1], job, None)

    def changed(at: int, mass: str) -> Job:
        mounts = [*job.mounts]
        mounts[at] = replace(mounts[at], said=(*SAID, ("mass", mass)))
        return replace(job, mounts=tuple(mounts))

    with patch.object(standings, "uses", wraps=standings.uses) as asked:
        for mass in ("2 kg", "3 kg", "4 kg"):
            assert len(standings.beside(changed(0, mass), 0, None).uses) == 1
        assert asked.call_count == 1
        assert standings.beside(changed(1, "5 kg"), 0, None).uses == ()
        standings.find(job.mounts[2], job, None)
        assert len(standings.beside(job, 0, None).uses) == 2
        on_board = replace(job.mounts[0], said=(*SAID, (BOARD.name, "amp 1")))
        there = replace(job, mounts=(on_board, *job.mounts[1:]))
        assert len(standings.beside(there, 0, None).uses) == 1, "what stands on it makes the board another"
