"""What is kept of a run without its name is what the run itself gets: only a few ids of checks tell it by name."""

from dataclasses import replace

import pytest

from fasten.catalog.tables import builtin
from fasten.wiring.pieces import made, made_of_any_name
from fasten.wiring.plan import plan_of, plan_of_any_name
from fasten.wiring.sizing import NoSize, sized, sized_of_any_name
from fasten.wiring.wired import answered

from .asked import asked

NAME = "rear feed"
QUESTIONS: tuple[dict[str, str], ...] = (
    {}, {"ground": "0.45 m"}, {"carries": "72 A", "from": "battery post +", "to": "stud M8"},
    {"carries": "loudspeaker 100 W 4 ohm", "from": "set screw", "to": "tab 6.3x0.8"},
    {"carries": "remote", "from": "connector", "to": "set screw"}, {"carries": "600 A"}, {"cable": "8 AWG"},
)  # fmt: skip


@pytest.mark.parametrize("said", QUESTIONS)
def test_size_pieces_and_plan_of_a_run_are_those_found_of_it_by_itself(said: dict[str, str]) -> None:
    tables, run = builtin(), replace(asked(**said), name=NAME)
    sizing = sized(run, tables)
    assert sizing == sized_of_any_name.__wrapped__(run, tables)
    assert sizing.run.name == NAME
    if isinstance(sizing, NoSize):
        return
    assert made(sizing, tables) == made_of_any_name.__wrapped__(sizing, tables)
    answer = answered(sizing, tables)
    alone = replace(plan_of_any_name.__wrapped__(answer.done), name=NAME, checks=answer.checks)
    assert plan_of(NAME, answer) == alone


@pytest.mark.parametrize("said", QUESTIONS)
def test_runs_of_other_names_are_sized_alike_each_under_its_own(said: dict[str, str]) -> None:
    """Of them and of what they are at."""
    run, kept = asked(**said), sized_of_any_name.cache_info().currsize
    one, other = (
        sized(replace(run, name=side, from_name=f"{side} amplifier", to_name=f"{side} door"), builtin())
        for side in ("left", "right")
    )
    assert (one.run.name, other.run.name, other.run.to_name) == ("left", "right", "right door")
    assert other == replace(one, run=other.run)
    assert sized_of_any_name.cache_info().currsize <= kept + 1
    assert one == sized_of_any_name.__wrapped__(one.run, builtin())
