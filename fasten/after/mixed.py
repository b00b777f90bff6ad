"""Fixings unlike the others: what they and the others carry where these are softer or stiffer, and where each sits."""

from collections.abc import Iterable
from itertools import product

from fasten.catalog.tables import Tables
from fasten.geometry.patterns import positions_mm
from fasten.mechanics.mixed_group import STIFFNESSES, Shares, shares
from fasten.model import Demand, MountPoint, OnFrame
from fasten.proof.demands import Carried, demands_as, foot_mm
from fasten.record import record, replace
from fasten.require import Points

LEFT_OUT = (0.0,)


@record
class Odd:
    """A fixing unlike the others: its place from 0, how stiff it may be beside them, and where it is if it moved.

    `clamps` says that it keeps a clamp, so that slip is shared with it.
    """

    place: int
    stiffnesses: tuple[float, ...] = STIFFNESSES
    moved_mm: tuple[float, float] | None = None
    clamps: bool = True


def points_of(mount: MountPoint, odd: Iterable[Odd]) -> Points:
    """Where the fixings really are, about the middle of those that were planned."""
    moved = {one.place: one.moved_mm for one in odd if one.moved_mm is not None}
    return tuple(moved.get(at, point) for at, point in enumerate(positions_mm(mount.pattern, mount.fixings)))


def carried(mount: MountPoint, odd: tuple[Odd, ...], tables: Tables) -> tuple[Shares, ...]:
    """The worst shares of each fixing over all that the odd ones may be, the load through the middle of the item."""
    points, foot = points_of(mount, odd), foot_mm(mount, tables)
    worst = [Shares(0.0, 0.0, 0.0)] * mount.fixings
    for found in product(*(one.stiffnesses for one in odd)):
        stiff = dict(zip((one.place for one in odd), found, strict=True))
        each = tuple(stiff.get(at, 1.0) for at in range(mount.fixings))
        if not any(each):
            continue
        now = shares(points_mm=points, stiffnesses=each, middle_mm=(0.0, 0.0), foot_mm=foot)
        worst = [Shares(*map(max, one, other)) for one, other in zip(worst, now, strict=True)]
    return tuple(worst)


def loads_at(
    mount: MountPoint, odd: tuple[Odd, ...], places: Iterable[int], tables: Tables
) -> tuple[Demand, ...]:  # fmt: skip
    """The demands on the worst of the fixings at these places; slip is shared by all that keep a clamp."""
    every = carried(mount, odd, tables)
    worst = Shares(*map(max, zip(*(every[at] for at in places), strict=True)))
    clamps = mount.fixings - sum(not one.clamps for one in odd)
    slips = 1 / clamps if clamps > 0 else 1.0
    return demands_as(_on_frame(mount, odd), tables, Carried(worst.shear, worst.tension, worst.tipping_per_mm, slips))


def _on_frame(mount: MountPoint, odd: tuple[Odd, ...]) -> MountPoint:
    """The same where only some of the fixings carry: any of the odd ones may be of those, and carry nothing."""
    support = mount.support
    if not isinstance(support, OnFrame) or support.fixings is None or support.fixings == mount.fixings:
        return mount
    return replace(mount, support=OnFrame(max(support.fixings - len(odd), 1)))
