"""Foam between parts: how thick to buy it, and how hard it pushes back."""

from fasten.require import not_negative, positive, refuse


def free_thickness_mm(*, gap_mm: float, compression: float) -> float:
    """Free thickness of foam that fills a gap at a wanted compression.

    gap_mm: gap it fills [mm]
    compression: share of free thickness lost, 0.25 to 0.50, best 0.40 [-]
    Returns: free thickness [mm]
    Raises: ValueError for a gap not above 0, or a compression outside 0 up to but not 1.
    Source: geometry; band read on a gasket design page
    """
    positive(gap_mm=gap_mm)
    return gap_mm / (1 - _share(compression))


def pressed_thickness_mm(*, free_mm: float, compression: float) -> float:
    """Thickness of foam once compressed.

    free_mm: free thickness [mm]
    compression: share of free thickness lost [-]
    Returns: thickness under load [mm]
    Raises: ValueError for a thickness not above 0, or a compression outside 0 up to but not 1.
    Source: geometry
    """
    positive(free_mm=free_mm)
    return free_mm * (1 - _share(compression))


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


def _share(compression: float) -> float:
    if not 0 <= compression < 1:
        raise refuse("compression", compression, "from 0 up to but not 1", "foam cannot be pressed to nothing")
    return compression
