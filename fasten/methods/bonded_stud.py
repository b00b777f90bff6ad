"""Bonded-in stud: a stud on a perforated base, laminated into glass-fibre; elsewhere bonded on, and the last resort."""

from collections.abc import Iterator

from fasten.catalog.face_parts import ADHESIVES, BONDED_STUDS, Adhesive, BondedStud
from fasten.catalog.named import material
from fasten.catalog.parts import NUTS, WASHERS, Nut
from fasten.catalog.rows import MetricThread
from fasten.catalog.tables import Tables
from fasten.geometry import stack
from fasten.methods import common
from fasten.methods.common import NOTHING_EXEMPT, STEEL, ZINC, Always, refuse
from fasten.methods.face_common import ROUND, face_joint, no_foam, not_heavy, takes_bond
from fasten.methods.receivers import lock_nut
from fasten.methods.screw_end import no_shorter
from fasten.methods.stocked import Stocked, nuts
from fasten.model import (
    Joint,
    JointKind,
    Layer,
    MountPoint,
    Patch,
    Position,
    Refusal,
    Screw,
    StackPart,
    kinds,
)
from fasten.proof.fit import faces as face_fit
from fasten.proof.modes import common as failure
from fasten.proof.modes import faces as face_modes
from fasten.proof.modes.item import through_item
from fasten.proof.modes.mode import Mode
from fasten.proof.torque import limits as caps
from fasten.proof.torque.faces import stud_window
from fasten.record import replace
from fasten.text.figures import figure, mm

NAME = "bonded_stud"
GROUND = common.NO_GROUND
fit = face_fit.on_its_base
limits = caps.no_more_limits
torque = stud_window
ALWAYS = Always(in_hole=False, patches=(kinds.STUD_BASE,))
EXEMPT = NOTHING_EXEMPT
screw_end = no_shorter
NUT = "prevailing_torque"


def gates(mount: MountPoint, tables: Tables) -> Refusal | None:
    """On laminate as heavy as it proves; elsewhere light only, and a face the base sticks to."""
    wrong = no_foam(NAME, mount)
    if not _on_laminate(mount, tables):
        wrong = not_heavy(NAME, "adhesive", mount, tables) or wrong
    wrong = wrong or takes_bond(NAME, mount, tables, mount.material)
    if wrong is None and not _threads(mount, tables):
        return refuse(NAME, f"no such stud fits through a {mm(mount.item_hole_mm)} hole",
                      ("item hole", mount.item_hole_mm, "mm"))  # fmt: skip
    return wrong


def joints(mount: MountPoint, tables: Tables) -> Iterator[Joint]:
    """A joint for each stud that passes the item's hole and reaches through its nut, the shortest of its thread."""
    use = "laminate" if _on_laminate(mount, tables) else "any"
    bonds = [row for row in tables.rows(ADHESIVES) if row.use == use]
    for thread in _threads(mount, tables):
        nut = stack.nut_for(tables, NUT, thread.designation)
        washer = stack.washer_for(tables, "large", thread.designation, Position.HEAD)
        flats_mm = None if nut is None else nut.across_flats_mm
        if nut is None or flats_mm is None or washer is None:
            continue
        least_mm = washer.thickness_mm + mount.item_thickness_mm + nut.height_max_mm + thread.pitch_mm
        stud = _reaching(thread.designation, least_mm, tables)
        if stud is not None:
            yield from (_joint(mount, stud, thread, nut, flats_mm, washer, bond, tables) for bond in bonds)


def modes(mount: MountPoint, tables: Tables) -> tuple[Mode, ...]:
    """The bond of the base, the stud, and the item under its washer."""
    return (
        *failure.SCREWED, *face_modes.BONDED,
        *through_item(mount, tables),
    )  # fmt: skip


def _on_laminate(mount: MountPoint, tables: Tables) -> bool:
    return material(tables, mount.material).family == face_modes.LAMINATE


def _threads(mount: MountPoint, tables: Tables) -> tuple[MetricThread, ...]:
    found = dict.fromkeys(row.thread for row in tables.rows(BONDED_STUDS))
    return stack.threads_for_hole(tables, mount.item_hole_mm, tuple(found))


def _reaching(thread: str, least_mm: float, tables: Tables) -> BondedStud | None:
    rows = [row for row in tables.rows(BONDED_STUDS) if row.thread == thread]
    return min((row for row in rows if row.length_mm >= least_mm), key=lambda row: row.length_mm, default=None)


def _joint(
    mount: MountPoint, stud: BondedStud, thread: MetricThread, nut: Nut, flats_mm: float, washer: StackPart,
    bond: Adhesive, tables: Tables,
) -> Joint:  # fmt: skip
    source = tables.source_id(BONDED_STUDS, stud)
    patch = Patch(
        kind=kinds.STUD_BASE, series=bond.adhesive, length_mm=stud.base_mm,
        width_mm=stud.base_mm, thickness_mm=stud.base_thickness_mm, shape=ROUND, from_=source, bond=bond.adhesive,
    )  # fmt: skip
    row = tables.need(WASHERS, washer.standard, washer.size)
    sources = (tables.source_id(NUTS, nut), tables.source_id(WASHERS, row))
    bare = face_joint(NAME, mount, tables, patch, *sources)
    grip_mm = washer.thickness_mm + mount.item_thickness_mm
    screw = Screw(
        kind=kinds.BONDED_STUD, thread=stud.thread, length_mm=stud.length_mm, head="stud on its base",
        standard=f"{mm(stud.base_mm)} perforated base",
        class_=stud.class_, finish=ZINC, drive=f"hexagon {figure(flats_mm)}", diameter_mm=thread.major_mm,
        pitch_mm=thread.pitch_mm, head_mm=flats_mm, head_height_mm=nut.height_max_mm,
        engagement_mm=nut.thread_height_mm or nut.height_max_mm,
        protrusion_mm=stud.length_mm - grip_mm - nut.height_max_mm,
    )  # fmt: skip
    under = Layer("washer", STEEL, washer.thickness_mm)
    return replace(
        bare, kind=JointKind.CLAMPED, layers=(under, *bare.layers), receiver=lock_nut(nut, tables),
        screw=screw, washers=(washer,), grip_mm=grip_mm, lock=kinds.NUT_LOCKS,
    )  # fmt: skip


def stocked(tables: Tables) -> Iterator[Stocked]:
    """Every stud and its nut."""
    for row in tables.rows(BONDED_STUDS):
        base = f"{mm(row.base_mm)} perforated base"
        yield Stocked(kinds.BONDED_STUD, row.thread, base, row.class_, row.length_mm)
    yield from nuts(kinds.LOCK_NUT, tables, NUT)
