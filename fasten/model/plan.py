"""What a proposal is made into: the steps of the work."""

from fasten.model.words import Phase
from fasten.record import record


@record
class WorkStep:
    """One step of the work: the phase it belongs to, its place within the phase, and what a person reads."""

    phase: Phase
    step: int
    text: str
