"""The first answer of all methods, with no more proved than it takes to be sure of it.

No proof makes a place better than a joint has it without one, nor a joint better than what counts alike for all joints
of its method. So methods are looked into, and their joints proved, from the one with the best place on, until none that
is left can come before what was found.
"""

from collections.abc import Iterator
from heapq import heappop, heappush
from itertools import count

from fasten.advice.method import Method
from fasten.advice.ranking import Place, least_place, place_of
from fasten.advice.trial import Trial, Trials
from fasten.model import Proposal, Refusal

_Steps = Iterator[Place]
"""Looking into a method, step by step: before each, a place that nothing comes before which is still to be found."""


def foremost(trials: Trials, *, is_bare: bool = False) -> Proposal | None:
    """The first answer of all; `is_bare` where nothing of it counts as owned. None where nothing fits."""
    if is_bare not in trials.first:
        trials.first[is_bare] = _Search(trials, is_bare).first()
    return trials.first[is_bare]


class _Search:
    """What is left to look into, and what came first of all that was."""

    def __init__(self, trials: Trials, is_bare: bool) -> None:
        self._trials, self._is_bare = trials, is_bare
        self._best: tuple[Place, int, int] | None = None  # its place, and what it goes by among equal ones
        self._first: Proposal | None = None
        owned = None if is_bare else trials.owned
        mount, tables = trials.mount, trials.tables
        found = ((least_place(method.NAME, method.ALWAYS, mount, tables, owned), method) for method in trials.methods)
        self._leasts = sorted(found, key=lambda pair: pair[0])

    def first(self) -> Proposal | None:
        self._look_at_threads()
        for place, method in self._leasts:  # they are many, and what was found leaves most of them out
            if not self._is_before(place):
                break
            self._look_at_wider(method)
        return self._first

    def _is_before(self, place: Place) -> bool:
        """Whether what has no better place than this may come before all that was found."""
        return self._best is None or place <= self._best[0]

    def _look_at_threads(self) -> None:
        numbers = count()
        left = [(place, next(numbers), self._threads(method)) for place, method in self._leasts]
        while left and self._is_before(left[0][0]):
            _, _, steps = heappop(left)
            place = next(steps, None)
            if place is not None:
                heappush(left, (place, next(numbers), steps))

    def _threads(self, method: Method) -> _Steps:
        """Its joints, thread by thread; on a shelf all of them, which prefers among those of a thread."""
        trial = self._trials.of(method)
        if isinstance(trial, Refusal) or trial.is_hopeless:
            return
        teams = trial.teams(trial.plain if self._trials.owned is None else trial.worth_it)
        leasts = (min(trial.least(at, is_bare=self._is_bare) for at in team) for team in teams)
        for least, number in sorted(zip(leasts, range(len(teams)), strict=True)):
            yield least
            self._look(trial, number, teams[number])

    def _look_at_wider(self, method: Method) -> None:
        """Its joints with a wider part, where all others are short of load."""
        trial = self._trials.of(method)
        if isinstance(trial, Refusal) or not trial.may_widen or self._trials.owned is not None:
            return
        for team in trial.teams(trial.plain):
            trial.best(team)
            if trial.is_load_enough:
                return
        if self._best is not None and not trial.may_widen_before(self._best[0]):
            return
        for number, team in enumerate(trial.teams(trial.worth_it)):
            self._look(trial, number, team)

    def _look(self, trial: Trial, number: int, team: tuple[int, ...]) -> None:
        """Whether the best of a thread, the so manieth of its method, comes before all that was found."""
        best = trial.best(team, None if self._best is None else self._best[0], is_bare=self._is_bare)
        if best is None:
            return
        place, at, proposal = best
        if not self._is_bare:
            trials = self._trials
            place = place_of(proposal, trials.mount, trials.tables, trials.owned)
        found = place, 0 if self._is_bare else number, at
        if self._best is None or found < self._best:
            self._best, self._first = found, proposal
