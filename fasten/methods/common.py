"""What the methods share: refusals with a figure, layers of the stack, and whether a joint is clamped or located."""

from fasten.catalog.parts import SoftLayer
from fasten.catalog.rows import Head, MetricThread
from fasten.catalog.tables import Tables
from fasten.mechanics.modes import material
from fasten.model import (
    Figure,
    JointKind,
    Layer,
    MountPoint,
    Reach,
    Refusal,
    Screw,
    WasherPart,
)

STEEL = "steel"
ZINC = "zinc_plated"


def refuse(method: str, because: str, *figures: tuple[str, float, str], change: str | None = None) -> Refusal:
    """A refusal with its figures."""
    return Refusal(method, because, tuple(Figure(*figure) for figure in figures), change)


def needs_family(method: str, mount: MountPoint, tables: Tables, *families: str) -> Refusal | None:
    """Refuse a substrate of another family than the method is for."""
    family = material(tables, mount.material).family
    if family in families:
        return None
    return refuse(method, f"made for {' or '.join(families)}, {mount.material} is {family}")


def needs_both_sides(method: str, mount: MountPoint) -> Refusal | None:
    """Refuse where the back cannot be reached."""
    if mount.reach is Reach.BOTH_SIDES:
        return None
    return refuse(
        method, "the nut needs a hand behind, only one side is reached", ("sides reached", 1, "-"),
        ("sides needed", 2, "-"), change="reach both sides",
    )  # fmt: skip


def soft_at_stop_mm(mount: MountPoint, tables: Tables) -> float:
    """Height of foam at its stop; carpet and mat are cut back, so they take none."""
    if mount.between is None or cut_back(mount):
        return 0.0
    row = tables.find(SoftLayer, "soft-layers", mount.between.material)
    assert row is not None
    return mount.between.thickness_mm * row.stop_fraction


def cut_back(mount: MountPoint) -> bool:
    """Whether the soft layer is cut back round the fixings, which leaves hard layers only."""
    return mount.between is not None and mount.between.material != "foam"


def kind_of(mount: MountPoint) -> JointKind:
    """Located where foam stays in the load path, else clamped."""
    return JointKind.LOCATED if mount.between is not None and not cut_back(mount) else JointKind.CLAMPED


def layers(
    mount: MountPoint, tables: Tables, washers: tuple[WasherPart, ...], nut_mm: float | None
) -> tuple[Layer, ...]:
    """The layers from the head down."""
    soft_mm = soft_at_stop_mm(mount, tables)
    found = [Layer("washer", STEEL, washer.thickness_mm) for washer in washers if washer.place == "head"]
    found.append(Layer("item", mount.item_material, mount.item_thickness_mm))
    if soft_mm and mount.between is not None:
        found.append(Layer("soft", mount.between.material, soft_mm))
    found.extend(Layer("washer", STEEL, washer.thickness_mm) for washer in washers if washer.place == "between")
    found.append(Layer("substrate", mount.material, mount.thickness_max_mm))
    found.extend(Layer("washer", STEEL, washer.thickness_mm) for washer in washers if washer.place == "nut")
    if nut_mm is not None:
        found.append(Layer("nut", STEEL, nut_mm))
    return tuple(found)


def machine_screw(
    thread: MetricThread, head: Head, length_mm: float, grade: str, engagement_mm: float, protrusion_mm: float
) -> Screw:
    """A machine screw as the joint carries it."""
    return Screw(
        thread=thread.designation, length_mm=length_mm, head=head.form, standard=head.standard, class_=grade,
        finish=ZINC, drive=f"{head.drive} {head.drive_size}".replace("_", " "), diameter_mm=thread.major_mm,
        pitch_mm=thread.pitch_mm, head_mm=head.diameter_min_mm or head.diameter_max_mm,
        head_height_mm=head.height_max_mm, engagement_mm=engagement_mm, protrusion_mm=protrusion_mm,
    )  # fmt: skip
