"""How quickly fewest different sizes is found, and how that grows. Run by hand:

    python tests/benchmarks/fewest.py [rounds]

Times depend on the machine, so what counts are ratios of the same run: a mount point of a job of 1,000 against one of
250, both of 100 kinds, and the two taking turns. The jobs of 30 and 100 kinds show what a search costs; their sizes
are drawn at random, either as parts hang together (a receiver has its bit and its tool) or in no order at all.
"""

import statistics
import sys
import time
from collections.abc import Callable
from random import Random

from fasten.catalog.job_parts import SIZE_WEIGHTS
from fasten.catalog.tables import builtin
from fasten.job.sizes.fewest import Fewest, Option, Place, Size, fewest

ROUNDS = 5
MOST_S = 1.0
MOST_GROWTH = 1.3
FEW, MANY, KINDS = 250, 1000, 100
SCREWS, RECEIVERS, BITS, TOOLS, OPTIONS = 10, 8, 10, 4, 6

Draw = Callable[[Random], frozenset[Size]]
Row = tuple[str, float, str, float]


def sizes(screw: int, bit: int, receiver: int | None = None, tool: int | None = None) -> frozenset[Size]:
    named = {"screw": screw, "bit": bit, "receiver": receiver, "setting tool": tool}
    return frozenset((kind, f"{number}") for kind, number in named.items() if number is not None)


def at_random(rng: Random) -> frozenset[Size]:
    """Any screw with any bit, receiver and tool."""
    if rng.random() < 0.3:
        return sizes(rng.randrange(SCREWS), rng.randrange(BITS))
    return sizes(rng.randrange(SCREWS), rng.randrange(BITS), rng.randrange(RECEIVERS), rng.randrange(TOOLS))


def as_parts_are(rng: Random) -> frozenset[Size]:
    """A screw alone has its bit; a receiver has its bit and its tool, and takes one of three screws."""
    if rng.random() < 0.3:
        screw = rng.randrange(SCREWS)
        return sizes(screw, screw * 7 % BITS)
    receiver = rng.randrange(RECEIVERS)
    screw = (receiver * 3 + rng.randrange(3)) % SCREWS
    return sizes(screw, receiver * 3 % BITS, receiver, receiver % TOOLS)


def job(seed: int, kinds: int, draw: Draw, count: int | None = None) -> list[Place]:
    """Mount points of so many kinds, taken in turn."""
    rng, found = Random(seed), []
    for number in range(kinds):
        lost, options = 0.0, []
        for key in range(OPTIONS):
            options.append(Option(f"{key}", draw(rng), lost))
            lost += rng.choice((0.0, 0.5, 1.0, 1.5, rng.random()))
        found.append(Place(f"mount {number}", tuple(options)))
    return [found[number % kinds] for number in range(count or kinds)]


def timed(places: list[Place], kinds: int) -> tuple[float, Fewest]:
    """How long it takes. What is lost counts a kind once, so that long jobs search as short ones of their kinds do."""
    weights = {row.kind: row.points for row in builtin().rows(SIZE_WEIGHTS)}
    rank_weight = weights.pop("rank") * kinds / len(places)
    start = time.perf_counter()
    found = fewest(places, weights, rank_weight)
    return time.perf_counter() - start, found


def searches(rounds: int) -> list[Row]:
    """The median and the greatest of as many jobs as rounds, and how many of them were proven."""
    rows: list[Row] = []
    for name, draw in (("as parts are", as_parts_are), ("at random", at_random)):
        for kinds in (30, KINDS):
            runs = [timed(job(seed, kinds, draw), kinds) for seed in range(rounds)]
            nodes = [found.nodes for _, found in runs]
            title = f"{kinds} kinds, {name}"
            rows += [
                (f"{title}: median", statistics.median(spent for spent, _ in runs), "s", MOST_S if kinds == 30 else 0),
                (f"{title}: longest", max(spent for spent, _ in runs), "s", 0),
                (f"{title}: median nodes", statistics.median(nodes), "", 0),
                (f"{title}: most nodes", max(nodes), "", 0),
                (f"{title}: not proven", sum(not found.proven for _, found in runs), "", 0),
            ]
    return rows


def growth(rounds: int) -> list[Row]:
    """Time a mount point among many over time a mount point among few, the two measured in turn."""
    few, many = [], []
    for seed in range(rounds):
        few.append(timed(job(seed, KINDS, as_parts_are, FEW), KINDS)[0] / FEW)
        many.append(timed(job(seed, KINDS, as_parts_are, MANY), KINDS)[0] / MANY)
    return [
        ("1,000 mount points of 100 kinds", statistics.median(many) * MANY, "s", MOST_S),
        ("a mount point of 1,000 over one of 250", statistics.median(many) / statistics.median(few), "x", MOST_GROWTH),
    ]


def main(rounds: int) -> int:
    """Print the table; 1 if a figure is over its limit."""
    over = False
    print(f"{'what':42} {'figure':>8}     {'most':>5}")
    for what, figure, unit, most in (*growth(rounds), *searches(rounds)):
        over |= bool(most) and figure > most
        print(f"{what:42} {figure:8.2f} {unit:3} {most or '-':>5}")
    return int(over)


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else ROUNDS))
