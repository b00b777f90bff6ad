"""Whether a screw and the metal under it corrode each other where the mount point lives."""

from fasten.catalog.materials import ANODIC_INDEX
from fasten.catalog.named import material
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.mechanics.galvanic import index_difference_v
from fasten.model import Joint, MountPoint, Where
from fasten.record import record

LIMITS = {
    Where.CABIN: Rules.ANODIC_LIMIT_CONTROLLED,
    Where.DOOR: Rules.ANODIC_LIMIT_NORMAL,
    Where.UNDERFLOOR: Rules.ANODIC_LIMIT_HARSH,
    Where.ENGINE_BAY: Rules.ANODIC_LIMIT_HARSH,
}
STEEL = "carbon steel"  # what zinc lies on to go first: its own screw, and the body that it is in
INDEX_OF_FINISH = {"zinc_plated": "zinc", "stainless_dry": "stainless steel", "plain": "aluminium"}


@record
class Corrosion:
    """A metal that is further from the finish of the screw on it than the place allows, and which of them is eaten."""

    finish: str
    metal: str
    apart_v: float
    most_v: float
    eaten: str


def on_panel(joint: Joint, mount: MountPoint, tables: Tables) -> Corrosion | None:
    """What the screw and the substrate do to each other; None where nothing has to be said."""
    return _between(joint, mount.material, mount.where, tables)


def on_item(joint: Joint, mount: MountPoint, tables: Tables) -> Corrosion | None:
    """The same of screw and item, where that is of another material than the substrate."""
    return None if mount.item_material == mount.material else _between(joint, mount.item_material, mount.where, tables)


def _between(joint: Joint, name: str, where: Where, tables: Tables) -> Corrosion | None:
    metal = tables.find(ANODIC_INDEX, material(tables, name).anodic)
    if joint.screw is None or metal is None:
        return None
    finish = tables.need(ANODIC_INDEX, INDEX_OF_FINISH[joint.screw.finish])
    apart_v = index_difference_v(first_v=finish.index_v, second_v=metal.index_v)
    most_v = rule(tables, LIMITS[where]).value
    if apart_v <= most_v:
        return None
    eaten = finish.metal if finish.index_v > metal.index_v else metal.metal
    if metal.metal == STEEL and eaten == finish.metal:
        return None
    return Corrosion(finish.metal, metal.metal, apart_v, most_v, eaten)
