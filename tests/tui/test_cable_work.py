"""The work on cable, step by step by keys: after the mount points holes and sections, runs, and what closes them."""

import pytest
from textual.pilot import Pilot

from fasten.tui.runs.run_list import RunList
from fasten.tui.work.work import WorkPlace

from .pilot import app_of, do, every_size, press, seen, wide_or_narrow
from .test_runs_page import JOB, drive_job

pytestmark = pytest.mark.slow

HOLE = """[[hole]]
name = "bulkhead"
through = "steel 0.9 mm"

[[run]]"""
WHOLE = JOB.replace("[[run]]", HOLE, 1) + 'sections = ["bonnet"]\nholes = ["bulkhead"]\n'
ORDER = ("bulkhead", "bonnet", "main power", "bulkhead, cable in", "bonnet, cable in")


def page(pilot: Pilot[None]) -> WorkPlace:
    app = app_of(pilot)
    return app.query_one(f"#{app.place}", WorkPlace)


def title(pilot: Pilot[None]) -> tuple[str, ...]:
    """What is worked at, and the titles of its groups."""
    work = page(pilot).work
    assert work is not None
    return work.name or work.choice.name, *(group.title for group in work.groups if group.title)


@every_size
def test_the_work_goes_on_from_the_mount_points_through_all_cable(size: tuple[int, int]) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "w")
        found = []
        for _ in range(2 + len(ORDER)):
            found.append(title(pilot))
            await press(pilot, "right")
        mounts = [("left amplifier", "before everything"), ("ground", "before everything")]
        *ways, last = ORDER
        assert found == [*mounts, *((name,) for name in ways), (last, "after everything")]
        assert app_of(pilot).place == "work", "round the end"
        assert title(pilot)[0] == "left amplifier"
        await press(pilot, "left")
        assert title(pilot)[0] == last
        await press(pilot, "left", "left", "left", "left", "left")
        assert title(pilot)[0] == "ground", "back past the first of the cable"

    drive_job(size, told, WHOLE)


@wide_or_narrow
def test_a_hole_is_ticked_to_its_figure_and_says_what_comes_next(size: tuple[int, int]) -> None:
    """13.5 mm of 2 AWG as sold takes a grommet of 14 mm in a hole of 18 mm."""

    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "w")
        await press(pilot, "right", "right")
        assert "bulkhead: step 1 of 4" in seen(pilot)
        await press(pilot, "enter")
        assert "Drill a pilot and widen it to 18 mm" in " ".join(seen(pilot).split())
        await press(pilot, "enter", "enter", "enter")
        assert "on to bonnet" in seen(pilot)
        await press(pilot, "enter")
        assert "bonnet: step 1 of 1" in seen(pilot)
        await press(pilot, "enter", "u")
        assert "bonnet: step 1 of 1" in seen(pilot)

    job = drive_job(size, told, WHOLE)
    assert job.holes[0].ticked[1] == "step:hole/open_up/2 = 18 mm"
    assert len(job.holes[0].ticked) == 4
    assert job.sections[0].ticked == (), "taken back"


@wide_or_narrow
def test_the_row_of_a_hole_names_grommet_hole_and_bit_and_leads_to_its_work(size: tuple[int, int]) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "r")
        listed = app_of(pilot).focused
        assert isinstance(listed, RunList)
        while listed.in_hand is None or listed.in_hand.of != "bulkhead":
            await press(pilot, "down")
        said = " ".join(text for line in listed.in_hand.shown for text, _ in line)
        assert "grommet 14 mm, hole 18 mm, groove 2 mm; bit 3 mm, 18 mm" in " ".join(said.split())
        await press(pilot, "w")
        assert "bulkhead: step 1 of 4" in seen(pilot)
        await press(pilot, "v")
        assert app_of(pilot).place == "runs"

    drive_job(size, told, WHOLE)


@wide_or_narrow
def test_what_is_measured_of_a_run_goes_in_its_note_at_its_work(size: tuple[int, int]) -> None:
    """The paper has blanks for it; on the screen the note is where its millivolts and torques are kept."""

    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "r")
        await press(pilot, "w")
        await do(pilot, "t")
        await press(pilot, "enter", *"190mV", "enter")
        assert "main power: step 1 of " in seen(pilot)

    assert drive_job(size, told, WHOLE).runs[0].note == "190mV"
