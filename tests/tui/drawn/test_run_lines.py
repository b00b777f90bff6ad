"""The lines of a run: nothing is wrapped twice, said twice or cut without a sign."""

from dataclasses import replace

import pytest
from job.test_runs import JOB, TABLES

from fasten.job.wiring.runs import run_choices
from fasten.job.words import CableRun, Job
from fasten.tui.drawn.cells import NONE
from fasten.tui.drawn.run_answer import verdict_of
from fasten.tui.drawn.runs import columns, plain
from fasten.tui.drawn.work import Sight, head_lines
from fasten.tui.runs.run_lines import Place, answer_lines, known_of
from fasten.tui.state.cable_work import units_of, work_of_unit

ENDS = (("from", "connector"), ("to", "connector"), ("length", "1 m"))


def job_of(*runs: CableRun) -> Job:
    return replace(JOB, runs=runs)


def shown(job: Job, width: int) -> list[str]:
    choice = run_choices(job, TABLES)[0]
    row, lines = answer_lines(choice, known_of(job, None, TABLES), "", Place(width, width + 2, 4, NONE), TABLES)
    return [plain(row), *(plain(line) for one in lines for line in one.shown)]


@pytest.mark.parametrize("width", [40, 76, 90])
def test_what_is_still_to_say_is_said_once_in_lines_that_fit(width: int) -> None:
    found = shown(job_of(CableRun("x", ENDS)), width)
    text = " ".join(" ".join(found).split())
    assert "STILL TO SAY" in text
    reason = run_choices(job_of(CableRun("x", ENDS)), TABLES)[0].reason
    assert text.casefold().count(" ".join(reason.split()).casefold()) == 1
    assert all(len(line) <= width for line in found[1:])


def test_what_does_not_hold_is_said_with_how_much_it_is_of_what() -> None:
    thin = CableRun("x", (("carries", "150 A"), ("from", "battery stud M8"), ("to", "stud M8"), ("length", "6 m"),
                          ("cable", "8 AWG")))  # fmt: skip
    reasons = verdict_of(run_choices(job_of(thin), TABLES)[0]).reasons
    assert any(one.startswith("temperature of the conductor ") and " % of what its insulation" in one
               for one in reasons), reasons  # fmt: skip


@pytest.mark.parametrize("width", [44, 40, 120])
def test_steps_for_which_there_is_no_room_leave_a_sign(width: int) -> None:
    name = "battery minus to the body"
    run = CableRun(name, (("carries", "72 A"), ("from", "battery stud M8"), ("to", "stud M8"), ("length", "5 m")))
    job = job_of(run)
    work = work_of_unit(units_of((), run_choices(job, TABLES)), 0, job, TABLES)
    for spot in work.spots:
        (line,) = head_lines(Sight(work, spot, solid=True), width)
        cells = plain(line).rpartition("  ")[2]
        assert columns(line) <= width
        assert "▸" in cells
        assert len(cells) == len(work.group(spot)[0].states) or "…" in cells
