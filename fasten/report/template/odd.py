"""What a drilling template draws of fixings that a repair made unlike the others, and of holes that it left behind."""

from collections.abc import Iterator
from math import cos, radians, sin

from fasten.after.routes import Route
from fasten.geometry.joint import drilled as drilled_hole
from fasten.geometry.patterns import positions_mm
from fasten.geometry.shift import turned
from fasten.job.after.repairs import Taken
from fasten.model import MountPoint
from fasten.record import record
from fasten.require import Points
from fasten.text.figures import mm

Point = tuple[float, float]


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
class OldHole:
    """A hole that is left behind and plugged."""

    centre_mm: Point
    diameter_mm: float


@record
class Odd:
    """All that is unlike on a template."""

    holes: tuple[OddHole, ...] = ()
    old: tuple[OldHole, ...] = ()


def odd_of(found: tuple[Taken, ...], point: MountPoint) -> Odd:
    """What the repairs of a mount point make of its holes, about the middle of those that were planned."""
    points = positions_mm(point.pattern, point.fixings)
    holes, old = list[OddHole](), list[OldHole]()
    for one in found:
        if one.route is None:
            continue
        if one.route.placed.shift is not None:
            old += _left_behind(points, one, one.route)
        elif not one.whole and one.repair.at is not None:
            holes.append(_hole(one, one.route, points[one.repair.at - 1]))
            old += _old(one, one.route, points[one.repair.at - 1])
    return Odd(tuple(holes), tuple(old))


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


def _old(one: Taken, route: Route, planned: Point) -> Iterator[OldHole]:
    """The old hole of one that was drilled beside it, or of one left out."""
    placed = route.placed
    if placed.left_mm is not None and (one.leaves_out or placed.new_place):
        yield OldHole(planned, placed.left_mm)


def _left_behind(points: Points, one: Taken, route: Route) -> Iterator[OldHole]:
    """The old holes of a pattern that moved, as they lie beside it where it is now."""
    move, left_mm = route.placed.shift, route.placed.left_mm
    if move is None or left_mm is None:
        return
    c, s = cos(radians(move.turn_deg)), sin(radians(move.turn_deg))
    back = -(move.x_mm * c + move.y_mm * s), -(move.y_mm * c - move.x_mm * s)
    hole = route.answer.proposal.joint.hole if route.answer is not None else None
    for number, place in enumerate(turned(points, *back, -move.turn_deg), 1):
        is_bad = one.repair.at in (None, number) or hole is None
        yield OldHole(place, left_mm if is_bad or hole is None else hole.diameter_mm)
