"""What of a job runs of cable end at, as far as it decides how they are sized together."""

from fasten.job.words import Job
from fasten.question.fields import POWER
from fasten.wiring.feeding import Things

BLOCK, HOLDER, CROSSOVER = "distribution-block", "fuse-holder", "crossover"
SPEAKERS = ("speaker", "tweeter")
AMPLIFIER, PROCESSORS = "amplifier", ("signal-processor", "head-unit")


def things_of(job: Job) -> Things:
    """The mount points of a job by what they are to its runs."""
    return Things(
        blocks=_named(job, BLOCK), holders=_named(job, HOLDER), crossovers=_named(job, CROSSOVER),
        active=_named(job, AMPLIFIER, *PROCESSORS) | {one.name for one in job.mounts if POWER.name in dict(one.said)},
    )  # fmt: skip


def _named(job: Job, *items: str) -> frozenset[str]:
    """The names of the mount points of these items."""
    return frozenset(mount.name for item in items for mount in job.of_item.get(item, ()))
