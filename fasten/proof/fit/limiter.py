"""The compression limiter in foam, or the spacer in carpet: what it stands on, what it covers, what presses there.

Item, limiter and what is under it are hard, so a screw tightened down to it is seated; foam beside it carries nothing.
"""

from math import pi

from fasten.catalog.named import material
from fasten.catalog.rules import Rules, rule_value
from fasten.catalog.tables import Tables
from fasten.geometry.joint import limiter_of, outside_mm
from fasten.geometry.patterns import outline_mm
from fasten.geometry.soft import held_by
from fasten.mechanics.bearing import bearing_load_n
from fasten.mechanics.foam import foam_force_n
from fasten.model import Check, Holds, Input, Joint, MountPoint, Pattern, Position, StackPart
from fasten.model.kinds import Seat
from fasten.proof.checks import at_most, waits
from fasten.proof.modes import item as item_modes
from fasten.proof.modes.common import formula
from fasten.proof.modes.mode import Capacity


def in_foam(mount: MountPoint, tables: Tables) -> bool:
    """Whether foam is pressed beside the limiter, and pushes back; carpet gives way."""
    return held_by(mount.between, tables) is Holds.LIMITER


def opening_over_mm(joint: Joint, mount: MountPoint) -> float:
    """What lies open over a receiver: the hole of the rigid washer on it, else of the limiter, else of the item."""
    holes = {washer.place: washer.hole_mm for washer in joint.washers}
    return holes.get(Position.BETWEEN, holes.get(Position.LIMITER, mount.item_hole_mm))


def opening_under_mm(joint: Joint) -> float:
    """The hole that a limiter must span where it stands; 0 on a flange, or on an insert flush in its boss."""
    receiver, hole = joint.receiver, joint.hole
    if hole is None or _stands_on_metal(joint):
        return 0.0
    widest = hole.diameter_mm + hole.tolerance_mm.plus
    if receiver is None or receiver.kind.seat is not Seat.SUNK:
        return widest
    return max(widest, outside_mm(receiver))


def _stands_on_metal(joint: Joint) -> bool:
    return joint.receiver is not None and joint.receiver.kind.seat in (Seat.FLUSH, Seat.NEAR_FLANGE)


def checks(joint: Joint, mount: MountPoint, tables: Tables) -> tuple[Check, ...]:
    """A limiter that fell into a hole above or below it, or that foam held the item off, would limit nothing."""
    limiter = limiter_of(joint)
    if limiter is None:
        return ()
    margin, source = rule_value(tables, Rules.HEAD_COVER)
    under = opening_under_mm(joint)
    inputs = (
        Input("item hole", mount.item_hole_mm, "mm"), Input("hole under the limiter", under, "mm"),
        Input("margin", margin, "mm"), Input("outside of the limiter", limiter.outer_mm, "mm"),
    )  # fmt: skip
    wanted = max(mount.item_hole_mm, under) + margin
    single = mount.pattern is None and joint.screw is not None
    seated = (_seated(tables),) if single and in_foam(mount, tables) else ()
    return (
        *seated,
        at_most("stop-cover", "Compression limiter wider than the holes beside it", wanted, limiter.outer_mm, "mm",
                inputs, "larger hole + margin <= outside of the limiter", (source, *joint.from_)),
    )  # fmt: skip


def _seated(tables: Tables) -> Check:
    """Around a single fixing the amount of foam is not known, so no torque is known to press it down."""
    push, source = rule_value(tables, Rules.FOAM_PUSH)
    needs = "needs a look all round once tight: the item must lie on its compression limiter"
    return waits("stop-seated", "Foam pressed down to its compression limiter", "N", None, needs,
                 (Input("push of soft foam, assumed", push, "MPa"),), "push x foam <= what the torque leaves",
                 (source,))  # fmt: skip


def foam_push(mount: MountPoint, tables: Tables) -> tuple[float, tuple[Input, ...], tuple[str, ...]]:
    """What soft foam pushes back at one fixing before it is pressed down, its inputs and sources.

    The width of the foam is not known: a strip along the outline is assumed. Around a single fixing nothing is known.
    """
    along_mm = _foam_mm(mount.pattern, mount.fixings) if in_foam(mount, tables) else None
    if along_mm is None:
        return 0.0, (), ()
    width, width_source = rule_value(tables, Rules.FOAM_STRIP)
    push, push_source = rule_value(tables, Rules.FOAM_PUSH)
    inputs = (
        Input("foam a fixing", along_mm, "mm"), Input("width of the foam, assumed", width, "mm"),
        Input("push of soft foam, assumed", push, "MPa"),
    )  # fmt: skip
    return foam_force_n(area_mm2=along_mm * width, deflection_mpa=push), inputs, (width_source, push_source)


def _foam_mm(pattern: Pattern | None, fixings: int) -> float | None:
    """How much of the outline falls to one fixing; of a row, what lies between two."""
    if pattern is None:
        return None
    if pattern.points_mm:
        return outline_mm(pattern.points_mm) / fixings
    if pattern.kind == "row":
        return pattern.a_mm
    if pattern.b_mm is None:
        return pi * pattern.a_mm / fixings
    return 2 * (pattern.a_mm + pattern.b_mm) / fixings


def pressed(joint: Joint, mount: MountPoint, tables: Tables) -> list[tuple[str, Capacity]]:
    """What soft stuff on either side of the limiter bears of the clamp, which all goes through it; named for each."""
    limiter = limiter_of(joint)
    if limiter is None:
        return []
    sides = [("pressure of the limiter on the item", mount.item_material, max(mount.item_hole_mm, limiter.hole_mm))]
    if not _stands_on_metal(joint):
        under = max(opening_under_mm(joint), limiter.hole_mm)
        sides.append(("pressure of the limiter on what is under it", mount.material, under))
    return [
        (name, _ring(limiter, hole_mm, on, mount, joint, tables))
        for name, on, hole_mm in sides if material(tables, on).family in item_modes.SOFT
    ]  # fmt: skip


def _ring(limiter: StackPart, hole_mm: float, on: str, mount: MountPoint, joint: Joint, tables: Tables) -> Capacity:
    pressure, sources = item_modes.pressure_mpa(on, mount, tables)
    expression, formula_source = formula(tables, "pressure")
    load = bearing_load_n(washer_mm=limiter.outer_mm, hole_mm=hole_mm, pressure_mpa=pressure)
    inputs = (
        Input("outside of the limiter", limiter.outer_mm, "mm"), Input("hole at the limiter", hole_mm, "mm"),
        Input("pressure", pressure, "MPa"),
    )  # fmt: skip
    return Capacity(load, inputs, expression, (formula_source, *sources, *joint.from_))
