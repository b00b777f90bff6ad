"""Numbers and names of the model as a person reads them."""

from math import isfinite

from fasten.units import number


def figure(value: float) -> str:
    """A figure to about four digits: more decimals the smaller it is, so that nothing small reads as nothing."""
    if not isfinite(value):
        return "no limit"
    digits = 0 if value <= -1000 or value >= 1000 else 1 if value <= -100 or value >= 100 else 2
    while digits < 9 and value != 0 and number(value, digits) == "0":
        digits += 1
    return number(value, digits)


def words(name: str) -> str:
    """A name of the tables or an enum value in plain words."""
    return name.replace("_", " ")


def with_unit(value: float, unit: str) -> str:
    """A figure with its unit; a bare number where the unit is only a dash."""
    return figure(value) if unit in {"", "-"} else f"{figure(value)} {unit}"
