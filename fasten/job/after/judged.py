"""The verdict on what was built at a mount point of a job: its joint with what went in, proved as it was measured."""

import re
from collections.abc import Container, Mapping

from fasten.advice.advise import advise, method_by
from fasten.after.judge import Judged, has_body, inside_mm, judge
from fasten.after.measured import Measured, read_measured
from fasten.after.removals import Came, Wear, worn
from fasten.after.shims import laid, proved_beside
from fasten.after.verdict import Verdict
from fasten.catalog.rules import Rules, rule
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.after.built import AS_PLANNED, TEXTS, recorded
from fasten.job.after.judged_odd import in_places, left_out_of, odd_of, of_others, with_odd
from fasten.job.after.own_tests import Readings, newest, tests_of, with_tests
from fasten.job.after.taken import Taken, lift_of
from fasten.job.after.taken import odd_of as unlike
from fasten.job.choices import PINNED, Choice, as_first_planned, choices, nothing_fits, pinned, pinned_on, proofs
from fasten.job.edit import find_mount, with_mount
from fasten.job.entry import Entry
from fasten.job.pins import pin_of_joint
from fasten.job.words import CHECKED, FITTED, OFF, REPAIRED, Job, Mount, Pin, Visit, standing
from fasten.model import Joint, MountPoint, Proposal, Read, Refusal
from fasten.record import record, replace
from fasten.text.figures import counted, mm
from fasten.text.names import capital, plain_name
from fasten.text.shown import visible
from fasten.text.units import number

_SCREW = re.compile(r"(?<![\w.])([A-Za-z#]{0,3}[0-9][\w./-]*?)\s*[x×]\s*([0-9]+(?:[.,][0-9]+)?)(?:\s*mm)?(?![\w.])")
_LENGTH = re.compile(r"(?<![\w.,])([0-9]+(?:[.,][0-9]+)?)(?![\w.,])")
_AS_PLANNED = frozenset({"", AS_PLANNED, "planned", "as advised"})
_SLIPS = frozenset({Read.SPIN_OUT, Read.PULL_OUT})  # of these the tables have a figure of the same kind
_THREAD = re.compile(r"(?<![\w.])(M[0-9]+(?:\.[0-9]+)?)(?![\w.])", re.IGNORECASE)


@record
class Hardware:
    """What a text says went in: the screw's thread and length, and how long the part is that stays in the substrate.

    Empty, or None, where the text does not say.
    """

    thread: str
    screw_length_mm: float | None
    receiver_length_mm: float | None


@record
class Said:
    """What is said of a visit, field by field, with its photos; `is_sure` keeps what is far off its plan."""

    fields: Mapping[str, str]
    photos: tuple[str, ...] = ()
    is_sure: bool = False


def with_built(job: Job, planned: Choice, said: Said, today: str, tables: Tables) -> Job:
    """The job with one more visit to a mount point, as it was planned; that is pinned where it must be.

    Raises: FastenError if nothing was said, a field is not what it is for, or a measurement is far off its plan.
    """
    mount = find_mount(job, planned.name)
    done = recorded(mount, said.fields, today, said.photos)
    check_said(done.visits[-1], planned, tables, is_sure=said.is_sure)
    readings_of(planned.of(done), tables, is_sure=said.is_sure)
    return with_mount(job, as_planned(done, planned, job, tables), instead_of=mount.name)


def judged_as_said(planned: Choice, said: Said, today: str, tables: Tables) -> Judged | None:
    """The verdict on what is said, as if it was written down; FastenError where that cannot be."""
    return judged(planned.of(recorded(planned.mount, said.fields, today, said.photos)), tables)


def verdict_of(entry: Entry, tables: Tables) -> Judged | None:
    """The verdict on what was built at an entry; None where nothing was, or nothing of its kind is judged."""
    return judged(entry, tables) if isinstance(entry, Choice) else None


def judged(choice: Choice, tables: Tables) -> Judged | None:
    """The verdict on what is there now; None where nothing was written down, it is off, or nothing was planned.

    A record of an older version, or one written by hand, may hold what cannot be read: that is measured again.
    """
    built, point = choice.mount.built, choice.point
    if built is None or built.kind == OFF or choice.answer is None or point is None:
        return None
    planned = choice.answer.proposal
    try:
        measured, gone = measured_of(built), left_out_of(choice.repairs)
        check_count(measured, {point.fixings, point.fixings - len(gone)}, point.fixings - len(gone))
    except FastenError as error:
        need = f"what was measured once more: {error}"
        return Judged(Verdict.OPEN, (need,), (), (), (), planned, planned)
    if not _says_what(built.hardware, planned.joint):
        need = f"what went in, as thread and length, such as M5 x 16: {visible(built.hardware)} says neither"
        return Judged(Verdict.OPEN, (need,), (), (), (), planned, planned)
    odd, measured = odd_of(choice.repairs), in_places(measured, point.fixings, gone)
    others = of_others(measured, odd)
    proved, point = _as_tested(planned.joint, choice, others, point, tables)
    if isinstance(proved, Refusal) and proved.check == PINNED:
        need = f"hardware that a table has, as thread and length: {built.hardware} is in none of {choice.answer.title}"
        return Judged(Verdict.OPEN, (need,), (), (), (), planned, proved)
    found = judge(planned, proved, others, point, tables)
    found = _with_wear(with_odd(found, odd, measured, choice.answer, point, tables), wear(choice, tables))
    return (
        found if not isinstance(proved, Refusal) else _with_remedy(found, replace(choice, point=point), others, tables)
    )


def _with_wear(found: Judged, worn: tuple[Wear, ...]) -> Judged:
    """The verdict, not proven where a part came off as often as it lasts, and was fitted again all the same.

    What is renewed at every removal is so by each step that fits it, and no record says more of it.
    """
    over = (one for one in worn if one.every > 1 and one.since >= one.every)
    needs = tuple(
        f"{one.part} renewed{'' if one.at is None else f' at fixing {one.at}'}: "
        f"{counted(one.since, 'removal')} since it was new, and it is for {one.every - 1}"
        for one in over
    )  # fmt: skip
    if not needs:
        return found
    return replace(
        found, verdict=max(found.verdict, Verdict.OPEN, key=list(Verdict).index), needs=(*found.needs, *needs)
    )


def _as_tested(
    planned: Joint, choice: Choice, others: Measured, point: MountPoint, tables: Tables
) -> tuple[Proposal | Refusal, MountPoint]:  # fmt: skip
    """The joint as it was built, proved with what its visits read on test pieces, and the mount point with these."""
    built, repairs = standing(choice.mount.visits), choice.repairs
    proved = _proved(planned, built, others, point, tables, repairs)
    joint = planned if isinstance(proved, Refusal) else proved.joint
    there = with_tests(point, tests_of(choice.mount, joint, point, tables))
    return (proved, point) if there is point else (_proved(planned, built, others, there, tables, repairs), there)


def readings_of(choice: Choice, tables: Tables, *, is_sure: bool) -> Readings:
    """What the newest visit read on test pieces of what is there, and what that makes of its figures.

    Raises: FastenError where its joint has nothing of which that could be read, or one stands apart and nobody is sure.
    """
    built, point = choice.mount.built, choice.point
    if built is None or point is None or choice.answer is None:
        return Readings()
    planned = choice.answer.proposal.joint
    proved = _proved(planned, built, measured_of(built), point, tables, choice.repairs)
    joint = planned if isinstance(proved, Refusal) else proved.joint
    found = newest(choice.mount, joint, point, tables, is_sure=is_sure)
    for effect in () if is_sure else found.effects:
        if effect.before is not None and effect.read in _SLIPS:
            for value in (value for test in found.tests if test.read is effect.read for value in test.readings):
                factor = rule(tables, Rules.BUILT_SLIP).value
                _check_slip(effect.read.value, value, effect.before, effect.unit, factor)
    return found


def wear(choice: Choice, tables: Tables) -> tuple[Wear, ...]:
    """What wears at a mount point after its visits; what is fitted again came off before, written down or not.

    What a repair put in was new then: of one fixing its own parts count from that on, of every fixing all.
    """
    if choice.answer is None:
        return ()
    done = dict(enumerate(repair_visits(choice.mount), 1))
    whole = max((done.get(one.number, 0) for one in choice.repairs if one.repair.at is None), default=0)
    found = list(worn(choice.answer.proposal.joint, _came(choice.mount, whole), tables))
    for one in odd_of(choice.repairs):
        if one.number in done and not one.leaves_out and one.route and one.route.answer:
            own = worn(one.route.answer.proposal.joint, _came(choice.mount, done[one.number]), tables)
            found += [replace(part, at=one.repair.at) for part in own]
    return tuple(found)


def _came(mount: Mount, since: int) -> tuple[Came, ...]:
    """How often it came off at its visits after so many of them."""
    visits = mount.visits
    return tuple(
        Came(_came_off(visits[at], next((one for one in reversed(visits[:at]) if one.kind != CHECKED), None)),
             visits[at].renewed)
        for at in range(since, len(visits))
    )  # fmt: skip


def repair_visits(mount: Mount) -> list[int]:
    """After how many visits each repair was done, the oldest first."""
    return [number for number, visit in enumerate(mount.visits, 1) if visit.kind == REPAIRED]


def _came_off(visit: Visit, before: Visit | None) -> bool:
    if visit.kind == FITTED and before is not None and before.kind == REPAIRED and before.date == visit.date:
        return False  # the same day it was repaired, it is what was measured then
    return visit.kind == OFF or (visit.kind in (FITTED, REPAIRED) and before is not None and before.kind != OFF)


def planned_of(job: Job, mount: Mount, tables: Tables) -> Choice:
    """What a mount point gets beside the others of its job."""
    return next(one for one in choices(job, tables) if one.mount.name == mount.name)


def as_planned(mount: Mount, planned: Choice, job: Job, tables: Tables) -> Mount:
    """The mount point, pinned to what was planned where it would get another joint once it is built."""
    if planned.answer is None or mount.pin is not None or mount.repairs:
        return mount  # what was planned before a repair was pinned as that was taken
    alone, pin = as_first_planned(mount, tables, None, job), pin_of_joint(planned.answer.proposal.joint)
    if alone.answer is not None and pin_of_joint(alone.answer.proposal.joint) == pin:
        return mount
    return replace(mount, pin=pin)


def measured_of(built: Visit) -> Measured:
    """What a visit measured; raises FastenError where it cannot be read."""
    return read_measured({name: getattr(built, name) for name in TEXTS})


def check_count(measured: Measured, counts: Container[int], fixings: int) -> None:
    """Raises FastenError where a measurement is neither one for all fixings nor as many as may be there."""
    each = {"hole": measured.hole_mm, "torque": measured.torque_nm, "turning": measured.turning_nm,
            "held": measured.held_nm}  # fmt: skip
    for name, found in each.items():
        if len(found) > 1 and len(found) not in counts:
            what = f"{len(found)} are given, and it has {counted(fixings, 'fixing')}"
            raise FastenError(what, where=name, fix="give one for all, or one for each in the order of the template")


def check_said(said: Visit, choice: Choice, tables: Tables, *, is_sure: bool) -> None:
    """Raises FastenError where a measurement is not one for all or for each, or so far off that a figure slipped."""
    if said.drop and choice.answer is not None and choice.answer.proposal.ground is None:
        raise FastenError("only a ground joint drops anything", where="drop", fix="leave it out")
    if choice.point is not None:
        fixings = choice.point.fixings - len(left_out_of(choice.repairs))
        check_count(measured_of(said), {fixings}, fixings)
    if not is_sure:
        check_slips(said, choice, tables)


def check_slips(said: Visit, choice: Choice, tables: Tables) -> None:
    """Raises FastenError where a measurement is so far off its plan that a figure may have slipped."""
    if choice.answer is None or choice.point is None:
        return
    joint, torque, measured = choice.answer.proposal.joint, choice.answer.proposal.torque, measured_of(said)
    planned = (
        ("hole", measured.hole_mm, joint.hole.diameter_mm if joint.hole is not None else None, "mm"),
        ("sheet", _one(measured.sheet_mm), _nearest_mm(measured.sheet_mm, choice.point), "mm"),
        ("length", _one(measured.length_mm), joint.screw.length_mm if joint.screw is not None else None, "mm"),
        ("torque", measured.torque_nm, torque.target_nm if torque is not None else None, "N·m"),
    )  # fmt: skip
    for name, found, wanted, unit in planned:
        for value in found if wanted is not None else ():
            _check_slip(name, value, wanted or 0.0, unit, rule(tables, Rules.BUILT_SLIP).value)


def _check_slip(name: str, value: float, wanted: float, unit: str, factor: float) -> None:
    if wanted / factor < value < wanted * factor:
        return
    times = f"{number(value / wanted, 1)} times" if value > wanted else f"1/{number(wanted / value, 1)} of"
    what = f"{number(value, 2)} {unit} is {times} the {number(wanted, 2)} {unit} wanted, which may be a slip"
    raise FastenError(what, where=name, fix="correct it, or add --sure to keep it")


def _nearest_mm(sheet_mm: float | None, point: MountPoint) -> float:
    """What of a sheet that may be a range is nearest to one that was measured: whatever lies in it is as planned."""
    return min(max(sheet_mm or 0.0, point.thickness_min_mm), point.thickness_max_mm)


def _one(size: float | None) -> tuple[float, ...]:
    return () if size is None else (size,)


# -- the joint as it was built ----------------------------------------------------------------------------------------


def read_hardware(text: str, planned: Joint) -> Hardware:
    """What a text says of hardware: 'M5 rivet nut 19 closed; M5x20', 'M5x12'."""
    screw = _SCREW.search(text)
    first = text[: screw.start()] if screw is not None else text
    own = _THREAD.search(first)
    rest = _THREAD.sub(" ", first)
    length = _LENGTH.search(rest) if own is not None and planned.receiver is not None else None
    thread = screw[1] if screw is not None else own[1] if own is not None else ""
    return Hardware(
        thread, float(screw[2].replace(",", ".")) if screw is not None else None,
        float(length[1].replace(",", ".")) if length is not None else None,
    )  # fmt: skip


def _says_what(text: str, planned: Joint) -> bool:
    """Whether a text of hardware can be read; nothing written is what was planned."""
    said = read_hardware(text, planned)
    known = said.thread or said.screw_length_mm is not None or said.receiver_length_mm is not None
    return bool(known) or plain_name(text) in _AS_PLANNED


def pin_as_built(planned: Joint, built: Visit, measured: Measured) -> Pin:
    """The planned joint's pin with what went in instead."""
    pin, said = pin_of_joint(planned), read_hardware(built.hardware, planned)
    other_thread = said.thread and plain_name(said.thread) != plain_name(pin.thread)
    other_part = said.receiver_length_mm is not None and said.receiver_length_mm != pin.receiver_length_mm
    if other_thread:
        pin = replace(pin, thread=said.thread.upper(), series="", receiver_length_mm=None)
    if other_part:
        pin = replace(pin, series="", receiver_length_mm=said.receiver_length_mm)
    length_mm = measured.length_mm or said.screw_length_mm or pin.screw_length_mm
    return replace(pin, screw_length_mm=length_mm)


def _proved(
    planned: Joint, built: Visit, measured: Measured, point: MountPoint, tables: Tables, repairs: tuple[Taken, ...]
) -> Proposal | Refusal:  # fmt: skip
    """The joint as it was built, proved: the parts that went in, the sheet and the hole as measured, its shim, and the
    fixings beside it that a repair made unlike it.
    """
    place, odd = as_measured(point, measured), unlike(repairs)
    found = _by_itself(planned, built, measured, place, tables, lift_of(repairs), is_there=place == point)
    return found if isinstance(found, Refusal) or not odd else proved_beside(found.joint, odd, place, tables)


def _by_itself(
    planned: Joint, built: Visit, measured: Measured, place: MountPoint, tables: Tables, lift_mm: float, *,
    is_there: bool,
) -> Proposal | Refusal:  # fmt: skip
    pin = pin_as_built(planned, built, measured)
    if pin == pin_of_joint(planned) and is_there and not _is_wide(planned, measured, tables):
        return proofs(method_by(planned), [planned], place, tables)[0]
    found = _pinned(pin, place, tables, lift_mm)
    if isinstance(found, Refusal) or not _is_wide(found.joint, measured, tables) or has_body(found.joint):
        return found
    return _pinned(pin, replace(place, existing_hole_mm=max(measured.hole_mm)), tables, lift_mm)


def _pinned(pin: Pin, place: MountPoint, tables: Tables, lift_mm: float) -> Proposal | Refusal:
    """The joint of a pin, proved; on a shim with the screw that is pinned."""
    bare = replace(pin, screw_length_mm=None) if lift_mm and pin.screw_length_mm is not None else pin
    found = pinned(bare, pinned_on(bare, place, tables), tables)
    if isinstance(found, Refusal) or bare is pin or pin.screw_length_mm is None:
        return found if isinstance(found, Refusal) else found.proposal
    joint = laid(found.proposal.joint, pin.screw_length_mm, lift_mm, place, tables)
    return proofs(method_by(found.proposal.joint), [joint], place, tables)[0]


def as_measured(point: MountPoint, measured: Measured) -> MountPoint:
    """The mount point with its sheet as measured."""
    if measured.sheet_mm is None:
        return point
    return replace(point, thickness_min_mm=measured.sheet_mm, thickness_max_mm=measured.sheet_mm)


def _is_wide(joint: Joint, measured: Measured, tables: Tables) -> bool:
    return bool(measured.hole_mm) and max(measured.hole_mm) > inside_mm(joint, tables)[1]


def _with_remedy(found: Judged, choice: Choice, measured: Measured, tables: Tables) -> Judged:
    """A joint that does not do, with what would: the parts that were planned where they still do, else another."""
    assert choice.point is not None
    assert choice.answer is not None
    place = as_measured(choice.point, measured)
    again = proofs(method_by(found.planned.joint), [found.planned.joint], place, tables)[0]
    wide = _is_wide(found.planned.joint, measured, tables)
    if place == choice.point and isinstance(again, Proposal) and not wide:
        screw = found.planned.joint.screw
        return replace(found, do=(*found.do, f"fit {screw.thread} x {mm(screw.length_mm)} as planned" if screw else ""))
    if wide:
        place = replace(place, existing_hole_mm=max(measured.hole_mm))
    advice = advise(place, tables, None, changes=True)
    if not advice.answers:
        return replace(found, do=(*found.do, nothing_fits(advice.refusals)))
    return replace(found, do=(*found.do, f"it wants another joint: {capital(advice.answers[0].title)}"))
