"""A group of fixings of which some are softer or stiffer than the others, or sit elsewhere than the item's middle."""

from math import atan2, cos, hypot, sin
from typing import NamedTuple

from fasten.mechanics.group import centroid_mm
from fasten.require import Points, not_negative, positive, refuse

STIFFNESSES = (0.0, 1.0, 4.0)
"""How stiff an odd fixing may be beside the others: none at all, alike, four times."""


class Shares(NamedTuple):
    """The share that a fixing carries of a shear and of a pull, and of a moment that tips the item [1/mm].

    Each is that of the worst way for it.
    """

    shear: float
    tension: float
    tipping_per_mm: float


def shares(
    *, points_mm: Points, stiffnesses: tuple[float, ...], middle_mm: tuple[float, float], foot_mm: float
) -> tuple[Shares, ...]:  # fmt: skip
    """What each fixing carries of a load through the middle of the item.

    The load turns and tips the item about the middle of stiffness. A shear turns it by its arm about that middle, the
    worst way for each fixing; a pull tips it, T = k (1 / sum k + p . A^-1 e), with A = sum k p p^T; a moment M tips it
    by k |A^-1 p| M. Along an axis on which the fixings spread less than the foot of the item they lever on that foot.

    points_mm: centre points (x, y) [mm]
    stiffnesses: stiffness of each over that of an ordinary one [-]
    middle_mm: where the centre of mass stands over the panel (x, y) [mm]
    foot_mm: how far the item stands on the panel beside a fixing [mm]
    Returns: shares of each fixing [-]
    Raises: ValueError for fewer than two points, another count of stiffnesses, one below 0, or none above it.
    Source: elastic bolt group with springs of unequal stiffness; statics
    """
    positive(foot_mm=foot_mm)
    for stiffness in stiffnesses:
        not_negative(stiffness=stiffness)
    if len(points_mm) < 2 or len(points_mm) != len(stiffnesses):
        raise refuse("points_mm", points_mm, "two points or more, each with its stiffness", "one fixing has no others")
    centroid_mm(points_mm=points_mm)
    total = sum(stiffnesses)
    if total <= 0:
        raise refuse("stiffnesses", stiffnesses, "above 0 somewhere", "nothing would hold the item")
    mx, my = (sum(k * p[axis] for k, p in zip(stiffnesses, points_mm, strict=True)) / total for axis in (0, 1))
    off = middle_mm[0] - mx, middle_mm[1] - my
    arms = [(x - mx, y - my) for x, y in points_mm]
    polar = sum(k * (x * x + y * y) for k, (x, y) in zip(stiffnesses, arms, strict=True))
    tipping = _tipping(stiffnesses, arms, foot_mm, total)
    return tuple(
        Shares(_shear(k, arm, off, total, polar), _pull(k, arm, off, stiffnesses, arms, total), tips)
        for k, arm, tips in zip(stiffnesses, arms, tipping, strict=True)
    )


def _shear(k: float, arm: tuple[float, float], off: tuple[float, float], total: float, polar: float) -> float:
    """The greatest force on a fixing of a unit shear in any direction: the larger singular value of what it makes."""
    (x, y), (ex, ey) = arm, off
    turn = k / polar if polar > 0 else 0.0
    # A unit shear (u, v) through (ex, ey) turns by ex v - ey u; the force is k / total (u, v) + turn (-y, x) of that.
    a, b = k / total + turn * y * ey, -turn * y * ex
    c, d = -turn * x * ey, k / total + turn * x * ex
    half, root = (a * a + b * b + c * c + d * d) / 2, hypot((a * a + b * b - c * c - d * d) / 2, a * c + b * d)
    return float((half + root) ** 0.5)


def _pull(
    k: float, arm: tuple[float, float], off: tuple[float, float], stiff: tuple[float, ...],
    arms: list[tuple[float, float]], total: float,
) -> float:  # fmt: skip
    """The share of a pull; along an axis on which the fixings do not spread nothing levers."""
    xx, yy, xy = (sum(s * p[a] * p[b] for s, p in zip(stiff, arms, strict=True)) for a, b in ((0, 0), (1, 1), (0, 1)))
    determinant = xx * yy - xy * xy
    (x, y), (ex, ey) = arm, off
    if determinant > 1e-9 * (xx + yy) ** 2:
        lever = (x * (yy * ex - xy * ey) + y * (xx * ey - xy * ex)) / determinant
    else:
        spread = xx + yy
        lever = (x * ex + y * ey) / spread if spread > 0 else 0.0
    return max(k * (1 / total + lever), 0.0)


def _tipping(
    stiff: tuple[float, ...], arms: list[tuple[float, float]], foot_mm: float, total: float
) -> list[float]:  # fmt: skip
    """The share of a moment of each fixing, whichever way the item tips: along both principal axes of the group."""
    xx, yy, xy = (sum(s * p[a] * p[b] for s, p in zip(stiff, arms, strict=True)) for a, b in ((0, 0), (1, 1), (0, 1)))
    angle = atan2(2 * xy, xx - yy) / 2
    ux, uy = cos(angle), sin(angle)
    held = [k > 0 for k in stiff]
    sides = ([x * ux + y * uy for x, y in arms], [y * ux - x * uy for x, y in arms])
    narrow = [
        max(max(arm, -arm) for arm, holds in zip(side, held, strict=True) if holds) < foot_mm for side in sides
    ]  # it may tip to either side
    if all(narrow):
        return [k / (total * foot_mm) for k in stiff]
    first, second = (
        [k / (total * foot_mm) for k in stiff] if on_foot
        else [k * arm / sum(s * a * a for s, a in zip(stiff, side, strict=True))
              for k, arm in zip(stiff, side, strict=True)]
        for side, on_foot in zip(sides, narrow, strict=True)
    )  # fmt: skip
    return [hypot(one, other) for one, other in zip(first, second, strict=True)]
