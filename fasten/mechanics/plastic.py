"""Screws and inserts in thermoplastic bosses."""

from math import pi, sqrt

from fasten.require import above, at_most, below, positive


def thread_cylinder_mm(*, major_mm: float, hole_mm: float) -> float:
    """Diameter of the cylinder a thread-forming screw shears out of its boss, the mean of major and hole.

    An insert shears along its knurl: there the knurl's diameter is the cylinder.

    major_mm: major diameter of the screw [mm]
    hole_mm: core hole in the boss [mm]
    Returns: diameter of the cylinder [mm]
    Raises: ValueError for a size not above 0, or a hole the thread does not reach.
    Source: shear cylinder, standard practice (memory)
    """
    positive(major_mm=major_mm, hole_mm=hole_mm)
    below(major_mm, "the thread would not touch its hole", hole_mm=hole_mm)
    return (major_mm + hole_mm) / 2


def pull_out_plastic_n(*, cylinder_mm: float, engagement_mm: float, yield_mpa: float) -> float:
    """Pull that shears a screw or insert out of plastic, pi Dp Le sigma_y / sqrt(3).

    cylinder_mm: diameter of the sheared cylinder, or the insert's knurl [mm]
    engagement_mm: engaged length [mm]
    yield_mpa: tensile yield at the temperature it must hold at [MPa]
    Returns: ultimate pull-out [N]
    Raises: ValueError for a value not above 0.
    Source: shear cylinder with von Mises shear, standard practice (memory)
    """
    positive(cylinder_mm=cylinder_mm, engagement_mm=engagement_mm, yield_mpa=yield_mpa)
    return pi * cylinder_mm * engagement_mm * yield_mpa / sqrt(3)


def hot_yield_mpa(*, yield_mpa: float, fraction: float) -> float:
    """Yield strength left in a hot cabin.

    yield_mpa: low end of the tensile yield at room temperature [MPa]
    fraction: what heat leaves of it, 0.5 for ABS in a parked car [-]
    Returns: yield to calculate with [MPa]
    Raises: ValueError for a value not above 0, or a fraction above 1.
    Source: common practice, no source
    """
    positive(yield_mpa=yield_mpa, fraction=fraction)
    at_most(1.0, "heat does not strengthen a thermoplastic", fraction=fraction)
    return fraction * yield_mpa


def boss_hole_mm(*, screw_mm: float, ratio: float) -> float:
    """Core hole for a thread-forming screw, as a ratio of its diameter.

    screw_mm: major diameter of the screw [mm]
    ratio: hole to screw, 0.80 in ABS for a 30 degree thread, 0.83 to 0.90 for a 60 degree sheet-metal thread [-]
    Returns: core hole [mm]
    Raises: ValueError for a value not above 0, or a ratio of 1 and up: no thread would form.
    Source: makers' design pages; ABS row from memory
    """
    positive(screw_mm=screw_mm, ratio=ratio)
    below(1.0, "a hole as wide as the screw lets no thread form", ratio=ratio)
    return ratio * screw_mm


def boss_outer_mm(*, screw_mm: float, ratio: float) -> float:
    """Outer diameter a boss needs round its screw or insert.

    screw_mm: major diameter of the screw, or outer diameter of the insert [mm]
    ratio: boss to screw, 2.0 to 2.5 [-]
    Returns: outer diameter of the boss [mm]
    Raises: ValueError for a size not above 0, or a ratio of 1 and under: no wall would be left.
    Source: four design pages and a university page agree on 2.0 to 2.5
    """
    positive(screw_mm=screw_mm)
    above(1.0, "a boss no wider than its screw has no wall", ratio=ratio)
    return ratio * screw_mm


def boss_engagement_mm(*, screw_mm: float, ratio: float) -> float:
    """Engagement a thread-forming screw needs in its boss.

    screw_mm: major diameter of the screw [mm]
    ratio: engagement to screw, 2.0 to 2.5 [-]
    Returns: engagement [mm]
    Raises: ValueError for a value not above 0.
    Source: four design pages and a university page agree on 2.0 to 2.5
    """
    positive(screw_mm=screw_mm, ratio=ratio)
    return ratio * screw_mm


def boss_depth_mm(*, engagement_mm: float, screw_mm: float) -> float:
    """Depth of the core hole: engagement and half a screw diameter for chips and the point.

    engagement_mm: engagement of the screw [mm]
    screw_mm: major diameter of the screw [mm]
    Returns: depth of hole [mm]
    Raises: ValueError for a value not above 0.
    Source: makers' design pages (memory)
    """
    positive(engagement_mm=engagement_mm, screw_mm=screw_mm)
    return engagement_mm + screw_mm / 2


def bearing_plastic_n(*, diameter_mm: float, depth_mm: float, strength_mpa: float) -> float:
    """Sideways load at which a shank presses its hole in plastic or laminate long, on its projected area.

    diameter_mm: what presses sideways, the screw or the insert [mm]
    depth_mm: how deep it presses [mm]
    strength_mpa: strength at the temperature it must hold at [MPa]
    Returns: load [N]
    Raises: ValueError for a value not above 0.
    Source: projected area, common practice, no source
    """
    positive(diameter_mm=diameter_mm, depth_mm=depth_mm, strength_mpa=strength_mpa)
    return diameter_mm * depth_mm * strength_mpa


def punch_plastic_n(*, washer_mm: float, sheet_mm: float, strength_mpa: float) -> float:
    """Pull that punches a washer through a sheet of plastic or laminate, pi dw t sigma / sqrt(3).

    washer_mm: outer diameter of the washer [mm]
    sheet_mm: thickness of the sheet [mm]
    strength_mpa: strength at the temperature it must hold at [MPa]
    Returns: load [N]
    Raises: ValueError for a value not above 0.
    Source: shear cylinder with von Mises shear, standard practice (memory)
    """
    positive(washer_mm=washer_mm, sheet_mm=sheet_mm, strength_mpa=strength_mpa)
    return pi * washer_mm * sheet_mm * strength_mpa / sqrt(3)
