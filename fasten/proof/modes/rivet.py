"""Failure modes of a blind rivet: its body, the sheet on its shank, and its blind head pulled through the sheet.

And of a rivet nut, which is set the same way: its body sheared off.
"""

from fasten.catalog.parts import RIVET_NUT_SHEAR
from fasten.catalog.rules import Rules, rule_value
from fasten.catalog.tables import Tables
from fasten.geometry.joint import receiver_of, shaft_mm
from fasten.mechanics import sheet
from fasten.model import Input, Joint, MountPoint
from fasten.proof.modes import families
from fasten.proof.modes.common import UNDIVIDED, edge_mm, formula, of_table, thinner_sheet, ultimate
from fasten.proof.modes.mode import (
    HOLDS_SHEAR,
    HOLDS_TENSION,
    SUBSTRATE_SHEAR,
    SUBSTRATE_TENSION,
    Capacity,
    Mode,
    Needed,
)
from fasten.record import replace


def _rivet_shear(joint: Joint, _mount: MountPoint, _tables: Tables) -> Capacity | Needed:
    return of_table(joint, "shear of its table", receiver_of(joint).shear)


def _rivet_tension(joint: Joint, _mount: MountPoint, _tables: Tables) -> Capacity | Needed:
    return of_table(joint, "tension of its table", receiver_of(joint).pull)


def _rivet_bearing(joint: Joint, mount: MountPoint, tables: Tables) -> Capacity:
    thinner, thicker, strength, source = thinner_sheet(joint, mount, tables)
    expression, formula_source = formula(tables, "bearing-rivet-en")
    edge = Input("edge distance", edge_mm(joint, mount, tables), "mm")
    load = sheet.bearing_rivet_en_n(
        thinner_mm=thinner, thicker_mm=thicker, rivet_mm=shaft_mm(joint), edge_mm=edge.value,
        sheet_ultimate_mpa=strength.value, gamma=UNDIVIDED,
    )  # fmt: skip
    inputs = (
        Input("thinner sheet", thinner, "mm"), Input("thicker sheet", thicker, "mm"),
        Input("diameter that bears", shaft_mm(joint), "mm"), edge, strength,
    )  # fmt: skip
    return Capacity(load, inputs, expression, (formula_source, source))


def _blind_head(joint: Joint, mount: MountPoint, tables: Tables) -> Capacity:
    """The blind head pulled through the sheet. No source gives its width: it is taken as little over the body."""
    strength, source = ultimate(tables, mount.material)
    share, share_source = rule_value(tables, Rules.BLIND_HEAD)
    body, thick = Input("body of the rivet", shaft_mm(joint), "mm"), Input("sheet", joint.sheet_mm, "mm")
    expression, formula_source = formula(tables, "blind-head-pull")
    load_n = sheet.pull_through_en_n(
        sheet_mm=thick.value, head_mm=share * body.value, sheet_ultimate_mpa=strength.value, gamma=UNDIVIDED
    )
    inputs = (thick, body, Input("blind head over body", share, "-"), strength)
    return Capacity(load_n, inputs, expression, (formula_source, source, share_source, *joint.from_))


def _nut_shear(joint: Joint, _mount: MountPoint, tables: Tables) -> Capacity | Needed:
    """What a supplier tests in thick plate; the sheet that bears less is a mode of its own."""
    found = of_table(joint, "shear of its body", receiver_of(joint).shear)
    row = tables.find(RIVET_NUT_SHEAR, receiver_of(joint).material, receiver_of(joint).thread)
    return found if row is None else replace(found, from_=(tables.source_id(RIVET_NUT_SHEAR, row),))


RIVET_BEARING = Mode(
    "rivet-bearing", "Sheet bears on the rivet", families.SHEET, "shear", _rivet_bearing, SUBSTRATE_SHEAR
)
RIVET_SHEAR = Mode("rivet-shear", "Rivet in shear", families.RIVET, "shear", _rivet_shear, HOLDS_SHEAR)
RIVET_TENSION = Mode("rivet-tension", "Rivet in tension", families.RIVET, "tension", _rivet_tension, HOLDS_TENSION)
BLIND_HEAD = Mode(
    "blind-head", "Blind head pulled through the sheet", families.SHEET, "tension", _blind_head, SUBSTRATE_TENSION
)
NUT_SHEAR = Mode("nut-shear", "Body of the rivet nut in shear", families.RIVET, "shear", _nut_shear, HOLDS_SHEAR)
RIVETED = (RIVET_SHEAR, RIVET_TENSION, RIVET_BEARING, BLIND_HEAD)
