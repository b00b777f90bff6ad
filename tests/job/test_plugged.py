"""A signal lead that is bought with its plugs: its outside is its own, and open until it is said."""

import pytest

from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.job.wiring.runs import run_choices
from fasten.job.wiring.ways import way_choices
from fasten.job.words import CableRun, Job, Recorded
from fasten.wiring.read import read_end
from fasten.wiring.sizing import title_of
from fasten.wiring.words import TerminalEnd

TABLES = builtin()


def job(from_: str) -> Job:
    said = (("carries", "signal"), ("from", from_), ("to", "plug 14 mm"), ("length", "5 m"))
    ways = Recorded("bulkhead", (("through", "steel 1 mm"),)), Recorded("sill", (("where", "open"), ("length", "2 m")))
    return Job(
        "Car", "invented", "", (), runs=(CableRun("rca", said, sections=("sill",), holes=("bulkhead",)),),
        holes=ways[:1], sections=ways[1:], cables=(Recorded("18 AWG", (("outside", "2.5 mm"),)),),
    )  # fmt: skip


def open_of(from_: str) -> str:
    it = job(from_)
    plans = (way.plan for way in way_choices(it, run_choices(it, TABLES), TABLES))
    return "; ".join(needs for plan in plans if plan is not None for needs in plan.unresolved)


def test_a_bought_lead_is_no_hook_up_wire() -> None:
    """No table is of leads with plugs, and 18 AWG that was measured is something else."""
    assert "outside of lead rca" in open_of("plug 14 mm")
    assert "outside of lead rca" not in open_of("plug 14 mm lead 6.4 mm")
    answer = run_choices(job("plug 14 mm"), TABLES)[0].answer
    assert answer is not None
    assert title_of(answer.sizing) == "signal lead with plugs"


def test_a_lead_is_as_thick_as_it_is_said() -> None:
    it = job("plug lead 6.4 mm")
    hole = next(way for way in way_choices(it, run_choices(it, TABLES), TABLES) if way.name == "bulkhead")
    assert hole.plan is not None
    assert next(need.part.size for need in hole.plan.parts) == "7 mm", "the grommet from 6.4 to 7.4 mm"


@pytest.mark.parametrize(
    ("text", "plug_mm", "lead_mm"),
    [("plug", None, None), ("plug 14 mm", 14, None), ("plug lead 6 mm", None, 6), ("plug 14 mm lead 6 mm", 14, 6)],
)
def test_a_plug_is_said_with_its_lead(text: str, plug_mm: float | None, lead_mm: float | None) -> None:
    end = read_end(text, TABLES, "from")
    assert isinstance(end, TerminalEnd)
    assert (end.bore_mm, end.lead_mm) == (plug_mm, lead_mm)


@pytest.mark.parametrize("text", ["plug wide", "plug 14 mm lead", "plug lead thick", "plug 14 mm lead 6 kg"])
def test_what_is_no_size_of_a_plug_is_refused(text: str) -> None:
    with pytest.raises(FastenError):
        read_end(text, TABLES, "from")
