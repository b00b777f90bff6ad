"""A check: one line of proof, whatever it is of."""

from fasten.model.words import Asks, Status
from fasten.record import lean

_WORST_FIRST = (Status.FAILS, Status.MARGINAL, Status.NOT_CHECKED)


LOAD_KINDS = ("service", "hard_stop", "sustained")  # kinds of load case; the last word of the check of a load
STIFFNESS = "panel-stiffness"  # the check of a panel by which answers are asked for what settles it
SEALED = "water-behind"  # the check of what goes through a panel with water behind it
RIM = "rim-bends"  # the check of a rim that presses thin foam without a limiter


@lean
class Input:
    """One input of a check, with its unit."""

    name: str
    value: float
    unit: str


@lean
class Check:
    """One line of proof. `needs` says what is needed to check it where it is not checked, or what would prove it;
    where it holds by the word of the user alone, what was measured or accepted.

    `asks` is what of the question settles it, where it is open only because that was not said.
    """

    id: str
    title: str
    status: Status
    demand: float | None
    allowable: float | None
    unit: str
    utilisation: float | None
    factor: float | None
    load_case: str | None
    inputs: tuple[Input, ...]
    formula: str
    from_: tuple[str, ...]
    needs: str | None = None
    asks: Asks | None = None


def needed(checks: tuple[Check, ...]) -> tuple[str, ...]:
    """What is needed to prove what is not checked yet or is marginal, each once, without the word needs."""
    left = (check for check in checks if check.status in {Status.NOT_CHECKED, Status.MARGINAL})
    return tuple(dict.fromkeys((check.needs or check.title).removeprefix("needs ") for check in left))


def worst(checks: tuple[Check, ...]) -> Status:
    """What a proof comes to: the state of its worst check."""
    found = {check.status for check in checks}
    return next((status for status in _WORST_FIRST if status in found), Status.HOLDS)
