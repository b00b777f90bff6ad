"""Foam between parts: how thick to buy it, and how hard it pushes back."""

from fasten.require import not_negative


def foam_force_n(*, area_mm2: float, deflection_mpa: float) -> float:
    """Force that presses foam to the compression its deflection pressure is quoted at, usually 25 %.

    area_mm2: area of foam [mm²]
    deflection_mpa: compression deflection pressure [MPa]
    Returns: force [N]
    Raises: ValueError for a value below 0.
    Source: ASTM D1056 gives the pressure; force is pressure times area
    """
    not_negative(area_mm2=area_mm2, deflection_mpa=deflection_mpa)
    return area_mm2 * deflection_mpa
