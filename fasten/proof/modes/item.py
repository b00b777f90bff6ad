"""How the item itself gives way where a screw or rivet goes through it: under the head, and beside the shank.

The distance from the item's holes to its edge is not asked for: the least distance in practice is assumed.
"""

from fasten.catalog.named import material
from fasten.catalog.rules import Rules, rule_value
from fasten.catalog.tables import Tables
from fasten.geometry.joint import head_mm, shaft_mm
from fasten.mechanics import sheet
from fasten.mechanics.bearing import bearing_load_n
from fasten.mechanics.plastic import bearing_plastic_n
from fasten.model import Input, Joint, MountPoint
from fasten.proof.modes import board as board_modes
from fasten.proof.modes import common as modes
from fasten.proof.modes import families
from fasten.proof.modes import plastic as plastic_modes
from fasten.proof.modes.common import bolt_bearing, formula, ultimate
from fasten.proof.modes.mode import IN_ITEM, UNDER_HEAD, Capacity, Mode

SOFT = frozenset({"board", "wood", *plastic_modes.FAMILIES})


def through_item(mount: MountPoint, tables: Tables) -> tuple[Mode, Mode]:
    """What the item of this mount must bear where a screw or rivet goes through it."""
    return under_head(mount, tables), beside_shank(mount, tables)


def under_head(mount: MountPoint, tables: Tables) -> Mode:
    """How the item gives way to a pull: pulled over the head, or crushed under it where it is soft."""
    return PRESSURE if material(tables, mount.item_material).family in SOFT else PULL_OVER


def beside_shank(mount: MountPoint, tables: Tables) -> Mode:
    """How the item gives way to a shear: its hole is elongated."""
    family = material(tables, mount.item_material).family
    if family in plastic_modes.FAMILIES:
        return PLASTIC_BEARING
    return BOARD_BEARING if family in SOFT else BEARING


def _pull_over(joint: Joint, mount: MountPoint, tables: Tables) -> Capacity:
    strength, source = ultimate(tables, mount.item_material)
    expression, formula_source = formula(tables, "pull-through-en")
    bears = Input("diameter on the item", head_mm(joint), "mm")
    item = _thickness(mount)
    load = sheet.pull_through_en_n(
        sheet_mm=item.value, head_mm=bears.value, sheet_ultimate_mpa=strength.value, gamma=modes.UNDIVIDED
    )
    return Capacity(load, (item, bears, strength), expression, (formula_source, source, *joint.from_))


def _pressure(joint: Joint, mount: MountPoint, tables: Tables) -> Capacity:
    """What a board or plastic item bears under the head or washer: a limit on pressure, not a strength."""
    limit, sources = pressure_mpa(mount.item_material, mount, tables)
    expression, formula_source = formula(tables, "pressure")
    outer, hole = head_mm(joint), mount.item_hole_mm
    load = bearing_load_n(washer_mm=outer, hole_mm=hole, pressure_mpa=limit)
    inputs = (
        Input("diameter on the item", outer, "mm"), Input("hole in the item", hole, "mm"),
        Input("pressure", limit, "MPa"),
    )  # fmt: skip
    return Capacity(load, inputs, expression, (formula_source, *sources, *joint.from_))


def pressure_mpa(name: str, mount: MountPoint, tables: Tables) -> tuple[float, tuple[str, ...]]:
    """What board, plastic or laminate bears for years, and its sources; of plastic never more than its hot strength."""
    family = material(tables, name).family
    limit, source = rule_value(tables, Rules.PLASTIC_BEARING if family == "plastic" else Rules.BOARD_BEARING)
    if family not in plastic_modes.FAMILIES:
        return limit, (source,)
    strength, _, sources = plastic_modes.strength_of_mpa(name, mount, tables)
    return min(limit, strength), (source, *sources)


def _thickness(mount: MountPoint) -> Input:
    return Input("item thickness", mount.item_thickness_mm, "mm")


def _shank(joint: Joint) -> Input:
    return Input("diameter through the item", shaft_mm(joint), "mm")


def _bearing(joint: Joint, mount: MountPoint, tables: Tables) -> Capacity:
    item, shank = _thickness(mount), _shank(joint)
    ratio, ratio_source = rule_value(tables, Rules.ITEM_EDGE)
    edge = Input("edge of the item, assumed", ratio * shank.value, "mm")
    strength, source = ultimate(tables, mount.item_material)
    load, expression, formula_source = bolt_bearing(
        mount.item_material, item.value, shank.value, edge.value, strength.value, tables
    )
    return Capacity(load, (item, shank, edge, strength), expression, (formula_source, source, ratio_source))


def _board_bearing(joint: Joint, mount: MountPoint, tables: Tables) -> Capacity:
    """All of the depth bears up to where the shank would bend: head and washer keep it upright in the item.

    In the substrate its end is free and it tilts, which is the thin-plate form of `board_modes.LATERAL`.
    """
    return board_modes.upright(mount.item_material, _shank(joint), _thickness(mount), tables)


def _plastic_bearing(joint: Joint, mount: MountPoint, tables: Tables) -> Capacity:
    item, shank = _thickness(mount), _shank(joint)
    strength, inputs, sources = plastic_modes.strength_of_mpa(mount.item_material, mount, tables)
    expression, formula_source = formula(tables, "bearing-plastic")
    load = bearing_plastic_n(diameter_mm=shank.value, depth_mm=item.value, strength_mpa=strength)
    return Capacity(load, (item, shank, *inputs), expression, (formula_source, *sources))


PULL_OVER = Mode("item-pull-over", "Item pulled over the head", families.ITEM, "tension", _pull_over, UNDER_HEAD)
PRESSURE = Mode("item-pressure", "Item crushed under the head", families.ITEM_SOFT, "tension", _pressure, UNDER_HEAD)
BEARING = Mode(
    "item-bearing", "Item's hole elongated by the screw", families.ITEM, "shear", _bearing, IN_ITEM, by_screw=True
)
_APART = "no published rule combines the item's elongated hole with the pull on the item or on the substrate"
BOARD_BEARING = Mode(
    "item-bearing-board", "Item's hole elongated by the screw (estimate)", families.BOARD_BEARING, "shear",
    _board_bearing, IN_ITEM, apart=_APART, estimate=True, by_screw=True,
)  # fmt: skip
PLASTIC_BEARING = Mode(
    "item-bearing-plastic", "Item's hole elongated by the screw", families.PLASTIC, "shear", _plastic_bearing,
    IN_ITEM, apart=_APART, by_screw=True,
)  # fmt: skip
