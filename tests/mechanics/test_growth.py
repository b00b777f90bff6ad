"""More of a good thing is never weaker: unlike sheets, board, plastic and threads, whatever the figures."""

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fasten.mechanics.board import (
    embedment_board_mpa,
    lateral_ec5_n,
    screw_withdrawal_edge_n,
    screw_withdrawal_face_n,
    wood_screw_withdrawal_n,
)
from fasten.mechanics.plastic import pull_out_plastic_n
from fasten.mechanics.sheet import (
    bearing_aluminium_n,
    bearing_rivet_en_n,
    bearing_tapping_en_n,
    shear_aisi_n,
    thin_sheet_factor,
)
from fasten.mechanics.stripping import external_shear_area_mm2, internal_shear_area_mm2

ROUND_OFF = 1 + 1e-9
Pair = Callable[[float, float], float]

UNLIKE_SHEETS: dict[str, Pair] = {
    "EN tapping": lambda thin, thick: bearing_tapping_en_n(
        thinner_mm=thin, thicker_mm=thick, major_mm=4.2, sheet_ultimate_mpa=300, gamma=1.25
    ),
    "EN tapping, 8 mm": lambda thin, thick: bearing_tapping_en_n(
        thinner_mm=thin, thicker_mm=thick, major_mm=8.0, sheet_ultimate_mpa=300, gamma=1.25
    ),
    "EN rivet": lambda thin, thick: bearing_rivet_en_n(
        thinner_mm=thin, thicker_mm=thick, rivet_mm=4.8, edge_mm=15, sheet_ultimate_mpa=300, gamma=1.25
    ),
    "aluminium": lambda thin, thick: bearing_aluminium_n(
        thinner_mm=thin, thicker_mm=thick, major_mm=5.5, sheet_ultimate_mpa=200, gamma=1.25
    ),
}


@pytest.mark.parametrize("capacity", UNLIKE_SHEETS.values(), ids=UNLIKE_SHEETS.keys())
@given(sheets=st.tuples(*[st.floats(0.5, 6.0)] * 3))
def test_thicker_second_sheet_never_holds_less(capacity: Pair, sheets: tuple[float, float, float]) -> None:
    """With the thinner sheet kept, a thicker partner only steadies the fixing."""
    thin, middle, thick = sorted(sheets)
    assert capacity(thin, middle) <= capacity(thin, thick) * ROUND_OFF


@pytest.mark.parametrize("name", ["EN tapping", "EN tapping, 8 mm"])
@given(sheets=st.tuples(*[st.floats(0.5, 6.0)] * 3))
def test_thicker_thin_sheet_never_holds_less_en(name: str, sheets: tuple[float, float, float]) -> None:
    """With the thicker sheet kept, more of the thinner one holds more, across the ratio and the 1.0 mm rule."""
    thin, middle, thick = sorted(sheets)
    assert UNLIKE_SHEETS[name](thin, thick) <= UNLIKE_SHEETS[name](middle, thick) * ROUND_OFF


@given(thin=st.floats(0.3, 3.0), scale=st.floats(1.0, 3.0), ratio=st.floats(0.3, 4.0))
def test_aisi_shear_grows_with_both_sheets(thin: float, scale: float, ratio: float) -> None:
    """Both sheets thicker by the same factor never hold less, whatever their ratio."""

    def shear(head_mm: float) -> float:
        return shear_aisi_n(
            head_sheet_mm=head_mm,
            thread_sheet_mm=head_mm * ratio,
            major_mm=4.2,
            head_ultimate_mpa=300,
            thread_ultimate_mpa=300,
        )

    assert shear(thin) <= shear(thin * scale) * ROUND_OFF


def test_aisi_shear_dips_where_the_head_sheet_nears_the_other() -> None:
    """AISI S100 E4.3.1's own kink, kept as it stands: 1.0 mm thread sheet, d 4.2, 300 MPa, head sheet 0.87 against 1.0.

    By hand at 0.87: bearing 2.7 x 4.2 x 0.87 x 300 = 2959.7 N, tilting 4.2 sqrt(4.2) 300 = 2582.2 N, ratio 1.14943, so
    2582.2 + 377.5 x 0.14943 / 1.5 = 2619.8 N, 1.5 % over the 2582.2 N of equal sheets.
    """
    nearly, equal = (
        shear_aisi_n(
            head_sheet_mm=head_mm, thread_sheet_mm=1.0, major_mm=4.2, head_ultimate_mpa=300, thread_ultimate_mpa=300
        )
        for head_mm in (0.87, 1.0)
    )
    assert nearly == pytest.approx(2619.8, rel=1e-4)
    assert equal == pytest.approx(2582.2, rel=1e-4)


SINGLE: dict[str, Callable[[float], float]] = {
    "thin-sheet factor": lambda t: thin_sheet_factor(sheet_mm=t),
    "wood screw": lambda t: wood_screw_withdrawal_n(shank_mm=4, penetration_mm=t, density_g_cm3=0.5),
    "board face": lambda t: screw_withdrawal_face_n(major_mm=1.2, penetration_mm=t, density_g_cm3=0.7),
    "board edge": lambda t: screw_withdrawal_edge_n(major_mm=1.2, penetration_mm=t, density_g_cm3=0.7),
    "lateral": lambda t: lateral_ec5_n(
        embedment_mpa=embedment_board_mpa(screw_mm=4, board_mm=t), depth_mm=t, screw_mm=4
    ),
    "plastic": lambda t: pull_out_plastic_n(cylinder_mm=4, engagement_mm=t, yield_mpa=40),
    "screw thread": lambda t: external_shear_area_mm2(
        engagement_mm=t, pitch_mm=1, internal_minor_max_mm=5.153, external_pitch_min_mm=5.212
    ),
    "nut thread": lambda t: internal_shear_area_mm2(
        engagement_mm=t, pitch_mm=1, external_major_min_mm=5.794, internal_pitch_max_mm=5.5
    ),
}


@pytest.mark.slow
@pytest.mark.parametrize("capacity", SINGLE.values(), ids=SINGLE.keys())
@given(pair=st.tuples(*[st.floats(0.5, 40.0)] * 2))
def test_more_material_never_holds_less(capacity: Callable[[float], float], pair: tuple[float, float]) -> None:
    """Thickness, penetration or engagement: more never holds less."""
    less, more = sorted(pair)
    assert capacity(less) <= capacity(more) * ROUND_OFF
