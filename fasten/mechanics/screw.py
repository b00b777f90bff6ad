"""The screw itself: tension, shear, both together, and torsion of its core."""

from math import pi, sqrt

from fasten.require import not_negative, partial_factor, positive


def tension_en_n(*, stress_area_mm2: float, ultimate_mpa: float, gamma: float) -> float:
    """Tension resistance of a screw with a raised head, 0.9 fub As / gamma.

    stress_area_mm2: tensile stress area As [mm²]
    ultimate_mpa: tensile strength fub [MPa]
    gamma: partial factor, 1.25 in the source [-]
    Returns: design resistance [N]
    Raises: ValueError for a value not above 0, or a partial factor below 1.
    Source: EN 1993-1-8 table 3.4 (memory)
    """
    positive(stress_area_mm2=stress_area_mm2, ultimate_mpa=ultimate_mpa)
    partial_factor(gamma)
    return 0.9 * ultimate_mpa * stress_area_mm2 / gamma


def shear_en_n(*, area_mm2: float, ultimate_mpa: float, shear_factor: float, gamma: float) -> float:
    """Shear resistance of a screw in one plane, alpha_v fub A / gamma.

    area_mm2: stress area where the thread lies in the shear plane, else the shank's area [mm²]
    ultimate_mpa: tensile strength fub [MPa]
    shear_factor: alpha_v, 0.6 for 4.6, 5.6, 8.8 and any plain shank, 0.5 for 4.8, 5.8, 6.8, 10.9 in the thread [-]
    gamma: partial factor, 1.25 in the source [-]
    Returns: design resistance [N]
    Raises: ValueError for a value not above 0, or a partial factor below 1.
    Source: EN 1993-1-8 table 3.4 (memory)
    """
    positive(area_mm2=area_mm2, ultimate_mpa=ultimate_mpa, shear_factor=shear_factor)
    partial_factor(gamma)
    return shear_factor * ultimate_mpa * area_mm2 / gamma


def proof_load_n(*, stress_area_mm2: float, proof_mpa: float) -> float:
    """Load a screw bears without a permanent stretch, As Sp; the standard's table rounds it.

    stress_area_mm2: tensile stress area As [mm²]
    proof_mpa: proof stress Sp of the class [MPa]
    Returns: proof load [N]
    Raises: ValueError for a value not above 0.
    Source: ISO 898-1; SAE J429
    """
    positive(stress_area_mm2=stress_area_mm2, proof_mpa=proof_mpa)
    return stress_area_mm2 * proof_mpa


def shank_interaction(*, shear_n: float, shear_capacity_n: float, tension_n: float, tension_capacity_n: float) -> float:
    """How far a screw shank is used by shear and tension together, (V/Va)² + (T/Ta)²; it holds up to 1.

    shear_n: shear on the screw [N]
    shear_capacity_n: shear it may carry alone [N]
    tension_n: tension on the screw [N]
    tension_capacity_n: tension it may carry alone [N]
    Returns: utilisation [-]
    Raises: ValueError for a load below 0 or a capacity not above 0.
    Source: NASA TM-106943, ellipse of shear and tension (memory)
    """
    not_negative(shear_n=shear_n, tension_n=tension_n)
    positive(shear_capacity_n=shear_capacity_n, tension_capacity_n=tension_capacity_n)
    return (shear_n / shear_capacity_n) ** 2 + (tension_n / tension_capacity_n) ** 2


def core_area_mm2(*, core_mm: float) -> float:
    """Area of a round core, pi d² / 4.

    core_mm: core diameter [mm]
    Returns: area [mm²]
    Raises: ValueError for a diameter not above 0.
    Source: area of a circle
    """
    positive(core_mm=core_mm)
    return pi * core_mm**2 / 4


def core_shear_n(*, breaking_nm: float, core_mm: float) -> float:
    """Shear that parts a screw's core, from the torque that breaks it: its shear strength 12 T/(pi d³) over its area.

    breaking_nm: least torque that breaks the screw [N·m]
    core_mm: core diameter, the largest it may be [mm]
    Returns: shear load, 3 T / d [N]
    Raises: ValueError for a value not above 0.
    Source: fully plastic torsion of a round bar, which gives the least strength that a breaking torque shows
    """
    positive(breaking_nm=breaking_nm, core_mm=core_mm)
    return 3 * breaking_nm * 1000 / core_mm


def core_tension_n(*, breaking_nm: float, core_mm: float) -> float:
    """Pull that parts a screw's core, from the torque that breaks it: √3 times what parts it in shear.

    breaking_nm: least torque that breaks the screw [N·m]
    core_mm: core diameter, the largest it may be [mm]
    Returns: tension load [N]
    Raises: ValueError for a value not above 0.
    Source: fully plastic torsion of a round bar; von Mises, tensile strength √3 times the shear strength
    """
    return sqrt(3) * core_shear_n(breaking_nm=breaking_nm, core_mm=core_mm)
