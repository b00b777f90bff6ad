"""What a proposal is made into: the steps of the work, the tools and consumables that it needs, and its cautions."""

from fasten.model.words import Phase
from fasten.record import record


@record
class WorkStep:
    """One step of the work: the phase it belongs to, its place within the phase, and what a person reads."""

    phase: Phase
    step: int
    text: str


@record
class Need:
    """A tool or consumable: the key that finds it in the tables, what a person reads, and its size where it has one."""

    key: str
    text: str
    size_mm: float | None = None


@record
class Caution:
    """A caution: the key that finds it in the tables, what a person reads, and whether it is for all work."""

    key: str
    text: str
    for_all: bool
