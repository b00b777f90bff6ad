"""Through bolt with a prevailing-torque nut and large washers: the strongest, where both sides are reached."""

from collections.abc import Iterator

from fasten.catalog.named import material
from fasten.catalog.parts import NUTS
from fasten.catalog.rows import MetricThread
from fasten.catalog.rules import Rules, rule, rule_value
from fasten.catalog.tables import Tables
from fasten.geometry import stack
from fasten.geometry.joint import behind_mm, drilled, screw_of
from fasten.methods import common
from fasten.methods.board_common import is_board, needs_face, of_each_kind
from fasten.methods.common import (
    IN_HOLE,
    NOTHING_EXEMPT,
    head_washers,
    kind_of,
    layers,
    limited_soft_mm,
    machine_screw,
    needs_both_sides,
    needs_family,
    part_sources,
    refuse,
)
from fasten.methods.holding import with_limiter
from fasten.methods.receivers import lock_nut
from fasten.methods.screw_end import ScrewEnd
from fasten.methods.stocked import Stocked, machine_screws, nuts
from fasten.model import Check, Input, Joint, MountPoint, Position, Refusal, StackPart, kinds
from fasten.proof.checks import at_most
from fasten.proof.fit.board import bolted
from fasten.proof.fit.sheet import around_hole
from fasten.proof.modes import board as board_modes
from fasten.proof.modes import common as failure
from fasten.proof.modes import plastic as plastic_modes
from fasten.proof.modes.item import through_item
from fasten.proof.modes.mode import Mode
from fasten.proof.torque import limits as caps
from fasten.proof.torque import tightening
from fasten.text.figures import mm

NAME = "through_bolt"
GROUND = common.GROUND
limits = caps.no_more_limits
torque = tightening.window
ALWAYS = IN_HOLE
EXEMPT = NOTHING_EXEMPT
SIZES = ("M4", "M5", "M6", "M8", "M10")
NUT = "prevailing_torque"
HOLE_PLUS_MM = 0.3


def gates(mount: MountPoint, tables: Tables) -> Refusal | None:
    """Both sides reached, and a bolt that passes the item's hole."""
    wrong = needs_family(NAME, mount, tables, "sheet", "board", "wood", "plastic", "laminate")
    wrong = wrong or needs_both_sides(NAME, mount) or needs_face(NAME, mount)
    if wrong is not None:
        return wrong
    if not stack.threads_for_hole(tables, mount.item_hole_mm, SIZES):
        return refuse(
            NAME, f"no bolt fits through a {mm(mount.item_hole_mm)} hole", ("item hole", mount.item_hole_mm, "mm")
        )
    return None


def joints(mount: MountPoint, tables: Tables) -> Iterator[Joint]:
    """A joint for each bolt that passes the item's hole, with a large washer behind, on soft stuff both sides."""
    past_help = frozenset() if mount.spread is None else mount.spread.but_for
    for thread in stack.threads_for_hole(tables, mount.item_hole_mm, SIZES):
        for form in (
            ()
            if thread.designation in past_help
            else _washers(mount, tables, oversize=_oversize_mm(mount, thread, tables) > 0)
        ):
            joint = _joint(mount, thread, form, tables)
            if is_board(mount, tables) or plastic_modes.is_plastic(mount, tables):
                yield from of_each_kind(mount, joint, tables)
            elif joint is not None:
                yield joint


def _washers(mount: MountPoint, tables: Tables, *, oversize: bool) -> tuple[str, ...]:
    """The forms of washer to try: on what is soft a penny washer presses less, and it covers a wide hole."""
    met = {material(tables, name).family for name in (mount.material, mount.item_material)}
    return ("large",) if met == {"sheet"} and not oversize else ("large", "penny")


def _oversize_mm(mount: MountPoint, thread: MetricThread, tables: Tables) -> float:
    """How much wider the existing hole is than one that the bolt just passes; 0 within its tolerance."""
    if mount.existing_hole_mm is None:
        return 0.0
    over_mm = mount.existing_hole_mm - stack.clearance_hole_mm(tables, thread.designation)
    return over_mm if over_mm > HOLE_PLUS_MM else 0.0


def modes(mount: MountPoint, tables: Tables) -> tuple[Mode, ...]:
    """Bolt, what is round it and behind it, the item under the head."""
    around: tuple[Mode, ...] = (failure.SHEET_BEARING, failure.BACK_PULL)
    if is_board(mount, tables):
        around = (board_modes.BOLT_LATERAL, board_modes.BACK_PRESSURE)
    elif plastic_modes.is_plastic(mount, tables):
        around = plastic_modes.THROUGH
    return (
        *failure.SCREWED, *around, *through_item(mount, tables),
    )  # fmt: skip


def fit(joint: Joint, mount: MountPoint, tables: Tables) -> tuple[Check, ...]:
    """Its distance to an edge, by what it goes through."""
    checked = bolted if is_board(mount, tables) else around_hole
    covered = (_covers(joint, tables),) if joint.oversize_mm else ()
    return (*checked(joint, mount, tables), *covered)


def _covers(joint: Joint, tables: Tables) -> Check:
    """A washer that hardly covers a wide hole pulls into it; in front the item itself covers it."""
    margin, source = rule_value(tables, Rules.OVERSIZE_COVER)
    hole_mm, bears_mm = drilled(joint).diameter_mm, behind_mm(joint)
    inputs = (Input("hole", hole_mm, "mm"), Input("cover", margin, "mm"), Input("washer behind", bears_mm, "mm"))
    return at_most("washer-covers", "Washer behind covers the hole", hole_mm + 2 * margin, bears_mm, "mm", inputs,
                   "hole + 2 cover <= washer", (source, *joint.from_))  # fmt: skip


def screw_end(joint: Joint, mount: MountPoint, tables: Tables) -> ScrewEnd | None:
    """Through the nut by as many pitches as its rule says."""
    past_mm = rule(tables, Rules.PROTRUSION_PITCHES).value * screw_of(joint).pitch_mm
    return ScrewEnd(past_min_mm=past_mm)


def _joint(mount: MountPoint, thread: MetricThread, form: str, tables: Tables) -> Joint | None:
    size = thread.designation
    head = stack.head_for(tables, size, mount.visible)
    nut = stack.nut_for(tables, NUT, size)
    spread = mount.spread
    form_behind = form if spread is None or Position.NUT not in spread.places else spread.form
    behind = stack.spreader(tables, form_behind, size, Position.NUT)
    if head is None or nut is None or not behind:
        return None
    front = head_washers(mount, head, size, tables, always=True, widest=form)
    if front is None:
        return None
    washers: tuple[StackPart, ...] = (*front, *behind)
    grip_mm = mount.item_thickness_mm + limited_soft_mm(mount, tables) + mount.thickness_max_mm
    grip_mm += sum(washer.thickness_mm for washer in washers)
    least_mm = grip_mm + nut.height_max_mm + rule(tables, Rules.PROTRUSION_PITCHES).value * thread.pitch_mm
    length_mm = stack.preferred_length_mm(tables, "machine", head.standard, size, least_mm)
    if length_mm is None:
        return None
    protrusion_mm = length_mm - grip_mm - nut.height_max_mm
    screw = machine_screw(
        thread, head, length_mm, mount.grade, nut.thread_height_mm or nut.height_max_mm, protrusion_mm
    )
    over_mm = _oversize_mm(mount, thread, tables)
    medium = stack.clearance_hole_mm(tables, size) + over_mm
    thinner_mm = (
        mount.thickness_max_mm - mount.thickness_min_mm
    )  # the bolt stands out that much further in the thinnest
    done_mm = sum(washer.thickness_mm for washer in behind) + nut.height_max_mm + protrusion_mm + thinner_mm
    sources = (tables.source_id(NUTS, nut), stack.clearance_source(tables, size),
               *part_sources(tables, head, length_mm, washers))  # fmt: skip
    joint = Joint(
        method=NAME, kind=kind_of(mount, tables), layers=layers(mount, tables, washers, nut.height_max_mm),
        hole=stack.hole_with_bit(tables, medium, 0.1, HOLE_PLUS_MM, depth_mm=None, shape="round"),
        receiver=lock_nut(nut, tables), screw=screw, washers=washers, grip_mm=grip_mm, sheet_mm=mount.thickness_min_mm,
        sheet_max_mm=mount.thickness_max_mm, behind_set_mm=done_mm,
        behind_done_mm=done_mm, lock=kinds.NUT_LOCKS, from_=sources, oversize_mm=over_mm,
    )  # fmt: skip
    return with_limiter(joint, mount, tables)


def stocked(tables: Tables) -> Iterator[Stocked]:
    """Its bolt and its nut, high or thin."""
    yield from machine_screws(tables)
    yield from nuts(kinds.LOCK_NUT, tables, NUT, f"{NUT}_thin")
