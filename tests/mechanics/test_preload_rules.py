"""Small rules of torque and preload that no published example covers, each reckoned by hand."""

import pytest

from fasten.mechanics.stripping import effective_engagement_mm
from fasten.mechanics.torque import (
    clamping_torque_nm,
    preload_against_separation_n,
    preload_against_slip_n,
    preload_kept_n,
    separation_load_n,
    slip_load_n,
    wrench_torque_nm,
)


def test_prevailing_torque_is_taken_off_and_added() -> None:
    """A wrench at 6.0 N·m over a prevailing 1.5 clamps with 4.5; to clamp with 4.5 it is set to 6.0."""
    assert clamping_torque_nm(wrench_nm=6.0, prevailing_nm=1.5) == pytest.approx(4.5)
    assert wrench_torque_nm(clamping_nm=4.5, prevailing_nm=1.5) == pytest.approx(6.0)


def test_separation() -> None:
    """NASA TM-106943 form: 800 N kept, a fifth of the pull into the screw, parts at 1000 N; and back, times 1.2."""
    assert separation_load_n(preload_n=800, load_share=0.2) == pytest.approx(1000)
    assert preload_against_separation_n(pull_n=1000, load_share=0.2, factor=1.2) == pytest.approx(960)


def test_slip() -> None:
    """NASA TM-106943 form: four fixings of 1000 N at 0.15 hold 600 N; 150 N on one asks 1000 N."""
    assert slip_load_n(preload_n=1000, friction=0.15, fixings=4) == pytest.approx(600)
    assert preload_against_slip_n(shear_n=150, friction=0.15, factor=1.0) == pytest.approx(1000)


def test_kept_preload() -> None:
    """Scatter once, then the fraction kept (common practice): 2000 x 0.65 x 0.4 = 520 N; soft layers keep none."""
    assert preload_kept_n(nominal_n=2000, uncertainty=0.35, kept_fraction=0.4) == pytest.approx(520)
    assert preload_kept_n(nominal_n=2000, uncertainty=0.35, kept_fraction=0.0) == 0


def test_lead_in_comes_off_the_engagement() -> None:
    """8 mm at a pitch of 1.25 less one and a half pitches: 6.125 mm."""
    effective = effective_engagement_mm(engagement_mm=8, pitch_mm=1.25, lead_in_pitches=1.5)
    assert effective == pytest.approx(6.125)
