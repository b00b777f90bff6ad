"""What every mount point might take beside what it has: each joint that is proved, as a plan with its pin.

Only what is proved is offered, and nothing unproven where there is a proven answer. One that is pinned, built, repaired
or drilled for stays as it is.
"""

from collections.abc import Iterable, Iterator, Mapping
from contextlib import suppress

from fasten.advice.advise import METHODS
from fasten.advice.method import Method, gates
from fasten.advice.owned import Owned
from fasten.advice.screw_length import screw_end_of
from fasten.advice.trial import candidates
from fasten.catalog.tables import Tables
from fasten.job.choices import Choice, held, is_settled
from fasten.job.pins import pin_of, pin_of_joint
from fasten.job.sizes.standard import Offer, Offered, Standard, standard
from fasten.job.words import Pin
from fasten.model import Answer, Joint, MountPoint, Screw, Status
from fasten.progress import Step, Stopped, stepped, unseen
from fasten.record import record, replace
from fasten.text.units import number

LONGER_MM = 10.0  # a screw that stands out further than that for the sake of one box is no gain; common practice

Options = dict[Pin, Answer]
Lengths = Mapping[tuple[str, str, str], tuple[float, ...]]  # by thread, standard and class of the screw


def fewest_sizes(
    found: tuple[Choice, ...], tables: Tables, owned: Owned | None = None, step: Step = unseen
) -> Standard:
    """The choice with the fewest sizes among all that is proved for the mount points of `found`.

    `step` is called while the joints are proved, then while the choice is searched for. Where it raises Stopped, the
    best that was found until then is returned.
    """
    offered, is_all = offers(found, tables, owned, step)
    return standard(found, offered, tables, step, is_all=is_all)


def offers(
    found: tuple[Choice, ...], tables: Tables, owned: Owned | None, step: Step
) -> tuple[tuple[Offered, ...], bool]:
    """What each mount point that has an answer may take, and whether that is all: the work may be stopped."""
    fitting = _fitting(found)
    answers, is_all = _offered(fitting, tables, owned, step)
    return tuple(_as_plans(fit, options, tables) for fit, options in zip(fitting, answers, strict=True)), is_all


def _as_plans(fit: "_Fit", options: Options, tables: Tables) -> Offered:
    entries = ((fit.choice.with_answer(answer, tables), pin, answer) for pin, answer in options.items())
    found = (
        Offer(entry, entry.plan, pin, answer.score.total, joint_text(answer))
        for entry, pin, answer in entries if entry.plan is not None
    )  # fmt: skip
    return Offered(fit.name, tuple(found), fit.is_settled)


@record
class _Fit:
    """A mount point that has an answer: what it gets as things stand."""

    name: str
    choice: Choice
    point: MountPoint
    answer: Answer
    is_settled: bool


def _fitting(found: tuple[Choice, ...]) -> list[_Fit]:
    return [
        _Fit(choice.name, choice, choice.point, choice.answer, is_settled(choice))
        for choice in found if choice.answer is not None and choice.point is not None
    ]  # fmt: skip


# -- what may be chosen -----------------------------------------------------------------------------------------------


def _offered(fitting: list[_Fit], tables: Tables, owned: Owned | None, step: Step) -> tuple[list[Options], bool]:
    """What each mount point may take, the answer that it has as things stand first; and whether that is all."""
    points = tuple(dict.fromkeys(fit.point for fit in fitting if not fit.is_settled))
    answers = dict[MountPoint, Options]()
    ended = False
    with suppress(Stopped):
        for point in stepped(points, lambda done, of: step(done, 2 * of)):
            answers[point] = dict(_own(point, tables, owned))
        lengths = _lengths(answers)
        for point in stepped(points, lambda done, of: step(of + done, 2 * of)):
            answers[point] = _with_lengths(point, answers[point], lengths, tables, owned)
        ended = True
    return [_first(fit, answers.get(fit.point, {})) for fit in fitting], ended


_AS_GOOD = {
    Status.HOLDS: {Status.HOLDS},
    Status.NOT_CHECKED: {Status.HOLDS, Status.NOT_CHECKED},
    Status.MARGINAL: {Status.HOLDS, Status.NOT_CHECKED, Status.MARGINAL},
    Status.FAILS: set(Status),
}


def _first(fit: _Fit, answers: Options) -> Options:
    """The answer that stands, then the others; no others where it is settled, none of worse standing than the first.

    Nor one that holds by its face alone for one with a thread: a size saved is worth no weaker kind of joint.
    """
    first = pin_of(fit.answer)
    if fit.is_settled:
        return {first: fit.answer}
    allowed, by_face = _AS_GOOD[fit.answer.proposal.status], _by_face(fit.answer)
    others = {
        pin: answer
        for pin, answer in answers.items()
        if answer.proposal.status in allowed and (by_face or not _by_face(answer))
    }
    return {first: fit.answer, **{pin: answer for pin, answer in others.items() if pin != first}}


def _by_face(answer: Answer) -> bool:
    return answer.proposal.joint.patch is not None and answer.proposal.joint.screw is None


def _own(point: MountPoint, tables: Tables, owned: Owned | None) -> Iterator[tuple[Pin, Answer]]:
    """Every answer that differs in what a pin holds, with the screw that its method sized for it."""
    for method in METHODS:
        if gates(method, point, tables) is None:
            offered = candidates(method, point, tables)
            yield from _held(dict.fromkeys(map(pin_of_joint, offered)), method, offered, point, tables, owned)


def _held(
    pins: Iterable[Pin], method: Method, offered: list[Joint], point: MountPoint, tables: Tables, owned: Owned | None
) -> Iterator[tuple[Pin, Answer]]:
    for pin in pins:
        answer = held(pin, method, offered, point, tables, owned)
        if isinstance(answer, Answer):
            yield pin, answer


def _lengths(own: Mapping[MountPoint, Options]) -> Lengths:
    """The lengths that any mount point takes of each screw."""
    found: dict[tuple[str, str, str], set[float]] = {}
    for answers in own.values():
        for answer in answers.values():
            if (screw := answer.proposal.joint.screw) is not None:
                found.setdefault(_alike(screw), set()).add(screw.length_mm)
    return {alike: tuple(sorted(lengths)) for alike, lengths in found.items()}


def _alike(screw: Screw) -> tuple[str, str, str]:
    return screw.thread, screw.standard, screw.class_


def _with_lengths(point: MountPoint, own: Options, lengths: Lengths, tables: Tables, owned: Owned | None) -> Options:
    """The answers of a mount point, and those with a length that another mount point takes."""
    found = dict(own)
    for method in METHODS:
        wanted = [
            pin for pin, answer in own.items()
            if answer.method == method.NAME and screw_end_of(answer.proposal.joint, point, tables) is not None
        ]  # fmt: skip
        pins = dict.fromkeys(
            other for pin in wanted for other in _stretched(pin, own[pin], lengths) if other not in own
        )
        if pins:
            found |= dict(_held(pins, method, candidates(method, point, tables), point, tables, owned))
    return found


def _stretched(pin: Pin, answer: Answer, lengths: Lengths) -> Iterator[Pin]:
    screw = answer.proposal.joint.screw
    if screw is not None:
        for length_mm in lengths[_alike(screw)]:
            if length_mm <= screw.length_mm + LONGER_MM:
                yield replace(pin, screw_length_mm=length_mm)


def joint_text(answer: Answer) -> str:
    """An answer by its title and the length of its screw."""
    screw = answer.proposal.joint.screw
    return answer.title if screw is None else f"{answer.title}, screw {number(screw.length_mm, 2)} mm"
