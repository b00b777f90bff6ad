"""What stiffens a panel is shown as it may be typed again."""

import pytest

from fasten.catalog.tables import builtin
from fasten.question.read_onto import read_between
from fasten.question.read_support import read_support
from fasten.text.given import given_text

SAID = {
    "frame": "frame", "frame 4 of 6": "frame 4", "firm": "firm", "ribs 8 mm deep": "ribs 8 mm",
    "tapped 31 hertz": "tapped 31 Hz",
    "push 60 N 0.4 mm, 150 N 0.85 mm": "push 60 N 0.4 mm, 150 N 0.85 mm", "bay 450x300": "bay 300 x 450 mm",
    "span 0.6 m": "span 600 mm",
}  # fmt: skip


@pytest.mark.parametrize(("typed", "shown"), SAID.items())
def test_a_support_reads_back_as_it_is_shown(typed: str, shown: str) -> None:
    tables = builtin()
    support = read_support(typed, tables, "support")
    assert given_text(support) == shown
    assert read_support(shown, tables, "support") == support


@pytest.mark.parametrize("typed", ["foam 3 mm", "carpet 12 mm cut out", "carpet 12.5 mm cut out, butyl 2 mm"])
def test_a_soft_layer_reads_back_as_it_is_shown(typed: str) -> None:
    between = read_between(typed, builtin(), "between")
    assert given_text(between) == typed


@pytest.mark.parametrize(
    "typed",
    ["Carpet 12,5 mm,deadening 2 mm", "carpet 12.5 mm over sound-deadener 2mm", "carpet 12.5 mm and bitumen 2 mm"],
)
def test_soft_layers_are_read_in_the_ways_people_part_them(typed: str) -> None:
    assert given_text(read_between(typed, builtin(), "between")) == "carpet 12.5 mm, deadener 2 mm"
