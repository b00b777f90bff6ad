"""On which side of the bulkhead a run of a job lies, and whether it lies on both and nothing says how it passes it."""

from collections.abc import Callable, Iterator

from fasten.job.store.job_toml import same_name
from fasten.job.wiring.things import HOLDER
from fasten.job.words import CableRun, Job, Mount
from fasten.question.fields import ONTO, WHERE
from fasten.question.item import item_of
from fasten.text.names import folded
from fasten.wiring.words import BatteryPost, End, RunWhere, StudAt, StudEnd

_BAY = folded(RunWhere.ENGINE_BAY.value)
_BULKHEAD = "bulkhead"  # how a hole in it is called
Ends = tuple[tuple[End, str], ...]
MountOf = Callable[[str], Mount | None]


def begins_in_bay(run: CableRun, job: Job, mount_of: MountOf, ends: Ends) -> bool:
    """Whether an end of the run is known to be in the engine bay.

    `ends` are its ends and the names of what of the job these are at, `mount_of` finds these. A battery that is no
    mount point is in the engine bay where a fuse holder of the job is, as that sits beside it, or where the run goes
    from it through a hole that is called after the bulkhead.
    """
    if any(map(_is_in_bay, _mounts(mount_of, ends))):
        return True
    through_it = any(_BULKHEAD in same_name(name) for name in run.holes)
    return _is_at_unplaced(ends) and (through_it or _has_battery_in_bay(job))


def is_unpassed(run: CableRun, job: Job, mount_of: MountOf, ends: Ends) -> bool:
    """Whether a part of the run is in the engine bay, a part is not, and it goes through no hole.

    `mount_of` and `ends` are as of `begins_in_bay`.
    """
    if run.holes:
        return False
    through = set(map(same_name, run.sections))
    sections = [folded(dict(one.said).get(WHERE.name, "")) for one in job.sections if same_name(one.name) in through]
    places = (*map(_is_in_bay, _mounts(mount_of, ends)), *(where == _BAY for where in sections if where))
    if False not in places:
        return False
    is_hot = True in places or folded(dict(run.said).get(WHERE.name, "")) == _BAY
    return is_hot or begins_in_bay(run, job, mount_of, ends)


def _mounts(mount_of: MountOf, ends: Ends) -> Iterator[Mount]:
    """The mount points that the run is at."""
    return filter(None, (mount_of(name) for _, name in ends if name))


def _is_at_unplaced(ends: Ends) -> bool:
    """Whether the run is at a battery that is no mount point, so that nothing says where it is."""
    return any(_is_at_battery(end) and not name for end, name in ends)


def _is_at_battery(end: End) -> bool:
    return isinstance(end, BatteryPost) or (isinstance(end, StudEnd) and end.at is StudAt.BATTERY)


def _has_battery_in_bay(job: Job) -> bool:
    return any(item_of(dict(mount.said)) == HOLDER and _is_in_bay(mount) for mount in job.mounts)


def _is_in_bay(mount: Mount) -> bool:
    """Whether a mount point is in the engine bay, by where it is or what it is fastened to."""
    said = dict(mount.said)
    return folded(said.get(WHERE.name, "")) == _BAY or _BAY in folded(said.get(ONTO.name, ""))
