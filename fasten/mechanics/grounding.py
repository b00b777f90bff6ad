"""Ground joints."""

from fasten.geometry._require import positive


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
