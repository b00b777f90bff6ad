"""Fewest different cables, terminals and heat-shrinks: runs take a thicker cable that another run has already.

A run never takes a thinner cable, nor another where the user chose one. Every choice is sized and proved anew.
"""

from collections.abc import Iterator
from itertools import combinations

from fasten.catalog.job_parts import SIZE_WEIGHTS
from fasten.catalog.tables import Tables
from fasten.job.list.parts import part_text
from fasten.job.wiring.runs import RunChoice, run_choices
from fasten.job.words import CableRun, Job
from fasten.model import Status
from fasten.model.kinds import Listed
from fasten.record import record, replace
from fasten.text.figures import figure
from fasten.wiring.conditions import is_ready_made
from fasten.wiring.fields import CABLE, INSULATION
from fasten.wiring.parts import CABLE as CABLE_KEY
from fasten.wiring.parts import SHRINK
from fasten.wiring.wired import Wired
from fasten.wiring.words import Loudspeaker

CABLES, TERMINALS, COPPER = CABLE_KEY, "terminal", "copper"
CABLE_KINDS = (CABLES, TERMINALS, SHRINK)
_MOST = 7  # sizes of cable of a job whose every choice is tried: 64 choices
_MM_PER_M = 1000.0

Thing = tuple[str, str]


@record
class CableChange:
    """A run with the size of its cable as it stands and in the choice with the fewest sizes."""

    run: str
    before: str
    after: str


@record
class FewerCables:
    """The different cables, terminals and heat-shrinks of the runs of a job before and after, with their points.

    `copper_mm2_m` is how much more copper the thicker cables take: area times length. `is_all` says that every choice
    was tried.
    """

    before: tuple[Thing, ...]
    after: tuple[Thing, ...]
    before_cost: float
    cost: float
    copper_mm2_m: float
    changes: tuple[CableChange, ...]
    is_all: bool


def fewer_cables(job: Job, tables: Tables) -> FewerCables:
    """The choice that costs least by the weights; what stands is one of them."""
    found = run_choices(job, tables)
    weights = {row.kind: row.points for row in tables.rows(SIZE_WEIGHTS)}
    standing = _things(found)
    before_cost = _cost(standing, 0.0, weights)
    best = (before_cost, standing, 0.0, {one.name: _size(one) for one in found if _is_free(one)})
    kept_sets = list(_kept(found))
    for kept in kept_sets:
        sizes = {one.name: _taken(one, kept, found) for one in found if _is_free(one)}
        tried = run_choices(_with_sizes(job, found, sizes), tables)
        if not _is_as_good(found, tried):
            continue
        things, copper = _things(tried), _copper(tried) - _copper(found)
        cost = _cost(things, copper, weights)
        if cost < best[0] - 1e-9:
            best = (cost, things, copper, sizes)
    cost, after, copper, sizes = best
    changes = (CableChange(one.name, _size(one), sizes[one.name]) for one in found if _is_free(one))
    return FewerCables(
        tuple(sorted(standing)), tuple(sorted(after)), before_cost, cost, copper,
        tuple(change for change in changes if change.before != change.after), is_all=len(_areas(found)) <= _MOST,
    )  # fmt: skip


def with_changes(job: Job, found: FewerCables, tables: Tables) -> Job:
    """The job whose runs have the cable of the choice, as if the user had chosen it."""
    sizes = {change.run: change.after for change in found.changes}
    return _with_sizes(job, run_choices(job, tables), sizes)


def _is_free(one: RunChoice) -> bool:
    """Whether the cable of a run may be another: it has an answer, is made up, and nobody chose its cable."""
    return one.answer is not None and CABLE.name not in dict(one.run.said) and not is_ready_made(one.answer.done)


def _size(one: RunChoice) -> str:
    assert one.answer is not None
    return one.answer.sizing.size.name


def _areas(found: tuple[RunChoice, ...]) -> dict[str, float]:
    """The sizes of cable of the runs that may take another, thickest first."""
    sizes = {one.answer.sizing.size for one in found if one.answer is not None and _is_free(one)}
    return {size.name: size.area_mm2 for size in sorted(sizes, key=lambda size: -size.area_mm2)}


def _kept(found: tuple[RunChoice, ...]) -> Iterator[dict[str, float]]:
    """Each set of sizes that may be left, the thickest always among them; of many sizes one is left out at a time."""
    areas = _areas(found)
    thickest, *others = areas or {"": 0.0}
    counts = range(len(others)) if len(areas) <= _MOST else (len(others) - 1,)
    for count in counts:
        for some in combinations(others, count):
            yield {name: areas[name] for name in (thickest, *some) if name}


def _taken(one: RunChoice, kept: dict[str, float], found: tuple[RunChoice, ...]) -> str:
    """The thinnest size left that is no thinner than the run's own, and that a run of its sort has by itself.

    Loudspeaker leads are of another sort: what power runs take is not sold with two conductors.
    """
    assert one.answer is not None
    own = one.answer.sizing.size
    of_sort = {_size(other) for other in found if other.answer is not None and _is_lead(other) == _is_lead(one)}
    alike = ((area, name) for name, area in kept.items() if name in of_sort and _series(name) == _series(own.name))
    return min(((area, name) for area, name in alike if area >= own.area_mm2), default=(0.0, own.name))[1]


def _is_lead(one: RunChoice) -> bool:
    return one.answer is not None and isinstance(one.answer.sizing.run.carries, Loudspeaker)


def _series(name: str) -> str:
    return name.rpartition(" ")[2]


def _with_sizes(job: Job, found: tuple[RunChoice, ...], sizes: dict[str, str]) -> Job:
    had = {one.name: one for one in found}
    return replace(job, runs=tuple(_with_size(run, had[run.name], sizes.get(run.name, "")) for run in job.runs))


def _with_size(run: CableRun, one: RunChoice, size: str) -> CableRun:
    if one.answer is None or size in ("", _size(one)):
        return run
    marked = f"{figure(one.answer.sizing.run.insulation_c)} C"
    said = {name: text for name, text in run.said if name not in (CABLE.name, INSULATION.name)}
    return replace(run, said=(*said.items(), (CABLE.name, size.replace("²", "2")), (INSULATION.name, marked)))


def _is_as_good(found: tuple[RunChoice, ...], tried: tuple[RunChoice, ...]) -> bool:
    """Whether every run that had an answer has one still, of which no more fails or is open than before."""
    return all(
        was.answer is None or (now.answer is not None and _left(now.answer) <= _left(was.answer))
        for was, now in zip(found, tried, strict=True)
    )


def _left(answer: Wired) -> int:
    """How many checks of a run do not hold."""
    return sum(check.status is not Status.HOLDS for check in answer.checks)


def _things(found: tuple[RunChoice, ...]) -> frozenset[Thing]:
    """The different cables, terminals and heat-shrinks that runs take."""
    plans = [one.plan for one in found if one.plan is not None]
    parts = (
        (TERMINALS, part_text(need.part)) for plan in plans for need in plan.parts if need.listed is Listed.TERMINAL
    )
    kinds = {CABLE_KEY: CABLES, SHRINK: SHRINK}
    rest = ((kinds[need.id.key], need.detail) for plan in plans for need in plan.consumables if need.id.key in kinds)
    return frozenset((*parts, *rest))


def _copper(found: tuple[RunChoice, ...]) -> float:
    """The copper of all runs: area times length [mm² m]."""
    made = ((one.answer.sizing.size.area_mm2, piece.cut_mm) for one in found if one.answer is not None
            for piece in one.answer.done.made.pieces)  # fmt: skip
    return sum(area * cut_mm / _MM_PER_M for area, cut_mm in made)


def _cost(things: frozenset[Thing], copper: float, weights: dict[str, float]) -> float:
    return sum(weights[kind] for kind, _ in things) + copper * weights[COPPER]
