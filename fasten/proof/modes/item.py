"""How the item itself gives way where a screw or rivet goes through it: under the head, and beside the shank.

The distance from the item's holes to its edge is not asked for: the least distance in practice is assumed.
"""

from functools import lru_cache

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
    return _pulled_over(tables, mount.item_material, mount.item_thickness_mm, head_mm(joint), joint.from_)


@lru_cache(maxsize=256)
def _pulled_over(tables: Tables, name: str, item_mm: float, bears_mm: float, from_: tuple[str, ...]) -> Capacity:
    strength, source = ultimate(tables, name)
    expression, formula_source = formula(tables, "pull-through-en")
    load = sheet.pull_through_en_n(
        sheet_mm=item_mm, head_mm=bears_mm, sheet_ultimate_mpa=strength.value, gamma=modes.UNDIVIDED
    )
    inputs = (_thickness(item_mm), Input("diameter on the item", bears_mm, "mm"), strength)
    return Capacity(load, inputs, expression, (formula_source, source, *from_))


def _pressure(joint: Joint, mount: MountPoint, tables: Tables) -> Capacity:
    """What a board or plastic item bears under the head or washer: a limit on pressure, not a strength."""
    limit, sources = pressure_mpa(mount.item_material, mount, tables)
    return _pressed(tables, limit, head_mm(joint), mount.item_hole_mm, (*sources, *joint.from_))


@lru_cache(maxsize=256)
def _pressed(tables: Tables, limit_mpa: float, outer_mm: float, hole_mm: float, from_: tuple[str, ...]) -> Capacity:
    expression, formula_source = formula(tables, "pressure")
    load = bearing_load_n(washer_mm=outer_mm, hole_mm=hole_mm, pressure_mpa=limit_mpa)
    inputs = (
        Input("diameter on the item", outer_mm, "mm"), Input("hole in the item", hole_mm, "mm"),
        Input("pressure", limit_mpa, "MPa"),
    )  # fmt: skip
    return Capacity(load, inputs, expression, (formula_source, *from_))


def pressure_mpa(name: str, mount: MountPoint, tables: Tables) -> tuple[float, tuple[str, ...]]:
    """What board, plastic or laminate bears for years, and its sources; of plastic never more than its hot strength."""
    return _pressure_mpa(tables, name, plastic_modes.is_hot(mount))


@lru_cache(maxsize=64)
def _pressure_mpa(tables: Tables, name: str, is_hot: bool) -> tuple[float, tuple[str, ...]]:
    family = material(tables, name).family
    limit, source = rule_value(tables, Rules.PLASTIC_BEARING if family == "plastic" else Rules.BOARD_BEARING)
    if family not in plastic_modes.FAMILIES:
        return limit, (source,)
    strength, _, sources = plastic_modes.left_mpa(tables, name, is_hot)
    return min(limit, strength), (source, *sources)


def _thickness(item_mm: float) -> Input:
    return Input("item thickness", item_mm, "mm")


def _shank(shank_mm: float) -> Input:
    return Input("diameter through the item", shank_mm, "mm")


def _bearing(joint: Joint, mount: MountPoint, tables: Tables) -> Capacity:
    return _elongated(tables, mount.item_material, mount.item_thickness_mm, shaft_mm(joint))


@lru_cache(maxsize=256)
def _elongated(tables: Tables, name: str, item_mm: float, shank_mm: float) -> Capacity:
    ratio, ratio_source = rule_value(tables, Rules.ITEM_EDGE)
    edge = Input("edge of the item, assumed", ratio * shank_mm, "mm")
    strength, source = ultimate(tables, name)
    load, expression, formula_source = bolt_bearing(name, item_mm, shank_mm, edge.value, strength.value, tables)
    inputs = (_thickness(item_mm), _shank(shank_mm), edge, strength)
    return Capacity(load, inputs, expression, (formula_source, source, ratio_source))


def _board_bearing(joint: Joint, mount: MountPoint, tables: Tables) -> Capacity:
    """All of the depth bears up to where the shank would bend: head and washer keep it upright in the item.

    In the substrate its end is free and it tilts, which is the thin-plate form of `board_modes.LATERAL`.
    """
    return _board_elongated(tables, mount.item_material, mount.item_thickness_mm, shaft_mm(joint))


@lru_cache(maxsize=256)
def _board_elongated(tables: Tables, name: str, item_mm: float, shank_mm: float) -> Capacity:
    return board_modes.upright(name, _shank(shank_mm), _thickness(item_mm), tables)


def _plastic_bearing(joint: Joint, mount: MountPoint, tables: Tables) -> Capacity:
    item, shank = _thickness(mount.item_thickness_mm), _shank(shaft_mm(joint))
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
