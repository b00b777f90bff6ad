"""Fewest different cables over the runs of a job: each choice is sized anew, and none leaves more open than before."""

from dataclasses import replace

import pytest

from fasten.catalog.tables import builtin
from fasten.job.sizes.cables import FewerCables, fewer_cables, with_changes
from fasten.job.wiring.runs import run_choices
from fasten.job.words import CableRun, Job
from fasten.report.forms.document import Document
from fasten.report.forms.written import written
from fasten.report.job.fewest import _runs

TABLES = builtin()


def run(name: str, carries: str, length: str, to: str = "stud M8", **more: str) -> CableRun:
    said = {"carries": carries, "from": "battery stud M8", "to": to, "length": length, **more}
    return CableRun(name, tuple(said.items()))


def fewer(*runs: CableRun) -> tuple[Job, FewerCables]:
    job = Job("", "", "", (), runs=runs)
    return job, fewer_cables(job, TABLES)


NEAR = (run("sub", "60 A", "4 m"), run("rear", "45 A", "1 m"))


def sizes(job: Job) -> list[str]:
    return [one.answer.sizing.size.name for one in run_choices(job, TABLES) if one.answer is not None]


def test_a_short_run_takes_the_thicker_cable_that_is_there_already() -> None:
    job, found = fewer(*NEAR)
    before = sizes(job)
    assert len(set(before)) == 2
    assert [(one.run, one.before) for one in found.changes] == [("rear", before[1])]
    assert sizes(with_changes(job, found, TABLES)) == [before[0]] * 2
    assert len(found.after) < len(found.before)
    assert found.cost < found.before_cost
    assert found.is_all


def test_the_points_are_a_plain_recount() -> None:
    """By hand from size-weights.toml: 2 a cable, 1 a terminal, 0.5 a heat-shrink, 0.05 a mm² over a metre."""
    _, found = fewer(*NEAR)
    points = {"cable": 2.0, "terminal": 1.0, "heat-shrink": 0.5}
    assert found.before_cost == pytest.approx(sum(points[kind] for kind, _ in found.before))
    assert found.cost == pytest.approx(sum(points[kind] for kind, _ in found.after) + 0.05 * found.copper_mm2_m)


def test_a_long_run_keeps_its_thin_cable_where_copper_costs_more_than_a_size() -> None:
    _, found = fewer(run("sub", "190 A", "2 m"), run("rear", "20 A", "9 m"))
    assert found.changes == ()
    assert (found.before, found.cost, found.copper_mm2_m) == (found.after, found.before_cost, 0.0)


def test_a_cable_that_the_user_chose_stays() -> None:
    _, found = fewer(NEAR[0], replace(NEAR[1], said=(*NEAR[1].said, ("cable", "8 AWG"), ("insulation", "105 C"))))
    assert found.changes == ()


def test_no_run_gets_a_check_that_was_not_open_before() -> None:
    """A tab of 2.8 mm has no receptacle for the thicker cable, so that the run keeps its own."""
    job, found = fewer(run("sub", "60 A", "4 m"), run("light", "3 A", "1 m", to="tab 2.8x0.8"))
    assert [one.run for one in found.changes] == []
    assert sizes(job)[1] == "18 AWG"


def test_a_job_without_runs_has_none_to_change() -> None:
    _, found = fewer()
    assert (found.before, found.changes, found.cost) == ((), (), 0.0)


def test_it_is_shown_with_the_runs_that_change() -> None:
    _, found = fewer(*NEAR)
    text = written(Document("", (), tuple(one for one in _runs(found) if one.rows)), "text", 100)
    assert "RUNS THAT TAKE ANOTHER CABLE" in text
    assert "rear" in text
