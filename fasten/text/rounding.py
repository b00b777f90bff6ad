"""Figures rounded to the safe side, the same in a step, on a screen and on paper."""

from math import ceil, floor

from fasten.model import Torque
from fasten.text.units import number

_MOST_DIGITS = 6
_FLOAT_DUST = 1e-6  # 1.15 * 100 is 114.99999999999999, and 1.15 is not to be written 1.14


def rounded_down(value: float, digits: int) -> str:
    """A figure that must not be passed, never rounded up: an upper limit, or a target that lies on one."""
    return number(_down(value, digits), digits)


def rounded_up(value: float, digits: int) -> str:
    """A figure that must be reached, never rounded down."""
    return number(_up(value, digits), digits)


def torque_digits(torque: Torque) -> int:
    """Decimals of a torque window: as many as a wrench shows, more where its ends would else change places."""
    digits = 2 if torque.max_nm < 10 else 1
    while digits < _MOST_DIGITS and _up(torque.min_nm, digits) > _down(torque.max_nm, digits):
        digits += 1
    return digits


def past_driving(torque: Torque) -> str:
    """What is said after a torque that comes on top of what drives the screw; empty for others."""
    return " past what drives it" if torque.past_driving else ""


def _down(value: float, digits: int) -> float:
    return floor(value * 10.0**digits + _FLOAT_DUST) / 10.0**digits


def _up(value: float, digits: int) -> float:
    return ceil(value * 10.0**digits - _FLOAT_DUST) / 10.0**digits


def up_mm(value_mm: float) -> float:
    """A needed size to a tenth, rounded up: what is printed must do when it is given back."""
    return ceil(round(value_mm * 10, 6)) / 10


def up(value_mm: float) -> str:
    """A needed size as text, rounded up to a tenth."""
    return f"{up_mm(value_mm):.1f} mm"
