"""A ground lug of the job carries what all runs that end there do; nothing is said while one of them is not known."""

from dataclasses import replace

from fasten.catalog.tables import builtin
from fasten.job.gauge.gauge import measuring_pass
from fasten.job.wiring.lugs import with_runs
from fasten.job.wiring.runs import run_choices
from fasten.job.words import CableRun, Job

from .test_runs import JOB

TABLES = builtin()
FOUR = CableRun("four ground", (("from", "four, set screw"), ("to", "ground"), ("length", "0.45 m")))


def lug(job: Job) -> dict[str, str]:
    return dict(with_runs(job, run_choices(job, TABLES)).mounts[3].said)


def test_the_currents_of_all_runs_at_a_lug_are_summed() -> None:
    """1000/(0.75 x 13.8) = 96.6 A and 300/(0.6 x 13.8) = 36.2 A."""
    both = lug(replace(JOB, runs=(*JOB.runs, FOUR)))
    assert both["current"] == "132.9 A"
    assert both["cable"] == lug(JOB)["cable"]


def test_a_run_whose_load_is_not_known_leaves_the_current_open() -> None:
    loads = CableRun("heater", (("from", "block"), ("to", "stud M6"), ("length", "1 m")))
    unknown = CableRun("heater ground", (("from", "stud M6"), ("to", "ground"), ("length", "0.4 m")))
    found = lug(replace(JOB, runs=(*JOB.runs, loads, unknown)))
    assert "current" not in found
    assert "cable" in found


def test_the_measuring_pass_asks_for_nothing_that_the_runs_say() -> None:
    left = {one.mount: one.open for one in measuring_pass(JOB, TABLES).mounts}
    assert not [need for need in left.get("ground", ()) if "current" in need]
