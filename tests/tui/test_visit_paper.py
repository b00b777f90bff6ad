"""The sheet of a return visit, put on paper from the screen where the other papers are chosen."""

from pathlib import Path

import pytest
from textual.pilot import Pilot

from .pilot import do, drive, flat, wide_or_narrow
from .test_literal_text import paste
from .test_runs_page import JOB

pytestmark = pytest.mark.slow

UNNAMED = """
format = 2
kind = "job"

[[mount]]
name = "amp"
item = "amplifier"
onto = "steel 0.8 mm"
removed = "yearly"
# end
"""


@wide_or_narrow
def test_a_return_visit_is_put_on_paper_of_one_mount_point_and_of_all(size: tuple[int, int], tmp_path: Path) -> None:
    job = tmp_path / "job.toml"
    job.write_text(JOB)

    async def told(pilot: Pilot[None]) -> None:
        for title in ("return visit to this mount point, plain", "return visit to all of them, plain"):
            await do(pilot, "x")
            await paste(pilot, title)
            assert " is written" in flat(pilot)

    drive(size, told, tmp_path, job)
    here, everywhere = sorted(tmp_path.glob("*-visit*.txt"), key=lambda path: len(path.name))
    assert "left amplifier" in here.read_text()
    assert "ground" not in here.read_text()
    assert "ground" in everywhere.read_text()


def test_the_papers_of_a_job_without_a_title_are_named_by_its_file(tmp_path: Path) -> None:
    job = tmp_path / "blue van.toml"
    job.write_text(UNNAMED)

    async def told(pilot: Pilot[None]) -> None:
        await do(pilot, "x")
        await paste(pilot, "hardware list, plain")
        assert "blue-van-hardware.txt is written" in flat(pilot)

    drive((80, 24), told, tmp_path, job)
