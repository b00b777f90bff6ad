"""An item on a thin panel: how stiff the panel is under it, how fast it sways there, and what dents it.

A panel held at the edges of a free bay is the soft bound, a panel clamped there the stiff one.
"""

from functools import lru_cache
from math import pi, sin, sqrt

from fasten.require import Points, above, at_least, below, not_negative, positive, refuse

_TERMS = 80  # of the series in each direction: a tenth of a percent
_MEMBRANE = 1.43  # of a simply supported square whose edges cannot move in its plane
_N_PER_MM = 1000.0  # N/m


def plate_rigidity_nmm(*, youngs_mpa: float, poisson: float, thickness_mm: float) -> float:
    """Bending stiffness of a plate a unit of width, D.

    youngs_mpa: modulus of elasticity [MPa]
    poisson: Poisson's ratio [-]
    thickness_mm: thickness [mm]
    Returns: D = E t^3 / (12 (1 - nu^2)) [N·mm]
    Raises: ValueError for a value not above 0, or a ratio of 0.5 and up.
    Source: theory of plates; Timoshenko and Woinowsky-Krieger, Theory of Plates and Shells
    """
    positive(youngs_mpa=youngs_mpa, poisson=poisson, thickness_mm=thickness_mm)
    below(0.5, "nothing grows thicker as it is pulled", poisson=poisson)
    return youngs_mpa * thickness_mm**3 / (12 * (1 - poisson**2))


def mounted_frequency_hz(*, stiffness_n_per_mm: float, mass_kg: float) -> float:
    """Natural frequency of an item on its panel, the mass of the panel left out.

    stiffness_n_per_mm: stiffness of the panel under the item [N/mm]
    mass_kg: mass of the item [kg]
    Returns: frequency [Hz]
    Raises: ValueError for a mass not above 0, or a stiffness below 0.
    Source: one mass on a spring, f = sqrt(k/m)/(2 pi)
    """
    not_negative(stiffness_n_per_mm=stiffness_n_per_mm)
    positive(mass_kg=mass_kg)
    return sqrt(_N_PER_MM * stiffness_n_per_mm / mass_kg) / (2 * pi)


def needed_n_per_mm(*, mass_kg: float, frequency_hz: float) -> float:
    """Stiffness that a mass needs to sway no slower than a frequency: 24.7 N/mm a kilogram at 25 Hz.

    mass_kg: mass of the item [kg]
    frequency_hz: least frequency [Hz]
    Returns: stiffness [N/mm]
    Raises: ValueError for a value not above 0.
    Source: one mass on a spring, k = m (2 pi f)^2
    """
    positive(mass_kg=mass_kg, frequency_hz=frequency_hz)
    return mass_kg * (2 * pi * frequency_hz) ** 2 / _N_PER_MM


def rocking_frequency_hz(*, tilt_nmm_per_rad: float, mass_kg: float, length_mm: float, cg_mm: float) -> float:
    """Natural frequency of an item that rocks on its panel: a block as long as its pattern, twice as high as its cg.

    tilt_nmm_per_rad: stiffness of the panel against tilting [N·mm/rad]
    mass_kg: mass of the item [kg]
    length_mm: length of the pattern in the direction of rocking [mm]
    cg_mm: height of the centre of gravity over the panel [mm]
    Returns: frequency [Hz]
    Raises: ValueError for a mass or height not above 0, or another value below 0.
    Source: f = sqrt(k/I)/(2 pi), I = m (L^2/12 + 4 h^2/3) of a block about its foot
    """
    not_negative(tilt_nmm_per_rad=tilt_nmm_per_rad, length_mm=length_mm)
    positive(mass_kg=mass_kg, cg_mm=cg_mm)
    inertia = mass_kg * (length_mm**2 / 12 + 4 * cg_mm**2 / 3)
    return sqrt(_N_PER_MM * tilt_nmm_per_rad / inertia) / (2 * pi)


def bay_n_per_mm(*, points_mm: Points, short_mm: float, long_mm: float, rigidity_nmm: float) -> float:
    """Stiffness of a free bay with simply supported edges under a rigid item, in its middle.

    points_mm: fixings about the middle of the bay, x along its short side, y along its long side [mm]
    short_mm: short side of the bay [mm]
    long_mm: long side of the bay [mm]
    rigidity_nmm: bending stiffness D of the panel [N·mm]
    Returns: force a millimetre that the item sinks [N/mm]
    Raises: ValueError for a size not above 0, a short side over the long one, or a fixing outside the bay.
    Source: Navier's series for the compliance at the fixings, 1' C^-1 1; Timoshenko and Woinowsky-Krieger ch. 5
    """
    forces = _forces(points_mm, short_mm, long_mm, (1.0,) * len(points_mm))
    return rigidity_nmm * sum(forces)


def bay_tilt_nmm_per_rad(
    *, points_mm: Points, short_mm: float, long_mm: float, rigidity_nmm: float
) -> tuple[float, float]:
    """Stiffness of the same bay against an item that tilts along its short side, and along its long one.

    points_mm: fixings about the middle of the bay, x along its short side, y along its long side [mm]
    short_mm: short side of the bay [mm]
    long_mm: long side of the bay [mm]
    rigidity_nmm: bending stiffness D of the panel [N·mm]
    Returns: moment a radian, along the short and the long side; 0 where all fixings lie on the axis [N·mm/rad]
    Raises: ValueError for a size not above 0, a short side over the long one, or a fixing outside the bay.
    Source: Navier's series for the compliance at the fixings, x' C^-1 x
    """
    arms = tuple(zip(*points_mm, strict=True))
    found = (_forces(points_mm, short_mm, long_mm, arm) for arm in arms)
    short, long = (
        sum(f * x for f, x in zip(forces, arm, strict=True)) for forces, arm in zip(found, arms, strict=True)
    )
    return rigidity_nmm * short, rigidity_nmm * long


def _forces(points_mm: Points, short_mm: float, long_mm: float, sink: tuple[float, ...]) -> list[float]:
    """Forces on the fixings, over D, that sink them so far."""
    positive(short_mm=short_mm, long_mm=long_mm)
    at_least(short_mm, "the long side is no shorter than the short one", long_mm=long_mm)
    return _solved([list(row) for row in _compliance(points_mm, short_mm, long_mm)], list(sink))


@lru_cache(maxsize=64)
def _compliance(points_mm: Points, short_mm: float, long_mm: float) -> tuple[tuple[float, ...], ...]:
    """How far each fixing sinks under a force on each, times D, by Navier's series."""
    for x, y in points_mm:
        if not (2 * abs(x) < short_mm and 2 * abs(y) < long_mm):
            raise refuse("points_mm", (x, y), "inside the bay", "a fixing on the edge of the bay is on what holds it")
    orders = range(1, _TERMS + 1)
    across = [[sin(m * pi * (x / short_mm + 0.5)) for m in orders] for x, _ in points_mm]
    along = [[sin(n * pi * (y / long_mm + 0.5)) for n in orders] for _, y in points_mm]
    weights = [[1 / ((m / short_mm) ** 2 + (n / long_mm) ** 2) ** 2 for n in orders] for m in orders]
    scale = 4 / (pi**4 * short_mm * long_mm)

    def entry(i: int, j: int) -> float:
        both = [a * b for a, b in zip(along[i], along[j], strict=True)]
        inner = (sum(map(float.__mul__, both, row)) for row in weights)
        return scale * sum(a * b * one for a, b, one in zip(across[i], across[j], inner, strict=True))

    found: dict[tuple[float, ...], float] = {}  # pairs that mirror each other sink alike: most of a pattern does
    for i, first in enumerate(points_mm):
        for j, other in enumerate(points_mm):
            key = _mirrored(first, other)
            if key not in found:
                found[key] = entry(i, j)
    return tuple(tuple(found[_mirrored(first, other)] for other in points_mm) for first in points_mm)


def _mirrored(first: tuple[float, float], other: tuple[float, float]) -> tuple[float, ...]:
    """One name for all pairs of points that are the same but for the side of the bay they are on, or their order."""
    both = ((first, other), (other, first))
    return min(tuple(value for a, b in zip(*pair, strict=True) for value in _same_side(a, b)) for pair in both)


def _same_side(first: float, other: float) -> tuple[float, float]:
    return (first, other) if first >= 0 else (-first, -other)


def _solved(matrix: list[list[float]], right: list[float]) -> list[float]:
    """The solution of a symmetric, positive system, by elimination."""
    for at, pivot in enumerate(matrix):
        for under in range(at + 1, len(matrix)):
            ratio = matrix[under][at] / pivot[at]
            matrix[under] = [value - ratio * over for value, over in zip(matrix[under], pivot, strict=True)]
            right[under] -= ratio * right[at]
    found = right
    for at in reversed(range(len(matrix))):
        known = sum(matrix[at][after] * found[after] for after in range(at + 1, len(matrix)))
        found[at] = (right[at] - known) / matrix[at][at]
    return found


def pushed_low_n_per_mm(
    *, force_n: float, moved_mm: float, force_error_n: float, reading_error_mm: float, thickness_mm: float
) -> float:
    """Least stiffness that one push by hand shows: its errors against it, and what the sheet gains as it stretches.

    force_n: the push [N]
    moved_mm: how far the panel went [mm]
    force_error_n: what the force may be off by [N]
    reading_error_mm: what the reading may be off by [mm]
    thickness_mm: thickness of the sheet [mm]
    Returns: stiffness for a small load, at least [N/mm]
    Raises: ValueError for a thickness not above 0, an error below 0, or a force no larger than its error.
    Source: membrane term of a plate with fixed edges, Timoshenko and Woinowsky-Krieger ch. 13 (coefficient from memory)
    """
    not_negative(force_error_n=force_error_n, reading_error_mm=reading_error_mm, moved_mm=moved_mm)
    above(force_error_n, "a push that its error may swallow shows nothing", force_n=force_n)
    positive(thickness_mm=thickness_mm)
    most_mm = moved_mm + reading_error_mm
    positive(most_mm=most_mm)
    return _stretching_n_per_mm(force_n - force_error_n, most_mm, thickness_mm)


def _stretching_n_per_mm(force_n: float, moved_mm: float, thickness_mm: float) -> float:
    return force_n / moved_mm / (1 + _MEMBRANE * (moved_mm / thickness_mm) ** 2)


def pushed_high_n_per_mm(*, force_n: float, moved_mm: float, force_error_n: float, reading_error_mm: float) -> float:
    """Greatest stiffness that one push by hand allows for.

    force_n: the push [N]
    moved_mm: how far the panel went [mm]
    force_error_n: what the force may be off by [N]
    reading_error_mm: what the reading may be off by [mm]
    Returns: stiffness for a small load, at most [N/mm]
    Raises: ValueError for a force not above 0, an error below 0, or a reading no larger than its error.
    Source: k = F/w with both errors for it
    """
    positive(force_n=force_n)
    not_negative(force_error_n=force_error_n, reading_error_mm=reading_error_mm)
    above(reading_error_mm, "a reading that its error may swallow gives no upper bound", moved_mm=moved_mm)
    return (force_n + force_error_n) / (moved_mm - reading_error_mm)


def push_limit_mm(
    *, force_n: float, force_error_n: float, reading_error_mm: float, thickness_mm: float, needed_n_per_mm: float
) -> float:
    """How far a push may move the panel at most, as it is read, for the panel to be surely stiff enough.

    force_n: the push [N]
    force_error_n: what the force may be off by [N]
    reading_error_mm: what the reading may be off by [mm]
    thickness_mm: thickness of the sheet [mm]
    needed_n_per_mm: stiffness wanted [N/mm]
    Returns: the reading, below 0 where no reading shows it [mm]
    Raises: ValueError for a value not above 0, or a force no larger than its error.
    Source: (F - uF)/(x + ux)/(1 + 1.43 ((x + ux)/t)^2) = k, solved for x by halving
    """
    positive(needed_n_per_mm=needed_n_per_mm, thickness_mm=thickness_mm)
    not_negative(force_error_n=force_error_n)
    above(force_error_n, "a push that its error may swallow shows nothing", force_n=force_n)
    surely_n = force_n - force_error_n
    low, high = 0.0, surely_n / needed_n_per_mm
    for _ in range(60):
        middle = (low + high) / 2
        holds = _stretching_n_per_mm(surely_n, middle, thickness_mm) >= needed_n_per_mm
        low, high = (middle, high) if holds else (low, middle)
    return low - reading_error_mm


def two_pushes_n_per_mm(*, first_n: float, first_mm: float, second_n: float, second_mm: float) -> float:
    """Stiffness for a small load from two pushes, the second the larger: F = k0 w + c w^3.

    first_n: the smaller push [N]
    first_mm: how far it moved the panel [mm]
    second_n: the larger push [N]
    second_mm: how far it moved the panel [mm]
    Returns: k0, below 0 where no such curve goes through both [N/mm]
    Raises: ValueError for a value not above 0, or a second reading no larger than the first.
    Source: algebra on the load-deflection curve of a plate, Timoshenko and Woinowsky-Krieger ch. 13
    """
    positive(first_n=first_n, first_mm=first_mm, second_n=second_n)
    above(first_mm, "the larger push moves the panel further", second_mm=second_mm)
    first, second = first_n / first_mm, second_n / second_mm
    return (first * second_mm**2 - second * first_mm**2) / (second_mm**2 - first_mm**2)


def dent_load_n(*, yield_mpa: float, thickness_mm: float, foot_mm: float, reach_mm: float) -> float:
    """Pull on a fixing at which the sheet about it yields for good.

    yield_mpa: yield strength of the sheet [MPa]
    thickness_mm: thickness of the sheet [mm]
    foot_mm: radius of what bears on it, flange or washer [mm]
    reach_mm: radius within which nothing holds the sheet [mm]
    Returns: plastic collapse load [N]
    Raises: ValueError for a value not above 0, or a foot no smaller than the reach.
    Source: Hopkins and Prager, limit load of a circular plate under a central ring load, Tresca (read once)
    """
    positive(yield_mpa=yield_mpa, thickness_mm=thickness_mm, foot_mm=foot_mm)
    above(foot_mm, "a foot that reaches what holds the sheet does not dent it", reach_mm=reach_mm)
    return 6 * pi * yield_mpa * thickness_mm**2 / 4 / (3 - 2 * foot_mm / reach_mm)


def bonded_ratio(*, sheet_mm: float, doubler_mm: float) -> float:
    """How much stiffer a sheet bends with a doubler that is bonded to it over its whole face.

    sheet_mm: thickness of the sheet [mm]
    doubler_mm: thickness of the doubler, of the same metal [mm]
    Returns: ((t + td)/t)^3 [-]
    Raises: ValueError for a thickness not above 0.
    Source: theory of plates, both as one
    """
    positive(sheet_mm=sheet_mm, doubler_mm=doubler_mm)
    return ((sheet_mm + doubler_mm) / sheet_mm) ** 3


def riveted_ratio(*, sheet_mm: float, doubler_mm: float) -> float:
    """How much stiffer a sheet bends with a doubler that is riveted to it, which slides and bends by itself.

    sheet_mm: thickness of the sheet [mm]
    doubler_mm: thickness of the doubler, of the same metal [mm]
    Returns: 1 + (td/t)^3 [-]
    Raises: ValueError for a thickness not above 0.
    Source: theory of plates, two side by side
    """
    positive(sheet_mm=sheet_mm, doubler_mm=doubler_mm)
    return 1 + (doubler_mm / sheet_mm) ** 3


def rails_n_per_mm(*, inertia_mm4: float, span_mm: float, rails: int, youngs_mpa: float) -> float:
    """Stiffness under an item at the middle of several rails, their ends free to turn.

    inertia_mm4: second moment of area of one rail [mm⁴]
    span_mm: span between what carries the rails [mm]
    rails: number of rails [-]
    youngs_mpa: modulus of elasticity of a rail [MPa]
    Returns: k = n 48 E I/L^3 [N/mm]
    Raises: ValueError for a value not above 0, or no rail.
    Source: beam theory
    """
    positive(inertia_mm4=inertia_mm4, span_mm=span_mm, youngs_mpa=youngs_mpa)
    at_least(1, "without a rail nothing carries", rails=rails)
    return rails * 48 * youngs_mpa * inertia_mm4 / span_mm**3


def tube_inertia_mm4(*, side_mm: float, wall_mm: float) -> float:
    """Second moment of area of a square tube, its corners taken as sharp.

    side_mm: outer side [mm]
    wall_mm: wall [mm]
    Returns: I = (b^4 - (b - 2 t)^4)/12 [mm⁴]
    Raises: ValueError for a value not above 0, or walls that meet.
    Source: statics
    """
    positive(side_mm=side_mm, wall_mm=wall_mm)
    above(2 * wall_mm, "the walls of a tube do not meet", side_mm=side_mm)
    return (side_mm**4 - (side_mm - 2 * wall_mm) ** 4) / 12


def floor_n_per_mm(*, youngs_mpa: float, thickness_mm: float, width_mm: float, span_mm: float) -> float:
    """Stiffness of a board floor on two battens under an item at the middle, as a point.

    youngs_mpa: modulus of elasticity of the board [MPa]
    thickness_mm: thickness of the board [mm]
    width_mm: width of the board that carries, at most the span [mm]
    span_mm: span between the battens [mm]
    Returns: k = 48 E B t^3/(12 L^3) [N/mm]
    Raises: ValueError for a value not above 0.
    Source: beam theory; finite elements give 0.96 of it
    """
    positive(youngs_mpa=youngs_mpa, thickness_mm=thickness_mm, width_mm=width_mm, span_mm=span_mm)
    return 48 * youngs_mpa * min(width_mm, span_mm) * thickness_mm**3 / (12 * span_mm**3)


def floor_foot_ratio(*, span_mm: float, foot_mm: float) -> float:
    """How much stiffer a board floor is under a rigid foot than under a point, at most.

    span_mm: span between the battens [mm]
    foot_mm: length of the foot along the span [mm]
    Returns: ratio, from 0.8 up to 2.7 [-]
    Raises: ValueError for a span not above 0, a foot below 0, or one that reaches from batten to batten.
    Source: beam theory, held to what finite elements give for a 200 mm foot on 600 mm
    """
    positive(span_mm=span_mm)
    not_negative(foot_mm=foot_mm)
    below(span_mm, "a foot that reaches the battens stands on them", foot_mm=foot_mm)
    return min(0.8 * (span_mm / (span_mm - foot_mm)) ** 3, 2.7)
