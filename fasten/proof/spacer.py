"""The spacer through carpet or the like: it must not tip when the item is pushed sideways.

On the road the clamp that the joint keeps holds it upright, which is a check of its own. Where a joint keeps no clamp
that is known, and in a hard stop, which slips what is clamped, the screw takes it: that pull is added to its demand.
"""

from fasten.catalog.rules import Rules, rule_value
from fasten.catalog.tables import Tables
from fasten.geometry.joint import limiter_of
from fasten.geometry.soft import held_by
from fasten.mechanics.spacer import least_outside_mm, tipping_pull_n
from fasten.model import Check, Demand, Holds, Input, Joint, MountPoint, StackPart
from fasten.proof.checks import at_most, waits
from fasten.proof.torque.tightening import Reserve, Window
from fasten.record import replace

HEIGHT, OUTSIDE = "height of the spacer", "outside of the spacer"
FORMULA = "factor x V x height / clamp kept <= outside of the spacer"


def _spacer(joint: Joint, mount: MountPoint, tables: Tables) -> StackPart | None:
    return limiter_of(joint) if held_by(mount.between, tables) is Holds.SPACER else None


def _clamp(window: Window | None) -> Reserve | None:
    return None if window is None else window.reserve


def tipped(
    joint: Joint, mount: MountPoint, demands: tuple[Demand, ...], window: Window | None, tables: Tables
) -> tuple[Demand, ...]:
    """The demands, with what the screw must pull where no clamp keeps its spacer upright."""
    spacer = _spacer(joint, mount, tables)
    if spacer is None:
        return demands
    clamped = _clamp(window) is not None
    return tuple(demand if clamped and demand.kind != "hard_stop" else _tipped(demand, spacer) for demand in demands)


def _tipped(demand: Demand, spacer: StackPart) -> Demand:
    height_mm, outside_mm = spacer.thickness_mm, spacer.outer_mm
    more_n = tipping_pull_n(shear_n=demand.shear_n, height_mm=height_mm, outside_mm=outside_mm)
    inputs = (*demand.inputs, Input(HEIGHT, height_mm, "mm"), Input(OUTSIDE, outside_mm, "mm"))
    return replace(demand, tension_n=demand.tension_n + more_n, inputs=inputs)


def checks(
    joint: Joint, mount: MountPoint, demands: tuple[Demand, ...], window: Window | None, tables: Tables
) -> tuple[Check, ...]:
    """Whether the clamp that the joint keeps holds its spacer upright on the road."""
    spacer, clamp = _spacer(joint, mount, tables), _clamp(window)
    if spacer is None or clamp is None or window is None:
        return ()
    factor, source = rule_value(tables, Rules.SPACER_TIP)
    worst = max((demand for demand in demands if demand.kind == "service"), key=lambda demand: demand.shear_n)
    kept_n = clamp.kept_n(window.target_nm)
    inputs = (
        Input("factor", factor, "-"), Input("greatest shear in service", worst.shear_n, "N"),
        Input(HEIGHT, spacer.thickness_mm, "mm"), Input("clamp kept", kept_n, "N"),
        Input(OUTSIDE, spacer.outer_mm, "mm"),
    )  # fmt: skip
    title, sources = "Spacer wide enough not to tip", tuple(dict.fromkeys((worst.from_, source, *joint.from_)))
    if kept_n <= 0:  # what is so weak that it takes no torque fails by that
        needs = "needs a clamp, and no torque is left for one"
        return (waits("spacer-tips", title, "mm", None, needs, inputs, FORMULA, sources),)
    least_mm = least_outside_mm(factor=factor, shear_n=worst.shear_n, height_mm=spacer.thickness_mm, clamp_n=kept_n)
    return (at_most("spacer-tips", title, least_mm, spacer.outer_mm, "mm", inputs, FORMULA,
                    tuple(dict.fromkeys((*sources, *window.from_)))),)  # fmt: skip
