"""A screw length is missing: what else will do, each proved anew in the mount point's own joint."""

from collections.abc import Iterator

from fasten.advice.advise import method_by
from fasten.advice.parts import fitted_parts
from fasten.advice.screw_length import BOTTOMS, resized, with_length
from fasten.catalog.tables import Tables
from fasten.geometry.joint import screw_of
from fasten.job.choices import Choice, best_of, proofs
from fasten.job.list.parts import same_part
from fasten.job.shelf.view import ShelfView
from fasten.job.words import Shelf
from fasten.model import Answer, Joint, MountPoint, Refusal
from fasten.model.kinds import Listed
from fasten.model.line import Part
from fasten.record import record, replace


@record
class Candidate:
    """A length that may do instead, and how many of it are there; None where that is not known."""

    length_mm: float
    count: int | None = None


@record
class Substitute:
    """A screw of another length in the joint of a mount point: its proof, or why it will not do.

    `needed` are wanted there and `count` are at hand. What engages, what stands out past the thread and what is needed
    behind are of the joint with this screw, whether or not it does.
    """

    part: Part
    count: int | None
    needed: int
    verdict: Answer | Refusal
    bottoms_out: bool
    engagement_mm: float
    protrusion_mm: float
    behind_needed_mm: float

    @property
    def does(self) -> bool:
        """Whether every check that can be made holds with it."""
        return isinstance(self.verdict, Answer)

    @property
    def enough(self) -> bool:
        """Whether there are as many as are wanted, as far as that is known."""
        return self.count is None or self.count >= self.needed


def instead(choice: Choice, candidates: tuple[Candidate, ...], tables: Tables) -> tuple[Substitute, ...]:
    """Each candidate proved at this mount point: what does and is there in number first, the nearest length first.

    Empty where the mount point has no answer, or none with a screw whose length can be changed.
    """
    wanted = missing_screw(choice, tables)
    if wanted is None or choice.point is None or choice.answer is None:
        return ()
    joint, point = choice.answer.proposal.joint, choice.point
    length_mm = screw_of(joint).length_mm
    found = []
    for candidate in candidates:
        changed = resized(joint, candidate.length_mm, point, tables)
        if changed is not None:
            found.append((candidate.length_mm - length_mm, _tried(joint, changed, point, wanted, candidate, tables)))
    return tuple(entry for _, entry in sorted(found, key=lambda pair: _place(*pair)))


def missing_screw(choice: Choice, tables: Tables) -> Part | None:
    """The screw of a mount point's answer; None where there is none, or its length belongs to the part."""
    if choice.answer is None or choice.point is None:
        return None
    joint = choice.answer.proposal.joint
    if joint.screw is None or resized(joint, joint.screw.length_mm, choice.point, tables) is None:
        return None
    return next((one.part for one, _ in fitted_parts(joint, tables) if one.kind.listed is Listed.SCREW), None)


def on_shelf(choice: Choice, shelf: Shelf, tables: Tables) -> tuple[Candidate, ...]:
    """The lengths on a shelf of the screw that a mount point wants, the same but for its length."""
    wanted = missing_screw(choice, tables)
    if wanted is None:
        return ()
    found = (
        Candidate(part.length_mm, count) for part, count in _screws(wanted, shelf, tables)
        if part.length_mm is not None and _alike(part) == _alike(wanted)
    )  # fmt: skip
    return tuple(sorted(found, key=lambda candidate: candidate.length_mm))


def others_on_shelf(choice: Choice, shelf: Shelf, tables: Tables) -> tuple[Part, ...]:
    """Screws of the same thread on a shelf that differ in more than their length: they are not tried."""
    wanted = missing_screw(choice, tables)
    if wanted is None:
        return ()
    return tuple(sorted(part for part, _ in _screws(wanted, shelf, tables) if _alike(part) != _alike(wanted)))


def _screws(wanted: Part, shelf: Shelf, tables: Tables) -> Iterator[tuple[Part, int]]:
    """The screws on the shelf with this thread, each once with its count, spelled as on the shelf."""
    view, kind, size = ShelfView(shelf, tables), same_part(wanted).kind, same_part(wanted).size
    parts = {same_part(entry.part): entry.part for entry in reversed(shelf.parts)}
    for key, part in parts.items():
        if key.kind == kind and key.size == size and view.part(key).count:
            yield part, view.part(key).count


def _alike(part: Part) -> Part:
    """What two screws are alike in that differ in length alone."""
    return replace(same_part(part), length_mm=None)


def _tried(
    joint: Joint, changed: Joint, point: MountPoint, wanted: Part, candidate: Candidate, tables: Tables
) -> Substitute:
    """What a joint comes to once it is `changed` to the length of a candidate."""
    proved = proofs(method_by(joint), [with_length(joint, candidate.length_mm, point, tables)], point, tables)
    verdict, screw = best_of(proved, point, tables), screw_of(changed)
    return Substitute(
        part=replace(wanted, length_mm=candidate.length_mm), count=candidate.count, needed=point.fixings,
        verdict=verdict, bottoms_out=isinstance(verdict, Refusal) and verdict.check == BOTTOMS,
        engagement_mm=screw.engagement_mm, protrusion_mm=screw.protrusion_mm,
        behind_needed_mm=max(changed.behind_set_mm, changed.behind_done_mm),
    )  # fmt: skip


def _place(more_mm: float, entry: Substitute) -> tuple[bool, bool, float, float]:
    """What does first, then what is there in number, then the nearest length, then the shorter."""
    return not entry.does, not entry.enough, max(more_mm, -more_mm), more_mm
