"""Does it fit in plastic, or on an edge: boss, depth and edges."""

from fasten.catalog.named import material
from fasten.catalog.rules import Rules, rule_value
from fasten.catalog.tables import Tables
from fasten.geometry.joint import drilled, receiver_of
from fasten.model import Asks, Bound, Check, Input, Joint, MountPoint
from fasten.model.known import EdgeReach
from fasten.proof.checks import at_most, unknown, waits
from fasten.proof.modes.plastic import boss_needed, is_plastic
from fasten.text.figures import mm
from fasten.text.rounding import up


def bossed(joint: Joint, mount: MountPoint, tables: Tables) -> tuple[Check, ...]:
    """What plastic needs of a thread formed in it, or of an insert: a boss, or as much plastic round it."""
    return _wall(joint, mount, tables), _depth(joint, mount)


def around_hole(joint: Joint, mount: MountPoint, tables: Tables) -> tuple[Check, ...]:
    """What plastic or laminate needs of a hole through it."""
    return (_hole_to_edge(joint, mount, material(tables, mount.material).family, tables),)


def _wall(joint: Joint, mount: MountPoint, tables: Tables) -> Check:
    """Plastic round the hole: the boss, or in solid plastic half of one to the nearest edge."""
    wanted, inputs, sources = boss_needed(joint, mount, tables)
    if mount.boss is not None:
        inputs = (*inputs, Input("boss", mount.boss.outer_mm, "mm"))
        return at_most("boss", "Boss across", wanted, mount.boss.outer_mm, "mm", inputs,
                       "ratio x outside <= boss", sources)  # fmt: skip
    return _to_edge(wanted / 2, mount, inputs, "ratio x outside / 2 <= edge distance", sources)


def _depth(joint: Joint, mount: MountPoint) -> Check:
    """The drilled hole within the boss or the solid plastic."""
    deep = drilled(joint).depth_mm
    assert deep is not None
    inputs: tuple[Input, ...] = (Input("hole deep", deep, "mm"),)
    known = mount.thickness_min_mm if mount.boss is None else mount.boss.depth_mm
    formula = "depth of hole <= what can be drilled"
    if known is None:
        needs = f"needs a boss that can be drilled {up(deep)} deep"
        return unknown("boss-depth", "Depth of the hole", deep, needs, inputs, formula, joint.from_)
    inputs = (*inputs, Input("can be drilled", known, "mm"))
    return at_most("boss-depth", "Depth of the hole", deep, known, "mm", inputs, formula, joint.from_)


def _hole_to_edge(joint: Joint, mount: MountPoint, family: str, tables: Tables) -> Check:
    ratio, source = rule_value(tables, Rules(f"edge-distance-{family}"))
    hole = drilled(joint).diameter_mm
    inputs = (Input("ratio", ratio, "-"), Input("hole", hole, "mm"))
    return _to_edge(ratio * hole, mount, inputs, "ratio x hole <= edge distance", (source, *joint.from_))


def _to_edge(
    needed: float, mount: MountPoint, inputs: tuple[Input, ...], formula: str, sources: tuple[str, ...]
) -> Check:
    if mount.edge_mm is None:
        needs = f"needs {up(needed)} from hole centre to any edge"
        return unknown("edge-distance", "Distance to an edge", needed, needs, inputs, formula, sources, Asks.EDGE)
    inputs = (*inputs, Input("edge", mount.edge_mm, "mm"))
    return at_most("edge-distance", "Distance to an edge", needed, mount.edge_mm, "mm", inputs, formula, sources)


def slid_on(joint: Joint, mount: MountPoint, tables: Tables) -> tuple[Check, ...]:
    """Near enough to an edge for the part to reach, far enough for its hole."""
    reach = receiver_of(joint).edge
    assert isinstance(reach, EdgeReach)
    least = _hole_to_edge(joint, mount, "plastic" if is_plastic(mount, tables) else "screw", tables)
    inputs: tuple[Input, ...] = (Input("reach of the clip", reach.most_mm, "mm"),)
    title, formula = "Clip reaches the hole", "edge distance <= reach"
    if mount.edge_mm is None or mount.edge_bound is Bound.AT_LEAST:  # a gauge that went in has no upper limit
        needs = f"needs the edge measured, {mm(reach.most_mm)} away at most"
        return least, waits("clip-reach", title, "mm", None, needs, inputs, formula, joint.from_)
    inputs = (Input("edge", mount.edge_mm, "mm"), *inputs)
    return least, at_most("clip-reach", title, mount.edge_mm, reach.most_mm, "mm", inputs, formula, joint.from_)
