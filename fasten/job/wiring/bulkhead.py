"""On which side of the bulkhead a run of a job lies, and whether it lies on both and nothing says how it passes it."""

from collections.abc import Iterable
from functools import cached_property

from fasten.job.store.job_toml import same_name
from fasten.job.wiring.things import HOLDER
from fasten.job.words import CableRun, Job, Mount, Recorded
from fasten.question.fields import ONTO, WHERE
from fasten.record import record
from fasten.text.names import folded
from fasten.wiring.words import BatteryPost, End, RunWhere, StudAt, StudEnd

_BAY = folded(RunWhere.ENGINE_BAY.value)
_BULKHEAD = "bulkhead"  # how a hole in it is called
Ends = tuple[tuple[End, str], ...]


@record
class Bay:
    """The engine bay of a job, as far as it is known what lies there."""

    job: Job

    def begins(self, run: CableRun, ends: Ends, at: tuple[Mount, ...]) -> bool:
        """Whether an end of the run is known to be there.

        `ends` are its ends and the names of what of the job these are at, `at` are the mount points among these. A
        battery that is no mount point is there where a fuse holder of the job is, as that sits beside it, or where the
        run goes from it through a hole that is called after the bulkhead.
        """
        if any(map(_is_in_bay, at)):
            return True
        through_it = any(_BULKHEAD in same_name(name) for name in run.holes)
        return _is_at_unplaced(ends) and (through_it or self._has_battery)

    def is_unpassed(self, run: CableRun, sections: Iterable[Recorded], ends: Ends, at: tuple[Mount, ...]) -> bool:
        """Whether a part of the run is there, a part is not, and it goes through no hole.

        `sections` are those that it goes through, `ends` and `at` are as of `begins`.
        """
        if run.holes:
            return False
        lies = [folded(dict(one.said).get(WHERE.name, "")) for one in sections]
        places = (*map(_is_in_bay, at), *(where == _BAY for where in lies if where))
        if False not in places:
            return False
        is_hot = True in places or folded(dict(run.said).get(WHERE.name, "")) == _BAY
        return is_hot or self.begins(run, ends, at)

    @cached_property
    def _has_battery(self) -> bool:
        """Whether a fuse holder of the job is there."""
        return any(map(_is_in_bay, self.job.of_item.get(HOLDER, ())))


def _is_at_unplaced(ends: Ends) -> bool:
    """Whether the run is at a battery that is no mount point, so that nothing says where it is."""
    return any(_is_at_battery(end) and not name for end, name in ends)


def _is_at_battery(end: End) -> bool:
    return isinstance(end, BatteryPost) or (isinstance(end, StudEnd) and end.at is StudAt.BATTERY)


def _is_in_bay(mount: Mount) -> bool:
    """Whether a mount point is in the engine bay, by where it is or what it is fastened to."""
    said = dict(mount.said)
    return folded(said.get(WHERE.name, "")) == _BAY or _BAY in folded(said.get(ONTO.name, ""))
