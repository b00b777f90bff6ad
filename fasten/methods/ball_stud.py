"""Ball stud and socket: a stud on the item snaps into a socket of the panel; light trim that comes off weekly."""

from collections.abc import Iterator

from fasten.catalog.parts import BALL_STUDS, NUTS, BallStud, Nut
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
    washers_under,
)
from fasten.methods.screw_end import own_length
from fasten.methods.stocked import ANY_MM, Stocked
from fasten.model import Joint, JointKind, MountPoint, Receiver, Refusal, Screw, Span, StackPart, kinds
from fasten.model.known import Body, FarEnd, Flange
from fasten.proof.fit.sheet import around_hole
from fasten.proof.modes import common as failure
from fasten.proof.modes import plastic as plastic_modes
from fasten.proof.modes.item import through_item
from fasten.proof.modes.mode import Mode
from fasten.proof.torque import limits as caps
from fasten.proof.torque import tightening
from fasten.record import record
from fasten.text.figures import figure, mm

NAME = "ball_stud"
GROUND = common.NO_GROUND
fit = around_hole
limits = caps.no_more_limits
torque = tightening.not_tightened
ALWAYS = IN_HOLE
EXEMPT = NOTHING_EXEMPT
screw_end = own_length
NUT = "hexagon"


@record
class _OwnNut:
    """The nut of a stud, which has flats to turn it by."""

    row: Nut
    flats_mm: float


@record
class _Stud:
    """A stud with its nut."""

    row: BallStud
    nut: _OwnNut


def gates(mount: MountPoint, tables: Tables) -> Refusal | None:
    """Light trim held flat on a panel that a socket snaps into, with a stud for the item's hole and thickness."""
    wrong = (
        needs_family(NAME, mount, tables, "sheet", *plastic_modes.FAMILIES)
        or needs_strength(NAME, mount, tables)
        or needs_light_trim(NAME, "stud", mount, tables)
        or needs_sort(NAME, "for covers and trim only", mount, tables, "trim")
    )
    if wrong is not None:
        return wrong
    if (soft := soft_between(mount)) is not None:
        return refuse(NAME, f"{soft} between pushes the balls out of their sockets")
    studs = list(_passing(mount, tables))
    if not studs:
        return refuse(NAME, f"no ball stud fits through a {mm(mount.item_hole_mm)} hole",
                      ("item hole", mount.item_hole_mm, "mm"))  # fmt: skip
    snapping = [stud for stud in studs if _snaps_in(mount, stud.row)]
    return _socket_gate(mount, studs) or _thread_gate(mount, snapping, tables)


def _socket_gate(mount: MountPoint, studs: list[_Stud]) -> Refusal | None:
    if any(_snaps_in(mount, stud.row) for stud in studs):
        return None
    least, most = min(stud.row.sheet_min_mm for stud in studs), max(stud.row.sheet_max_mm for stud in studs)
    because = f"no socket snaps into {mm(mount.thickness_max_mm)}: they take {figure(least)} to {mm(most)}"
    return refuse(NAME, because, ("panel", mount.thickness_max_mm, "mm"), ("greatest", most, "mm"))


def _thread_gate(mount: MountPoint, studs: list[_Stud], tables: Tables) -> Refusal | None:
    """Item, washer and the stud's own nut must find room on its thread."""
    taken = {stud.row.thread_length_mm: _on_thread_mm(mount, stud, tables) for stud in studs}
    if any(on_mm <= thread_mm for thread_mm, on_mm in taken.items()):
        return None
    longest = max(taken)
    because = f"item and nut need {mm(taken[longest])} of thread, and the longest has {mm(longest)}"
    return refuse(NAME, because, ("on the thread", taken[longest], "mm"), ("thread", longest, "mm"))


def joints(mount: MountPoint, tables: Tables) -> Iterator[Joint]:
    """A joint for each stud that passes the item and whose socket snaps into the panel."""
    for stud in _passing(mount, tables):
        if _snaps_in(mount, stud.row) and _on_thread_mm(mount, stud, tables) <= stud.row.thread_length_mm:
            yield _joint(mount, stud, tables)


def modes(mount: MountPoint, tables: Tables) -> tuple[Mode, ...]:
    """The pair by its own box, the panel round the socket, the item under the nut and on the thread."""
    bears = plastic_modes.BEARING if plastic_modes.is_plastic(mount, tables) else failure.SHEET_BEARING
    return plastic_modes.RATED_PULL, plastic_modes.RATED_SHEAR, bears, *through_item(mount, tables)


def _passing(mount: MountPoint, tables: Tables) -> Iterator[_Stud]:
    rows = tables.rows(BALL_STUDS)
    threads = stack.threads_for_hole(tables, mount.item_hole_mm, tuple(row.thread for row in rows))
    sizes = {thread.designation for thread in threads}
    return (_Stud(row, nut) for row in rows if row.thread in sizes and (nut := _nut(row, tables)) is not None)


def _snaps_in(mount: MountPoint, row: BallStud) -> bool:
    return row.sheet_min_mm <= mount.thickness_min_mm and mount.thickness_max_mm <= row.sheet_max_mm


def _nut(row: BallStud, tables: Tables) -> _OwnNut | None:
    nut = stack.nut_for(tables, NUT, row.thread)
    return None if nut is None or nut.across_flats_mm is None else _OwnNut(nut, nut.across_flats_mm)


def _washers(mount: MountPoint, stud: _Stud, tables: Tables) -> tuple[StackPart, ...]:
    return washers_under(mount, stud.nut.flats_mm, stud.row.thread, tables, always=False) or ()


def _on_thread_mm(mount: MountPoint, stud: _Stud, tables: Tables) -> float:
    washers = sum(washer.thickness_mm for washer in _washers(mount, stud, tables))
    return mount.item_thickness_mm + washers + stud.nut.row.height_max_mm


def _joint(mount: MountPoint, stud: _Stud, tables: Tables) -> Joint:
    """The stud, its nut in front of the item, is the screw; the socket is the receiver."""
    row, nut, flats_mm = stud.row, stud.nut.row, stud.nut.flats_mm
    washers = _washers(mount, stud, tables)
    over_mm = mount.item_thickness_mm + sum(washer.thickness_mm for washer in washers)
    receiver = Receiver(
        kind=kinds.BALL_SOCKET, series=f"{mm(row.flange_mm)} flange", thread=mm(row.ball_mm),
        length_mm=row.length_mm, material="plastic", grip=Span(row.sheet_min_mm, row.sheet_max_mm),
        flange=Flange(row.flange_mm, row.flange_thickness_mm), body=Body(row.hole_mm), bulge=no.NO_BULGE,
        edge=no.NO_EDGE, pull=no.box_pull(row.rated_n), shear=no.NO_SHEAR, breaking=no.NO_BREAKING,
        box_torque=no.NOT_TIGHTENED, spin_out=no.HELD, prevailing=no.RUNS_FREE, end=FarEnd.OPEN,
        from_=tables.source_id(BALL_STUDS, row),
    )  # fmt: skip
    screw = Screw(
        kind=kinds.BALL_STUD, thread=row.thread, length_mm=over_mm + row.reach_mm, head=f"{mm(row.ball_mm)} ball",
        standard="with its own nut", class_=kinds.BALL_STUD.grade, finish=ZINC, drive=f"hexagon {figure(flats_mm)}",
        diameter_mm=float(row.thread.removeprefix("M")), pitch_mm=0.0, head_mm=flats_mm,
        head_height_mm=nut.height_max_mm, engagement_mm=row.ball_mm,
        protrusion_mm=row.reach_mm - row.flange_thickness_mm - row.length_mm,
    )  # fmt: skip
    end_mm = max(row.length_mm, row.reach_mm - row.flange_thickness_mm)
    return Joint(
        method=NAME, kind=JointKind.LOCATED, layers=layers(mount, tables, washers, None),
        hole=stack.hole_with_bit(tables, row.hole_mm, 0.0, row.hole_plus_mm, depth_mm=None, shape="round"),
        receiver=receiver, screw=screw, washers=washers, grip_mm=mount.thickness_max_mm,
        sheet_mm=mount.thickness_min_mm, sheet_max_mm=mount.thickness_max_mm,
        behind_set_mm=end_mm - mount.thickness_min_mm, behind_done_mm=end_mm - mount.thickness_min_mm,
        lock=kinds.SNAPS, from_=(receiver.from_, tables.source_id(NUTS, nut)),
    )  # fmt: skip


def stocked(tables: Tables) -> Iterator[Stocked]:
    """Every stud and its socket."""
    for row in tables.rows(BALL_STUDS):
        yield Stocked(kinds.BALL_STUD, row.thread, "with its own nut", kinds.BALL_STUD.grade, ANY_MM)
        series = f"{mm(row.flange_mm)} flange"
        yield Stocked(kinds.BALL_SOCKET, mm(row.ball_mm), series, "plastic", row.length_mm)
