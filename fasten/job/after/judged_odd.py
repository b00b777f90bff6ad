"""The verdict on fixings that were repaired: each judged by the joint that its route came to, the others as planned."""

from math import nan

from fasten.after.judge import Judged, has_body, inside_mm, judge
from fasten.after.measured import Measured
from fasten.after.verdict import Verdict
from fasten.catalog.tables import Tables
from fasten.job.after.repairs import open_repairs, place_text
from fasten.job.after.start import at_places
from fasten.job.after.taken import Taken, in_force
from fasten.model import Answer, MountPoint
from fasten.record import replace
from fasten.text.figures import mm

_WORST = list(Verdict)


def odd_of(found: tuple[Taken, ...]) -> tuple[Taken, ...]:
    """The repairs of single fixings that are in force."""
    return tuple(one for one in in_force(found) if not one.whole and one.repair.at is not None)


def left_out_of(found: tuple[Taken, ...]) -> frozenset[int]:
    """The fixings that a repair left out, by number."""
    return frozenset(one.repair.at for one in odd_of(found) if one.leaves_out and one.repair.at is not None)


def in_places(measured: Measured, fixings: int, left_out: frozenset[int]) -> Measured:
    """What was measured at each fixing by its number, where those that were left out are not among it."""

    def placed(sizes: tuple[float, ...]) -> tuple[float, ...]:
        return at_places(sizes, fixings, left_out, unread=nan)  # nothing reads these

    return replace(
        measured, hole_mm=placed(measured.hole_mm), torque_nm=placed(measured.torque_nm),
        turning_nm=placed(measured.turning_nm), held_nm=placed(measured.held_nm),
    )  # fmt: skip


def of_others(measured: Measured, odd: tuple[Taken, ...]) -> Measured:
    """What was measured at the fixings that are as planned; what is one for all stays."""
    away = {one.repair.at for one in odd}

    def kept(sizes: tuple[float, ...]) -> tuple[float, ...]:
        return sizes if len(sizes) < 2 else tuple(mm for at, mm in enumerate(sizes, 1) if at not in away)

    most = max(map(len, (measured.hole_mm, measured.torque_nm, measured.turning_nm, measured.held_nm)))
    left = tuple(at for at in range(1, most + 1) if at not in away)
    return replace(
        measured, at=left, hole_mm=kept(measured.hole_mm), torque_nm=kept(measured.torque_nm),
        turning_nm=kept(measured.turning_nm), held_nm=kept(measured.held_nm),
    )  # fmt: skip


def with_odd(
    found: Judged, odd: tuple[Taken, ...], measured: Measured, answer: Answer, point: MountPoint, tables: Tables
) -> Judged:  # fmt: skip
    """The verdict with that on each repaired fixing; not proven as long as a repair is not."""
    for one in odd:
        found = _with_one(found, one, measured, tables)
    needs = (*found.needs, *open_repairs(answer), *(_of_sheet(one, measured, point) for one in odd),
             *(_of_hole(one, measured, tables) for one in odd))  # fmt: skip
    needs = tuple(need for need in dict.fromkeys(needs) if need)
    verdict = max(found.verdict, Verdict.OPEN, key=_WORST.index) if needs else found.verdict
    return replace(found, verdict=verdict, needs=needs)


def _with_one(found: Judged, one: Taken, measured: Measured, tables: Tables) -> Judged:
    """The verdict with that on one fixing, where its route is a joint of its own."""
    if one.leaves_out or one.route is None or one.route.answer is None:
        return found
    proposal, place = one.route.answer.proposal, place_text(one.repair)
    own = judge(proposal, proposal, _only(measured, one.repair.at or 1), one.route.point, tables)
    needs, do = (tuple(f"{place}: {text}" for text in texts) for texts in (own.needs, own.do))
    return replace(
        found, verdict=max(found.verdict, own.verdict, key=_WORST.index), needs=(*found.needs, *needs),
        do=(*found.do, *do),
    )  # fmt: skip


def _only(measured: Measured, at: int) -> Measured:
    """What was measured at one fixing."""

    def own(sizes: tuple[float, ...]) -> tuple[float, ...]:
        return sizes if len(sizes) < 2 else sizes[at - 1 : at]

    return Measured(
        hole_mm=own(measured.hole_mm), torque_nm=own(measured.torque_nm), turning_nm=own(measured.turning_nm),
        held_nm=own(measured.held_nm),
    )  # fmt: skip


def _of_sheet(one: Taken, measured: Measured, point: MountPoint) -> str:
    """A repair is proved in the sheet that was planned with: one that measured otherwise leaves it open."""
    if measured.sheet_mm is None or point.thickness_min_mm <= measured.sheet_mm <= point.thickness_max_mm:
        return ""
    return f"{place_text(one.repair)} proved in the sheet as measured: say so in the question"


def _of_hole(one: Taken, measured: Measured, tables: Tables) -> str:
    """A repair is proved in the hole that it was planned in: one that measured wider, which no body fills, is open."""
    if one.leaves_out or one.route is None or one.route.answer is None:
        return ""
    joint, found_mm = one.route.answer.proposal.joint, max(_only(measured, one.repair.at or 1).hole_mm, default=0.0)
    most_mm = inside_mm(joint, tables)[1]
    if joint.hole is None or has_body(joint) or found_mm <= most_mm:
        return ""
    return f"{place_text(one.repair)} repaired as oversize: {mm(found_mm)} measured, {mm(most_mm)} at most"
