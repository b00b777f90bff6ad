"""The least that places which share sizes can cost, where some sizes are kept and some dropped.

A kept size is paid for and then free to all; the options of a dropped one are gone. The weight of every undecided size
is shared out over the places that could use it, and a place costs at least its cheapest option with the shares of the
sizes in it. Any shares that add up to no more than the weight give a bound, so they are moved, step by step, to the
places that feel them: the projected subgradient of textbooks.

What is asked comes in whole numbers, so that ties are ties and a bound's rounding, far under a half, cannot hide one.
"""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass, field
from math import fsum, gcd, inf
from operator import itemgetter

from fasten.record import record

_PATIENCE = 5  # rounds without a better bound after which steps are halved
_NEW = 0.3  # how much of the pull is this round's; the rest remembers earlier ones, which damps the zigzag

Choice = tuple[int, ...]  # an option of each place, by number
Option = tuple[frozenset[int], int]  # the sizes it needs, what its place loses by it
Row = Sequence[float]  # of the options of one place
_Read = Callable[[Row], tuple[float, ...]]
_Live = tuple[float, _Read, list[int]]


def _reader(cells: Iterable[int], spare: int) -> _Read:
    """Reads these cells as a tuple; spare ones fill up, since a getter of one cell alone gives no tuple."""
    return itemgetter(*cells, spare, spare)


@record
class _User:
    """A place that could use a size: its options that need it, and how to read their values and the others'."""

    place: int
    needing: tuple[int, ...]
    with_it: _Read
    without: _Read


class Problem:
    """Places that share sizes, laid out for the search: each pair of a size and a place that could use it is a cell.

    A place's options are in the order that settles ties. Every size is in some option. `pairs` of an option and a size
    that it needs are what one look at the whole takes.
    """

    def __init__(self, weights: Sequence[int], places: Sequence[Sequence[Option]]) -> None:
        self.weights = tuple(weights)
        self.places = tuple(tuple(options) for options in places)
        self.lost: tuple[Row, ...] = tuple(tuple(float(loss) for _, loss in options) for options in places)
        self.step = gcd(*weights, *(loss for options in places for _, loss in options)) or 1  # between two costs
        self.users = [self._users_of(size) for size in range(len(weights))]
        self.cells = self._cells()
        self.spare = sum(len(users) for users in self.users)
        self.needs = self._needs()
        self.pairs = sum(len(cells) for options in self.needs for cells in options)
        self.readers = [[_reader(cells, self.spare) for cells in options] for options in self.needs]

    def _users_of(self, size: int) -> list[_User]:
        found = []
        for place, options in enumerate(self.places):
            needing = tuple(number for number, (sizes, _) in enumerate(options) if size in sizes)
            if needing:
                others = [number for number in range(len(options)) if number not in needing]
                end = len(options)  # `decide` puts an endless value there, which is never the least
                found.append(_User(place, needing, _reader(needing, end), _reader(others, end)))
        return found

    def _cells(self) -> list[slice]:
        """The cells of each size, side by side."""
        cells, start = [], 0
        for users in self.users:
            cells.append(slice(start, start + len(users)))
            start += len(users)
        return cells

    def _needs(self) -> list[list[list[int]]]:
        """The cells of each option of each place."""
        needs: list[list[list[int]]] = [[[] for _ in options] for options in self.places]
        for users, cells in zip(self.users, self.cells, strict=True):
            for cell, user in enumerate(users, cells.start):
                for number in user.needing:
                    needs[user.place][number].append(cell)
        return needs

    def cost(self, choice: Choice) -> int:
        """The weights of all sizes of a choice, each once, and what its places lose."""
        taken = [options[number] for options, number in zip(self.places, choice, strict=True)]
        sizes = frozenset[int]().union(*(sizes for sizes, _ in taken))
        return sum(self.weights[size] for size in sizes) + sum(loss for _, loss in taken)


@dataclass
class Node:
    """Part of the search: what is paid, what is open, what each option loses (endless: not to be had), the shares.

    `ways` is how far the bound would rise if a size were dropped and if it were kept.
    """

    paid: int
    undecided: list[int]
    lost: list[Row]
    shares: list[float]
    ways: dict[int, tuple[float, float]] = field(default_factory=dict)

    def copy(self) -> "Node":
        return Node(self.paid, self.undecided[:], self.lost[:], self.shares[:])

    def exclude(self, place: int, options: Sequence[int]) -> None:
        self.lost[place] = [inf if number in options else loss for number, loss in enumerate(self.lost[place])]

    def fix(self, place: int, option: int) -> None:
        self.exclude(place, [number for number in range(len(self.lost[place])) if number != option])

    def values(self, problem: Problem) -> list[list[float]]:
        """What each option costs its place: what it loses and its shares."""
        return [
            [loss + sum(read(self.shares)) for loss, read in zip(*row, strict=True)]
            for row in zip(self.lost, problem.readers, strict=True)
        ]


def root(problem: Problem) -> Node:
    """Nothing decided, every size shared out alike."""
    shares = [0.0] * (problem.spare + 1)
    for weight, users, cells in zip(problem.weights, problem.users, problem.cells, strict=True):
        shares[cells] = [weight / len(users)] * len(users)
    return Node(0, list(range(len(problem.weights))), list(problem.lost), shares)


def keep(problem: Problem, node: Node, size: int) -> None:
    """Pay for a size: nobody has a share in it any more."""
    node.paid += problem.weights[size]
    node.shares[problem.cells[size]] = [0.0] * len(problem.users[size])
    node.undecided.remove(size)


def drop(problem: Problem, node: Node, size: int) -> None:
    """Do without a size: the options that need it are gone."""
    for user in problem.users[size]:
        node.exclude(user.place, user.needing)
    node.undecided.remove(size)


def climb(problem: Problem, node: Node, bar: float, rounds: int, more: Callable[[], bool]) -> float:
    """Raise the node's bound, over the bar if it can be done in so many rounds; the best shares stay with the node."""
    rows = _to_be_had(problem, node)
    if not all(rows):
        return inf
    shares, pull = node.shares, [0.0] * len(node.shares)
    best, reach, stale = -inf, 1.0, 0
    for _ in range(rounds):
        values = [[loss + sum(read(shares)) for loss, read, _ in row] for row in rows]
        bound = node.paid + fsum([min(row) for row in values])
        stale = 0 if bound > best + 1 else stale + 1
        if bound > best:
            best, node.shares = bound, shares
        if best > bar or not more():
            break
        if stale == _PATIENCE:
            reach, stale = reach / 2, 0
        pull = _pulled(rows, values, pull)
        shares = _moved(problem, node, shares, pull, reach * (bar + problem.step - bound))
    return best


def _to_be_had(problem: Problem, node: Node) -> list[list[_Live]]:
    """Options that are not excluded, place by place: what each loses, the reader of its cells, the cells."""
    return [
        [(loss, read, cells) for loss, read, cells in zip(*row, strict=True) if loss < inf]
        for row in zip(node.lost, problem.readers, problem.needs, strict=True)
    ]


def _pulled(rows: list[list[_Live]], values: list[list[float]], pull: list[float]) -> list[float]:
    """Where shares are felt: in the cells of each place's cheapest option, now and in the rounds before."""
    pulled = [(1 - _NEW) * x for x in pull]
    for row, costs in zip(rows, values, strict=True):
        for cell in row[costs.index(min(costs))][2]:
            pulled[cell] += _NEW
    return pulled


def _moved(problem: Problem, node: Node, shares: list[float], pull: list[float], gap: float) -> list[float]:
    """Shares one step on towards the pull, as long as would close the gap if the bound went on rising so.

    No share can move by more than its weight: a longer step, where next to nothing pulls, would only lose digits.
    """
    ways = [_way(shares[problem.cells[size]], pull[problem.cells[size]]) for size in node.undecided]
    slope = sum([x * x for way in ways for x in way])
    step, moved = min(gap / slope, max(problem.weights)) if slope else 0.0, shares[:]
    for size, way in zip(node.undecided, ways, strict=True):
        cells = problem.cells[size]
        wanted = [share + step * x for share, x in zip(shares[cells], way, strict=True)]
        moved[cells] = _shared(wanted, problem.weights[size])
    return moved


def _way(shares: list[float], pull: list[float]) -> list[float]:
    """From those who feel less than most to those who feel more; who has no share has none to give."""
    mean = sum(pull) / len(pull)
    return [x - mean if x > mean or share > 0 else 0.0 for share, x in zip(shares, pull, strict=True)]


def _shared(wanted: list[float], weight: int) -> list[float]:
    """The shares nearest to those wanted that add up to the weight, none below zero."""
    total, less = 0.0, 0.0
    for count, share in enumerate(sorted(wanted, reverse=True), 1):
        total += share
        if share * count <= total - weight:
            break
        less = (total - weight) / count
    return [share - less if share > less else 0.0 for share in wanted]


def decide(problem: Problem, node: Node, bound: float, bar: float) -> float:
    """Keep or drop each size whose other way is over the bar, lay aside each option that is. Returns the bound."""
    values = [[*row, inf] for row in node.values(problem)]
    for size in node.undecided[:]:
        if bound > bar:
            return bound
        rise, up = node.ways[size] = _ways(problem, node, values, size)
        if bound + rise > bar:
            _take_back_shares(problem, node, values, size)
            keep(problem, node, size)
            bound += up
        elif bound + up > bar:
            for user in problem.users[size]:
                for number in user.needing:
                    values[user.place][number] = inf
            drop(problem, node, size)
            bound += rise
    if bound <= bar:
        _lay_aside(node, values, bar - bound)
    return bound


def _lay_aside(node: Node, values: list[list[float]], room: float) -> None:
    """Exclude each option that costs its place more than the least by over the room."""
    for place, row in enumerate(values):
        most = room + min(row)
        if any(most < value < inf for value in row):
            node.exclude(place, [number for number, value in enumerate(row) if value > most])


def _take_back_shares(problem: Problem, node: Node, values: list[list[float]], size: int) -> None:
    for user, share in zip(problem.users[size], node.shares[problem.cells[size]], strict=True):
        for number in user.needing:
            values[user.place][number] -= share


def _ways(problem: Problem, node: Node, values: list[list[float]], size: int) -> tuple[float, float]:
    """How far the bound would rise if the size were dropped, and if it were kept."""
    dropped, kept = 0.0, float(problem.weights[size])
    for user, share in zip(problem.users[size], node.shares[problem.cells[size]], strict=True):
        row = values[user.place]
        with_it, without = min(user.with_it(row)), min(user.without(row))
        now = min(with_it, without)
        dropped += without - now
        kept -= now - min(with_it - share, without)
    return dropped, kept
