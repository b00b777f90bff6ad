"""Which mass was meant where the one given is that of the item in a unit a thousand times too small or too large."""

from fasten.catalog.materials import ITEMS
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.model import MountPoint, Origin

_PER_KG = 1000.0  # grams, which are written for kilograms and the other way round


def meant_kg(mount: MountPoint, tables: Tables) -> float | None:
    """The mass in the other unit, where that is one of such an item and what was given is none; None elsewhere.

    It is where it is as near to the item's preset as anything that is measured must be to its plan.
    """
    if dict(mount.origins).get("item_mass_kg") is not Origin.GIVEN:
        return None
    usual_kg, factor = tables.need(ITEMS, mount.item).mass_kg, rule(tables, Rules.BUILT_SLIP).value
    others = (mount.item_mass_kg * _PER_KG, mount.item_mass_kg / _PER_KG)
    return next((other for other in others if usual_kg / factor < other < usual_kg * factor), None)
