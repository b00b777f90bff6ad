"""The ways of a run that nothing is behind, found one after the other, are those of all its sizes."""

from collections.abc import Iterable, Iterator

import pytest
from hypothesis import given
from hypothesis import strategies as st

from fasten.catalog.tables import builtin
from fasten.wiring.copper import Step, Way, ways_alone, ways_of
from fasten.wiring.sizes import sizes
from fasten.wiring.words import Series

SIZES = sizes(Series.AWG, builtin())
LOST = st.lists(st.floats(0, 8), min_size=1, max_size=len(SIZES))


@pytest.mark.parametrize("series", Series)
def test_sizes_come_thinnest_first(series: Series) -> None:
    areas = [size.area_mm2 for size in sizes(series, builtin())]
    assert areas == sorted(set(areas))


@given(LOST, st.floats(0, 8))
def test_the_first_that_leaves_enough_is_the_same(lost: list[float], before: float) -> None:
    """Whatever is lost in a size, as cable that was measured may lose more than a thinner one."""
    steps = [Step(size, size.area_mm2, each, 5.0, None) for size, each in zip(SIZES, lost, strict=False)]
    alone, among = ways_alone(steps), ways_of(lambda *_: steps, {"lead": ()})("lead", None)
    assert _first(alone, before) == _first(among, before)


def test_no_size_is_tried_beyond_it() -> None:
    def steps() -> Iterator[Step]:
        yield Step(SIZES[0], 1.0, 1.0, 5.0, None)
        raise AssertionError("the next size was tried")

    assert _first(ways_alone(steps()), 2.0) == Way(SIZES[0], 1.0, 4.0)


def _first(ways: Iterable[Way], before: float) -> Way | None:
    return next((way for way in ways if way.spare >= before), None)
