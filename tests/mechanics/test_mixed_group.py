"""Groups of unlike fixings by hand: rows that lie aslant, what stands on its foot, and an item off its middle."""

from math import hypot

import pytest

from fasten.mechanics.mixed_group import shares
from fasten.require import Points

PAIR = ((-50.0, 0.0), (50.0, 0.0))
MIDDLE = (0.0, 0.0)


def test_an_item_off_the_middle_of_a_row_pulls_most_at_the_nearer_fixing() -> None:
    """Two 100 apart, the item 10 nearer to one: a half, and 10/100 more or less."""
    found = shares(points_mm=PAIR, stiffnesses=(1.0, 1.0), middle_mm=(10.0, 0.0), foot_mm=5.0)
    assert [one.tension for one in found] == pytest.approx([0.4, 0.6])


def test_a_row_that_lies_aslant_is_levered_along_itself() -> None:
    """One at 50 and one at 30 mm from the middle of the item, on a line that rises by 4 in 3."""
    found = shares(points_mm=((-30.0, -40.0), (18.0, 24.0)), stiffnesses=(1.0, 1.0), middle_mm=MIDDLE, foot_mm=5.0)
    assert [one.tension for one in found] == pytest.approx([30 / 80, 50 / 80])


def test_one_that_holds_nothing_keeps_no_row_from_tipping_on_the_foot() -> None:
    """Three along x hold, one aside does not: 1/(3 x 5) across on a foot of 5 mm, and 100/20,000 along at both ends."""
    points = ((-100.0, 0.0), (0.0, 0.0), (100.0, 0.0), (0.0, 80.0))
    found = shares(points_mm=points, stiffnesses=(1.0, 1.0, 1.0, 0.0), middle_mm=MIDDLE, foot_mm=5.0)
    across, at_ends = 1 / 15, hypot(1 / 15, 100 / 20_000)
    assert [one.tipping_per_mm for one in found] == pytest.approx([at_ends, across, at_ends, 0.0])


def test_what_spreads_less_than_its_foot_tips_on_it_whichever_way() -> None:
    """Two 6 mm apart on a foot of 5 mm: each a half of 1/5 mm."""
    found = shares(points_mm=((-3.0, 0.0), (3.0, 0.0)), stiffnesses=(1.0, 1.0), middle_mm=MIDDLE, foot_mm=5.0)
    assert [one.tipping_per_mm for one in found] == pytest.approx([0.1, 0.1])


@pytest.mark.parametrize(
    ("points", "stiffnesses", "because"),
    [
        (PAIR[:1], (1.0,), "one fixing has no others"),
        (PAIR, (1.0, 1.0, 1.0), "each with its stiffness"),
        (PAIR, (0.0, 0.0), "nothing would hold the item"),
        (PAIR, (1.0, -1.0), "stiffness"),
    ],
)
def test_what_is_no_group_is_refused(points: Points, stiffnesses: tuple[float, ...], because: str) -> None:
    with pytest.raises(ValueError, match=because):
        shares(points_mm=points, stiffnesses=stiffnesses, middle_mm=MIDDLE, foot_mm=5.0)


def test_a_foot_of_no_size_is_refused() -> None:
    with pytest.raises(ValueError, match="foot_mm"):
        shares(points_mm=PAIR, stiffnesses=(1.0, 1.0), middle_mm=MIDDLE, foot_mm=0.0)
