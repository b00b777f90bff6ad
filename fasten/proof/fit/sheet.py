"""Does a hole through sheet, plastic or laminate keep far enough from an edge."""

from fasten.catalog.practice import RULES
from fasten.catalog.tables import Tables
from fasten.geometry.joint import spaced_mm
from fasten.model import Asks, Check, Input, Joint, MountPoint
from fasten.proof.checks import at_most, unknown
from fasten.proof.fit import plastic as plastic_fit
from fasten.proof.modes import common as modes
from fasten.proof.modes.plastic import is_plastic
from fasten.text.rounding import up


def around_hole(joint: Joint, mount: MountPoint, tables: Tables) -> tuple[Check, ...]:
    """What the substrate needs of a hole through it."""
    if is_plastic(mount, tables):
        return plastic_fit.around_hole(joint, mount, tables)
    return (_edge_distance(joint, mount, tables),)


def _edge_distance(joint: Joint, mount: MountPoint, tables: Tables) -> Check:
    """Least edge distance where it is given; else what the calculated bearing needs, which may be more."""
    bearing = spaced_mm(joint)
    given, least = mount.edge_mm is not None, modes.edge_rule(joint, tables)
    share = least if given else modes.edge_needed(joint, tables)
    needed, sources = share.value * bearing, (tables.source_id(RULES, share), *joint.from_)
    formula = "ratio x diameter <= edge distance"
    inputs: tuple[Input, ...] = (Input("ratio", share.value, "-"), Input("diameter", bearing, "mm"))
    if mount.edge_mm is None:
        is_most = share.value > least.value  # nearer it may hold too, once it is said how near
        far = f"up to {up(needed)}," if is_most else f"{up(needed)} from"
        needs = f"needs {far} hole centre to any edge"
        return unknown("edge-distance", "Distance to an edge", needed, needs, inputs, formula, sources, Asks.EDGE)
    inputs = (*inputs, Input("edge", mount.edge_mm, "mm"))
    return at_most("edge-distance", "Distance to an edge", needed, mount.edge_mm, "mm", inputs, formula, sources)
