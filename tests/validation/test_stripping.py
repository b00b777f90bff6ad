"""Thread stripping against printed areas, loads and engagements."""

from dataclasses import dataclass

import pytest

from fasten.mechanics.screw import breaking_load_n
from fasten.mechanics.stripping import (
    engagement_for_equal_strength_mm,
    engagement_for_load_mm,
    external_shear_area_mm2,
    external_shear_area_simple_mm2,
    internal_shear_area_mm2,
    internal_shear_area_simple_mm2,
    shear_strength_mpa,
    strip_load_n,
)


@dataclass(frozen=True)
class Row:
    """Limits of ISO 965-2, 6g/6H (memory), with areas per millimetre, engagements and loads reckoned from them."""

    name: str
    nominal_mm: float
    pitch_mm: float
    d_min_mm: float
    d2_min_mm: float
    internal_d2_max_mm: float
    internal_d1_min_mm: float
    internal_d1_max_mm: float
    external: float
    internal: float
    simple_internal: float
    simple_external: float
    stress_area_mm2: float
    equal_mm: float
    steel_mm: float
    aluminium_mm: float
    strip_n: float
    strip_1_5_n: float


ROWS = [
    Row("M3", 3, 0.5, 2.874, 2.580, 2.775, 2.459, 2.599, 3.903, 5.547, 7.069, 4.828, 5.03, 2.58, 4.0, 6.0, 998, 1498),
    Row("M4", 4, 0.7, 3.838, 3.433, 3.663, 3.242, 3.422, 5.473, 7.769, 9.425, 6.366, 8.78, 3.21, 5.0, 7.5, 1398, 2098),
    Row(
        "M5", 5, 0.8, 4.826, 4.361, 4.605, 4.134, 4.334, 7.073, 9.999, 11.781, 8.117, 14.18, 4.01, 6.3, 9.5, 1800, 2700
    ),
    Row(
        "M6", 6, 1.0, 5.794, 5.212, 5.500, 4.917, 5.153, 8.646, 12.191, 14.137, 9.655, 20.12, 4.66, 7.3, 11, 2194, 3292
    ),
    Row(
        "M8",
        8,
        1.25,
        7.76,
        7.042,
        7.348,
        6.647,
        6.912,
        12.161,
        16.829,
        18.85,
        13.051,
        36.61,
        6.02,
        9.7,
        14.5,
        3029,
        4544,
    ),
]
EACH = pytest.mark.parametrize("row", ROWS, ids=lambda row: row.name)


def internal_area(row: Row, engagement_mm: float) -> float:
    return internal_shear_area_mm2(
        engagement_mm=engagement_mm,
        pitch_mm=row.pitch_mm,
        external_major_min_mm=row.d_min_mm,
        internal_pitch_max_mm=row.internal_d2_max_mm,
    )


@EACH
def test_areas_at_the_limits(row: Row) -> None:
    """FED-STD-H28 areas for one millimetre, four figures printed: 1e-3."""
    external = external_shear_area_mm2(
        engagement_mm=1,
        pitch_mm=row.pitch_mm,
        internal_minor_max_mm=row.internal_d1_max_mm,
        external_pitch_min_mm=row.d2_min_mm,
    )
    assert external == pytest.approx(row.external, rel=1e-3)
    assert internal_area(row, 1) == pytest.approx(row.internal, rel=1e-3)


@EACH
def test_simple_areas(row: Row) -> None:
    """NASA TM-106943 eq 63 and 76, on the smallest minor and the nominal major diameter, four figures printed: 1e-3."""
    external = external_shear_area_simple_mm2(engagement_mm=1, internal_minor_mm=row.internal_d1_min_mm)
    internal = internal_shear_area_simple_mm2(engagement_mm=1, external_major_mm=row.nominal_mm)
    assert external == pytest.approx(row.simple_external, rel=1e-3)
    assert internal == pytest.approx(row.simple_internal, rel=1e-3)


@EACH
def test_strip_loads_in_a_tapped_sheet(row: Row) -> None:
    """Steel of Rm 300, tau 0.6 Rm, 1.0 and 1.5 mm of engagement, printed to one newton: 1e-3."""
    tau = shear_strength_mpa(ultimate_mpa=300, ratio=0.6)
    for engagement_mm, printed_n in ((1.0, row.strip_n), (1.5, row.strip_1_5_n)):
        load = strip_load_n(shear_area_mm2=internal_area(row, engagement_mm), shear_strength_mpa=tau)
        assert load == pytest.approx(printed_n, rel=1e-3)


@EACH
def test_engagements(row: Row) -> None:
    """Engagement of equal strength (0.2 %), and for an 8.8 screw to break in steel of 300 and aluminium of 200 MPa.

    The latter two are printed to 0.1 and to 0.5 mm; half a step and a little more allowed.
    """
    equal = engagement_for_equal_strength_mm(stress_area_mm2=row.stress_area_mm2, area_mm2_per_mm=row.external)
    assert equal == pytest.approx(row.equal_mm, rel=2e-3)
    load = breaking_load_n(stress_area_mm2=row.stress_area_mm2, ultimate_mpa=800)
    for ultimate, printed_mm, step_mm in ((300, row.steel_mm, 0.1), (200, row.aluminium_mm, 0.5)):
        tau = shear_strength_mpa(ultimate_mpa=ultimate, ratio=0.6)
        engagement = engagement_for_load_mm(load_n=load, area_mm2_per_mm=row.internal, shear_strength_mpa=tau)
        assert engagement == pytest.approx(printed_mm, abs=0.6 * step_mm)


def test_m5_strips_before_it_is_proof_loaded() -> None:
    """M5 in 1.5 mm of Rm 300 strips near 2.7 kN, far under the 8.23 kN proof load of 8.8 (ISO 898-1)."""
    row = next(row for row in ROWS if row.name == "M5")
    assert strip_load_n(shear_area_mm2=internal_area(row, 1.5), shear_strength_mpa=180) == pytest.approx(2700, rel=1e-3)


@pytest.mark.parametrize(("screw_mm", "printed_mm"), [(9.968, 21.6), (9.732, 24.9)])
def test_m10_in_aluminium(screw_mm: float, printed_mm: float) -> None:
    """Handbook of Bolts and Bolted Joints: M10 x 1.5 of 10.9 at 1200 MPa, in aluminium of 130 MPa shear: 21.6 mm.

    The printed 9.968 is the largest, not the smallest, 6g major diameter; the true smallest gives 24.9.
    0.3 %: three figures.
    """
    area = internal_shear_area_mm2(
        engagement_mm=1, pitch_mm=1.5, external_major_min_mm=screw_mm, internal_pitch_max_mm=9.206
    )
    load = breaking_load_n(stress_area_mm2=58, ultimate_mpa=1200)
    assert load == pytest.approx(69_600)
    engagement = engagement_for_load_mm(load_n=load, area_mm2_per_mm=area, shear_strength_mpa=130)
    assert engagement == pytest.approx(printed_mm, rel=3e-3)
