"""What a list, a verdict and a work sheet know of an entry of a job, whatever kind of entry it is."""

from typing import Protocol

from fasten.catalog.tables import Tables
from fasten.job.words import Visit
from fasten.model.plan import Plan


class Entry(Protocol):
    """An entry of a job with what it gets: a plan, or the reason why there is none."""

    @property
    def name(self) -> str:
        """The name of the entry."""

    @property
    def note(self) -> str:
        """What the user noted."""

    @property
    def built(self) -> Visit | None:
        """What was really used when it was built before."""

    @property
    def ticked(self) -> tuple[str, ...]:
        """The steps that are done and the holes that are made, by ids."""

    @property
    def plan(self) -> Plan | None:
        """What the entry results in; None where nothing fits."""

    @property
    def reason(self) -> str:
        """Why nothing fits; empty where there is a plan."""

    @property
    def is_said(self) -> bool:
        """Whether all is said and understood that an answer needs; without it nothing is known to fit or not."""

    def explained(self, tables: Tables) -> "Entry":
        """The same with everything that is said of it where nothing fits."""


def plans_of(entries: tuple[Entry, ...]) -> tuple[Plan, ...]:
    """The plans of the entries that get one, in their order."""
    return tuple(entry.plan for entry in entries if entry.plan is not None)
