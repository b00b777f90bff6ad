"""What a failure mode is: what it examines, whether it applies, and its capacity or what is needed to find one."""

from collections.abc import Callable
from typing import Literal

from fasten.catalog.tables import Tables
from fasten.model import Joint, MountPoint, Subject
from fasten.proof.modes import tested
from fasten.proof.modes.capacity import Capacity, Needed
from fasten.proof.modes.families import Family
from fasten.record import record

__all__ = ["Capacity", "Find", "Load", "Mode", "Needed"]

Load = Literal["shear", "tension"]


HOLDS_TENSION = frozenset({Subject.HOLDS_TENSION})
HOLDS_SHEAR = frozenset({Subject.HOLDS_SHEAR})
UNDER_HEAD = frozenset({Subject.ITEM})
IN_ITEM = frozenset[Subject]()  # the item's hole beside its shank: examined besides what every joint must have
SUBSTRATE_TENSION = frozenset({Subject.SUBSTRATE_TENSION})
SUBSTRATE_SHEAR = frozenset({Subject.SUBSTRATE_SHEAR})

Find = Callable[[Joint, MountPoint, Tables], Capacity | Needed]


def _always(_joint: Joint) -> bool:
    """Of a mode that applies to every joint of the methods that name it."""
    return True


@record
class Mode:
    """One way to fail. `load` says what drives it; `subjects`, what of the joint it examines.

    A mode that `applies` to a joint always gives a check line: a figure, or what is needed to find one.
    `apart` says why it is not joined with the other direction, where its family otherwise is. The formula of an
    `estimate` was made for another thing, so a capacity missed by a little is marginal. Of what is `by_screw` the
    capacity follows from thread and class of the screw and from the mount point: whatever receives it, however long it
    is, and whatever lies under its head and behind.
    """

    id: str
    title: str
    family: Family
    load: Load
    find: Find
    subjects: frozenset[Subject]
    applies: Callable[[Joint], bool] = _always
    apart: str = ""
    estimate: bool = False
    by_screw: bool = False

    def found(self, joint: Joint, mount: MountPoint, tables: Tables) -> Capacity | Needed:
        """Its capacity or what it needs, with what own test pieces of the substrate were pulled out at."""
        found = self.find(joint, mount, tables)
        if not mount.tests or Subject.SUBSTRATE_TENSION not in self.subjects:
            return found
        return tested.pulled(found, self.family.of, joint, mount, tables)

    def capacity(self, joint: Joint, mount: MountPoint, tables: Tables) -> Capacity:
        """Capacity where a figure is known [N]. Raises: LookupError where one is needed."""
        found = self.found(joint, mount, tables)
        if isinstance(found, Needed):
            raise LookupError(f"{self.id} needs {found.what}")
        return found
