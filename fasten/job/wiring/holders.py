"""The fuse holders that are mount points of a job already: each is adopted by the run whose fuse sits in it."""

from collections.abc import Iterator, Mapping

from fasten.job.store.job_toml import same_name
from fasten.job.wiring.things import HOLDER
from fasten.job.words import Job
from fasten.wiring.fuse import is_battery
from fasten.wiring.pieces import hangs_in_cable, in_block
from fasten.wiring.sizing import Sizing
from fasten.wiring.words import Run


def holders_of(job: Job, sized: Mapping[str, Sizing]) -> dict[str, tuple[str, ...]]:
    """The names of the holders that each run adopts, as many as it has fuses.

    A holder that is called by a run or by what it feeds is that run's; others go by their order, first to the runs from
    a battery, and to none whose own is spliced into its cable: that hangs there and needs no mount point. One that a
    run ends at is that run's, and no holder on the way of another.
    """
    fuses = {
        name: one.fuse for name, one in sized.items()
        if one.fuse is not None and not in_block(one.run) and not one.run.to_holder
    }  # fmt: skip
    wanted = {name: fuse.count for name, fuse in fuses.items()}
    order = sorted(wanted, key=lambda name: not _is_from_battery(sized[name].run))
    free = list(_free(job, sized))
    called: dict[str, tuple[str, ...]] = {}
    for name in order:
        called[name] = tuple(one for one in free if _is_called_by(one, name, sized[name].run))[: wanted[name]]
        free = [one for one in free if one not in called[name]]
    found: dict[str, tuple[str, ...]] = {}
    for name in order:
        more = 0 if hangs_in_cable(fuses[name]) else wanted[name] - len(called[name])
        found[name] = (*called[name], *free[:more])
        free = free[more:]
    own = {name: (one.run.to_name,) for name, one in sized.items() if one.fuse is not None and one.run.to_holder}
    return {name: names for name, names in found.items() if names} | own


def _free(job: Job, sized: Mapping[str, Sizing]) -> Iterator[str]:
    """The fuse holders of the job that no run begins or ends at."""
    ends = {same_name(name) for one in sized.values() for name in (one.run.from_name, one.run.to_name)}
    return (mount.name for mount in job.of_item.get(HOLDER, ()) if same_name(mount.name) not in ends)


def _is_called_by(holder: str, name: str, run: Run) -> bool:
    """Whether a holder is called by the run or by what the run feeds, such as trunk fuse by the trunk."""
    called = same_name(holder)
    return any(called.startswith(f"{same_name(one)} ") for one in (name, run.to_name) if one)


def _is_from_battery(run: Run) -> bool:
    return is_battery(run.from_) or is_battery(run.to)
