"""What counts for a run as long as it is not given, where that decides: an unresolved check until it is seen."""

from collections.abc import Iterator
from dataclasses import replace

from fasten.catalog.tables import Tables
from fasten.catalog.wiring_rules import WiringRules, rule_figure
from fasten.model import Check, Power
from fasten.proof.checks import waits
from fasten.text.figures import figure
from fasten.text.given import given_text
from fasten.text.shown import shown
from fasten.wiring.accepted import INSULATION, OWN_FUSES, UNLOADED
from fasten.wiring.read import LEAST_PRINTED_C
from fasten.wiring.sizing import NoSize, Sizing, sized


def counted(sizing: Sizing, tables: Tables) -> Iterator[Check]:
    """What its other branches carry, the printed temperature of a cable at hand, and the own fuses of an amplifier."""
    run = sizing.run
    if run.unloaded:
        needs = f"needs what these carry, which is not in the sum: {', '.join(map(shown, run.unloaded))}"
        yield waits(UNLOADED, "Load of its branches", "A", None, needs, (), "", ())
    if _mark_decides(sizing, tables):
        needs = f"needs what is printed on the cable: without it {figure(run.insulation_c)} °C counts"
        _, source = rule_figure(tables, WiringRules.INSULATION_UNMARKED)
        yield waits(INSULATION, "Printed temperature", "°C", run.insulation_c, needs, (), "", (source,))
    if isinstance(run.carries, Power) and not run.own_fuses_a:
        needs = "needs its own fuses: without them its power alone counts"
        title = "Own fuses of the amplifier"
        yield waits(f"{OWN_FUSES}.{given_text(run.carries)}", title, "A", None, needs, (), "", ())


def _mark_decides(sizing: Sizing, tables: Tables) -> bool:
    """Whether a verdict changes with what is printed on the cable: the least there is, or what is asked for to buy."""
    run = sizing.run
    if run.chosen is None or run.marked or sizing.conductor is None:
        return False
    bought_c, _ = rule_figure(tables, WiringRules.INSULATION_BOUGHT)
    others = (sized(replace(run, insulation_c=printed_c), tables) for printed_c in (LEAST_PRINTED_C, bought_c))
    return any(isinstance(one, NoSize) or _comes_to(one) != _comes_to(sizing) for one in others)


def _comes_to(sizing: Sizing) -> tuple[object, ...]:
    fuse = None if sizing.fuse is None else (sizing.fuse.family, sizing.fuse.rating_a)
    return fuse, tuple((check.id, check.status) for check in sizing.checks)
