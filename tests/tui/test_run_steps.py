"""The work on a run step by step: what each step is called, what it is made to, and which markers go where."""

import pytest
from textual.pilot import Pilot

from fasten.job.entries import entries
from fasten.job.store.job_toml import read_job
from fasten.job.work import work_sheet
from fasten.report.job.work import work_document
from fasten.tui.drawn.digits import large
from fasten.tui.work.work import WorkPlace

from .pilot import TABLES, app_of, do, every_size, flat, press, seen
from .test_runs_page import JOB, NEAR, drive_job

pytestmark = pytest.mark.slow


@every_size
def test_the_battery_is_not_looked_behind(size: tuple[int, int]) -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "r")
        await press(pilot, "w")
        assert "Battery off" in flat(pilot)
        assert "attery is off" in flat(pilot)
        assert "ooked behind" not in flat(pilot)

    drive_job(size, told, NEAR)


@every_size
def test_the_markers_are_named_as_they_are_on_paper(size: tuple[int, int]) -> None:
    """After two mount points and a section the run is the fourth entry of the work sheet."""

    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "r")
        await press(pilot, "w")
        while "Put a marker on" not in flat(pilot):
            await press(pilot, "enter")
        for marker, _, where in on_paper():
            assert f"{marker} at {where}".lower() in flat(pilot).lower()
        assert "4A at " in flat(pilot)

    drive_job(size, told)


def on_paper() -> list[tuple[str, ...]]:
    """The wire markers of the work sheet, row by row."""
    job = read_job(JOB.encode(), "job", TABLES)[0]
    sheet = work_sheet(job, entries(job, TABLES), None, TABLES)
    markers = next(one for one in work_document(sheet, 80).sections if one.heading == "Wire markers")
    return list(markers.rows)


def test_what_a_step_is_made_to_is_its_largest_figure_and_the_drawing_says_the_same() -> None:
    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "r")
        await press(pilot, "w")
        work = app_of(pilot).query_one("#run-work", WorkPlace)
        while work.spot is not None and work.spot.id != "run/cut/1":
            await press(pilot, "enter")
        assert work.work is not None
        assert work.spot is not None
        figure = work.work.state(work.spot).task.figure
        assert figure is not None
        assert large(figure.value, solid=False)[0] in seen(pilot)
        assert f"{figure.text.partition(', then')[0].replace(',', '')}" in flat(pilot)
        kept = work.work.state(work.spot).task.kept
        await press(pilot, "enter")
        assert kept.startswith(f"{figure.text} on ")
        assert f"step:run/cut/1 = {kept}" in app_of(pilot).open_job.job.runs[0].ticked

    drive_job((120, 40), told)
