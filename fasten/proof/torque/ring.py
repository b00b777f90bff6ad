"""What a ground lug asks of its torque: enough pressure on its ring to keep its contact, and no more than it bears."""

from fasten.catalog.materials import RING_LUGS, RingLug
from fasten.catalog.practice import RULES
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.mechanics.bearing import bearing_load_n
from fasten.model import Input, MountPoint
from fasten.proof.modes.mode import Capacity

LEAST, MOST = "least pressure on the ring", "most pressure on the ring"
_RULES = {LEAST: Rules.RING_PRESSURE_LEAST, MOST: Rules.RING_PRESSURE_MOST}


def lug(mount: MountPoint, tables: Tables) -> RingLug | None:
    """The lug of the cable on the stud, the narrowest that is made; None where none is known, or no cable is given.

    A wider palm than that is not pressed beyond the head and the flange that clamp it.
    """
    if mount.cable_mm2 is None:
        return None
    rows = tables.rows(RING_LUGS)
    sizes = {row.kind: row.cable_mm2 for row in reversed(rows) if row.cable_mm2 >= mount.cable_mm2}
    made = [row for row in rows if row.stud == mount.ring and row.cable_mm2 == sizes.get(row.kind)]
    return min(made, key=lambda row: row.palm_mm, default=None)


def pressed(found: RingLug, mount: MountPoint, name: str, tables: Tables) -> Capacity:
    """The clamp that puts the `LEAST` or the `MOST` pressure on the ring of a lug."""
    pressure = rule(tables, _RULES[name])
    load_n = bearing_load_n(washer_mm=found.palm_mm, hole_mm=mount.item_hole_mm, pressure_mpa=pressure.value)
    inputs = (
        Input("palm of the lug", found.palm_mm, "mm"), Input("hole of the ring", mount.item_hole_mm, "mm"),
        Input(name, pressure.value, "MPa"),
    )  # fmt: skip
    sources = (tables.source_id(RING_LUGS, found), tables.source_id(RULES, pressure))
    return Capacity(load_n, inputs, f"{name} x pi/4 (palm^2 - hole^2)", sources)
