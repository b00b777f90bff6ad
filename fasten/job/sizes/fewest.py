"""Fewest different sizes: one choice for each mount point, so that screws, receivers, bits and setting tools repeat.

The cost is the weight of every distinct size, once, and a weight on what each mount point loses by not having its best.
Only what is offered is chosen. Of choices that cost the same the first by key is taken, mount point by mount point, so
that the answer does not hang on the order in which options were found.
"""

from collections.abc import Iterable, Mapping, Sequence
from math import isfinite

from fasten.job.sizes.fewest_bound import Problem
from fasten.job.sizes.fewest_search import MOST_WORK, Budget, Search
from fasten.progress import Step, unseen
from fasten.record import record, replace
from fasten.text.figures import figure

Size = tuple[str, str]  # kind and name
_PARTS = 1_000_000  # of a point: costs are compared to the millionth, so that rounding makes and breaks no tie
_MOST = 10_000.0  # points; up to this, sums over thousands of mount points stay exact


@record
class Option:
    """One proposal of a mount point.

    Attributes:
        key: the stable name of the choice; it settles ties.
        sizes: the distinct things it needs.
        rank_lost: how much worse it scores than the best of its mount point; 0 for the best.
    """

    key: str
    sizes: frozenset[Size]
    rank_lost: float


@record
class Place:
    """A mount point and what may be chosen for it: a pinned one has one option."""

    name: str
    options: tuple[Option, ...]


@record
class Fewest:
    """A choice for every mount point, beside what stood before.

    Attributes:
        chosen: the key of an option for each mount point, in their order.
        cost: what the choice costs, in points.
        before_cost: what the first option of every mount point costs.
        sizes: the distinct sizes of the choice.
        before_sizes: the distinct sizes of the first options.
        proven: no choice costs less, and none that costs the same comes before by key; else the best that was found.
        nodes: how many parts of the search were looked at.
    """

    chosen: tuple[str, ...]
    cost: float
    before_cost: float
    sizes: frozenset[Size]
    before_sizes: frozenset[Size]
    proven: bool
    nodes: int


@record
class _Way:
    """An option by its number in the order of keys, the sizes it adds to those nobody can do without, what is lost."""

    number: int
    sizes: frozenset[Size]
    lost: int


@record
class _Group:
    """Mount points with the same options: the first one's position stands for all."""

    position: int
    ways: tuple[_Way, ...]


def fewest(
    places: Sequence[Place],
    weights: Mapping[str, float],
    rank_weight: float,
    step: Step = unseen,
    most_work: int = MOST_WORK,
) -> Fewest:
    """The choice with the fewest sizes by weight: `weights` by kind of size, `rank_weight` for each point of rank lost.

    After `most_work`, or where `step` raises Stopped, the best found is returned, never worse than the first options.

    Raises:
        ValueError: a mount point without options or with two of one key, a kind without a weight, a weight or a loss
            that is negative, endless or too large to be compared.
    """
    points = {kind: _parts(f"the weight of {kind}", weight) for kind, weight in weights.items()}
    options = [_by_key(place, points) for place in places]
    lost = [[_parts("rank lost by its weight", rank_weight * option.rank_lost) for option in row] for row in options]
    groups, members = _merged(options, lost, points)
    budget = Budget(most_work, step)
    numbers, nodes = _solved(_reduced(groups, points), points, budget)
    chosen = [row[numbers[member]] for row, member in zip(options, members, strict=True)]
    before = [place.options[0] for place in places]
    cost, before_cost = (_cost(choice, points, rank_weight) for choice in (chosen, before))
    if before_cost < cost:
        chosen, cost = before, before_cost
    return Fewest(
        chosen=tuple(option.key for option in chosen),
        cost=cost / _PARTS,
        before_cost=before_cost / _PARTS,
        sizes=_sizes(chosen),
        before_sizes=_sizes(before),
        proven=not budget.stopped,
        nodes=nodes,
    )


def _parts(name: str, points: float) -> int:
    """Points as a whole number of their smallest parts."""
    if not (isfinite(points) and 0 <= points <= _MOST):
        raise ValueError(
            f"{name} is {points!r}; it must be 0 to {figure(_MOST)} points: beyond that sums are not exact"
        )
    return round(points * _PARTS)


def _by_key(place: Place, points: Mapping[str, int]) -> list[Option]:
    """The options of a place in the order of their keys."""
    options = sorted(place.options, key=lambda option: option.key)
    if not options:
        raise ValueError(f"options of {place.name!r} is (); it must be one or more: nothing can be chosen from none")
    keys = [option.key for option in options]
    if len(set(keys)) < len(keys):
        raise ValueError(f"options of {place.name!r} have the keys {keys!r}; each must be once: it names the choice")
    for kind in sorted({kind for option in options for kind, _ in option.sizes} - set(points)):
        raise ValueError(f"weights is without {kind!r}; it must have every kind of size: {place.name!r} needs one")
    return options


def _sizes(choice: Iterable[Option]) -> frozenset[Size]:
    return frozenset[Size]().union(*(option.sizes for option in choice))


def _weight(sizes: Iterable[Size], points: Mapping[str, int]) -> int:
    return sum(points[kind] for kind, _ in sizes)


def _cost(choice: Sequence[Option], points: Mapping[str, int], rank_weight: float) -> int:
    lost = sum(_parts("rank lost by its weight", rank_weight * option.rank_lost) for option in choice)
    return _weight(_sizes(choice), points) + lost


def _merged(
    options: Sequence[Sequence[Option]], lost: Sequence[Sequence[int]], points: Mapping[str, int]
) -> tuple[list[_Group], list[int]]:
    """Groups of mount points whose options, in the order of keys, need and lose the same; and the group of each.

    A group chooses alike, and loses as often as it has members. Nothing is missed: let two members of a best choice
    have different options. Giving both the one that loses less adds no size and loses no more, so it costs no more;
    as the choice was best, both lose the same, and giving both either option is best too. If the earlier member has
    the option that is first by key, giving it to the later one comes first; if not, giving the earlier one the later
    one's does. So the best choice that is first by key, mount point by mount point, has members choose alike.
    Sizes without weight are left out: they cost nothing.
    """
    found: dict[tuple[tuple[frozenset[Size], int], ...], list[int]] = {}
    for position, (row, losses) in enumerate(zip(options, lost, strict=True)):
        weighed = (frozenset(size for size in option.sizes if points[size[0]]) for option in row)
        found.setdefault(tuple(zip(weighed, losses, strict=True)), []).append(position)
    groups, members = [], [0] * len(options)
    for number, (alike, positions) in enumerate(found.items()):
        ways = (_Way(way, sizes, loss * len(positions)) for way, (sizes, loss) in enumerate(alike))
        groups.append(_Group(positions[0], tuple(ways)))
        for position in positions:
            members[position] = number
    return groups, members


def _reduced(groups: list[_Group], points: Mapping[str, int]) -> list[_Group]:
    """Take out, until nothing changes, the sizes that some group needs whatever it chooses, and options never chosen.

    What a pinned mount point needs goes first of all: it is there for the others at no cost.
    """
    before: list[_Group] = []
    while groups != before:
        before = groups
        free = frozenset[Size]().union(*(_always(group) for group in groups))
        groups = [_undominated(_without(group, free), points) for group in groups]
    return groups


def _always(group: _Group) -> frozenset[Size]:
    first, *others = (way.sizes for way in group.ways)
    return first.intersection(*others)


def _without(group: _Group, free: frozenset[Size]) -> _Group:
    return replace(group, ways=tuple(replace(way, sizes=way.sizes - free) for way in group.ways))


def _undominated(group: _Group, points: Mapping[str, int]) -> _Group:
    kept = [way for way in group.ways if not any(_beats(other, way, points) for other in group.ways)]
    return replace(group, ways=tuple(kept))


def _beats(one: _Way, other: _Way, points: Mapping[str, int]) -> bool:
    """In any choice `one` can take the place of `other`, at the worst paying for every size that is new.

    It does so for less, or for the same and is first by key; so no two beat each other, nor any ring of them.
    """
    saved = other.lost - one.lost
    if saved < 0 or one is other:
        return False
    saved -= _weight(one.sizes - other.sizes, points)
    return saved > 0 or (saved == 0 and one.number < other.number)


def _solved(groups: Sequence[_Group], points: Mapping[str, int], budget: Budget) -> tuple[list[int], int]:
    """The number of the option of each group, and how many nodes were looked at."""
    numbers, nodes = [group.ways[0].number for group in groups], 0
    for part in _parted(groups):
        sizes = sorted({size for number in part for way in groups[number].ways for size in way.sizes})
        index = {size: number for number, size in enumerate(sizes)}
        ways = [groups[number].ways for number in part]
        laid_out = [[(frozenset(index[size] for size in way.sizes), way.lost) for way in row] for row in ways]
        search = Search(Problem([points[kind] for kind, _ in sizes], laid_out), budget)
        for number, row, option in zip(part, ways, search.best(), strict=True):
            numbers[number] = row[option].number
        nodes += search.nodes
    return numbers, nodes


def _parted(groups: Sequence[_Group]) -> list[list[int]]:
    """The groups with a choice left, parted so that no two parts share a size: what one chooses is nothing to another.

    Each part keeps the order of mount points, so the first of equals in each part is the first of equals in all.
    """
    users: dict[Size, list[int]] = {}
    for number, group in enumerate(groups):
        for size in {size for way in group.ways for size in way.sizes}:
            users.setdefault(size, []).append(number)
    seen, parts = set[int](), []
    for number, group in enumerate(groups):
        if number not in seen and len(group.ways) > 1:
            parts.append(sorted(_reached(number, groups, users, seen)))
    return parts


def _reached(start: int, groups: Sequence[_Group], users: Mapping[Size, list[int]], seen: set[int]) -> list[int]:
    """All groups that sizes in common lead to from this one; they are marked as seen."""
    reached = [start]
    seen.add(start)
    for number in reached:  # grows while it is walked
        near = {other for way in groups[number].ways for size in way.sizes for other in users[size]} - seen
        seen |= near
        reached += near
    return reached
