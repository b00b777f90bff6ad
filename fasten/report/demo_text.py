"""What the example job is, in words and for a program."""

from typing import Any

from fasten.job.store.runs_toml import RUN
from fasten.job.words import CableRun, Job
from fasten.question.fields import ITEM, ONTO, REMOVED
from fasten.report.safe import safe
from fasten.text.figures import counted
from fasten.wiring.fields import FROM, LENGTH, TO

FORMAT = 1
_WHY = """The job is not ready for three reasons: nothing fits at one mount point, one part on the shelf is short,
and at one hole the grommet must be measured."""


def demo_text(job: Job, job_path: str, shelf_path: str, *, copied: bool) -> str:
    """The example's mount points, where its files are and what to try on them."""
    names = "\n".join(f"- {safe(mount.name)}: {_question(mount.said)}" for mount in job.mounts)
    files = f"{safe(job_path)} and {safe(shelf_path)}"
    where = f"Copied to {files}." if copied else f"Its files are {files}; --copy DIR copies them."
    tried = f"Try: fasten ready {safe(job_path)} --shelf {safe(shelf_path)}"
    points, runs = counted(len(job.mounts), "mount point"), counted(len(job.runs), RUN)
    lead = f"An example job, {safe(job.title)}: {safe(job.vehicle)}, {points}, {runs} of cable."
    cable = "\n".join(f"- {safe(run.name)}: {_run(run)}" for run in job.runs)
    return f"{lead}\n{safe(job.note)}\n\n{names}\n\n{cable}\n\n{_WHY}\n{where}\n{tried}\n"


def demo_json(job: Job, job_path: str, shelf_path: str) -> dict[str, Any]:
    """The same as plain data; keys are only ever added."""
    mounts = [mount.name for mount in job.mounts]
    return {
        "format": FORMAT, "title": job.title, "vehicle": job.vehicle, "job": job_path, "shelf": shelf_path,
        "mounts": mounts, "runs": [run.name for run in job.runs],
    }  # fmt: skip


def _run(run: CableRun) -> str:
    said = dict(run.said)
    return safe(f"from {said[FROM.name]} to {said[TO.name]}, {said[LENGTH.name]}")


def _question(fields: tuple[tuple[str, str], ...]) -> str:
    said = dict(fields)
    return safe(f"{said[ITEM.name]} on {said[ONTO.name]}, off {said[REMOVED.name]}")
