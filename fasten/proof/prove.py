"""prove(joint, ...): the one place where a joint becomes a proposal or a refusal, the same for every method."""

from collections.abc import Callable, Iterable, Iterator, Mapping
from functools import lru_cache
from math import inf
from typing import Protocol

from fasten.catalog.opened import times_of
from fasten.catalog.parts import LOCKS
from fasten.catalog.practice import METHOD_WORDS, RULES
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.geometry.joint import head_mm, spaced_mm
from fasten.geometry.patterns import positions_mm, spacing_mm
from fasten.model import (
    Asks,
    Check,
    Cure,
    Demand,
    Figure,
    Hole,
    Input,
    Joint,
    JointKind,
    MoreBehind,
    MountPoint,
    OnFrame,
    Proposal,
    Receiver,
    Refusal,
    Removals,
    Span,
    Status,
    Subject,
    ThickerBoard,
)
from fasten.model import known as known_of
from fasten.model.kinds import Body, Locks, Opening, Setting, Tightened
from fasten.model.known import Absent, MostTorque
from fasten.proof import bounds, panel, spacer
from fasten.proof import ground as grounds
from fasten.proof.checks import at_most, unknown, waits
from fasten.proof.fit import existing, heat, rim, water
from fasten.proof.fit import limiter as limiter_fit
from fasten.proof.modes.faces import last_resort
from fasten.proof.modes.mode import Mode
from fasten.proof.opened import removals_hold
from fasten.proof.strength import Found, each_capacity, exemptions, overloaded, peaks, strength_checks
from fasten.proof.torque import forming, tightening
from fasten.proof.torque.limits import Limit, Turns, body_turns, locker_breaks
from fasten.proof.torque.tightening import Limits, Torqued, Window
from fasten.record import replace
from fasten.text.rounding import up

# Where these fail, no strength can be calculated.
DECIDES_ALONE = {"edge-distance", "head-cover", "board-behind", "barrel", "edge-screw", "insert-wall", "washer-covers"}


class Proved(grounds.Grounding, Protocol):
    """What a proof needs of the method whose joint it checks."""

    EXEMPT: Mapping[Subject, str]

    def modes(self, mount: MountPoint, tables: Tables) -> tuple[Mode, ...]:
        """The failure modes that may apply."""

    def fit(self, joint: Joint, mount: MountPoint, tables: Tables) -> tuple[Check, ...]:
        """What the joint must fit beyond what every joint must."""

    def limits(self, joint: Joint, mount: MountPoint, nut_factor: float, tables: Tables) -> tuple[Limit, ...]:
        """What caps the torque beyond what caps every torque."""

    def torque(
        self, joint: Joint, mount: MountPoint, demands: tuple[Demand, ...], limits: Limits, tables: Tables
    ) -> Torqued:
        """How it is tightened: a window, by feel, or not at all."""


# What these need, where there is too little of it.
CURES: Mapping[str, Callable[[float], Cure]] = {
    "space-behind": MoreBehind, "board-behind": ThickerBoard, "barrel": ThickerBoard,
}  # fmt: skip


def prove(
    joint: Joint, mount: MountPoint, method: Proved, demands: tuple[Demand, ...], tables: Tables
) -> Proposal | Refusal:
    """Check one joint in every way that applies; what fails refuses it with its figures.

    What fails by a figure that is known at least may hold by what is really there: it is not checked yet.
    """
    found = prove_within(inf, joint, mount, method, demands, tables)
    assert found is not None, "any number of checks may fail"
    return found


def prove_within(
    most: float, joint: Joint, mount: MountPoint, method: Proved, demands: tuple[Demand, ...], tables: Tables
) -> Proposal | Refusal | None:
    """What `prove` says of a joint; None as soon as more than `most` of its checks fail, without looking at the rest.

    What costs little and fails often is looked at first, whatever comes first in the proof.
    """
    found = _within(most, joint, mount, method, demands, tables)
    if isinstance(found, Proposal):
        return bounds.with_both(found, mount)
    opened = (_within(0, joint, other, method, demands, tables) for other in bounds.opened(mount))
    waiting = next((other for other in opened if isinstance(other, Proposal)), None)
    return found if waiting is None else bounds.with_both(waiting, mount)


def _within(
    most: float, joint: Joint, mount: MountPoint, method: Proved, demands: tuple[Demand, ...], tables: Tables
) -> Proposal | Refusal | None:
    refused = grounds.not_grounded(joint, mount, method, tables) or _loose(joint)
    if refused is not None:
        return _counted(refused, most)
    fits = _until(_fit_checks(joint, mount, method, tables), 0 if most < 1 else inf)
    decisive = [check for check in _failed(fits) if check.id in DECIDES_ALONE]
    if decisive:
        return _counted(_refusal(joint, decisive), most)
    return None if len(_failed(fits)) > most else _loaded(most, fits, joint, mount, method, demands, tables)


def _loaded(
    most: float, fits: tuple[Check, ...], joint: Joint, mount: MountPoint, method: Proved,
    demands: tuple[Demand, ...], tables: Tables,
) -> Proposal | Refusal | None:  # fmt: skip
    """The proof of a joint that fits: how tight it may be, the panel under it, and its strength.

    Where none may fail, the figures of its strength are looked at first; what a spacer adds only adds to the load.
    """
    modes = method.modes(mount, tables)
    found, loads = list[Found](), peaks(demands) if most < 1 else ()
    for one in each_capacity(joint, mount, modes, tables):
        if overloaded(one, loads, tables):
            return None
        found.append(one)
    tightened = forming.with_own(method.torque(joint, mount, demands, method.limits, tables), joint, mount, tables)
    window = tightened if isinstance(tightened, Window) else None
    if most < 1 and window is not None and not window.holds:
        return None
    tight = () if window is None else tightening.checks(joint, window, tables)
    if len(_failed((*fits, *tight))) > most:
        return None
    pulled = spacer.tipped(joint, mount, demands, window, tables)
    others = (
        *spacer.checks(joint, mount, demands, window, tables), *tight, *panel.checks(joint, mount, pulled, tables),
    )  # fmt: skip
    if len(_failed((*fits, *others))) > most:
        return None
    strength = strength_checks(joint, modes, found, method.EXEMPT, pulled, tables)
    checks = (*fits, *_until(strength, most - len(_failed((*fits, *others)))), *others)
    failed = _failed(checks)
    if failed:
        return _counted(_refusal(joint, failed), most)
    proven = all(check.status is Status.HOLDS for check in checks)
    return replace(
        unproved(joint, mount, tables), proven=proven, checks=checks, torque=window.torque() if window else None,
        exempt=exemptions(joint, modes, method.EXEMPT), ground=grounds.ground_joint(mount, tables),
    )  # fmt: skip


def unproved(joint: Joint, mount: MountPoint, tables: Tables) -> Proposal:
    """What is known of a joint before its proof: nothing that is found out by one makes it rank before that."""
    return Proposal(
        joint.method, joint, proven=False, checks=water.checks(joint, mount, tables), torque=None,
        removals=removals(joint, mount, tables), exempt=(), last_resort=last_resort(joint, mount, tables), ground=None,
    )  # fmt: skip


def fails_whatever_joint(mount: MountPoint, method: Proved, tables: Tables) -> bool:
    """Whether a check fails that is the same for every joint of a method: its removals, or how the panel sways."""
    panel_fails = not isinstance(mount.support, OnFrame) and panel.stiffness(mount, tables).status is Status.FAILS
    return panel_fails or removals_hold(method.NAME, mount, tables).status is Status.FAILS


def fits(joint: Joint, mount: MountPoint, method: Proved, tables: Tables) -> bool:
    """Whether no check of fit fails; a quick look before a whole proof."""
    return all(check.status is not Status.FAILS for check in _fit_checks(joint, mount, method, tables))


def _loose(joint: Joint) -> Refusal | None:
    if joint.kind is JointKind.LOCATED and joint.screw is not None and joint.lock.how is Locks.NOTHING:
        return Refusal(joint.method, "nothing here stops a screw without clamp load from working loose", ())
    return None


def _counted(refused: Refusal, most: float) -> Refusal | None:
    return refused if refused.fails <= most else None


def _failed(checks: Iterable[Check]) -> list[Check]:
    return [check for check in checks if check.status is Status.FAILS]


def _until(checks: Iterable[Check], most: float) -> tuple[Check, ...]:
    """The checks up to the one with which more than `most` fail."""
    found, failed = list[Check](), 0
    for check in checks:
        found.append(check)
        failed += check.status is Status.FAILS
        if failed > most:
            break
    return tuple(found)


def removals(joint: Joint, mount: MountPoint, tables: Tables) -> Removals:
    """How often the item comes off in ten years against what the method bears, and what is renewed meanwhile."""
    return _removals(tables, joint.method, joint.lock.key, joint.lock.name, times_of(mount, tables).once)


@lru_cache(maxsize=256)
def _removals(tables: Tables, method: str, lock_key: str, lock_name: str, wanted: int) -> Removals:
    words = tables.need(METHOD_WORDS, method)
    lock = tables.find(LOCKS, lock_key)
    all_of_it = [(words.replace, words.renews, words.replace_every)]
    if lock is not None:
        all_of_it.append((lock_name, lock.renews, lock.renew_every))
    renewed = [entry for entry in all_of_it if 0 < entry[2] < wanted]
    replaced = tuple(f"{what} at {_each(often)}" for what, _, often in renewed)
    return Removals(wanted, words.rated, replaced, tuple(key for _, keys, _ in renewed for key in keys))


def _each(often: int) -> str:
    return "each removal" if often == 1 else f"every {often} removals"


def _refusal(joint: Joint, failed: list[Check]) -> Refusal:
    """The worst failed check with its figures; what else fails is named beside it, loads before torque."""
    ordered = sorted(failed, key=lambda check: (check.id == "torque-window", -(check.utilisation or inf), check.id))
    worst = ordered[0]
    case = f" ({worst.load_case})" if worst.load_case else ""
    thread = f"{joint.screw.thread}: " if joint.screw else ""
    others = "; ".join(check.title[0].lower() + check.title[1:] for check in ordered[1:3])
    because = f"{thread}{worst.title[0].lower()}{worst.title[1:]}{case}{'; also ' if others else ''}{others}"
    both = (("demand", worst.demand), ("capacity", worst.allowable))
    figures = tuple(Figure(name, value, worst.unit) for name, value in both if value is not None)
    cure = CURES[worst.id](worst.demand) if worst.id in CURES and worst.demand is not None else None
    return Refusal(
        joint.method, because, figures, check=worst.id, fails=len(failed), cure=cure, joint=joint, failed=worst,
    )  # fmt: skip


# -- does it fit ------------------------------------------------------------------------------------------------------


def _fit_checks(joint: Joint, mount: MountPoint, method: Proved, tables: Tables) -> Iterator[Check]:
    """What every joint must fit, and what its method needs beside that."""
    return filter(None, _every_fit_check(joint, mount, method, tables))


def _every_fit_check(joint: Joint, mount: MountPoint, method: Proved, tables: Tables) -> Iterator[Check | None]:
    """The same, and None for what a joint has not."""
    receiver = joint.receiver
    yield _space_behind(joint, mount, tables)
    yield from method.fit(joint, mount, tables)
    yield from limiter_fit.checks(joint, mount, tables)
    yield from rim.checks(mount, tables)
    yield from water.checks(joint, mount, tables)
    yield from grounds.checks(mount, tables)
    yield from heat.checks(mount, tables)
    yield from existing.checks(joint, mount, tables)
    if joint.screw is not None or receiver is not None:
        yield _head_cover(joint, mount, tables)
    if joint.hole is not None:
        yield _hole_holds(joint.hole, joint.from_)
    yield removals_hold(joint.method, mount, tables)
    if mount.fixings > 1 and joint.patch is None:
        yield _spacing(joint, mount, tables)
    if receiver is not None:
        if isinstance(receiver.grip, Span):
            yield from _grip(joint, receiver.grip)
        yield _of_its_box(joint, receiver)
        yield _covered(joint, mount, receiver, tables)
        yield _held_in_its_hole(joint, receiver, mount, tables)


def _space_behind(joint: Joint, mount: MountPoint, tables: Tables) -> Check | None:
    """None for a hole that does not come through: nothing comes out behind."""
    if joint.hole is None or joint.hole.depth_mm is not None:
        return None
    needed = max(joint.behind_set_mm, joint.behind_done_mm)
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
