"""All entries of a job with what they get: its mount points, its runs of cable, and their sections and holes.

Runs are sized first; then mount points take cable and current from the run that ends there.
"""

from fasten.advice.owned import Owned
from fasten.catalog.tables import Tables
from fasten.job.choices import Choice, choice, choices, is_settled, series_of_choice
from fasten.job.edit import find_mount
from fasten.job.entry import Entry
from fasten.job.runs import run_choices, with_runs
from fasten.job.ways import way_choices
from fasten.job.words import Job, Mount
from fasten.progress import Step, unseen


def entries(job: Job, tables: Tables, owned: Owned | None = None, step: Step = unseen) -> tuple[Entry, ...]:
    """What every mount point, run, section and hole of the job gets; what is owned is preferred.

    `step` is called for each mount point and may raise Stopped.
    """
    runs = run_choices(job, tables)
    return (*choices(with_runs(job, runs), tables, owned, step), *runs, *way_choices(job, runs, tables))


def mount_choices(job: Job, tables: Tables, owned: Owned | None = None, step: Step = unseen) -> tuple[Choice, ...]:
    """What every mount point of the job gets, in the job's order; `step` is called for each and may raise Stopped."""
    return choices(with_own_runs(job, tables), tables, owned, step)


def mount_choice(mount: Mount, job: Job, tables: Tables, owned: Owned | None = None) -> Choice:
    """What one mount point of the job gets: the others are answered only where it may take their series."""
    whole = with_own_runs(job, tables)
    asked = find_mount(whole, mount.name)
    alone = choice(asked, tables, owned, whole)
    if is_settled(alone) or series_of_choice(alone) is None:
        return alone
    return next(one for one in choices(whole, tables, owned) if one.mount == asked)


def with_own_runs(job: Job, tables: Tables) -> Job:
    """The job whose ground lugs have the cable and current of its own runs."""
    return with_runs(job, run_choices(job, tables)) if job.runs else job


def with_run_entries(job: Job, found: tuple[Choice, ...], tables: Tables) -> tuple[Entry, ...]:
    """The answers of mount points that are found already, with those of the job's runs."""
    runs = run_choices(job, tables)
    return (*found, *runs, *way_choices(job, runs, tables))
