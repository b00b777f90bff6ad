"""What a drilling template draws of fixings that a repair made unlike the others, and of holes that it left behind."""

from fasten.after.before import OldHole, Point
from fasten.after.routes import Route
from fasten.geometry.joint import drilled as drilled_hole
from fasten.geometry.patterns import positions_mm
from fasten.job.after.taken import Taken, in_force
from fasten.model import MountPoint
from fasten.record import record
from fasten.text.figures import mm


@record
class OddHole:
    """A hole that is not as the others: where it is, how wide, and of which shape; None where nothing is drilled.

    `slot` is the other end of the item's slot with its width, `plate` the side of a plate over it, `rivets` how far
    those are apart along a side, with their diameter. `note` says it in words.
    """

    place: int
    centre_mm: Point
    hole_mm: float | None
    shape: str
    note: str
    slot: tuple[Point, float] | None = None
    plate_mm: float | None = None
    rivets: tuple[float, float] | None = None


@record
class Odd:
    """All that is unlike on a template."""

    holes: tuple[OddHole, ...] = ()
    old: tuple[OldHole, ...] = ()


def odd_of(found: tuple[Taken, ...], point: MountPoint) -> Odd:
    """What the repairs of a mount point make of its holes, about the middle of those that were planned."""
    points = positions_mm(point.pattern, point.fixings)
    holes = tuple(
        _hole(one, one.route, points[one.repair.at - 1]) for one in in_force(found)
        if one.route is not None and not one.whole and one.repair.at is not None
    )  # fmt: skip
    done = [one.route.placed.old for one in found if one.route is not None and not one.of_all]
    return Odd(holes, done[-1] if done and point.fixings > 1 else ())  # of one alone it is not said which way it moved


def _hole(one: Taken, route: Route, planned: Point) -> OddHole:
    assert one.repair.at is not None
    placed, place = route.placed, one.repair.at - 1
    centre = placed.moved_mm or planned
    head = f"Hole {one.repair.at}"
    if one.leaves_out:
        return OddHole(place, centre, None, "round", f"{head} is left out and sealed.")
    drilled = route.answer.proposal.joint.hole if route.answer is not None else None
    said = "as its repair says" if drilled is None else mm(drilled.diameter_mm)
    slot, wide = None, placed.slot_mm
    if wide is not None:
        slot = (planned, wide)
        said = f"{said}; slot in the item {mm(wide)} wide, from its planned place to this hole"
    plate = placed.plate
    said = f"{said} in its plate" if plate is not None else said
    return OddHole(
        place, centre, None if drilled is None else drilled.diameter_mm, "round" if drilled is None else drilled.shape,
        f"{head}: {said}.", slot, None if plate is None else plate.side_mm,
        None if plate is None or plate.rivet is None else (plate.pitch_mm, drilled_hole(plate.rivet).diameter_mm),
    )  # fmt: skip
