"""Numbers and names of the model as a person reads them."""

from math import ceil, floor, isfinite

from fasten.model import Torque
from fasten.units import number

_MOST_DIGITS = 6
_FLOAT_DUST = 1e-6  # 1.15 * 100 is 114.99999999999999, and 1.15 is not to be written 1.14


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


def rounded_down(value: float, digits: int) -> str:
    """A figure that must not be passed, never rounded up: an upper limit, or a target that lies on one."""
    return number(_down(value, digits), digits)


def torque_digits(torque: Torque) -> int:
    """Decimals of a torque window: as many as a wrench shows, more where its ends would else change places."""
    digits = 2 if torque.max_nm < 10 else 1
    while digits < _MOST_DIGITS and _up(torque.min_nm, digits) > _down(torque.max_nm, digits):
        digits += 1
    return digits


def rounded_up(value: float, digits: int) -> str:
    """A figure that must be reached, never rounded down."""
    return number(_up(value, digits), digits)


def _down(value: float, digits: int) -> float:
    return floor(value * 10.0**digits + _FLOAT_DUST) / 10.0**digits


def _up(value: float, digits: int) -> float:
    return ceil(value * 10.0**digits - _FLOAT_DUST) / 10.0**digits
