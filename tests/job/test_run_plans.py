"""What the plans of runs of a job say at the car: cautions and steps."""

from dataclasses import replace

from fasten.job.wiring.runs import named_run, run_choices

from .test_runs import JOB, TABLES, found


def test_two_grounds_at_one_stud_say_so_and_one_alone_does_not() -> None:
    """Common practice, no source: one power lug a stud."""
    texts = {name: [one.text for one in choice.plan.cautions] for name, choice in found().items() if choice.plan}
    assert not [text for one in texts.values() for text in one if "end at this stud" in text]
    both = replace(
        JOB, runs=(*JOB.runs, replace(next(run for run in JOB.runs if run.name == "mono ground"), name="second ground"))
    )
    plan = named_run(run_choices(both, TABLES), "second ground").plan
    assert plan is not None
    assert any(caution.text.startswith("2 power lugs end at this stud") for caution in plan.cautions)


def test_every_loaded_run_has_a_line_for_its_millivolts() -> None:
    """Common practice: the drop is measured at full current along each lead, also where it has no fuse of its own."""
    for name, choice in found().items():
        assert choice.plan is not None
        assert choice.answer is not None
        steps = [step.text for step in choice.plan.steps if "mV: ______" in step.text]
        assert len(steps) == (choice.answer.sizing.conductor is not None and choice.answer.sizing.lead is None), name
