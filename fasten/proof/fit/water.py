"""Water on the far side of a panel: whether what goes through it stays sealed, and how often that is undone.

A closed end keeps water off the thread for good. An open one is sealed by hand, under its flange and on its thread, and
each removal breaks that: it holds for what seldom comes off. Where both sides are reached it is sealed anew each time.
"""

from fasten.catalog.opened import times_of
from fasten.catalog.rules import Rules, rule_value
from fasten.catalog.tables import Tables
from fasten.model import Check, FarSide, Input, Joint, MountPoint
from fasten.model.check import SEALED
from fasten.model.kinds import Water
from fasten.model.known import FarEnd
from fasten.proof.checks import at_most, waits


def is_wet(joint: Joint, mount: MountPoint) -> bool:
    """Whether the joint goes through a panel with water behind it."""
    through = joint.hole is not None and joint.hole.depth_mm is None
    return through and mount.far_side is FarSide.WET


def stays_sealed(joint: Joint) -> bool:
    """Whether no removal opens it: its end is closed, or it is sealed anew from behind each time."""
    part = joint.receiver
    if part is None:
        return False
    closed = part.kind.water is Water.BY_END and part.end is FarEnd.CLOSED
    return closed or part.kind.water is Water.BY_WASHER


def checks(joint: Joint, mount: MountPoint, tables: Tables) -> tuple[Check, ...]:
    """One line where water is behind: removals that open it against those that a seal lasts; open beyond them."""
    if not is_wet(joint, mount):
        return ()
    wanted = times_of(mount, tables)
    lasts, source = rule_value(tables, Rules.SEALED_REMOVALS)
    opens = 0.0 if stays_sealed(joint) else float(wanted.once)
    inputs = (Input("removals that open it", opens, "-"), Input("removals a seal lasts", lasts, "-"))
    title, formula = (
        "Removals that open its seal against the water behind",
        "removals that open it <= removals a seal lasts",
    )
    sources = tuple(dict.fromkeys((source, *wanted.sources, *joint.from_)))
    if opens > lasts:
        needs = "needs a closed end, or its seal looked at from behind after each removal"
        return (waits(SEALED, title, "-", opens, needs, inputs, formula, sources),)
    return (at_most(SEALED, title, opens, lasts, "-", inputs, formula, sources),)
