"""The item's holes opened, where nobody gave their size and their preset alone is in the way of an answer."""

from collections.abc import Iterator

from fasten.catalog.rows import METRIC_CLEARANCE
from fasten.catalog.tables import Tables
from fasten.geometry.stack import FITS_HOLE
from fasten.model import MountPoint, Origin
from fasten.record import replace

_SIZES = ("M4", "M5", "M6", "M8", "M10")


def is_preset(mount: MountPoint) -> bool:
    """Whether nobody gave the item's hole; a ring has that of its stud."""
    return dict(mount.origins).get("item_hole_mm") is Origin.PRESET and mount.ring is None


def opened(mount: MountPoint, tables: Tables) -> Iterator[MountPoint]:
    """The mount point with the item's holes opened for each larger screw, the smallest first."""
    there = mount.existing_thread
    return _for_each(mount, _SIZES if there is None else (there.thread,), tables)


def one_size_up(mount: MountPoint, tables: Tables) -> MountPoint | None:
    """The mount point with the item's holes opened for the next larger screw.

    A preset may be out by a size, and a lug leaves round its hole what a size takes: common practice, no source. More
    is said as a change, for you to decide.
    """
    return next(_for_each(mount, _SIZES, tables), None)


def for_thread(mount: MountPoint, thread: str, tables: Tables) -> MountPoint:
    """The mount point with the item's holes opened for a screw that their preset does not pass; else as it is."""
    row = tables.find(METRIC_CLEARANCE, thread)
    if row is None or not is_preset(mount) or row.fine_mm <= mount.item_hole_mm + FITS_HOLE:
        return mount
    return with_item_hole(mount, row.medium_mm)


def with_item_hole(mount: MountPoint, hole_mm: float) -> MountPoint:
    """The mount point with item holes that nobody gave: they are opened to this size."""
    origins = tuple((name, Origin.ASSUMED if name == "item_hole_mm" else origin) for name, origin in mount.origins)
    return replace(mount, item_hole_mm=hole_mm, origins=origins)


def _for_each(mount: MountPoint, threads: tuple[str, ...], tables: Tables) -> Iterator[MountPoint]:
    rows = (tables.find(METRIC_CLEARANCE, thread) for thread in threads)
    return (
        with_item_hole(mount, row.medium_mm) for row in rows if row is not None and row.medium_mm > mount.item_hole_mm
    )
