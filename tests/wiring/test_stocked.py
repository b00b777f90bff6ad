"""What runs, sections and holes ask for is known to a shelf under the name that a list gives it."""

import pytest
from built.asked_runs import FEED, RUNS

from fasten.catalog.tables import builtin
from fasten.job.shelf.check import CONSUMABLE, TOOL, name_trouble, part_trouble
from fasten.model.plan import Plan
from fasten.wiring.fields import read_run
from fasten.wiring.plan import plan_of
from fasten.wiring.resolve import resolve
from fasten.wiring.wired import Wired, wired

ENDS = ("battery post -", "lap", "butt", "connector", "tab 6.3x0.8", "push-in", "stud M10", "set screw takes 4 mm2")
MORE = tuple({**FEED, "carries": "20 A", "length": "2 m", "from": "stud M8", "to": end} for end in ENDS)


def plan(said: dict[str, str]) -> Plan | None:
    fields = FEED | said
    system_v = int(fields.pop("system", "12 V").split()[0])
    found = wired(resolve(read_run(fields, builtin(), system_v), builtin()), builtin())
    return plan_of("run", found) if isinstance(found, Wired) else None


@pytest.mark.parametrize("said", [*RUNS, *MORE], ids=str)
def test_every_line_of_a_run_is_one_that_a_shelf_knows(said: dict[str, str]) -> None:
    found = plan(said)
    if found is None:
        return  # nothing does for it, so that it asks for nothing
    names = [(TOOL, f"{need.name} {need.size}".strip()) for need in found.tools]
    names += [(CONSUMABLE, ", ".join(filter(None, (need.names[-1], need.detail)))) for need in found.consumables]
    assert [part_trouble(need.part, builtin()) for need in found.parts] == [None] * len(found.parts)
    assert [name_trouble(sort, name, builtin()) for sort, name in names] == [None] * len(names)


def test_solder_is_on_the_list_of_what_is_soldered() -> None:
    found = plan(MORE[1])
    assert found is not None
    assert "solder" in {need.id.key for need in found.consumables}


def test_a_lead_that_comes_with_its_plugs_is_bought_as_it_is_and_nothing_of_it_is_cut() -> None:
    """Common practice, no source: signal leads are sold by the half metre with their plugs on."""
    found = plan({"carries": "signal", "from": "plug 14 mm", "to": "plug 14 mm", "length": "2.6 m"})
    assert found is not None
    assert [need.part.size for need in found.parts] == ["3 m"]
    assert {need.id.key for need in found.consumables} == {"wire marker"}
    assert not found.tools
    assert not any(step.text.startswith("Cut") for step in found.steps)
