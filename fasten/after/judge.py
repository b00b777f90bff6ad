"""What was built gets a verdict: the joint proved again with what was measured, beside what was planned."""

from fasten.after.measured import Measured
from fasten.after.verdict import Less, Verdict
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.mechanics.grounding import drop_at_full_mv
from fasten.model import Check, Figure, Joint, MountPoint, Proposal, Refusal, Status, Torque
from fasten.model.kinds import Body
from fasten.model.known import MostTorque
from fasten.proof.torque.limits import body_turns
from fasten.record import record
from fasten.text.figures import mm
from fasten.text.rounding import rounded_down, rounded_up, torque_digits
from fasten.text.units import number

WINDOW = "torque-window"
_SHARE = "share"
_LEAST_LOSS = 1e-9


@record
class Judged:
    """The verdict with its reasons: what it `needs`, what to `do`, what is `less` than planned, and the figures.

    `proved` is the joint as it was built, or why it does not do.
    """

    verdict: Verdict
    needs: tuple[str, ...]
    do: tuple[str, ...]
    less: tuple[Less, ...]
    figures: tuple[Figure, ...]
    planned: Proposal
    proved: Proposal | Refusal


@record
class Found:
    """What one look at a record finds."""

    needs: tuple[str, ...] = ()
    do: tuple[str, ...] = ()
    figures: tuple[Figure, ...] = ()


def judge(
    planned: Proposal, proved: Proposal | Refusal, measured: Measured, point: MountPoint, tables: Tables
) -> Judged:  # fmt: skip
    """The verdict on a joint as it was built, by its proof with what was measured."""
    if isinstance(proved, Refusal):
        return _judged(planned, proved, (_refused(proved),), ())
    found = (
        _open(proved), _hole(proved, measured, tables), _torque(proved, measured, point, tables),
        _ground(proved, measured),
    )  # fmt: skip
    return _judged(planned, proved, found, less_than(planned, proved, tables))


def less_than(planned: Proposal, built: Proposal, tables: Tables) -> tuple[Less, ...]:
    """The capacities that are used more than planned, and the torque limit where it is lower; fit is none."""
    more, lower = rule(tables, Rules.BUILT_LESS_UTILISATION).value, rule(tables, Rules.BUILT_LESS_TORQUE).value
    before = {check.id: check for check in planned.checks if _is_capacity(check)}
    found = [
        Less(check.id, was.utilisation, check.utilisation, "-", f"{check.title} ({check.load_case})")
        for check in built.checks
        if (was := before.get(check.id)) is not None and was.utilisation is not None
        and check.utilisation is not None and check.utilisation - was.utilisation > more + _LEAST_LOSS
    ]  # fmt: skip
    if planned.torque is not None and built.torque is not None:
        was_nm, is_nm = planned.torque.max_nm, built.torque.max_nm
        if is_nm < was_nm * (1 - lower) - _LEAST_LOSS:
            found.append(Less(built.torque.limited_by, was_nm, is_nm, "N·m", f"Torque: {built.torque.limited_by}"))
    return tuple(found)


def _judged(planned: Proposal, proved: Proposal | Refusal, found: tuple[Found, ...], less: tuple[Less, ...]) -> Judged:
    needs = tuple(dict.fromkeys(need for one in found for need in one.needs))
    do = tuple(dict.fromkeys(what for one in found for what in one.do))
    figures = tuple(figure for one in found for figure in one.figures)
    return Judged(_worst(needs, do, less), needs, do, less, figures, planned, proved)


def _worst(needs: tuple[str, ...], do: tuple[str, ...], less: tuple[Less, ...]) -> Verdict:
    if do:
        return Verdict.FAILS
    if needs:
        return Verdict.OPEN
    return Verdict.LESS if less else Verdict.HOLDS


def _is_capacity(check: Check) -> bool:
    """Whether a check is of a capacity under a load, and not a limit of fit."""
    return check.load_case is not None


def _refused(proved: Refusal) -> Found:
    return Found(do=(proved.because,), figures=proved.figures)


def _open(proved: Proposal) -> Found:
    """What the proof itself leaves open."""
    waiting = [check for check in proved.checks if check.status is not Status.HOLDS]
    needs = tuple(dict.fromkeys((check.needs or f"{check.title}, which is marginal").removeprefix("needs ")
                                for check in waiting))  # fmt: skip
    return Found(needs=needs)


# -- the hole ---------------------------------------------------------------------------------------------------------


def inside_mm(joint: Joint, tables: Tables) -> tuple[float, float]:
    """The least and the greatest hole that count as inside: its tolerance, and what a calliper is off by."""
    if joint.hole is None:
        return 0.0, 0.0
    off_mm, hole = rule(tables, Rules.BUILT_CALLIPER).value, joint.hole
    return hole.diameter_mm - hole.tolerance_mm.minus - off_mm, hole.diameter_mm + hole.tolerance_mm.plus + off_mm


def has_body(joint: Joint) -> bool:
    """Whether the hole is that of a body which turns in it where it is too wide."""
    return joint.receiver is not None and joint.receiver.kind.body is Body.TURNS


def _hole(proved: Proposal, measured: Measured, tables: Tables) -> Found:
    hole = proved.joint.hole
    if hole is None or not measured.hole_mm:
        return Found()
    least_mm, most_mm = inside_mm(proved.joint, tables)
    figures = (Figure("hole", max(measured.hole_mm), "mm"), Figure("hole at most", most_mm, "mm"))
    small = [size for size in measured.hole_mm if size < least_mm - _LEAST_LOSS]
    wide = [size for size in measured.hole_mm if size > most_mm + _LEAST_LOSS]
    again = _again(hole.diameter_mm, small)
    if not wide or not has_body(proved.joint):
        # A wider hole that no body fills was proved as an existing one.
        return Found(needs=again, figures=figures)
    over_mm = rule(tables, Rules.BUILT_BODY_OVER).value
    if max(wide) > hole.diameter_mm + over_mm + _LEAST_LOSS:
        do = f"its hole of {mm(max(wide))} is over {mm(hole.diameter_mm + over_mm)}: repair it as an oversize hole"
        return Found(again, (do,), figures)
    return Found((*again, *_held(proved, measured, tables)), (), figures)


def _again(needed_mm: float, small: list[float]) -> tuple[str, ...]:
    """Nothing goes into a hole that is too small, so that the reading is wrong."""
    return (f"the hole measured again: {mm(needed_mm)} is needed, and {mm(min(small))} is under it",) if small else ()


def _held(proved: Proposal, measured: Measured, tables: Tables) -> tuple[str, ...]:
    """What each body must have been held at, where its hole is wide; nothing where each was."""
    if proved.torque is None:
        return ("a test of each body in its wide hole",)
    wanted_nm = rule(tables, Rules.BUILT_HELD).value * proved.torque.target_nm
    held = measured.held_nm
    if len(held) == len(measured.hole_mm):  # of these, only those in a wide hole must have been held
        wide_mm = inside_mm(proved.joint, tables)[1]
        held = tuple(nm for nm, mm in zip(held, measured.hole_mm, strict=True) if mm > wide_mm + _LEAST_LOSS)
    if held and min(held) >= wanted_nm - _LEAST_LOSS:
        return ()
    return (f"each nut held at {number(wanted_nm, 2)} N·m without turning",)


# -- how tight --------------------------------------------------------------------------------------------------------


def _torque(proved: Proposal, measured: Measured, point: MountPoint, tables: Tables) -> Found:
    torque = proved.torque
    if torque is None:
        return Found()
    target = f"{rounded_down(torque.target_nm, torque_digits(torque))} N·m"
    figures = (Figure("torque at least", torque.min_nm, "N·m"), Figure("torque at most", torque.max_nm, "N·m"))
    if not measured.torque_nm:
        return Found((f"the torque it was tightened to: {target} is wanted",), (), figures)
    receiver = proved.joint.receiver
    running_nm = receiver.prevailing.torque_nm if receiver and isinstance(receiver.prevailing, MostTorque) else 0.0
    if running_nm and not measured.turning_nm:
        return Found(*_unknown_clamp(torque, measured, running_nm), figures)
    least_nm = min(measured.torque_nm) - max(measured.turning_nm, default=0.0)
    # Only what a nut takes to turn by itself is no load on what limits the torque; of the clamp all of it is missing.
    most_nm = max(measured.torque_nm) - (min(measured.turning_nm) if running_nm else 0.0)
    clamps = [read - (min(measured.turning_nm) if running_nm else 0.0) for read in measured.torque_nm]
    if running_nm and len(measured.torque_nm) == len(measured.turning_nm):
        clamps = [read - turns for read, turns in zip(measured.torque_nm, measured.turning_nm, strict=True)]
        least_nm, most_nm = min(clamps), max(clamps)
    if most_nm > torque.max_nm + _LEAST_LOSS:
        over = _at(measured, tuple(nm > torque.max_nm + _LEAST_LOSS for nm in clamps))
        do = _too_tight(torque, most_nm, target, _breaks_nm(proved, torque, point, tables))
        return Found((), (f"{over}{do}",), figures)
    if least_nm < torque.min_nm - _LEAST_LOSS:
        turns = " past what turns the nut" if running_nm else ""
        return Found((), (f"tighten it to {target}{turns}: {number(least_nm, 2)} N·m clamps too little",), figures)
    return Found((), (), figures)


def _at(measured: Measured, is_out: tuple[bool, ...]) -> str:
    """Which of several fixings it is of, before what is said; nothing where one figure is of all of them."""
    if len(is_out) < 2:
        return ""
    numbers = [str(number) for number, out in zip(measured.at or range(1, len(is_out) + 1), is_out, strict=True) if out]
    *first, last = numbers
    return f"fixings {', '.join(first)} and {last}: up to " if first else f"fixing {last}: "


def _unknown_clamp(torque: Torque, measured: Measured, running_nm: float) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Without what turns the nut, a reading says only that it is too much where even the greatest is taken off."""
    most_nm = max(measured.torque_nm)
    if most_nm - running_nm > torque.max_nm + _LEAST_LOSS:
        return (), (
            f"loosen it, measure what turns the nut, and tighten it past that to {number(torque.target_nm, 2)} N·m",
        )
    up_to, read = number(running_nm, 1), number(min(measured.torque_nm), 2)
    return (f"the torque that turns the nut before it seats, up to {up_to} N·m: {read} N·m may clamp nothing",), ()


def _too_tight(torque: Torque, most_nm: float, target: str, breaks_nm: float) -> str:
    """What to do where it is too tight: past what breaks a part the figure is wrong, or the part is spent."""
    read = f"{number(most_nm, 2)} N·m is over {number(torque.max_nm, 2)} N·m, limited by {torque.limited_by}"
    if most_nm > breaks_nm:
        breaks = f"over the {number(breaks_nm, 2)} N·m at which something gives way"
        return f"{read}, and {breaks}: check the figure; if it is right, renew the part"
    return f"{read}: loosen it and set it again to {target}"


def _breaks_nm(proved: Proposal, torque: Torque, point: MountPoint, tables: Tables) -> float:
    """The torque at which something gives way; where no figure is known of that, the limit itself."""
    joint, found = proved.joint, list[float]()
    turns = body_turns(joint, point, tables)
    if turns is not None:
        found.append(turns.torque_nm)
    if joint.receiver is not None and isinstance(joint.receiver.breaking, MostTorque):
        found.append(joint.receiver.breaking.torque_nm)
    inputs = next((check.inputs for check in proved.checks if check.id == WINDOW), ())
    found.extend(torque.max_nm / one.value for one in inputs if one.name == _SHARE)
    return max(min(found, default=0.0), torque.max_nm)


# -- a ground ---------------------------------------------------------------------------------------------------------


def _ground(proved: Proposal, measured: Measured) -> Found:
    ground = proved.ground
    if ground is None:
        return Found()
    if ground.current_a is None:
        return Found(("the full current of its cable",))
    if measured.drop is None:
        return Found((f"the drop across it, mV at a current: at most {number(ground.drop_mv, 0)} mV at full current",))
    drop, full_a = measured.drop, ground.current_a
    full_mv = drop_at_full_mv(drop_mv=drop.millivolts, at_a=drop.at_a, full_a=full_a)
    figures = (
        Figure("resistance", drop.millivolts / drop.at_a, "mΩ"),
        Figure("drop at full current", full_mv, "mV"), Figure("drop at most", ground.drop_mv, "mV"),
    )  # fmt: skip
    if full_mv > ground.drop_mv:
        do = f"{number(full_mv, 0)} mV at full current is over {number(ground.drop_mv, 0)} mV: bare it, make it again"
        return Found((), (do,), figures)
    most_mv = drop_at_full_mv(drop_mv=drop.millivolts + drop.rounded_mv, at_a=drop.at_a, full_a=full_a)
    if most_mv > ground.drop_mv:
        read = f"rounded as it is, it may be {rounded_up(most_mv, 0)} mV at {rounded_up(full_a, 0)} A"
        return Found((f"the drop read at more current, or to a digit more: {read}",), (), figures)
    return Found((), (), figures)
