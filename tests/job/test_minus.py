"""Leads from the minus of a battery to the body carry what the runs from its plus bring back, whatever that is."""

from dataclasses import replace

import pytest

from fasten.job.wiring.proposals import proposals, take
from fasten.job.wiring.recorded import with_electrics
from fasten.job.wiring.runs import run_choices
from fasten.job.words import CableRun, Job
from fasten.model import Check, Status
from fasten.wiring.sizing import Sizing

from .test_trees import FROM_BATTERY, TABLES, TREE, choices, mount, run, sizings

SAID = {"battery": FROM_BATTERY, "to-amplifiers": "4 m", "to-dash": "4 m", "to-doors": "3 m"}
MINUS, TO_BODY = "battery stud M8 -", "battery minus to body"


def amplifiers(count: int, power: str) -> Job:
    mounts = tuple(mount(f"amp {at}", "amplifier", power=power) for at in range(1, count + 1))
    return with_electrics(Job("Car", "invented", "", mounts), SAID, TABLES)


def taken(job: Job) -> Job:
    return take(job, proposals(job, run_choices(job, TABLES), TABLES), "all")


def sized(job: Job) -> dict[str, Sizing]:
    return {one.name: one.answer.sizing for one in run_choices(job, TABLES) if one.answer is not None}


def full_a(one: Sizing) -> float:
    assert one.current is not None
    return one.current.full_a


def fuses_a(one: Sizing) -> float | None:
    return next(check.demand for check in one.checks if check.id == "fuse")


def test_a_lead_follows_its_job() -> None:
    """1500/(0.6 x 13.8) = 181.2 A behind 250 A: the first of its series from 181.2/0.8 = 226.4 A."""
    small = taken(amplifiers(1, "1000 W class AB"))
    assert "carries" not in dict(next(one for one in small.runs if one.name == TO_BODY).said)
    assert full_a(sized(small)[TO_BODY]) == pytest.approx(120.8, abs=0.05)
    lead = sized(replace(small, mounts=amplifiers(1, "1500 W class AB").mounts))[TO_BODY]
    assert (round(full_a(lead), 1), fuses_a(lead)) == (181.2, 250.0)
    assert lead.size.name == "1/0 AWG", "285 A carries 250 A, 1 AWG not"
    gone = replace(small, mounts=(), runs=tuple(one for one in small.runs if one.name == TO_BODY))
    assert run_choices(gone, TABLES)[0].answer is None, "nothing comes back"


def test_what_no_lead_carries_is_shared_by_as_many_alike_as_it_takes() -> None:
    """4 x 1000/(0.75 x 13.8) = 386.5 A, over the 300 A of one run."""
    job = taken(amplifiers(4, "1000 W class D"))
    leads = [one for name, one in sized(job).items() if name.startswith(TO_BODY)]
    assert [round(full_a(one), 1) for one in leads] == [193.2, 193.2]
    every = [one.fuse.rating_a for one in sized(job).values() if one.fuse is not None]
    assert [fuses_a(one) for one in leads] == [sum(every) / 2] * 2
    assert not proposals(job, run_choices(job, TABLES), TABLES)


def test_one_lead_too_few_is_refused_with_what_to_do_and_another_is_offered() -> None:
    job = taken(amplifiers(4, "1000 W class D"))
    short = replace(job, runs=tuple(one for one in job.runs if one.name != f"{TO_BODY} 2"))
    refused = next(one.refused for one in run_choices(short, TABLES) if one.name == TO_BODY)
    assert refused is not None
    assert "amplifier" not in refused.fix
    offered = proposals(short, run_choices(short, TABLES), TABLES)
    assert [one.run.name for one in offered] == [f"{TO_BODY} 2"]


def test_leads_that_are_not_alike_do_not_share_alike() -> None:
    leads = run("a", MINUS, "body M8", "0.4 m"), run("b", MINUS, "body M8", "0.6 m")
    open_ = {check.id for check in _checks("a", *TREE, *leads) if check.status is Status.NOT_CHECKED}
    assert "unlike" in open_
    alike = replace(leads[1], said=leads[0].said)
    assert "unlike" not in {check.id for check in _checks("a", *TREE, leads[0], alike)}


def test_what_is_said_of_a_lead_stays_and_is_judged_by_the_job() -> None:
    """1000 W class D, 300 W class AB and 150 W class AB with 20 A of fuses: 96.6 + 36.2 + 18.1 A."""
    comes = sum(full_a(one) for name, one in sizings(TREE).items() if name in {"a", "b", "c"})
    for said, holds in ((f"{comes:.1f} A", Status.HOLDS), ("100 A", Status.FAILS)):
        lead = run("lead", MINUS, "body M8", "0.4 m", carries=said)
        assert full_a(sizings((*TREE, lead))["lead"]) == float(said.split()[0])
        check = next(check for check in _checks("lead", *TREE, lead) if check.id == "minus")
        assert (check.status, check.demand) == (holds, round(comes, 1))
    rest = run("rest", MINUS, "body M8", "0.4 m")
    assert full_a(sizings((*TREE, lead, rest))["rest"]) == pytest.approx(comes), "another takes it all"


def test_a_lead_of_a_second_battery_carries_what_charges_it_or_what_it_feeds() -> None:
    second = mount("second", "battery")
    charge = run("charge", FROM_BATTERY, "second, battery stud M8", "4 m", carries="60 A")
    own = run("own", "second, battery stud M8 -", "body", "0.4 m")
    lead = run("lead", MINUS, "body", "0.4 m")
    found = sizings((charge, own, lead), second)
    assert [full_a(found[name]) for name in ("own", "lead")] == [60.0, 60.0]
    load = run("load", "second, battery stud M8", "stud M6", "1 m", carries="90 A")
    found = sizings((charge, own, lead, load), second)
    assert [full_a(found[name]) for name in ("own", "lead")] == [90.0, 60.0]


def test_what_is_not_known_of_what_comes_back_stays_open() -> None:
    second, lead = mount("second", "battery"), run("lead", MINUS, "body", "0.4 m")
    charge = run("charge", FROM_BATTERY, "second, battery stud M8", "4 m")
    amp = mount("amp", "amplifier", power="1000 W class AB")
    runs = (run("power", FROM_BATTERY, "amp", "4 m"), charge, lead)
    answer = choices(runs, second, amp)["lead"].answer
    assert answer is not None
    assert "unloaded" in {check.id for check in answer.checks if check.status is Status.NOT_CHECKED}


def _checks(name: str, *runs: CableRun) -> tuple[Check, ...]:
    answer = choices(runs)[name].answer
    assert answer is not None
    return answer.checks
