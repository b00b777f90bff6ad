"""The torque of a body stud that is a mount point of the job: its answer has it, the run that ends there says it."""

from collections.abc import Iterable, Mapping
from dataclasses import replace

from fasten.job.entry import Entry
from fasten.job.store.job_toml import same_name
from fasten.job.wiring.runs import RunChoice
from fasten.model.plan import Plan
from fasten.wiring.ends import OF_MOUNT, EndFit, Turn
from fasten.wiring.places import place_of
from fasten.wiring.wired import Wired
from fasten.wiring.words import End, StudAt, StudEnd


def with_torques(runs: tuple[RunChoice, ...], mounts: Iterable[Entry]) -> tuple[RunChoice, ...]:
    """The runs with the torque of every body stud that is one of these mount points and has a figure."""
    found = ((same_name(one.name), _turn(one.plan)) for one in mounts if one.plan is not None)
    turns = {name: turn for name, turn in found if turn is not None}
    return tuple(_with_torques(run, turns) for run in runs)


def body_studs(run: RunChoice) -> frozenset[str]:
    """The names, as names are compared, of the mount points that are the body studs of a run."""
    return frozenset(name for name, _ in _studs(run.answer)) if run.answer is not None else frozenset()


def _studs(answer: Wired) -> Iterable[tuple[str, str]]:
    """The body studs of a run that are mount points: each by its name, and the key of the end there."""
    run = answer.sizing.run
    for end, name in ((run.from_, run.from_name), (run.to, run.to_name)):
        if name and _is_body(end):
            yield same_name(name), place_of(end, name)


def _is_body(end: End) -> bool:
    return isinstance(end, StudEnd) and end.at is StudAt.BODY


def _turn(plan: Plan) -> Turn | None:
    label = plan.label
    if label.target_nm is None:
        return None
    return Turn(OF_MOUNT, label.least_nm, None, label.target_nm, label.past_driving)


def _with_torques(run: RunChoice, turns: Mapping[str, Turn]) -> RunChoice:
    answer = run.answer
    at = {} if answer is None else {place: turns[name] for name, place in _studs(answer) if name in turns}
    if answer is None or not at:
        return run
    made = answer.done.made
    ends = tuple(_turned(end, at.get(end.place)) for end in made.ends)
    done = replace(answer.done, made=replace(made, ends=ends))
    return replace(run, answer=replace(answer, done=done))


def _turned(end: EndFit, turn: Turn | None) -> EndFit:
    return end if turn is None else replace(end, turn=turn)
