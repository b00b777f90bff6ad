"""The sizes of a trunk that take the least copper with all that is behind it, whatever is lost before it.

Of each run only those ways are kept that no other beats in both: less copper, and more that may be lost before it.
"""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import replace
from functools import cache

from fasten.catalog.tables import Tables
from fasten.record import record
from fasten.wiring.current import current_of
from fasten.wiring.sizes import sizes
from fasten.wiring.sizing import option
from fasten.wiring.words import Run, Size, Unsized


@record
class Way:
    """A size of a run: the copper of it and of all behind it, in mm³, and the most that may be lost before it, in V."""

    size: Size
    copper_mm3: float
    spare_v: float


Ways = Callable[[str, float | None], tuple[Way, ...]]


def ways_of(runs: Mapping[str, Run], branches: Mapping[str, tuple[str, ...]], tables: Tables) -> Ways:
    """What gives the ways of a run by its name and the fuse before it in A, least copper first; none where none does.

    `runs` have their loads and grounds.
    """

    @cache
    def ways(name: str, upstream_fuse_a: float | None) -> tuple[Way, ...]:
        run = replace(runs[name], upstream_fuse_a=upstream_fuse_a)
        tried = (run.chosen,) if run.chosen is not None else sizes(run.series, tables)
        return _unbeaten(way for size in tried for way in with_size(size, run, name))

    @cache
    def behind(name: str, fuse_a: float | None) -> tuple[tuple[float, float], ...]:
        return tuple(_together([ways(branch, fuse_a) for branch in branches[name]]))

    def with_size(size: Size, run: Run, name: str) -> Iterator[Way]:
        assert not isinstance(run.carries, Unsized)  # what feeds or is fed is loaded
        one = option(size, current_of(run.carries, run, tables), run, tables)
        if one is None or not one.fits:
            return
        fuse_a = run.upstream_fuse_a if one.fuse is None else one.fuse.rating_a
        copper_mm3 = size.area_mm2 * (run.length_mm + run.ground_mm + run.return_mm)
        spare_v = run.limit_v - one.conductor.drop_v
        for more_mm3, left_v in behind(name, fuse_a):
            yield Way(size, copper_mm3 + more_mm3, min(spare_v, left_v - one.conductor.drop_v))

    return ways


def _together(branches: list[tuple[Way, ...]]) -> Iterator[tuple[float, float]]:
    """The copper of all branches and the most that may be lost before them: each spare with the least copper for it.

    A branch that no size does for by itself is left out: it is refused, whatever is before it.
    """
    branches = [ways for ways in branches if ways]
    if not branches:
        yield 0.0, float("inf")
    for spare_v in sorted({way.spare_v for ways in branches for way in ways}):
        least = [next((way.copper_mm3 for way in ways if way.spare_v >= spare_v), None) for ways in branches]
        if None not in least:
            yield sum(filter(None, least)), spare_v


def _unbeaten(ways: Iterator[Way]) -> tuple[Way, ...]:
    kept: list[Way] = []
    for way in sorted(ways, key=lambda one: one.copper_mm3):
        if way.spare_v >= 0 and (not kept or way.spare_v > kept[-1].spare_v):
            kept.append(way)
    return tuple(kept)
