"""Foam between parts: how thick to buy it, and how hard it pushes back."""

from fasten.require import not_negative, positive


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


def rim_sag_mm(*, pressure_mpa: float, gap_mm: float, youngs_mpa: float, thickness_mm: float) -> float:
    """How far foam bends the rim that presses it, halfway between two fixings.

    Beam over equal spans, held against turning at each: q L^4 / (384 E I), I = w t^3 / 12. Its width w goes out, for
    the foam lies under all of it.

    pressure_mpa: how hard the foam pushes back [MPa]
    gap_mm: distance between neighbouring fixings [mm]
    youngs_mpa: modulus of the rim [MPa]
    thickness_mm: thickness of the rim [mm]
    Returns: sag [mm]
    Raises: ValueError for a pressure or gap below 0, a modulus or thickness not above 0.
    Source: beam built in at both ends under an even load, as handbooks of strength print it
    """
    not_negative(pressure_mpa=pressure_mpa, gap_mm=gap_mm)
    positive(youngs_mpa=youngs_mpa, thickness_mm=thickness_mm)
    return pressure_mpa * gap_mm**4 / (32 * youngs_mpa * thickness_mm**3)
