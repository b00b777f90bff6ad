"""Pressure under a head or washer, on board, plastic or sheet alike."""

from math import pi

from fasten.require import below, positive


def ring_area_mm2(*, washer_mm: float, hole_mm: float) -> float:
    """Area of a head's or washer's face that rests on the part, its clearance hole taken off.

    washer_mm: outer diameter of the bearing face [mm]
    hole_mm: hole under it [mm]
    Returns: bearing area [mm²]
    Raises: ValueError for a size not above 0, or a hole the washer falls through.
    Source: geometry
    """
    positive(washer_mm=washer_mm, hole_mm=hole_mm)
    below(washer_mm, "the washer would fall through its hole", hole_mm=hole_mm)
    return pi / 4 * (washer_mm**2 - hole_mm**2)


def bearing_load_n(*, washer_mm: float, hole_mm: float, pressure_mpa: float) -> float:
    """Load at which a head or washer reaches a pressure on what it rests on.

    washer_mm: outer diameter of the bearing face [mm]
    hole_mm: hole under it [mm]
    pressure_mpa: pressure not to be passed, 10 sustained on board and ABS [MPa]
    Returns: load [N]
    Raises: ValueError for a value not above 0, or a hole the washer falls through.
    Source: statics; the limit of 10 MPa sustained on board and ABS is common practice, no source
    """
    positive(pressure_mpa=pressure_mpa)
    return pressure_mpa * ring_area_mm2(washer_mm=washer_mm, hole_mm=hole_mm)
