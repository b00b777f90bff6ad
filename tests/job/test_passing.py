"""How a run of a job goes through a hole: which end first, and what is crimped only once it is through."""

from dataclasses import replace

import pytest

from fasten.errors import FastenError
from fasten.job.edit import check_no_cable
from fasten.job.entries import entries
from fasten.job.store.job_toml import job_text, read_job
from fasten.job.tick_by import with_ticks
from fasten.job.words import CableRun, Job, Mount, Recorded
from fasten.job.work import work_sheet
from fasten.model import Phase
from fasten.wiring.ways import is_once_laid

from .test_runs import JOB, TABLES

HOLE = Recorded("bulkhead", (("through", "steel 0.9 mm"),))
RUN = CableRun("main", (("carries", "80 A"), ("from", "battery stud M8"), ("to", "set screw"), ("length", "5 m"),
                        ("where", "cabin")), holes=("bulkhead",))  # fmt: skip
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
    to_stud = replace(RUN, said=(*RUN.said[:2], ("to", "stud M8"), *RUN.said[3:]))
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


# -- the order of work, and ticks of holes and sections ---------------------------------------------------------------

SILL = Recorded("sill", (("where", "channel"), ("length", "2 m")))
WHOLE = Job("", "", "", (SPARE,), sections=(SILL,), holes=(HOLE,), runs=(replace(RUN, sections=("sill",)),))


def test_a_hole_is_drilled_and_its_grommet_seated_before_any_cable_comes() -> None:
    sheet = work_sheet(WHOLE, entries(WHOLE, TABLES), None, TABLES)
    assert [entry.name for entry in sheet.entries] == ["spare", "bulkhead", "sill", "main"]
    phases = [[state.step.phase for state in entry.steps] for entry in sheet.entries[1:3]]
    before = [[phase for phase in of if not is_once_laid(phase)] for of in phases]
    assert before == [[Phase.LOOK, Phase.OPEN_UP, Phase.DEBURR, Phase.PROTECT], [Phase.LOOK]]
    assert [of[: len(first)] for of, first in zip(phases, before, strict=True)] == before
    leads = tuple(CableRun(name, (("carries", "signal"), ("from", "plug 14 mm lead 5 mm"), ("to", "plug 14 mm"),
                                  ("length", "4 m")), holes=("bulkhead",)) for name in ("one", "two"))  # fmt: skip
    plugged = replace(WHOLE, runs=leads)
    hole = next(one for one in entries(plugged, TABLES) if one.name == "bulkhead").plan
    assert hole is not None
    seated = next(task.step for task in hole.tasks if "slit a grommet" in task.step.text)
    assert is_once_laid(seated.phase), "a plug passes the hole and no grommet"


def test_a_hole_and_a_section_are_ticked_and_saved_with_the_figure() -> None:
    found = entries(WHOLE, TABLES)
    ticked, said = with_ticks(WHOLE, found, "bulkhead", ("1", "2"), (), TABLES)
    assert said == ("looked behind", "opened up")
    assert ticked.holes[0].ticked == ("step:hole/look/1", "step:hole/open_up/2 = 16 mm")
    ticked, _ = with_ticks(ticked, found, "sill", ("1",), (), TABLES)
    kept = read_job(job_text(ticked).encode(), "job.toml", TABLES)[0]
    assert (kept.holes[0].ticked, kept.sections[0].ticked) == (ticked.holes[0].ticked, ("step:section/look/3",))
    thicker = replace(kept, cables=(Recorded("4 AWG", (("outside", "13 mm"),)),))
    way = next(one for one in work_sheet(thicker, entries(thicker, TABLES), None, TABLES).entries
               if one.name == "bulkhead")  # fmt: skip
    opened = next(state for state in way.steps if state.step.phase is Phase.OPEN_UP)
    assert (opened.is_done, opened.differing) == (False, ("made 16 mm, wants 18 mm",))


def test_what_was_done_in_a_hole_is_open_again_once_it_is_wider() -> None:
    found = entries(WHOLE, TABLES)
    plan = next(one for one in found if one.name == "bulkhead").plan
    assert plan is not None
    every = tuple(str(at) for at in range(1, len(plan.tasks) + 1))
    ticked, _ = with_ticks(WHOLE, found, "bulkhead", every, (), TABLES)
    thicker = replace(ticked, cables=(Recorded("4 AWG", (("outside", "13 mm"),)),))
    done = {
        state.step.phase: state.is_done
        for job in (ticked, thicker)
        for one in work_sheet(job, entries(job, TABLES), None, TABLES).entries if one.name == "bulkhead"
        for state in one.steps
    }  # fmt: skip
    assert [phase for phase, is_done in done.items() if is_done] == [Phase.LOOK]
    same = work_sheet(ticked, entries(ticked, TABLES), None, TABLES).entries
    assert all(state.is_done for one in same if one.name == "bulkhead" for state in one.steps)


def test_nothing_is_asked_to_be_recorded_at_cable_that_nothing_records() -> None:
    whole = replace(WHOLE, mounts=JOB.mounts[:1])
    sheet = work_sheet(whole, entries(whole, TABLES), None, TABLES)
    recorded = [entry.name for entry in sheet.entries if any(one.step.phase is Phase.RECORD for one in entry.steps)]
    assert recorded == ["mono"]


def test_what_was_built_of_a_run_or_hole_is_sent_to_its_note() -> None:
    for name in ("Main", "bulkhead", "sill"):
        with pytest.raises(FastenError, match="goes in its note") as error:
            check_no_cable(WHOLE, name)
        assert error.value.fix.endswith('note="190 mV at 60 A"')
    check_no_cable(WHOLE, "spare")
    check_no_cable(WHOLE, "nothing of this name")
