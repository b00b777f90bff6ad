"""Small rules of torque and preload that no published example covers, each calculated by hand."""

import pytest

from fasten.mechanics.stripping import effective_engagement_mm


def test_lead_in_comes_off_the_engagement() -> None:
    """8 mm at a pitch of 1.25 less one and a half pitches: 6.125 mm."""
    effective = effective_engagement_mm(engagement_mm=8, pitch_mm=1.25, lead_in_pitches=1.5)
    assert effective == pytest.approx(6.125)
