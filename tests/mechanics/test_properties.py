"""What must hold for any sheet and any group of fixings, whatever the figures."""

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fasten.mechanics.sheet import (
    bearing_bolt_en_n,
    bearing_rivet_en_n,
    bearing_tapping_en_n,
    pull_out_aisi_n,
    pull_out_aluminium_n,
    pull_out_en_n,
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
    "shear, sheets alike": alike_aisi_n,
    "shear, sheet under it": base_aisi_n,
    "EN bearing, sheets alike": alike_en_n,
    "EN pull-out": lambda t, f: pull_out_en_n(sheet_mm=t, major_mm=4.2, pitch_mm=1.4, sheet_ultimate_mpa=f, gamma=1.25),
    "EN pull-through": lambda t, f: pull_through_en_n(sheet_mm=t, head_mm=16.0, sheet_ultimate_mpa=f, gamma=1.25),
    "bolt": lambda t, f: bearing_bolt_en_n(sheet_mm=t, bolt_mm=7.0, edge_mm=20.0, sheet_ultimate_mpa=f, gamma=1.25),
    "blind rivet": rivet_n,
    "aluminium": lambda t, f: pull_out_aluminium_n(sheet_mm=t, major_mm=5.5, sheet_ultimate_mpa=f, gamma=1.25),
    "spin-out": lambda t, _: spin_out_nm(tested_nm=2.4, tested_sheet_mm=0.76, most_sheet_mm=1.5, sheet_mm=t),
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


HALVES = st.tuples(st.floats(20, 300), st.floats(20, 300))
