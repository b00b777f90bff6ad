"""The search behind `fewest`: which sizes to keep, so that these and what their places lose cost least together.

Branch and bound over sizes, not places: there are fewer of them, and one that is dropped tells at many places at once.
It is limited by its work, which is the same on every machine: what is found is too.
"""

from collections.abc import Sequence
from math import inf

from fasten.job.sizes.fewest_bound import Choice, Node, Problem, Row, climb, decide, drop, keep, root
from fasten.progress import Step, Stopped, unseen

MOST_WORK = 20_000_000  # pairs of an option and a size that are looked at: some ten seconds of a desk computer
_FIRST_ROUNDS = 200
_ROUNDS = 10


def greedy(problem: Problem) -> Choice:
    """Places with the fewest options first, each by what it adds to the sizes kept so far; then all once more."""
    held: set[int] = set()
    chosen = [0] * len(problem.places)
    for place in sorted(range(len(problem.places)), key=lambda place: len(problem.places[place])):
        options = problem.places[place]
        added = [loss + sum(problem.weights[size] for size in sizes - held) for sizes, loss in options]
        chosen[place] = added.index(min(added))
        held |= options[chosen[place]][0]
    return repicked(problem, problem.lost, chosen)


def repicked(problem: Problem, lost: Sequence[Row], choice: Sequence[int]) -> Choice:
    """Let each place choose again beside the sizes of the others until none would gain."""
    chosen = list(choice)
    counts = [0] * len(problem.weights)
    for place, number in enumerate(chosen):
        _count(problem, counts, place, number, 1)
    better = True
    while better:
        better = False
        for place, number in enumerate(chosen):
            _count(problem, counts, place, number, -1)
            added = _added(problem, lost[place], counts, place)
            if min(added) < added[number]:
                chosen[place], better = added.index(min(added)), True
            _count(problem, counts, place, chosen[place], 1)
    return tuple(chosen)


def _count(problem: Problem, counts: list[int], place: int, number: int, by: int) -> None:
    for size in problem.places[place][number][0]:
        counts[size] += by


def _added(problem: Problem, lost: Row, counts: list[int], place: int) -> list[float]:
    """What each option of a place would add to the cost beside the sizes that are counted."""
    return [
        loss + sum([problem.weights[size] for size in sizes if not counts[size]])
        for loss, (sizes, _) in zip(lost, problem.places[place], strict=True)
    ]


class Budget:
    """The work that may be done, by one search or several in turn; `step` is called with how much is, and may stop it.

    Attributes:
        stopped: all work is done, or nobody waits for more.
    """

    def __init__(self, most: int = MOST_WORK, step: Step = unseen) -> None:
        self.stopped = False
        self._done, self._most, self._step = 0, most, step

    def spend(self, work: int) -> bool:
        """Whether so much more may be done."""
        if not self.stopped:
            self._done += work
            self.stopped = self._done > self._most or self._is_stopped()
        return not self.stopped

    def _is_stopped(self) -> bool:
        try:
            self._step(self._done, self._most)
        except Stopped:
            return True
        return False


class Search:
    """One search for the cheapest choice; where its budget is stopped, the best found is returned.

    Attributes:
        nodes: how many parts were looked at.
    """

    def __init__(self, problem: Problem, budget: Budget) -> None:
        self.nodes = 0
        self._problem = problem
        self._budget = budget

    def best(self) -> Choice:
        """The choice that costs least; of equals, the first by the order of options, place by place."""
        problem = self._problem
        found, start = greedy(problem), root(problem)
        limit = problem.cost(found) - problem.step
        climb(problem, start, limit + 0.5, _FIRST_ROUNDS, self._more)
        shares = start.shares[:]
        found = self._under(start, limit) or found
        return self._first_of_equals(found, shares)

    def _more(self) -> bool:
        return self._budget.spend(self._problem.pairs)

    def _under(self, start: Node, limit: int, *, any_will_do: bool = False) -> Choice | None:
        """The cheapest choice that costs no more than the limit; None where there is none, or none before the stop."""
        found, stack = None, [start]
        while stack and self._more():
            node = stack.pop()
            if self._bound(node, limit) > limit + 0.5:
                continue
            picked = [row.index(min(row)) for row in node.values(self._problem)]
            choice = repicked(self._problem, node.lost, picked)
            if self._problem.cost(choice) <= limit:
                found, limit = choice, self._problem.cost(choice) - self._problem.step
                if any_will_do:
                    return found
            if node.undecided:  # else the choice costs no more than the bound
                stack += self._branches(node)
        return found

    def _bound(self, node: Node, limit: int) -> float:
        self.nodes += 1
        bar = limit + 0.5  # costs are whole: what is over this is over the limit, however the bound was rounded
        bound = climb(self._problem, node, bar, _ROUNDS, self._more)
        return decide(self._problem, node, bound, bar)

    def _branches(self, node: Node) -> list[Node]:
        """Both ways with the size that tells most either way; the better one last, to be taken first."""
        size = max(node.undecided, key=lambda size: sorted(node.ways[size]))
        rise, up = node.ways[size]
        without = node.copy()
        drop(self._problem, without, size)
        keep(self._problem, node, size)
        return [without, node] if up <= rise else [node, without]

    def _first_of_equals(self, found: Choice, shares: list[float]) -> Choice:
        """Of all choices that cost what `found` does, which costs least, the first: settled place by place."""
        limit, node = self._problem.cost(found), root(self._problem)
        node.shares = shares
        self._bound(node, limit)
        for place in range(len(found)):
            for option in range(found[place]):
                if self._budget.stopped:
                    return found
                equal = self._equal(node, found, place, option, limit) if node.lost[place][option] < inf else None
                if equal is not None:
                    found = equal
                    break
            if sum(loss < inf for loss in node.lost[place]) > 1:
                node.fix(place, found[place])
                self._bound(node, limit)
        return found

    def _equal(self, node: Node, found: Choice, place: int, option: int, limit: int) -> Choice | None:
        """A choice with this option that costs no more than the limit, places before it left as they are."""
        swapped = (*found[:place], option, *found[place + 1 :])
        if self._problem.cost(swapped) <= limit:
            return swapped
        trial = node.copy()
        trial.fix(place, option)
        return self._under(trial, limit, any_will_do=True)
