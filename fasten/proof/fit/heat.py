"""What softens in an engine bay: plastic, as what it is fastened to and as the item."""

from collections.abc import Iterator

from fasten.catalog.materials import MATERIALS
from fasten.catalog.named import material
from fasten.catalog.practice import RULES
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.model import Check, Input, MountPoint, Where
from fasten.proof.checks import at_most
from fasten.text.figures import words


def checks(mount: MountPoint, tables: Tables) -> Iterator[Check]:
    """Plastic in an engine bay, substrate and item: its limit in heat against what is reached there."""
    if mount.where is not Where.ENGINE_BAY:
        return
    reached = rule(tables, Rules.ENGINE_BAY_HEAT)
    for name in dict.fromkeys((mount.material, mount.item_material)):
        row = material(tables, name)
        if row.heat_limit_c is not None:
            inputs = (Input("reached", reached.value, "°C"), Input("limit", row.heat_limit_c, "°C"))
            sources = (tables.source_id(RULES, reached), tables.source_id(MATERIALS, row))
            yield at_most(f"heat-{row.material.replace('_', '-')}", f"Heat of an engine bay on {words(name)}",
                          reached.value, row.heat_limit_c, "°C", inputs, "reached <= limit", sources)  # fmt: skip
