"""Does a joint fit: what every joint must, and what its method needs beside that."""

from collections.abc import Iterable, Iterator
from typing import Protocol

from fasten.catalog.practice import RULES
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry.joint import head_mm, spaced_mm
from fasten.geometry.patterns import positions_mm, spacing_mm
from fasten.model import Asks, Check, Hole, Input, Joint, MountPoint, Receiver, Span
from fasten.model import known as known_of
from fasten.model.kinds import Body, Locks, Opening, Setting, Tightened
from fasten.model.known import Absent, MostTorque
from fasten.proof import ground as grounds
from fasten.proof.checks import at_most, holds, unknown, waits
from fasten.proof.fit import existing, heat, rim, water
from fasten.proof.fit import limiter as limiter_fit
from fasten.proof.opened import removals_hold
from fasten.proof.torque.limits import Turns, body_turns, locker_breaks
from fasten.record import replace
from fasten.text.rounding import up


class Fitting(Protocol):
    """What must be known of the method whose joint is to fit."""

    def fit(self, joint: Joint, mount: MountPoint, tables: Tables) -> Iterable[Check]:
        """What the joint must fit beyond what every joint must, one after the other."""


class Alike:
    """The checks that are the same for every joint of a mount point, and for every one of a method, made once."""

    def __init__(self, mount: MountPoint, tables: Tables) -> None:
        self._mount, self._tables, self._removals = mount, tables, dict[str, Check]()
        self.rim = rim.checks(mount, tables)
        self.ground = grounds.checks(mount, tables)
        self.heat = tuple(heat.checks(mount, tables))

    def removals(self, method: str) -> Check:
        """Whether a method bears the removals there."""
        if method not in self._removals:
            self._removals[method] = removals_hold(method, self._mount, self._tables)
        return self._removals[method]


def fit_checks(joint: Joint, mount: MountPoint, method: Fitting, same: Alike, tables: Tables) -> Iterator[Check]:
    """What every joint must fit, and what its method needs beside that."""
    yield from behind_checks(joint, mount, tables)
    yield from method.fit(joint, mount, tables)
    yield from other_checks(joint, mount, same, tables)


def behind_checks(joint: Joint, mount: MountPoint, tables: Tables) -> Iterator[Check]:
    """The space behind, where anything comes out there; `is_in_the_way` says whether it fails."""
    needed = _needed_behind_mm(joint)
    if needed is not None:
        yield _space_behind(joint, needed, mount, tables)


def is_in_the_way(joint: Joint, mount: MountPoint, tables: Tables) -> bool:
    """Whether it fails by the figures alone of the space behind, or of the item's hole that its head falls through."""
    needed = None if mount.behind_mm is None else _needed_behind_mm(joint)
    if needed is not None and mount.behind_mm is not None and not holds(needed, mount.behind_mm):
        return True
    return _has_head(joint) and not holds(mount.item_hole_mm + rule(tables, Rules.HEAD_COVER).value, head_mm(joint))


def cannot_be_set(joint: Joint, mount: MountPoint) -> bool:
    """Whether it fails by the space behind that setting it alone takes."""
    return mount.behind_mm is not None and _is_through(joint) and not holds(joint.behind_set_mm, mount.behind_mm)


def other_checks(joint: Joint, mount: MountPoint, same: Alike, tables: Tables) -> Iterator[Check]:
    """What every joint must fit besides."""
    receiver = joint.receiver
    yield from limiter_fit.checks(joint, mount, tables)
    yield from same.rim
    yield from water.checks(joint, mount, tables)
    yield from same.ground
    yield from same.heat
    yield from existing.checks(joint, mount, tables)
    if _has_head(joint):
        yield _head_cover(joint, mount, tables)
    if joint.hole is not None:
        yield _hole_holds(joint.hole, joint.from_)
    yield same.removals(joint.method)
    if mount.fixings > 1 and joint.patch is None:
        yield _spacing(joint, mount, tables)
    if receiver is not None:
        if isinstance(receiver.grip, Span):
            yield from _grip(joint, receiver.grip)
        yield from filter(None, (
            _of_its_box(joint, receiver), _covered(joint, mount, receiver, tables),
            _held_in_its_hole(joint, receiver, mount, tables),
        ))  # fmt: skip


def _needed_behind_mm(joint: Joint) -> float | None:
    """None for a hole that does not come through: nothing comes out behind."""
    return max(joint.behind_set_mm, joint.behind_done_mm) if _is_through(joint) else None


def _is_through(joint: Joint) -> bool:
    return joint.hole is not None and joint.hole.depth_mm is None


def _space_behind(joint: Joint, needed: float, mount: MountPoint, tables: Tables) -> Check:
    title, formula = "Space behind", "the larger of both needed <= space behind"
    reach = rule(tables, Rules.MANDREL_REACH if joint.receiver is not None else Rules.DRILL_STOP_PAST_SHEET)
    rules = () if _snaps_in(joint) else (tables.source_id(RULES, reach),)
    sources = tuple(dict.fromkeys((*joint.from_, *rules)))
    inputs: tuple[Input, ...] = (
        Input("needed to set", joint.behind_set_mm, "mm"), Input("needed when done", joint.behind_done_mm, "mm"),
    )  # fmt: skip
    if mount.behind_mm is None:
        needs = f"needs {up(needed)} behind"
        return unknown("space-behind", title, needed, needs, inputs, formula, sources, Asks.BEHIND)
    inputs = (*inputs, Input("space behind", mount.behind_mm, "mm"))
    return at_most("space-behind", title, needed, mount.behind_mm, "mm", inputs, formula, sources)


def _snaps_in(joint: Joint) -> bool:
    """Whether a part is pressed in by hand, with nothing of a tool behind."""
    return joint.receiver is not None and joint.receiver.kind.setting is Setting.BY_HAND


def _has_head(joint: Joint) -> bool:
    return joint.screw is not None or joint.receiver is not None


def _head_cover(joint: Joint, mount: MountPoint, tables: Tables) -> Check:
    """A head or washer no wider than the item's hole falls through it, whatever the formulas of strength say."""
    margin, bears = rule(tables, Rules.HEAD_COVER), head_mm(joint)
    inputs = (
        Input("item hole", mount.item_hole_mm, "mm"), Input("margin", margin.value, "mm"),
        Input("diameter on the item", bears, "mm"),
    )  # fmt: skip
    sources = (tables.source_id(RULES, margin), *joint.from_)
    wanted = mount.item_hole_mm + margin.value
    return at_most("head-cover", "Head or washer covers the item's hole", wanted, bears, "mm", inputs,
                   "hole + margin <= diameter on the item", sources)  # fmt: skip


def _spacing(joint: Joint, mount: MountPoint, tables: Tables) -> Check:
    bearing, share = spaced_mm(joint), rule(tables, Rules.SPACING)
    actual = spacing_mm(positions_mm(mount.pattern, mount.fixings))
    inputs = (Input("ratio", share.value, "-"), Input("diameter", bearing, "mm"), Input("spacing", actual, "mm"))
    sources = (tables.source_id(RULES, share), *joint.from_)
    formula = "ratio x diameter <= spacing"
    return at_most("spacing", "Spacing of the fixings", share.value * bearing, actual, "mm", inputs, formula, sources)


def _hole_holds(hole: Hole, from_: tuple[str, ...]) -> Check:
    """The bit against the tolerance on the side where it errs; outside it, the hole is reamed and tried."""
    bit = hole.bit
    over = bit.deviation_mm >= 0
    allowed = hole.tolerance_mm.plus if over else hole.tolerance_mm.minus
    inputs = (Input("hole", hole.diameter_mm, "mm"), Input("bit", bit.diameter_mm, "mm"),
              Input("may be over" if over else "may be under", allowed, "mm"))  # fmt: skip
    title = "Bit within the hole's tolerance"
    formula = "bit - hole <= over" if over else "hole - bit <= under"
    off = bit.deviation_mm if over else -bit.deviation_mm
    if not bit.holds:
        needs = "needs drilling under and reaming until the body just enters"
        return replace(unknown("hole", title, off, needs, inputs, formula, from_), allowable=allowed)
    return at_most("hole", title, off, allowed, "mm", inputs, formula, from_)


def _grip(joint: Joint, span: Span) -> tuple[Check, ...]:
    """The gripped thickness inside the range of the receiver, at both ends of what the sheet may measure."""
    thinnest = joint.grip_mm - (joint.sheet_max_mm - joint.sheet_mm)
    least, most = Input("least grip", span.min, "mm"), Input("greatest grip", span.max, "mm")
    thin, thick = Input("gripped at least", thinnest, "mm"), Input("gripped at most", joint.grip_mm, "mm")
    return (
        at_most("grip-min", "Grip not below its range", span.min, thinnest, "mm", (least, thin),
                "least grip <= gripped", joint.from_),
        at_most("grip-max", "Grip not above its range", joint.grip_mm, span.max, "mm", (thick, most),
                "gripped <= greatest grip", joint.from_),
    )  # fmt: skip


def _covered(joint: Joint, mount: MountPoint, receiver: Receiver, tables: Tables) -> Check | None:
    """An opening wider than flange or insert lets the screw pull it out; a rigid washer or a limiter narrows it."""
    opening = receiver.kind.opening
    if opening is Opening.NONE:
        return None
    what, known = ("flange", receiver.flange) if opening is Opening.FLANGE else ("insert", receiver.body)
    title, formula = f"{what.capitalize()} wider than the opening over it", f"opening + margin <= {what}"
    if isinstance(known, Absent):
        return waits("jacking-out", title, "mm", None, f"needs the width of its {what}", (), formula, joint.from_)
    wide = known.outside_mm if isinstance(known, known_of.Body) else known.across_mm
    margin, over = rule(tables, Rules.JACKING_OUT_MARGIN), limiter_fit.opening_over_mm(joint, mount)
    inputs = (
        Input(f"opening over the {what}", over, "mm"),
        Input(what, wide, "mm"),
        Input("margin", margin.value, "mm"),
    )
    return at_most("jacking-out", title, over + margin.value, wide, "mm", inputs, formula,
                   (tables.source_id(RULES, margin), *joint.from_))  # fmt: skip


def _of_its_box(joint: Joint, receiver: Receiver) -> Check | None:
    """What no table gives of this part: its torque stays open until its box is read."""
    if receiver.kind.tightened is not Tightened.BOX or isinstance(receiver.box_torque, MostTorque):
        return None
    return waits("rated-torque", "Torque it takes", "N·m", None, "needs the torque its box gives", (),
                 "value of its box", joint.from_)  # fmt: skip


def _held_in_its_hole(joint: Joint, receiver: Receiver, mount: MountPoint, tables: Tables) -> Check | None:
    """A body that can turn: by which torque must be known, and a locker must break before it."""
    if receiver.kind.body is Body.HELD:
        return None
    turns = body_turns(joint, mount, tables)
    if turns is None:
        return waits("spin-out", "Torque that turns the body", "N·m", None, "needs the torque that turns it", (),
                     "value of its table", joint.from_)  # fmt: skip
    return _lock_below_spin_out(joint, turns, tables) if joint.lock.how is Locks.LOCKER else None


def _lock_below_spin_out(joint: Joint, turns: Turns, tables: Tables) -> Check:
    breakaway, inputs, from_ = locker_breaks(joint, tables)
    share = rule(tables, Rules.SPIN_OUT_SHARE)
    given = (*inputs, *turns.inputs, Input("share", share.value, "-"))
    sources = (*from_, tables.source_id(RULES, share), *joint.from_, *turns.from_)
    return at_most("lock-breakaway", "Locker breaks before the body turns", breakaway, share.value * turns.torque_nm,
                   "N·m", given, f"breakaway(M10) x (d/10)^3 <= share x {turns.formula}", sources)  # fmt: skip
