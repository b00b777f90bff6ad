"""The outputs of a block that has fuses: each branch out of it is looked at, with a fuse or without."""

from dataclasses import replace

from fasten.job.wiring.runs import named_run, run_choices
from fasten.job.words import CableRun
from fasten.wiring.words import Branches

from .test_runs import JOB, TABLES


def test_a_branch_that_the_fuse_before_the_block_protects_waits_for_a_look_at_its_output() -> None:
    """1/0 AWG carries what protects the trunk: it has no fuse of its own, and an output with fuses is dead then."""
    thick = CableRun(
        "mono power",
        (
            ("from", "block"),
            ("to", "mono, set screw"),
            ("length", "0.6 m"),
            ("cable", "1/0 AWG"),
            ("insulation", "105 C"),
        ),
    )
    job = replace(JOB, runs=tuple(thick if run.name == thick.name else run for run in JOB.runs))
    found = run_choices(job, TABLES)
    answers = {one.name: one.answer for one in found if one.answer is not None}
    branch = answers["mono power"]
    assert (branch.sizing.fuse, branch.sizing.run.upstream_fuse_a is None) == (None, False)
    [id_] = [one.id for one in branch.confirms if one.check == "block"]
    assert id_ == "block:1/0-awg"
    for name, answer in answers.items():
        is_branch = answer.sizing.run.in_block and not isinstance(answer.sizing.run.carries, Branches)
        assert ("block" in [one.check for one in answer.confirms]) is is_branch, name
    seen = replace(job, runs=tuple(replace(run, accepted=(id_,)) if run == thick else run for run in job.runs))
    done = named_run(run_choices(seen, TABLES), "mono power").answer
    assert done is not None
    assert [one.accepted for one in done.confirms if one.check == "block"] == [True]
