"""What was measured of cable that is there, once for a size: the runs that take it get what that comes to."""

from dataclasses import replace

from fasten.catalog.tables import Tables
from fasten.catalog.wiring_rules import WiringRules, rule_figure
from fasten.job.store.job_toml import same_name
from fasten.job.words import Job, Recorded
from fasten.text import units
from fasten.text.units import Dimension
from fasten.wiring.covers import is_plugged
from fasten.wiring.pieces import PAIR
from fasten.wiring.read import read_insulation, read_material
from fasten.wiring.sizing import NoSize, Sized, Sizing, sized
from fasten.wiring.words import Loudspeaker

COLOUR, MARKED, MATERIAL = "colour", "marked", "material"


def with_cable(sizing: Sized, job: Job, tables: Tables) -> Sized:
    """The sizes with what is known of the cable of that size; where it does not do, why not: it is what gets laid."""
    if isinstance(sizing, NoSize):
        return sizing
    found = next((cable for cable in job.cables if _is_of(cable, sizing)), None)
    return sizing if found is None else _measured(sizing, dict(found.said), tables)


def _is_of(cable: Recorded, sizing: Sizing) -> bool:
    """Whether cable is what a run takes, by its size; where its colour is said, leads take two conductors alone."""
    colour, is_lead = dict(cable.said).get(COLOUR), isinstance(sizing.run.carries, Loudspeaker)
    is_for = (colour is None or (colour == PAIR) == is_lead) and not is_plugged(sizing.run)
    return is_for and same_name(cable.name.replace("mm2", "mm²")) == same_name(sizing.size.name)


def _measured(sizing: Sizing, said: dict[str, str], tables: Tables) -> Sized:
    mm = {name: units.read(said[name], Dimension.LENGTH, name) for name in ("outside", "conductor") if name in said}
    run = replace(sizing.run, outside_mm=mm.get("outside"), conductor_mm=mm.get("conductor"), chosen=sizing.size)
    unmarked_c, _ = rule_figure(tables, WiringRules.INSULATION_UNMARKED)
    marked_c = read_insulation(said[MARKED], tables, MARKED) if MARKED in said else None
    run = replace(run, insulation_c=unmarked_c if marked_c is None else marked_c, marked=marked_c is not None)
    is_said = sizing.run.chosen is not None and sizing.run.material_said
    run = replace(run, material_said=is_said or MATERIAL in said)
    if MATERIAL in said:
        run = replace(run, material=read_material(said[MATERIAL], tables, MATERIAL))
    return sized(run, tables)
