"""Which series of each thread a job uses: what is settled, else what most of its mount points get by themselves.

Settled is what is pinned, built, drilled for, or packed into the box. Where nothing is, the series of the most mount
points counts, then that of the most fixings, then the first by name: so no order of the mount points matters, and each
is answered by itself before any is answered anew. A mount point alone in its job gets what it gets outside of one.
"""

from collections.abc import Iterable

from fasten.model.line import of_one_size, series_of_line
from fasten.record import lean


@lean
class Use:
    """A series, by its id, that a mount point gets by itself, at how many fixings, and whether that is settled."""

    series: str
    fixings: int
    settled: bool


def used_series(uses: Iterable[Use], packed: Iterable[str]) -> frozenset[str]:
    """The series that the job's mount points take where they can, from what each gets and the ticks of the box."""
    uses = tuple(uses)
    settled = {use.series for use in uses if use.settled} | {series_of_line(tick) for tick in packed}
    free = {use.series for use in uses if not any(of_one_size(use.series, other) for other in settled)}
    most = (max(_rivals(series, free), key=lambda one: _weight(one, uses)) for series in free)
    return frozenset(settled) | frozenset(most)


def _rivals(series: str, among: set[str]) -> list[str]:
    """Those of its part and thread and itself, the first by name first: of equal ones `max` keeps it."""
    return sorted(other for other in among if of_one_size(other, series))


def _weight(series: str, uses: Iterable[Use]) -> tuple[int, int]:
    """At how many mount points it is, and at how many fixings."""
    counts = [use.fixings for use in uses if use.series == series]
    return len(counts), sum(counts)
