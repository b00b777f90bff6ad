"""How quickly advice is given: one question, many mount points, and the whole command. Run by hand:

    python tests/benchmarks/advice.py [rounds]

Times depend on the machine, so what counts are ratios: 200 mount points against 50, each beside the other, and the
whole command against a process that does nothing but import what it may need. Commands take turns in one run.
"""

import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable
from dataclasses import replace
from pathlib import Path
from random import Random

sys.path.insert(0, str(Path(__file__).parents[1]))
from benchmarks.forgetting import forget
from fasten.advice.advise import advise
from fasten.catalog.tables import Tables, builtin, shipped_folder
from fasten.model import Bay, MountPoint, Panel
from fasten.question.read import read_question
from fasten.question.resolve import resolve

ROUNDS = 5
MOST_GROWTH = 1.3
MOST_OF_YARDSTICK = 1.5
FEW, MANY = 50, 200
PICK = (
    "pick", "amplifier", "--onto", "steel 0.8 mm", "--removed", "yearly", "--mass", "6kg", "--fixings", "4",
    "--pattern", "rectangle 240x180", "--item-thickness", "3mm", "--item-hole", "5.5mm",
    "--behind", "40mm", "--reach", "one-side",
)  # fmt: skip
COMMAND = (str(Path(sys.executable).with_name("fasten")), *PICK)
YARDSTICK = (sys.executable, "-c", "import pydantic, pint")

Row = tuple[str, float, str, float]


def mount(number: int, tables: Tables) -> MountPoint:
    """One of many mount points, no two alike: materials, thickness, masses, holes and reach all vary."""
    said = {
        "item": ("amplifier", "crossover", "enclosure", "trim-panel")[number % 4],
        "onto": f"{('steel', 'aluminium', 'galvanised steel')[number % 3]} {0.6 + number % 7 * 0.3:.2f} mm",
        "removed": ("yearly", "never", "monthly", "rarely")[number // 3 % 4],
        "mass": f"{0.3 + number * 0.013:.3f} kg",
        "item-hole": ("4.5mm", "5.5mm", "6.6mm", "9mm")[number // 5 % 4],
        "reach": ("one-side", "both-sides")[number // 2 % 2],
        "behind": f"{8 + number % 40} mm",
    }
    return resolve(read_question(said, tables), tables)


def seconds(work: Callable[[], object]) -> float:
    start = time.process_time()
    work()
    return time.process_time() - start


def took(command: tuple[str, ...], env: dict[str, str]) -> float:
    """How long a whole command takes by the clock."""
    start = time.perf_counter()
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL, env=env)
    return time.perf_counter() - start


def advise_all(points: list[MountPoint], tables: Tables) -> None:
    """Advise on each afresh, nothing remembered."""
    forget()
    for point in points:
        advise(point, tables)


def one(rounds: int) -> list[Row]:
    """One advice with the tables loaded, and the first of a process, which reads them."""
    asked = read_question(
        {"item": PICK[1], **dict(zip((n[2:] for n in PICK[2::2]), PICK[3::2], strict=True))}, builtin()
    )
    point = resolve(asked, builtin())
    first = Tables(shipped_folder())
    cold = seconds(lambda: advise(point, first))
    advise(point, builtin())
    warm = statistics.median(seconds(lambda: advise_all([point], builtin())) for _ in range(rounds * 4))
    bay = replace(point, support=Bay(300.0, 450.0), panel=Panel.FLOOR)
    in_bay = statistics.median(seconds(lambda: advise_all([bay], builtin())) for _ in range(rounds * 4))
    loop = min(seconds(lambda: sum(i * i % 7 for i in range(1_000_000))) for _ in range(5))
    return [
        ("one advice, tables loaded", warm * 1000, "ms", 0),
        ("the same in a free bay", in_bay * 1000, "ms", 0),
        ("the same over a loop of 1e6", in_bay / loop, "x", 0),
        ("first advice, tables read", cold * 1000, "ms", 0),
    ]


def growth(rounds: int) -> list[Row]:
    """Time a mount point among many over time a mount point among few, the two measured in turn."""
    points = [mount(number, builtin()) for number in range(MANY)]
    assert len(set(points)) == MANY
    some = Random(7).sample(points, FEW)  # a fair sample: what they ask for runs with their number
    advise_all(points, builtin())
    few, many = [], []
    for _ in range(max(rounds // 5, 3)):
        few.append(seconds(lambda: advise_all(some, builtin())) / FEW)
        many.append(seconds(lambda: advise_all(points, builtin())) / MANY)
    each = statistics.median(many)
    return [
        (f"a mount point among {MANY}", each * 1000, "ms", 0),
        (f"among {MANY} over among {FEW}", each / statistics.median(few), "x", MOST_GROWTH),
    ]


def whole(rounds: int) -> list[Row]:
    """A whole command over its yardstick, by medians of processes that take turns; the first round compiles."""
    taken: dict[tuple[str, ...], list[float]] = {COMMAND: [], YARDSTICK: []}
    kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    with tempfile.TemporaryDirectory() as folder:
        env = {**kept, "PYTHONPYCACHEPREFIX": folder}
        for number in range(rounds + 1):
            for command, times in taken.items():
                times.extend([took(command, env)] * bool(number))
    pick, yardstick = (statistics.median(times) for times in taken.values())
    return [
        ("whole `fasten pick`", pick * 1000, "ms", 0),
        ("import pydantic, pint", yardstick * 1000, "ms", 0),
        ("pick over the imports", pick / yardstick, "x", MOST_OF_YARDSTICK),
    ]


def main(rounds: int) -> int:
    """Print the table; 1 if a figure is over its limit."""
    over = False
    print(f"{'what':28} {'figure':>8}      {'most':>6}")
    for what, figure, unit, most in (*one(rounds), *growth(rounds), *whole(rounds)):
        over |= bool(most) and figure > most
        print(f"{what:28} {figure:8.2f} {unit:4} {most or '-':>6}")
    return int(over)


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else ROUNDS))
