"""What goes through a hole, which length reaches, which head and which bits: at and beside every limit."""

import pytest

from fasten.catalog.tables import builtin
from fasten.geometry import stack
from fasten.geometry.bits import all_bits
from fasten.model import Visible

TABLES = builtin()


def passing(hole_mm: float) -> list[str]:
    return [thread.designation for thread in stack.threads_for_hole(TABLES, hole_mm, ("M4", "M5", "M6", "M8"))]


@pytest.mark.parametrize(
    ("hole_mm", "threads"),
    [
        (4.2, []), (4.3, ["M4"]), (5.2, ["M4"]), (5.3, ["M5", "M4"]), (6.3, ["M5", "M4"]), (6.4, ["M6", "M5", "M4"]),
        (8.39, ["M6", "M5", "M4"]), (8.4, ["M8", "M6", "M5", "M4"]),
    ],
)  # fmt: skip
def test_a_screw_passes_from_its_fine_clearance_hole_on_the_thickest_first(hole_mm: float, threads: list[str]) -> None:
    """Source: ISO 273 fine series: 4.3, 5.3, 6.4 and 8.4 mm."""
    assert passing(hole_mm) == threads


@pytest.mark.parametrize(
    ("least_mm", "length_mm"),
    [
        (1.0, 10.0), (10.0, 10.0), (10.001, 12.0), (12.1, 16.0), (16.0, 16.0), (16.001, 20.0), (40.5, 45.0),
        (45.1, 50.0), (50.0, 50.0), (50.001, None),
    ],
)  # fmt: skip
def test_the_shortest_stocked_length_that_reaches_is_taken(least_mm: float, length_mm: float | None) -> None:
    """Source: ISO 888 lengths 10, 12, 16, 20 … 45, 50 (14 is second choice); M5 of EN 1662 from 10 to 50 mm."""
    assert stack.preferred_length_mm(TABLES, "machine", "ISO 15071", "M5", least_mm) == length_mm


def test_no_length_is_made_up() -> None:
    """Beyond what is stocked, of a standard or a size that is not listed, there is none."""
    assert stack.preferred_length_mm(TABLES, "machine", "ISO 15071", "M5", 500.0) is None
    assert stack.preferred_length_mm(TABLES, "machine", "ISO 15071", "M2", 10.0) is None
    assert stack.preferred_length_mm(TABLES, "machine", "no standard", "M5", 10.0) is None


@pytest.mark.parametrize(("visible", "standard"), [(Visible.YES, "ISO 14583"), (Visible.NO, "ISO 15071")])
def test_a_head_that_is_seen_is_a_pan_and_any_other_a_flange(visible: Visible, standard: str) -> None:
    """Common practice, no source."""
    head = stack.head_for(TABLES, "M5", visible)
    assert head is not None
    assert head.standard == standard


def test_a_size_without_lengths_has_no_head() -> None:
    assert stack.head_for(TABLES, "M99", Visible.NO) is None


def test_bits_near_a_hole_are_all_within_six_tenths_and_far_from_any_bit_all_are_ranked() -> None:
    near = stack.bits_near(TABLES, 7.6)
    assert near
    assert all(abs(bit.diameter_mm - 7.6) <= 0.6 for bit in near)
    left_out = [bit for bit in all_bits(TABLES) if bit not in near]
    assert all(abs(bit.diameter_mm - 7.6) > 0.6 for bit in left_out)
    assert len(stack.bits_near(TABLES, 500.0)) == len(all_bits(TABLES))
