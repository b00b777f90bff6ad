"""Failure modes of what holds by its face: strips that part, bonds and tape that let go, magnets that slide or lift.

Figures are low ends of the tables; in a parked car only what heat leaves of them counts, and a face that tears before
its bond does (raw board) is the limit.
"""

from fasten.catalog.face_parts import ADHESIVES, BOND_FACES, HOOK_AND_LOOP, POT_MAGNETS, Adhesive, HookStrip, PotMagnet
from fasten.catalog.materials import FACES, MATERIALS
from fasten.catalog.named import adhesive, material
from fasten.catalog.rules import Rules, rule_value
from fasten.catalog.tables import Tables
from fasten.geometry.joint import holds_alone, patch_of
from fasten.mechanics import faces
from fasten.model import Input, Joint, MountPoint
from fasten.model.kinds import Alone, Bond, Sticks
from fasten.proof.modes import families
from fasten.proof.modes.common import formula
from fasten.proof.modes.mode import (
    HOLDS_SHEAR,
    HOLDS_TENSION,
    SUBSTRATE_SHEAR,
    SUBSTRATE_TENSION,
    Capacity,
    Mode,
    Needed,
)
from fasten.proof.modes.plastic import HOT

LAMINATE = "laminate"

Bonded = tuple[float, tuple[Input, ...], tuple[str, ...]]


def is_bonded(joint: Joint) -> bool:
    """Whether a bond that is not tape carries the load."""
    return joint.patch is not None and joint.patch.bond is not None and joint.patch.kind.bond is not Bond.TAPE


def last_resort(joint: Joint, mount: MountPoint, tables: Tables) -> bool:
    """Whether nothing but a bond holds the item."""
    return joint.patch is not None and holds_alone(joint.patch.kind, mount, tables)


def strip(joint: Joint, tables: Tables) -> HookStrip:
    """The row of the joint's hook-and-loop."""
    return tables.need(HOOK_AND_LOOP, patch_of(joint).series)


def magnet(joint: Joint, tables: Tables) -> PotMagnet:
    """The row of the joint's magnet."""
    return tables.need(POT_MAGNETS, patch_of(joint).series)


def area(joint: Joint) -> tuple[float, tuple[Input, ...]]:
    """Area of the patch with its sides or diameter."""
    patch = patch_of(joint)
    if patch.shape == "round":
        across = Input("diameter of the face", patch.length_mm, "mm")
        return faces.disc_area_mm2(diameter_mm=across.value), (across,)
    sides = Input("length of the face", patch.length_mm, "mm"), Input("width of the face", patch.width_mm, "mm")
    return faces.strip_area_mm2(length_mm=patch.length_mm, width_mm=patch.width_mm), sides


def bonded_area(joint: Joint, tables: Tables) -> Bonded:
    """What of the area is bonded: the holes of a perforated base are not counted."""
    whole, inputs = area(joint)
    if patch_of(joint).kind.alone is not Alone.BASE:
        return whole, inputs, ()
    share, source = rule_value(tables, Rules.BASE_SOLID_SHARE)
    return whole * share, (*inputs, Input("share of the base that is not holes", share, "-")), (source,)


def face_limits(joint: Joint, mount: MountPoint, tables: Tables) -> tuple[tuple[Input, ...], tuple[str, ...]]:
    """What the bonded faces themselves bear where that is known, and its sources."""
    names = (
        (mount.material, mount.item_material) if patch_of(joint).kind.sticks is Sticks.BOTH_SIDES else (mount.material,)
    )
    rows = [row for name in dict.fromkeys(names) if (row := tables.find(BOND_FACES, name)) is not None]
    inputs = tuple(Input(f"what the face of {row.material} bears", row.bears_mpa, "MPa") for row in rows)
    return inputs, tuple(tables.source_id(BOND_FACES, row) for row in rows)


def turns_nm(joint: Joint, mount: MountPoint, tables: Tables) -> Bonded:
    """Torque that turns a bonded base off as it is tightened, cold; its inputs and sources."""
    patch = patch_of(joint)
    row = _bond_row(joint, tables)
    solid, solid_source = rule_value(tables, Rules.BASE_SOLID_SHARE)
    limits, limit_sources = face_limits(joint, mount, tables)
    shear = min([row.shear_mpa, *(entry.value for entry in limits)])
    torque_nm = faces.base_torsion_nm(diameter_mm=patch.length_mm, shear_mpa=shear, share=solid)
    inputs = (
        Input("diameter of the base", patch.length_mm, "mm"), Input("shear of the bond", row.shear_mpa, "MPa"), *limits,
        Input("share of the base that is not holes", solid, "-"),
    )  # fmt: skip
    return torque_nm, inputs, (tables.source_id(ADHESIVES, row), *limit_sources, solid_source, *joint.from_)


def _hook(joint: Joint, tables: Tables, new: Input) -> Capacity:
    whole, sides = area(joint)
    share, share_source = rule_value(tables, Rules.HOOK_CYCLED_SHARE)
    expression, formula_source = formula(tables, "hook-strip")
    load_n = faces.hook_load_n(area_mm2=whole, new_mpa=new.value, share=share)
    inputs = (*sides, new, Input("share left by opening it", share, "-"))
    return Capacity(load_n, inputs, expression, (formula_source, share_source, *joint.from_))


def _hook_shear(joint: Joint, _mount: MountPoint, tables: Tables) -> Capacity:
    return _hook(joint, tables, Input("shear of a new pair", strip(joint, tables).shear_mpa, "MPa"))


def _hook_pull(joint: Joint, _mount: MountPoint, tables: Tables) -> Capacity:
    return _hook(joint, tables, Input("pull of a new pair", strip(joint, tables).tension_mpa, "MPa"))


def _bond_row(joint: Joint, tables: Tables) -> Adhesive:
    name = patch_of(joint).bond
    assert name is not None, f"{joint.method} is not bonded here"
    return adhesive(tables, name)


def _bond(joint: Joint, mount: MountPoint, tables: Tables, strength: Input) -> Capacity:
    """The bond or the face under it, whichever gives way first; heat weakens the bond."""
    row = _bond_row(joint, tables)
    whole, sides, solid = bonded_area(joint, tables)
    limits, limit_sources = face_limits(joint, mount, tables)
    hot = mount.where in HOT
    left = row.hot_share if hot else 1.0
    warm = faces.hot_bond_mpa(cold_mpa=strength.value, share=left)
    expression, formula_source = formula(tables, "bond")
    load_n = faces.bond_load_n(area_mm2=whole, strength_mpa=min([warm, *(entry.value for entry in limits)]))
    heat = (Input("share left in heat", left, "-"),) if hot else ()
    sources = (formula_source, tables.source_id(ADHESIVES, row), *solid, *limit_sources, *joint.from_)
    return Capacity(load_n, (*sides, strength, *heat, *limits), expression, sources)


def _bond_shear(joint: Joint, mount: MountPoint, tables: Tables) -> Capacity:
    strength = Input("shear of the bond", _bond_row(joint, tables).shear_mpa, "MPa")
    return _bond(joint, mount, tables, strength)


def _bond_pull(joint: Joint, mount: MountPoint, tables: Tables) -> Capacity:
    strength = Input("pull of the bond", _bond_row(joint, tables).tension_mpa, "MPa")
    return _bond(joint, mount, tables, strength)


def _standing(joint: Joint, mount: MountPoint, tables: Tables) -> Capacity | Needed:
    row = _bond_row(joint, tables)
    if row.standing_mpa is None:
        expression, formula_source = formula(tables, "bond")
        return Needed("the stress that may stay on it", expression, (formula_source, tables.source_id(ADHESIVES, row)))
    return _bond(joint, mount, tables, Input("stress that may stay on the tape", row.standing_mpa, "MPa"))


def held_n(joint: Joint, mount: MountPoint, tables: Tables) -> Bonded:
    """Pull of the magnet on its plate, through paint and in heat, its inputs and sources."""
    row = magnet(joint, tables)
    film, film_source = rule_value(tables, Rules.MAGNET_FILM_SHARE)
    heat, heat_source = rule_value(tables, Rules.MAGNET_HEAT_SHARE)
    hot = mount.where in HOT
    inputs: tuple[Input, ...] = (
        Input("pull on thick bare steel", row.pull_n, "N"), Input("share left by paint", film, "-"),
    )  # fmt: skip
    inputs = (*inputs, Input("share left in heat", heat, "-")) if hot else inputs
    pull_n = faces.magnet_pull_n(pull_n=row.pull_n, film=film, heat=heat if hot else 1.0)
    sources = (film_source, *((heat_source,) if hot else ()), *joint.from_)
    return pull_n, inputs, sources


def _magnet_pull(joint: Joint, mount: MountPoint, tables: Tables) -> Capacity:
    pull_n, inputs, sources = held_n(joint, mount, tables)
    expression, formula_source = formula(tables, "magnet-pull")
    return Capacity(pull_n, inputs, expression, (formula_source, *sources))


def _magnet_slip(joint: Joint, mount: MountPoint, tables: Tables) -> Capacity | Needed:
    """A rim stops it by bearing; on a flat plate nothing but friction does."""
    row = magnet(joint, tables)
    if row.rim_mm is not None:
        return _rim(joint, row, row.rim_mm, tables)
    pull_n, inputs, sources = held_n(joint, mount, tables)
    face = tables.need(FACES, "painted_metal")
    expression, formula_source = formula(tables, "magnet-slip")
    load_n = faces.magnet_slip_n(pull_n=pull_n, friction=face.friction)
    found = (*inputs, Input("face friction", face.friction, "-"))
    return Capacity(load_n, found, expression, (formula_source, tables.source_id(FACES, face), *sources))


def _rim(joint: Joint, row: PotMagnet, rim_mm: float, tables: Tables) -> Capacity | Needed:
    steel = material(tables, "steel")
    expression, formula_source = formula(tables, "magnet-rim")
    sources = (formula_source, tables.source_id(MATERIALS, steel), *joint.from_)
    if steel.yield_mpa is None:
        return Needed("the yield strength of the plate", expression, sources)
    load_n = faces.rim_load_n(diameter_mm=row.diameter_mm, rim_mm=rim_mm, yield_mpa=steel.yield_mpa)
    inputs = (
        Input("pot", row.diameter_mm, "mm"), Input("height of the rim", rim_mm, "mm"),
        Input("yield of the plate", steel.yield_mpa, "MPa"),
    )  # fmt: skip
    return Capacity(load_n, inputs, expression, sources)


def _is_tape(joint: Joint) -> bool:
    return joint.patch is not None and joint.patch.kind.bond is Bond.TAPE


HOOK_SHEAR = Mode("hook-shear", "Strips slide apart", families.HOOK, "shear", _hook_shear, HOLDS_SHEAR)
HOOK_PULL = Mode("hook-pull", "Strips pulled apart", families.HOOK, "tension", _hook_pull, HOLDS_TENSION)
# A bond is calculated as the weaker of itself and the faces that it is on, so it examines them too.
_SHEARED, _PULLED = HOLDS_SHEAR | SUBSTRATE_SHEAR, HOLDS_TENSION | SUBSTRATE_TENSION
BOND_SHEAR = Mode("bond-shear", "Bond sheared off", families.BOND, "shear", _bond_shear, _SHEARED, applies=is_bonded)
BOND_PULL = Mode("bond-pull", "Bond pulled off", families.BOND, "tension", _bond_pull, _PULLED, applies=is_bonded)
TAPE_SHEAR = Mode("tape-shear", "Tape sheared off", families.TAPE, "shear", _bond_shear, _SHEARED, applies=_is_tape)
TAPE_PULL = Mode("tape-pull", "Tape pulled off", families.TAPE, "tension", _bond_pull, _PULLED, applies=_is_tape)
TAPE_CREEP = Mode(
    "tape-creep", "Tape creeps in shear", families.TAPE_STANDING, "shear", _standing, _SHEARED, applies=_is_tape
)
TAPE_HANGS = Mode(
    "tape-hangs", "Tape creeps under pull", families.TAPE_STANDING, "tension", _standing, _PULLED, applies=_is_tape
)
MAGNET_PULL = Mode(
    "magnet-pull", "Magnet pulled off its plate", families.MAGNET, "tension", _magnet_pull, HOLDS_TENSION
)
MAGNET_SLIP = Mode("magnet-slip", "Magnet slides on its plate", families.MAGNET, "shear", _magnet_slip, HOLDS_SHEAR)
BONDED = (BOND_SHEAR, BOND_PULL)
TAPED = (TAPE_SHEAR, TAPE_PULL, TAPE_CREEP, TAPE_HANGS)
