"""What a run gets as lines: its state in the list and its verdict say the same."""

from dataclasses import replace

from job.test_runs import JOB, TABLES

from fasten.job.wiring.runs import run_choices
from fasten.job.words import CableRun
from fasten.tui.drawn.run_answer import state_of, verdict_of


def test_a_run_that_is_open_twice_of_one_title_counts_both_in_its_state_and_its_verdict() -> None:
    run = CableRun("x", (("carries", "72 A"), ("from", "mono"), ("to", "block"), ("length", "1 m")))
    choice = next(one for one in run_choices(replace(JOB, runs=(run,)), TABLES))
    assert choice.answer is not None
    assert choice.answer.to_measure.count("Terminal") == 2
    assert len(choice.answer.to_measure) == len(choice.answer.needs)
    assert state_of(choice).word == f"needs {len(choice.answer.needs)}"
    assert f"measure or confirm {len(choice.answer.needs)}" in verdict_of(choice).reasons
    assert "terminal (2)" in verdict_of(choice).reasons
