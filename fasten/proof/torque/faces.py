"""How tight the nut on a bonded stud may be: as any other, and never so tight that the bond of its base turns.

All of the torque is taken to reach the bond, with what a new nut takes to turn before it clamps.
"""

from fasten.catalog.tables import Tables
from fasten.model import Check, Demand, Input, Joint, MountPoint
from fasten.proof.checks import at_most
from fasten.proof.modes.faces import turns_nm
from fasten.proof.torque.limits import Limit, Shown, by_torque, prevailing
from fasten.proof.torque.tightening import Limits, Window, factor, window
from fasten.record import replace


def stud_window(joint: Joint, mount: MountPoint, demands: tuple[Demand, ...], limits: Limits, tables: Tables) -> Window:
    """The window of any screwed joint, under what is left to clamp with of what its bond bears in torsion."""
    found = window(joint, mount, demands, limits, tables)
    borne_nm, inputs, sources = _borne(joint, mount, tables)
    running = prevailing(joint)
    shown = Shown((*inputs, running), "share x τ π D³/16 / factor - prevailing torque", sources)
    bond = Limit("torsion of the bond", borne_nm - running.value, lambda: shown)
    return replace(found, upper=min((found.upper, bond), key=by_torque))


def run_on(joint: Joint, mount: MountPoint, tables: Tables) -> Check:
    """Whether the bond bears a new nut being run on, before anything is clamped."""
    borne_nm, inputs, sources = _borne(joint, mount, tables)
    running = prevailing(joint)
    return at_most("nut-run-on", "Bond holds while the nut is run on", running.value, borne_nm, "N·m",
                   (running, *inputs), "prevailing torque <= share x τ π D³/16 / factor", sources)  # fmt: skip


def _borne(joint: Joint, mount: MountPoint, tables: Tables) -> tuple[float, tuple[Input, ...], tuple[str, ...]]:
    torque_nm, inputs, sources = turns_nm(joint, mount, tables)
    divided_by, source = factor(tables, "bond")
    divided = (*inputs, Input("factor on the bond", divided_by, "-"))
    return torque_nm / divided_by, divided, (*sources, source)
