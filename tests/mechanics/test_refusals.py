"""What cannot be is refused, in one wording: parameter, value, bound and reason; never mended, never let through.

Which parameters may be nothing is typed from the docstrings: a load, a friction or an arm may be none; a size, a
strength, a factor or a count may not.
"""

import inspect
from collections.abc import Callable, Iterator
from math import inf, nan
from types import ModuleType
from typing import Any

import pytest

from fasten.geometry.patterns import circle, rectangle, row, spacing_mm
from fasten.mechanics import (
    bearing,
    board,
    faces,
    foam,
    galvanic,
    grounding,
    group,
    plastic,
    routing,
    screw,
    sheet,
    stripping,
    torque,
)

Equation = Callable[..., Any]
# the modules of pure equations; what takes a mount or the tables is none and is tested elsewhere
MODULES: tuple[ModuleType, ...] = (
    bearing,
    board,
    faces,
    foam,
    galvanic,
    group,
    grounding,
    plastic,
    routing,
    screw,
    sheet,
    stripping,
    torque,
)
SQUARE = rectangle(4, 200, 100)

# a possible value for each parameter name; where a function needs another one it stands in ASIDE
ORDINARY: dict[str, Any] = {
    "points_mm": SQUARE,
    "force_n": 100.0,
    "edge_mm": 60.0,
    "head_mm": 12.0,
    "washer_mm": 12.0,
    "hole_mm": 4.0,
    "thinner_mm": 0.8,
    "thicker_mm": 1.5,
    "load_share": 0.2,
    "fraction": 0.5,
    "ratio": 0.8,
    "share": 0.5,
    "film": 0.8,
    "heat": 0.9,
    "margin": 1.2,
    "gamma": 1.25,
    "penetration_mm": 60.0,
    "major_mm": 6.0,
    "pitch_mm": 1.0,
    "lead_in_pitches": 1.0,
    "density_kg_m3": 350.0,
    "internal_minor_max_mm": 5.153,
    "external_pitch_min_mm": 5.212,
    "external_major_min_mm": 5.794,
    "internal_pitch_max_mm": 5.5,
}
ASIDE: dict[str, dict[str, Any]] = {
    "boss_outer_mm": {"ratio": 2.0},
}


def equations() -> Iterator[Equation]:
    for module in MODULES:
        for name, function in inspect.getmembers(module, inspect.isfunction):
            if function.__module__ == module.__name__ and not name.startswith("_"):
                yield function


def ordinary(equation: Equation) -> dict[str, Any]:
    names = inspect.signature(equation).parameters
    return {name: ORDINARY.get(name, 5.0) for name in names} | ASIDE.get(equation.__name__, {})


NUMBERS = [
    pytest.param(equation, name, id=f"{equation.__name__}-{name}")
    for equation in equations()
    for name, value in ordinary(equation).items()
    if isinstance(value, int | float)
]


@pytest.mark.parametrize("equation", list(equations()), ids=lambda equation: equation.__name__)
def test_ordinary_values_are_taken(equation: Equation) -> None:
    """The values the refusals below start from are good ones, so that only the broken one can be at fault."""
    equation(**ordinary(equation))


@pytest.mark.parametrize("broken", [nan, inf, -1.0])
@pytest.mark.parametrize(("equation", "name"), NUMBERS)
def test_no_impossible_number_gets_through(equation: Equation, name: str, broken: float) -> None:
    """Neither what is no number, nor endless, nor negative, in any parameter of any equation; the refusal names it."""
    with pytest.raises(ValueError, match=f"{name} is {broken!r}; it must be .+: .+"):
        equation(**ordinary(equation) | {name: broken})


# loads, moments, frictions, spreads, shares and arms: none of it is a possible amount of it
MAY_BE_NONE = {
    "force_n", "pull_n", "shear_n", "tension_n", "height_mm", "friction", "load_share", "deflection_mpa",
    "lead_in_pitches", "end_mm", "first_v", "second_v", "steps", "driving_nm", "preload_n",
}  # fmt: skip
# the same words where they stand for a part's own strength, or for what is divided by
NEVER_NONE = {
    ("preload_against_slip_n", "friction"),
    ("magnet_pull_n", "pull_n"),
    ("magnet_slip_n", "pull_n"),
    ("magnet_slip_n", "friction"),
}
ALSO_NONE = {
    ("drop_at_full_mv", "drop_mv"),
    ("foam_force_n", "area_mm2"),
    ("rim_sag_mm", "pressure_mpa"),
    ("rim_sag_mm", "gap_mm"),
}


def may_be_none(equation: Equation, name: str) -> bool:
    key = (equation.__name__, name)
    return key in ALSO_NONE or (name in MAY_BE_NONE and key not in NEVER_NONE)


@pytest.mark.parametrize(("equation", "name"), NUMBERS)
def test_nothing_is_refused_where_it_describes_no_part_and_taken_where_it_does(equation: Equation, name: str) -> None:
    given = ordinary(equation) | {name: 0.0}
    if may_be_none(equation, name):
        equation(**given)
    else:
        with pytest.raises(ValueError, match=f"{name} is 0.0; it must be .+: .+"):
            equation(**given)


def test_every_word_that_may_be_none_is_met() -> None:
    assert {name for each in equations() for name in ordinary(each)} >= MAY_BE_NONE


@pytest.mark.parametrize("module", MODULES, ids=lambda module: module.__name__)
def test_every_module_is_tried(module: ModuleType) -> None:
    """An empty walk would refuse nothing and pass."""
    assert module.__name__ in {equation.__module__ for equation in equations()}


REFUSED: list[tuple[Equation, dict[str, Any], str]] = [
    (group.centroid_mm, {"points_mm": ()}, "fixings is 0; it must be 1 or more"),
    (group.centroid_mm, {"points_mm": ((1.0, 1.0), (1.0, 1.0))}, "two fixings cannot share one place"),
    (stripping.effective_engagement_mm, {"engagement_mm": 0.8, "pitch_mm": 0.8}, "must be above 0.8 .* no full thread"),
    (stripping.internal_shear_area_mm2, {"internal_pitch_max_mm": 7.0}, "internal_pitch_max_mm is 7.0.* meet"),
    (stripping.external_shear_area_mm2, {"internal_minor_max_mm": 6.2}, "internal_minor_max_mm is 6.2.* meet"),
    # crests that just touch: P/2 = 0.57735 x 1 mm
    (
        stripping.external_shear_area_mm2,
        {"pitch_mm": 2 * 0.57735, "internal_minor_max_mm": 6.0, "external_pitch_min_mm": 5.0},
        "internal_minor_max_mm is 6.0.* meet",
    ),
    (
        stripping.internal_shear_area_mm2,
        {"pitch_mm": 2 * 0.57735, "external_major_min_mm": 5.0, "internal_pitch_max_mm": 6.0},
        "internal_pitch_max_mm is 6.0.* meet",
    ),
    (bearing.ring_area_mm2, {"hole_mm": 12.0}, "hole_mm is 12.0; it must be below 12.0: the washer would fall"),
    (torque.preload_target_n, {"fraction": 1.1}, "stretches the screw for good"),
    (torque.torque_ceiling_nm, {"fraction": 1.0}, "nothing in hand"),
    (torque.torque_floor_nm, {"margin": 0.9}, "does not reach its seat"),
    (sheet.bearing_tapping_en_n, {"thicker_mm": 0.5}, "thicker_mm is 0.5; it must be 0.8 or more"),
    (sheet.bearing_bolt_en_n, {"bolt_mm": 8.0, "edge_mm": 4.0}, "break out of the edge"),
    (sheet.bearing_rivet_en_n, {"rivet_mm": 4.0, "edge_mm": 2.0}, "break out of the edge"),
    (sheet.pull_through_en_n, {"gamma": 0.9}, "gamma is 0.9; it must be 1.0 or more"),
    (screw.tension_en_n, {"gamma": 0.0}, "raise the resistance"),
    (board.screw_withdrawal_face_n, {"penetration_mm": 2.0, "major_mm": 6.0}, "holds nothing"),
    (plastic.thread_cylinder_mm, {"major_mm": 4.0, "hole_mm": 4.0}, "would not touch its hole"),
    (plastic.boss_hole_mm, {"ratio": 1.0}, "lets no thread form"),
    (plastic.boss_outer_mm, {"ratio": 1.0}, "has no wall"),
    (plastic.hot_yield_mpa, {"fraction": 1.1}, "does not strengthen"),
    (bearing.ring_area_mm2, {"washer_mm": 9.0, "hole_mm": 9.0}, "hole_mm is 9.0; it must be below 9.0"),
    (stripping.external_shear_area_mm2, {"internal_minor_max_mm": 6.0, "external_pitch_min_mm": 0.1}, "meet"),
    (sheet.bearing_bolt_en_n, {"bolt_mm": 8.0, "edge_mm": 4.0}, "edge_mm is 4.0; it must be above 4.0"),
    (faces.hook_load_n, {"share": 1.01}, "share is 1.01; it must be 1.0 or less: wear adds no hooks"),
    (faces.hot_bond_mpa, {"share": 1.01}, "heat strengthens no cured bond"),
    (faces.magnet_pull_n, {"film": 1.01}, "film is 1.01; .* neither film nor heat"),
    (faces.magnet_pull_n, {"heat": 1.01}, "heat is 1.01; .* neither film nor heat"),
    (faces.base_torsion_nm, {"share": 1.01}, "no more area than its disc"),
    (board.embedment_wood_mpa, {"screw_mm": 99.5}, "screw_mm is 99.5; it must be 99.0 or less"),
    (group.centroid_mm, {"points_mm": ((float("inf"), 0.0),)}, "x_mm is inf"),
    (group.centroid_mm, {"points_mm": ((0.0, float("nan")),)}, "y_mm is nan"),
]


@pytest.mark.parametrize(("equation", "changed", "message"), REFUSED)
def test_impossible_is_refused_with_its_reason(equation: Equation, changed: dict[str, Any], message: str) -> None:
    """Each impossible joint is refused for its own reason."""
    with pytest.raises(ValueError, match=message):
        equation(**ordinary(equation) | changed)


@pytest.mark.parametrize(
    ("pattern", "message"),
    [
        (lambda: circle(1, 100), "count is 1; it must be 2 or more and finite: one fixing makes no circle"),
        (lambda: circle(4, 0), "diameter_mm is 0; it must be above 0"),
        (lambda: rectangle(1, 100, 50), "count is 1; .* two ends of a diagonal"),
        (lambda: rectangle(5, 100, 50), "count is 5; it must be even"),
        (lambda: rectangle(4, 100, 0), "width_mm is 0; it must be above 0"),
        (lambda: row(0, 50), "count is 0; it must be 1 or more"),
        (lambda: row(2, -50), "pitch_mm is -50; it must be above 0"),
        (lambda: spacing_mm(((0.0, 0.0),)), "one fixing has no spacing"),
    ],
)
def test_impossible_pattern_is_refused(pattern: Callable[[], object], message: str) -> None:
    """A pattern that cannot be drilled is refused."""
    with pytest.raises(ValueError, match=message):
        pattern()
