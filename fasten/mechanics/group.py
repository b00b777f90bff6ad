"""Fixings as an elastic group: what each one carries of a load on a rigid item.

The plane of the panel is x, y. A load in that plane shears the fixings; a load out of it, or a load in it that acts
some height above it, pulls on them. Each function returns one value a fixing, in the order of the points.
"""

from math import atan2, cos, dist, hypot, sin

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


def in_plane_forces_n(
    *, points_mm: Points, force_n: tuple[float, float], at_mm: tuple[float, float]
) -> tuple[tuple[float, float], ...]:
    """Force each fixing carries of a load in the plane of the panel: equal share plus the moment about the centroid.

    points_mm: centre points (x, y) [mm]
    force_n: the load (x, y) [N]
    at_mm: a point on the load's line of action (x, y) [mm]
    Returns: force (x, y) on each fixing, in the order of the points; they add up to the load [N]
    Raises: ValueError where one fixing alone is loaded off its centre: it cannot carry a moment in the plane.
    Source: elastic (vector) method, Fi = V/n + M x ri / sum r^2; Bhandari, Design of Machine Elements, ex 7.3, 7.4
    """
    cx, cy = centroid_mm(points_mm=points_mm)
    (fx, fy), (ax, ay) = force_n, at_mm
    finite(force_x_n=fx, force_y_n=fy, at_x_mm=ax, at_y_mm=ay)
    moment = (ax - cx) * fy - (ay - cy) * fx
    noise = _ROUND_OFF * (abs((ax - cx) * fy) + abs((ay - cy) * fx))
    spread = sum(dist(point, (cx, cy)) ** 2 for point in points_mm)
    turn = 0.0 if abs(moment) <= noise else _per_spread(moment, spread, at_mm)
    share = 1 / len(points_mm)
    return tuple((fx * share - turn * (y - cy), fy * share + turn * (x - cx)) for x, y in points_mm)


def _per_spread(moment: float, spread: float, at_mm: tuple[float, float]) -> float:
    if spread == 0:
        raise refuse("at_mm", at_mm, "in line with the fixing", "one fixing alone carries no moment in the plane")
    return moment / spread


def shear_magnitudes_n(*, forces_n: tuple[tuple[float, float], ...]) -> tuple[float, ...]:
    """Size of each in-plane force.

    forces_n: force (x, y) on each fixing [N]
    Returns: its size, in the same order [N]
    Raises: nothing.
    Source: statics
    """
    return tuple(hypot(fx, fy) for fx, fy in forces_n)


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


def tension_about_edge_n(
    *, points_mm: Points, pull_n: float, moment_nm: float, toward: tuple[float, float], edge_mm: float
) -> tuple[float, ...]:
    """Tension in each fixing where the item tips about its compression edge: share plus tilting.

    All rows stretch in proportion to their distance from the edge, so none is pressed. A load that pushes the item onto
    the panel is not credited: pass a pull of 0.

    points_mm: centre points (x, y) [mm]
    pull_n: load along the fixings, away from the panel [N]
    moment_nm: tilting moment [N·m]
    toward: direction (x, y) in the plane the item tips to; its length does not matter [-]
    edge_mm: distance from the centroid of the fixings to the compression edge, measured in that direction [mm]
    Returns: tension in each fixing, in the order of the points [N]
    Raises: ValueError for a pull or moment below 0, no direction, a fixing beyond the edge, or no lever arm.
    Source: Ti = P/n + M li / sum l^2; Bhandari, Design of Machine Elements, ex 7.5
    """
    not_negative(pull_n=pull_n, moment_nm=moment_nm)
    finite(edge_mm=edge_mm)
    arms = tuple(edge_mm + arm for arm in _arms(points_mm, toward))
    noise = _ROUND_OFF * max(edge_mm, _reach(points_mm))
    if min(arms) < -noise:
        raise refuse(
            "edge_mm", edge_mm, f"{edge_mm - min(arms)!r} or more", "a fixing lies beyond the last line of contact"
        )
    if moment_nm > 0:
        _require_lever(arms, noise, "edge_mm", edge_mm)
    return _tensions(pull_n, moment_nm, arms)


def tension_about_centroid_n(
    *, points_mm: Points, pull_n: float, moment_nm: float, toward: tuple[float, float]
) -> tuple[float, ...]:
    """Tension in each fixing where the item tips about the centroid of the fixings: share plus tilting.

    The safer option beside the compression edge. The pressed side keeps its direct share: the push it gets from tilting
    is taken by the contact of the parts and never lowers a fixing's tension.

    points_mm: centre points (x, y) [mm]
    pull_n: load along the fixings, away from the panel [N]
    moment_nm: tilting moment [N·m]
    toward: direction (x, y) in the plane the item tips to; its length does not matter [-]
    Returns: tension in each fixing, in the order of the points [N]
    Raises: ValueError for a pull or moment below 0, no direction, or no lever arm: one fixing, a row about itself.
    Source: Ti = P/n + M yi / sum y^2; AISC case II, neutral axis at the centroid (memory)
    """
    not_negative(pull_n=pull_n, moment_nm=moment_nm)
    arms = _arms(points_mm, toward)
    if moment_nm > 0:
        _require_lever(arms, _ROUND_OFF * _reach(points_mm), "points_mm", points_mm)
    return _tensions(pull_n, moment_nm, arms)


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
    if all(max(side) < foot_mm for side in sides):
        return 1 / on_foot
    first, second = (
        [on_foot] * len(side) if max(side) < foot_mm else [arm / sum(a * a for a in side) for arm in side]
        for side in sides
    )
    return 1 / max(hypot(one, other) for one, other in zip(first, second, strict=True))


def _principal_axis(centred: list[tuple[float, float]]) -> tuple[float, float]:
    """Direction of the axis along which the fixings spread most."""
    sxx, syy = sum(x * x for x, _ in centred), sum(y * y for _, y in centred)
    angle = atan2(2 * sum(x * y for x, y in centred), sxx - syy) / 2
    return cos(angle), sin(angle)


def _arms(points_mm: Points, toward: tuple[float, float]) -> tuple[float, ...]:
    """How far each fixing lies behind the centroid, seen in the direction of tipping."""
    ux, uy = toward
    finite(toward_x=ux, toward_y=uy)
    length = hypot(ux, uy)
    if length == 0:
        raise refuse("toward", toward, "other than (0, 0)", "tipping needs a direction")
    cx, cy = centroid_mm(points_mm=points_mm)
    return tuple(-((x - cx) * ux + (y - cy) * uy) / length for x, y in points_mm)


def _reach(points_mm: Points) -> float:
    centre = centroid_mm(points_mm=points_mm)
    return max(dist(point, centre) for point in points_mm)


def _require_lever(arms: tuple[float, ...], noise: float, name: str, value: object) -> None:
    if max(arms) <= noise:
        raise refuse(name, value, "clear of the tipping axis", "fixings on the axis they tip about have no lever arm")


def _tensions(pull_n: float, moment_nm: float, arms: tuple[float, ...]) -> tuple[float, ...]:
    share = pull_n / len(arms)
    if moment_nm == 0:
        return tuple(share for _ in arms)
    per_arm = moment_nm * 1000 / sum(arm * arm for arm in arms)
    return tuple(share + max(per_arm * arm, 0.0) for arm in arms)
