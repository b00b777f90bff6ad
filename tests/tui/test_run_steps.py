"""The work on a run step by step: what each step is called, what it is made to, and which markers go where."""

import pytest
from textual.pilot import Pilot

from fasten.job.entries import entries
from fasten.job.store.job_toml import read_job
from fasten.job.work import work_sheet
from fasten.report.job.work import work_document

from .pilot import TABLES, do, every_size, flat, press
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
