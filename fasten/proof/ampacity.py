"""What the cable of a ground lug carries against the full current of what it grounds."""

from fasten.catalog.ampacity import cable_ampacity
from fasten.catalog.practice import RULES
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.catalog.wiring import AWG_CONDUCTORS, CABLE_AMPACITY, ENGINE_BAY_FACTORS
from fasten.model import Asks, Check, Input, MountPoint, Where
from fasten.proof.checks import at_most, holds, waits
from fasten.record import record
from fasten.text.figures import figure


@record
class _Place:
    """The insulation of the cable and what is left of its current where it lies, with the figures and sources."""

    insulation_c: float
    share: float
    inputs: tuple[Input, ...]
    from_: tuple[str, ...]


def check(mount: MountPoint, tables: Tables) -> Check:
    """The full current against what the cable carries; it waits for whichever is not given.

    Of several rings it is the current of all: it holds where one of them would carry it. Where the mean of them is more
    than one carries, one is too thin; between the two it is not known.
    """
    place, amps_a, sources = _place(mount, tables), None, tuple[str, ...]()
    if mount.cable_mm2 is not None:
        found = cable_ampacity(mount.cable_mm2, place.insulation_c, tables)
        amps_a, sources = (None, ()) if found is None else (found.amps_a * place.share, found.from_)
    given = (
        *place.inputs,
        *(() if mount.current_a is None else (Input("full current", mount.current_a, "A"),)),
        *(() if mount.cable_mm2 is None else (Input("cable", mount.cable_mm2, "mm²"),)),
    )
    id_, title, formula = "ground-ampacity", "Current that its cable carries", "full current <= ampacity of the cable"
    from_ = (*sources, *place.from_)
    if mount.current_a is not None and amps_a is not None:
        full_a, rings = mount.current_a, mount.rings or 1
        mean_a = full_a / rings
        if rings == 1 or holds(full_a, amps_a):
            return at_most(id_, title, full_a, amps_a, "A", given, formula, from_)
        given = (*given, Input("rings", rings, "-"))
        if not holds(mean_a, amps_a):
            each = "full current / rings <= ampacity of the cable"
            return at_most(id_, title, mean_a, amps_a, "A", given, each, from_)
        needs = f"needs what each of its {rings} cables carries: one carries {figure(amps_a)} of {figure(full_a)} A"
        return waits(id_, title, "A", mean_a, needs, given, formula, from_)
    asks = Asks.CURRENT if amps_a is not None else None
    return waits(id_, title, "A", mount.current_a, _needs(amps_a, mount, tables), given, formula, from_, asks=asks)


def enough(current_a: float, mount: MountPoint, tables: Tables) -> str:
    """The least cable on sale that carries a current there, or that none does."""
    place = _place(mount, tables)
    rows = [row for row in tables.rows(CABLE_AMPACITY) if tables.find(AWG_CONDUCTORS, row.awg) is not None]
    least = next((row.awg for row in rows if row.at_a(int(place.insulation_c)) * place.share >= current_a), None)
    current = f"{figure(current_a)} A"
    return f"no one cable carries {current}" if least is None else f"{current} needs {least} AWG or thicker"


def _needs(amps_a: float | None, mount: MountPoint, tables: Tables) -> str:
    if mount.cable_mm2 is not None:
        if amps_a is None:
            return "needs a thicker cable: so thin a one is in no table of what cable carries"
        return f"needs its full current: its cable carries {figure(amps_a)} A"
    if mount.current_a is None:
        return "needs its cable and its full current"
    return f"needs its cable: {enough(mount.current_a, mount, tables)}"


def _place(mount: MountPoint, tables: Tables) -> _Place:
    insulation = rule(tables, Rules.GROUND_INSULATION)
    inputs, from_ = (Input("insulation", insulation.value, "°C"),), (tables.source_id(RULES, insulation),)
    if mount.where is not Where.ENGINE_BAY:
        return _Place(insulation.value, 1.0, inputs, from_)
    row = tables.need(ENGINE_BAY_FACTORS, insulation.value)
    share = Input("engine bay", row.factor_share, "-")
    return _Place(
        insulation.value, row.factor_share, (*inputs, share), (*from_, tables.source_id(ENGINE_BAY_FACTORS, row))
    )
