"""Holes of a job that cables go through: what each takes, and what is done to it.

It is made for a grommet, or there and measured first; or it is the boot of a door, which has no grommet. What is too
thick for the groove of any has a liner.
"""

from collections.abc import Iterator, Mapping

from fasten.advice.bits import PILOT as OF_PILOT
from fasten.advice.rows import PILOT
from fasten.catalog.practice import TOOLS
from fasten.catalog.tables import Tables
from fasten.catalog.wiring_rules import WiringRules, rule_figure
from fasten.catalog.wiring_work import GROMMETS, Grommet
from fasten.errors import FastenError
from fasten.geometry.bits import metric_name, thickest_metric_bit
from fasten.model import Check, Input
from fasten.model.plan import BitNeed, PartNeed, Plan
from fasten.proof.checks import at_most, waits
from fasten.text import units
from fasten.text.figures import counted, figure
from fasten.text.units import Dimension
from fasten.wiring.bundle import Bundle, bundle_of, has_unknown_plug, plug_mm
from fasten.wiring.end_parts import grommet, need_of
from fasten.wiring.needs import needs_of
from fasten.wiring.sizing import Sizing
from fasten.wiring.through import Through, read_through
from fasten.wiring.ways import HOLE, MM, Way, bundled, named_in, plan_of_way

BELLOWS = "bellows"  # the check of an existing hole that no grommet is for
GROOVE = "groove"  # the check of what lies in the groove of a grommet
GROMMET_HOLE = "hole of a grommet, by bit or hole saw"
CONDITIONS = frozenset({"new", "existing", "metal", "grommet", "sleeved", "lined", "door", "plug", "lead with plugs"})
"""What its steps, tools and consumables may hang on."""
_SEAT_MM = 0.5  # by which a hole may differ from that of its grommet


def hole_plan(
    name: str, said: Mapping[str, str], runs: tuple[Sizing, ...], tables: Tables, seen: frozenset[str] = frozenset()
) -> Plan:
    """The plan of a hole that cables go through; `seen` as of their bundle.

    Raises: FastenError where what it goes through, or how wide it is, cannot be read.
    """
    bundle, through = bundle_of(runs, tables, seen), read_through(said.get("through", ""), tables, "through")
    title = f"{counted(len(runs), 'run')} through {said.get('through', '') or 'sheet'}"
    there_mm = _there_mm(said)
    row = None if through.is_door else _grommet(bundle, there_mm, through, tables)
    blanks = {
        **named_in(name, runs), "diameter": _mm(bundle.diameter_mm),
        "grommet": "-" if row is None else figure(row.inside_mm), "hole": "-" if row is None else figure(row.hole_mm),
    }  # fmt: skip
    held = _held(row, bundle, through, there_mm, tables) | _plugged(runs)
    tools, consumables = needs_of(HOLE, held, tables)
    if through.is_door:
        checks = (*bundled(bundle, name), *_of_door(through), *_passes(runs, None))
        return plan_of_way(name, HOLE, Way(title, checks, (), consumables, held, blanks, tools=tools), tables)
    in_groove = _in_its_groove(row, through, tables)
    seated = (_seated(bundle, row, there_mm, tables),) if row is not None or not in_groove else ()
    hole_mm = there_mm if there_mm is not None or row is None else row.hole_mm
    checks = (*bundled(bundle, name), *seated, *in_groove, *_passes(runs, hole_mm))
    bits = tuple(_bits(row, tables)) if there_mm is None else ()
    made_mm = row.hole_mm if row is not None and there_mm is None else None
    way = Way(title, checks, _grommets(row), consumables, held, blanks, bits, made_mm, tools)
    return plan_of_way(name, HOLE, way, tables)


def inside_mm(
    said: Mapping[str, str], runs: tuple[Sizing, ...], tables: Tables, seen: frozenset[str] = frozenset()
) -> float | None:
    """How wide a hole is inside its grommet; None for a boot, or where no grommet is known for it or it is not read."""
    try:
        through, there_mm = read_through(said.get("through", ""), tables, "through"), _there_mm(said)
    except FastenError:
        return None
    row = None if through.is_door else _grommet(bundle_of(runs, tables, seen), there_mm, through, tables)
    return None if row is None else row.inside_mm


def _there_mm(said: Mapping[str, str]) -> float | None:
    existing = said.get("existing", "").strip()
    return units.read(existing, Dimension.LENGTH, "existing") if existing else None


def _held(
    row: Grommet | None, bundle: Bundle, through: Through, there_mm: float | None, tables: Tables
) -> frozenset[str]:
    """The conditions of its steps, tools and consumables that hold."""
    if through.is_door:
        return frozenset({"door", *(("plug",) if through.has_plug else ())})
    lined = row is None and bool(_in_its_groove(None, through, tables))
    holds = {
        "new": there_mm is None, "existing": there_mm is not None, "metal": through.is_metal,
        "grommet": row is not None, "sleeved": _is_sleeved(row, bundle, tables), "lined": lined,
    }  # fmt: skip
    return frozenset(name for name, it_holds in holds.items() if it_holds)


def _plugged(runs: tuple[Sizing, ...]) -> frozenset[str]:
    """Whether a lead goes through that comes with its plugs: its grommet is put round it."""
    return frozenset({"lead with plugs"} if plug_mm(runs) or has_unknown_plug(runs) else ())


def _seated(bundle: Bundle, row: Grommet | None, there_mm: float | None, tables: Tables) -> Check:
    """The grommet and the hole that it sits in: known from memory, or there already, so that both are measured."""
    there = () if there_mm is None else (Input("existing", there_mm, MM),)
    if row is None:
        return _unseated(bundle, there_mm, there)
    needs = "needs the grommet in hand: inside, groove and the hole it sits in"
    if there_mm is not None:
        wants = f"a grommet {figure(row.inside_mm)} mm inside wants {figure(row.hole_mm)} mm"
        needs = f"needs the existing hole of {figure(there_mm)} mm measured, {wants}"
    inputs = (Input("inside", row.inside_mm, MM), *there)
    return waits("grommet", "Hole and grommet", MM, row.hole_mm, needs, inputs, "", (tables.source_id(GROMMETS, row),))


def _unseated(bundle: Bundle, there_mm: float | None, there: tuple[Input, ...]) -> Check:
    """What is open where no grommet is known: of what goes through, or of the existing hole."""
    if there_mm is None or bundle.diameter_mm is None:
        needs = "needs a grommet: none of the table is known to take what goes through"
        return waits("grommet", "Hole and grommet", MM, None, needs, there, "", ())
    sits = f"no grommet of the table sits in {figure(there_mm)} mm and passes {figure(bundle.diameter_mm)} mm"
    needs = f"needs its own blank or bellows to take them, or another hole: {sits}"
    return waits(BELLOWS, "Hole and its own bellows", MM, bundle.diameter_mm, needs, there, "", ())


def _of_door(through: Through) -> Iterator[Check]:
    """What is seen at a door: the slack that it needs when it is open, and that no plug sits where it turns."""
    needs = "needs the slack of the open door: with it fully open the cable lies loose in the boot"
    yield waits("slack", "Slack of the door", "", None, needs, (), "", ())
    if through.has_plug is None:
        needs = "needs a look at the hinge line, whether a plug of the car sits there: write door boot or door plug"
        yield waits("hinge", "Hinge line", "", None, needs, (), "", ())
    if through.has_plug:
        needs = "needs another way past the plug in the hinge line, or free places in it that are made for the cable"
        yield waits("hinge", "Plug in the hinge line", "", None, needs, (), "", ())


def _in_its_groove(row: Grommet | None, through: Through, tables: Tables) -> tuple[Check, ...]:
    """Whether the sheet lies in the groove of its grommet; what is thicker than any groove has a liner instead."""
    thick = through.thickness_mm
    if row is None:
        deepest = max(tables.rows(GROMMETS), key=lambda one: one.groove_mm)
        if thick is None or thick <= deepest.groove_mm:
            return ()
        needs = f"needs a liner for {figure(thick)} mm and its hole: no groove of the table is over "
        inputs = (Input("groove", deepest.groove_mm, MM),)
        return (waits(GROOVE, "Sheet and groove", MM, thick, f"{needs}{figure(deepest.groove_mm)} mm", inputs, "",
                      (tables.source_id(GROMMETS, deepest),)),)  # fmt: skip
    source = (tables.source_id(GROMMETS, row),)
    if thick is None:
        needs = f"needs how thick the sheet is: the groove of its grommet is {figure(row.groove_mm)} mm"
        return (waits(GROOVE, "Sheet and groove", MM, None, needs, (), "", source),)
    inputs = (Input("sheet", thick, MM),)
    return (at_most(GROOVE, "Sheet, of the groove", thick, row.groove_mm, MM, inputs, "sheet <= groove", source),)


def _bits(row: Grommet | None, tables: Tables) -> Iterator[BitNeed]:
    """What makes a hole in sheet: its pilot, and where its grommet is known what widens it."""
    pilot = next(one for one in tables.rows(TOOLS) if one.tool == PILOT and one.size_mm is not None)
    bit = thickest_metric_bit(pilot.size_mm or 0.0, tables)
    if bit is not None:
        yield BitNeed(bit.name, bit.diameter_mm, OF_PILOT, bit.diameter_mm, None, 1, ream=False, within=None)
    if row is not None:
        size = row.hole_mm
        yield BitNeed(metric_name(size), size, GROMMET_HOLE, size, None, 1, ream=False, within=None)


def _grommet(bundle: Bundle, there_mm: float | None, through: Through, tables: Tables) -> Grommet | None:
    """The narrowest grommet that the cables pass and the sheet lies in; in an existing hole one that sits in it."""
    thick, sheet = bundle.diameter_mm, through.thickness_mm or 0.0
    rows = (row for row in tables.rows(GROMMETS) if there_mm is None or abs(row.hole_mm - there_mm) <= _SEAT_MM)
    if thick is None:
        return None
    return next((row for row in rows if row.inside_mm >= thick and row.groove_mm >= sheet), None)


def _is_sleeved(row: Grommet | None, bundle: Bundle, tables: Tables) -> bool:
    """Whether sleeving must fill a grommet up."""
    play, _ = rule_figure(tables, WiringRules.GROMMET_PLAY)
    return row is not None and bundle.diameter_mm is not None and row.inside_mm > bundle.diameter_mm + play


def _grommets(row: Grommet | None) -> tuple[PartNeed, ...]:
    if row is None:
        return ()
    return (need_of(grommet(row), 1),)


def _passes(runs: tuple[Sizing, ...], hole_mm: float | None) -> tuple[Check, ...]:
    """A plug that a cable comes with must pass, as far as it is known what through; a lug is crimped on after."""
    plug = plug_mm(runs)
    if has_unknown_plug(runs):
        needs = "needs how thick the plug of each lead is: it must pass. Write its end as plug 14 mm"
        return (waits("plug", "Plug through the hole", MM, None, needs, (), "", ()),)
    if plug == 0:
        return ()
    if hole_mm is None or plug > hole_mm:
        through = "what the cables go through" if hole_mm is None else f"the hole of {figure(hole_mm)} mm"
        needs = f"needs a way for the plug of {figure(plug)} mm: it must pass {through}"
        return (waits("plug", "Plug through the hole", MM, plug, needs, (), "", ()),)
    inputs = (Input("plug", plug, MM), Input("hole", hole_mm, MM))
    return (at_most("plug", "Plug, of the hole", plug, hole_mm, MM, inputs, "plug <= hole", ()),)


def _mm(value: float | None) -> str:
    return "-" if value is None else figure(value)
