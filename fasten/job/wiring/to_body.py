"""What comes back to the battery through the body, by the runs of a job: how many leads carry it."""

from collections.abc import Iterator
from math import ceil

from fasten.catalog.tables import Tables
from fasten.catalog.wiring_rules import WiringRules, rule_figure
from fasten.job.wiring.runs import RunChoice
from fasten.record import replace
from fasten.wiring.conductor import conductor
from fasten.wiring.fuse import is_battery
from fasten.wiring.sizes import sizes
from fasten.wiring.words import Series


def leads_to_body(found: tuple[RunChoice, ...], tables: Tables) -> int:
    """How many leads alike carry what comes back to the battery, and its fuses."""
    sources = [sizing for one in found if one.answer is not None
               and not (sizing := one.answer.sizing).run.from_name and sizing.fuse is not None]  # fmt: skip
    total_a = sum(one.current.full_a for one in sources if one.current is not None)
    if total_a <= rule_figure(tables, WiringRules.BODY_CABLE_OVER)[0]:
        return 0
    largest = conductor(sizes(Series.AWG, tables)[-1], total_a, replace(sources[0].run, bundled=1), tables)
    fuses_a = sum(one.fuse.rating_a for one in sources if one.fuse is not None)
    by_fuses = 1.0 if largest is None else fuses_a / largest.ampacity_a
    return ceil(max(total_a / rule_figure(tables, WiringRules.CURRENT_MOST)[0], by_fuses))


def second_batteries(found: tuple[RunChoice, ...]) -> Iterator[tuple[str, str, float]]:
    """The runs from one battery to another, what they end at, and what they carry: the second is grounded by itself."""
    for one in found:
        sizing = None if one.answer is None else one.answer.sizing
        if sizing is not None and sizing.current is not None:
            run = sizing.run
            if is_battery(run.from_) and is_battery(run.to):
                yield one.name, run.to_name, sizing.current.full_a
