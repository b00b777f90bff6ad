"""A group of fixings of which one is softer or stiffer than the others."""

from math import hypot
from typing import NamedTuple

from fasten.mechanics.group import centroid_mm
from fasten.require import Points, not_negative, refuse

STIFFNESSES = (0.0, 1.0, 4.0)
"""How stiff the odd fixing may be beside the others: none at all, alike, four times."""


class Shares(NamedTuple):
    """The share that a fixing carries of a shear and of a pull, the worst way for it."""

    shear: float
    tension: float


def shares(*, points_mm: Points, odd: int, ratio: float) -> tuple[Shares, ...]:
    """What each fixing carries of a load through the middle of the item, which is that of all its fixings.

    The load turns and tips the item about the middle of stiffness. A shear turns it by its arm about that middle, the
    worst way for each fixing; a pull tips it, T = k (1 / sum k + p . A^-1 e), with A = sum k p p^T.

    points_mm: centre points (x, y) [mm]
    odd: place of the odd fixing among them, from 0 [-]
    ratio: its stiffness over that of each other [-]
    Returns: shares of each fixing [-]
    Raises: ValueError for fewer than two points or a ratio below 0.
    Source: elastic bolt group with springs of unequal stiffness; statics
    """
    not_negative(ratio=ratio)
    if len(points_mm) < 2:
        raise refuse("points_mm", points_mm, "two points or more", "one fixing has no others")
    cx, cy = centroid_mm(points_mm=points_mm)
    stiff = [ratio if place == odd else 1.0 for place in range(len(points_mm))]
    total = sum(stiff)
    mx, my = (sum(k * p[axis] for k, p in zip(stiff, points_mm, strict=True)) / total for axis in (0, 1))
    ex, ey = cx - mx, cy - my
    arms = [(x - mx, y - my) for x, y in points_mm]
    polar = sum(k * (x * x + y * y) for k, (x, y) in zip(stiff, arms, strict=True))
    return tuple(
        Shares(_shear(k, arm, (ex, ey), total, polar), _pull(k, arm, (ex, ey), stiff, arms, total))
        for k, arm in zip(stiff, arms, strict=True)
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
    k: float, arm: tuple[float, float], off: tuple[float, float], stiff: list[float],
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
