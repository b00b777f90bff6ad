"""How a run of a job goes through a hole: which end first, and what is crimped only once it is through."""

from dataclasses import replace

from fasten.job.entries import entries
from fasten.job.words import CableRun, Job, Mount, Recorded
from fasten.model import Phase

from .test_runs import TABLES

HOLE = Recorded("bulkhead", (("through", "steel 0.9 mm"),))
RUN = CableRun("main", (("carries", "80 A"), ("from", "battery stud M8"), ("to", "set screw"), ("length", "5 m")),
               holes=("bulkhead",))  # fmt: skip
SPARE = Mount("spare", (("item", "second-battery"), ("onto", "steel 1 mm"), ("removed", "rarely")))
BOTH = ("fuse in", "fuse out", "fuse 2 in", "fuse 2 out", "spare")


def steps(run: CableRun, hole: Recorded = HOLE) -> dict[Phase, list[str]]:
    found = next(one for one in entries(Job("", "", "", (SPARE,), holes=(hole,), runs=(run,)), TABLES)
                 if one.name == run.name)  # fmt: skip
    assert found.plan is not None
    said: dict[Phase, list[str]] = {}
    for task in found.plan.tasks:
        said.setdefault(task.step.phase, []).append(task.step.text)
    return said


def link(**said: str) -> CableRun:
    """The lead between two batteries, which has lugs at both ends of the piece in the middle."""
    fields = {"carries": "160 A", "from": "battery stud M8", "to": "spare, battery stud M8", "length": "5 m"} | said
    return replace(RUN, said=tuple(fields.items()))


def test_the_step_names_the_hole_and_the_end_that_passes() -> None:
    """The wafer holder takes a sleeve, which is no wider than its cable; the lug at the stud of the amplifier is."""
    to_stud = replace(RUN, said=(*RUN.said[:2], ("to", "stud M8"), RUN.said[3]))
    first = "Pull it through bulkhead, its end at fuse out first: the other may not pass."
    assert steps(to_stud)[Phase.PASS][0].startswith(first)
    assert steps(RUN)[Phase.PASS][0].startswith("Pull it through bulkhead. ")
    assert "bulkhead" not in steps(replace(RUN, holes=()))[Phase.PASS][0]


def test_where_neither_end_passes_the_far_one_is_made_once_it_is_through() -> None:
    said = steps(link())
    passed, made = said[Phase.PASS]
    assert passed.startswith("Pull it through bulkhead: neither end")
    assert made.startswith("Then make fuse 2 in: slide on 19/6, 55 mm; strip 18 mm; crimp lug 1/0 AWG M8")
    assert made.endswith("; shrink it.")
    before = "".join(said[Phase.SLIDE_ON] + said[Phase.STRIP] + said[Phase.CRIMP])
    assert "fuse 2 in" not in before
    assert "fuse 2 out" in before


def test_a_lug_that_passes_the_grommet_is_made_before() -> None:
    """The palm of 1/0 AWG M10 is 19 mm wide; the grommet that sits in a hole of 30 mm is wider than that."""
    both = link(**{"from": "battery stud M10", "to": "spare, battery stud M10", "through-device": "isolator stud M10"})
    assert len(steps(both)[Phase.PASS]) == 2
    wide = Recorded("bulkhead", (("through", "steel 0.9 mm"), ("existing", "30 mm")))
    assert len(steps(both, wide)[Phase.PASS]) == 1


def test_a_boot_is_passed_by_no_lug_that_is_known() -> None:
    assert len(steps(link(), Recorded("bulkhead", (("through", "door"),)))[Phase.PASS]) == 2
