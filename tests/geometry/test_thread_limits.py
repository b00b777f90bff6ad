"""Thread equations at and beside their limits, against figures printed for threads that the tables do not hold too."""

from collections.abc import Callable
from math import inf, nan

import pytest

from fasten.geometry import threads


@pytest.mark.parametrize(
    ("major_in", "per_in", "least_in", "most_in"),
    [
        (0.060, 80, 0.0465, 0.0514), (0.073, 64, 0.0561, 0.0623), (0.086, 56, 0.0667, 0.0737),
        (0.112, 40, 0.0849, 0.0939), (0.125, 40, 0.0979, 0.1062), (0.138, 32, 0.104, 0.114), (0.164, 32, 0.130, 0.139),
        (0.216, 24, 0.171, 0.181), (0.250, 20, 0.196, 0.207), (0.250, 28, 0.211, 0.220), (0.375, 16, 0.307, 0.321),
        (0.500, 13, 0.417, 0.434),
    ],
)  # fmt: skip
def test_minor_diameter_2b_as_printed(major_in: float, per_in: int, least_in: float, most_in: float) -> None:
    """ASME B1.1 2B minor diameters, #0-80 to 1/2-13 (from memory); the cap of 0.394 P binds at #0-80 alone.

    Prints have four decimals under #6 and three from there on.
    """
    tolerance_in = threads.internal_minor_tolerance_in(major_in, per_in)
    found_in = threads.minor_diameter(major_in, 1 / per_in)
    half = 0.00005 if major_in < 0.138 else 0.0005
    assert found_in == pytest.approx(least_in, abs=half * 1.01)
    assert found_in + tolerance_in == pytest.approx(most_in, abs=half * 1.2)


@pytest.mark.parametrize(
    ("major_in", "per_in", "tolerance_in"),
    [(0.060, 80, 0.004925), (0.190, 32, 0.007895), (0.249, 20, 0.0115), (0.250, 20, 0.0115), (0.5, 13, 0.016864)],
)
def test_minor_tolerance_2b_by_hand(major_in: float, per_in: int, tolerance_in: float) -> None:
    """By hand from B1.1: 0.394/80; 0.05/32^(2/3) + 0.03/(32 x 0.19) - 0.002 = 0.004961 + 0.004934 - 0.002; the
    larger 0.25/20 - 0.4/400 at 0.249-20 and from 1/4 on;
    0.25/13 - 0.4/169."""
    assert threads.internal_minor_tolerance_in(major_in, per_in) == pytest.approx(tolerance_in, abs=1e-6)


@pytest.mark.parametrize("bad", [0.0, -1.0, nan, inf])
def test_nothing_is_calculated_from_what_is_no_size(bad: float) -> None:
    calls: tuple[Callable[[], float], ...] = (
        lambda: threads.minor_diameter(bad, 1.0),
        lambda: threads.minor_diameter(6.0, bad),
        lambda: threads.root_diameter(bad, 1.0),
        lambda: threads.root_diameter(6.0, bad),
        lambda: threads.external_pitch_tolerance_in(bad, 20),
        lambda: threads.internal_minor_tolerance_in(bad, 20),
    )
    for call in calls:
        with pytest.raises(ValueError, match="must be"):
            call()
    for per_in in (0, -20):
        with pytest.raises(ValueError, match="must be"):
            threads.external_major_tolerance_in(per_in)


def test_root_diameter_as_iso_898_1_has_it() -> None:
    """ISO 898-1 d3 = d1 - H/6: M6 4.773, M8 6.466 (printed)."""
    assert threads.root_diameter(6.0, 1.0) == pytest.approx(4.773, abs=5e-4)
    assert threads.root_diameter(8.0, 1.25) == pytest.approx(6.466, abs=5e-4)
