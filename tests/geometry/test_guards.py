"""The guards of the equations one by one, and what stands exactly at the edge of a size, a tolerance or a table."""

from collections.abc import Callable
from dataclasses import replace
from math import inf, nan
from typing import Any, cast

import pytest

from fasten import require as guard
from fasten.catalog.parts import LENGTH_RANGES
from fasten.catalog.rows import TableOf
from fasten.catalog.tables import Tables, builtin
from fasten.errors import FastenError
from fasten.geometry.bits import Bit, inch_bits, metric_name, nearest_bit
from fasten.geometry.patterns import rectangle, row, spacing_mm
from fasten.geometry.stack import head_for
from fasten.geometry.threads import (
    external_major_tolerance_in,
    external_pitch_tolerance_in,
    internal_minor_tolerance_in,
    metric_thread,
    metric_tolerances,
    minor_diameter,
    pitch_diameter,
    root_diameter,
    thread_percent,
    unified_stress_area_in2,
)
from fasten.model import Visible

Guard = Callable[..., None]


@pytest.mark.parametrize(
    ("check", "taken"),
    [
        (guard.positive, (1e-12, 0.5, 1e12)),
        (guard.not_negative, (0.0, 0.5, 1e12)),
        (guard.finite, (-1e12, 0.0, 1e12)),
        (lambda **values: guard.at_least(2.0, "why", **values), (2.0, 3.0)),
        (lambda **values: guard.above(2.0, "why", **values), (2.0000001, 3.0)),
        (lambda **values: guard.below(2.0, "why", **values), (-3.0, 1.9999999)),
        (lambda **values: guard.at_most(2.0, "why", **values), (-3.0, 2.0)),
    ],
)
def test_what_a_guard_takes(check: Guard, taken: tuple[float, ...]) -> None:
    for value in taken:
        check(size_mm=value)


@pytest.mark.parametrize(
    ("check", "refused", "bound"),
    [
        (guard.positive, (0.0, -0.5, inf, nan), "above 0 and finite"),
        (guard.not_negative, (-1e-12, -inf, inf, nan), "0 or more and finite"),
        (guard.finite, (inf, -inf, nan), "finite"),
        (lambda **values: guard.at_least(2.0, "why", **values), (1.9999999, -3.0, inf, nan), "2.0 or more and finite"),
        (lambda **values: guard.above(2.0, "why", **values), (2.0, -3.0, inf, nan), "above 2.0 and finite"),
        (lambda **values: guard.below(2.0, "why", **values), (2.0, 3.0, inf, nan), "below 2.0"),
        (lambda **values: guard.at_most(2.0, "why", **values), (2.0000001, 3.0, inf, nan), "2.0 or less"),
    ],
)
def test_what_a_guard_refuses(check: Guard, refused: tuple[float, ...], bound: str) -> None:
    """Each value alone, and after another that is good: the refusal names the one at fault."""
    for value in refused:
        with pytest.raises(ValueError, match=f"^size_mm is {value!r}; it must be {bound}: "):
            check(
                good_mm=2.0 if "more" in bound or "less" in bound else 1.5 if "below" in bound else 2.5, size_mm=value
            )


@pytest.mark.parametrize(
    ("name", "kind"),
    [
        ("plate_mm", "a length"), ("load_n", "a force"), ("load_nm", "a torque"), ("yield_mpa", "a stress"),
        ("area_mm2", "an area"), ("area_mm2_per_mm", "an area"), ("weight_kg_m3", "a density"),
        ("weight_g_cm3", "a density"), ("current_a", "a current"), ("drop_mv", "a voltage"), ("share", "a factor"),
    ],
)  # fmt: skip
def test_a_refusal_says_what_kind_of_thing_was_impossible(name: str, kind: str) -> None:
    with pytest.raises(ValueError, match=f": {kind} of nothing or less"):
        guard.positive(**{name: 0.0})


TWO_LENGTHS: tuple[tuple[Callable[..., float], dict[str, Any]], ...] = (
    (pitch_diameter, {"major": 6.0, "pitch": 1.0}),
    (minor_diameter, {"major": 6.0, "pitch": 1.0}),
    (root_diameter, {"major": 6.0, "pitch": 1.0}),
    (thread_percent, {"major": 6.0, "drill": 5.0, "pitch": 1.0}),
    (unified_stress_area_in2, {"major_in": 0.25, "threads_per_in": 20}),
    (external_pitch_tolerance_in, {"major_in": 0.25, "threads_per_in": 20}),
    (external_major_tolerance_in, {"threads_per_in": 20}),
    (internal_minor_tolerance_in, {"major_in": 0.25, "threads_per_in": 20}),
)


@pytest.mark.parametrize(("equation", "good"), TWO_LENGTHS)
@pytest.mark.parametrize("broken", [0.0, -1.0, inf, nan])
def test_a_thread_of_no_size_is_refused(equation: Callable[..., float], good: dict[str, Any], broken: float) -> None:
    equation(**good)
    for name in good:
        with pytest.raises(ValueError, match=f"^{name} is {broken!r}; it must be above 0 and finite"):
            equation(**good | {name: broken})


def test_a_hole_as_wide_as_the_screw_leaves_no_thread() -> None:
    with pytest.raises(ValueError, match=r"drill is 6\.0; it must be below major 6\.0"):
        thread_percent(6.0, 6.0, 1.0)


def test_minor_tolerance_2b_where_both_equations_differ() -> None:
    """ASME B1.1: from 1/4 in on 0.25 P - 0.4 P² alone, below it the larger. By hand of coarse threads nobody makes.

    8 to the inch: 0.03125 - 0.00625 = 0.025 against 0.0125 + 0.00375/D - 0.002, which is 0.0255 at 1/4 in.
    6 to the inch at 0.26 in: 0.041667 - 0.011111.
    """
    assert internal_minor_tolerance_in(0.25, 8) == pytest.approx(0.025)
    assert internal_minor_tolerance_in(0.2499, 8) == pytest.approx(0.0125 + 0.00375 / 0.2499 - 0.002)
    assert internal_minor_tolerance_in(0.26, 6) == pytest.approx(0.030556, abs=1e-6)


def test_a_diameter_at_the_end_of_a_range_belongs_to_it() -> None:
    """ISO 965-1: over 2.8 up to 5.6, over 5.6 up to 11.2. 5.6 x 0.75 is in the first; 5.6 x 1.25 is in neither."""
    m6 = metric_thread(builtin(), "M6")
    _, row = metric_tolerances(builtin(), replace(m6, major_mm=5.6, pitch_mm=0.75))
    assert (row.over_mm, row.to_mm) == (2.8, 5.6)
    with pytest.raises(FastenError, match="no ISO 965-1 tolerances"):
        metric_tolerances(builtin(), replace(m6, major_mm=5.6, pitch_mm=1.25))


class Lacking:
    """Tables without the lengths of a standard."""

    def __init__(self, lacking: str) -> None:
        self.lacking = lacking

    def find(self, table: TableOf[Any], *key: object) -> object:
        if table is LENGTH_RANGES and key[0] == self.lacking:
            return None
        return builtin().find(table, *key)


def test_a_head_without_lengths_gives_way_to_the_next() -> None:
    head = head_for(cast(Tables, Lacking("ISO 15071")), "M5", Visible.NO)
    assert head is not None
    assert head.standard == "ISO 14583"


def test_two_fixings_have_a_spacing_and_one_makes_a_row() -> None:
    assert spacing_mm(((0.0, 0.0), (3.0, 4.0))) == 5.0
    assert row(1, 50.0) == ((0.0, 0.0),)


@pytest.mark.parametrize(("length_mm", "width_mm", "name"), [(0.0, 50.0, "length_mm"), (50.0, 0.0, "width_mm")])
def test_a_rectangle_has_two_sides(length_mm: float, width_mm: float, name: str) -> None:
    with pytest.raises(ValueError, match=f"{name} is 0.0; it must be above 0"):
        rectangle(4, length_mm, width_mm)


def test_pairs_always_go_into_the_longest_gap_left() -> None:
    """By hand. 100 x 70: first gap 100 against 70, so along; then 50 against 70, so across; then 50 against 35, along.

    Of a square's first two equal gaps the one along x is taken.
    """
    third = 100 / 6
    by_hand = [
        (-50.0, -35.0), (-50.0, 0.0), (-50.0, 35.0), (-third, -35.0), (-third, 35.0), (third, -35.0), (third, 35.0),
        (50.0, -35.0), (50.0, 0.0), (50.0, 35.0),
    ]  # fmt: skip
    found = sorted((round(x, 9), y) for x, y in rectangle(10, 100.0, 70.0))
    assert found == [(round(x, 9), y) for x, y in by_hand]
    assert rectangle(6, 80.0, 80.0)[4:] == ((0.0, -40.0), (0.0, 40.0))


# -- bits -------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("broken", [0.0, -1.0, inf, nan])
def test_a_bit_of_no_size_has_no_name(broken: float) -> None:
    with pytest.raises(ValueError, match=f"diameter_mm is {broken!r}"):
        metric_name(broken)


@pytest.mark.parametrize("name", ["minus_mm", "plus_mm"])
def test_a_tolerance_is_given_as_its_size(name: str) -> None:
    given = {"wanted_mm": 5.0, "minus_mm": 0.0, "plus_mm": 0.1, "bits": [Bit("5 mm", 5.0, "metric")]}
    with pytest.raises(ValueError, match=f"{name} is -0.1; it must be 0 or more"):
        nearest_bit(**{**given, name: -0.1})  # type: ignore[arg-type]


def test_a_bit_exactly_at_its_tolerance_holds_and_past_it_does_not() -> None:
    """5.0 -0.1 +0.2: bits of 4.9 and 5.2 hold, 4.89 and 5.21 do not. A bit is a hundredth of a millimetre at finest."""
    for diameter_mm, holds in ((4.9, True), (5.2, True), (4.89, False), (5.21, False)):
        assert nearest_bit(5.0, 0.1, 0.2, [Bit("x", diameter_mm, "metric")]).holds is holds
    assert nearest_bit(5.0, 0.0, 0.0, [Bit("x", 5.0, "metric")]).holds


def test_an_inch_bit_in_millimetres() -> None:
    """ASME B94.11M #7 is 0.2010 in, and 0.2010 x 25.4 = 5.1054."""
    number_7 = next(bit for bit in inch_bits(builtin(), "number") if bit.name == "#7")
    assert number_7.diameter_mm == 5.1054


def test_a_millionth_of_a_millimetre_is_no_difference() -> None:
    """What lies nearer is equal: it is told as 0.1, decides between no two bits, and is inside a tolerance."""
    metric, number = Bit("4.9 mm", 4.9, "metric"), Bit("#x", 5.1, "number")
    found = nearest_bit(5.0000002, 0.0, 0.0, [number, metric])
    assert (found.name, found.deviation_mm) == ("4.9 mm", -0.1)
    for diameter_mm, holds in ((5.000001, True), (4.999999, True), (5.000002, False), (4.999998, False)):
        assert nearest_bit(5.0, 0.0, 0.0, [Bit("x", diameter_mm, "metric")]).holds is holds
