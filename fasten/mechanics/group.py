"""Fixings as an elastic group: what each one carries of a load on a rigid item.

The plane of the panel is x, y. A load in that plane shears the fixings; a load out of it, or a load in it that acts
some height above it, pulls on them. Each function returns one value a fixing, in the order of the points.
"""

from math import atan2, cos, hypot, sin

from fasten.require import Points, at_least, finite, not_negative, positive, refuse

_ROUND_OFF = 1e-9  # relative: an arm or a moment this small is arithmetic noise, no lever


def centroid_mm(*, points_mm: Points) -> tuple[float, float]:
    """Centroid of equal fixings.

    points_mm: centre points (x, y) [mm]
    Returns: the centroid (x, y) [mm]
    Raises: ValueError for no points, a point that is not finite, or two fixings in one place.
    Source: statics; every textbook on bolt groups
    """
    at_least(1, "a group has at least one fixing", fixings=len(points_mm))
    for x_mm, y_mm in points_mm:
        finite(x_mm=x_mm, y_mm=y_mm)
    if len(set(points_mm)) < len(points_mm):
        raise refuse("points_mm", points_mm, "all different", "two fixings cannot share one place")
    count = len(points_mm)
    return sum(x for x, _ in points_mm) / count, sum(y for _, y in points_mm) / count


def tilting_moment_nm(*, force_n: float, height_mm: float) -> float:
    """Moment that tips an item over, from a load parallel to the panel some height above it.

    force_n: the load, as its size [N]
    height_mm: height of its line of action above the panel [mm]
    Returns: tilting moment [N·m]
    Raises: ValueError for a load or height below 0.
    Source: statics
    """
    not_negative(force_n=force_n, height_mm=height_mm)
    return force_n * height_mm / 1000


def tipping_lever_mm(*, points_mm: Points, foot_mm: float) -> float:
    """Lever of the worst fixing, whichever way the item tips: its tension from tilting is the moment over this lever.

    Tipping by a moment M u stretches fixing i by p_i . A^-1 (M u), A = sum p p^T about the centroid, so the worst way
    for it is M |A^-1 p_i|. Along an axis on which the fixings spread less than the foot of the item, they lever on
    that foot together instead: fixings in line would otherwise have no lever at all.

    points_mm: centre points (x, y) [mm]
    foot_mm: how far the item stands on the panel beside a fixing [mm]
    Returns: lever [mm]
    Raises: ValueError for no points, two fixings in one place, or a foot not above 0.
    Source: elastic group in two axes, T = p . A^-1 M, the worst direction taken; statics
    """
    positive(foot_mm=foot_mm)
    cx, cy = centroid_mm(points_mm=points_mm)
    centred = [(x - cx, y - cy) for x, y in points_mm]
    ux, uy = _principal_axis(centred)
    on_foot = 1 / (len(centred) * foot_mm)
    sides = ([x * ux + y * uy for x, y in centred], [y * ux - x * uy for x, y in centred])
    narrow = [max(*side, -min(side)) < foot_mm for side in sides]  # it may tip to either side
    if all(narrow):
        return 1 / on_foot
    first, second = (
        [on_foot] * len(side) if levers else _shares_per_mm(side) for side, levers in zip(sides, narrow, strict=True)
    )
    return 1 / max(hypot(one, other) for one, other in zip(first, second, strict=True))


def _shares_per_mm(arms_mm: list[float]) -> list[float]:
    """What each fixing takes of a moment across an axis, by its arm from that [1/mm]."""
    spread = sum(arm * arm for arm in arms_mm)
    return [arm / spread for arm in arms_mm]


def _principal_axis(centred: list[tuple[float, float]]) -> tuple[float, float]:
    """Direction of the axis along which the fixings spread most."""
    sxx, syy = sum(x * x for x, _ in centred), sum(y * y for _, y in centred)
    angle = atan2(2 * sum(x * y for x, y in centred), sxx - syy) / 2
    return cos(angle), sin(angle)
