"""Lines of proof: a comparison that holds, fails or is missed by a little; one that waits for what is not given."""

from math import ceil, inf

from fasten.model import Asks, Check, Input, Status
from fasten.record import replace


def at_most(
    id_: str, title: str, demand: float, capacity: float, unit: str, inputs: tuple[Input, ...], formula: str,
    from_: tuple[str, ...], *, factor: float | None = None, load_case: str | None = None,
) -> Check:  # fmt: skip
    """A check that holds while `demand` is not above `capacity`."""
    status = Status.HOLDS if holds(demand, capacity) else Status.FAILS
    used = used_of(demand, capacity)
    return Check(id_, title, status, demand, capacity, unit, used, factor, load_case, inputs, formula, from_)


def holds(demand: float, capacity: float) -> bool:
    """Whether a demand is not above the capacity, but for what arithmetic rounds."""
    return demand <= capacity * (1 + 1e-9)


def used_of(demand: float, capacity: float) -> float:
    """How much of the capacity a demand uses."""
    return demand / capacity if capacity > 0 else (0.0 if demand <= 0 else inf)


def is_missed_by_little(used: float, most: float) -> bool:
    """Whether an estimate that does not hold is marginal: used less than `most` of."""
    return used < most


def on_estimate(check: Check, most: float) -> Check:
    """The check of a strength that is no more than an estimate: marginal where it is missed by a little."""
    used = check.utilisation
    if check.status is not Status.FAILS or used is None or not is_missed_by_little(used, most):
        return check
    over = ceil(round((used - 1) * 1000, 6)) / 10
    needs = f"needs a test piece or a stronger joint, {over} % short: {check.title[0].lower()}{check.title[1:]}"
    return replace(check, status=Status.MARGINAL, needs=needs)


def unknown(
    id_: str, title: str, demand: float, needs: str, inputs: tuple[Input, ...], formula: str, from_: tuple[str, ...],
    asks: Asks | None = None,
) -> Check:  # fmt: skip
    """A check in millimetres that cannot be made: `needs` says what it waits for."""
    return waits(id_, title, "mm", demand, needs, inputs, formula, from_, asks=asks)


def waits(
    id_: str, title: str, unit: str, demand: float | None, needs: str, inputs: tuple[Input, ...], formula: str,
    from_: tuple[str, ...], *, load_case: str | None = None, asks: Asks | None = None,
) -> Check:  # fmt: skip
    """A check of a strength that cannot be made: `demand` is the least it must come to, where that is known."""
    return Check(
        id_, title, Status.NOT_CHECKED, demand, None, unit, None, None, load_case, inputs, formula, from_, needs, asks
    )
