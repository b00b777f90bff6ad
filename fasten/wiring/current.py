"""What a run carries at full output, and the least that its fuse must be rated for."""

from fasten.catalog.tables import Tables
from fasten.catalog.wiring import AMPLIFIER_CLASSES
from fasten.catalog.wiring_rules import WiringRules, rule_figure
from fasten.mechanics.wiring import amplifier_current_a, loudspeaker_current_a
from fasten.model import Check, Input, Power, Status
from fasten.proof.checks import at_most
from fasten.record import record
from fasten.wiring.words import Amps, Branches, Loudspeaker, Run


@record
class Current:
    """The full current, the least rating of a fuse (None: there is none), and what flows on music.

    `music_a` decides nothing; it is None where nothing says that an amplifier takes it.
    """

    full_a: float
    fuse_floor_a: float | None
    music_a: float | None
    check: Check


Load = Amps | Power | Branches | Loudspeaker


def current_of(load: Load, run: Run, tables: Tables) -> Current:
    """The current of a load, with what goes on from there."""
    if isinstance(load, Loudspeaker):
        return _loudspeaker(load)
    if isinstance(load, Branches):
        return _branches(load, tables)
    own = _own(load, run, tables)
    return own if run.onward is None else _with_onward(own, run.onward, tables)


def _own(load: Amps | Power, run: Run, tables: Tables) -> Current:
    """The current of the load alone."""
    asked_a, inputs, formula, sources = _asked(load, run, tables)
    own_a = sum(run.own_fuses_a)
    share, share_source = rule_figure(tables, WiringRules.FUSE_SHARE)
    music, _ = rule_figure(tables, WiringRules.MUSIC_SHARE)
    full_a = min(asked_a, own_a) if own_a else asked_a
    floor_a = own_a or full_a / share
    if own_a:
        inputs, formula = (*inputs, Input("own fuses", own_a, "A")), f"full = min({formula}, own fuses) <= own fuses"
    else:
        inputs, formula = (*inputs, Input("share", share, "-")), f"full = {formula} <= share x least fuse"
        sources = (*sources, share_source)
    check = at_most("current", "Full current, of the least fuse", full_a, floor_a, "A", inputs, formula, sources)
    return Current(full_a, floor_a, None if isinstance(load, Amps) else full_a * music / 100, check)


def _asked(load: Amps | Power, run: Run, tables: Tables) -> tuple[float, tuple[Input, ...], str, tuple[str, ...]]:
    """The current by the load alone, with what it is calculated from."""
    if isinstance(load, Amps):
        return load.full_a, (Input("current", load.full_a, "A"),), "current", ()
    row = tables.need(AMPLIFIER_CLASSES, load.class_)
    full_a = amplifier_current_a(power_w=load.power_w, efficiency_share=row.efficiency_share, supply_v=run.supply_v)
    inputs = (Input("power", load.power_w, "W"), Input("efficiency", row.efficiency_share, "-"),
              Input("supply", run.supply_v, "V"))  # fmt: skip
    source = tables.source_id(AMPLIFIER_CLASSES, row)
    return full_a, inputs, "power / (efficiency x supply)", (source, *run.from_sources[:1])


def _branches(load: Branches, tables: Tables) -> Current:
    """A trunk carries what all of its branches carry, and its fuse what all of their fuses do."""
    music, _ = rule_figure(tables, WiringRules.MUSIC_SHARE)
    inputs = Input("branches", load.full_a, "A"), Input("least fuses", load.floor_a, "A")
    formula = "full = sum of the branches <= sum of their least fuses"
    check = at_most("current", "Full current, of the least fuse", load.full_a, load.floor_a, "A", inputs, formula, ())
    return Current(load.full_a, load.floor_a, load.full_a * music / 100, check)


def _with_onward(own: Current, onward: Branches, tables: Tables) -> Current:
    """A run that feeds an item carries what goes on from that item as well."""
    music, _ = rule_figure(tables, WiringRules.MUSIC_SHARE)
    full_a, floor_a = own.full_a + onward.full_a, (own.fuse_floor_a or own.full_a) + onward.floor_a
    inputs = (*own.check.inputs, Input("goes on", onward.full_a, "A"), Input("least fuses behind", onward.floor_a, "A"))
    formula = f"{own.check.formula}, each with what goes on"
    check = at_most("current", own.check.title, full_a, floor_a, "A", inputs, formula, own.check.from_)
    return Current(full_a, floor_a, None if own.music_a is None else full_a * music / 100, check)


def _loudspeaker(load: Loudspeaker) -> Current:
    full_a = loudspeaker_current_a(power_w=load.power_w, impedance_ohm=load.impedance_ohm)
    inputs = Input("power", load.power_w, "W"), Input("impedance", load.impedance_ohm, "Ω")
    formula = "full = root(power / impedance)"
    check = Check("current", "Full current", Status.HOLDS, full_a, None, "A", None, None, None, inputs, formula, ())
    return Current(full_a, None, None, check)
