"""What a record of what was built comes to, as lists, verdicts and screens show it; `judge` finds it."""

from enum import StrEnum
from typing import assert_never

from fasten.record import record


class Verdict(StrEnum):
    """What a record of what was built comes to, the worst last."""

    HOLDS = "holds"
    LESS = "holds with less"
    OPEN = "not proven"
    FAILS = "does not hold"

    @property
    def stands(self) -> bool:
        """Whether what was built may stay as it is."""
        match self:
            case Verdict.HOLDS | Verdict.LESS:
                return True
            case Verdict.OPEN | Verdict.FAILS:
                return False
            case _:
                assert_never(self)


@record
class Less:
    """A capacity or torque limit that is worse than planned: its utilisation, or the limit in N·m.

    `what` is the id of the check, or what limits the torque; `title` says it in words, with the load.
    """

    what: str
    planned: float
    built: float
    unit: str
    title: str
