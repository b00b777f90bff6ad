"""What the proofs of a job hang on that nobody gave: the masses that are usual for an item."""

from collections.abc import Iterable

from fasten.job.choices import Choice
from fasten.job.entry import Entry
from fasten.job.list.lists import Assumed
from fasten.model import MountPoint, Origin
from fasten.question.fields import MASS


def is_mass_assumed(point: MountPoint) -> bool:
    """Whether the mass at a mount point was not given, whole or in part."""
    return dict(point.origins).get(MASS.fills[0]) is Origin.PRESET


def assumed(found: Iterable[Entry]) -> tuple[Assumed, ...]:
    """The mount points with an answer whose mass was not given, in their order."""
    return tuple(
        Assumed(one.name, one.point.mass_kg) for one in found
        if isinstance(one, Choice) and one.plan is not None and one.point is not None and is_mass_assumed(one.point)
    )  # fmt: skip
