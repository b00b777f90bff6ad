"""Ground joints and the cables that end in them."""

from math import pi

from fasten.require import not_negative, positive

_4_0_MM = 0.46 * 25.4  # diameter of 4/0 AWG; 36 AWG is 0.005 in, 39 steps on
_RATIO = 92.0  # 0.46 over 0.005


def joint_resistance_mohm(*, drop_mv: float, current_a: float) -> float:
    """Highest resistance of a ground joint for an allowed voltage drop at full current.

    drop_mv: voltage allowed across the joint, 50 [mV]
    current_a: full current [A]
    Returns: highest resistance [mΩ]
    Raises: ValueError for a value not above 0.
    Source: Ohm's law; 50 mV is common practice, no source
    """
    positive(drop_mv=drop_mv, current_a=current_a)
    return drop_mv / current_a


def drop_at_full_mv(*, drop_mv: float, at_a: float, full_a: float) -> float:
    """Drop across a ground joint at full current, of one that was measured at another.

    drop_mv: drop as measured [mV]
    at_a: current it was measured at [A]
    full_a: full current [A]
    Returns: drop at full current [mV]
    Raises: ValueError for a current not above 0, or a drop below 0.
    Source: Ohm's law
    """
    not_negative(drop_mv=drop_mv)
    positive(at_a=at_a, full_a=full_a)
    return drop_mv / at_a * full_a


def awg_area_mm2(*, steps: float) -> float:
    """Area of a round conductor of an American wire gauge; a stranded one of that gauge has the same.

    steps: gauges thinner than 4/0: 0 for 4/0, 3 for 1/0, the gauge number and 3 from 1 AWG on [-]
    Returns: area [mm²]
    Raises: ValueError for steps below 0: the series begins at 4/0.
    Source: ASTM B258, 0.46 in at 4/0 and 0.005 in at 36 AWG in 39 equal ratios (formula from memory)
    """
    not_negative(steps=steps)
    diameter_mm: float = _4_0_MM * _RATIO ** (-steps / 39)
    return pi / 4 * diameter_mm**2
