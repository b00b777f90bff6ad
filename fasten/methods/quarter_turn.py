"""Quarter-turn stud and receptacle: the stud stays in the cover, and a quarter turn lets it go; covers off weekly."""

from collections.abc import Iterator

from fasten.catalog.rows import Row, TableOf
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry import stack
from fasten.methods import common
from fasten.methods import receivers as no
from fasten.methods.common import (
    IN_HOLE,
    NOTHING_EXEMPT,
    ZINC,
    layers,
    needs_family,
    needs_light_trim,
    needs_sort,
    needs_strength,
    refuse,
    soft_between,
)
from fasten.methods.screw_end import own_length
from fasten.methods.stocked import Stocked
from fasten.model import Joint, JointKind, MountPoint, Receiver, Refusal, Screw, Span, kinds
from fasten.model.kinds import LockKind, Locks
from fasten.model.known import Body, FarEnd, Flange
from fasten.proof.fit.sheet import around_hole
from fasten.proof.modes.common import SHEET_BEARING
from fasten.proof.modes.item import through_item
from fasten.proof.modes.mode import Mode
from fasten.proof.modes.plastic import RATED_PULL, RATED_SHEAR
from fasten.proof.torque import limits as caps
from fasten.proof.torque import tightening
from fasten.record import record
from fasten.text.figures import figure, mm

NAME = "quarter_turn"
GROUND = common.NO_GROUND
fit = around_hole
limits = caps.no_more_limits
torque = tightening.not_tightened
ALWAYS = IN_HOLE
EXEMPT = NOTHING_EXEMPT
screw_end = own_length
DRIVE = "slot"
LOCK = LockKind("quarter_turn", "its receptacle, which the turned stud snaps into", Locks.ITSELF)


@record
class QuarterTurn(Row):
    """A stud for a range of covers and the receptacle that it turns into, which is riveted into a hole of the sheet.

    `stud_mm` goes through the cover, `length_mm` is the stud under its head. Hole, sheet, depth and flange are the
    receptacle's: `depth_mm` of it lies under its flange. `rated_n` is the pull that the box of the pair gives.
    """

    key = ("size", "length_mm")
    order = ("stud_mm", "length_mm")
    parts = True
    size: str
    stud_mm: float
    head_mm: float
    head_height_mm: float
    cover_min_mm: float
    cover_max_mm: float
    length_mm: float
    hole_mm: float
    hole_plus_mm: float
    sheet_min_mm: float
    sheet_max_mm: float
    depth_mm: float
    flange_mm: float
    flange_thickness_mm: float
    rated_n: float | None


QUARTER_TURNS = TableOf(QuarterTurn, "quarter-turns")


def gates(mount: MountPoint, tables: Tables) -> Refusal | None:
    """A light cover that lies on sheet with nothing soft between, of a hole and thickness that a stud is made for."""
    wrong = (
        needs_family(NAME, mount, tables, "sheet")
        or needs_strength(NAME, mount, tables)
        or needs_light_trim(NAME, "stud", mount, tables)
        or needs_sort(NAME, "for covers and trim only", mount, tables, "trim")
    )
    if wrong is not None:
        return wrong
    if (soft := soft_between(mount)) is not None:
        return refuse(NAME, f"{soft} between holds the cover off, so its stud is too short")
    passing = [row for row in _rows(tables) if _passes(mount, row)]
    return _hole_gate(mount, passing, tables) or _cover_gate(mount, passing) or _sheet_gate(mount, passing)


def _hole_gate(mount: MountPoint, passing: list[QuarterTurn], tables: Tables) -> Refusal | None:
    if passing:
        return None
    least_mm = min(row.stud_mm for row in _rows(tables))
    return refuse(NAME, f"no stud fits through a {mm(mount.item_hole_mm)} item hole",
                  ("item hole", mount.item_hole_mm, "mm"), ("least stud", least_mm, "mm"),
                  change=f"a {least_mm + _play_mm(tables):.1f} mm item hole")  # fmt: skip


def _play_mm(tables: Tables) -> float:
    """How much wider than its stud the hole of a cover is drilled."""
    return rule(tables, Rules.STOP_PLAY).value


def _cover_gate(mount: MountPoint, rows: list[QuarterTurn]) -> Refusal | None:
    if any(_covers(mount, row) for row in rows):
        return None
    least, most = min(row.cover_min_mm for row in rows), max(row.cover_max_mm for row in rows)
    because = f"no stud is for {mm(mount.item_thickness_mm)} of cover: they take {figure(least)} to {mm(most)}"
    return refuse(NAME, because, ("cover", mount.item_thickness_mm, "mm"), ("greatest", most, "mm"))


def _sheet_gate(mount: MountPoint, rows: list[QuarterTurn]) -> Refusal | None:
    if any(_is_riveted(mount, row) for row in rows):
        return None
    least, most = min(row.sheet_min_mm for row in rows), max(row.sheet_max_mm for row in rows)
    because = f"no receptacle is riveted to {mm(mount.thickness_max_mm)}: they take {figure(least)} to {mm(most)}"
    return refuse(NAME, because, ("panel", mount.thickness_max_mm, "mm"), ("greatest", most, "mm"))


def joints(mount: MountPoint, tables: Tables) -> Iterator[Joint]:
    """A joint for each stud that passes the cover's hole and is made for its thickness."""
    for row in _rows(tables):
        if _passes(mount, row) and _covers(mount, row) and _is_riveted(mount, row):
            yield _joint(mount, row, tables)


def modes(mount: MountPoint, tables: Tables) -> tuple[Mode, ...]:
    """The pair by its own box, the sheet round the receptacle, the cover under the head and on the stud."""
    return RATED_PULL, RATED_SHEAR, SHEET_BEARING, *through_item(mount, tables)


def stocked(tables: Tables) -> Iterator[Stocked]:
    """Every stud and its receptacle."""
    for row in _rows(tables):
        yield Stocked(kinds.QUARTER_TURN_STUD, row.size, _head(row), "steel", row.length_mm, DRIVE)
        yield Stocked(kinds.QUARTER_TURN, row.size, _flange(row), "steel", None)


def _rows(tables: Tables) -> tuple[QuarterTurn, ...]:
    return tables.rows(QUARTER_TURNS)


def _passes(mount: MountPoint, row: QuarterTurn) -> bool:
    return row.stud_mm <= mount.item_hole_mm + stack.FITS_HOLE


def _covers(mount: MountPoint, row: QuarterTurn) -> bool:
    return row.cover_min_mm <= mount.item_thickness_mm <= row.cover_max_mm


def _is_riveted(mount: MountPoint, row: QuarterTurn) -> bool:
    return row.sheet_min_mm <= mount.thickness_min_mm and mount.thickness_max_mm <= row.sheet_max_mm


def _head(row: QuarterTurn) -> str:
    return f"{mm(row.head_mm)} head"


def _flange(row: QuarterTurn) -> str:
    return f"{mm(row.flange_mm)} flange"


def _joint(mount: MountPoint, row: QuarterTurn, tables: Tables) -> Joint:
    """The stud is the screw; the receptacle, its flange riveted on under the cover, is the receiver."""
    source = tables.source_id(QUARTER_TURNS, row)
    receiver = Receiver(
        kind=kinds.QUARTER_TURN, series=_flange(row), thread=row.size, length_mm=row.depth_mm, material="steel",
        grip=Span(row.sheet_min_mm, row.sheet_max_mm), flange=Flange(row.flange_mm, row.flange_thickness_mm),
        body=Body(row.hole_mm), bulge=no.NO_BULGE, edge=no.NO_EDGE, pull=no.box_pull(row.rated_n), shear=no.NO_SHEAR,
        breaking=no.NO_BREAKING, box_torque=no.NOT_TIGHTENED, spin_out=no.HELD, prevailing=no.RUNS_FREE,
        end=FarEnd.OPEN, from_=source,
    )  # fmt: skip
    under_mm = row.length_mm - mount.item_thickness_mm - row.flange_thickness_mm
    screw = Screw(
        kind=kinds.QUARTER_TURN_STUD, thread=row.size, length_mm=row.length_mm, head="slotted", standard=_head(row),
        class_=kinds.QUARTER_TURN_STUD.grade, finish=ZINC, drive=DRIVE, diameter_mm=row.stud_mm, pitch_mm=0.0,
        head_mm=row.head_mm, head_height_mm=row.head_height_mm, engagement_mm=under_mm,
        protrusion_mm=under_mm - mount.thickness_max_mm,
    )  # fmt: skip
    behind_mm = max(row.depth_mm, under_mm) - mount.thickness_min_mm
    return Joint(
        method=NAME, kind=JointKind.LOCATED, layers=layers(mount, tables, (), None),
        hole=stack.hole_with_bit(tables, row.hole_mm, 0.0, row.hole_plus_mm, depth_mm=None, shape="round"),
        receiver=receiver, screw=screw, washers=(), grip_mm=mount.thickness_max_mm, sheet_mm=mount.thickness_min_mm,
        sheet_max_mm=mount.thickness_max_mm, behind_set_mm=behind_mm, behind_done_mm=behind_mm, lock=LOCK,
        from_=(source,),
    )  # fmt: skip
