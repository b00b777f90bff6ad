"""All entries of a job with what they get, in order of work: mount points, holes and sections, and runs of cable.

Runs are sized first; then mount points take cable and current from the run that ends there, and the ends of runs the
size and torque of their studs from the answers of these.
"""

from fasten.advice.owned import Owned
from fasten.catalog.tables import Tables
from fasten.job.choices import Choice, choice, choices, is_settled, series_of_choice
from fasten.job.edit import find_mount
from fasten.job.entry import Entry
from fasten.job.store.job_toml import same_name
from fasten.job.wiring.body_studs import body_studs, on_studs
from fasten.job.wiring.lugs import with_runs
from fasten.job.wiring.runs import RunChoice, run_choices
from fasten.job.wiring.ways import left_out, way_choices, with_clamps_of_sections, with_holes
from fasten.job.words import Job, Mount
from fasten.progress import Step, unseen


def entries(job: Job, tables: Tables, owned: Owned | None = None, step: Step = unseen) -> tuple[Entry, ...]:
    """What every mount point, run, section and hole of the job gets; what is owned is preferred.

    `step` is called for each mount point and may raise Stopped.
    """
    runs = run_choices(job, tables)
    mounts = choices(with_runs(job, runs), tables, owned, step)
    return _joined(job, mounts, runs, tables)


def mount_choices(job: Job, tables: Tables, owned: Owned | None = None, step: Step = unseen) -> tuple[Choice, ...]:
    """What every mount point of the job gets, in the job's order; `step` is called for each and may raise Stopped."""
    return choices(with_own_runs(job, tables), tables, owned, step)


def listed_choices(job: Job, tables: Tables, owned: Owned | None = None, step: Step = unseen) -> tuple[Choice, ...]:
    """The same of the mount points that are listed: without clamps that are left out for ties."""
    found = mount_choices(job, tables, owned, step)
    return tuple(one for one in found if left_out(one.mount, job) is None)


def mount_choice(mount: Mount, job: Job, tables: Tables, owned: Owned | None = None) -> Choice:
    """What one mount point of the job gets: the others are answered only where it may take their series."""
    whole = with_own_runs(job, tables)
    asked = find_mount(whole, mount.name)
    alone = choice(asked, tables, owned, whole)
    if is_settled(alone) or series_of_choice(alone) is None:
        return alone
    return next(one for one in choices(whole, tables, owned) if one.mount == asked)


def with_own_runs(job: Job, tables: Tables) -> Job:
    """The job whose ground lugs have the cable and current of its own runs, and its clamps the run of their section."""
    return with_runs(job, run_choices(job, tables)) if job.runs or job.sections else job


def with_run_entries(job: Job, found: tuple[Choice, ...], tables: Tables) -> tuple[Entry, ...]:
    """The answers of mount points that are found already, with those of the job's runs."""
    runs = run_choices(job, tables)
    return _joined(job, found, runs, tables)


def _joined(job: Job, mounts: tuple[Choice, ...], runs: tuple[RunChoice, ...], tables: Tables) -> tuple[Entry, ...]:
    ways = way_choices(job, runs, tables)
    first = sorted(ways, key=lambda way: not way.is_hole)  # a hole is drilled before cable lies anywhere
    return (*with_clamps_of_sections(mounts, ways, job), *first, *on_studs(with_holes(runs, ways), mounts, tables))


def place_of_run(job: Job, at: int) -> int:
    """The place of a run among all entries of the job, from 1 on; `at` is its place among the runs, from 0 on."""
    before = sum(left_out(mount, job) is None for mount in job.mounts) + len(job.holes) + len(job.sections)
    return before + at + 1


def runs_on_studs(
    found: tuple[RunChoice, ...], job: Job, tables: Tables, owned: Owned | None = None
) -> tuple[RunChoice, ...]:
    """Runs of the job at the mount points that are their body studs as these are answered."""
    names = frozenset[str]().union(*map(body_studs, found))
    asked = [mount for mount in job.mounts if same_name(mount.name) in names]
    if len(asked) > 1:
        return on_studs(found, mount_choices(job, tables, owned), tables)
    return on_studs(found, [mount_choice(mount, job, tables, owned) for mount in asked], tables)
