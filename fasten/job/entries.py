"""All entries of a job with what they get: its mount points, its runs of cable, and their sections and holes.

Runs are sized first; then mount points take cable and current from the run that ends there.
"""

from fasten.advice.owned import Owned
from fasten.catalog.tables import Tables
from fasten.job.choices import Choice, choices
from fasten.job.entry import Entry
from fasten.job.runs import run_choices, with_runs
from fasten.job.ways import way_choices
from fasten.job.words import Job
from fasten.progress import Step, unseen


def entries(job: Job, tables: Tables, owned: Owned | None = None, step: Step = unseen) -> tuple[Entry, ...]:
    """What every mount point, run, section and hole of the job gets; what is owned is preferred.

    `step` is called for each mount point and may raise Stopped.
    """
    runs = run_choices(job, tables)
    return (*choices(with_runs(job, runs), tables, owned, step), *runs, *way_choices(job, runs, tables))


def with_run_entries(job: Job, found: tuple[Choice, ...], tables: Tables) -> tuple[Entry, ...]:
    """The answers of mount points that are found already, with those of the job's runs."""
    runs = run_choices(job, tables)
    return (*found, *runs, *way_choices(job, runs, tables))
