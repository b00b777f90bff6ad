"""The certificate of a measuring pass on mount points at random: at the gauges and beyond, the answer is as promised.

2,000 by hand (`FASTEN_ALL=1`, ten minutes), a sample in the set. Tried by `advise` itself, not by what finds the
gauges: at the gauge of each room, and wherever any candidate of that answer begins to have room beyond it.
"""

from collections.abc import Iterator
from dataclasses import replace
from math import ceil
from random import Random

import pytest
from built.few import few

from fasten.advice.advise import advise
from fasten.catalog.tables import builtin
from fasten.job.gauge.gauge import measuring_pass
from fasten.job.gauge.needs import same_as
from fasten.job.gauge.words import Measured
from fasten.job.words import Job, Mount
from fasten.model import MountPoint, Status

from .test_gauge import ROOMY, first, gauge, point, with_room

pytestmark = pytest.mark.slow

COUNT = 2000
ITEMS = ("amplifier", "signal-processor", "crossover", "speaker-adapter", "speaker", "trim-panel", "fuse-holder",
         "distribution-block", "bracket", "wire-clamp", "ground-lug")  # fmt: skip
ONTO = ("steel 0.7 mm", "steel 0.8 mm", "steel 1 mm", "steel 1.5 mm", "steel 3 mm", "aluminium 2 mm", "plywood 18 mm",
        "mdf 18 mm", "pine 20 mm", "abs 3 mm", "fibreglass 4 mm")  # fmt: skip
REMOVED = ("never", "rarely", "yearly", "monthly", "weekly")


def mount(seed: int) -> Mount:
    """A mount point of which neither the space behind nor the distance to an edge is known."""
    random = Random(seed)
    said = {"item": random.choice(ITEMS), "onto": random.choice(ONTO), "removed": random.choice(REMOVED)}
    more = {
        "panel": ("floor", "side", "roof"), "reach": ("one-side", "both-sides"), "mass": ("0.4 kg", "2 kg", "4 kg"),
        "support": ("firm", "frame"), "visible": ("yes",), "between": ("foam 3 mm", "carpet 12 mm cut out"),
    }  # fmt: skip
    said |= {name: random.choice(texts) for name, texts in more.items() if random.random() < 0.3}
    return Mount("one", tuple(said.items()))


def broken(one: Mount) -> list[str]:
    """Where the promised answer is not the first; none where nothing is promised of the mount point."""
    job = Job("", "", "", (one,))
    return [text for measured in promised(one) for text in _broken(job, measured)]


def promised(one: Mount) -> list[Measured]:
    """The mount point with its marks, where they bring it to a proven answer."""
    found = measuring_pass(Job("", "", "", (one,)), builtin())
    return [measured for measured in found.mounts if measured.marks and not measured.open]


def _broken(job: Job, measured: Measured) -> Iterator[str]:
    roomy = with_room(point(job, measured), ROOMY, ROOMY)
    answers = advise(roomy, builtin(), changes=False).answers
    if not answers or answers[0].proposal.status is not Status.HOLDS:
        yield "not proven where there is room for all"
        return
    wanted = same_as(answers[0].proposal)
    least = {name: max(gauge(measured, name), 1.0) for name in ("behind", "edge")}
    for name, values in (("behind", _values(roomy, "space", least)), ("edge", _values(roomy, "edge", least))):
        for value in values:
            room = least | {name: max(value, least[name])}
            if same_as(first(replace(roomy, behind_mm=room["behind"], edge_mm=room["edge"]))) != wanted:
                yield f"{name} {room}"


def _values(roomy: MountPoint, of: str, least: dict[str, float]) -> list[float]:
    """The gauge itself, and each length that a check of a candidate asks beyond it, in whole millimetres."""
    beyond = {
        float(ceil(check.demand)) for answer in advise(roomy, builtin(), changes=False).answers
        for check in answer.proposal.checks if of in check.id and check.demand is not None
    }  # fmt: skip
    return sorted({1.0, *(value for value in beyond if value > min(least.values())), ROOMY})


@pytest.mark.parametrize("seed", range(few(COUNT, 25)))
def test_the_answer_that_is_promised_stands_at_the_gauges_and_beyond(seed: int) -> None:
    one = mount(seed)
    assert broken(one) == [], dict(one.said)


def test_most_of_them_are_promised_an_answer() -> None:
    """A pass that promised nothing would break nothing."""
    seeds = range(25)
    assert sum(bool(promised(mount(seed))) for seed in seeds) > len(seeds) / 2
