"""Whether a joint fits its board: what is left behind it, beside it, to edges and to corners."""

from collections.abc import Iterator
from math import sqrt

from fasten.catalog.rules import Rules, rule_value
from fasten.catalog.tables import Tables
from fasten.geometry.joint import receiver_of, screw_of, shaft_mm, spaced_mm
from fasten.mechanics import board
from fasten.model import Asks, Bound, Check, Input, Into, Joint, MountPoint, Outline
from fasten.proof.checks import at_most, unknown
from fasten.proof.modes.board import depth_mm, outer_mm
from fasten.text.rounding import up


def bolted(joint: Joint, mount: MountPoint, tables: Tables) -> tuple[Check, ...]:
    """What board needs of a bolt through it."""
    return (_bolt_edge(joint, mount, tables),)


def barrelled(joint: Joint, mount: MountPoint, tables: Tables) -> tuple[Check, ...]:
    """What board needs of a nut whose barrel sits in it."""
    return _barrel(joint), _bolt_edge(joint, mount, tables)


def screwed(joint: Joint, mount: MountPoint, tables: Tables) -> Iterator[Check]:
    """What board needs of a screw that forms its thread in it."""
    if mount.into is Into.FACE:
        yield _behind(joint, tables)
        yield _screw_edge(joint, mount, tables)
    else:
        yield _edge_screw(joint, tables)
        yield _edge_depth(joint, tables)
    yield from _corner(mount, tables)


def inserted(joint: Joint, mount: MountPoint, tables: Tables) -> Iterator[Check]:
    """What board needs of an insert that is screwed into it."""
    if mount.into is Into.FACE:
        yield _behind(joint, tables)
        yield _insert_edge(joint, mount, tables)
    else:
        yield _edge_wall(joint, tables)
    yield from _corner(mount, tables)


def _part(joint: Joint) -> str:
    return "insert" if joint.receiver is not None else "screw"


def _behind(joint: Joint, tables: Tables) -> Check:
    """What the screw or insert and the board behind it need, against the thinnest the board may be."""
    left, source = rule_value(tables, Rules.SCREW_BEHIND if joint.receiver is None else Rules.BOARD_BEHIND)
    length = screw_of(joint).length_mm - joint.grip_mm if joint.receiver is None else depth_mm(joint)
    depth = Input(f"{_part(joint)} in the board", length, "mm")
    inputs = (depth, Input("board left behind", left, "mm"), Input("board", joint.sheet_mm, "mm"))
    title = f"Board behind the {_part(joint)}"
    return at_most("board-behind", title, depth.value + left, joint.sheet_mm, "mm", inputs,
                   "depth + left behind <= board", (source, *joint.from_))  # fmt: skip


def _to_edge(
    needed_mm: float, mount: MountPoint, inputs: tuple[Input, ...], formula: str, from_: tuple[str, ...],
    wall_mm: float | None = None,
) -> Check:  # fmt: skip
    """To the centre of a hole; of what is wider than its screw, with the wall of board that this leaves beside it."""
    title = "Distance to an edge"
    if mount.edge_mm is None:
        wall = "" if wall_mm is None else f", {up(wall_mm)} of wall"
        needs = f"needs {up(needed_mm)} from hole centre to any edge{wall}"
        return unknown("edge-distance", title, needed_mm, needs, inputs, formula, from_, Asks.EDGE)
    edge = Input("edge", mount.edge_mm, "mm")
    return at_most("edge-distance", title, needed_mm, edge.value, "mm", (*inputs, edge), formula, from_)


def _screw_edge(joint: Joint, mount: MountPoint, tables: Tables) -> Check:
    least, source = rule_value(tables, Rules.SCREW_EDGE)
    inputs = (Input("least to an edge", least, "mm"),)
    return _to_edge(least, mount, inputs, "least <= edge distance", (source, *joint.from_))


def _insert_edge(joint: Joint, mount: MountPoint, tables: Tables) -> Check:
    least, least_source = rule_value(tables, Rules.INSERT_EDGE_LEAST)
    ratio, source = rule_value(tables, Rules.INSERT_EDGE)
    outer = outer_mm(joint)
    needed = max(least, ratio * outer)
    inputs = (
        Input("least to an edge", least, "mm"), Input("ratio", ratio, "-"), Input("outer diameter", outer, "mm"),
        Input("wall beside the insert", needed - outer / 2, "mm"),
    )  # fmt: skip
    return _to_edge(needed, mount, inputs, "max(least, ratio x outer diameter) <= edge distance",
                    (least_source, source, *joint.from_), needed - outer / 2)  # fmt: skip


def _bolt_edge(joint: Joint, mount: MountPoint, tables: Tables) -> Check:
    ratio, source = rule_value(tables, Rules.BOLT_EDGE_BOARD)
    diameter = spaced_mm(joint)
    inputs = (Input("ratio", ratio, "-"), Input("diameter", diameter, "mm"))
    return _to_edge(ratio * diameter, mount, inputs, "ratio x diameter <= edge distance", (source, *joint.from_))


def _corner(mount: MountPoint, tables: Tables) -> tuple[Check, ...]:
    """To the corners of the board, of which a round ring has none."""
    if mount.outline is Outline.RING:
        return ()
    return (_face_corner(mount, tables) if mount.into is Into.FACE else _edge_corner(mount, tables),)


def _face_corner(mount: MountPoint, tables: Tables) -> Check:
    """What lies so far from every edge lies the diagonal of it from a corner; nearer, only measuring shows it."""
    least, source = rule_value(tables, Rules.SCREW_CORNER)
    title, formula = "Distance to a corner", "least <= edge distance x sqrt 2"
    inputs: tuple[Input, ...] = (Input("least to a corner", least, "mm"),)
    if mount.edge_mm is None or mount.edge_mm * sqrt(2) < least:
        ring = ", or a ring without corners" if mount.pattern is not None and mount.pattern.kind == "circle" else ""
        needs = f"needs {up(least)} from hole centre to any corner{ring}"
        is_open = mount.edge_mm is None or mount.edge_bound is Bound.AT_LEAST
        asks = Asks.EDGE if is_open else None
        return unknown("corner-distance", title, least, needs, inputs, formula, (source,), asks)
    inputs = (*inputs, Input("edge", mount.edge_mm, "mm"))
    return at_most("corner-distance", title, least, mount.edge_mm * sqrt(2), "mm", inputs, formula, (source,))


def _edge_wall(joint: Joint, tables: Tables) -> Check:
    ratio, source = rule_value(tables, Rules.INSERT_EDGE_WALL)
    outer, thick = outer_mm(joint), joint.sheet_mm
    inputs = (Input("ratio", ratio, "-"), Input("outer diameter", outer, "mm"), Input("board", thick, "mm"))
    return at_most("insert-wall", "Wall on either side of the insert", ratio * outer, (thick - outer) / 2, "mm", inputs,
                   "ratio x outer diameter <= (board - outer diameter) / 2", (source, *joint.from_))  # fmt: skip


def _edge_screw(joint: Joint, tables: Tables) -> Check:
    _, source = rule_value(tables, Rules.EDGE_SCREW_SHARE)
    inputs = (Input("diameter of the screw", shaft_mm(joint), "mm"), Input("board", joint.sheet_mm, "mm"))
    most = board.edge_screw_max_mm(board_mm=joint.sheet_mm)
    return at_most("edge-screw", "Screw slim enough for the edge", shaft_mm(joint), most, "mm", inputs,
                   "diameter <= board / 5", (source, *joint.from_))  # fmt: skip


def _edge_depth(joint: Joint, tables: Tables) -> Check:
    least, source = rule_value(tables, Rules.EDGE_PENETRATION)
    inputs = (Input("least in the edge", least, "mm"), Input("depth in the board", depth_mm(joint), "mm"))
    return at_most("edge-depth", "Deep enough in the edge", least, depth_mm(joint), "mm", inputs,
                   "least <= depth", (source, *joint.from_))  # fmt: skip


def _edge_corner(mount: MountPoint, tables: Tables) -> Check:
    """Along the edge to where it ends: what is given as the distance to an edge is that, in an edge."""
    least, source = rule_value(tables, Rules.EDGE_CORNER)
    title, formula = "Distance along the edge to a corner", "least <= distance"
    inputs: tuple[Input, ...] = (Input("least to a corner", least, "mm"),)
    if mount.edge_mm is None:
        needs = f"needs {up(least)} along the edge to a corner"
        return unknown("corner-distance", title, least, needs, inputs, formula, (source,), Asks.EDGE)
    inputs = (*inputs, Input("edge", mount.edge_mm, "mm"))
    return at_most("corner-distance", title, least, mount.edge_mm, "mm", inputs, formula, (source,))


def _barrel(joint: Joint) -> Check:
    receiver = receiver_of(joint)
    inputs = (Input("barrel", receiver.length_mm, "mm"), Input("board", joint.sheet_mm, "mm"))
    return at_most("barrel", "Barrel no longer than the board is thick", receiver.length_mm, joint.sheet_mm, "mm",
                   inputs, "barrel <= board", joint.from_)  # fmt: skip
