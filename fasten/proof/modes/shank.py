"""Failure modes of the core of a screw that forms its thread, and of a thread that was there before.

A tapping screw's core follows from the least torque that breaks it. No standard gives that of a wood screw: its core is
taken as mild steel, which it exceeds. Both bear more than sheet or board, and are checked all the same.
"""

from fasten.catalog.parts import BOARD_SCREWS
from fasten.catalog.rows import (
    PROPERTY_CLASSES,
    TAPPING_THREADS,
    TAPPING_TORSION,
)
from fasten.catalog.tables import Tables
from fasten.geometry.joint import screw_of
from fasten.mechanics import screw as shank
from fasten.model import Asks, Input, Joint, MountPoint, Screw
from fasten.model.kinds import Core
from fasten.proof.modes import families
from fasten.proof.modes.common import UNDIVIDED, formula
from fasten.proof.modes.mode import (
    HOLDS_SHEAR,
    HOLDS_TENSION,
    SUBSTRATE_SHEAR,
    SUBSTRATE_TENSION,
    Capacity,
    Mode,
    Needed,
)

_CORES = (Core.BREAKING_TORQUE, Core.MILD_STEEL)
MILD_CLASS = "4.6"  # the least that a screw of mild steel may be


def _forms(joint: Joint) -> bool:
    return joint.screw is not None and joint.screw.kind.core in _CORES


def _screw(joint: Joint) -> Screw:
    return screw_of(joint)


def _breaking(joint: Joint, tables: Tables) -> tuple[Input, Input, tuple[str, ...]] | None:
    """Least breaking torque, core at its widest (which gives the least strength), and their sources."""
    size = _screw(joint).thread
    torsion = tables.find(TAPPING_TORSION, size)
    thread = tables.find(TAPPING_THREADS, size)
    if torsion is None or thread is None:
        return None
    inputs = Input("breaking torque of the screw", torsion.breaking_nm, "N·m"), Input("core", thread.minor_max_mm, "mm")
    return *inputs, (tables.source_id(TAPPING_TORSION, torsion), tables.source_id(TAPPING_THREADS, thread))


def _mild(joint: Joint, tables: Tables) -> tuple[Input, Input, tuple[str, ...]] | None:
    """Area of a wood screw's root, its strength, and their sources."""
    rows = [row for row in tables.rows(BOARD_SCREWS) if row.size == _screw(joint).thread]
    steel = tables.find(PROPERTY_CLASSES, MILD_CLASS)
    if not rows or steel is None:
        return None
    area = Input("area of the core", shank.core_area_mm2(core_mm=rows[0].root_mm), "mm²")
    sources = (tables.source_id(BOARD_SCREWS, rows[0]), tables.source_id(PROPERTY_CLASSES, steel))
    return area, Input("strength of mild steel", steel.tensile_mpa, "MPa"), sources


def _core(joint: Joint, load: str, tables: Tables) -> Capacity | Needed:
    needed = Needed("the strength of the screw's core", "value of its maker", joint.from_)
    if _screw(joint).kind.core is Core.BREAKING_TORQUE:
        found = _breaking(joint, tables)
        if found is None:
            return needed
        torque, core, sources = found
        equation = shank.core_shear_n if load == "shear" else shank.core_tension_n
        expression, source = formula(tables, f"core-{load}")
        load_n = equation(breaking_nm=torque.value, core_mm=core.value)
        return Capacity(load_n, (torque, core), expression, (source, *sources))
    mild = _mild(joint, tables)
    if mild is None:
        return needed
    area, strength, sources = mild
    expression, source = formula(tables, f"screw-{load}-en")
    if load == "tension":
        load_n = shank.tension_en_n(stress_area_mm2=area.value, ultimate_mpa=strength.value, gamma=UNDIVIDED)
        return Capacity(load_n, (area, strength), expression, (source, *sources))
    share = Input("shear share", 0.6, "-")
    load_n = shank.shear_en_n(
        area_mm2=area.value, ultimate_mpa=strength.value, shear_factor=share.value, gamma=UNDIVIDED
    )
    return Capacity(load_n, (area, strength, share), expression, (source, *sources))


def _core_tension(joint: Joint, _mount: MountPoint, tables: Tables) -> Capacity | Needed:
    return _core(joint, "tension", tables)


def _core_shear(joint: Joint, _mount: MountPoint, tables: Tables) -> Capacity | Needed:
    return _core(joint, "shear", tables)


def _made_for(joint: Joint, _mount: MountPoint, _tables: Tables) -> Needed:
    """What a thread that was there is welded to and how well is not seen: only its maker knows what it bears."""
    what = "what the vehicle maker made it for (load and torque)"
    return Needed(what, "value of the vehicle maker", joint.from_, Asks.EXISTING_HOLE)


CORE_TENSION = Mode(
    "core-tension", "Screw's core in tension", families.CORE, "tension", _core_tension, HOLDS_TENSION, applies=_forms
)
CORE_SHEAR = Mode(
    "core-shear", "Screw's core in shear", families.CORE, "shear", _core_shear, HOLDS_SHEAR, applies=_forms
)
MAKER_LOAD = Mode(
    "maker-load", "Load and torque it was made for", families.MAKER, "tension", _made_for,
    HOLDS_TENSION | HOLDS_SHEAR | SUBSTRATE_TENSION | SUBSTRATE_SHEAR,
)  # fmt: skip
CORE = (CORE_TENSION, CORE_SHEAR)
