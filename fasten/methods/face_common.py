"""What the methods that hold by a face share: what they never hold, what nothing sticks to, sizes, and the joint."""

from collections.abc import Iterator

from fasten.catalog.face_parts import ADHESIVES, BOND_FACES, FACE_SIZES, Adhesive, FaceSize
from fasten.catalog.named import adhesive
from fasten.catalog.rules import Rules, rule, rule_value
from fasten.catalog.tables import Tables
from fasten.methods.common import panel_layers, refuse, soft_between
from fasten.model import Joint, JointKind, Layer, MountPoint, Patch, Refusal, Removal, Where
from fasten.model.kinds import LockKind, Locks, PatchKind
from fasten.text.figures import words

RECTANGLE, ROUND = "rectangle", "round"
BY_FREQUENCY = tuple(Removal)


def not_heavy(method: str, what: str, mount: MountPoint, tables: Tables) -> Refusal | None:
    """Refuse what is heavy: whatever the figures say, it does not hang on a face alone."""
    most_kg, _ = rule_value(tables, Rules.FACE_MASS)
    if mount.mass_kg <= most_kg:
        return None
    return refuse(method, f"never hang heavy items on {what} alone",
                  ("mass", mount.mass_kg, "kg"), ("limit", most_kg, "kg"))  # fmt: skip


def no_foam(method: str, mount: MountPoint) -> Refusal | None:
    """Refuse a soft layer under the face that holds: it tears and lets the face lift."""
    if (soft := soft_between(mount)) is None:
        return None
    return refuse(method, f"{soft} keeps the faces apart, and what is stuck to {soft} tears off with it")


def stays_clean(method: str, mount: MountPoint) -> Refusal | None:
    """Refuse where road dirt and ice get between the two halves."""
    if mount.where is not Where.UNDERFLOOR:
        return None
    because = "under the floor its faces fill with dirt and ice"
    return refuse(method, because, ("removals it would last", 0, "-"))


def takes_bond(method: str, mount: MountPoint, tables: Tables, *materials: str) -> Refusal | None:
    """Refuse a bond on what nothing sticks to."""
    for name in dict.fromkeys(materials):
        row = tables.find(BOND_FACES, name)
        if row is not None and row.bears_mpa == 0:
            because = f"nothing sticks to {words(name)} without a primer or flame, and no figure is known for those"
            return refuse(method, because, (f"what the face of {words(name)} bears", row.bears_mpa, "MPa"))
    return None


def comes_off(row: Adhesive, mount: MountPoint) -> bool:
    """Whether the item comes off no oftener than this adhesive or tape may be cut and laid afresh."""
    return BY_FREQUENCY.index(mount.removed) <= BY_FREQUENCY.index(Removal(row.removed))


def bond_of(name: str, mount: MountPoint, tables: Tables) -> str:
    """The bond of this name; under what comes off every week the first that cures sooner than such a one would wait."""
    row, most = adhesive(tables, name), rule(tables, Rules.WEEKLY_CURE).value
    if mount.removed is not Removal.WEEKLY or row.cure_h < most:
        return name
    return next(other.adhesive for other in tables.rows(ADHESIVES) if other.use == "any" and other.cure_h < most)


def sizes(kind: PatchKind, tables: Tables) -> Iterator[FaceSize]:
    """The sizes of a kind, smallest face first."""
    rows = [row for row in tables.rows(FACE_SIZES) if row.part == kind.key]
    return iter(sorted(rows, key=lambda row: (row.length_mm * row.width_mm, row.length_mm)))


def face_joint(method: str, mount: MountPoint, tables: Tables, patch: Patch, *sources: str) -> Joint:
    """The joint of one patch between item and substrate: nothing is drilled, nothing comes out behind."""
    bonded = () if patch.bond is None else (tables.source_id(ADHESIVES, adhesive(tables, patch.bond)),)
    layers = (
        Layer("item", mount.item_material, mount.item_thickness_mm), Layer("patch", patch.part, patch.thickness_mm),
        *panel_layers(mount),
    )  # fmt: skip
    return Joint(
        method=method, kind=JointKind.LOCATED, layers=layers, hole=None, receiver=None, screw=None, washers=(),
        grip_mm=mount.item_thickness_mm + patch.thickness_mm, sheet_mm=mount.thickness_min_mm,
        sheet_max_mm=mount.thickness_max_mm, behind_set_mm=0.0, behind_done_mm=0.0,
        lock=_lock(patch),
        from_=tuple(dict.fromkeys((patch.from_, *sources, *bonded))), patch=patch,
    )  # fmt: skip


def _lock(patch: Patch) -> LockKind:
    """Its own grip, or the bond that keeps it there."""
    name = patch.part if patch.bond is None else patch.bond
    return LockKind(name, name, Locks.ITSELF)
