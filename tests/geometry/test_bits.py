"""The nearest bit: what wins, and what the answer says about it."""

from math import inf, nan

import pytest

from fasten.catalog.tables import builtin
from fasten.geometry import bits
from fasten.geometry.bits import Bit, nearest_bit

OWNED = (Bit("5 mm", 5.0, "metric"), Bit("#7", 5.1054, "number"), Bit("13/64", 5.159375, "fraction"))


@pytest.mark.parametrize(
    ("name", "diameter_mm"),
    [("#21", 4.0386), ("F", 6.5278), ("9/64", 3.571875), ("5.1 mm", 5.1), ("#8", 5.0546), ("1/4", 6.35)],
)
def test_bits_of_every_series(name: str, diameter_mm: float) -> None:
    """Number, letter and fraction drills of ASME B94.11M in inches: 0.159, 0.257, 9/64, 0.199, 1/4."""
    bit = bits.bit_named(builtin(), name)
    assert bit is not None
    assert bit.diameter_mm == pytest.approx(diameter_mm, abs=1e-6)
    assert bit in bits.all_bits(builtin())
    assert bit.series == bits.series_of(name)


def test_no_such_bit() -> None:
    assert bits.bit_named(builtin(), "#99") is None


def test_exact_bit_wins() -> None:
    found = nearest_bit(5.1, 0.0, 0.1, bits.all_bits(builtin()))
    assert (found.name, found.deviation_mm, found.holds) == ("5.1 mm", 0.0, True)


def test_inside_the_tolerance_beats_nearer() -> None:
    """5.0 is 0.04 off but too small; #7 is 0.07 off and inside."""
    found = nearest_bit(5.04, 0.0, 0.1, OWNED)
    assert (found.name, found.holds) == ("#7", True)
    assert found.deviation_mm == pytest.approx(0.0654)


def test_out_of_tolerance_says_so() -> None:
    found = nearest_bit(7.1, 0.05, 0.05, OWNED)
    assert (found.name, found.holds) == ("13/64", False)
    assert found.deviation_mm == pytest.approx(-1.940625)


def test_metric_then_thinner_on_a_tie() -> None:
    metric, inch, larger = Bit("4 mm", 4.0, "metric"), Bit("q", 4.2, "letter"), Bit("4.2 mm", 4.2, "metric")
    assert nearest_bit(4.1, 0.1, 0.1, (inch, metric)).name == "4 mm"
    assert nearest_bit(4.1, 0.1, 0.1, (larger, metric)).name == "4 mm"
    assert nearest_bit(4.2, 0.0, 0.0, (inch, larger)).name == "4.2 mm"


def test_order_of_the_bits_does_not_matter() -> None:
    """E and 1/4 are one diameter under two names; the answer is the same whichever is met first."""
    twins = (Bit("E", 6.35, "letter"), Bit("1/4", 6.35, "fraction"))
    assert nearest_bit(6.3, 0.1, 0.1, twins) == nearest_bit(6.3, 0.1, 0.1, twins[::-1])


@pytest.mark.parametrize("bad", [0.0, -1.0, nan, inf])
def test_no_hole_to_drill(bad: float) -> None:
    with pytest.raises(ValueError, match="wanted_mm"):
        nearest_bit(bad, 0.0, 0.0, OWNED)


def test_tolerances_are_sizes_and_bits_are_needed() -> None:
    with pytest.raises(ValueError, match="minus_mm"):
        nearest_bit(5.0, -0.1, 0.1, OWNED)
    with pytest.raises(ValueError, match="bits"):
        nearest_bit(5.0, 0.1, 0.1, ())
    with pytest.raises(ValueError, match="series"):
        bits.inch_bits(builtin(), "metric")
