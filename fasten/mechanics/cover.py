"""A plate over a bad hole, as a beam between the rivets that hold it."""

from fasten.require import not_negative, positive


def strip_bending_mpa(*, force_n: float, span_mm: float, width_mm: float, thickness_mm: float) -> float:
    """Bending stress of a strip that is pulled in its middle and held at both ends, free to turn there.

    force_n: pull in the middle [N]
    span_mm: from row of rivets to row of rivets [mm]
    width_mm: width that bends [mm]
    thickness_mm: thickness of the strip [mm]
    Returns: stress, F L / 4 over b t^2 / 6 [MPa]
    Raises: ValueError for a pull below 0, or a size not above 0.
    Source: beam on two supports, load in the middle; every textbook on strength of materials
    """
    not_negative(force_n=force_n)
    positive(span_mm=span_mm, width_mm=width_mm, thickness_mm=thickness_mm)
    return 1.5 * force_n * span_mm / (width_mm * thickness_mm**2)
