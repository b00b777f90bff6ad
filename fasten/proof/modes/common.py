"""Failure modes: what can give way at a fixing, each with its capacity and every input that made it.

A mode is a name, a family (which decides its factor) and a function from joint and mount to a `Capacity`, or to what
is `Needed` to find one. Characteristic values are returned; `proof` divides them by the factor of the load case.
"""

from functools import lru_cache

from fasten.catalog.materials import MATERIALS
from fasten.catalog.named import material
from fasten.catalog.practice import RULES, Rule
from fasten.catalog.rows import METRIC_THREADS, PROPERTY_CLASSES, STRENGTH_FORMULAS, PropertyClass
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry.joint import bearing_diameter_mm, behind_mm, receiver_of, screw_of, shaft_mm, spaced_mm
from fasten.geometry.threads import metric_limits, stress_area_mm2
from fasten.mechanics import screw as shank
from fasten.mechanics import sheet, stripping
from fasten.model import Input, Joint, MountPoint, known
from fasten.model.kinds import Core
from fasten.model.known import Absent, Rating
from fasten.proof.modes import families
from fasten.proof.modes.mode import (
    HOLDS_SHEAR,
    HOLDS_TENSION,
    SUBSTRATE_SHEAR,
    SUBSTRATE_TENSION,
    Capacity,
    Mode,
    Needed,
)

UNDIVIDED = 1.0
ALUMINIUM = "aluminium"  # the lower of the steel clause and EN 1999-1-4 counts there


@lru_cache(maxsize=64)
def ultimate(tables: Tables, name: str) -> tuple[Input, str]:
    """Tensile strength of a material as an input, and its source."""
    row = material(tables, name)
    assert row.ultimate_mpa is not None, f"{name} has no strength; gates refuse it first"
    return Input(f"strength of {name}", row.ultimate_mpa, "MPa"), tables.source_id(MATERIALS, row)


def _sheet(joint: Joint) -> Input:
    return Input("sheet", joint.sheet_mm, "mm")


def edge_rule(joint: Joint, tables: Tables) -> Rule:
    """How many diameters the joint keeps from an edge."""
    return rule(tables, Rules.EDGE_DISTANCE_RIVET_NUT if joint.receiver is not None else Rules.EDGE_DISTANCE_SCREW)


def edge_needed(joint: Joint, tables: Tables) -> Rule:
    """How many diameters are needed where the distance is not given: as far as bearing counts in full."""
    tapping = joint.screw is not None and joint.screw.kind.core is Core.BREAKING_TORQUE
    return edge_rule(joint, tables) if tapping else rule(tables, Rules.EDGE_FULL_BEARING)


def edge_mm(joint: Joint, mount: MountPoint, tables: Tables) -> float:
    """Edge distance; where it is not given, the distance the edge check needs, which the answer says is not checked."""
    return edge_needed(joint, tables).value * spaced_mm(joint) if mount.edge_mm is None else mount.edge_mm


@lru_cache(maxsize=128)
def formula(tables: Tables, name: str) -> tuple[str, str]:
    """A formula of strength as answers print it, and its source."""

    row = tables.need(STRENGTH_FORMULAS, name)
    return row.expression, tables.source_id(STRENGTH_FORMULAS, row)


def _aluminium_bearing_n(thinner_mm: float, thicker_mm: float, diameter_mm: float, ultimate_mpa: float) -> float:
    return sheet.bearing_aluminium_n(
        thinner_mm=thinner_mm, thicker_mm=thicker_mm, major_mm=diameter_mm, sheet_ultimate_mpa=ultimate_mpa,
        gamma=UNDIVIDED,
    )  # fmt: skip


def bolt_bearing(
    name: str, sheet_mm: float, diameter_mm: float, edge_mm: float, strength_mpa: float, tables: Tables
) -> tuple[float, str, str]:
    """What a metal sheet bears on a shank before any factor, the formula and its source."""
    load_n = sheet.bearing_bolt_en_n(
        sheet_mm=sheet_mm, bolt_mm=diameter_mm, edge_mm=edge_mm, sheet_ultimate_mpa=strength_mpa, gamma=UNDIVIDED
    )
    if name != ALUMINIUM:
        return (load_n, *formula(tables, "bearing-bolt-en"))
    own_n = _aluminium_bearing_n(sheet_mm, sheet_mm, diameter_mm, strength_mpa)
    return (min(load_n, own_n), *formula(tables, "bearing-bolt-aluminium"))


# Of all joints of a mount point few differ in what a way to fail depends on, and by nothing else does its capacity.


def _sheet_bearing(joint: Joint, mount: MountPoint, tables: Tables) -> Capacity:
    edge = edge_mm(joint, mount, tables)
    return _bearing(tables, mount.material, joint.sheet_mm, bearing_diameter_mm(joint), edge)


@lru_cache(maxsize=256)
def _bearing(tables: Tables, name: str, sheet_mm: float, diameter_mm: float, edge_mm: float) -> Capacity:
    strength, source = ultimate(tables, name)
    load, expression, formula_source = bolt_bearing(name, sheet_mm, diameter_mm, edge_mm, strength.value, tables)
    inputs = (
        Input("sheet", sheet_mm, "mm"), Input("diameter that bears", diameter_mm, "mm"),
        Input("edge distance", edge_mm, "mm"), strength,
    )  # fmt: skip
    return Capacity(load, inputs, expression, (formula_source, source))


def _back_pull_through(joint: Joint, mount: MountPoint, tables: Tables) -> Capacity:
    return _pulled_through(tables, mount.material, joint.sheet_mm, behind_mm(joint), joint.from_)


@lru_cache(maxsize=256)
def _pulled_through(tables: Tables, name: str, sheet_mm: float, behind_mm: float, from_: tuple[str, ...]) -> Capacity:
    strength, source = ultimate(tables, name)
    expression, formula_source = formula(tables, "pull-through-en")
    load = sheet.pull_through_en_n(
        sheet_mm=sheet_mm, head_mm=behind_mm, sheet_ultimate_mpa=strength.value, gamma=UNDIVIDED
    )
    inputs = (Input("sheet", sheet_mm, "mm"), Input("diameter behind the sheet", behind_mm, "mm"), strength)
    return Capacity(load, inputs, expression, (formula_source, source, *from_))


def _class(tables: Tables, name: str) -> tuple[PropertyClass, str]:
    row = tables.need(PROPERTY_CLASSES, name)
    return row, tables.source_id(PROPERTY_CLASSES, row)


def _of_class(joint: Joint) -> bool:
    """Whether the screw is a machine screw, of a property class."""
    return joint.screw is not None and joint.screw.kind.core is Core.CLASS


def screw_area_mm2(joint: Joint, tables: Tables) -> float:
    """Stress area of the joint's metric screw."""
    return _area_mm2(tables, screw_of(joint).thread)


def _area_mm2(tables: Tables, designation: str) -> float:
    thread = tables.need(METRIC_THREADS, designation)
    return stress_area_mm2(thread.major_mm, thread.pitch_mm)


def _screw_tension(joint: Joint, _mount: MountPoint, tables: Tables) -> Capacity:
    screw = screw_of(joint)
    return _tension(tables, screw.thread, screw.class_)


def _screw_proof(joint: Joint, _mount: MountPoint, tables: Tables) -> Capacity | Needed:
    screw = screw_of(joint)
    return _proof(tables, screw.thread, screw.class_)


def _screw_shear(joint: Joint, _mount: MountPoint, tables: Tables) -> Capacity:
    screw = screw_of(joint)
    return _shear(tables, screw.thread, screw.class_)


@lru_cache(maxsize=64)
def _tension(tables: Tables, thread: str, class_: str) -> Capacity:
    strength, source = _class(tables, class_)
    expression, formula_source = formula(tables, "screw-tension-en")
    area = _area_mm2(tables, thread)
    load = shank.tension_en_n(stress_area_mm2=area, ultimate_mpa=strength.tensile_mpa, gamma=UNDIVIDED)
    inputs = (Input("stress area", area, "mm²"), Input("screw strength", strength.tensile_mpa, "MPa"))
    return Capacity(load, inputs, expression, (formula_source, source))


@lru_cache(maxsize=64)
def _proof(tables: Tables, thread: str, class_: str) -> Capacity | Needed:
    strength, source = _class(tables, class_)
    expression, formula_source = formula(tables, "proof-load")
    area = _area_mm2(tables, thread)
    proof = strength.proof_mpa if strength.proof_mpa is not None else strength.yield_mpa
    if proof is None:
        return Needed("the proof stress of its class", expression, (formula_source, source))
    inputs = (Input("stress area", area, "mm²"), Input("proof stress", proof, "MPa"))
    load = shank.proof_load_n(stress_area_mm2=area, proof_mpa=proof)
    return Capacity(load, inputs, expression, (formula_source, source))


@lru_cache(maxsize=64)
def _shear(tables: Tables, thread: str, class_: str) -> Capacity:
    strength, source = _class(tables, class_)
    expression, formula_source = formula(tables, "screw-shear-en")
    share = 0.6 if strength.class_ in {"4.6", "5.6", "8.8"} else 0.5
    area = _area_mm2(tables, thread)
    load = shank.shear_en_n(area_mm2=area, ultimate_mpa=strength.tensile_mpa, shear_factor=share, gamma=UNDIVIDED)
    inputs = (
        Input("stress area", area, "mm²"), Input("screw strength", strength.tensile_mpa, "MPa"),
        Input("shear share", share, "-"),
    )  # fmt: skip
    return Capacity(load, inputs, expression, (formula_source, source))


def _receiver_thread(joint: Joint, _mount: MountPoint, _tables: Tables) -> Capacity | Needed:
    return of_table(joint, "axial load of its table", receiver_of(joint).pull)


def _tapped_thread(joint: Joint, mount: MountPoint, tables: Tables) -> Capacity:
    screw = screw_of(joint)
    return _stripped(tables, mount.material, screw.thread, screw.engagement_mm, screw.pitch_mm)


@lru_cache(maxsize=256)
def _stripped(tables: Tables, name: str, thread: str, engagement_mm: float, pitch_mm: float) -> Capacity:
    limits = metric_limits(tables, thread)
    strength, source = ultimate(tables, name)
    expression, formula_source = formula(tables, "strip-internal")
    lead_in, share = (rule(tables, name) for name in (Rules.THREAD_LEAD_IN_PITCHES, Rules.SHEAR_OVER_TENSILE))
    engagement = stripping.effective_engagement_mm(
        engagement_mm=engagement_mm, pitch_mm=pitch_mm, lead_in_pitches=lead_in.value
    )
    area = stripping.internal_shear_area_mm2(
        engagement_mm=engagement, pitch_mm=pitch_mm, external_major_min_mm=limits.external.major_mm.min,
        internal_pitch_max_mm=limits.internal.pitch_mm.max,
    )  # fmt: skip
    shear = stripping.shear_strength_mpa(ultimate_mpa=strength.value, ratio=share.value)
    inputs = (
        Input("engagement", engagement_mm, "mm"), Input("pitch", pitch_mm, "mm"),
        Input("least major diameter of the screw", limits.external.major_mm.min, "mm"),
        Input("greatest pitch diameter of the thread", limits.internal.pitch_mm.max, "mm"), strength,
        Input("lead-in", lead_in.value, "pitch"), Input("shear over tensile", share.value, "-"),
    )  # fmt: skip
    load = stripping.strip_load_n(shear_area_mm2=area, shear_strength_mpa=shear)
    sources = (formula_source, source, tables.source_id(RULES, lead_in), tables.source_id(RULES, share))
    return Capacity(load, inputs, expression, sources)


def _aluminium_pull_out_n(joint: Joint, ultimate_mpa: float) -> float:
    return sheet.pull_out_aluminium_n(
        sheet_mm=joint.sheet_mm, major_mm=shaft_mm(joint), sheet_ultimate_mpa=ultimate_mpa, gamma=UNDIVIDED
    )


def _tapping_pull_out(joint: Joint, mount: MountPoint, tables: Tables) -> Capacity:
    screw = screw_of(joint)
    strength, source = ultimate(tables, mount.material)
    expression, formula_source = formula(tables, "pull-out-aisi")
    load = sheet.pull_out_aisi_n(sheet_mm=joint.sheet_mm, major_mm=screw.diameter_mm, sheet_ultimate_mpa=strength.value)
    if mount.material == ALUMINIUM:
        expression, formula_source = formula(tables, "pull-out-aisi-aluminium")
        load = min(load, _aluminium_pull_out_n(joint, strength.value))
    inputs = (_sheet(joint), Input("major diameter", screw.diameter_mm, "mm"), strength)
    return Capacity(load, inputs, expression, (formula_source, source))


def _tapping_pull_out_en(joint: Joint, mount: MountPoint, tables: Tables) -> Capacity:
    screw = screw_of(joint)
    strength, source = ultimate(tables, mount.material)
    expression, formula_source = formula(tables, "pull-out-en")
    load = sheet.pull_out_en_n(
        sheet_mm=joint.sheet_mm, major_mm=screw.diameter_mm, pitch_mm=screw.pitch_mm,
        sheet_ultimate_mpa=strength.value, gamma=UNDIVIDED,
    )  # fmt: skip
    if mount.material == ALUMINIUM:
        expression, formula_source = formula(tables, "pull-out-en-aluminium")
        load = min(load, _aluminium_pull_out_n(joint, strength.value))
    inputs = (
        _sheet(joint), Input("major diameter", screw.diameter_mm, "mm"),
        Input("pitch", screw.pitch_mm, "mm"), strength,
    )  # fmt: skip
    return Capacity(load, inputs, expression, (formula_source, source))


def _tapping_shear(joint: Joint, mount: MountPoint, tables: Tables) -> Capacity:
    screw = screw_of(joint)
    strength, source = ultimate(tables, mount.material)
    item_strength, item_source = ultimate(tables, _hard_item(mount, tables))
    expression, formula_source = formula(tables, "shear-aisi")
    load = sheet.shear_aisi_n(
        head_sheet_mm=mount.item_thickness_mm, thread_sheet_mm=joint.sheet_mm, major_mm=screw.diameter_mm,
        head_ultimate_mpa=item_strength.value, thread_ultimate_mpa=strength.value,
    )  # fmt: skip
    inputs = (
        Input("item thickness", mount.item_thickness_mm, "mm"), _sheet(joint),
        Input("major diameter", screw.diameter_mm, "mm"), item_strength, strength,
    )  # fmt: skip
    return Capacity(load, inputs, expression, (formula_source, source, item_source))


def _hard_item(mount: MountPoint, tables: Tables) -> str:
    """The item's material where it has a strength, else the sheet's: a soft item is proved by its own mode."""
    return mount.item_material if material(tables, mount.item_material).ultimate_mpa is not None else mount.material


def of_table(joint: Joint, name: str, rated: Rating | known.Needed | Absent) -> Capacity | Needed:
    """A capacity that a table gives as it is; what is needed where it has none."""
    if not isinstance(rated, Rating):
        return Needed(f"the {name}", "value of its table", joint.from_)
    return Capacity(rated.load_n, (Input(name, rated.load_n, "N"),), "value of its table", joint.from_)


def thinner_sheet(joint: Joint, mount: MountPoint, tables: Tables) -> tuple[float, float, Input, str]:
    """The thinner and the thicker of item and sheet, and the strength of the weaker: either may be what bears."""
    found = (ultimate(tables, name) for name in (mount.material, _hard_item(mount, tables)))
    strength, source = min(found, key=lambda pair: pair[0].value)
    thinner, thicker = sorted((joint.sheet_mm, mount.item_thickness_mm))
    return thinner, thicker, strength, source


def _tapping_bearing_en(joint: Joint, mount: MountPoint, tables: Tables) -> Capacity:
    thinner, thicker, strength, source = thinner_sheet(joint, mount, tables)
    expression, formula_source = formula(tables, "bearing-tapping-en")
    load = sheet.bearing_tapping_en_n(
        thinner_mm=thinner, thicker_mm=thicker, major_mm=shaft_mm(joint), sheet_ultimate_mpa=strength.value,
        gamma=UNDIVIDED,
    )  # fmt: skip
    if strength.name == f"strength of {ALUMINIUM}":  # the weaker of item and sheet
        expression, formula_source = formula(tables, "bearing-tapping-aluminium")
        load = min(load, _aluminium_bearing_n(thinner, thicker, shaft_mm(joint), strength.value))
    inputs = (
        Input("thinner sheet", thinner, "mm"), Input("thicker sheet", thicker, "mm"),
        Input("major diameter", shaft_mm(joint), "mm"), strength,
    )  # fmt: skip
    return Capacity(load, inputs, expression, (formula_source, source))


SHEET_BEARING = Mode(
    "sheet-bearing", "Sheet bears on the shank", families.SHEET, "shear", _sheet_bearing, SUBSTRATE_SHEAR
)
BACK_PULL = Mode(
    "pull-through", "Pulled through the sheet", families.SHEET, "tension", _back_pull_through, SUBSTRATE_TENSION
)
SCREW_PROOF = Mode(
    "screw-proof", "Screw below proof load", families.SCREW_PROOF, "tension", _screw_proof, HOLDS_TENSION,
    applies=_of_class, by_screw=True,
)  # fmt: skip
SCREW_TENSION = Mode(
    "screw-tension", "Screw in tension", families.SCREW, "tension", _screw_tension, HOLDS_TENSION,
    applies=_of_class, by_screw=True,
)  # fmt: skip
SCREW_SHEAR = Mode(
    "screw-shear", "Screw in shear", families.SCREW, "shear", _screw_shear, HOLDS_SHEAR, applies=_of_class,
    by_screw=True,
)  # fmt: skip
RECEIVER_THREAD = Mode(
    "receiver-thread", "Thread of the receiver", families.THREAD, "tension", _receiver_thread, HOLDS_TENSION
)
TAPPED_THREAD = Mode(
    "thread-strip", "Thread in the plate strips", families.STRIP, "tension", _tapped_thread, SUBSTRATE_TENSION
)
PULL_OUT = Mode(
    "pull-out", "Screw pulled out of the sheet", families.SHEET_SCREW, "tension", _tapping_pull_out, SUBSTRATE_TENSION
)
PULL_OUT_EN = Mode(
    "pull-out-en", "Pull-out by the European rule", families.SHEET_EN, "tension", _tapping_pull_out_en,
    SUBSTRATE_TENSION,
)  # fmt: skip
TAPPING_SHEAR = Mode(
    "sheet-shear", "Screw tilts or tears the sheet", families.SHEET_SCREW, "shear", _tapping_shear, SUBSTRATE_SHEAR
)
TAPPING_BEARING_EN = Mode(
    "bearing-en", "Sheet bears, European rule", families.SHEET_EN, "shear", _tapping_bearing_en, SUBSTRATE_SHEAR
)
SCREWED = (SCREW_PROOF, SCREW_TENSION, SCREW_SHEAR)
