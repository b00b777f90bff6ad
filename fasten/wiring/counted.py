"""What counts for a run as long as it is not given, where that decides: an unresolved check until it is seen."""

from collections.abc import Iterator
from math import ceil, sqrt

from fasten.catalog.practice import RULES
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.catalog.wiring_rules import WiringRules, rule_figure
from fasten.model import Check, Input, Power
from fasten.proof.checks import at_most, holds, waits
from fasten.question.fields import LUG
from fasten.record import replace
from fasten.text.figures import figure
from fasten.text.given import given_text
from fasten.text.shown import shown
from fasten.wiring.accepted import (
    BATTERY_FUSE,
    BULKHEAD,
    DEVICE,
    GROUND_LEAD,
    GROUND_POINT,
    HOLDER_POINT,
    IMPEDANCE,
    INSULATION,
    MATERIAL,
    NOT_WHOLE,
    OUTPUT,
    OWN_FUSES,
    PATH,
    PLUGS,
    PROPOSED,
    RATED,
    RIVALS,
    SECTIONS_LENGTH,
    STACK,
    UNLIKE,
    UNLOADED,
    UNPLACED,
)
from fasten.wiring.bundle import has_unknown_plug
from fasten.wiring.conditions import is_at_bare_body
from fasten.wiring.conductor import clad_more_v
from fasten.wiring.fuse import Fuse, is_battery, is_ground
from fasten.wiring.pieces import end_text, hangs_in_cable, unfed_at
from fasten.wiring.read import LEAST_PRINTED_C
from fasten.wiring.sizing import NoSize, Sizing, hot_instead, sized
from fasten.wiring.ways import SLACK_MM
from fasten.wiring.words import Branches, Loudspeaker, Material, Run, RunWhere, StudEnd, Unsized


def counted(sizing: Sizing, tables: Tables) -> Iterator[Check]:
    """What is not in its sums, the printed temperature of a cable at hand, and the own fuses of an amplifier."""
    run = sizing.run
    yield from _not_in_the_sum(run)
    yield from _of_outputs(run)
    if run.unplaced and sizing.conductor is not None:
        needs = f"needs where these lie, which decides what it carries: {_names(run.unplaced)}"
        yield waits(UNPLACED, "Place of its sections", "A", None, needs, (), "", ())
    if _is_unplaced_at_battery(sizing) and (hot := hot_instead(sizing, tables)):
        needs = f"needs where it lies, as it begins at a battery: in the engine bay it wants {hot}"
        yield waits(UNPLACED, "Place of the run", "A", None, needs, (), "", ())
    if run.proposed:
        these = ", ".join(run.proposed)
        needs = f"needs these confirmed or said otherwise, which were only proposed: {these}"
        yield waits(f"{PROPOSED}.{run.name} {these}", "What was proposed", "", None, needs, (), "", ())
    if run.unpassed:
        needs = "needs how it passes the bulkhead: no hole is given, new or existing"
        yield waits(f"{BULKHEAD}.{run.name}", "Way through the bulkhead", "", None, needs, (), "", ())
    if run.sections_mm > run.length_mm + SLACK_MM:
        lengths = f"{figure(run.sections_mm)} mm of sections and {figure(run.length_mm)} mm of cable"
        needs = f"needs one of its lengths said anew: {lengths}; or see that it leaves a section before its end"
        of = f"{SECTIONS_LENGTH}.{run.name} {figure(run.sections_mm)} {figure(run.length_mm)}"
        yield waits(of, "Length of its sections", "mm", None, needs, (), "", ())
    if has_unknown_plug((sizing,)):
        needs = "needs the plug at each end: buy the lead screened and made up with them, or say what its ends are"
        yield waits(f"{PLUGS}.{run.name}", "Plugs of the lead", "", None, needs, (), "", ())
    if run.marks_c:
        these = " and ".join(f"{figure(mark_c)} °C" for mark_c in run.marks_c)
        needs = f"needs what is printed on the cable: {these} are said, the lower counts"
        yield waits(INSULATION, "Printed temperature", "°C", run.insulation_c, needs, (), "", ())
    elif _mark_decides(sizing, tables):
        needs = f"needs what is printed on the cable: without it {figure(run.insulation_c)} °C counts"
        _, source = rule_figure(tables, WiringRules.INSULATION_UNMARKED)
        yield waits(INSULATION, "Printed temperature", "°C", run.insulation_c, needs, (), "", (source,))
    if _material_decides(sizing, tables):
        needs = "needs what the cable is of: as copper-clad aluminium it would come to something else"
        _, source = rule_figure(tables, WiringRules.CLAD_RESISTANCE)
        yield waits(MATERIAL, "Conductor of copper", "", None, needs, (), "", (source,))
    if _clad_before_decides(sizing, tables):
        needs = (
            f"needs what the cable before it is of: as copper-clad aluminium too much is lost in {_names(run.unsaid)}"
        )
        _, source = rule_figure(tables, WiringRules.CLAD_RESISTANCE)
        of = f"{MATERIAL}.{', '.join(dict.fromkeys(run.unsaid))}"
        yield waits(of, "Conductor of copper before it", "", None, needs, (), "", (source,))
    if isinstance(run.carries, Power) and not run.own_fuses_a:
        needs = "needs its own fuses: without them its power alone counts"
        title = "Own fuses of the amplifier"
        yield waits(f"{OWN_FUSES}.{given_text(run.carries)}", title, "A", None, needs, (), "", ())


def _of_outputs(run: Run) -> Iterator[Check]:
    """Whether a lead is said to carry what an output of its amplifier gives: the lead is sized by what is said.

    What such an output drives as well is looked at: it may be a loudspeaker of more impedance.
    """
    load = run.carries
    if not isinstance(load, Loudspeaker) or not run.outputs or load in run.outputs:
        return
    said, each = _load_text(load), " or ".join(map(_load_text, run.outputs))
    if any(_drives(output, load) for output in run.outputs):
        needs = f"needs the loudspeaker: see that it has {figure(load.impedance_ohm)} Ω; the outputs are for {each}"
        id_ = f"{IMPEDANCE}.{said} at {each}".replace("Ω", "ohm")
        yield waits(id_, "Impedance of the loudspeaker", "", None, needs, (), "", ())
    else:
        needs = f"needs one load for both: {said} is said of the lead, {each} of the outputs it begins at"
        yield waits(OUTPUT, "Output of the amplifier", "", None, needs, (), "", ())


def _is_unplaced_at_battery(sizing: Sizing) -> bool:
    """Whether a run is at the battery of the vehicle, which is mostly under the bonnet, and nothing says where it lies.

    A second battery is a mount point of its job, and lies where that is.
    """
    run = sizing.run
    at_first = any(is_battery(end) and not name for end, name in ((run.from_, run.from_name), (run.to, run.to_name)))
    return at_first and run.place_assumed and run.where is RunWhere.CABIN and sizing.conductor is not None


def _drives(output: Loudspeaker, load: Loudspeaker) -> bool:
    """Whether an output drives no more through a load than is said of it: by its voltage, V = sqrt(P Z).

    An impedance under its own is not for it.
    """
    output_v = sqrt(output.power_w * output.impedance_ohm)
    load_v = sqrt(load.power_w * load.impedance_ohm)
    return load.impedance_ohm >= output.impedance_ohm and holds(output_v, load_v)


def _load_text(load: Loudspeaker) -> str:
    return f"{figure(load.power_w)} W {figure(load.impedance_ohm)} Ω"


def wants_ground(run: Run) -> bool:
    """Whether a ground lead beside a run is to be said: it feeds a load that no run of its own grounds."""
    return not (isinstance(run.carries, Unsized | Loudspeaker | Branches) or run.return_mm or is_ground(run))


def _not_in_the_sum(run: Run) -> Iterator[Check]:
    """What of the current, or of the way from the source to the load and back, is not known."""
    if run.unloaded:
        needs = f"needs what these carry, which is not in the sum: {_names(run.unloaded)}"
        yield waits(UNLOADED, "Load of its branches", "A", None, needs, (), "", ())
    if run.body_unknown:
        needs = f"needs what these carry, which goes back through the body with it: {_names(run.body_unknown)}"
        yield waits(f"{UNLOADED}.body", "Load of what shares the body", "A", None, needs, (), "", ())
    if run.rivals:
        needs = f"needs what it carries itself: {_names(run.rivals)} and it feed the same"
        yield waits(RIVALS, "Share of the current", "A", None, needs, (), "", ())
    yield from _beside(run)
    yield from _not_on_the_path(run)
    if run.not_whole:
        needs = f"needs the whole voltage drop of what is on its way: {_names(run.not_whole)}"
        yield waits(NOT_WHOLE, "Voltage drop on its way", "V", None, needs, (), "", ())
    if not isinstance(run.carries, Unsized | Loudspeaker) and (at := unfed_at(run)):
        start = end_text(run.from_) if at == run.name else at
        needs = f"needs the run that feeds {start}, or what is lost before it measured: it is not in the voltage drop"
        yield waits(f"{PATH}.{at}", "Voltage drop before it", "V", None, needs, (), "", ())
    if wants_ground(run) and not run.ground_mm:
        needs = "needs how long its ground lead is: without it the plus alone is in the voltage drop"
        yield waits(
            f"{GROUND_LEAD}.{run.to_name or run.name or end_text(run.to)}", "Ground lead", "V", None, needs, (), "", ()
        )


def _beside(run: Run) -> Iterator[Check]:
    """Whether the leads from the minus of a battery to the body carry what comes back there."""
    if run.comes is not None:
        inputs = Input("comes back", run.comes.full_a, "A"), Input("said", run.comes.said_a, "A")
        yield at_most("minus", "Current of the job, of what is said", run.comes.full_a, run.comes.said_a, "A", inputs,
                      f"sum of what comes back <= what is said of {_names(run.comes.leads)}", ())  # fmt: skip
    if run.unlike:
        needs = f"needs the same cable and length as {_names(run.unlike)}: else they do not share alike"
        yield waits(UNLIKE, "Share of the current", "A", None, needs, (), "", ())


def _not_on_the_path(run: Run) -> Iterator[Check]:
    """What of the leads from the amplifier to the loudspeaker is not known."""
    beside = run.leads_before, run.leads_behind
    if unknown := tuple(name for one in beside for name in one.unknown):
        needs = f"needs the resistance of what is on its way, which is not in the sum: {_names(unknown)}"
        yield waits(NOT_WHOLE, "Resistance on its way", "Ω", None, needs, (), "", ())
    for gap in dict.fromkeys(gap for one in beside for gap in one.gaps):
        needs = f"needs the lead on the other side of {gap}, or its resistance measured: it is not in the sum"
        yield waits(f"{PATH}.{gap}", "Resistance on its way", "Ω", None, needs, (), "", ())


def stacked(run: Run, tables: Tables) -> Iterator[Check]:
    """The lugs that lie one on another at the stud of a battery; a ground lug of the job has its own line of proof."""
    row = rule(tables, Rules.GROUND_RINGS)
    most, source = row.value, tables.source_id(RULES, row)
    for called, count in run.at_studs:
        if called in (run.from_name, run.to_name):
            continue
        inputs = (Input("lugs", count, "-"),)
        if count > most:
            yield at_most(STACK, "Lugs on one stud", count, most, "-", inputs, "lugs <= most", (source,))
            continue
        needs = f"needs its stud: {count} lugs end at {shown(called)}, most current undermost, 3 threads past the nut"
        yield waits(f"{STACK}.{called} {count}", "Lugs on one stud", "", None, needs, inputs, "", (source,))


def unmounted(sizing: Sizing) -> Iterator[Check]:
    """What of a run of a job is fastened to the car and is no mount point there: it would be on no list."""
    run, fuse = sizing.run, sizing.fuse
    yield from _rated(sizing)
    if not run.name:
        return
    if fuse is not None and _is_loose(run, fuse):
        needs = "needs a mount point for its fuse holder: item fuse-holder; or see how the holder is held"
        yield waits(f"{HOLDER_POINT}.{run.name}", "Place of the fuse holder", "", None, needs, (), "", ())
    if run.through is not None:
        device = _device(run.through)
        needs = f"needs the {device} on its way, which is on no list: buy it and fasten it, or see that it is there"
        yield waits(f"{DEVICE}.{run.name} {device}", "Device on its way", "", None, needs, (), "", ())
    if is_at_bare_body(run):
        needs = f"needs a mount point for its body stud: item {LUG}; or see that the car has a stud there"
        yield waits(f"{GROUND_POINT}.{run.name}", "Ground point", "", None, needs, (), "", ())


def _rated(sizing: Sizing) -> Iterator[Check]:
    """What a device on the way carries: it is in no table, and the fuse protects the cable and not the device."""
    run, current = sizing.run, sizing.current
    if run.through is None or current is None:
        return
    amps, device = f"{figure(ceil(current.full_a))} A", _device(run.through)
    needs = f"needs the rating of the {device}: {amps} at least"
    yield waits(f"{RATED}.{device} {amps}", "Rating of the device on its way", "A", current.full_a, needs, (), "", ())


def _device(stud: StudEnd) -> str:
    return f"{stud.called or 'device'} with studs {stud.stud}"


def far_fuse(sizing: Sizing, tables: Tables) -> Iterator[Check]:
    """The fuse that a run wants at a battery which feeds it from its far end: what is before it lies at the other.

    A holder that it begins at is near enough to that battery where it is no longer than the way to a fuse may be.
    """
    run, found = sizing.run, sizing.conductor
    is_fed = run.fed or run.upstream_fuse_a is not None or run.in_block or run.from_holder
    if found is None or is_ground(run) or not is_fed or is_battery(run.from_) or not is_battery(run.to):
        return
    within_mm, source = rule_figure(tables, WiringRules.FUSE_WITHIN)
    if run.from_holder and run.length_mm <= within_mm:
        return
    at = run.to_name or end_text(run.to)
    fuse_a = sizing.fuse.rating_a if sizing.fuse is not None else run.upstream_fuse_a or found.ampacity_a
    needs = (
        f"needs a fuse of {figure(fuse_a)} A within {figure(within_mm)} mm of {shown(at)} as well, on no list: "
        f"that battery feeds the cable too"
    )
    yield waits(f"{BATTERY_FUSE}.{at}", "Fuse at the battery it ends at", "A", fuse_a, needs, (), "", (source,))


def _is_loose(run: Run, fuse: Fuse) -> bool:
    """Whether a holder is screwed on and none of the job is adopted; one that is spliced in hangs in its cable."""
    return not (hangs_in_cable(fuse) or run.in_block or run.to_holder) and len(run.holder_names) < fuse.count


def _names(names: tuple[str, ...]) -> str:
    return ", ".join(map(shown, dict.fromkeys(names)))


def _mark_decides(sizing: Sizing, tables: Tables) -> bool:
    """Whether a verdict changes with what is printed on the cable: the least there is, or what is asked for to buy."""
    run = sizing.run
    if run.chosen is None or run.marked or sizing.conductor is None:
        return False
    bought_c, _ = rule_figure(tables, WiringRules.INSULATION_BOUGHT)
    others = (sized(replace(run, insulation_c=printed_c), tables) for printed_c in (LEAST_PRINTED_C, bought_c))
    return any(isinstance(one, NoSize) or _comes_to(one) != _comes_to(sizing) for one in others)


def _material_decides(sizing: Sizing, tables: Tables) -> bool:
    """Whether a verdict changes with copper-clad, where it is not given what cable at hand is of."""
    run = sizing.run
    if run.chosen is None or run.material_said or sizing.conductor is None:
        return False
    clad = sized(replace(run, material=Material.CLAD), tables)
    return isinstance(clad, NoSize) or _comes_to(clad) != _comes_to(sizing)


def _clad_before_decides(sizing: Sizing, tables: Tables) -> bool:
    """Whether the voltage drop misses its limit once cable before it, of which it is not said, is copper-clad."""
    run, found, current = sizing.run, sizing.conductor, sizing.current
    if not run.unsaid or found is None or current is None or not holds(found.drop_v, run.stop_v):
        return False
    own_v = clad_more_v(found, current.full_a, run, tables)
    return not holds(found.drop_v + run.clad_v + own_v, run.stop_v)


def _comes_to(sizing: Sizing) -> tuple[object, ...]:
    fuse = None if sizing.fuse is None else (sizing.fuse.family, sizing.fuse.rating_a)
    return fuse, tuple((check.id, check.status) for check in sizing.checks)
