"""Torque and preload against printed tables and examples."""

from dataclasses import dataclass

import pytest

from fasten.mechanics.torque import (
    PERMANENT_FRACTION,
    REUSABLE_FRACTION,
    preload_target_n,
    torque_nm,
)

LBF = 4.4482216152605
INCH = 25.4


@dataclass(frozen=True)
class Thread:
    """ISO 724 and ISO 898-1 sizes, ISO 4762 head (smallest bearing face), ISO 273 medium hole."""

    diameter_mm: float
    pitch_mm: float
    d2_mm: float
    d3_mm: float
    area_mm2: float
    head_mm: float
    hole_mm: float


THREADS = {
    "M3": Thread(3, 0.5, 2.675, 2.387, 5.03, 5.07, 3.4),
    "M4": Thread(4, 0.7, 3.545, 3.141, 8.78, 6.53, 4.5),
    "M5": Thread(5, 0.8, 4.480, 4.019, 14.18, 8.03, 5.5),
    "M6": Thread(6, 1.0, 5.350, 4.773, 20.12, 9.38, 6.6),
    "M8": Thread(8, 1.25, 7.188, 6.466, 36.61, 12.33, 9.0),
}


@pytest.mark.parametrize(
    ("size", "proof_n", "dry_nm", "oiled_nm"),
    [
        ("M3", 2918, 1.31, 0.98),
        ("M4", 5092, 3.05, 2.29),
        ("M5", 8226, 6.17, 4.63),
        ("M6", 11672, 10.5, 7.88),
        ("M8", 21233, 25.48, 19.11),
    ],
)
def test_nut_factor_torques(size: str, proof_n: float, dry_nm: float, oiled_nm: float) -> None:
    """T = K d F at 0.75 of the 8.8 proof load, K 0.20 and 0.15 (Machine Design 1977). Printed to 0.01 N·m."""
    target = preload_target_n(proof_n=proof_n, fraction=REUSABLE_FRACTION)
    diameter = THREADS[size].diameter_mm
    assert torque_nm(nut_factor=0.20, diameter_mm=diameter, preload_n=target) == pytest.approx(dry_nm, abs=0.0055)
    assert torque_nm(nut_factor=0.15, diameter_mm=diameter, preload_n=target) == pytest.approx(oiled_nm, abs=0.0055)


def test_shigley_preload_rule() -> None:
    """Shigley: 0.75 of proof where a joint is undone, 0.90 where it is not; by hand on 10 000 N."""
    assert preload_target_n(proof_n=10_000, fraction=REUSABLE_FRACTION) == pytest.approx(7500)
    assert preload_target_n(proof_n=10_000, fraction=PERMANENT_FRACTION) == pytest.approx(9000)


def test_nasa_torque() -> None:
    """NASA TM-106943 T = K d F by hand in inch units: 0.15 x 0.190 in x 1105 lbf = 31.49 lbf·in = 3.558 N·m."""
    there = torque_nm(nut_factor=0.15, diameter_mm=0.190 * INCH, preload_n=1105 * LBF)
    assert there == pytest.approx(3.558, rel=3e-4)
