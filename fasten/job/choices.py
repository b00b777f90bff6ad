"""What each mount point of a job gets: its pinned joint, else the best answer, else the reason why it gets none."""

from collections.abc import Iterable, Iterator
from typing import TYPE_CHECKING

from fasten.advice.advise import all_refusals, first_advice, method_of, named
from fasten.advice.bits import item_opened
from fasten.advice.item_hole import for_thread
from fasten.advice.method import Method, existing_hole_refusal, gates
from fasten.advice.owned import Owned, fitted
from fasten.advice.parts import series_of
from fasten.advice.plan import plan_of
from fasten.advice.ranking import order, score, size
from fasten.advice.remark import item_opened_for
from fasten.advice.screw_length import same_length, with_length
from fasten.advice.series import in_series
from fasten.advice.trial import candidates
from fasten.advice.work import answer as worded
from fasten.catalog.tables import Tables
from fasten.errors import FastenError
from fasten.job.after.covered import remarks_of
from fasten.job.boards import context, placed
from fasten.job.pins import pin_of_joint, pin_text
from fasten.job.preset import waiting
from fasten.job.series import Use, used_series
from fasten.job.ticked import counted_as_existing, existing_mm, holes_of, planned_ticks
from fasten.job.words import Job, Mount, Pin, Visit
from fasten.model import Answer, Joint, MountPoint, Proposal, Refusal
from fasten.model.plan import Plan
from fasten.progress import Step, stepped, unseen
from fasten.proof.demands import demands
from fasten.proof.ground import with_stud
from fasten.proof.prove import prove
from fasten.record import lean, replace
from fasten.text.names import plain_name
from fasten.text.units import number

if TYPE_CHECKING:
    from fasten.job.after.taken import Taken

PINNED = "pin"
NOTHING = "nothing fits: "
NAMED = 3  # refusals that the reason of a mount point without an answer names

_Known = dict[tuple[int, int], Answer]  # by the answer and what it is to, which those that ask the same share


@lean
class Choice:
    """A mount point of a job with what it gets.

    Its `plan` is made of its `answer`. Without an answer it is unfit and `reason` says why, and `refusals` once it is
    explained; without a `point` its question could not be read. `repairs` are those that its answer stands with.
    """

    mount: Mount
    point: MountPoint | None
    answer: Answer | None
    plan: Plan | None
    reason: str = ""
    refusals: tuple[Refusal, ...] = ()
    repairs: "tuple[Taken, ...]" = ()

    @property
    def name(self) -> str:
        """The name of the mount point."""
        return self.mount.name

    @property
    def note(self) -> str:
        """What the user noted of it."""
        return self.mount.note

    @property
    def built(self) -> Visit | None:
        """What was really used when it was built before."""
        return self.mount.built

    @property
    def ticked(self) -> tuple[str, ...]:
        """The steps that are done and the holes that are made."""
        return self.mount.ticked

    @property
    def is_said(self) -> bool:
        """Whether its question could be read."""
        return self.point is not None

    def explained(self, tables: Tables) -> "Choice":
        """The same with every refusal, where nothing fits."""
        if self.answer is not None or self.point is None:
            return self
        return replace(self, refusals=all_refusals(self.point, tables))

    def of(self, mount: Mount) -> "Choice":
        """The same for another mount point that asks the same."""
        return replace(self, mount=mount, plan=None if self.plan is None else replace(self.plan, name=mount.name))

    def with_answer(self, answer: Answer | None, tables: Tables) -> "Choice":
        """The same with another answer."""
        return replace(self, answer=answer, plan=_plan(self.mount, self.point, answer, tables))


def choices(job: Job, tables: Tables, owned: Owned | None = None, step: Step = unseen) -> tuple[Choice, ...]:
    """What every mount point of the job gets, in the job's order; equal questions are answered once.

    What is `owned` is preferred (`fasten.job.shelf.owned`). `step` is called for each mount and may raise Stopped.
    """
    known: dict[tuple[object, ...], Choice] = {}
    found = []
    for mount in stepped(job.mounts, step):
        since = mount.visits if mount.repairs else ()
        asked = (mount.said, mount.preset, mount.pin, mount.repairs, since, holes_of(mount.ticked), context(mount, job))
        if asked not in known:
            known[asked] = choice(mount, tables, owned, job)
        found.append(known[asked].of(mount))
    return in_job(tuple(found), job, tables, owned)


def in_job(found: tuple[Choice, ...], job: Job, tables: Tables, owned: Owned | None = None) -> tuple[Choice, ...]:
    """What every mount point gets beside the others: of two series of a thread, the one that the job uses.

    `found` is what each gets by itself. What is pinned, built or drilled stays as it is.
    """
    used = used_by(found, job)
    known: _Known = {}
    return tuple(_in_job(one, used, known, job, tables, owned) for one in found)


def choice_in_job(mount: Mount, job: Job, uses: Iterable[Use], tables: Tables, owned: Owned | None = None) -> Choice:
    """What one mount point gets beside the others, by the series that these use by themselves."""
    found = choice(mount, tables, owned, job)
    used = used_series((*uses, *uses_of((found,))), job.packed)
    return _in_job(found, used, {}, job, tables, owned)


def _in_job(
    found: Choice, used: frozenset[str], known: _Known, job: Job, tables: Tables,
    owned: Owned | None,
) -> Choice:  # fmt: skip
    if holes_of(found.mount.ticked) and found.mount.pin is None and found.mount.built is None:
        return _as_drilled(found, used, job, tables, owned)
    return found if is_settled(found) else _beside(found, used, known, tables, owned)


def _as_drilled(found: Choice, used: frozenset[str], job: Job, tables: Tables, owned: Owned | None) -> Choice:
    """What its holes were made for: what it gets by itself, or beside the others; else they are existing ones."""
    mount = found.mount
    free = as_first_planned(replace(mount, ticked=()), tables, owned, job)
    if free.answer is None or free.point is None or existing_mm(planned_ticks(mount), free.answer, free.point) is None:
        return found
    other = _beside(free, used, {}, tables, owned)
    is_it = other.answer is not None and existing_mm(planned_ticks(mount), other.answer, free.point) is None
    if not is_it:
        return found
    return _repaired(other.of(mount), tables) if mount.repairs else other.of(mount)


def used_by(found: Iterable[Choice], job: Job) -> frozenset[str]:
    """The series that the job uses, by what each of its mount points gets by itself and what is packed."""
    return used_series(uses_of(found), job.packed)


def uses_of(found: Iterable[Choice]) -> tuple[Use, ...]:
    """The series that each mount point takes, where its answer has one."""
    found = tuple(found)
    each = {id(one.answer): one for one in found}  # which those that ask the same share
    names = {answer: series_of_choice(one) for answer, one in each.items()}
    return tuple(
        Use(series, choice.point.fixings, is_settled(choice))
        for choice in found if choice.point is not None and (series := names[id(choice.answer)]) is not None
    )  # fmt: skip


def series_of_choice(choice: Choice) -> str | None:
    """The id of the series that a mount point takes; None where nothing of its answer stays in the substrate."""
    return None if choice.answer is None else series_of(choice.answer.proposal.joint)


def is_settled(choice: Choice) -> bool:
    """Whether it is pinned, built or repaired or its holes are begun, and so stays as it is."""
    mount = choice.mount
    return mount.pin is not None or mount.built is not None or mount.repairs != () or holes_of(mount.ticked) != ()


def _beside(choice: Choice, used: frozenset[str], known: _Known, tables: Tables, owned: Owned | None) -> Choice:
    """The mount point with its answer in a series that is used; what asks the same is tried once."""
    answer, point = choice.answer, choice.point
    if answer is None or point is None:
        return choice
    asked = id(answer), id(point)
    if asked not in known:
        known[asked] = in_series(answer, point, used, tables, owned)
    return choice if known[asked] is answer else choice.with_answer(known[asked], tables)


def choice(mount: Mount, tables: Tables, owned: Owned | None = None, job: Job | None = None) -> Choice:
    """What one mount point gets; in its job with what stands on the same board.

    A hole that is made and that its answer wants otherwise is an existing one. Its repairs stand on top of all that.
    """
    found = as_first_planned(mount, tables, owned, job)
    return _repaired(found, tables) if mount.repairs else found


def _repaired(found: Choice, tables: Tables) -> Choice:
    """The same as it stands once repaired."""
    from fasten.job.after.repaired_plan import repaired_plan  # with all routes: slow to load, and most need none
    from fasten.job.after.repairs import repaired_first

    if found.answer is None or found.point is None or found.plan is None:
        return found
    answer, point, done = repaired_first(found.mount, found.answer, found.point, tables)
    plan = _plan(found.mount, point, answer, tables)
    assert plan is not None
    plan = repaired_plan(plan, found.answer, found.point, done, tables)
    return replace(found, answer=answer, point=point, plan=plan, repairs=done)


def as_first_planned(mount: Mount, tables: Tables, owned: Owned | None = None, job: Job | None = None) -> Choice:
    """What one mount point gets before any repair."""
    try:
        point = placed(mount, job, tables)
    except FastenError as error:
        return Choice(mount, None, None, None, str(error))
    return _with_covers(_choice(mount, point, tables, owned), job, tables)


def _with_covers(found: Choice, job: Job | None, tables: Tables) -> Choice:
    """The same with what its answer says of what is under it and over it."""
    if job is None or found.answer is None or found.point is None:
        return found
    said = remarks_of(found.mount, found.point, job, tables)
    remarks = (*found.answer.remarks, *said)
    return found.with_answer(replace(found.answer, remarks=remarks), tables) if said else found


def _choice(mount: Mount, point: MountPoint, tables: Tables, owned: Owned | None) -> Choice:
    found = _answered(mount, point, tables, owned)
    there_mm = existing_mm(planned_ticks(mount), found.answer, point) if found.answer is not None else None
    if there_mm is None:
        return found
    found = _answered(mount, replace(point, existing_hole_mm=there_mm), tables, owned)
    said = counted_as_existing(planned_ticks(mount))
    if found.answer is None:
        return replace(found, reason=f"{said}; {found.reason}")
    return found.with_answer(replace(found.answer, remarks=(*found.answer.remarks, said)), tables)


def _answered(mount: Mount, point: MountPoint, tables: Tables, owned: Owned | None) -> Choice:
    """What a mount point gets as its question stands."""
    if mount.pin is not None:
        point = pinned_on(mount.pin, point, tables)
        pinned_one = pinned(mount.pin, point, tables, owned)
        if isinstance(pinned_one, Refusal):
            return Choice(mount, point, None, None, pin_refused(mount.pin, pinned_one))
        return Choice(mount, point, pinned_one, _plan(mount, point, pinned_one, tables))
    advice = first_advice(point, tables, owned)
    point = advice.mount
    if not advice.answers:
        return Choice(mount, point, None, None, nothing_fits(named(advice, NAMED, tables)))
    return Choice(mount, point, advice.answers[0], _plan(mount, point, advice.answers[0], tables))


def _plan(mount: Mount, point: MountPoint | None, answer: Answer | None, tables: Tables) -> Plan | None:
    if point is None or answer is None:
        return None
    return waiting(plan_of(mount.name, answer, point, tables), mount)


def pinned_on(pin: Pin, point: MountPoint, tables: Tables) -> MountPoint:
    """The mount point as the pin has it: no stud that was not said and no preset of the item's holes is in its way."""
    return for_thread(with_stud(point, pin.thread, tables), pin.thread, tables)


def pinned(pin: Pin, point: MountPoint, tables: Tables, owned: Owned | None = None) -> Answer | Refusal:
    """The joint that is pinned, proved anew for this mount point; a refusal where it does not do any more."""
    method = method_of(pin.method)
    if method is None:
        return Refusal(pin.method, "there is no method of this name", (), check=PINNED)
    refused = gates(method, point, tables)
    if refused is not None:
        return refused
    found = held(pin, method, candidates(method, point, tables), point, tables, owned)
    if isinstance(found, Refusal) or not item_opened(point):
        return found
    return replace(found, remarks=(item_opened_for(point, size(found.proposal.joint)), *found.remarks))


def held(
    pin: Pin, method: Method, offered: list[Joint], point: MountPoint, tables: Tables, owned: Owned | None = None
) -> Answer | Refusal:
    """The best of the joints that a method offers which the pin holds, or the nearest refusal."""
    found = [joint for joint in offered if _is_pinned(joint, pin)]
    if not found:
        return Refusal(pin.method, "no part for this mount point is the one that is pinned", (), check=PINNED)
    lengths = _of_length(found, pin.screw_length_mm, point, tables)
    return best_of(proofs(method, lengths, point, tables, owned), point, tables, owned)


def pin_refused(pin: Pin, refusal: Refusal) -> str:
    """Why a pinned joint does not do."""
    return f"the pinned {pin_text(pin)} does not do: {why_not(refusal)}"


def why_not(refusal: Refusal) -> str:
    """A refusal in one sentence with its figures and what would turn it."""
    figures = ", ".join(
        f"{figure.name} {number(figure.value, 2)} {figure.unit}".removesuffix(" -") for figure in refusal.figures
    )
    change = f"; would fit with {refusal.change}" if refusal.change else ""
    return f"{refusal.because}{f' ({figures})' if figures else ''}{change}"


def nothing_fits(refusals: tuple[Refusal, ...]) -> str:
    """Why nothing fits: first what a small change would turn, else what came nearest."""
    nearest = sorted(refusals, key=lambda refusal: (refusal.change is None, refusal.check is None))[:NAMED]
    return NOTHING + "; ".join(f"{refusal.title}: {why_not(refusal)}" for refusal in nearest)


def _is_pinned(joint: Joint, pin: Pin) -> bool:
    own = pin_of_joint(joint)
    for wanted, found in ((pin.thread, own.thread), (pin.series, own.series)):
        if wanted and plain_name(wanted) != plain_name(found):
            return False
    if pin.receiver_length_mm is None:
        return True
    return own.receiver_length_mm is not None and same_length(own.receiver_length_mm, pin.receiver_length_mm)


def _of_length(
    offered: list[Joint], length_mm: float | None, point: MountPoint, tables: Tables
) -> Iterator[Joint | Refusal]:
    """The joints with the screw that is pinned: those that have it by themselves, else all with that screw instead."""
    own = [joint for joint in offered if joint.screw is not None and same_length(joint.screw.length_mm, length_mm or 0)]
    if length_mm is None or own:
        yield from own or offered
        return
    yield from (with_length(joint, length_mm, point, tables) for joint in offered)


def proofs(
    method: Method, joints: Iterable[Joint | Refusal], point: MountPoint, tables: Tables, owned: Owned | None = None
) -> list[Proposal | Refusal]:
    """Each joint of a method proved for this mount point; what is a refusal already stays one."""
    loads = demands(point, tables)
    found: list[Proposal | Refusal] = []
    for entry in joints:
        joint = fitted(entry, owned) if isinstance(entry, Joint) and owned is not None else entry
        refused = joint if isinstance(joint, Refusal) else existing_hole_refusal(joint, point)
        if refused is None and isinstance(joint, Joint):
            found.append(prove(joint, point, method, loads, tables))
        elif refused is not None:
            found.append(refused)
    return found


def best_of(
    found: list[Proposal | Refusal], point: MountPoint, tables: Tables, owned: Owned | None = None
) -> Answer | Refusal:
    """The best of what is proved, in words; what is nearest where nothing is."""
    proposals = [entry for entry in found if isinstance(entry, Proposal)]
    if not proposals:
        return min((entry for entry in found if isinstance(entry, Refusal)), key=lambda refusal: refusal.fails)
    best = min(proposals, key=lambda proposal: order(score(proposal, point, tables, owned), proposal))
    return worded(1, score(best, point, tables, owned), best, point, tables)
