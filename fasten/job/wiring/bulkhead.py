"""Whether a run of a job lies on both sides of the bulkhead and nothing says how it passes it."""

from collections.abc import Callable

from fasten.job.store.job_toml import same_name
from fasten.job.wiring.things import HOLDER
from fasten.job.words import CableRun, Job, Mount
from fasten.question.fields import ONTO, WHERE
from fasten.question.item import item_of
from fasten.text.names import folded
from fasten.wiring.words import BatteryPost, End, RunWhere, StudAt, StudEnd

_BAY = folded(RunWhere.ENGINE_BAY.value)


def is_unpassed(
    run: CableRun, job: Job, mount_of: Callable[[str], Mount | None], ends: tuple[tuple[End, str], ...]
) -> bool:
    """Whether a part of the run is in the engine bay, a part is not, and it goes through no hole.

    `ends` are its ends and the names of what of the job these are at, `mount_of` finds these. A battery that is no
    mount point is in the engine bay where a fuse holder of the job is: that sits beside it.
    """
    if run.holes:
        return False
    mounts = filter(None, (mount_of(name) for _, name in ends if name))
    through = set(map(same_name, run.sections))
    sections = [folded(dict(one.said).get(WHERE.name, "")) for one in job.sections if same_name(one.name) in through]
    at_battery = any(_is_at_battery(end) and not name for end, name in ends)
    places = (*map(_is_in_bay, mounts), *(where == _BAY for where in sections if where))
    if False not in places:
        return False
    is_hot = True in places or folded(dict(run.said).get(WHERE.name, "")) == _BAY
    return is_hot or (at_battery and _has_battery_in_bay(job))


def _is_at_battery(end: End) -> bool:
    return isinstance(end, BatteryPost) or (isinstance(end, StudEnd) and end.at is StudAt.BATTERY)


def _has_battery_in_bay(job: Job) -> bool:
    return any(item_of(dict(mount.said)) == HOLDER and _is_in_bay(mount) for mount in job.mounts)


def _is_in_bay(mount: Mount) -> bool:
    """Whether a mount point is in the engine bay, by where it is or what it is fastened to."""
    said = dict(mount.said)
    return folded(said.get(WHERE.name, "")) == _BAY or _BAY in folded(said.get(ONTO.name, ""))
