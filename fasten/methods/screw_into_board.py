"""Screw straight into board or wood: parallel shank in MDF and particleboard, wood screw in solid wood and plywood."""

from collections.abc import Iterator

from fasten.catalog.materials import BOARD_KINDS, BoardKind
from fasten.catalog.opened import times_of
from fasten.catalog.parts import BOARD_SCREWS, BoardScrew
from fasten.catalog.practice import METHOD_WORDS
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry import stack
from fasten.geometry.joint import screw_of
from fasten.methods import common
from fasten.methods.board_common import in_board, lengths_mm, needs_board, washer_sources, washers_over
from fasten.methods.common import IN_HOLE, NOTHING_EXEMPT, ZINC, limited_soft_mm, refuse
from fasten.methods.holding import with_limiter
from fasten.methods.screw_end import ScrewEnd
from fasten.methods.stocked import ANY_MM, Stocked
from fasten.model import Hole, Into, Joint, JointKind, MountPoint, Refusal, Screw, StackPart, ThickerBoard, kinds
from fasten.proof.fit import board as board_fit
from fasten.proof.modes import board as board_modes
from fasten.proof.modes.item import through_item
from fasten.proof.modes.mode import Mode
from fasten.proof.modes.shank import CORE
from fasten.proof.torque import board as board_torque
from fasten.proof.torque import limits as caps
from fasten.text.figures import mm, words

NAME = "screw_into_board"
GROUND = common.NO_GROUND
fit = board_fit.screwed
limits = caps.no_more_limits
torque = board_torque.torque
ALWAYS = IN_HOLE
EXEMPT = NOTHING_EXEMPT
CLEAR_MM = 0.4  # least play of the screw in the item's hole; common practice
LEAST_DIAMETERS = 2.0  # a screw that reaches less deep into a face is no joint; common practice


def gates(mount: MountPoint, tables: Tables) -> Refusal | None:
    """Board or wood, seldom removed, and a screw that passes the item's hole."""
    wrong = needs_board(NAME, mount, tables) or _wears(mount, tables)
    if wrong is not None:
        return wrong
    if not _passing(mount, tables):
        return refuse(NAME, f"no screw for {words(mount.material)} fits through a {mm(mount.item_hole_mm)} hole",
                      ("item hole", mount.item_hole_mm, "mm"))  # fmt: skip
    if not any(True for _ in joints(mount, tables)):
        left = rule(tables, Rules.SCREW_BEHIND).value
        return refuse(NAME, f"no screw holds in {mm(mount.thickness_min_mm)} of board with {mm(left)} left behind it",
                      ("board", mount.thickness_min_mm, "mm"), ("left behind", left, "mm"),
                      check="board-behind", cure=ThickerBoard(mount.thickness_min_mm))  # fmt: skip
    return None


def joints(mount: MountPoint, tables: Tables) -> Iterator[Joint]:
    """A joint for each size: in a face the longest screw that leaves board behind, in an edge the shortest."""
    for row in _passing(mount, tables):
        for washers in washers_over(mount, row.diameter_mm, row.head_mm, tables):
            over_mm = sum(washer.thickness_mm for washer in washers) + mount.item_thickness_mm
            over_mm += limited_soft_mm(mount, tables)
            found = _length(mount, row, over_mm, tables)
            if found is not None:
                yield _joint(mount, row, washers, over_mm, found, tables)
                break


def modes(mount: MountPoint, tables: Tables) -> tuple[Mode, ...]:
    """The board round the screw, the screw's core, and the item under its head."""
    return (board_modes.SCREW_WITHDRAWAL, board_modes.lateral(mount), *CORE, *through_item(mount, tables))


def screw_end(joint: Joint, mount: MountPoint, tables: Tables) -> ScrewEnd | None:
    """As many diameters in the board as make a joint."""
    return ScrewEnd(engaged_mm=LEAST_DIAMETERS * screw_of(joint).diameter_mm)


def _wears(mount: MountPoint, tables: Tables) -> Refusal | None:
    """Each time it is driven the screw leaves less of its thread in the board."""
    wanted = times_of(mount, tables).once
    words = tables.need(METHOD_WORDS, NAME)
    if wanted <= words.rated:
        return None
    because = f"board holds a screw for {words.rated} removals, and {mount.removed.value} makes {wanted}"
    return refuse(NAME, because, ("removals wanted", wanted, "-"), ("removals rated", words.rated, "-"))


def _passing(mount: MountPoint, tables: Tables) -> list[BoardScrew]:
    composite = board_modes.kind(tables, mount).form == board_modes.COMPOSITE
    series = "parallel shank" if composite else "wood screw"
    rows = tables.rows(BOARD_SCREWS)
    return [row for row in rows if row.series == series and row.diameter_mm + CLEAR_MM <= mount.item_hole_mm]


def _length(mount: MountPoint, row: BoardScrew, over_mm: float, tables: Tables) -> tuple[float, str] | None:
    """Length and its source."""
    least, most = row.length_min_mm, row.length_max_mm
    if mount.into is Into.EDGE:
        deep = rule(tables, Rules.EDGE_PENETRATION).value
        return next(iter(lengths_mm(tables, row.family, max(least, over_mm + deep), most)), None)
    reach = over_mm + mount.thickness_min_mm - rule(tables, Rules.SCREW_BEHIND).value
    bites = over_mm + LEAST_DIAMETERS * row.diameter_mm
    return next(iter(lengths_mm(tables, row.family, max(least, bites), min(most, reach))[::-1]), None)


def _pilot(kind: BoardKind, row: BoardScrew, deep_mm: float, tables: Tables) -> Hole:
    """A tenth that lies in the band, as bits are sold; the middle of the band where none does."""
    least_mm, most_mm = kind.pilot_min * row.root_mm, kind.pilot_max * row.root_mm
    middle_mm = (least_mm + most_mm) / 2
    tenth_mm = round(middle_mm, 1)
    hole_mm = tenth_mm if least_mm <= tenth_mm <= most_mm else middle_mm
    return stack.hole_with_bit(tables, hole_mm, hole_mm - least_mm, most_mm - hole_mm, depth_mm=deep_mm, shape="round")


def _joint(
    mount: MountPoint, row: BoardScrew, washers: tuple[StackPart, ...], over_mm: float, found: tuple[float, str],
    tables: Tables,
) -> Joint:  # fmt: skip
    (length_mm, length_source), kind = found, board_modes.kind(tables, mount)
    point_mm = length_mm - over_mm
    deep_mm = point_mm + rule(tables, Rules.PILOT_PAST_SCREW).value
    hole = _pilot(kind, row, deep_mm, tables)
    parallel = row.thread_share == 1.0
    kind_of_screw = kinds.BOARD_SCREW if parallel else kinds.WOOD_SCREW
    screw = Screw(
        kind=kind_of_screw, thread=row.size, length_mm=length_mm,
        head="pan_tapping" if parallel else "pan wood screw",
        standard=row.standard, class_=kind_of_screw.grade, finish=ZINC, drive=row.drive,
        diameter_mm=row.diameter_mm, pitch_mm=row.pitch_mm, head_mm=row.head_mm, head_height_mm=None,
        engagement_mm=min(point_mm, row.thread_share * length_mm), protrusion_mm=0.0,
    )  # fmt: skip
    sources = (tables.source_id(BOARD_SCREWS, row), tables.source_id(BOARD_KINDS, kind), length_source,
               *washer_sources(tables, washers))  # fmt: skip
    joint = Joint(
        method=NAME, kind=JointKind.LOCATED, layers=in_board(mount, tables, washers, deep_mm), hole=hole,
        receiver=None, screw=screw, washers=washers, grip_mm=over_mm, sheet_mm=mount.thickness_min_mm,
        sheet_max_mm=mount.thickness_max_mm, behind_set_mm=0.0, behind_done_mm=0.0, lock=kinds.OWN_THREAD,
        from_=sources,
    )  # fmt: skip
    return with_limiter(joint, mount, tables)


def stocked(tables: Tables) -> Iterator[Stocked]:
    """Every screw, with a parallel thread and with that of a wood screw."""
    for row in tables.rows(BOARD_SCREWS):
        for kind in (kinds.BOARD_SCREW, kinds.WOOD_SCREW):
            yield Stocked(kind, row.size, row.standard, kind.grade, ANY_MM, row.drive)
