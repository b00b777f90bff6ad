"""Whether what a repair puts round a hole lies on its panel: how far from its edges the plate or its rivets stay."""

from fasten.model import Asks, Bound, Check, Input, MountPoint, Status
from fasten.proof.checks import at_most, unknown
from fasten.text.figures import mm
from fasten.text.rounding import up

PLATE_EDGE = "plate-edge"
_TITLE = "Plate to the edge of its panel"


def to_edge(
    needed_mm: float, mount: MountPoint, inputs: tuple[Input, ...], formula: str, from_: tuple[str, ...]
) -> Check:  # fmt: skip
    """How far the hole that is repaired must be from an edge of the panel; open where that may not be so far."""
    needs = f"needs {up(needed_mm)} from hole centre to any edge, for its plate"
    if mount.edge_mm is None:
        return unknown(PLATE_EDGE, _TITLE, needed_mm, needs, inputs, formula, from_, Asks.EDGE)
    given = (*inputs, Input("edge distance", mount.edge_mm, "mm"))
    check = at_most(PLATE_EDGE, _TITLE, needed_mm, mount.edge_mm, "mm", given, formula, from_)
    if check.status is Status.FAILS and mount.edge_bound is Bound.AT_LEAST:
        needs = f"{needs} (at least {mm(mount.edge_mm)} is known)"
        return unknown(PLATE_EDGE, _TITLE, needed_mm, needs, given, formula, from_, Asks.EDGE)
    return check
