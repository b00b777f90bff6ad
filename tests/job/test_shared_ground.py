"""A ground lug of the job carries what all runs that end there do; nothing is said while one of them is not known."""

from dataclasses import replace

import pytest

from fasten.catalog.tables import builtin
from fasten.job.entries import entries
from fasten.job.gauge.gauge import measuring_pass
from fasten.job.wiring.lugs import with_runs
from fasten.job.wiring.runs import run_choices
from fasten.job.words import CableRun, Job, Mount
from fasten.model import Check, Status
from fasten.proof import ampacity
from fasten.question.read import read_question
from fasten.question.resolve import resolve
from fasten.wiring.words import StudAt, StudEnd

from .test_runs import JOB
from .test_trees import mount, run

TABLES = builtin()
FOUR = CableRun("four ground", (("from", "four, set screw"), ("to", "ground"), ("length", "0.45 m")))


def lug(job: Job) -> dict[str, str]:
    return dict(with_runs(job, run_choices(job, TABLES)).mounts[3].said)


def test_the_currents_of_all_runs_at_a_lug_are_summed() -> None:
    """1000/(0.75 x 13.8) = 96.6 A and 300/(0.6 x 13.8) = 36.2 A."""
    both = lug(replace(JOB, runs=(*JOB.runs, FOUR)))
    assert both["current"] == "132.9 A"
    assert both["cable"] == lug(JOB)["cable"]


@pytest.mark.parametrize(("said", "taken"), [("50 A", "132.9 A"), ("132 A", "132.9 A"), ("200 A", "200 A")])
def test_a_current_that_is_said_is_no_less_than_its_runs_bring(said: str, taken: str) -> None:
    """50 mV at 50 A pass a joint of 1 mOhm, which drops 133 mV at what comes there."""
    both = replace(JOB, runs=(*JOB.runs, FOUR))
    grounds = tuple(
        replace(mount, said=(*mount.said, ("current", said))) if mount.name == "ground" else mount
        for mount in both.mounts
    )
    assert lug(replace(both, mounts=grounds))["current"] == taken


def test_each_run_at_a_lug_has_its_ring_there() -> None:
    """The screw is as long as all of them need, and no power lug shares its stud: by common practice, so it is open."""
    both = replace(JOB, runs=(*JOB.runs, FOUR))
    assert "rings" not in lug(JOB)
    assert lug(both)["rings"] == "2"
    said = tuple((*mount.said, ("rings", "1")) if mount.name == "ground" else mount.said for mount in both.mounts)
    mounts = tuple(replace(mount, said=one) for mount, one in zip(both.mounts, said, strict=True))
    assert lug(replace(both, mounts=mounts))["rings"] == "2", "what was said of it makes no room"
    for job, needed in ((JOB, False), (both, True)):
        plan = next(one.plan for one in entries(job, TABLES) if one.name == "ground")
        assert plan is not None
        assert ("ground-shared" in {one.id for one in plan.checks if one.status is Status.NOT_CHECKED}) is needed


def test_a_cable_is_no_thinner_for_what_others_bring_to_its_stud() -> None:
    """Three grounds of 600/(0.6 x 13.8) = 72.5 A on one stud: 4 AWG carries 160 A, and each of them only its own."""
    amps = tuple(mount(f"amp {at}", "amplifier", power="600 W class AB") for at in (1, 2, 3))
    grounds = tuple(run(f"ground {at}", f"amp {at}", "lug", "0.4 m", cable="4 AWG") for at in (1, 2, 3))
    powers = tuple(run(f"power {at}", "battery stud M8", f"amp {at}", "4 m") for at in (1, 2, 3))
    at = Mount("lug", (("item", "ground-lug"), ("onto", "steel 1.2 mm"), ("removed", "yearly")))
    job = Job("Car", "invented", "", (*amps, at), runs=(*powers, *grounds))
    plan = next(one.plan for one in entries(job, TABLES) if one.name == "lug")
    assert plan is not None
    carries = next(check for check in plan.checks if check.id == "ground-ampacity")
    assert carries.status is Status.NOT_CHECKED
    assert carries.demand == pytest.approx(217.4 / 3, abs=0.05)


@pytest.mark.parametrize(("rings", "current", "status"), [
    ("3", "150 A", Status.HOLDS), ("3", "217 A", Status.NOT_CHECKED), ("3", "500 A", Status.FAILS),
    ("1", "217 A", Status.FAILS),
])  # fmt: skip
def test_of_several_rings_the_sum_holds_and_the_mean_fails(rings: str, current: str, status: Status) -> None:
    """33 CFR 183.425: 4 AWG carries 160 A at 105 °C."""
    said = {"item": "ground-lug", "onto": "steel 1 mm", "removed": "rarely", "cable": "4 AWG"}
    point = resolve(read_question({**said, "rings": rings, "current": current}, TABLES), TABLES)
    assert ampacity.check(point, TABLES).status is status


def test_lugs_at_a_battery_stud_lie_one_on_another() -> None:
    """AC 21-99: four at most. As many as there are they are looked at, and anew where there are more."""
    loads = tuple(run(f"load {at}", "battery stud M8", "stud M6", "3 m", carries="60 A") for at in range(5))

    def stack(count: int) -> Check | None:
        job = Job("Car", "invented", "", (), runs=loads[:count])
        answer = run_choices(job, TABLES)[0].answer
        assert answer is not None
        return next((check for check in answer.checks if check.id.startswith("stack")), None)

    found = [stack(count) for count in (1, 2, 3, 5)]
    assert found[0] is None
    assert [one.status for one in found if one is not None] == [Status.NOT_CHECKED, Status.NOT_CHECKED, Status.FAILS]
    assert len({one.id for one in found if one is not None}) == 3


def test_a_run_whose_load_is_not_known_leaves_the_current_open() -> None:
    loads = CableRun("heater", (("from", "block"), ("to", "stud M6"), ("length", "1 m")))
    unknown = CableRun("heater ground", (("from", "stud M6"), ("to", "ground"), ("length", "0.4 m")))
    found = lug(replace(JOB, runs=(*JOB.runs, loads, unknown)))
    assert "current" not in found
    assert "cable" in found


def test_the_measuring_pass_asks_for_nothing_that_the_runs_say() -> None:
    left = {one.mount: one.open for one in measuring_pass(JOB, TABLES).mounts}
    assert not [need for need in left.get("ground", ()) if "current" in need]


def test_a_ground_lead_is_sized_while_the_question_of_its_lug_is_still_open() -> None:
    """600/(0.6 x 13.8) = 72.5 A; only the stud of the lug waits for what it is fastened to."""
    lug = Mount("lug", (("item", "ground-lug"),))
    fed = replace(JOB.mounts[0], said=(*JOB.mounts[0].said[:-1], ("power", "600 W class AB")))
    lead = CableRun("ground", (("from", "mono, set screw"), ("to", "lug"), ("length", "0.45 m")))
    job = replace(JOB, mounts=(fed, lug), runs=(lead,))
    one = run_choices(job, TABLES)[0]
    assert one.answer is not None, one.reason
    assert one.answer.sizing.current is not None
    assert one.answer.sizing.current.full_a == pytest.approx(72.46, abs=0.01)
    assert one.answer.sizing.run.to == StudEnd(None, StudAt.BODY)
    unsaid = run_choices(replace(job, mounts=(JOB.mounts[2], lug), runs=(
        replace(lead, said=(("from", "block"), *lead.said[1:])),)), TABLES)[0]  # fmt: skip
    assert unsaid.answer is None
