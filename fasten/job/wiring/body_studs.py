"""The size and the torque of a body stud that is a mount point of the job: its answer has them, the run that ends there
takes them.
"""

from collections.abc import Iterable, Mapping

from fasten.catalog.tables import Tables
from fasten.job.choices import Choice
from fasten.job.store.job_toml import same_name
from fasten.job.wiring.runs import RunChoice
from fasten.model.plan import Plan
from fasten.record import replace
from fasten.wiring.ends import OF_MOUNT, EndFit, Turn
from fasten.wiring.places import place_of
from fasten.wiring.wired import Wired, answered
from fasten.wiring.words import End, StudAt, StudEnd


def on_studs(runs: tuple[RunChoice, ...], mounts: Iterable[Choice], tables: Tables) -> tuple[RunChoice, ...]:
    """The runs at every body stud that is one of these mount points as its answer has it: its size, and its torque.

    A stud whose size was not said may be smaller in the answer than the one that the cable usually has.
    """
    planned = [(same_name(one.name), one.point, one.plan) for one in mounts if one.plan is not None]
    sizes = {name: point.ring for name, point, _ in planned if point is not None and point.ring is not None}
    turns = {name: turn for name, _, plan in planned if (turn := _turn(plan)) is not None}
    return tuple(_with_torques(_with_sizes(run, sizes, tables), turns) for run in runs)


def _with_sizes(choice: RunChoice, sizes: Mapping[str, str], tables: Tables) -> RunChoice:
    """The run answered anew where a stud at its ends is of another size."""
    if choice.answer is None:
        return choice
    sizing, through = choice.answer.sizing, choice.answer.done.through
    run = sizing.run
    from_, to = _on_size(run.from_, run.from_name, sizes), _on_size(run.to, run.to_name, sizes)
    if (from_, to) == (run.from_, run.to):
        return choice
    answer = answered(replace(sizing, run=replace(run, from_=from_, to=to)), tables, choice.run.accepted)
    return replace(choice, answer=replace(answer, done=replace(answer.done, through=through)))


def _on_size(end: End, name: str, sizes: Mapping[str, str]) -> End:
    if not (name and isinstance(end, StudEnd) and end.at is StudAt.BODY):
        return end
    size = sizes.get(same_name(name))
    return end if size is None else replace(end, stud=size)


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
