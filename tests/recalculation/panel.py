"""How fast an item sways on its panel, or what mass practice puts there: from one check and its mount point.

Each gives (demand, allowable), as in `comparing`; nothing stands for what is not decided.
"""

import math
from typing import Any

from recalculation.loads import places
from recalculation.reading import Line

Sides = tuple[float, float | None]
Point = tuple[float, float]
_TERMS = 121  # of a series in one direction


def hertz(k_n_per_mm: float, mass_kg: float) -> float:
    """Source: one mass on a spring."""
    return math.sqrt(1000 * k_n_per_mm / mass_kg) / (2 * math.pi)


def sides(line: Line, mount: dict[str, Any]) -> Sides:
    """The mass against that of the practice rule, or 25 Hz (common practice) against what is there."""
    if line.raw["unit"] == "kg":
        return line.one("mass on the panel"), _practice_kg(line)
    return 25.0, _least_hz(line, mount)


def _practice_kg(line: Line) -> float:
    """Source: common practice; a plate's stiffness goes by the cube of its thickness."""
    if not line.has("mass of the rule"):
        return 0.0
    base = line.one("mass of the rule")
    if line.has("bending stiffness"):
        plate = line.one("modulus") * line.one("sheet") ** 3 / (12 * (1 - line.one("Poisson's ratio") ** 2))
        steel = 205_000 * 0.8**3 / (12 * (1 - 0.3**2))
        return min(base * plate / steel, line.one("most"))
    if line.has("depth of the beads"):
        return base * (line.one("sheet") / 0.8) ** 3 if line.one("depth of the beads") >= 8 else 0.0
    if line.has("board of the rule"):
        stiffer = line.one("modulus over that of the rule") * (line.one("board") / 12.0) ** 3
        return min(base * stiffer, line.one("most"))
    return base


def _least_hz(line: Line, mount: dict[str, Any]) -> float:
    if line.has("tapped"):
        return line.one("tapped") - line.one("error")
    mass_kg = line.one("mass on the panel")
    if line.has("short side"):
        return _in_bay(line, mount, mass_kg)
    if line.has("first push"):
        stiffness = 0.8 * _two(line)
    elif line.has("span"):
        # Source: beam theory, 48 E I/L^3, as wide as it is long.
        span = line.one("span")
        stiffness = 48 * line.one("modulus") * span * line.one("board") ** 3 / 12 / span**3
    else:
        stiffness = _one(line)
    return hertz(stiffness, mass_kg) * line.maybe("rocking over bounce", 1.0)


def _one(line: Line) -> float:
    """Source: a plate's own stiffness is left once what it gains by stretching is taken off, 1 + 1.43 (w/t)^2."""
    moved = line.one("moved") + 0.05
    secant = 0.8 * line.one("push") / moved
    return secant / (1 + 1.43 * (moved / line.one("sheet")) ** 2) if line.has("sheet") else secant


def _two(line: Line) -> float:
    """The start of F = k w + c w^3 through both. Source: algebra, by the determinant of the two equations."""
    f1, w1, f2, w2 = (line.one(name) for name in ("first push", "first moved", "second push", "second moved"))
    return (f1 * w2**3 - f2 * w1**3) / (w1 * w2**3 - w2 * w1**3)


def sink(at: Point, under: Point, short: float, long: float) -> float:
    """How far a simply supported plate sinks at one point under a unit load at another, times D.

    Source: Levy's form of the point load (single series, Timoshenko and Woinowsky-Krieger art. 34 solved strip by
    strip): in the strip m, w'''' - 2 a^2 w'' + a^4 w = load, with w and w'' nothing at both ends.
    """
    (x, y), (u, v) = (((p + short / 2), (q + long / 2)) for p, q in (at, under))
    near, far = min(y, v), long - max(y, v)
    total = 0.0
    for m in range(1, _TERMS):
        a = m * math.pi / short
        total += math.sin(a * x) * math.sin(a * u) * _strip(a, near, far, long)
    return 2 / short * total


def _strip(a: float, near: float, far: float, long: float) -> float:
    """Green's function of (d²/dy² - a²)² between ends that carry neither sink nor moment.

    g = sinh(a n) sinh(a f)/(a sinh(a L)) is that of -(d²/dy² - a²); the square's is -dg/d(a²).
    Source: differentiation with respect to a².
    """

    def log_g(alpha: float) -> float:
        def log_sinh(value: float) -> float:
            return value + math.log(-math.expm1(-2 * value) / 2)

        return log_sinh(alpha * near) + log_sinh(alpha * far) - log_sinh(alpha * long) - math.log(alpha)

    def coth(value: float) -> float:
        return 1 / math.tanh(value)

    slope = near * coth(a * near) + far * coth(a * far) - long * coth(a * long) - 1 / a
    return -math.exp(log_g(a)) * slope / (2 * a)


def _in_bay(line: Line, mount: dict[str, Any], mass_kg: float) -> float:
    short, long = line.one("short side"), line.one("long side")
    plate = line.one("modulus") * line.one("sheet") ** 3 / (12 * (1 - line.one("Poisson's ratio") ** 2))
    pattern = mount["pattern"]["value"]
    points = (
        places(pattern["kind"], pattern["a_mm"], pattern["b_mm"], mount["fixings"]["value"])
        if pattern
        else [(0.0, 0.0)]
    )
    if _wide(points, 0) > _wide(points, 1):
        points = [(y, x) for x, y in points]
    matrix = [[sink(p, q, short, long) for q in points] for p in points]
    found = [hertz(plate * _reaction(matrix, [1.0] * len(points), [1.0] * len(points)), mass_kg)]
    for axis in (0, 1):
        arms = [point[axis] for point in points]
        if (length := _wide(points, axis)) > 0:
            tilt = plate * _reaction(matrix, arms, arms)
            inertia = mass_kg * (length**2 / 12 + 4 * mount["cg_mm"]["value"] ** 2 / 3)
            found.append(math.sqrt(1000 * tilt / inertia) / (2 * math.pi))
    return min(found)


def _wide(points: list[Point], axis: int) -> float:
    return max(point[axis] for point in points) - min(point[axis] for point in points)


def _reaction(matrix: list[list[float]], sunk: list[float], arms: list[float]) -> float:
    """arms' C^-1 sunk, by conjugate gradients. Source: Hestenes and Stiefel."""
    x, residual = [0.0] * len(sunk), list(sunk)
    step, square = list(residual), sum(r * r for r in residual)
    for _ in range(3 * len(sunk)):
        image = [sum(c * s for c, s in zip(row, step, strict=True)) for row in matrix]
        share = square / sum(s * i for s, i in zip(step, image, strict=True))
        x = [value + share * s for value, s in zip(x, step, strict=True)]
        residual = [r - share * i for r, i in zip(residual, image, strict=True)]
        after = sum(r * r for r in residual)
        if after <= 1e-24 * sum(s * s for s in sunk):
            break
        step, square = [r + after / square * s for r, s in zip(residual, step, strict=True)], after
    return sum(a * value for a, value in zip(arms, x, strict=True))
