"""What must hold for any sheet and any group of fixings, whatever the figures."""

from collections.abc import Callable
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fasten.mechanics.group import in_plane_forces_n, shear_magnitudes_n, tension_about_centroid_n, tension_about_edge_n
from fasten.mechanics.sheet import (
    bearing_bolt_en_n,
    bearing_rivet_en_n,
    bearing_tapping_en_n,
    edge_tear_out_n,
    pull_out_aisi_n,
    pull_out_aisi_newer_n,
    pull_out_aluminium_n,
    pull_out_en_n,
    pull_over_aisi_n,
    pull_over_aisi_newer_n,
    pull_through_en_n,
    shear_aisi_n,
    spin_out_nm,
)

SHEETS = st.floats(0.3, 6.0)
STRENGTHS = st.floats(150.0, 600.0)
ROUND_OFF = 1 + 1e-9


def alike_aisi_n(sheet: float, mpa: float) -> float:
    return shear_aisi_n(
        head_sheet_mm=sheet, thread_sheet_mm=sheet, major_mm=4.2, head_ultimate_mpa=mpa, thread_ultimate_mpa=mpa
    )


def base_aisi_n(sheet: float, mpa: float) -> float:
    return shear_aisi_n(
        head_sheet_mm=0.8, thread_sheet_mm=sheet, major_mm=4.2, head_ultimate_mpa=mpa, thread_ultimate_mpa=mpa
    )


def alike_en_n(sheet: float, mpa: float) -> float:
    return bearing_tapping_en_n(thinner_mm=sheet, thicker_mm=sheet, major_mm=4.2, sheet_ultimate_mpa=mpa, gamma=1.25)


def rivet_n(sheet: float, mpa: float) -> float:
    return bearing_rivet_en_n(
        thinner_mm=sheet, thicker_mm=sheet, rivet_mm=4.0, edge_mm=12.0, sheet_ultimate_mpa=mpa, gamma=1.25
    )


CAPACITIES: dict[str, Callable[[float, float], float]] = {
    "pull-out, older": lambda t, f: pull_out_aisi_n(sheet_mm=t, major_mm=4.2, sheet_ultimate_mpa=f),
    "pull-out, newer": lambda t, f: pull_out_aisi_newer_n(sheet_mm=t, major_mm=4.2, sheet_ultimate_mpa=f),
    "pull-over, older": lambda t, f: pull_over_aisi_n(sheet_mm=t, head_mm=8.0, sheet_ultimate_mpa=f),
    "pull-over, newer": lambda t, f: pull_over_aisi_newer_n(sheet_mm=t, head_mm=8.0, sheet_ultimate_mpa=f),
    "shear, sheets alike": alike_aisi_n,
    "shear, sheet under it": base_aisi_n,
    "EN bearing, sheets alike": alike_en_n,
    "EN pull-out": lambda t, f: pull_out_en_n(sheet_mm=t, major_mm=4.2, pitch_mm=1.4, sheet_ultimate_mpa=f, gamma=1.25),
    "EN pull-through": lambda t, f: pull_through_en_n(sheet_mm=t, head_mm=16.0, sheet_ultimate_mpa=f, gamma=1.25),
    "bolt": lambda t, f: bearing_bolt_en_n(sheet_mm=t, bolt_mm=7.0, edge_mm=20.0, sheet_ultimate_mpa=f, gamma=1.25),
    "blind rivet": rivet_n,
    "aluminium": lambda t, f: pull_out_aluminium_n(sheet_mm=t, major_mm=5.5, sheet_ultimate_mpa=f, gamma=1.25),
    "tear-out": lambda t, f: edge_tear_out_n(sheet_mm=t, edge_mm=20.0, hole_mm=7.0, shear_strength_mpa=f),
    "spin-out": lambda t, _: spin_out_nm(tested_nm=2.4, tested_sheet_mm=0.76, sheet_mm=t),
}


@pytest.mark.slow
@pytest.mark.parametrize("capacity", CAPACITIES.values(), ids=CAPACITIES.keys())
@given(first=SHEETS, second=SHEETS, strength=STRENGTHS)
def test_thicker_sheet_never_holds_less(
    capacity: Callable[[float, float], float], first: float, second: float, strength: float
) -> None:
    """More sheet is never weaker; a thicker head sheet alone is left out: AISI interpolates it a little down."""
    thin, thick = sorted((first, second))
    assert capacity(thin, strength) <= capacity(thick, strength) * ROUND_OFF


# whole millimetres, all different: real holes never lie a rounding error apart
POINTS = st.lists(st.tuples(st.integers(-300, 300), st.integers(-300, 300)), min_size=2, max_size=8, unique=True).map(
    lambda found: tuple((float(x), float(y)) for x, y in found)
)
FORCES = st.tuples(st.floats(-5_000, 5_000), st.floats(-5_000, 5_000))
PLACES = st.tuples(st.floats(-400, 400), st.floats(-400, 400))


@pytest.mark.slow
@given(points=POINTS, force=FORCES, at=PLACES)
def test_in_plane_forces_balance_the_load(
    points: tuple[tuple[float, float], ...], force: tuple[float, float], at: tuple[float, float]
) -> None:
    """The forces add up to the load, and their moment about the origin to the load's."""
    got = in_plane_forces_n(points_mm=points, force_n=force, at_mm=at)
    assert sum(fx for fx, _ in got) == pytest.approx(force[0], abs=1e-6)
    assert sum(fy for _, fy in got) == pytest.approx(force[1], abs=1e-6)
    moment = sum(x * fy - y * fx for (x, y), (fx, fy) in zip(points, got, strict=True))
    # a million times finer than the load; the group itself forgives 1e-9 of a moment as round-off
    assert moment == pytest.approx(at[0] * force[1] - at[1] * force[0], rel=1e-6, abs=0.01)


@given(points=POINTS, force=FORCES, at=PLACES, shuffle=st.randoms(use_true_random=False))
def test_order_of_fixings_does_not_matter(
    points: tuple[tuple[float, float], ...],
    force: tuple[float, float],
    at: tuple[float, float],
    shuffle: Random,
) -> None:
    """The same holes listed otherwise carry the same set of forces."""
    other = list(points)
    shuffle.shuffle(other)
    sizes = [
        sorted(shear_magnitudes_n(forces_n=in_plane_forces_n(points_mm=group, force_n=force, at_mm=at)))
        for group in (points, tuple(other))
    ]
    assert sizes[0] == pytest.approx(sizes[1], rel=1e-6, abs=1e-6)


HALVES = st.tuples(st.floats(20, 300), st.floats(20, 300))


@given(half=HALVES, pull=st.floats(0, 5_000), moment=st.floats(0.1, 2_000), beyond=st.floats(0, 200))
def test_tension_about_the_edge_balances(half: tuple[float, float], pull: float, moment: float, beyond: float) -> None:
    """What tilting adds to the equal shares has, about the edge, exactly the tilting moment."""
    x, y = half
    points = ((-x, -y), (x, -y), (x, y), (-x, y))
    got = tension_about_edge_n(points_mm=points, pull_n=pull, moment_nm=moment, toward=(0, -1), edge_mm=y + beyond)
    arms = [place + y + beyond for _, place in points]
    added = sum((each - pull / 4) * arm for each, arm in zip(got, arms, strict=True))
    assert added == pytest.approx(moment * 1_000, rel=1e-6)


@given(half=HALVES, pull=st.floats(0, 5_000), moment=st.floats(0.1, 2_000))
def test_centroid_is_never_below_the_outermost_row_as_edge(
    half: tuple[float, float], pull: float, moment: float
) -> None:
    """On a rectangle, tilting about the centroid asks at least as much of the worst fixing as about its near row."""
    x, y = half
    points = ((-x, -y), (x, -y), (x, y), (-x, y))
    about_edge = tension_about_edge_n(points_mm=points, pull_n=pull, moment_nm=moment, toward=(0, -1), edge_mm=y)
    about_centroid = tension_about_centroid_n(points_mm=points, pull_n=pull, moment_nm=moment, toward=(0, -1))
    assert max(about_centroid) >= max(about_edge) / ROUND_OFF


def test_one_fixing_carries_no_moment() -> None:
    """A load off the centre of a single fixing is refused by name, value, bound and reason."""
    with pytest.raises(ValueError, match=r"at_mm is \(10\.0, 0\.0\); it must be in line with the fixing: one"):
        in_plane_forces_n(points_mm=((0.0, 0.0),), force_n=(0.0, 100.0), at_mm=(10.0, 0.0))
