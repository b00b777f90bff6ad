"""A sample of the journeys that are counted by hand: by keys alone and by taps alone, in no more keys than before.

    python tests/benchmarks/journeys.py

goes all of them, at every size.
"""

import asyncio
from functools import partial

import pytest
from benchmarks.journeys import BEFORE, JOURNEYS, Counted, Person, twelve, walked

from fasten.job.list.ticks import Stray, is_packed
from fasten.tui.box.box import BoxPlace

from .pilot import SIZES, app_of, every_size

pytestmark = pytest.mark.slow

FIRST, _, MISSING = JOURNEYS


def counts_no_more(name: str, size: tuple[int, int], found: Counted) -> None:
    keys, _, wrong = BEFORE[name][SIZES.index(size)]
    assert found.keys <= keys
    assert found.wrong <= wrong


@pytest.mark.parametrize("name", [FIRST, MISSING])
@every_size
def test_by_keys_alone(size: tuple[int, int], name: str) -> None:
    counts_no_more(name, size, asyncio.run(walked(JOURNEYS[name], size)))


@pytest.mark.parametrize("name", [FIRST, MISSING])
@every_size
def test_by_taps_alone(size: tuple[int, int], name: str) -> None:
    counts_no_more(name, size, asyncio.run(walked(JOURNEYS[name], size, taps=True)))


def test_the_first_of_twelve_mount_points_is_packed_and_built_by_taps_alone() -> None:
    """Five lines of its box, every step and hole, and what was used; the whole of it is gone by hand."""

    async def some(person: Person) -> None:
        await twelve(person, mounts=1, things=5)
        app = app_of(person.pilot)
        assert app.open_job.job.mounts[0].visits, "it is written down"
        box = app.query_one(BoxPlace).box
        assert box is not None
        things = [line.thing for line in box.lines if line.thing is not None and not isinstance(line.thing, Stray)]
        assert sum(map(is_packed, things)) == 5

    found = asyncio.run(partial(walked, taps=True)(some, (44, 30)))
    assert found.ticks > 5
    assert found.wrong == 0
