"""The sizes of a trunk that take the least copper with all that is behind it, whatever is lost before it.

Of each run only those ways are kept that no other beats in both: less copper, and more that may be lost before it.
What is lost is in V; of loudspeaker leads, in % of the impedance.
"""

from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import cache

from fasten.catalog.tables import Tables
from fasten.record import lean, replace
from fasten.wiring.current import current_of
from fasten.wiring.sizes import sizes
from fasten.wiring.sizing import option
from fasten.wiring.words import Run, Size, Unsized


@lean
class Way:
    """A size of a run: the copper of it and of all behind it, in mm³, and the most that may be lost before it."""

    size: Size
    copper_mm3: float
    spare: float


@lean
class Step:
    """A size that does for a run by itself: its copper, in mm³, what is lost along it, of which limit, and the fuse."""

    size: Size
    copper_mm3: float
    lost: float
    limit: float
    fuse_a: float | None


Ways = Callable[[str, float | None], tuple[Way, ...]]
Steps = Callable[[str, float | None], Iterable[Step]]


def ways_of(steps: Steps, branches: Mapping[str, tuple[str, ...]]) -> Ways:
    """What gives the ways of a run by its name and the fuse before it in A, least copper first; none where none does.

    `steps` gives the sizes that do for a run by itself, behind that fuse.
    """

    @cache
    def ways(name: str, upstream_fuse_a: float | None) -> tuple[Way, ...]:
        return _unbeaten(way for step in steps(name, upstream_fuse_a) for way in with_all(step, name))

    @cache
    def behind(name: str, fuse_a: float | None) -> tuple[tuple[float, float], ...]:
        return tuple(_together([ways(branch, fuse_a) for branch in branches[name]]))

    def with_all(step: Step, name: str) -> Iterator[Way]:
        for more_mm3, left in behind(name, step.fuse_a):
            yield Way(step.size, step.copper_mm3 + more_mm3, min(step.limit, left) - step.lost)

    return ways


def ways_alone(steps: Iterable[Step]) -> Iterator[Way]:
    """The ways of a run that nothing is behind, found one after the other; its steps come thinnest first."""
    return (Way(step.size, step.copper_mm3, step.limit - step.lost) for step in steps if step.limit >= step.lost)


def power_steps(runs: Mapping[str, Run], tables: Tables) -> Steps:
    """The sizes that do for a run that has its load and its ground."""

    def steps(name: str, upstream_fuse_a: float | None) -> Iterator[Step]:
        run = replace(runs[name], upstream_fuse_a=upstream_fuse_a)
        assert not isinstance(run.carries, Unsized)  # what feeds or is fed is loaded
        current = current_of(run.carries, run, tables)
        for size in (run.chosen,) if run.chosen is not None else sizes(run.series, tables):
            one = option(size, current, run, tables)
            if one is not None and one.fits:
                fuse_a = upstream_fuse_a if one.fuse is None else one.fuse.rating_a
                copper_mm3 = size.area_mm2 * (run.length_mm + run.back_mm)
                yield Step(size, copper_mm3, one.conductor.drop_v, run.limit_v, fuse_a)

    return steps


def _together(branches: list[tuple[Way, ...]]) -> Iterator[tuple[float, float]]:
    """The copper of all branches and the most that may be lost before them: each spare with the least copper for it.

    A branch that no size does for by itself is left out: it is refused, whatever is before it.
    """
    branches = [ways for ways in branches if ways]
    if not branches:
        yield 0.0, float("inf")
    for spare in sorted({way.spare for ways in branches for way in ways}):
        least = [next((way.copper_mm3 for way in ways if way.spare >= spare), None) for ways in branches]
        if None not in least:
            yield sum(filter(None, least)), spare


def _unbeaten(ways: Iterator[Way]) -> tuple[Way, ...]:
    kept: list[Way] = []
    for way in sorted(ways, key=lambda one: one.copper_mm3):
        if way.spare >= 0 and (not kept or way.spare > kept[-1].spare):
            kept.append(way)
    return tuple(kept)
