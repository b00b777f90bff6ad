"""A check: one line of proof, whatever it is of."""

from fasten.model.words import Status
from fasten.record import record


@record
class Input:
    """One input of a check, with its unit."""

    name: str
    value: float
    unit: str


@record
class Check:
    """One line of proof. `needs` says what is needed to check it where it is not checked."""

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


def needed(checks: tuple[Check, ...]) -> tuple[str, ...]:
    """What is needed to check what is not checked yet, without the word needs."""
    unchecked = (check for check in checks if check.status is Status.NOT_CHECKED)
    return tuple((check.needs or check.title).removeprefix("needs ") for check in unchecked)
