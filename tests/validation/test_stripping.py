"""Thread stripping against printed areas, loads and engagements."""

from dataclasses import dataclass

import pytest

from fasten.mechanics.stripping import (
    external_shear_area_mm2,
    internal_shear_area_mm2,
    shear_strength_mpa,
    strip_load_n,
)


@dataclass(frozen=True)
class Row:
    """Limits of ISO 965-2, 6g/6H (memory), with areas per millimetre, engagements and loads calculated from them."""

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
def test_strip_loads_in_a_tapped_sheet(row: Row) -> None:
    """Steel of Rm 300, tau 0.6 Rm, 1.0 and 1.5 mm of engagement, printed to one newton: 1e-3."""
    tau = shear_strength_mpa(ultimate_mpa=300, ratio=0.6)
    for engagement_mm, printed_n in ((1.0, row.strip_n), (1.5, row.strip_1_5_n)):
        load = strip_load_n(shear_area_mm2=internal_area(row, engagement_mm), shear_strength_mpa=tau)
        assert load == pytest.approx(printed_n, rel=1e-3)


def test_m5_strips_before_it_is_proof_loaded() -> None:
    """M5 in 1.5 mm of Rm 300 strips near 2.7 kN, far under the 8.23 kN proof load of 8.8 (ISO 898-1)."""
    row = next(row for row in ROWS if row.name == "M5")
    assert strip_load_n(shear_area_mm2=internal_area(row, 1.5), shear_strength_mpa=180) == pytest.approx(2700, rel=1e-3)
