"""The work at the mount point in hand: its steps in groups, and which of them is next. No widgets here."""

from collections.abc import Iterable, Iterator

from fasten.catalog.tables import Tables
from fasten.job.choices import Choice, choice_in_job
from fasten.job.series import Use
from fasten.job.shelf.owned import owned_of
from fasten.job.ticked import StepState
from fasten.job.wiring.runs import RunChoice
from fasten.job.wiring.ways import WayChoice
from fasten.job.words import Job, Shelf
from fasten.job.work import of_job, states_of
from fasten.model import Phase
from fasten.record import record

BEFORE, AFTER = "before everything", "after everything"


@record
class Spot:
    """A step by its id, and a hole of it by its number (0: it is ticked once)."""

    id: str
    hole: int


@record
class Group:
    """Steps that are numbered together: those of the mount point, without a title, or what comes once for the job."""

    title: str
    states: tuple[StepState, ...]


@record
class Work:
    """What is done at a mount point, run, hole or section: `at` is which it is of how many, mount points first.

    Without a plan there are no steps. `name` is what it is called where that is not the mount point in hand, `follows`
    what comes next where that is none. `markers` are those of a run, as they are on paper, each with where it goes.
    """

    at: int
    mounts: int
    choice: Choice | RunChoice | WayChoice
    groups: tuple[Group, ...]
    name: str = ""
    follows: str = ""
    markers: tuple[tuple[str, str], ...] = ()

    @property
    def onward(self) -> str:
        """What comes after it, in words."""
        if self.follows:
            return f"on to {self.follows}"
        return "on to the next mount point" if self.at + 1 < self.mounts else "back to the beginning"

    @property
    def spots(self) -> tuple[Spot, ...]:
        """All that can be ticked, in order."""
        return tuple(spot for _, state in self.steps for spot in spots_of(state))

    @property
    def steps(self) -> Iterator[tuple[Group, StepState]]:
        """Every step with its group."""
        return ((group, state) for group in self.groups for state in group.states)

    def state(self, spot: Spot) -> StepState:
        """The step of a spot."""
        return next(state for _, state in self.steps if state.step.id == spot.id)

    def group(self, spot: Spot) -> tuple[Group, int]:
        """The group of a spot, and the number of its step there, from 1 on."""
        found = ((group, number) for group in self.groups for number, state in enumerate(group.states, 1)
                 if state.step.id == spot.id)  # fmt: skip
        return next(found)

    def has(self, spot: Spot | None) -> bool:
        """Whether there is this spot."""
        return spot in self.spots

    def is_of_job(self, spot: Spot) -> bool:
        """Whether it is ticked once for the whole job."""
        return self.group(spot)[0].title != ""

    def is_done(self, spot: Spot) -> bool:
        """Whether it is ticked as it is wanted now."""
        state = self.state(spot)
        return next(hole.is_done for hole in state.holes if hole.number == spot.hole) if spot.hole else state.is_done

    def next(self, after: Spot | None = None) -> Spot | None:
        """What is to be done next: after this spot, else before it; None where all is, but for what comes later.

        What was passed over comes before the record: who writes down what was built has done all of it.
        """
        spots = self.spots
        begin = spots.index(after) + 1 if after in spots else 0
        found = next(filter(self._is_open, (*spots[begin:], *spots[:begin])), None)
        if found is None or self.state(found).step.phase is not Phase.RECORD:
            return found
        return next((spot for spot in spots[:begin] if self._is_open(spot) and not self.is_of_job(spot)), found)

    def first_new(self, was: "Work", until: Spot) -> Spot | None:
        """The first spot before another that is open and was not there before, as a repair adds some."""
        spots, known = self.spots, frozenset(was.spots)
        before = spots[: spots.index(until)]
        return next((spot for spot in before if spot not in known and self._is_open(spot)), None)

    def beside(self, spot: Spot, steps: int) -> Spot:
        """The spot so many on or back."""
        spots = self.spots
        return spots[min(max(spots.index(spot) + steps, 0), len(spots) - 1)]

    def _is_open(self, spot: Spot) -> bool:
        return not self.is_done(spot) and self.state(spot).step.phase is not Phase.LATER


def spots_of(state: StepState) -> tuple[Spot, ...]:
    """What of a step can be ticked: its holes, or itself."""
    return tuple(Spot(state.step.id, hole.number) for hole in state.holes) or (Spot(state.step.id, 0),)


def work_of(job: Job, at: int, shelf: Shelf | None, uses: Iterable[Use], tables: Tables) -> Work:
    """The work at a mount point of a job, by the series that the others use.

    What comes before everything stands first; what comes after it with the last mount point, where cable follows it
    with the last of that.
    """
    cable = tuple(one.name for one in (*job.holes, *job.sections)) + tuple(run.name for run in job.runs)
    count, is_last = len(job.mounts) + len(cable), at == len(job.mounts) - 1
    follows = cable[0] if is_last and cable else ""
    found = choice_in_job(job.mounts[at], job, uses, tables, owned_of(shelf, tables))
    if found.plan is None:
        return Work(at, count, found, (), follows=follows)
    own = Group("", states_of(found.ticked, found.plan, found.built, tables))
    before, after = (of_job(job, phase, tables) for phase in (Phase.BEFORE, Phase.AFTER))
    last = (Group(AFTER, after),) if is_last and not cable else ()
    return Work(at, count, found, (Group(BEFORE, before), own, *last), follows=follows)
