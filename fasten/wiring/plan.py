"""The plan of a run, from its answer: all that lists, verdict, work sheet and labels know of it."""

from functools import lru_cache

from fasten.model.plan import Label, Plan, Work
from fasten.record import replace
from fasten.wiring.blanks import turns_in_brief
from fasten.wiring.conditions import Done, holding
from fasten.wiring.parts import consumable_needs, markers_of, part_needs, tool_needs
from fasten.wiring.sizing import MOST_KEPT, nameless, title_of
from fasten.wiring.wired import Wired
from fasten.wiring.work import cautions_of, tasks_of


def plan_of(name: str, answer: Wired) -> Plan:
    """What the run of this name results in."""
    done = answer.done
    return replace(plan_of_any_name(replace(done, sizing=nameless(done.sizing))), name=name, checks=answer.checks)


@lru_cache(MOST_KEPT)
def plan_of_any_name(done: Done) -> Plan:
    """The plan of a run without a name and checks: all else of it is the same for every run that asks for the same."""
    held = holding(done)
    return Plan(
        name="", title=title_of(done.sizing), checks=(), parts=tuple(part_needs(done)), bits=(),
        tools=tuple(tool_needs(done, held)), consumables=tuple(consumable_needs(done, held)),
        work=Work(lambda: tasks_of(done, held)),
        cautions=tuple(cautions_of(done, held)), remarks=(),
        label=Label(bit=None, target_nm=None, least_nm=None, by_feel=False, past_driving=False, held_by="",
                    turns=turns_in_brief(done)),
        markers=markers_of(done), is_recorded=False,
    )  # fmt: skip
