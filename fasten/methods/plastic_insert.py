"""Inserts in a thermoplastic boss, heat-set or self-tapping: a brass thread where screws come out often."""

from collections.abc import Iterator

from fasten.catalog.parts import PLASTIC_INSERTS, PlasticInsert
from fasten.catalog.rows import MetricThread
from fasten.catalog.rules import Rules, rule_value
from fasten.catalog.tables import Tables
from fasten.geometry import stack
from fasten.geometry.joint import receiver_of, screw_of
from fasten.methods import receivers as no
from fasten.methods.common import largest_first, limited_soft_mm, machine_screw, part_sources, refuse, with_threads
from fasten.methods.holding import locked_washers
from fasten.methods.plastic_common import in_boss, needs_formed, no_boss
from fasten.methods.screw_end import ScrewEnd
from fasten.methods.stocked import Stocked, machine_screws
from fasten.model import Joint, MountPoint, Receiver, Refusal, kinds
from fasten.model.known import Body, FarEnd
from fasten.proof.modes import common as failure
from fasten.proof.modes import plastic as plastic_modes
from fasten.proof.modes.item import through_item
from fasten.proof.modes.mode import Mode
from fasten.text.figures import mm

ENGAGED = 1.5  # diameters of screw in brass, where the insert is as long
CHIPS_MM = 1.0  # left under the screw's end

KINDS = {"heat-set": kinds.HEAT_SET_INSERT, "self-tapping": kinds.SELF_TAPPING}


def insert_gates(method: str, series: str, mount: MountPoint, tables: Tables) -> Refusal | None:
    """A plastic that takes one, a thread for the item's hole, and a boss or as much plastic."""
    wrong = needs_formed(method, mount, tables)
    if wrong is not None:
        return wrong
    rows = [row for row, _ in _fitting(series, mount, tables)]
    if not rows:
        return refuse(method, f"no screw of the series fits through a {mm(mount.item_hole_mm)} hole",
                      ("item hole", mount.item_hole_mm, "mm"))  # fmt: skip
    ratio, _ = rule_value(tables, Rules.INSERT_BOSS)
    margin_mm, _ = rule_value(tables, Rules.JACKING_OUT_MARGIN)
    rows = [row for row in rows if row.outer_mm >= mount.item_hole_mm + margin_mm] or rows
    return no_boss(method, mount, [(ratio * row.outer_mm, row.deep_mm) for row in rows])


def insert_joints(method: str, series: str, mount: MountPoint, tables: Tables) -> Iterator[Joint]:
    """A joint for each insert whose screw passes the item's hole."""
    for row, thread in _fitting(series, mount, tables):
        joint = _joint(method, mount, row, thread, tables)
        if joint is not None:
            yield joint


def insert_modes(mount: MountPoint, tables: Tables) -> tuple[Mode, ...]:
    """Screw, the plastic round the insert and beside it, the item under the head."""
    return (
        *failure.SCREWED, plastic_modes.PULL_OUT, plastic_modes.BEARING,
        *through_item(mount, tables),
    )  # fmt: skip


def insert_screw_end(joint: Joint) -> ScrewEnd:
    """As deep as brass needs, or all of a shorter insert."""
    return ScrewEnd(engaged_mm=min(ENGAGED * screw_of(joint).diameter_mm, receiver_of(joint).length_mm))


def _fitting(series: str, mount: MountPoint, tables: Tables) -> list[tuple[PlasticInsert, MetricThread]]:
    rows = [row for row in tables.rows(PLASTIC_INSERTS) if row.series == series]
    return largest_first(with_threads(rows, mount, tables))


def _joint(method: str, mount: MountPoint, row: PlasticInsert, thread: MetricThread, tables: Tables) -> Joint | None:
    size = thread.designation
    head = stack.head_for(tables, size, mount.visible)
    washers = locked_washers(mount, head, size, kinds.SPRING, tables) if head is not None else None
    if head is None or washers is None:
        return None
    over_mm = sum(washer.thickness_mm for washer in washers) + mount.item_thickness_mm + limited_soft_mm(mount, tables)
    least_mm = over_mm + min(ENGAGED * thread.major_mm, row.length_mm)
    length_mm = stack.preferred_length_mm(tables, "machine", head.standard, size, least_mm)
    if length_mm is None:
        return None
    into_mm = length_mm - over_mm
    screw = machine_screw(thread, head, length_mm, mount.grade, min(into_mm, row.length_mm), into_mm - row.length_mm)
    hole = stack.hole_with_bit(
        tables, row.hole_min_mm, 0.0, row.hole_max_mm - row.hole_min_mm,
        depth_mm=max(row.deep_mm, into_mm + CHIPS_MM), shape="round",
    )  # fmt: skip
    receiver = Receiver(
        kind=KINDS[row.series], series=row.series, thread=size, length_mm=row.length_mm, material="brass",
        grip=no.NO_GRIP, flange=no.NO_FLANGE, body=Body(row.outer_mm), bulge=no.NO_BULGE, edge=no.NO_EDGE,
        pull=no.NOT_RATED, shear=no.NO_SHEAR, breaking=no.NO_BREAKING, box_torque=no.NO_BOX_TORQUE, spin_out=no.HELD,
        prevailing=no.RUNS_FREE, end=FarEnd.OPEN, from_=tables.source_id(PLASTIC_INSERTS, row),
    )  # fmt: skip
    sources = (receiver.from_, *part_sources(tables, head, length_mm, washers))
    return in_boss(method, kinds.SPRING, mount, washers, screw, receiver, hole, over_mm, sources, tables)


def insert_stocked(series: str, tables: Tables) -> Iterator[Stocked]:
    """Its screw and every insert of the series."""
    yield from machine_screws(tables)
    for row in tables.rows(PLASTIC_INSERTS):
        if row.series == series:
            yield Stocked(KINDS[series], row.thread, row.series, "brass", row.length_mm)
