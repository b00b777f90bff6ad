"""A job from a few words typed where an item is asked for: what Enter would add to it. No widgets here."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fasten.errors import FastenError
from fasten.question.fields import ITEM
from fasten.record import replace
from fasten.tui.state.outcome import Outcome

if TYPE_CHECKING:
    from fasten.catalog.tables import Tables
    from fasten.job.start.wanted import Wanted, WantedItem


def wanted_of(text: str, tables: Tables) -> tuple[Wanted | WantedItem, ...]:
    """The installs and items that a text names; none where it names anything else."""
    from fasten.job.start.wanted import read_wanted

    try:
        return read_wanted(text, tables)
    except FastenError:
        return ()


def with_offer(outcome: Outcome, tables: Tables) -> Outcome:
    """The outcome with what Enter adds to the job where what is typed for the item names installs instead.

    Of several things, it says which of them is not known.
    """
    reading = outcome.readings.get(ITEM.name)
    if reading is None or not reading.why:
        return outcome
    from fasten.job.start.wanted import are_several, read_wanted

    try:
        offered = replace(reading, offer=_offered(read_wanted(reading.taken, tables), tables))
    except FastenError as error:
        if not are_several(reading.taken):
            return outcome
        offered = replace(reading, why=f"{error.what}; {error.fix}")
    return replace(outcome, readings={**outcome.readings, ITEM.name: offered})


def _offered(wanted: tuple[Wanted | WantedItem, ...], tables: Tables) -> str:
    from fasten.job.start.start import started
    from fasten.job.words import Job
    from fasten.text.figures import counted

    count = len(started(Job("", "", "", ()), wanted, tables).mounts)
    return f"Enter adds {counted(count, 'mount point')}, every value preset"
