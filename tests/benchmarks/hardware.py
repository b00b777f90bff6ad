"""How quickly the hardware list of a large job is made. Run by hand:

    python tests/benchmarks/hardware.py [rounds]

Times depend on the machine. The answers of 100 different questions are most of it, so growth is told apart from them:
the list alone of 1,000 mount points over that of 250, a mount point each, the two taken in turn.
"""

import statistics
import sys
import time
from collections.abc import Callable
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))
from benchmarks.forgetting import forget
from fasten.catalog.tables import Tables, builtin
from fasten.job.choices import Choice, choices
from fasten.job.list.hardware import hardware
from fasten.job.words import Job, Mount

ROUNDS = 5
FEW, MANY, DIFFERENT = 250, 1000, 100
MOST_S = 3.0
MOST_GROWTH = 1.3


def mount(number: int) -> Mount:
    """One of many mount points of 100 different questions."""
    kind = number % DIFFERENT
    said = {
        "item": ("amplifier", "crossover", "enclosure", "trim-panel")[kind % 4],
        "onto": f"{('steel', 'aluminium', 'mdf', 'galvanised steel')[kind // 4 % 4]} {1.0 + kind * 0.2:.1f} mm",
        "removed": ("yearly", "never", "monthly", "rarely")[kind // 3 % 4],
        "reach": ("one-side", "both-sides")[kind // 2 % 2],
        "behind": f"{8 + kind % 40} mm",
        "edge": "30 mm",
    }
    return Mount(f"mount point {number}", tuple(said.items()))


def job(count: int) -> Job:
    return Job("bench", "", "", tuple(mount(number) for number in range(count)))


def seconds(work: Callable[[], object]) -> float:
    start = time.perf_counter()
    work()
    return time.perf_counter() - start


def whole(count: int, tables: Tables) -> float:
    """How long the list of so many mount points takes with all its answers, nothing remembered."""
    forget()
    return seconds(lambda: hardware(job(count), choices(job(count), tables), None, tables))


def each_ms(count: int, found: tuple[Choice, ...], tables: Tables) -> float:
    """How long the list alone takes a mount point, answers given."""
    return seconds(lambda: hardware(job(count), found, None, tables)) / count * 1000


def main(rounds: int) -> int:
    """Print the figures; 1 if one is over its limit."""
    tables = builtin()
    assert len({mount(number).said for number in range(MANY)}) == DIFFERENT
    found = {count: choices(job(count), tables) for count in (FEW, MANY)}
    all_s = statistics.median(whole(MANY, tables) for _ in range(rounds))
    taken = [[each_ms(count, found[count], tables) for count in (FEW, MANY)] for _ in range(rounds * 4)]
    few, many = (statistics.median(times) for times in zip(*taken, strict=True))
    print(f"list of 1,000 mount points, 100 different {all_s:7.2f} s    most {MOST_S}")
    print(f"a mount point in the list of 250          {few:7.3f} ms")
    print(f"a mount point in the list of 1,000        {many:7.3f} ms")
    print(f"1,000 over 250                            {many / few:7.2f} x    most {MOST_GROWTH}")
    return int(all_s > MOST_S or many / few > MOST_GROWTH)


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else ROUNDS))
