"""What repairs before left at a mount point: fixings that are unlike the rest, and old holes, each of them an edge."""

from collections.abc import Iterator
from math import hypot

from fasten.after.mixed import LEFT_OUT, Odd
from fasten.geometry.joint import drilled, drilled_mm
from fasten.geometry.patterns import positions_mm
from fasten.model import Joint, MountPoint
from fasten.record import record, replace
from fasten.require import Points

Point = tuple[float, float]


@record
class Plate:
    """A square plate or doubler, with what holds it at the corners of a smaller square.

    `pitch_mm` is from rivet to rivet; of one that nothing holds by itself, how wide the hole before it is. One that
    lies `over` the sheet takes its receiver by itself, and its rivets are drilled through the sheet.
    """

    material: str
    thickness_mm: float
    side_mm: float
    pitch_mm: float
    rivets: int
    rivet: Joint | None
    over: bool = False


@record
class OldHole:
    """A hole that nothing is in any more: its middle about that of the fixings, and how wide it is."""

    centre_mm: Point
    diameter_mm: float


@record
class Fixing:
    """A fixing as its last repair left it, numbered from 1: its joint, and the mount point as it is there.

    `odd` is what it is beside the others, `plate` what bridges its hole, `bad_mm` how wide the hole in the panel is
    where one behind or a doubler does; 0 where the joint fills its hole. What is not in the plate is as it was planned
    once that is taken off.
    """

    number: int
    joint: Joint
    mount: MountPoint
    odd: Odd
    plate: Plate | None
    bad_mm: float

    @property
    def is_left_out(self) -> bool:
        """Whether nothing is in its hole."""
        return self.odd.stiffnesses == LEFT_OUT

    @property
    def is_in_plate(self) -> bool:
        """Whether it is in a plate over the sheet, and is repaired in that."""
        return self.plate is not None and self.plate.over

    @property
    def hole_mm(self) -> float:
        """How wide its hole in the panel is."""
        return max(self.bad_mm, drilled_mm(self.joint))


@record
class Before:
    """What repairs before left at a mount point: its fixings that are unlike the rest, and its old holes.

    `plate` is what every fixing has since a repair of all of them. `measured_mm` is how wide the hole of each fixing
    was measured since it was made, 0 where it was not; empty where none was.
    """

    fixings: tuple[Fixing, ...] = ()
    old: tuple[OldHole, ...] = ()
    plate: Plate | None = None
    measured_mm: tuple[float, ...] = ()

    def at(self, number: int | None) -> Fixing | None:
        """The fixing of a number, where it is unlike the rest."""
        return next((one for one in self.fixings if one.number == number), None)

    def wide_mm(self, number: int | None) -> float:
        """How wide the hole of a fixing was measured, of all (None) the widest; 0 where none was."""
        if number is None or number > len(self.measured_mm):
            return max(self.measured_mm, default=0.0)
        return self.measured_mm[number - 1]

    def others(self, number: int | None) -> tuple[Odd, ...]:
        """The fixings unlike the rest but for one, as they are beside the others."""
        return tuple(one.odd for one in self.fixings if one.number != number)

    def with_fixing(self, now: Fixing) -> "Before":
        """The same with a fixing as it is now."""
        return replace(self, fixings=(*(one for one in self.fixings if one.number != now.number), now))


NOTHING_BEFORE = Before()


def places_of(mount: MountPoint, before: Before) -> Points:
    """Where the fixings are, about the middle of those that were planned."""
    moved = {one.number: one.odd.moved_mm for one in before.fixings if one.odd.moved_mm is not None}
    planned = positions_mm(mount.pattern, mount.fixings)
    return tuple(moved.get(number) or place for number, place in enumerate(planned, 1))


def rivet_holes(plate: Plate, centre: Point) -> Iterator[OldHole]:
    """The holes of the rivets of a plate, which stay where that is taken off."""
    if plate.rivet is not None and plate.over:
        half, (x, y) = plate.pitch_mm / 2, centre
        for to_x, to_y in ((-1, -1), (1, -1), (1, 1), (-1, 1)):
            yield OldHole((x + to_x * half, y + to_y * half), drilled(plate.rivet).diameter_mm)


def rivet_circle_mm(plate: Plate) -> float:
    """How wide a circle is that holds the rivet holes of a plate; of one that is glued on, all of it."""
    if plate.rivet is None or not plate.over:
        return hypot(plate.side_mm, plate.side_mm)
    return hypot(plate.pitch_mm, plate.pitch_mm) + drilled(plate.rivet).diameter_mm
