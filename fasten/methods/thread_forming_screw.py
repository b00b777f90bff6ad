"""Thread-forming screw in plastic: into a boss, or into plastic thick enough to be one."""

from collections.abc import Iterator, Mapping

from fasten.catalog.materials import PLASTIC_KINDS, PlasticKind
from fasten.catalog.parts import PLASTIC_SCREWS, PREFERRED_LENGTHS, PlasticScrew, PreferredLength
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry import stack
from fasten.geometry.joint import screw_of
from fasten.mechanics.plastic import boss_depth_mm, boss_engagement_mm, boss_hole_mm, boss_outer_mm
from fasten.methods import common
from fasten.methods.common import IN_HOLE, ZINC, limited_soft_mm, needs_hard_layers, refuse
from fasten.methods.plastic_common import in_boss, large_washer, needs_formed, no_boss
from fasten.methods.screw_end import ScrewEnd
from fasten.methods.stocked import ANY_MM, Stocked
from fasten.model import Joint, MountPoint, Refusal, Screw, Subject, kinds
from fasten.proof.fit import plastic as plastic_fit
from fasten.proof.modes import plastic as plastic_modes
from fasten.proof.modes.item import through_item
from fasten.proof.modes.mode import Mode
from fasten.proof.torque import limits as caps
from fasten.proof.torque import tightening
from fasten.text.figures import mm

NAME = "thread_forming_screw"
GROUND = common.NO_GROUND
fit = plastic_fit.bossed
limits = caps.no_more_limits
torque = tightening.by_feel
ALWAYS = IN_HOLE
EXEMPT: Mapping[Subject, str] = {
    Subject.HOLDS_TENSION: "its hardened core bears several times what any plastic here holds round its thread",
    Subject.HOLDS_SHEAR: "its hardened core bears several times what any plastic here bears beside it",
}
MOST_ENGAGED = 2.5  # diameters; what is deeper adds driving torque and little hold
LOOSE_MM = 1.0  # how much wider than the screw the item's hole may be


def gates(mount: MountPoint, tables: Tables) -> Refusal | None:
    """A plastic with figures, a size for the item's hole, and a boss or as much plastic."""
    wrong = needs_formed(NAME, mount, tables) or needs_hard_layers(NAME, mount, tables)
    if wrong is not None:
        return wrong
    row, sizes = tables.need(PLASTIC_KINDS, mount.material), _fitting(mount, tables)
    if not sizes:
        return refuse(NAME, f"no screw of the series suits a {mm(mount.item_hole_mm)} hole",
                      ("item hole", mount.item_hole_mm, "mm"))  # fmt: skip
    needed = [(boss_outer_mm(screw_mm=s.diameter_mm, ratio=row.boss_over_d), _deep_mm(s, row)) for s in sizes]
    return no_boss(NAME, mount, needed)


def joints(mount: MountPoint, tables: Tables) -> Iterator[Joint]:
    """A joint for each size that suits the item's hole."""
    row = tables.need(PLASTIC_KINDS, mount.material)
    for size in _fitting(mount, tables):
        joint = _joint(mount, size, row, tables)
        if joint is not None:
            yield joint


def modes(mount: MountPoint, tables: Tables) -> tuple[Mode, ...]:
    """The plastic round the thread and beside the shank, the item under the head."""
    return plastic_modes.PULL_OUT, plastic_modes.BEARING, *through_item(mount, tables)


def screw_end(joint: Joint, mount: MountPoint, tables: Tables) -> ScrewEnd | None:
    """As deep as this plastic needs."""
    screw, kind = screw_of(joint), tables.find(PLASTIC_KINDS, mount.material)
    engaged_mm = screw.engagement_mm if kind is None else kind.engagement_over_d * screw.diameter_mm
    return ScrewEnd(engaged_mm=engaged_mm)


def _fitting(mount: MountPoint, tables: Tables) -> list[PlasticScrew]:
    rows = tables.rows(PLASTIC_SCREWS)
    return [row for row in rows if 0 <= mount.item_hole_mm - row.diameter_mm <= LOOSE_MM]


def _engaged_mm(row: PlasticScrew, kind: PlasticKind) -> float:
    return boss_engagement_mm(screw_mm=row.diameter_mm, ratio=kind.engagement_over_d)


def _deep_mm(row: PlasticScrew, kind: PlasticKind) -> float:
    return boss_depth_mm(engagement_mm=_engaged_mm(row, kind), screw_mm=row.diameter_mm)


def _joint(mount: MountPoint, row: PlasticScrew, kind: PlasticKind, tables: Tables) -> Joint | None:
    washers = large_washer(mount, row.diameter_mm, row.head_mm, tables)
    over_mm = sum(washer.thickness_mm for washer in washers) + mount.item_thickness_mm + limited_soft_mm(mount, tables)
    length = _length(row, over_mm + _engaged_mm(row, kind), tables)
    if length is None:
        return None
    engaged_mm = min(length.length_mm - over_mm, MOST_ENGAGED * row.diameter_mm)
    deep_mm = boss_depth_mm(engagement_mm=length.length_mm - over_mm, screw_mm=row.diameter_mm)
    hole_mm = round(boss_hole_mm(screw_mm=row.diameter_mm, ratio=kind.hole_over_d), 6)  # 0.8 x 3.5 is 2.8
    plus_mm = rule(tables, Rules.BOSS_HOLE_PLUS).value
    screw = Screw(
        kind=kinds.PLASTIC_SCREW, thread=row.size, length_mm=length.length_mm, head="pan", standard="30 degree thread",
        class_=kinds.PLASTIC_SCREW.grade, finish=ZINC, drive=f"hexalobular {row.drive}", diameter_mm=row.diameter_mm,
        pitch_mm=row.pitch_mm, head_mm=row.head_mm, head_height_mm=row.head_height_mm, engagement_mm=engaged_mm,
        protrusion_mm=length.length_mm - over_mm - deep_mm,
    )  # fmt: skip
    sources = (
        tables.source_id(PLASTIC_SCREWS, row), tables.source_id(PLASTIC_KINDS, kind),
        tables.source_id(PREFERRED_LENGTHS, length),
    )  # fmt: skip
    return in_boss(
        NAME, kinds.NO_LOCK, mount, washers, screw, None,
        stack.hole_with_bit(tables, hole_mm, 0.05, plus_mm, depth_mm=deep_mm, shape="round"), over_mm, sources, tables,
    )  # fmt: skip


def _length(row: PlasticScrew, least_mm: float, tables: Tables) -> PreferredLength | None:
    for length in tables.rows(PREFERRED_LENGTHS):
        stocked = row.length_min_mm <= length.length_mm <= row.length_max_mm
        if length.family == "machine" and length.choice == "first" and stocked and length.length_mm >= least_mm - 1e-9:
            return length
    return None


def stocked(tables: Tables) -> Iterator[Stocked]:
    """Every screw for plastic."""
    kind = kinds.PLASTIC_SCREW
    for row in tables.rows(PLASTIC_SCREWS):
        yield Stocked(kind, row.size, "30 degree thread", kind.grade, ANY_MM, f"hexalobular {row.drive}")
