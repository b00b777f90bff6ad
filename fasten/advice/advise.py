"""Ask every method, prove what it offers, keep the best, rank it and say why: question in, advice out."""

from collections.abc import Callable, Iterable, Iterator
from functools import lru_cache

from fasten.advice import change, existing_use, item_hole, remark
from fasten.advice.foremost import foremost
from fasten.advice.method import EXISTING_HOLE, Method
from fasten.advice.owned import Owned
from fasten.advice.ranking import method_words, order, score, size
from fasten.advice.spread import NO_WIDER, wider
from fasten.advice.studs import or_smaller
from fasten.advice.trial import Trials, best_of_method, first_proved, tried
from fasten.advice.work import answer
from fasten.catalog.tables import Tables
from fasten.geometry.stack import spreader_text, spreaders_of
from fasten.methods import (
    adhesive,
    ball_stud,
    blind_rivet,
    bonded_stud,
    clip_nut,
    expanding_nut,
    factory_thread,
    heat_set_insert,
    hook_and_loop,
    magnet_and_plate,
    push_in_clip,
    quarter_turn,
    rivet_nut,
    screw_in_insert,
    screw_into_board,
    self_drilling_screw,
    self_tapping_insert,
    tapped_hole,
    tapping_screw,
    tee_nut,
    thread_forming_screw,
    through_bolt,
)
from fasten.model import (
    Advice,
    Answer,
    GroundJoint,
    Joint,
    MountPoint,
    OnFrame,
    OtherMaterial,
    OtherSide,
    Panel,
    Proposal,
    Reach,
    Refusal,
    Remedy,
    Score,
    SourceNote,
    ThickerBoard,
)
from fasten.model.check import STIFFNESS
from fasten.proof import ground as grounds
from fasten.proof.demands import demands
from fasten.proof.fit import existing
from fasten.proof.remedies import remedies
from fasten.record import record, replace

BOTH_SIDES, A_FLOOR = "both sides reached", "a floor under it"
# What neither a larger hole nor more fixings can cure, by its check.
NOT_BY_LOAD = frozenset({"space-behind", "grip-min", "grip-max", "removals", "edge-distance"})


METHODS: tuple[Method, ...] = (
    factory_thread,
    rivet_nut,
    tapping_screw,
    self_drilling_screw,
    through_bolt,
    tapped_hole,
    blind_rivet,
    screw_into_board,
    screw_in_insert,
    tee_nut,
    thread_forming_screw,
    heat_set_insert,
    self_tapping_insert,
    clip_nut,
    expanding_nut,
    push_in_clip,
    ball_stud,
    quarter_turn,
    hook_and_loop,
    magnet_and_plate,
    bonded_stud,
    adhesive,
)
_BY_NAME = {method.NAME: method for method in METHODS}

_KEPT = 512  # answers that are kept: each takes a quarter of a megabyte, with and without changes the same one


@lru_cache(maxsize=_KEPT)
def advise(mount: MountPoint, tables: Tables, owned: Owned | None = None, *, changes: bool = True) -> Advice:
    """What fits this mount point, best first, and why the rest does not; what is `owned` is preferred.

    Looking for the small changes that would turn a refusal takes long. Without `changes` they are looked for only where
    nothing fits. The mount point of the advice is the one asked for; a ground lug may be on a smaller stud.
    """
    if changes:
        bare = advise(mount, tables, owned, changes=False)
        if not bare.answers:
            return bare
        refusals = _with_changes(bare.refusals, bare.mount, tables, fits=True)
        return replace(bare, refusals=refusals, remedies=_remedies(bare.mount, tables))
    found = _settled(mount, _Asked(tables, owned, _advised))
    if found.answers:
        return found
    return replace(found, refusals=_with_changes(found.refusals, found.mount, tables, fits=False))


@lru_cache(maxsize=_KEPT)
def first_advice(mount: MountPoint, tables: Tables, owned: Owned | None = None) -> Advice:
    """The same with its first answer alone; where there is none, with all refusals, and no small change of any.

    It is all that a list needs, and takes a fraction of the proofs. `named` looks for the changes.
    """
    return _settled(mount, _Asked(tables, owned, _first_advised))


@record
class _Asked:
    """How a mount point is answered: with all that fits, or with the first alone."""

    tables: Tables
    owned: Owned | None
    advised: Callable[[Trials], Advice]

    def of(self, mount: MountPoint) -> Advice:
        """What fits exactly this mount point."""
        return self.advised(self._trials(mount))

    def if_any(self, mount: MountPoint) -> Advice | None:
        """The same where anything fits; why nothing does is not asked for."""
        trials = self._trials(mount)
        return None if foremost(trials) is None else self.advised(trials)

    def _trials(self, mount: MountPoint) -> Trials:
        return Trials(METHODS, mount, self.tables, self.owned)


def _settled(mount: MountPoint, asked: _Asked) -> Advice:
    """The answer to a mount point, or to it with what is only preset changed."""
    tables = asked.tables
    found = _with_item_opened(asked.of(mount), asked)
    return or_smaller(found, grounds.smaller_stud(mount, tables), asked.if_any)


def _with_item_opened(found: Advice, asked: _Asked) -> Advice:
    """The advice with larger item holes, where their preset alone keeps what exists already from being used, or all.

    The smallest that does is proved; a hole that was given is never changed.
    """
    mount, tables = found.mount, asked.tables
    if existing_use.is_blocked(mount, found.answers):
        for opened in item_hole.opened(mount, tables):
            other = asked.if_any(opened)
            if other is not None:
                found = _said_of(found, other)
                if existing_use.uses(opened, other.answers[0]):
                    return _first_says(other, remark.item_opened(opened, mount))
    if found.answers or not item_hole.is_preset(mount):
        return found
    next_up = item_hole.one_size_up(mount, tables)
    other = None if next_up is None else asked.if_any(next_up)
    if other is None or other.answers[0].proposal.joint.patch is not None:
        return found  # no item is drilled for a bond
    return _first_says(other, *_opened_instead(other, mount, tables))


def _opened_instead(opened: Advice, asked: MountPoint, tables: Tables) -> Iterator[str]:
    """That nothing fits the preset item holes, and what would let them stay: a floor under the item, more fixings."""
    first = opened.answers[0].proposal
    yield remark.item_opened_instead(opened.mount, asked, size(first.joint))
    on_floor = [(replace(asked, panel=Panel.FLOOR), A_FLOOR)] if asked.panel is Panel.UNKNOWN else []
    for changes in (on_floor, change.more_fixings(asked)):
        text = _first_that_fits(_BY_NAME[first.method], changes, tables)
        if text is not None:
            yield remark.item_left(asked, text)


def _first_says(found: Advice, *remarks: str) -> Advice:
    """The advice with these remarks before all others of its first answer."""
    first, *others = found.answers
    return replace(found, answers=(replace(first, remarks=(*remarks, *first.remarks)), *others))


def _said_of(found: Advice, other: Advice) -> Advice:
    """The advice with what that with larger item holes says of an existing thread that it leaves aside."""
    if not found.answers or found.mount.existing_thread is None:
        return found
    return replace(found, answers=(replace(found.answers[0], remarks=other.answers[0].remarks), *found.answers[1:]))


def _advised(trials: Trials) -> Advice:
    """What fits exactly this mount point."""
    mount, tables, owned = trials.mount, trials.tables, trials.owned
    found = [tried(trials.of(method)) for method in METHODS]
    proposals = [proposal for one in found for proposal in one.kept]
    refusals = tuple(
        replace(refused, title=method_words(tables, refused.method).title) for one in found for refused in one.refused
    )
    scored = sorted(((score(p, mount, tables, owned), p) for p in proposals), key=lambda pair: order(*pair))
    answers = tuple(answer(rank, points, p, mount, tables) for rank, (points, p) in enumerate(scored, 1))
    bare = min((one.bare for one in found if one.bare is not None), key=lambda pair: pair[0], default=None)
    shelf = () if bare is None or not scored else _without_shelf(scored[0], bare[1], mount, tables)
    remarks = (*remark.set_aside(mount, answers, refusals), *shelf)
    answers = tuple(replace(a, remarks=remarks if a.rank == 1 else ()) for a in answers)
    ground = grounds.ground_joint(mount, tables)
    stiffer = () if answers else _remedies(mount, tables)
    on = (
        existing.lies(answers[0].proposal.joint, mount, tables)
        if answers
        else existing.lies_with_largest(mount, tables)
    )
    return Advice(mount, answers, refusals, _sources(answers, ground, tables), ground, stiffer, on)


def _first_advised(trials: Trials) -> Advice:
    """The first answer that fits exactly this mount point."""
    mount, tables, owned = trials.mount, trials.tables, trials.owned
    first = foremost(trials)
    if first is None:
        return _advised(trials)
    scored = score(first, mount, tables, owned), first
    answers = (answer(1, *scored, mount, tables),)
    if remark.is_set_aside(mount, answers):  # which answer uses it, or why none does, only all of them say
        found = _advised(trials)
        return Advice(mount, found.answers[:1], (), ())
    bare = None if owned is None else foremost(trials, is_bare=True)
    shelf = () if bare is None else _without_shelf(scored, bare, mount, tables)
    return Advice(mount, tuple(replace(one, remarks=shelf) for one in answers), (), ())


def _remedies(mount: MountPoint, tables: Tables) -> tuple[Remedy, ...]:
    """What would make the panel stiff enough, where nothing says that it is; a frame and what stands on one is."""
    return () if isinstance(mount.support, OnFrame) else remedies(mount, tables)


@lru_cache(maxsize=_KEPT)
def all_refusals(mount: MountPoint, tables: Tables) -> tuple[Refusal, ...]:
    """Every refusal of a mount point with the small changes that would turn it.

    Where nothing fits the first advice has them already, and `named` has looked for some of the changes.
    """
    found = first_advice(mount, tables, None)  # asked as a list without a shelf asks, so that it is kept
    if found.answers:
        return advise(mount, tables).refusals
    return _with_changes(found.refusals, found.mount, tables, fits=False)


def method_of(name: str) -> Method | None:
    """The method of this name; None where a file names one that there is not."""
    return _BY_NAME.get(name)


def method_by(joint: Joint) -> Method:
    """The method that made a joint."""
    return _BY_NAME[joint.method]


def _without_shelf(
    scored: tuple[Score, Proposal], bare: Proposal, mount: MountPoint, tables: Tables
) -> tuple[str, ...]:
    """Where the shelf changed which answer is first, a sentence that says which would be."""
    points, first = scored
    if bare is first:
        return ()
    now, else_ = (answer(1, points, proposal, mount, tables).title for proposal in (first, bare))
    return (remark.without_shelf(else_),) if else_ != now else ()


# -- one small change -------------------------------------------------------------------------------------------------


def _with_changes(
    refusals: tuple[Refusal, ...], mount: MountPoint, tables: Tables, *, fits: bool
) -> tuple[Refusal, ...]:
    """The refusals with the small changes that would turn each; `fits` says that something does."""
    return tuple(
        turned(refused, mount, tables) if _worth_a_try(refused, fits=fits) else refused for refused in refusals
    )


def named(found: Advice, count: int, tables: Tables) -> tuple[Refusal, ...]:
    """So many refusals of a mount point that nothing fits: first what a small change turns, proofs before gates.

    `found` is without changes; no more of them are looked for than it takes to know these.
    """
    cured, left = list[Refusal](), list[Refusal]()
    for refused in sorted(found.refusals, key=lambda refused: refused.check is None):
        if len(cured) < count:
            (tried,) = _with_changes((refused,), found.mount, tables, fits=False)
            (left if tried.change is None else cured).append(tried)
    return (*cured, *left)[:count]


def _worth_a_try(refused: Refusal, *, fits: bool) -> bool:
    """A change is looked for where nothing fits, or where a proof failed: an existing hole stays as it is."""
    no_small_one = refused.check == EXISTING_HOLE or isinstance(refused.cure, OtherMaterial)
    return refused.change is None and not no_small_one and (not fits or refused.check is not None)


@lru_cache(maxsize=_KEPT)
def turned(refused: Refusal, mount: MountPoint, tables: Tables) -> Refusal:
    """The refusal with the small changes that would turn it, each proved by trying it."""
    found = _changes(refused, _BY_NAME[refused.method], mount, tables)
    return replace(refused, change=" or ".join(found)) if found else refused


def _changes(refused: Refusal, method: Method, mount: MountPoint, tables: Tables) -> list[str]:
    """Each alone turns the refusal; where none does, those that do once the other side is reached or it is a floor."""
    if refused.check == STIFFNESS:
        return [one.text for one in remedies(mount, tables)]
    if isinstance(refused.cure, OtherSide):
        return _after(method, replace(mount, reach=Reach.BOTH_SIDES), BOTH_SIDES, tables)
    kinds: list[Iterable[change.Change]] = [
        change.cut_out(mount, tables), change.more_behind(refused, mount), change.a_boss(refused, mount, tables),
        change.thicker(refused, mount, tables),
    ]  # fmt: skip
    if not _is_fixed(refused) and mount.ring is None:  # the ring has its hole, and one stud
        kinds += [change.larger_hole(mount, tables), change.more_fixings(mount)]
    found = [text for changes in kinds if (text := _first_that_fits(method, changes, tables)) is not None]
    if found or mount.panel is not Panel.UNKNOWN or refused.check is None or _is_fixed(refused):
        return found
    return _after(method, replace(mount, panel=Panel.FLOOR), A_FLOOR, tables)


def _is_fixed(refused: Refusal) -> bool:
    """Whether neither a larger hole nor more fixings can cure it."""
    return refused.check in NOT_BY_LOAD or isinstance(refused.cure, ThickerBoard)


def _after(method: Method, changed: MountPoint, text: str, tables: Tables) -> list[str]:
    """What is left to change once this is; nothing but this where it fits then."""
    if first_proved(method, changed, tables) is not None:
        return [text]
    misses = best_of_method(method, replace(changed, spread=NO_WIDER), demands(changed, tables), tables, None).refused
    found = [f"{text} and {more}" for more in _changes(misses[0], method, changed, tables)] if misses else []
    if found and changed.panel is Panel.UNKNOWN:  # the panel is to be said first
        return found
    spread = next(
        filter(None, (first_proved(method, one, tables) for one in wider(changed, tables, method.NAME))), None
    )
    parts = () if spread is None else spreaders_of(spread.joint, tables)
    return [*found, *([" and ".join((text, *map(spreader_text, parts)))] if parts else [])]


def _first_that_fits(method: Method, changes: Iterable[tuple[MountPoint, str]], tables: Tables) -> str | None:
    for changed, text in changes:
        proposal = first_proved(method, changed, tables)
        if proposal is not None:
            return text.format(thread=size(proposal.joint))
    return None


def _sources(answers: tuple[Answer, ...], ground: GroundJoint | None, tables: Tables) -> tuple[SourceNote, ...]:
    ids = {source for answer in answers for check in answer.proposal.checks for source in check.from_} | {
        source for a in answers if a.proposal.torque for source in a.proposal.torque.from_
    }
    ids |= set(ground.from_ if ground is not None else ())
    notes = [(identity, tables.source(identity)) for identity in sorted(ids)]
    return tuple(SourceNote(identity, source.basis, source.text) for identity, source in notes)
