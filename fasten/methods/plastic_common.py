"""What the methods that sit in a plastic boss share: the boss they need, the washer, and the joint in it."""

from fasten.catalog.materials import PLASTIC_KINDS
from fasten.catalog.named import material
from fasten.catalog.tables import Tables
from fasten.geometry import stack
from fasten.methods.common import COVER_MM, kind_of, layers, needs_family, refuse
from fasten.methods.holding import with_limiter
from fasten.model import Boss, Hole, Joint, MountPoint, Position, Receiver, Refusal, Screw, StackPart
from fasten.model.kinds import LockKind
from fasten.record import replace
from fasten.text.figures import mm


def needs_formed(method: str, mount: MountPoint, tables: Tables) -> Refusal | None:
    """Refuse what is no thermoplastic, and a plastic that takes no formed thread or pressed-in part."""
    wrong = needs_family(method, mount, tables, "plastic")
    if wrong is not None or tables.find(PLASTIC_KINDS, mount.material) is not None:
        return wrong
    known = ", ".join(row.material.upper() for row in tables.rows(PLASTIC_KINDS))
    name = material(tables, mount.material).title
    return refuse(method, f"{name} cracks or crumbles round what is forced into it: for {known} only")


def no_boss(method: str, mount: MountPoint, needed: list[tuple[float, float]]) -> Refusal | None:
    """Refuse thin plastic without a given boss, with the least (across, deep) boss that would be needed."""
    across_mm, deep_mm = min(needed)
    if mount.boss is not None or any(mount.thickness_min_mm >= deep for _, deep in needed):
        return None
    because = f"you gave no boss, and {mm(mount.thickness_min_mm)} of plastic holds no thread: it needs a boss"
    figures = (
        ("boss across", across_mm, "mm"), ("boss deep", deep_mm, "mm"), ("plastic", mount.thickness_min_mm, "mm")
    )  # fmt: skip
    return refuse(method, because, *figures, cure=Boss(across_mm, deep_mm))


def large_washer(mount: MountPoint, screw_mm: float, head_mm: float, tables: Tables) -> tuple[StackPart, ...]:
    """The smallest large washer that passes the screw, on a soft item or where the head does not cover the hole."""
    soft = material(tables, mount.item_material).family != "sheet"
    if not soft and head_mm >= mount.item_hole_mm + 2 * COVER_MM:
        return ()
    for size in ("M3", "M4", "M5", "M6", "M8"):
        washer = stack.washer_for(tables, "large", size, Position.HEAD)
        if washer is not None and washer.hole_mm >= screw_mm:
            return (washer,)
    return ()


def in_boss(
    method: str, lock: LockKind, mount: MountPoint, washers: tuple[StackPart, ...], screw: Screw,
    receiver: Receiver | None, hole: Hole, over_mm: float, sources: tuple[str, ...], tables: Tables,
) -> Joint:  # fmt: skip
    """The joint in its boss, drawn as deep as it is drilled; nothing comes out behind."""
    depths = [mount.boss.depth_mm if mount.boss is not None else None, mount.thickness_max_mm, hole.depth_mm]
    deep = replace(mount, thickness_max_mm=max(depth for depth in depths if depth is not None))
    joint = Joint(
        method=method, kind=kind_of(mount, tables), layers=layers(deep, tables, washers, None), hole=hole,
        receiver=receiver, screw=screw, washers=washers, grip_mm=over_mm, sheet_mm=mount.thickness_min_mm,
        sheet_max_mm=mount.thickness_max_mm, behind_set_mm=0.0, behind_done_mm=0.0, lock=lock, from_=sources,
    )  # fmt: skip
    return with_limiter(joint, mount, tables)
