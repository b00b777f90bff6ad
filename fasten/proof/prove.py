"""prove(joint, ...): the one place where a joint becomes a proposal or a refusal, the same for every method."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from math import inf
from typing import Protocol

from fasten.catalog.parts import LOCKS
from fasten.catalog.practice import METHOD_WORDS, REMOVALS, RULES
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
from fasten.model.known import Absent, MostTorque, SpinOut
from fasten.proof import bounds, panel, spacer
from fasten.proof import ground as grounds
from fasten.proof.checks import at_most, unknown, waits
from fasten.proof.fit import existing, heat, rim, water
from fasten.proof.fit import limiter as limiter_fit
from fasten.proof.modes.faces import last_resort
from fasten.proof.modes.mode import Mode
from fasten.proof.strength import exemptions, strength_checks
from fasten.proof.torque.limits import SPIN_OUT, Limit, held_spin_out_nm, locker_breaks, spin_out_inputs
from fasten.proof.torque.tightening import Limits, Torqued, Window, bears_shear
from fasten.text.rounding import up

# Where these fail, no strength can be calculated.
DECIDES_ALONE = {"edge-distance", "head-cover", "board-behind", "barrel", "edge-screw", "insert-wall"}


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
    """Check one joint in every way that applies; the first check that fails refuses it with its figures.

    What fails by a figure that is known at least may hold by what is really there: it is not checked yet.
    """
    found = _proved(joint, mount, method, demands, tables)
    if isinstance(found, Proposal):
        return bounds.with_both(found, mount)
    opened = (_proved(joint, other, method, demands, tables) for other in bounds.opened(mount))
    waiting = next((other for other in opened if isinstance(other, Proposal)), None)
    return found if waiting is None else bounds.with_both(waiting, mount)


def _proved(
    joint: Joint, mount: MountPoint, method: Proved, demands: tuple[Demand, ...], tables: Tables
) -> Proposal | Refusal:
    no_ground = grounds.not_grounded(joint, mount, method, tables)
    if no_ground is not None:
        return no_ground
    if joint.kind is JointKind.LOCATED and joint.screw is not None and joint.lock.how is Locks.NOTHING:
        return Refusal(joint.method, "nothing here stops a screw without clamp load from working loose", ())
    fits = _fit_checks(joint, mount, method, tables)
    decisive = [check for check in fits if check.status is Status.FAILS and check.id in DECIDES_ALONE]
    if decisive:
        return _refusal(joint, decisive)
    tightened = method.torque(joint, mount, demands, method.limits, tables)
    torque_window = tightened if isinstance(tightened, Window) else None
    modes = method.modes(mount, tables)
    pulled = spacer.tipped(joint, mount, demands, torque_window, tables)
    checks = (
        *fits,
        *strength_checks(joint, mount, modes, method.EXEMPT, pulled, tables),
        *spacer.checks(joint, mount, demands, torque_window, tables),
        *(_torque_checks(joint, torque_window, tables) if torque_window else ()),
        *panel.checks(joint, mount, pulled, tables),
    )
    failed = [check for check in checks if check.status is Status.FAILS]
    if failed:
        return _refusal(joint, failed)
    proven = all(check.status is Status.HOLDS for check in checks)
    torque = torque_window.torque() if torque_window else None
    exempt = exemptions(joint, modes, method.EXEMPT)
    return Proposal(
        joint.method, joint, proven, checks, torque, removals(joint, mount, tables), exempt,
        last_resort=last_resort(joint, mount, tables), ground=grounds.ground_joint(mount, tables),
    )  # fmt: skip


def fits(joint: Joint, mount: MountPoint, method: Proved, tables: Tables) -> bool:
    """Whether no check of fit fails; a quick look before a whole proof."""
    return all(check.status is not Status.FAILS for check in _fit_checks(joint, mount, method, tables))


def removals(joint: Joint, mount: MountPoint, tables: Tables) -> Removals:
    """How often the item comes off in ten years against what the method bears, and what is renewed meanwhile."""
    wanted = tables.need(REMOVALS, mount.removed.value)
    words = tables.need(METHOD_WORDS, joint.method)
    lock = tables.find(LOCKS, joint.lock.key)
    all_of_it = [(words.replace, words.renews, words.replace_every)]
    if lock is not None:
        all_of_it.append((joint.lock.name, lock.renews, lock.renew_every))
    renewed = [entry for entry in all_of_it if 0 < entry[2] < wanted.count]
    replaced = tuple(f"{what} at {_each(often)}" for what, _, often in renewed)
    return Removals(wanted.count, words.rated, replaced, tuple(key for _, keys, _ in renewed for key in keys))


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
    return Refusal(joint.method, because, figures, check=worst.id, fails=len(failed), cure=cure)


# -- does it fit ------------------------------------------------------------------------------------------------------


def _fit_checks(joint: Joint, mount: MountPoint, method: Proved, tables: Tables) -> tuple[Check, ...]:
    """What every joint must fit, and what its method needs beside that."""
    receiver = joint.receiver
    found: list[Check | None] = [
        _space_behind(joint, mount, tables),
        *method.fit(joint, mount, tables),
        *limiter_fit.checks(joint, mount, tables),
        *rim.checks(mount, tables),
        *water.checks(joint, mount, tables),
        *grounds.checks(mount, tables),
        *heat.checks(mount, tables),
        *existing.checks(joint, mount, tables),
        None if joint.screw is None and receiver is None else _head_cover(joint, mount, tables),
        None if joint.hole is None else _hole_holds(joint.hole, joint.from_),
        _removals_hold(joint, mount, tables),
    ]
    if mount.fixings > 1 and joint.patch is None:
        found.append(_spacing(joint, mount, tables))
    if receiver is not None and isinstance(receiver.grip, Span):
        found.extend(_grip(joint, receiver.grip))
    if receiver is not None:
        found += [
            _of_its_box(joint, receiver), _covered(joint, mount, receiver, tables),
            _held_in_its_hole(joint, receiver, tables),
        ]  # fmt: skip
    return tuple(check for check in found if check is not None)


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


def _removals_hold(joint: Joint, mount: MountPoint, tables: Tables) -> Check:
    words = tables.need(METHOD_WORDS, joint.method)
    count = removals(joint, mount, tables)
    inputs = (Input("removals in ten years", count.wanted, "-"), Input("rated", count.rated, "-"))
    wanted = tables.need(REMOVALS, mount.removed.value)
    sources = (tables.source_id(METHOD_WORDS, words), tables.source_id(REMOVALS, wanted))
    return at_most(
        "removals", "Removals in ten years", count.wanted, count.rated, "-", inputs, "wanted <= rated", sources
    )


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


def _held_in_its_hole(joint: Joint, receiver: Receiver, tables: Tables) -> Check | None:
    """A body that can turn: by which torque must be known, and a locker must break before it."""
    if receiver.kind.body is Body.HELD:
        return None
    if not isinstance(receiver.spin_out, SpinOut):
        return waits("spin-out", "Torque that turns the body", "N·m", None, "needs the torque that turns it", (),
                     "value of its table", joint.from_)  # fmt: skip
    return _lock_below_spin_out(joint, receiver.spin_out, tables) if joint.lock.how is Locks.LOCKER else None


def _lock_below_spin_out(joint: Joint, tested: SpinOut, tables: Tables) -> Check:
    breakaway, inputs, from_ = locker_breaks(joint, tables)
    share = rule(tables, Rules.SPIN_OUT_SHARE)
    given = (*inputs, *spin_out_inputs(tested, joint), Input("share", share.value, "-"))
    sources = (*from_, tables.source_id(RULES, share), *joint.from_)
    return at_most("lock-breakaway", "Locker breaks before the body turns", breakaway,
                   share.value * held_spin_out_nm(tested, joint), "N·m", given,
                   f"breakaway(M10) x (d/10)^3 <= share x {SPIN_OUT}", sources)  # fmt: skip


# -- how tight --------------------------------------------------------------------------------------------------------


def _torque_checks(joint: Joint, found: Window, tables: Tables) -> tuple[Check, ...]:
    error = Input("tool error", found.error.value, "-")
    inputs = tuple(dict.fromkeys((*found.inputs, *found.upper.inputs, error)))
    forces = "separation x T" if bears_shear(joint) else "(separation x T + slip x V / friction)"
    lower = found.lower_formula or f"K d {forces} / ((1 - scatter) kept)"
    sources = tuple(dict.fromkeys((*found.from_, *found.upper.from_, tables.source_id(RULES, found.error))))
    formula = f"{lower} <= ({found.upper.formula}) (1 - tool error) / (1 + tool error)"
    check = at_most("torque-window", f"Torque window, limited by {found.upper.name}", found.lower_nm, found.surely_nm,
                    "N·m", inputs, formula, sources)  # fmt: skip
    return (check,)
