"""How often something comes off in ten years, for itself and for what lies under it.

What comes off as often shares a visit, so that each interval counts once; the plain sum is the most that it may be.
"""

from collections.abc import Iterable
from functools import lru_cache

from fasten.catalog.practice import REMOVALS
from fasten.catalog.tables import Tables
from fasten.model import MountPoint, Opens, Removal
from fasten.record import record


@record
class Times:
    """Removals in ten years with each interval `once`, and `most` by the plain sum; `unsaid` names what is unknown."""

    once: int
    most: int
    unsaid: tuple[str, ...]
    sources: tuple[str, ...]


def times(opens: Iterable[Opens], tables: Tables) -> Times:
    """How often it all has it off."""
    return _times(tuple(opens), tables)


@lru_cache(maxsize=256)  # every joint of a mount point asks the same
def _times(found: tuple[Opens, ...], tables: Tables) -> Times:
    rows = [tables.need(REMOVALS, one.removed.value) for one in found if one.removed is not None]
    return Times(
        once=sum({row.removed: row.count for row in rows}.values()), most=sum(row.count for row in rows),
        unsaid=tuple(one.name for one in found if one.removed is None),
        sources=tuple(dict.fromkeys(tables.source_id(REMOVALS, row) for row in rows)),
    )  # fmt: skip


def times_of(mount: MountPoint, tables: Tables) -> Times:
    """How often a mount point comes off."""
    return times(mount.opens, tables) if mount.opens else _alone(mount.item, mount.removed, tables)


@lru_cache(maxsize=256)  # and most lie under nothing
def _alone(item: str, removed: Removal, tables: Tables) -> Times:
    return times((Opens(item, removed),), tables)
