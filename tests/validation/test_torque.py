"""Torque and preload against printed tables and examples."""

from dataclasses import dataclass

import pytest

from fasten.mechanics.torque import (
    PERMANENT_FRACTION,
    REUSABLE_FRACTION,
    bearing_diameter_mm,
    preload_at_yield_n,
    preload_max_n,
    preload_min_n,
    preload_n,
    preload_target_n,
    torque_nm,
    torque_vdi_nm,
)

LBF = 4.4482216152605
INCH = 25.4
PLASTIC, ELASTIC = 1.5, 2.0


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


def preload(thread: Thread, yield_mpa: float, friction: float, torsion: float) -> float:
    return preload_at_yield_n(
        stress_area_mm2=thread.area_mm2,
        yield_mpa=yield_mpa,
        utilisation=0.9,
        pitch_mm=thread.pitch_mm,
        pitch_diameter_mm=thread.d2_mm,
        stress_diameter_mm=(thread.d2_mm + thread.d3_mm) / 2,
        thread_friction=friction,
        torsion_factor=torsion,
    )


def torque(thread: Thread, yield_mpa: float, friction: float, torsion: float) -> float:
    return torque_vdi_nm(
        preload_n=preload(thread, yield_mpa, friction, torsion),
        pitch_mm=thread.pitch_mm,
        pitch_diameter_mm=thread.d2_mm,
        thread_friction=friction,
        bearing_mm=bearing_diameter_mm(head_mm=thread.head_mm, hole_mm=thread.hole_mm),
        head_friction=friction,
    )


@pytest.mark.parametrize(
    ("size", "a2_50", "a2_70", "a2_80"),
    [
        ("M3", 0.376, 0.806, 1.07),
        ("M4", 0.868, 1.86, 2.48),
        ("M5", 1.72, 3.68, 4.91),
        ("M6", 2.95, 6.4, 8.4),
        ("M8", 7.2, 15.2, 20.5),
    ],
)
def test_printed_stainless_torques(size: str, a2_50: float, a2_70: float, a2_80: float) -> None:
    """Equipment documentation after VDI 2230:2003, µ 0.10, 90 % of yield; yields of ISO 3506-1.

    3 %: the table covers several heads in one figure; the widest gap is M3, printed 2.3 % low.
    """
    for yield_mpa, printed in ((210, a2_50), (450, a2_70), (600, a2_80)):
        assert torque(THREADS[size], yield_mpa, 0.10, PLASTIC) == pytest.approx(printed, rel=0.03)


@pytest.mark.parametrize(
    ("size", "printed"), [("M3", 1.344), ("M4", 3.04), ("M5", 6.031), ("M6", 10.3), ("M8", 25.497)]
)
def test_printed_8_8_torques_older_edition(size: str, printed: float) -> None:
    """Hand-tool tables, two copies: 8.8, µ 0.14, 90 % of yield, older edition. 2.5 %: another head, kgf·m rounded."""
    assert torque(THREADS[size], 640, 0.14, ELASTIC) == pytest.approx(printed, rel=0.025)


RECOMPUTED = {
    "M3": (1.17, 1.32, 1.47, 1.34, 0.821, 2545, 1836),
    "M4": (2.69, 3.05, 3.38, 3.07, 1.893, 4421, 3191),
    "M5": (5.36, 6.09, 6.77, 6.16, 3.772, 7202, 5194),
    "M6": (9.09, 10.3, 11.43, 10.39, 6.39, 10182, 7346),
    "M8": (21.97, 24.96, 27.75, 25.3, 15.449, 18627, 13432),
}


@pytest.mark.parametrize("size", RECOMPUTED)
def test_recomputed_table(size: str) -> None:
    """A separate recomputation of VDI 2230, ISO 4762 heads, ISO 273 medium holes. 0.6 %: three figures printed."""
    thread = THREADS[size]
    got = (
        torque(thread, 640, 0.10, PLASTIC),
        torque(thread, 640, 0.12, PLASTIC),
        torque(thread, 640, 0.14, PLASTIC),
        torque(thread, 640, 0.14, ELASTIC),
        torque(thread, 450, 0.10, PLASTIC),
        preload(thread, 640, 0.12, PLASTIC),
        preload(thread, 450, 0.10, PLASTIC),
    )
    assert got == pytest.approx(RECOMPUTED[size], rel=0.006)


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


def test_nasa_number_ten_screw() -> None:
    """NASA TM-106943: #10-32 at 65 % of 85 ksi yield, lubricated: 1105 lbf nominal, 789 least, 1381 most.

    Half a pound on the least, printed whole: 0.07 %.
    """
    nominal = 0.65 * 85_000 * 0.0200 * LBF
    assert nominal == pytest.approx(1105 * LBF)
    assert preload_max_n(nominal_n=nominal, uncertainty=0.25) == pytest.approx(1381 * LBF, rel=7e-4)
    least = preload_min_n(nominal_n=nominal, uncertainty=0.25, relaxation=0.05)
    assert least == pytest.approx(789 * LBF, rel=7e-4)


def test_nasa_torque_and_back() -> None:
    """NASA TM-106943 T = K d F by hand in inch units: 0.15 x 0.190 in x 1105 lbf = 31.49 lbf·in = 3.558 N·m."""
    there = torque_nm(nut_factor=0.15, diameter_mm=0.190 * INCH, preload_n=1105 * LBF)
    assert there == pytest.approx(3.558, rel=3e-4)
    assert preload_n(torque_nm=there, nut_factor=0.15, diameter_mm=0.190 * INCH) == pytest.approx(1105 * LBF)
