"""What was measured of cable that is there, once for a size: the runs that take it get what that comes to."""

from collections.abc import Mapping

from fasten.catalog.tables import Tables
from fasten.catalog.wiring_rules import WiringRules, rule_figure
from fasten.job.store.job_toml import same_name
from fasten.job.words import Recorded
from fasten.record import replace
from fasten.text import units
from fasten.text.units import Dimension
from fasten.wiring.covers import is_plugged
from fasten.wiring.fields import INSULATION
from fasten.wiring.pieces import PAIR
from fasten.wiring.read import read_insulation, read_material
from fasten.wiring.sizing import NoSize, Sized, Sizing, sized
from fasten.wiring.words import Loudspeaker, Material

COLOUR, MARKED, MATERIAL = "colour", "marked", "material"


def with_cable(
    sizing: Sized, cables: tuple[Recorded, ...], said_of: Mapping[str, tuple[tuple[str, str], ...]], tables: Tables
) -> Sized:
    """The sizes with what is known of the cable of that size; where it does not do, why not: it is what gets laid.

    `said_of` is what was said of each run, by its name.
    """
    if isinstance(sizing, NoSize):
        return sizing
    found = next((cable for cable in cables if _is_of(cable, sizing)), None)
    if found is None:
        return sizing
    return _measured(sizing, dict(found.said), dict(said_of.get(sizing.run.name, ())), tables)


def _is_of(cable: Recorded, sizing: Sizing) -> bool:
    """Whether cable is what a run takes, by its size; where its colour is said, leads take two conductors alone."""
    colour, is_lead = dict(cable.said).get(COLOUR), isinstance(sizing.run.carries, Loudspeaker)
    is_for = (colour is None or (colour == PAIR) == is_lead) and not is_plugged(sizing.run)
    return is_for and same_name(cable.name.replace("mm2", "mm²")) == same_name(sizing.size.name)


def _measured(sizing: Sizing, said: Mapping[str, str], of_run: Mapping[str, str], tables: Tables) -> Sized:
    """What is known of a cable, and what is said of it at its run: where the two differ the lesser counts."""
    mm = {name: units.read(said[name], Dimension.LENGTH, name) for name in ("outside", "conductor") if name in said}
    run = replace(sizing.run, outside_mm=mm.get("outside"), conductor_mm=mm.get("conductor"), chosen=sizing.size)
    unmarked_c, _ = rule_figure(tables, WiringRules.INSULATION_UNMARKED)
    at_run = {INSULATION.name: of_run.get(INSULATION.name, ""), MARKED: said.get(MARKED, "")}
    marks_c = tuple(read_insulation(text, tables, name) for name, text in at_run.items() if text.strip())
    run = replace(run, insulation_c=min(marks_c, default=unmarked_c), marked=bool(marks_c),
                  marks_c=marks_c if len(set(marks_c)) > 1 else ())  # fmt: skip
    is_said = sizing.run.chosen is not None and sizing.run.material_said
    run = replace(run, material_said=is_said or MATERIAL in said)
    if MATERIAL in said and not (of_run.get(MATERIAL) and run.material is Material.CLAD):
        run = replace(run, material=read_material(said[MATERIAL], tables, MATERIAL))
    return sized(run, tables)
