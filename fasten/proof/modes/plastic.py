"""Failure modes in plastic and laminate: thread or insert sheared out, hole elongated, washer punched through.

Strength is the low end of the material, and in a parked car only a share of it: heat decides here, not the test bench.
"""

from functools import lru_cache

from fasten.catalog.materials import MATERIALS, PLASTIC_KINDS
from fasten.catalog.named import material
from fasten.catalog.rules import Rules, rule_value
from fasten.catalog.tables import Tables
from fasten.geometry.joint import behind_mm, drilled, outside_mm, receiver_of, screw_of
from fasten.mechanics.bearing import bearing_load_n
from fasten.mechanics.plastic import (
    bearing_plastic_n,
    boss_outer_mm,
    hot_yield_mpa,
    pull_out_plastic_n,
    punch_plastic_n,
    thread_cylinder_mm,
)
from fasten.model import Input, Joint, MountPoint, Where
from fasten.model.kinds import Bears, Seat, Thread
from fasten.model.known import Body, Rating
from fasten.proof.modes import families
from fasten.proof.modes.common import formula
from fasten.proof.modes.mode import (
    HOLDS_SHEAR,
    HOLDS_TENSION,
    SUBSTRATE_SHEAR,
    SUBSTRATE_TENSION,
    Capacity,
    Mode,
    Needed,
)

FAMILIES = ("plastic", "laminate")
HOT = (Where.CABIN, Where.DOOR, Where.ENGINE_BAY)  # behind glass, a dark skin in the sun, or beside an engine


def is_plastic(mount: MountPoint, tables: Tables) -> bool:
    """Whether the substrate is plastic or laminate, which these modes are for."""
    return material(tables, mount.material).family in FAMILIES


def strength_mpa(mount: MountPoint, tables: Tables) -> tuple[float, tuple[Input, ...], tuple[str, ...]]:
    """What the substrate bears at the temperature it must hold at, its inputs and sources."""
    return strength_of_mpa(mount.material, mount, tables)


def strength_of_mpa(name: str, mount: MountPoint, tables: Tables) -> tuple[float, tuple[Input, ...], tuple[str, ...]]:
    """Yield at the temperature it must hold at, its inputs and sources; what breaks before it yields, its strength."""
    return left_mpa(tables, name, is_hot(mount))


def is_hot(mount: MountPoint) -> bool:
    """Whether plastic and bonds get hot there."""
    return mount.where in HOT


@lru_cache(maxsize=64)
def left_mpa(tables: Tables, name: str, is_hot: bool) -> tuple[float, tuple[Input, ...], tuple[str, ...]]:
    """The strength of a plastic, or what heat leaves of it, its inputs and sources."""
    row = material(tables, name)
    known = [value for value in (row.yield_mpa, row.ultimate_mpa) if value is not None]
    assert known, f"{name} has no strength; gates refuse it first"
    low = Input(f"low-end strength of {name}", min(known), "MPa")
    source = tables.source_id(MATERIALS, row)
    if not is_hot:
        return low.value, (low,), (source,)
    share, share_source = rule_value(tables, Rules.HOT_PLASTIC_SHARE)
    hot = hot_yield_mpa(yield_mpa=low.value, fraction=share)
    return hot, (low, Input("share left in heat", share, "-")), (source, share_source)


def boss_needed(joint: Joint, mount: MountPoint, tables: Tables) -> tuple[float, tuple[Input, ...], tuple[str, ...]]:
    """Outer diameter of the boss round the joint's screw or insert, its inputs and sources."""
    row = tables.need(PLASTIC_KINDS, mount.material)
    ratio, source = row.boss_over_d, tables.source_id(PLASTIC_KINDS, row)
    if is_insert(joint):
        ratio, source = rule_value(tables, Rules.INSERT_BOSS)
    outer = bearing_mm(joint)
    inputs = (Input("ratio", ratio, "-"), Input("outside of the insert" if is_insert(joint) else "screw", outer, "mm"))
    return boss_outer_mm(screw_mm=outer, ratio=ratio), inputs, (source, *joint.from_)


def is_insert(joint: Joint) -> bool:
    """Whether the joint's receiver is an insert that sits in the plastic."""
    return joint.receiver is not None and joint.receiver.kind.seat is Seat.FLUSH


def _held(joint: Joint) -> tuple[float, Input, Input]:
    """Diameter of the cylinder that shears, what it is from, and the length that holds."""
    screw = screw_of(joint)
    if is_insert(joint):
        outer, length = (
            Input("outside of the insert", outside_mm(receiver_of(joint)), "mm"),
            receiver_of(joint).length_mm,
        )
        return outer.value, outer, _length(length)
    mean = thread_cylinder_mm(major_mm=screw.diameter_mm, hole_mm=drilled(joint).diameter_mm)
    return mean, Input("mean of screw and hole", mean, "mm"), _length(screw.engagement_mm)


def _length(length_mm: float) -> Input:
    return Input("length that holds", length_mm, "mm")


def _pull_out(joint: Joint, mount: MountPoint, tables: Tables) -> Capacity:
    cylinder_mm, cylinder, length = _held(joint)
    strength, inputs, sources = strength_mpa(mount, tables)
    expression, formula_source = formula(tables, "pull-out-plastic")
    load_n = pull_out_plastic_n(cylinder_mm=cylinder_mm, engagement_mm=length.value, yield_mpa=strength)
    sources = (formula_source, *sources, *joint.from_)
    return Capacity(load_n, (cylinder, length, *inputs), expression, sources, _of_heat(inputs))


def _of_heat(strength: tuple[Input, ...]) -> tuple[Input, ...]:
    """The share that heat leaves, of the inputs of a strength: what a test piece on the bench does not show."""
    return strength[1:]


def bearing_depth_mm(joint: Joint) -> float:
    """How deep the shank presses sideways: all of a sheet; of a boss the first diameter at most, which it levers on."""
    if is_insert(joint) or _forms(joint):
        _, _, length = _held(joint)
        return min(length.value, bearing_mm(joint))
    return joint.sheet_mm


def _forms(joint: Joint) -> bool:
    return joint.screw is not None and joint.receiver is None and joint.screw.kind.thread is Thread.FORMS_IN_PLASTIC


def bearing_mm(joint: Joint) -> float:
    """What presses sideways: the body of an insert, rivet nut, clip or socket, else the screw."""
    receiver = joint.receiver
    if receiver is not None and receiver.kind.bears is not Bears.SCREW:
        return receiver.body.outside_mm if isinstance(receiver.body, Body) else drilled(joint).diameter_mm
    return screw_of(joint).diameter_mm


def _bearing(joint: Joint, mount: MountPoint, tables: Tables) -> Capacity:
    diameter = Input("diameter that bears", bearing_mm(joint), "mm")
    depth = Input("depth that bears", bearing_depth_mm(joint), "mm")
    strength, inputs, sources = strength_mpa(mount, tables)
    expression, formula_source = formula(tables, "bearing-plastic")
    load_n = bearing_plastic_n(diameter_mm=diameter.value, depth_mm=depth.value, strength_mpa=strength)
    return Capacity(load_n, (diameter, depth, *inputs), expression, (formula_source, *sources, *joint.from_))


def _punch(joint: Joint, mount: MountPoint, tables: Tables) -> Capacity:
    bears = Input("diameter behind", behind_mm(joint), "mm")
    sheet = Input("thickness", joint.sheet_mm, "mm")
    strength, inputs, sources = strength_mpa(mount, tables)
    expression, formula_source = formula(tables, "punch-plastic")
    load_n = punch_plastic_n(washer_mm=bears.value, sheet_mm=sheet.value, strength_mpa=strength)
    sources = (formula_source, *sources, *joint.from_)
    return Capacity(load_n, (bears, sheet, *inputs), expression, sources, _of_heat(inputs))


def _back_pressure(joint: Joint, mount: MountPoint, tables: Tables) -> Capacity:
    """What it bears for years under the washer behind; never more than its own hot strength."""
    limit, limit_source = rule_value(tables, Rules.PLASTIC_BEARING)
    strength, inputs, sources = strength_mpa(mount, tables)
    expression, formula_source = formula(tables, "pressure")
    outer, hole = behind_mm(joint), drilled(joint).diameter_mm + drilled(joint).tolerance_mm.plus
    pressure = min(limit, strength)
    load_n = bearing_load_n(washer_mm=outer, hole_mm=hole, pressure_mpa=pressure)
    found = (
        Input("diameter behind", outer, "mm"), Input("hole", hole, "mm"), Input("pressure", pressure, "MPa"), *inputs,
    )  # fmt: skip
    return Capacity(load_n, found, expression, (formula_source, limit_source, *sources, *joint.from_))


def _rated(joint: Joint, _mount: MountPoint, _tables: Tables) -> Capacity | Needed:
    pull = receiver_of(joint).pull
    if not isinstance(pull, Rating):
        return Needed("the pull its box gives", "value of its box", joint.from_)
    return Capacity(pull.load_n, (Input("pull by its box", pull.load_n, "N"),), "value of its box", joint.from_)


# What its box rates as a whole is what lets go first, of the part or of the panel that it holds on to.
RATED_PULL = Mode(
    "rated-pull", "Pulled out, by its box", families.RATED, "tension", _rated, HOLDS_TENSION | SUBSTRATE_TENSION
)
# What snaps in gives way sideways no sooner than it pulls out; no figure says how much later.
RATED_SHEAR = Mode("rated-shear", "Pushed sideways, taken as its pull", families.RATED, "shear", _rated, HOLDS_SHEAR)
PULL_OUT = Mode(
    "plastic-pull-out", "Sheared out of the plastic", families.PLASTIC, "tension", _pull_out, SUBSTRATE_TENSION
)
BEARING = Mode("plastic-bearing", "Hole elongated by the shank", families.PLASTIC, "shear", _bearing, SUBSTRATE_SHEAR)
PUNCH = Mode("plastic-punch", "Washer punched through", families.PLASTIC, "tension", _punch, SUBSTRATE_TENSION)
BACK_PRESSURE = Mode(
    "plastic-back", "Crushed under the washer behind", families.ITEM_SOFT, "tension", _back_pressure, SUBSTRATE_TENSION
)
THROUGH = (BEARING, PUNCH, BACK_PRESSURE)
