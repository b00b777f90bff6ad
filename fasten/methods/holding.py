"""What keeps a screw from working loose, its washers, and the compression limiter or spacer in what is soft."""

from math import ceil

from fasten.catalog.materials import SOFT_LAYERS
from fasten.catalog.named import material
from fasten.catalog.parts import Head
from fasten.catalog.rows import METRIC_CLEARANCE, TAPPING_CLEARANCE
from fasten.catalog.rules import Rules, rule_value
from fasten.catalog.tables import Tables
from fasten.geometry import stack
from fasten.geometry.joint import shaft_mm
from fasten.geometry.soft import held_by, staying
from fasten.methods.common import COVER_MM, has_flange, limited_soft_mm, washers_under
from fasten.model import Holds, Joint, MountPoint, Position, StackPart, kinds
from fasten.model.kinds import LockKind, Locks
from fasten.proof.fit.limiter import opening_under_mm
from fasten.proof.fit.rim import presses_alone, why_limited
from fasten.proof.modes.item import SOFT
from fasten.record import replace
from fasten.text.figures import figure

SLEEVE = "sleeve"


def lock_for(mount: MountPoint, tables: Tables) -> LockKind:
    """Low-strength threadlocker, which a round body outlasts; it cracks plastic, so there a spring washer."""
    met = {material(tables, name).family for name in (mount.material, mount.item_material)}
    return kinds.SPRING if "plastic" in met else kinds.LOCKER


def locked_washers(
    mount: MountPoint, head: Head, size: str, lock: LockKind, tables: Tables, *, always: bool = False
) -> tuple[StackPart, ...] | None:
    """The washers under the head of a screw, as `locked_under` finds them."""
    return locked_under(mount, head.diameter_max_mm, size, lock, tables, always=always and not has_flange(head))


def locked_under(
    mount: MountPoint, bears_mm: float, size: str, lock: LockKind, tables: Tables, *, always: bool = False
) -> tuple[StackPart, ...] | None:
    """The washers under a head or nut, from it down: a spring washer lies on a flat one, whatever the item is.

    None where there is no washer of the size.
    """
    flat = washers_under(mount, bears_mm, size, tables, always=always or lock.how is Locks.SPRING)
    if lock.how is not Locks.SPRING or flat is None:
        return flat
    spring = stack.washer_for(tables, "spring", size, Position.HEAD)
    return None if spring is None else (spring, *flat)


def with_limiter(joint: Joint, mount: MountPoint, tables: Tables) -> Joint:
    """The joint with what goes through its soft layers; as it is where none stays, or a stiff rim presses thin foam.

    A limiter is as high as the foam that it leaves, a spacer as long as is sold, which the stack already counts.
    """
    height_mm, through = limited_soft_mm(mount, tables), joint.screw or joint.receiver
    if height_mm <= 0 or through is None or presses_alone(mount, tables):
        return joint
    hole_mm, hole_source = _passes_mm(through.thread, shaft_mm(joint), tables)
    outer_mm, sources = _outer_mm(joint, mount, tables)
    size = "x".join(figure(mm) for mm in (hole_mm, outer_mm, height_mm))
    limiter = StackPart(SLEEVE, size, Position.LIMITER, hole_mm, outer_mm, height_mm)
    rows = [tables.need(SOFT_LAYERS, layer.material) for layer in staying(mount.between)]
    sources = (*joint.from_, *sources, hole_source, *(tables.source_id(SOFT_LAYERS, row) for row in rows))
    return replace(joint, washers=(*joint.washers, limiter), from_=tuple(dict.fromkeys(sources)))


def limited_because(mount: MountPoint, tables: Tables) -> str | None:
    """Why foam takes a compression limiter; None where its rim presses it alone."""
    return why_limited(mount, tables)


def _outer_mm(joint: Joint, mount: MountPoint, tables: Tables) -> tuple[float, tuple[str, ...]]:
    """Outside of a limiter or spacer, and the sources: by the screw, and wide enough for the holes beside it.

    A spacer presses on what is soft by all the clamp: there it is no narrower than the washers.
    """
    soft = any(material(tables, name).family in SOFT for name in (mount.material, mount.item_material))
    ratio, source = rule_value(tables, Rules.STOP_OUTER_SOFT if soft else Rules.STOP_OUTER)
    covers_mm = max(mount.item_hole_mm, opening_under_mm(joint)) + 2 * COVER_MM
    wanted_mm = max(ratio * shaft_mm(joint), covers_mm)
    if held_by(mount.between, tables) is Holds.LIMITER:
        return _half_up_mm(wanted_mm), (source,)
    least_mm, least_source = rule_value(tables, Rules.SPACER_OUTER)
    washers_mm = (washer.outer_mm for washer in joint.washers if soft)
    return _half_up_mm(max(wanted_mm, least_mm, *washers_mm)), (source, least_source)


def _passes_mm(thread: str, diameter_mm: float, tables: Tables) -> tuple[float, str]:
    """The hole that a screw or stud passes without forming a thread in it, and its source."""
    metric = tables.find(METRIC_CLEARANCE, thread)
    if metric is not None:
        return metric.medium_mm, tables.source_id(METRIC_CLEARANCE, metric)
    tapping = tables.find(TAPPING_CLEARANCE, thread)
    if tapping is not None and tapping.hole_mm is not None:
        return tapping.hole_mm, tables.source_id(TAPPING_CLEARANCE, tapping)
    play_mm, source = rule_value(tables, Rules.STOP_PLAY)
    return diameter_mm + play_mm, source


def _half_up_mm(value_mm: float) -> float:
    """Up to the next half millimetre, as tube is sold."""
    return ceil(round(2 * value_mm, 6)) / 2
