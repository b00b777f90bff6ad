"""A spacer under an item: what it takes to stand upright while the item is pushed sideways."""

from fasten.require import not_negative, positive


def least_outside_mm(*, factor: float, shear_n: float, height_mm: float, clamp_n: float) -> float:
    """Outside of a spacer that its clamp keeps upright: on its edge it has a lever of half its outside.

    factor: 2 for the half outside, times the safety against tipping [-]
    shear_n: shear on the fixing [N]
    height_mm: height of the spacer [mm]
    clamp_n: clamp that the joint keeps [N]
    Returns: least outside [mm]
    Raises: ValueError for a value below 0, or a clamp not above 0.
    Source: moments about the edge, V h = F D / 2
    """
    not_negative(factor=factor, shear_n=shear_n, height_mm=height_mm)
    positive(clamp_n=clamp_n)
    return factor * shear_n * height_mm / clamp_n


def tipping_pull_n(*, shear_n: float, height_mm: float, outside_mm: float) -> float:
    """Pull on the screw of a spacer that the shear tips on to its edge.

    shear_n: shear on the fixing [N]
    height_mm: height of the spacer [mm]
    outside_mm: outside of the spacer [mm]
    Returns: pull [N]
    Raises: ValueError for a value below 0, or an outside not above 0.
    Source: moments about the edge, V h = T D / 2
    """
    not_negative(shear_n=shear_n, height_mm=height_mm)
    positive(outside_mm=outside_mm)
    return 2 * shear_n * height_mm / outside_mm
