"""Equations whose published tables are coarse, to the last figure by hand."""

from math import pi

import pytest

from fasten.mechanics.stripping import external_shear_area_simple_mm2, internal_shear_area_simple_mm2
from fasten.mechanics.torque import torque_vdi_nm


def test_short_forms_of_the_shear_areas_grow_with_the_engagement() -> None:
    """NASA TM-106943 eq 63 and 76: 5/8 pi D1 Le and 3/4 pi d Le, M6 over 8 mm."""
    assert external_shear_area_simple_mm2(engagement_mm=8, internal_minor_mm=5) == pytest.approx(25 * pi)
    assert internal_shear_area_simple_mm2(engagement_mm=8, external_major_mm=6) == pytest.approx(36 * pi)


def test_torque_from_pitch_and_two_frictions() -> None:
    """VDI 2230: 10 kN x (0.16 x 1 + 0.58 x 5.35 x 0.1 + 8 x 0.1 / 2) mm = 8.703 N·m."""
    found = torque_vdi_nm(
        preload_n=10_000, pitch_mm=1, pitch_diameter_mm=5.35, thread_friction=0.1, bearing_mm=8, head_friction=0.1
    )
    assert found == pytest.approx(8.703, rel=1e-6)
