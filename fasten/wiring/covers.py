"""How thick a cable is outside, and the heat-shrink that goes over its end: what it must pass and what it must grip."""

from fasten.catalog.tables import Tables
from fasten.catalog.wiring_ends import CABLE_OUTSIDES, HEAT_SHRINK, HeatShrink
from fasten.catalog.wiring_rules import WiringRules, rule_figure
from fasten.mechanics.wiring import shrink_cut_mm
from fasten.model import Check, Input
from fasten.proof.checks import at_most, waits
from fasten.record import record
from fasten.text.figures import figure
from fasten.wiring.words import Run, Size, TerminalEnd

LUG, SPLICE = "lug", "splice"


@record
class Outside:
    """The outside of a cable, least and most: both the same where it was measured."""

    least_mm: float
    most_mm: float
    measured: bool
    from_: tuple[str, ...]


@record
class Shrink:
    """A heat-shrink over an end: the size, the length of a piece, and whether it must go on before the crimp."""

    row: HeatShrink
    cut_mm: float
    before_crimp: bool


def is_plugged(run: Run) -> bool:
    """Whether a run is a lead that comes with a plug at each end."""
    return all(isinstance(end, TerminalEnd) and end.is_plug for end in (run.from_, run.to))


def outside_of(size: Size, run: Run, tables: Tables) -> Outside | None:
    """The outside of a cable as measured, else as sold; None where neither is known.

    A lead that is bought with its plugs has an outside of its own, as said with a plug.
    """
    if run.outside_mm is not None:
        return Outside(run.outside_mm, run.outside_mm, measured=True, from_=())
    if is_plugged(run):
        leads = [end.lead_mm for end in (run.from_, run.to) if isinstance(end, TerminalEnd) and end.lead_mm is not None]
        return Outside(max(leads), max(leads), measured=True, from_=()) if leads else None
    row = tables.find(CABLE_OUTSIDES, size.name)
    if row is None:
        return None
    least_mm = row.most_mm if row.least_mm is None else row.least_mm
    return Outside(least_mm, row.most_mm, measured=False, from_=(tables.source_id(CABLE_OUTSIDES, row),))


def outside_check(size: Size, outside: Outside | None, tables: Tables) -> Check | None:
    """What stands open until the outside of the cable is measured; None once it is."""
    if outside is not None and outside.measured:
        return None
    sold = "" if outside is None else f", sold at {_span(outside)}"
    needs = f"needs the outside of {size.name}{sold}, by calliper"
    return waits("outside", "Outside of the cable", "mm", None, needs, (), "", () if outside is None else outside.from_)


def shrink_over(
    outside: Outside | None, barrel_mm: float | None, covered_mm: float, palm_mm: float | None, tables: Tables
) -> Shrink | None:
    """The first heat-shrink of the series over lugs that passes cable and barrel and grips the thinner; else None."""
    if outside is None:
        return None
    widest = max(outside.most_mm, barrel_mm or 0.0)
    thinnest = min(outside.least_mm, barrel_mm or outside.least_mm)
    passes, _ = rule_figure(tables, WiringRules.SHRINK_PASS)
    grips, _ = rule_figure(tables, WiringRules.SHRINK_GRIP)
    for row in tables.rows(HEAT_SHRINK):
        room_mm = passes * row.supplied_mm
        if row.over == LUG and widest <= room_mm and row.recovered_mm <= grips * thinnest:
            return Shrink(row, cut_mm(covered_mm, tables), palm_mm is None or palm_mm > room_mm)
    return None


def splice_shrink(tables: Tables) -> Shrink:
    """The heat-shrink over an insulated butt splice."""
    row = next(row for row in tables.rows(HEAT_SHRINK) if row.over == SPLICE)
    covered, _ = rule_figure(tables, WiringRules.SPLICE_COVERED)
    return Shrink(row, cut_mm(covered, tables), before_crimp=True)


def cut_mm(covered_mm: float, tables: Tables) -> float:
    """The length of a piece that covers so much once it is recovered."""
    shortens, _ = rule_figure(tables, WiringRules.SHRINK_SHORTENS)
    return shrink_cut_mm(covered_mm=covered_mm, shortening_share=shortens / 100)


def shrink_checks(shrink: Shrink, outside: Outside, barrel_mm: float | None, tables: Tables) -> tuple[Check, ...]:
    """The two inequalities of a heat-shrink over a measured cable: it passes, and it grips."""
    source = tables.source_id(HEAT_SHRINK, shrink.row)
    passes, pass_source = rule_figure(tables, WiringRules.SHRINK_PASS)
    grips, grip_source = rule_figure(tables, WiringRules.SHRINK_GRIP)
    widest, thinnest = max(outside.most_mm, barrel_mm or 0.0), min(outside.least_mm, barrel_mm or outside.least_mm)
    inputs = Input("cable", outside.most_mm, "mm"), Input("barrel", barrel_mm or outside.most_mm, "mm")
    return (
        at_most("shrink-pass", "What the heat-shrink passes, of its inside", widest, passes * shrink.row.supplied_mm,
                "mm", inputs, "widest <= 0.9 supplied", (source, pass_source)),
        at_most("shrink-grip", "Recovered inside, of what it grips", shrink.row.recovered_mm, grips * thinnest,
                "mm", inputs, "recovered <= 0.85 thinnest", (source, grip_source)),
    )  # fmt: skip


def _span(outside: Outside) -> str:
    if outside.least_mm == outside.most_mm:
        return f"up to {figure(outside.most_mm)} mm"
    return f"{figure(outside.least_mm)} to {figure(outside.most_mm)} mm"
