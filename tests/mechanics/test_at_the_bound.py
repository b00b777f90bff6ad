"""What stands exactly at a bound is let through, and what it then gives."""

from collections.abc import Callable
from typing import Any

import pytest

from fasten.mechanics import board, faces, group, plastic, screw, sheet, stripping, torque

Equation = Callable[..., Any]

# an equation exactly at what it still takes, and what it then gives, by hand
LET_THROUGH: list[tuple[Equation, dict[str, Any], object]] = [
    (screw.tension_en_n, {"stress_area_mm2": 10.0, "ultimate_mpa": 100.0, "gamma": 1.0}, 900.0),
    (torque.preload_target_n, {"proof_n": 1000.0, "fraction": 1.0}, 1000.0),
    (torque.torque_floor_nm, {"driving_nm": 0.7, "margin": 1.0}, 0.7),
    (torque.preload_against_separation_n, {"pull_n": 100.0, "load_share": 0.0, "factor": 1.2}, 120.0),
    (faces.hook_load_n, {"area_mm2": 100.0, "new_mpa": 0.1, "share": 1.0}, 10.0),
    (faces.hot_bond_mpa, {"cold_mpa": 3.0, "share": 1.0}, 3.0),
    (faces.magnet_pull_n, {"pull_n": 50.0, "film": 1.0, "heat": 1.0}, 50.0),
    (plastic.boss_outer_mm, {"screw_mm": 4.0, "ratio": 1.01}, 4.04),
    (stripping.effective_engagement_mm, {"engagement_mm": 0.1, "pitch_mm": 1.0, "lead_in_pitches": 0.0}, 0.1),
    # as thick as one pitch is no longer thinner than it: 0.65 x 4.8 x 1.6 x 300 / 1.25 = 1198.08 N
    (
        sheet.pull_out_en_n,
        {"sheet_mm": 1.6, "pitch_mm": 1.6, "major_mm": 4.8, "sheet_ultimate_mpa": 300.0, "gamma": 1.25},
        1198.08,
    ),
    (plastic.hot_yield_mpa, {"yield_mpa": 40.0, "fraction": 1.0}, 40.0),
    # 0.52 x 6^-0.5 x 36^-0.1 x 350^0.8 x 6 x 36 x 6/8 = 2607 N, six diameters deep
    # 0.52 x 12^-0.5 x 72^-0.1 x 350^0.8 x 12 x 72 = 9171 N
    (board.embedment_wood_mpa, {"screw_mm": 99.0, "density_kg_m3": 1000.0}, 0.82),
    (group.centroid_mm, {"points_mm": ((3.0, 4.0),)}, (3.0, 4.0)),
    # two sheets alike: EN 1993-1-3 table 8.1, 3.6 sqrt(1/4) = 1.8; 1.8 x 300 x 4 x 1 = 2160 N
    (
        sheet.bearing_rivet_en_n,
        {"thinner_mm": 1.0, "thicker_mm": 1.0, "rivet_mm": 4.0, "edge_mm": 60.0, "sheet_ultimate_mpa": 300.0,
         "gamma": 1.0},
        2160.0,
    ),
]  # fmt: skip


@pytest.mark.parametrize(("equation", "given", "expected"), LET_THROUGH)
def test_a_limit_itself_is_let_through(equation: Equation, given: dict[str, Any], expected: object) -> None:
    """Each value is calculated by hand from the equation as its docstring has it."""
    assert equation(**given) == pytest.approx(expected, rel=1e-4)
