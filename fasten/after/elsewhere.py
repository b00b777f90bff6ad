"""Repairs that drill anew elsewhere: one hole beside its old one, or the whole pattern, clear of every old hole."""

from collections.abc import Iterator
from math import cos, dist, hypot, radians, sin

from fasten.advice.advise import method_by
from fasten.after import mixed
from fasten.after.before import NOTHING_BEFORE, Fixing, OldHole, Point, places_of, rivet_circle_mm, rivet_holes
from fasten.after.case import Case, Found, loads_of, own_odd
from fasten.after.damage import CRACKED
from fasten.catalog.named import material
from fasten.catalog.practice import RULES
from fasten.catalog.repairs import RepairRoute
from fasten.catalog.rules import Rules, rule_value
from fasten.catalog.tables import Tables
from fasten.geometry.joint import spaced_mm
from fasten.geometry.patterns import positions_mm
from fasten.geometry.shift import FARTHEST_MM, Move, least_move, turned
from fasten.model import Check, Figure, Input, Joint, MountPoint, Pattern, Refusal
from fasten.proof.checks import at_most
from fasten.proof.modes.common import edge_rule
from fasten.proof.prove import prove
from fasten.record import record, replace
from fasten.require import Points
from fasten.text.figures import mm
from fasten.text.units import number

_SEEN_MM = 0.05


def clear_mm_of(case: Case, tables: Tables) -> float:
    """How far a new hole keeps from where the old one was planned, whose rim is an edge: by more where it is off that
    and it is not known which way.
    """
    return _most_apart(case, case.left_mm or 0.0, tables).wanted_mm + case.unsure_mm


@record
class Apart:
    """How far from the old hole a new one is by one rule: the figure of it, what it counts from, its source."""

    wanted_mm: float
    inputs: tuple[Input, ...]
    formula: str
    from_: tuple[str, ...]


def _most_apart(case: Case, old_mm: float, tables: Tables) -> Apart:
    """The rule that wants most of a new hole beside an old one of this width."""
    return max(_apart(case, old_mm, tables), key=lambda one: one.wanted_mm)


def _by_edge(joint: Joint, old_mm: float, tables: Tables) -> Apart:
    """Every old hole is an edge."""
    ratio, spaced = edge_rule(joint, tables), spaced_mm(joint)
    inputs = (
        Input("ratio", ratio.value, "-"), Input("diameter", spaced, "mm"), Input("old hole", old_mm, "mm"),
    )  # fmt: skip
    return Apart(ratio.value * spaced + old_mm / 2, inputs, "ratio x diameter + old hole / 2 <= distance",
                 (*joint.from_, tables.source_id(RULES, ratio)))  # fmt: skip


def _apart(case: Case, old_mm: float, tables: Tables) -> list[Apart]:
    """Every old hole is an edge; board, wood, plastic and what cracked want more than that."""
    spaced, found = spaced_mm(case.planned), [_by_edge(case.planned, old_mm, tables)]
    family = material(tables, case.group.material).family
    times = {
        "wood": Rules.REPAIR_APART_WOOD,
        "plastic": Rules.REPAIR_APART_PLASTIC,
        "laminate": Rules.REPAIR_APART_PLASTIC,
    }
    if "ply" in case.group.material or family in times:
        share, source = rule_value(tables, times.get(family, Rules.REPAIR_APART_WOOD))
        more = (Input("diameters apart", share, "-"), Input("diameter", spaced, "mm"))
        found.append(Apart(share * spaced, more, "diameters apart x diameter <= distance", (source,)))
    fixed = [Rules.REPAIR_APART_BOARD] if family == "board" and not _is_ply(case.group) else []
    fixed += [Rules.REPAIR_APART_CRACK] if case.damage.what == CRACKED else []
    for name in fixed:
        least, source = rule_value(tables, name)
        found.append(Apart(least, (Input("least distance", least, "mm"),), "least distance <= distance", (source,)))
    return found


def _is_ply(mount: MountPoint) -> bool:
    return "ply" in mount.material


def _moved(mount: MountPoint, by_mm: float) -> MountPoint:
    """The mount point with less to its edge: which way it moves is not given, so the edge comes nearer by all of it."""
    edge_mm = None if mount.edge_mm is None else mount.edge_mm - by_mm
    return replace(mount, edge_mm=edge_mm, existing_hole_mm=None, existing_holes_mm=None)


def shifted(route: RepairRoute, case: Case, tables: Tables) -> Found:
    """The whole pattern moved least, and turned where that must be, until every old hole is as far off as an edge."""
    whole = replace(case, at=None, joint=case.planned, mount=case.group, before=NOTHING_BEFORE)
    points, old = positions_mm(case.group.pattern, case.group.fixings), holes_there(case)
    least = case.left_mm or 0.0 if case.own is None else 0.0  # fixings that are alike are all as wide as the bad one
    apart = tuple(_most_apart(case, max(hole.diameter_mm, least), tables) for hole in old)
    move = least_move(points, tuple(hole.centre_mm for hole in old), tuple(one.wanted_mm for one in apart))
    if move is None:
        most = max(apart, key=lambda one: one.wanted_mm)
        figures = (
            Figure("clear of every old hole", most.wanted_mm, "mm"), Figure("tried up to", float(FARTHEST_MM), "mm"),
        )  # fmt: skip
        return Found(
            Refusal(case.planned.method, "no move or turn keeps clear of all old holes", figures), (), case.group
        )
    found = _elsewhere(
        _moved(case.group, move.greatest_mm), move.greatest_mm, whole, tables, (move.nearest_mm, apart[move.at])
    )
    return replace(found, notes=(_way(move), *_taken_off(case)), shift=move)


def holes_there(case: Case) -> tuple[OldHole, ...]:
    """Every hole that a pattern leaves behind as it moves: those of its fixings, and all that were left before."""
    left, planned_mm = case.left_mm or 0.0, case.planned.hole.diameter_mm if case.planned.hole is not None else 0.0
    found, plate, (off_x, off_y) = list[OldHole](), case.before.plate, case.off_mm
    for at, (x, y) in enumerate(places_of(case.group, case.before), 1):
        own, place = case.before.at(at), (x, y)
        if case.at in (None, at):
            place = x + off_x, y + off_y
        if own is None:
            wide = max(planned_mm, left) + 2 * case.unsure_mm if case.at in (None, at) else planned_mm
            found.append(OldHole(place, max(wide, 0.0 if plate is None else rivet_circle_mm(plate))))
        elif not own.is_left_out:
            found.append(OldHole(place, max(own.hole_mm, left + 2 * case.unsure_mm if case.at in (None, at) else 0.0)))
            found += _of_plate(own, place)
    return (*found, *case.before.old)


def left_behind(case: Case, move: Move) -> tuple[OldHole, ...]:
    """The holes of a pattern that moved, as they lie beside it where it is now."""
    c, s = cos(radians(move.turn_deg)), sin(radians(move.turn_deg))
    back = -(move.x_mm * c + move.y_mm * s), -(move.y_mm * c - move.x_mm * s)
    old = holes_there(case)
    places = turned(tuple(hole.centre_mm for hole in old), *back, -move.turn_deg)
    return tuple(replace(hole, centre_mm=place) for hole, place in zip(old, places, strict=True))


def _taken_off(case: Case) -> Iterator[str]:
    """What of repairs before comes off, so that the item lies flat where it moves to."""
    if case.before.plate is not None:
        yield "Take the plates of all fixings off first, and seal their rivet holes"
    for own in case.before.fixings:
        if own.is_in_plate:
            yield f"Take the plate of fixing {own.number} off first, and seal its rivet holes"
        elif own.plate is not None:
            yield f"What was glued on or put behind at fixing {own.number} stays, and no new hole is in it"


def _of_plate(own: Fixing, place: Point) -> Iterator[OldHole]:
    """The rivet holes of a plate that comes off; one that stays counts as a hole as wide as it is."""
    if own.plate is not None:
        yield from rivet_holes(own.plate, place) if own.plate.over else (OldHole(place, rivet_circle_mm(own.plate)),)


def _way(move: Move) -> str:
    """Which way the pattern goes, as seen from the side that is drilled."""
    ways = ((move.x_mm, "to the right", "to the left"), (move.y_mm, "up", "down"))
    said = [
        f"{mm(round(max(far, -far), 1))} {plus if far > 0 else minus}"
        for far, plus, minus in ways if max(far, -far) > _SEEN_MM
    ]  # fmt: skip
    side, turned = "left" if move.turn_deg > 0 else "right", number(max(move.turn_deg, -move.turn_deg), 0)
    turn = f", turned by {turned} degrees to the {side}" if move.turn_deg else ""
    least = f"no hole nearer than {mm(round(move.nearest_mm, 1))} to an old one"
    return f"Move all holes {' and '.join(said)} as seen from the drill, or as far away from the edge{turn}: {least}"


def beside(route: RepairRoute, case: Case, tables: Tables) -> Found:
    """A new hole for one fixing, beside the old one: the group is that of the real places."""
    if case.at is None and case.group.fixings > 1:
        figures = (Figure("fixings there", float(case.group.fixings), "-"), Figure("moved at a time", 1.0, "-"))
        because = "it moves one fixing alone: say which with --at, or shift the whole pattern"
        return Found(Refusal(case.planned.method, because, figures), (), case.group)
    moved_mm, by_mm = moved_beside(case, tables), clear_mm_of(case, tables)
    near = by_mm - case.unsure_mm, _most_apart(case, case.left_mm or 0.0, tables)
    if moved_mm is not None and case.at is not None:
        by_mm = dist(positions_mm(case.group.pattern, case.group.fixings)[case.at - 1], moved_mm)
    return _elsewhere(_moved(case.group, by_mm), by_mm, case, tables, near, moved_mm)


def moved_beside(case: Case, tables: Tables) -> Point | None:
    """Where a new hole beside the old one is: nearer the middle by what the old one must be off."""
    if not case.alone:
        return None
    (x, y), clear_mm = case.hole_at_mm, clear_mm_of(case, tables)
    far = hypot(x, y)
    return (x * (1 - clear_mm / far), y * (1 - clear_mm / far)) if far > 0 else (clear_mm, 0.0)


def clear_of_old(case: Case, joint: Joint, places: Points, tables: Tables) -> tuple[Check, ...]:
    """A joint where it is now against the nearest hole that a repair before left beside it."""
    if joint.hole is None or not case.before.old or not places:
        return ()
    near, apart = min(
        (
            (dist(place, hole.centre_mm), _by_edge(joint, hole.diameter_mm, tables))
            for place in places for hole in case.before.old
        ),
        key=lambda one: one[0] - one[1].wanted_mm,
    )  # fmt: skip
    inputs = (*apart.inputs, Input("distance", near, "mm"))
    title = "Distance to the holes of repairs before"
    return (at_most("old-holes", title, apart.wanted_mm, near, "mm", inputs, apart.formula, apart.from_),)


def _elsewhere(
    mount: MountPoint, by_mm: float, case: Case, tables: Tables, near: tuple[float, Apart],
    moved_mm: Point | None = None,
) -> Found:  # fmt: skip
    if mount.edge_mm is not None and mount.edge_mm <= 0:
        figures = (Figure("moved by", by_mm, "mm"), Figure("edge distance", mount.edge_mm + by_mm, "mm"))
        return Found(Refusal(case.planned.method, "the move may take it over the edge", figures), (), case.group)
    loads = loads_of(mount, case, tables, moved_mm)
    if moved_mm is not None:
        odd = (own_odd(case, moved_mm), *case.others)
        points = mixed.points_of(case.group, odd)
        wide, high = (max(side) - min(side) for side in zip(*points, strict=True))
        mount = replace(mount, pattern=Pattern("points", wide, high, points))
    proof = prove(case.planned, mount, method_by(case.planned), loads, tables)
    return Found(proof, (_kept_clear(*near),), mount)


def _kept_clear(near_mm: float, apart: Apart) -> Check:
    """The new holes against the rule that wants most."""
    inputs = (*apart.inputs, Input("distance", near_mm, "mm"))
    return at_most("old-hole", "Distance to the old hole", apart.wanted_mm, near_mm, "mm", inputs, apart.formula,
                   apart.from_)  # fmt: skip
