"""The verdict band is a full row: solid where a verdict holds, hatched where not, every reason said."""

import pytest

from fasten.tui.drawn.band import HATCH, band
from fasten.tui.drawn.runs import columns, plain

REASONS = ("needs 15.4 mm behind", "up to 22.8 mm, hole centre to any edge", "a push there")


@pytest.mark.parametrize("width", [34, 44, 76, 120])
def test_a_verdict_that_does_not_hold_fills_its_row_and_loses_no_reason(width: int) -> None:
    row, more = band(False, "NOT PROVEN", REASONS, width)
    assert columns(row) == width
    assert plain(row).startswith(HATCH * 3)
    assert plain(row).endswith(HATCH * 2)
    said = " ".join(" ".join([plain(row), *map(plain, more)]).replace(HATCH, " ").split())
    assert all(reason in said for reason in REASONS)
    assert max((columns(line) for line in more), default=0) <= width
    assert all("reverse" not in style for _, style in row)


@pytest.mark.parametrize("width", [34, 44, 76, 120])
def test_a_verdict_that_holds_is_solid_over_its_row(width: int) -> None:
    row, more = band(True, "HOLDS", ("tightest 62 %, flange on hole", "27 checks"), width)
    assert columns(row) == width
    assert more == []
    assert all("reverse" in style for _, style in row)
    assert HATCH not in plain(row)
    assert ("27 checks" in plain(row)) is (width > 60)
