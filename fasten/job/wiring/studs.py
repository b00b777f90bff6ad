"""How many runs of a job end at the same stud: at a ground lug of the job, or at a pole of a battery that has studs.

A post takes a clamp with outputs, and a block has an output for each; neither is shared.
"""

from collections.abc import Iterator, Mapping

from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.record import lean, replace
from fasten.wiring.fuse import is_grounded
from fasten.wiring.pieces import end_text
from fasten.wiring.sizing import Sized, Sizing
from fasten.wiring.words import StudAt, StudEnd


@lean
class _Stud:
    """A stud: what it is called, by the name of what of the job it is at, and its size where there may be others."""

    called: str
    size: str | None = None


def with_studs(sized: Mapping[str, Sized], tables: Tables) -> dict[str, Sized]:
    """The sizes of the runs, each with the studs that a power cable shares with others, and how many end there."""
    power_mm2 = rule(tables, Rules.GROUND_POWER_CABLE).value
    ending: dict[_Stud, list[Sizing]] = {}
    for one in (one for one in sized.values() if isinstance(one, Sizing)):
        for stud in _studs(one):
            ending.setdefault(stud, []).append(one)
    shared = {
        stud: len(there) for stud, there in ending.items()
        if len(there) > 1 and any(one.size.area_mm2 >= power_mm2 for one in there)
    }  # fmt: skip
    return {name: _at_studs(one, shared) if isinstance(one, Sizing) else one for name, one in sized.items()}


def _at_studs(one: Sizing, shared: Mapping[_Stud, int]) -> Sizing:
    found = tuple((stud.called, shared[stud]) for stud in _studs(one) if stud in shared)
    return one if found == one.run.at_studs else replace(one, run=replace(one.run, at_studs=found))


def _studs(one: Sizing) -> Iterator[_Stud]:
    """The studs at the ends of a run that others may end at too."""
    run = one.run
    for end, name in ((run.from_, run.from_name), (run.to, run.to_name)):
        if isinstance(end, StudEnd) and end.at is StudAt.BATTERY:
            yield _Stud(f"{name}, {end_text(end)}" if name else end_text(end), end.stud)
        elif name and is_grounded(end):
            yield _Stud(name)
