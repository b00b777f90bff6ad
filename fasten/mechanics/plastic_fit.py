"""Does it fit in plastic, or on an edge: boss, depth, insert under its item, edges, and what only a part's box says."""

from fasten.catalog.tables import Tables
from fasten.mechanics import factory_fit, stop_fit
from fasten.mechanics.checks import at_most, unknown, up, waits
from fasten.mechanics.modes import drilled, material, rule_value
from fasten.mechanics.parts import outside_mm, receiver_of
from fasten.mechanics.plastic_modes import boss_needed, is_insert, is_plastic
from fasten.model import Check, Input, Joint, MountPoint
from fasten.model.kinds import Strength, Tightened
from fasten.model.known import EdgeReach, MostTorque

BOSSED = ("thread_forming_screw", "heat_set_insert", "self_tapping_insert")


def has_own_edge(joint: Joint, mount: MountPoint, tables: Tables) -> bool:
    """Whether the edge is judged here and not by the rule for sheet."""
    return joint.method == "clip_nut" or is_plastic(mount, tables)


def checks(joint: Joint, mount: MountPoint, tables: Tables) -> tuple[Check, ...]:
    """What this joint must fit beside what every joint must."""
    found: list[Check] = []
    if joint.method in BOSSED:
        found += [_wall(joint, mount, tables), _depth(joint, mount)]
    elif joint.method == "clip_nut":
        found += _clip_edges(joint, mount, tables)
    elif is_plastic(mount, tables) and joint.hole is not None:
        found.append(_edge(joint, mount, tables))
    if is_insert(joint):
        found.append(_insert_covered(joint, mount, tables))
    return (*found, *_of_its_box(joint))


def by_feel(joint: Joint) -> bool:
    """Whether there is no torque to give: a thread formed in plastic or there before, a part whose box is unread."""
    receiver = joint.receiver
    rated = receiver is not None and receiver.kind.strength is Strength.BOX
    unread = rated and not (receiver is not None and isinstance(receiver.box_torque, MostTorque))
    return unread or joint.method in {"thread_forming_screw", factory_fit.METHOD}


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


def _insert_covered(joint: Joint, mount: MountPoint, tables: Tables) -> Check:
    """Item or stop rests on the insert: a wider hole lets the screw pull the insert up into it."""
    outer = outside_mm(receiver_of(joint))
    margin, source = rule_value(tables, "jacking-out-margin")
    opening = stop_fit.opening_over_mm(joint, mount)
    inputs = (Input("opening over it", opening, "mm"), Input("margin", margin, "mm"), Input("insert", outer, "mm"))
    return at_most("jacking-out", "Insert wider than the opening over it", opening + margin, outer, "mm", inputs,
                   "opening + margin <= outside of the insert", (source, *joint.from_))  # fmt: skip


def _edge(joint: Joint, mount: MountPoint, tables: Tables) -> Check:
    return _hole_to_edge(joint, mount, material(tables, mount.material).family, tables)


def _hole_to_edge(joint: Joint, mount: MountPoint, family: str, tables: Tables) -> Check:
    ratio, source = rule_value(tables, f"edge-distance-{family}")
    hole = drilled(joint).diameter_mm
    inputs = (Input("ratio", ratio, "-"), Input("hole", hole, "mm"))
    return _to_edge(ratio * hole, mount, inputs, "ratio x hole <= edge distance", (source, *joint.from_))


def _to_edge(
    needed: float, mount: MountPoint, inputs: tuple[Input, ...], formula: str, sources: tuple[str, ...]
) -> Check:
    if mount.edge_mm is None:
        needs = f"needs {up(needed)} from hole centre to any edge"
        return unknown("edge-distance", "Distance to an edge", needed, needs, inputs, formula, sources)
    inputs = (*inputs, Input("edge", mount.edge_mm, "mm"))
    return at_most("edge-distance", "Distance to an edge", needed, mount.edge_mm, "mm", inputs, formula, sources)


def _clip_edges(joint: Joint, mount: MountPoint, tables: Tables) -> list[Check]:
    """Near enough for the clip to reach, far enough for its hole."""
    assert mount.edge_mm is not None
    edge = receiver_of(joint).edge
    assert isinstance(edge, EdgeReach)
    reach = edge.most_mm
    least = _hole_to_edge(joint, mount, "plastic" if is_plastic(mount, tables) else "screw", tables)
    inputs = (Input("edge", mount.edge_mm, "mm"), Input("reach of the clip", reach, "mm"))
    return [least, at_most("clip-reach", "Clip reaches the hole", mount.edge_mm, reach, "mm", inputs,
                           "edge distance <= reach", joint.from_)]  # fmt: skip


def _of_its_box(joint: Joint) -> list[Check]:
    """What no table at hand gives of this part: its torque stays open until its box is read.

    What snaps in without a screw, or takes a stud, is not tightened.
    """
    receiver = joint.receiver
    if receiver is None or receiver.kind.tightened is not Tightened.BOX or isinstance(receiver.box_torque, MostTorque):
        return []
    return [waits("rated-torque", "Torque it takes", "N·m", None, "needs the torque its box gives", (),
                  "value of its box", joint.from_)]  # fmt: skip
