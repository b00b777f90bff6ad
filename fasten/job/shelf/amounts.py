"""How much of a consumable a shelf has: "masking tape: 10 m", "sealant: 300 ml"; without an amount it is just there."""

import re

from fasten.record import record
from fasten.text.figures import figure

DROPS_PER_ML = 20.0  # common practice, no source
_AMOUNT = re.compile(r"(?P<name>.*\S) ?: ?(?P<figure>[0-9]+(?:[.,][0-9]+)?) ?(?P<unit>[a-z²]+2?)", re.IGNORECASE)
_UNITS = {
    "mm": ("mm", 1.0), "cm": ("mm", 10.0), "m": ("mm", 1000.0), "cm2": ("mm2", 100.0), "cm²": ("mm2", 100.0),
    "ml": ("ml", 1.0), "l": ("ml", 1000.0), "g": ("g", 1.0), "kg": ("g", 1000.0), "drop": ("drop", 1.0),
    "drops": ("drop", 1.0), "piece": ("piece", 1.0), "pieces": ("piece", 1.0), "pcs": ("piece", 1.0),
}  # fmt: skip


@record
class Amount:
    """So much of something: in mm, mm2, ml, g, drop or piece."""

    value: float
    unit: str


def split(text: str) -> tuple[str, Amount | None]:
    """The name of a consumable as it stands on a shelf, and how much there is; None where that is not said."""
    found = _AMOUNT.fullmatch(text.strip())
    unit = None if found is None else _UNITS.get(found["unit"].casefold())
    if found is None or unit is None:
        return text, None
    return found["name"], Amount(float(found["figure"].replace(",", ".")) * unit[1], unit[0])


def in_unit(amount: Amount, unit: str, width_mm: float | None) -> float | None:
    """An amount in the unit that a need is counted in; None where one says nothing of the other."""
    if amount.unit == unit:
        return amount.value
    if (amount.unit, unit) == ("mm", "mm2") and width_mm is not None:
        return amount.value * width_mm
    if (amount.unit, unit) == ("ml", "drop"):
        return amount.value * DROPS_PER_ML
    return None


def written(name: str, amount: Amount) -> str:
    """A consumable with its amount as a shelf keeps it."""
    if amount.unit == "mm":
        return f"{name}: {figure(amount.value / 1000)} m"
    if amount.unit == "mm2":
        return f"{name}: {figure(amount.value / 100)} cm²"
    return (
        f"{name}: {figure(amount.value)} {amount.unit}{'s' * (amount.unit in ('piece', 'drop') and amount.value != 1)}"
    )


def together(kept: str, more: str) -> str:
    """Two entries of one consumable as one: amounts of one unit add up, and a known amount stands before none."""
    name, has = split(kept)
    _, adds = split(more)
    if adds is None:
        return kept
    if has is None:
        return written(name, adds)
    return written(name, Amount(has.value + adds.value, has.unit)) if has.unit == adds.unit else kept
