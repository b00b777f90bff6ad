"""Fewest different sizes for a whole job: what every mount point might take, and the choice among it, before and after.

Only what is proved is offered, and nothing unproven where there is a proven answer. A pinned one keeps its pin.
"""

from collections.abc import Iterable, Iterator, Mapping
from contextlib import suppress
from dataclasses import replace

from fasten.advice.advise import METHODS
from fasten.advice.bits import drilled_with
from fasten.advice.method import Method, gates
from fasten.advice.owned import Owned
from fasten.advice.parts import fitted_parts
from fasten.advice.tools import setting_tools
from fasten.advice.trial import candidates
from fasten.catalog.job_parts import SIZE_WEIGHTS
from fasten.catalog.tables import Tables
from fasten.job.choices import Choice, held, pin_of, pin_of_joint
from fasten.job.list.lists import Unfit
from fasten.job.list.parts import part_text
from fasten.job.screw_length import screw_end_of
from fasten.job.sizes.fewest import Option, Place, Size, fewest
from fasten.job.words import Pin
from fasten.model import Answer, Joint, MountPoint, Screw, Status
from fasten.model.kinds import PartKind, PatchKind, ScrewKind
from fasten.progress import Step, Stopped, stepped, unseen
from fasten.record import record
from fasten.text.units import number

SCREW, RECEIVER, BIT, SETTING, RANK = "screw", "receiver", "bit", "setting tool", "rank"
KINDS = (SCREW, RECEIVER, BIT, SETTING)
LONGER_MM = 10.0  # a screw that stands out further than that for the sake of one box is no gain; common practice

Options = dict[Pin, Answer]
Lengths = Mapping[tuple[str, str, str], tuple[float, ...]]  # by thread, standard and class of the screw


@record
class Change:
    """What a mount point has by itself and in the choice with the fewest sizes; `pin` holds the latter."""

    mount: str
    before: str
    after: str
    changed: bool
    pinned: bool
    rank_lost: float
    pin: Pin


@record
class Standard:
    """The choice with the fewest sizes beside what stood before; `choices` are what the mount points then get.

    `proven` is whether no choice is better by the weights; else it is the best that was found.
    """

    before: tuple[Size, ...]
    after: tuple[Size, ...]
    before_cost: float
    cost: float
    proven: bool
    changes: tuple[Change, ...]
    unfit: tuple[Unfit, ...]
    choices: tuple[Choice, ...]

    @property
    def pins(self) -> dict[str, Pin]:
        """The pins that hold the choice, by mount point; what every mount point takes by itself needs none."""
        return {change.mount: change.pin for change in self.changes if change.changed}


def standard(found: tuple[Choice, ...], tables: Tables, owned: Owned | None = None, step: Step = unseen) -> Standard:
    """The choice with the fewest sizes among all that is proved for the mount points of `found`.

    `step` is called while the joints are proved, then while the choice is searched for. Where it raises Stopped, the
    best that was found until then is returned.
    """
    fitting = _fitting(found)
    sized = _Sized(tables)
    offered, all_offered = _offered(fitting, sized, tables, owned, step)
    weights = {row.kind: row.points for row in tables.rows(SIZE_WEIGHTS)}
    rank_weight = weights.pop(RANK)
    places = [_place(fit, options, sized) for fit, options in zip(fitting, offered, strict=True)]
    best = fewest(places, weights, rank_weight, step)
    pins = [_by_key(options)[key] for options, key in zip(offered, best.chosen, strict=True)]
    kept = {f.name: options[pin] for f, options, pin in zip(fitting, offered, pins, strict=True)}
    return Standard(
        before=_sorted(best.before_sizes), after=_sorted(best.sizes), before_cost=best.before_cost, cost=best.cost,
        proven=best.proven and all_offered,
        changes=tuple(_change(f, options, pin) for f, options, pin in zip(fitting, offered, pins, strict=True)),
        unfit=tuple(Unfit(choice.name, choice.reason) for choice in found if choice.answer is None),
        choices=tuple(choice.with_answer(kept.get(choice.name), tables) for choice in found),
    )  # fmt: skip


def sizes_of(joint: Joint, point: MountPoint, tables: Tables) -> frozenset[Size]:
    """The distinct things that a joint needs: screw, receiver, bit, setting tools."""
    parts = [fitted for fitted, _ in fitted_parts(joint, tables)]
    screws = [one.part for one in parts if isinstance(one.kind, ScrewKind)]
    receivers = [one.part for one in parts if isinstance(one.kind, PartKind | PatchKind)]  # washers follow from these
    bit = drilled_with(joint.hole, point)
    return frozenset([
        *((SCREW, part_text(part)) for part in screws), *((RECEIVER, part_text(part)) for part in receivers),
        *([(BIT, bit)] if bit is not None else []),
        *((SETTING, f"{tool.name} {tool.size}".strip()) for tool in setting_tools(joint, tables)),
    ])  # fmt: skip


class _Sized:
    """The sizes of what is offered, found once for each mount point and pin."""

    def __init__(self, tables: Tables) -> None:
        self._tables = tables
        self._known: dict[tuple[MountPoint, Pin], frozenset[Size]] = {}

    def sizes(self, point: MountPoint, pin: Pin, answer: Answer) -> frozenset[Size]:
        if (point, pin) not in self._known:
            self._known[point, pin] = sizes_of(answer.proposal.joint, point, self._tables)
        return self._known[point, pin]

    def all(self, point: MountPoint, options: Options) -> Options:
        """The options as they are, their sizes known from now on."""
        for pin, answer in options.items():
            self.sizes(point, pin, answer)
        return options


@record
class _Fit:
    """A mount point that has an answer: what it gets as things stand."""

    name: str
    point: MountPoint
    answer: Answer
    is_pinned: bool


def _fitting(found: tuple[Choice, ...]) -> list[_Fit]:
    return [
        _Fit(choice.name, choice.point, choice.answer, choice.mount.pin is not None)
        for choice in found if choice.answer is not None and choice.point is not None
    ]  # fmt: skip


# -- what may be chosen -----------------------------------------------------------------------------------------------


def _offered(
    fitting: list[_Fit], sized: _Sized, tables: Tables, owned: Owned | None, step: Step
) -> tuple[list[Options], bool]:
    """What each mount point may take, the answer that it has as things stand first; and whether that is all."""
    points = tuple(dict.fromkeys(fit.point for fit in fitting if not fit.is_pinned))
    answers = dict[MountPoint, Options]()
    ended = False
    with suppress(Stopped):
        for point in stepped(points, lambda done, of: step(done, 2 * of)):
            answers[point] = sized.all(point, dict(_own(point, tables, owned)))
        lengths = _lengths(answers)
        for point in stepped(points, lambda done, of: step(of + done, 2 * of)):
            further = _with_lengths(point, answers[point], lengths, tables, owned)
            answers[point] = sized.all(point, further)
        ended = True
    return [_first(fit, answers.get(fit.point, {})) for fit in fitting], ended


_AS_GOOD = {
    Status.HOLDS: {Status.HOLDS},
    Status.NOT_CHECKED: {Status.HOLDS, Status.NOT_CHECKED},
    Status.MARGINAL: {Status.HOLDS, Status.NOT_CHECKED, Status.MARGINAL},
    Status.FAILS: set(Status),
}


def _first(fit: _Fit, answers: Options) -> Options:
    """The answer that stands, then the others; no others where it is pinned, none of worse standing than the first.

    Nor one that holds by its face alone for one with a thread: a size saved is worth no weaker kind of joint.
    """
    first = pin_of(fit.answer)
    if fit.is_pinned:
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


# -- as `fewest` asks for it ------------------------------------------------------------------------------------------


def _place(fit: _Fit, options: Options, sized: _Sized) -> Place:
    return Place(fit.name, tuple(
        Option(key, sized.sizes(fit.point, pin, options[pin]), _lost(options, pin))
        for key, pin in _by_key(options).items()
    ))  # fmt: skip


def _by_key(options: Options) -> dict[str, Pin]:
    """A stable name for each option, by which ties are settled: what stands comes first, then a shorter screw."""
    keys = (f"{'standing' if at == 0 else 'substitute'} {_name(pin)}" for at, pin in enumerate(options))
    return dict(zip(keys, options, strict=True))


def _name(pin: Pin) -> str:
    lengths = ("" if mm is None else f"{mm:012.6f}" for mm in (pin.receiver_length_mm, pin.screw_length_mm))
    return "|".join((pin.method, pin.thread, pin.series, *lengths))


def _lost(options: Options, pin: Pin) -> float:
    """Points by which an option scores worse than the best; sums of floats, so rounded to the millionth."""
    best = min(answer.score.total for answer in options.values())
    return round(options[pin].score.total - best, 6)


def _change(fit: _Fit, options: Options, pin: Pin) -> Change:
    before = pin_of(fit.answer)
    return Change(
        mount=fit.name, before=joint_text(fit.answer), after=joint_text(options[pin]), changed=pin != before,
        pinned=fit.is_pinned, rank_lost=_lost(options, pin), pin=pin,
    )  # fmt: skip


def joint_text(answer: Answer) -> str:
    """An answer by its title and the length of its screw."""
    screw = answer.proposal.joint.screw
    return answer.title if screw is None else f"{answer.title}, screw {number(screw.length_mm, 2)} mm"


def _sorted(sizes: frozenset[Size]) -> tuple[Size, ...]:
    return tuple(sorted(sizes, key=lambda size: (KINDS.index(size[0]), size[1])))
