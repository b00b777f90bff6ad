"""Cables in one section warm one another: each carries less, and is as warm as its insulation bears at what is left."""

import pytest

from fasten.catalog.tables import builtin
from fasten.job.wiring.runs import run_choices
from fasten.job.words import CableRun, Job, Recorded

TABLES = builtin()


def _job(runs: tuple[CableRun, ...]) -> Job:
    return Job("Car", "invented", "", (), runs=runs, sections=(Recorded("sill", (("length", "1 m"),)),))


def test_cables_that_warm_one_another_are_as_warm_as_their_insulation_bears_at_what_they_carry() -> None:
    """195 A in 1/0 AWG at 105 °C: 30 + 75 (195/(0.7 x 285))² = 101.7 °C, and not 65.1 °C."""
    size = (("cable", "1/0 AWG"), ("insulation", "105 C"), ("material", "copper"))
    ends = (("carries", "195 A"), ("from", "battery stud M8"), ("to", "stud M8"), ("length", "1 m"))
    runs = tuple(CableRun(f"feed {at}", (*ends, *size), ("sill",)) for at in range(3))
    job = _job(runs)
    answer = run_choices(job, TABLES)[0].answer
    assert answer is not None
    assert answer.sizing.conductor is not None
    warm_c = 30 + 75 * (195 / (0.7 * 285)) ** 2
    assert answer.sizing.conductor.conductor_c == pytest.approx(warm_c)
    per_m = answer.sizing.size.resistance_mohm_per_m * (234.5 + warm_c) / 254.5
    assert answer.sizing.conductor.drop_v == pytest.approx(195 * per_m / 1000)


def test_two_loaded_loudspeaker_leads_in_one_section_are_four_conductors() -> None:
    """200 W into 2 Ω are 10 A there and back, over half of the 15 A of 16 AWG."""
    said = (("carries", "loudspeaker 200 W 2 ohm"), ("from", "set screw"), ("to", "loudspeaker"), ("length", "1 m"))
    cable = (("cable", "16 AWG"), ("material", "copper"))
    runs = tuple(CableRun(f"lead {at}", (*said, *cable), ("sill",)) for at in range(2))
    job = _job(runs)
    answer = run_choices(job, TABLES)[0].answer
    assert answer is not None
    assert answer.sizing.conductor is not None
    assert ("bundle", 0.6) in [(one.name, one.value) for one in answer.sizing.conductor.factors]
