"""Repairs that drill anew elsewhere: one hole beside its old one, or the whole pattern, clear of every old hole."""

from dataclasses import replace
from math import hypot

from fasten.advice.advise import method_by
from fasten.after import mixed
from fasten.after.case import Case, Found, loads_of, own_odd
from fasten.after.damage import CRACKED
from fasten.catalog.named import material
from fasten.catalog.practice import RULES
from fasten.catalog.repairs import RepairRoute
from fasten.catalog.rules import Rules, rule_value
from fasten.catalog.tables import Tables
from fasten.geometry.joint import spaced_mm
from fasten.geometry.patterns import positions_mm
from fasten.geometry.shift import FARTHEST_MM, Move, least_move
from fasten.model import Check, Figure, Input, MountPoint, Pattern, Refusal
from fasten.proof.checks import at_most
from fasten.proof.modes.common import edge_rule
from fasten.proof.prove import prove
from fasten.record import record
from fasten.text.figures import mm
from fasten.text.units import number

_DIAMETERS = {"wood": Rules.REPAIR_APART_WOOD, "plastic": Rules.REPAIR_APART_PLASTIC,
              "laminate": Rules.REPAIR_APART_PLASTIC}  # fmt: skip
_SEEN_MM = 0.05


def clear_mm_of(case: Case, tables: Tables) -> float:
    """How far a new hole keeps from the middle of the old one, whose rim is an edge."""
    return max(_apart(case, tables), key=lambda one: one.wanted_mm).wanted_mm


@record
class Apart:
    """How far from the old hole a new one is by one rule: the figure of it, what it counts from, its source."""

    wanted_mm: float
    inputs: tuple[Input, ...]
    formula: str
    from_: tuple[str, ...]


def _apart(case: Case, tables: Tables) -> list[Apart]:
    """Every old hole is an edge; board, wood, plastic and what cracked want more than that."""
    ratio, spaced, old = edge_rule(case.joint, tables), spaced_mm(case.joint), case.left_mm or 0.0
    inputs = (
        Input("ratio", ratio.value, "-"), Input("diameter", spaced, "mm"), Input("old hole", old, "mm"),
    )  # fmt: skip
    found = [
        Apart(ratio.value * spaced + old / 2, inputs, "ratio x diameter + old hole / 2 <= distance",
              (*case.joint.from_, tables.source_id(RULES, ratio))),
    ]  # fmt: skip
    family = material(tables, case.mount.material).family
    times = {
        "wood": Rules.REPAIR_APART_WOOD,
        "plastic": Rules.REPAIR_APART_PLASTIC,
        "laminate": Rules.REPAIR_APART_PLASTIC,
    }
    if "ply" in case.mount.material or family in times:
        share, source = rule_value(tables, times.get(family, Rules.REPAIR_APART_WOOD))
        more = (Input("diameters apart", share, "-"), Input("diameter", spaced, "mm"))
        found.append(Apart(share * spaced, more, "diameters apart x diameter <= distance", (source,)))
    fixed = [Rules.REPAIR_APART_BOARD] if family == "board" and not _is_ply(case.mount) else []
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
    return replace(mount, edge_mm=edge_mm, hole_there_mm=None, holes_there_mm=None)


def shifted(route: RepairRoute, case: Case, tables: Tables) -> Found:
    """The whole pattern moved least, and turned where that must be, until every old hole is as far off as an edge."""
    clear_mm, whole = clear_mm_of(case, tables), replace(case, at=None)
    points = positions_mm(case.mount.pattern, case.mount.fixings)
    move = least_move(points, points, clear_mm)
    if move is None:
        figures = (Figure("clear of every old hole", clear_mm, "mm"), Figure("tried up to", float(FARTHEST_MM), "mm"))
        return Found(
            Refusal(case.joint.method, "no move or turn keeps clear of all old holes", figures), (), case.mount
        )
    found = _elsewhere(
        _moved(case.mount, move.greatest_mm), move.greatest_mm, whole, tables, nearest_mm=move.nearest_mm
    )
    return replace(found, notes=(_way(move),), shift=move)


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
    if case.at is None and case.mount.fixings > 1:
        figures = (Figure("fixings there", float(case.mount.fixings), "-"), Figure("moved at a time", 1.0, "-"))
        because = "it moves one fixing alone: say which with --at, or shift the whole pattern"
        return Found(Refusal(case.joint.method, because, figures), (), case.mount)
    clear_mm = clear_mm_of(case, tables)
    return _elsewhere(_moved(case.mount, clear_mm), clear_mm, case, tables, moved_beside(case, tables))


def moved_beside(case: Case, tables: Tables) -> tuple[float, float] | None:
    """Where a new hole beside the old one is: nearer the middle by what the old one must be off."""
    if not case.alone:
        return None
    assert case.at is not None
    x, y = positions_mm(case.mount.pattern, case.mount.fixings)[case.at - 1]
    far, clear_mm = hypot(x, y), clear_mm_of(case, tables)
    return (x * (1 - clear_mm / far), y * (1 - clear_mm / far)) if far > 0 else (clear_mm, 0.0)


def _elsewhere(
    mount: MountPoint, by_mm: float, case: Case, tables: Tables, moved_mm: tuple[float, float] | None = None,
    nearest_mm: float | None = None,
) -> Found:  # fmt: skip
    if mount.edge_mm is not None and mount.edge_mm <= 0:
        figures = (Figure("moved by", by_mm, "mm"), Figure("edge distance", case.mount.edge_mm or 0.0, "mm"))
        return Found(Refusal(case.joint.method, "the move may take it over the edge", figures), (), case.mount)
    loads = loads_of(mount, case, tables, moved_mm)
    if moved_mm is not None:
        odd = (own_odd(case, moved_mm), *case.others)
        points = mixed.points_of(case.mount, odd)
        wide, high = (max(side) - min(side) for side in zip(*points, strict=True))
        mount = replace(mount, pattern=Pattern("points", wide, high, points))
    proof = prove(case.joint, mount, method_by(case.joint), loads, tables)
    return Found(proof, (_kept_clear(by_mm if nearest_mm is None else nearest_mm, case, tables),), mount)


def _kept_clear(nearest_mm: float, case: Case, tables: Tables) -> Check:
    """The new holes against the rule that wants most."""
    most = max(_apart(case, tables), key=lambda one: one.wanted_mm)
    inputs = (*most.inputs, Input("distance", nearest_mm, "mm"))
    return at_most("old-hole", "Distance to the old hole", most.wanted_mm, nearest_mm, "mm", inputs, most.formula,
                   most.from_)  # fmt: skip
