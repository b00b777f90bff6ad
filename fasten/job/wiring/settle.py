"""What of the runs of a job is still to be measured, seen or said, in the order of what it changes."""

from collections.abc import Iterator

from fasten.job.wiring.runs import RunChoice
from fasten.job.wiring.ways import WayChoice
from fasten.job.words import Job
from fasten.model import Status
from fasten.record import record, replace
from fasten.wiring.accepted import MATERIAL, rank
from fasten.wiring.fields import FROM, GROUND, INSULATION, OWN_FUSES, TO
from fasten.wiring.words import DeviceEnd, Run

_OF_RUNS = frozenset({"bundle"})  # what of a section its runs are asked for already


@record
class ToSettle:
    """One thing to settle: its title, what it needs, and the runs it is of.

    `id` is what it is accepted by; empty where no look settles it. `accepted` where the user has. `word` is the field
    of the run that it is said in; empty where it is none.
    """

    id: str
    title: str
    needs: str
    runs: tuple[str, ...]
    accepted: bool
    word: str = ""
    is_of_run: bool = True


def to_settle(found: tuple[RunChoice, ...], ways: tuple[WayChoice, ...] = ()) -> tuple[ToSettle, ...]:
    """Everything to settle, each once with the runs, sections and holes it is of; what changes most first."""
    things: dict[str, tuple[int, ToSettle]] = {}
    for choice in found:
        for check, thing in _of(choice):
            key = thing.id or f"{choice.name}/{check}"
            if key in things:
                before = things[key][1]
                accepted = before.accepted and thing.accepted
                thing = replace(before, runs=(*before.runs, choice.name), accepted=accepted)  # noqa: PLW2901
            things[key] = rank(check), thing
    for way in ways:
        things |= {thing.id or f"{way.name}/{check}": (rank(check), thing) for check, thing in _of_way(way)}
    return tuple(thing for _, thing in sorted(things.values(), key=lambda entry: entry[0]))


def settled(job: Job, found: tuple[RunChoice, ...], id_: str, *, accept: bool, ways: tuple[WayChoice, ...] = ()) -> Job:
    """The job with one thing accepted, or not any more, in every run, section and hole that has it to settle."""
    having = {
        choice.name for choice in found
        if choice.answer is not None and any(one.id == id_ for one in choice.answer.confirms)
    }  # fmt: skip

    def changed(accepted: tuple[str, ...]) -> tuple[str, ...]:
        return (*(one for one in accepted if one != id_), *((id_,) if accept else ()))

    ways_having = {way.name for way in ways if any(one.id == id_ for one in way.confirms)}
    sections, holes = (
        tuple(replace(one, accepted=changed(one.accepted)) if one.name in ways_having else one for one in entries)
        for entries in (job.sections, job.holes)
    )  # fmt: skip
    runs = (
        replace(run, accepted=changed(run.accepted)) if run.name in having else run
        for run in job.runs
    )  # fmt: skip
    return replace(job, runs=tuple(runs), sections=sections, holes=holes)


def _of(choice: RunChoice) -> Iterator[tuple[str, ToSettle]]:
    """Each check of a run that is open, or was until it was accepted, by its id."""
    answer = choice.answer
    if answer is None:
        return
    confirms = {one.check: one for one in answer.confirms}
    for check in answer.checks:
        confirm = confirms.get(check.id)
        if check.status is Status.NOT_CHECKED or confirm is not None:
            id_ = "" if confirm is None else confirm.id
            accepted = confirm is not None and confirm.accepted
            needs = (check.needs or "").removeprefix("needs ")
            word = _word_of(check.id, answer.sizing.run)
            yield check.id, ToSettle(id_, check.title, needs, (choice.name,), accepted, word)


def _of_way(way: WayChoice) -> Iterator[tuple[str, ToSettle]]:
    """The same of a section or hole."""
    confirms = {one.check: one for one in way.confirms}
    for check in way.plan.checks if way.plan is not None else ():
        confirm = confirms.get(check.id)
        if confirm is not None or (check.status is Status.NOT_CHECKED and check.id not in _OF_RUNS):
            id_, accepted = ("", False) if confirm is None else (confirm.id, confirm.accepted)
            needs = (check.needs or "").removeprefix("needs ")
            yield check.id, ToSettle(id_, check.title, needs, (way.name,), accepted, is_of_run=False)


def _word_of(check: str, run: Run) -> str:
    """The field in which it is said: the end whose terminal is open, or that of what counts until then."""
    kind, _, name = check.partition(".")
    if kind in (INSULATION.name, OWN_FUSES.name, GROUND.name, MATERIAL):
        return kind
    if kind != "terminal":
        return ""
    return FROM.name if isinstance(run.from_, DeviceEnd) and run.from_.name == name else TO.name
