"""Heads, washers, nuts and lengths: what must hold between one table and another."""

from itertools import pairwise

import pytest

from fasten.catalog.parts import HEADS, LENGTH_RANGES, NUTS, PREFERRED_LENGTHS, WASHERS, Head, Nut, Washer
from fasten.catalog.rows import METRIC_CLEARANCE, TAPPING_THREADS, MetricClearance
from fasten.catalog.tables import builtin

NOT_RANGED = {("ISO 7045", "M3.5"), ("ISO 14585", "ST3.9"), ("ISO 14585", "ST8")}


def _heads(standard: str) -> dict[str, Head]:
    return {row.size: row for row in builtin().rows(HEADS) if row.standard == standard}


def _washers(standard: str) -> dict[str, Washer]:
    return {row.size: row for row in builtin().rows(WASHERS) if row.standard == standard}


def _nuts(standard: str) -> dict[str, Nut]:
    return {row.size: row for row in builtin().rows(NUTS) if row.standard == standard}


def _clearance() -> dict[str, MetricClearance]:
    return {row.size: row for row in builtin().rows(METRIC_CLEARANCE)}


def _nominal(size: str) -> float:
    return float(size.removeprefix("ST").removeprefix("M"))


def _it14(length_mm: float) -> float:
    """ISO 286 tolerance grade IT14 up to 18 mm (memory)."""
    return next(width for to, width in ((3, 0.25), (6, 0.30), (10, 0.36), (18, 0.43)) if length_mm <= to)


def test_every_head_is_wider_than_its_clearance_hole() -> None:
    """ISO 273 medium: at its least diameter a head still bears round the hole."""
    for row in builtin().rows(HEADS):
        if row.size.startswith("M"):
            assert (row.diameter_min_mm or row.diameter_max_mm) > _clearance()[row.size].medium_mm, row.name()
        assert row.diameter_min_mm is None or row.diameter_min_mm < row.diameter_max_mm, row.name()


def test_heads_rise_with_size() -> None:
    """Within a standard the larger screw has the larger and no lower head."""
    for standard in {row.standard for row in builtin().rows(HEADS)}:
        for small, large in pairwise(_heads(standard).values()):
            assert _nominal(small.size) < _nominal(large.size)
            assert small.diameter_max_mm < large.diameter_max_mm
            assert (small.height_max_mm or 0.0) <= (large.height_max_mm or 0.0)


def test_iso_10642_is_2_24_d_and_a_true_right_angle() -> None:
    """ISO 10642 (memory): theoretical head 2.24 d; a 90° cone from the head to the thread is (dk - d)/2 high."""
    heads = _heads("ISO 10642")
    assert set(heads) == {"M3", "M4", "M5", "M6", "M8"}
    for size, row in heads.items():
        assert row.diameter_max_mm == pytest.approx(2.24 * _nominal(size), abs=1e-9)
        assert row.height_max_mm == pytest.approx((row.diameter_max_mm - _nominal(size)) / 2, abs=1e-9)


def test_iso_4762_head_is_as_high_as_the_thread() -> None:
    """ISO 4762 (memory): k = d; dk = 1.5 d + 1 up to M10, M12 18."""
    for size, row in _heads("ISO 4762").items():
        assert row.height_max_mm == _nominal(size)
        assert row.diameter_max_mm == (18.0 if size == "M12" else 1.5 * _nominal(size) + 1)


@pytest.mark.parametrize("standard", ["ISO 7380-1", "ISO 7045", "ISO 14583"])
def test_least_head_diameter_is_one_it14_less(standard: str) -> None:
    """ISO 4759-1: head diameters to h14; ISO 286 IT14 of the diameter (memory)."""
    for row in _heads(standard).values():
        assert row.diameter_min_mm == pytest.approx(row.diameter_max_mm - _it14(row.diameter_max_mm), abs=1e-9)


def test_a_collar_is_wider_than_a_button_of_the_same_height() -> None:
    """ISO 7380-2 beside ISO 7380-1."""
    for size, collar in _heads("ISO 7380-2").items():
        button = _heads("ISO 7380-1")[size]
        assert collar.diameter_max_mm > 1.2 * button.diameter_max_mm
        assert (collar.height_max_mm, collar.drive_size) == (button.height_max_mm, button.drive_size)


def test_heads_that_are_taken_for_one_another_differ() -> None:
    """ISO 10642 is not DIN 7991 (12, 3.3), ISO 7045 not DIN 7985 (10, 3.95); EN 1665 is the heavy flange."""
    assert (_heads("ISO 10642")["M6"].diameter_max_mm, _heads("ISO 10642")["M6"].height_max_mm) == (13.44, 3.72)
    assert (_heads("ISO 7045")["M5"].diameter_max_mm, _heads("ISO 7045")["M5"].height_max_mm) == (9.5, 3.7)
    assert (_heads("EN 1665")["M6"].drive_size, _heads("ISO 15071")["M6"].drive_size) == ("10", "8")


def test_a_flange_is_wider_than_its_hexagon() -> None:
    """EN 1665 and ISO 15071: over the corners (flats over cos 30°) the hexagon stays inside the flange."""
    for standard in ("EN 1665", "ISO 15071"):
        for row in _heads(standard).values():
            assert row.diameter_max_mm > float(row.drive_size) / 0.866, row.name()


def test_iso_4017_bears_inside_its_flats() -> None:
    """ISO 4017 (memory): bearing face just under the width across flats, which is its spanner."""
    for row in _heads("ISO 4017").values():
        assert row.diameter_max_mm == float(row.drive_size)
        assert row.diameter_min_mm is not None
        assert 1.0 < row.diameter_max_mm - row.diameter_min_mm < 1.5


def test_tapping_heads_cover_their_clearance_hole() -> None:
    """ISO 14585 as listed: every head is over 1.6 times its thread (common to pan heads, no source)."""
    majors = {row.designation: row.major_max_mm for row in builtin().rows(TAPPING_THREADS)}
    for size, row in _heads("ISO 14585").items():
        assert row.diameter_max_mm > 1.6 * majors[size], size


def test_iso_7089_hole_is_the_fine_clearance() -> None:
    """ISO 7089 takes its holes from the fine series of ISO 273; so does ISO 7093-1."""
    for standard in ("ISO 7089", "ISO 7093-1"):
        assert set(_washers(standard)) == {"M3", "M4", "M5", "M6", "M8", "M10", "M12"}
        for size, row in _washers(standard).items():
            assert row.hole_mm == _clearance()[size].fine_mm


def test_washers_as_printed() -> None:
    """ISO 7089 and ISO 7093-1 outside diameters: about 2 d and 3 d; thickness rises; large covers plain."""
    for size, plain in _washers("ISO 7089").items():
        large = _washers("ISO 7093-1")[size]
        assert large.outer_mm == (37.0 if size == "M12" else 3 * _nominal(size))
        assert plain.outer_mm < large.outer_mm
        assert plain.thickness_mm <= large.thickness_mm
    for standard in ("ISO 7089", "ISO 7093-1"):
        for small, next_up in pairwise(_washers(standard).values()):
            assert small.outer_mm < next_up.outer_mm
            assert small.thickness_mm <= next_up.thickness_mm


def test_a_socket_head_stays_on_its_washer() -> None:
    """ISO 4762 heads are smaller than ISO 7089 washers, and larger than their holes."""
    for size, head in _heads("ISO 4762").items():
        washer = _washers("ISO 7089")[size]
        assert washer.hole_mm < head.diameter_max_mm < washer.outer_mm, size


def test_nut_heights() -> None:
    """ISO 10511 under ISO 7040, ISO 4032 without insert under ISO 7040; full thread under the height of the nut."""
    for size, tall in _nuts("ISO 7040").items():
        thin, plain = _nuts("ISO 10511")[size], _nuts("ISO 4032")[size]
        assert thin.height_max_mm < tall.height_max_mm
        assert plain.height_max_mm < tall.height_max_mm
        assert tall.thread_height_mm == plain.thread_height_mm
        assert tall.across_flats_mm == thin.across_flats_mm == plain.across_flats_mm
    for row in builtin().rows(NUTS):
        assert row.thread_height_mm is not None
        assert row.thread_height_mm < row.height_max_mm, row.name()


def test_thread_height_is_one_it14_less_than_the_plain_nut() -> None:
    """ISO 4759-1: nut heights to h14. ISO 7040 has the thread of ISO 4032, ISO 10511 that of ISO 4035 (memory)."""
    iso_4035 = {"M3": 1.8, "M4": 2.2, "M5": 2.7, "M6": 3.2, "M8": 4.0, "M10": 5.0, "M12": 6.0}
    for size, plain in _nuts("ISO 4032").items():
        high, low = plain.height_max_mm, iso_4035[size]
        assert plain.thread_height_mm == pytest.approx(high - _it14(high), abs=1e-9)
        assert _nuts("ISO 7040")[size].thread_height_mm == pytest.approx(high - _it14(high), abs=1e-9)
        assert _nuts("ISO 10511")[size].thread_height_mm == pytest.approx(low - _it14(low), abs=1e-9)


def test_iso_7040_is_not_din_985() -> None:
    """DIN 985 is 4, 5, 5, 6, 8, 10, 12 high (withdrawn); ISO 7040 as printed is taller everywhere."""
    heights = {size: row.height_max_mm for size, row in _nuts("ISO 7040").items()}
    assert heights == {"M3": 4.5, "M4": 6.0, "M5": 6.8, "M6": 8.0, "M8": 9.5, "M10": 11.9, "M12": 14.9}
    din_985 = {"M3": 4, "M4": 5, "M5": 5, "M6": 6, "M8": 8, "M10": 10, "M12": 12}
    assert all(heights[size] > height for size, height in din_985.items())


def test_nut_flats_are_the_iso_272_series() -> None:
    """ISO 272 widths across flats (memory), for nuts, ISO 4017 and EN 1665; M10 is 16 and M12 18."""
    flats = {"M3": 5.5, "M4": 7.0, "M5": 8.0, "M6": 10.0, "M8": 13.0, "M10": 16.0, "M12": 18.0}
    for nut in builtin().rows(NUTS):
        assert nut.across_flats_mm == flats[nut.size], nut.name()
    for standard in ("ISO 4017", "EN 1665"):
        for row in _heads(standard).values():
            assert float(row.drive_size) == flats[row.size], row.name()


def test_preferred_lengths_rise() -> None:
    """ISO 888 and ISO 7049: each length once, rising."""
    for family in ("machine", "tapping", "wood"):
        lengths = [row.length_mm for row in builtin().rows(PREFERRED_LENGTHS) if row.family == family]
        assert all(short < long for short, long in pairwise(lengths))


def test_lengths_as_printed() -> None:
    """ISO 888 first and second choice and ISO 7049, from memory, typed apart from the table."""
    expected = [2, 2.5, 3, 4, 5, 6, 8, 10, 12, 16, 20, 25, 30, 35, 40, 45, 50, 55, 60, 65, 70, 75, 80, 85, 90, 95, 100]
    expected += [110, 120, 130, 140, 150, 160, 170, 180, 190, 200]
    rows = builtin().rows(PREFERRED_LENGTHS)
    machine = {
        choice: [row.length_mm for row in rows if (row.family, row.choice) == ("machine", choice)]
        for choice in ("first", "second")
    }
    assert machine == {"first": expected, "second": [7, 9, 11, 14, 18, 22, 28, 32, 38]}
    tapping = [row.length_mm for row in rows if row.family == "tapping"]
    assert tapping == [4.5, 6.5, 9.5, 13, 16, 19, 22, 25, 32, 38]


def test_every_length_range_ends_at_lengths_that_are_made() -> None:
    """A range that starts or ends at no preferred length of its family would be a slip."""
    made: dict[str, set[float]] = {"machine": set(), "tapping": set(), "wood": set()}
    for row in builtin().rows(PREFERRED_LENGTHS):
        if row.choice == "first":
            made[row.family].add(row.length_mm)
    for range_ in builtin().rows(LENGTH_RANGES):
        family = "tapping" if range_.size.startswith("ST") else "machine"
        assert {range_.min_mm, range_.max_mm} <= made[family], range_.name()
        assert range_.min_mm < range_.max_mm


def test_every_head_has_a_length_range_but_those_nobody_could_read() -> None:
    """And no range stands without a head."""
    heads = {(row.standard, row.size) for row in builtin().rows(HEADS)}
    ranges = {(row.standard, row.size) for row in builtin().rows(LENGTH_RANGES)}
    assert heads - ranges == NOT_RANGED
    assert ranges <= heads
