"""Drill series and clearance holes: complete, in order, each once."""

from itertools import pairwise
from math import gcd
from string import ascii_uppercase

import pytest

from fasten.catalog.rows import (
    DRILLS_METRIC,
    INCH_DRILLS,
    METRIC_CLEARANCE,
    UNIFIED_CLEARANCE,
    UNIFIED_TAP_DRILLS,
    UNIFIED_THREADS,
)
from fasten.catalog.tables import builtin


def _series(series: str) -> dict[str, float]:
    return {row.name_: row.diameter_in for row in builtin().rows(INCH_DRILLS[series])}


def test_number_drills_are_eighty() -> None:
    """ASME B94.11M: #80 to #1, each larger than the one before, ends as printed."""
    drills = _series("number")
    assert list(drills) == [f"#{number}" for number in range(80, 0, -1)]
    assert (drills["#80"], drills["#60"], drills["#30"], drills["#1"]) == (0.0135, 0.0400, 0.1285, 0.2280)


def test_number_drills_are_printed_in_half_thousandths() -> None:
    """ASME B94.11M: every number drill is a whole or half thousandth of an inch but #69, 0.0292."""
    off = [name for name, diameter in _series("number").items() if round(diameter * 10_000) % 5]
    assert off == ["#69"]


def test_letter_drills_are_twenty_six() -> None:
    """ASME B94.11M: A to Z, each larger than the one before; A is above #1 and E is 1/4 in."""
    drills = _series("letter")
    assert list(drills) == list(ascii_uppercase)
    assert (drills["A"], drills["E"], drills["Z"]) == (0.234, 0.250, 0.413)
    assert drills["A"] > _series("number")["#1"]


def test_fraction_drills_are_every_sixty_fourth() -> None:
    """1/64 to 1 in by sixty-fourths, each in lowest terms and exact."""
    expected = {}
    for n in range(1, 65):
        common = gcd(n, 64)
        expected["1" if n == 64 else f"{n // common}/{64 // common}"] = n / 64
    assert _series("fraction") == expected


def test_metric_drills_follow_their_rule() -> None:
    """BS 328: by 0, 2, 5, 8 hundredths to 1 mm, by 0.05 to 3, by 0.1 to 14, by 0.25 to 25."""
    hundredths = [tens + units for tens in range(20, 100, 10) for units in (0, 2, 5, 8)]
    hundredths += [*range(100, 300, 5), *range(300, 1400, 10), *range(1400, 2501, 25)]
    ours = [row.diameter_mm for row in builtin().rows(DRILLS_METRIC)]
    assert ours == [value / 100 for value in hundredths]


@pytest.mark.parametrize("series", INCH_DRILLS)
def test_no_two_drills_of_a_series_are_alike(series: str) -> None:
    """Strictly rising: no gap is filled twice and no diameter stands twice."""
    diameters = list(_series(series).values())
    assert all(small < large for small, large in pairwise(diameters))


def test_only_e_and_a_quarter_are_the_same_drill(inch_drills: dict[str, float]) -> None:
    """Across the three inch series two names of one diameter would be a slip, but for E and 1/4."""
    names: dict[float, list[str]] = {}
    for name, diameter in inch_drills.items():
        names.setdefault(diameter, []).append(name)
    assert [same for same in names.values() if len(same) > 1] == [["E", "1/4"]]


def test_metric_clearance_rises_from_fine_to_coarse() -> None:
    """ISO 273: fine, medium, coarse each larger, all larger than the screw, and each size larger than the last."""
    rows = builtin().rows(METRIC_CLEARANCE)
    for row in rows:
        assert float(row.size.removeprefix("M")) < row.fine_mm < row.medium_mm < row.coarse_mm, row.size
    for small, large in pairwise(rows):
        assert small.medium_mm < large.medium_mm
        assert small.coarse_mm < large.coarse_mm


def test_metric_clearance_as_printed() -> None:
    """ISO 273 from memory, for the sizes that are used most: typed apart from the table."""
    expected = {
        "M3": (3.2, 3.4, 3.6), "M4": (4.3, 4.5, 4.8), "M5": (5.3, 5.5, 5.8), "M6": (6.4, 6.6, 7.0),
        "M8": (8.4, 9.0, 10.0), "M10": (10.5, 11.0, 12.0), "M12": (13.0, 13.5, 14.5), "M16": (17.0, 17.5, 18.5),
    }  # fmt: skip
    rows = {row.size: (row.fine_mm, row.medium_mm, row.coarse_mm) for row in builtin().rows(METRIC_CLEARANCE)}
    assert {size: rows[size] for size in expected} == expected


def test_unified_clearance_rises_from_close_to_loose(inch_drills: dict[str, float]) -> None:
    """ASME B18.2.8: every hole is a drill of a series, larger than the screw, close under normal under loose."""
    majors = {row.size: row.major_in for row in builtin().rows(UNIFIED_THREADS)}
    for row in builtin().rows(UNIFIED_CLEARANCE):
        close, normal, loose = (inch_drills[name] for name in (row.close, row.normal, row.loose))
        assert majors.get(row.size, 0.0) < close < normal < loose, row.size


def test_unified_sizes_have_a_clearance_hole() -> None:
    """#12 alone has none: ASME B18.2.8 leaves it out."""
    sizes = {row.size for row in builtin().rows(UNIFIED_THREADS)}
    assert sizes - {row.size for row in builtin().rows(UNIFIED_CLEARANCE)} == {"#12"}


def test_tap_drills_are_below_the_thread(inch_drills: dict[str, float]) -> None:
    """A tap drill is a drill of a series and smaller than the screw."""
    majors = {row.designation: row.major_in for row in builtin().rows(UNIFIED_THREADS)}
    for row in builtin().rows(UNIFIED_TAP_DRILLS):
        assert inch_drills[row.drill] < majors[row.thread], row.thread


def test_traps_of_older_charts() -> None:
    """Figures older charts give otherwise: #6 normal is #18, 5/16-18 taps at F, #10-32 at #21, #10-24 at #25."""
    taps = {row.thread: row.drill for row in builtin().rows(UNIFIED_TAP_DRILLS)}
    clears = {row.size: row.normal for row in builtin().rows(UNIFIED_CLEARANCE)}
    assert clears["#6"] == "#18"
    assert (taps["5/16-18"], taps["#10-32"], taps["#10-24"]) == ("F", "#21", "#25")
