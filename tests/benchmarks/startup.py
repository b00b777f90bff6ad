"""How quickly the program starts, as whole processes against a yardstick run beside it. Run by hand:

    python tests/benchmarks/startup.py [rounds]

An installed program has its byte code beside it, so every command here may keep its own, in a folder of this run.
Commands take turns in one run, so that a busy machine slows all alike; the ratio of the medians is what counts.
"""

import os
import statistics
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path

ROUNDS = 25
PYTHON = sys.executable
FASTEN = str(Path(PYTHON).with_name("fasten"))


@dataclass(frozen=True)
class Pair:
    """A command, the yardstick beside it, and how many times as long it may take."""

    command: tuple[str, ...]
    yardstick: tuple[str, ...]
    most: float


PAIRS = (
    Pair((FASTEN, "look", "M6"), (PYTHON, "-c", "import pydantic"), 1.5),
    Pair((FASTEN, "--help"), (PYTHON, "-c", "import argparse"), 1.5),
)


def environment(folder: str) -> dict[str, str]:
    """The environment of every command: byte code is kept, in the folder."""
    kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
    return {**kept, "PYTHONPYCACHEPREFIX": folder}


def seconds(command: tuple[str, ...], env: dict[str, str]) -> float:
    """How long the command takes, from before it starts until it has ended."""
    start = time.perf_counter()
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL, env=env)
    return time.perf_counter() - start


def medians(commands: list[tuple[str, ...]], rounds: int, env: dict[str, str]) -> dict[tuple[str, ...], float]:
    """The median of each command, all run in turn round by round; the first round compiles and is not counted."""
    taken: dict[tuple[str, ...], list[float]] = {command: [] for command in commands}
    for number in range(rounds + 1):
        for command in commands:
            spent = seconds(command, env)
            if number:
                taken[command].append(spent)
    return {command: statistics.median(times) for command, times in taken.items()}


def main(rounds: int) -> int:
    """Print the table; 1 if a command is over its ratio."""
    commands = [command for pair in PAIRS for command in (pair.command, pair.yardstick)]
    with tempfile.TemporaryDirectory() as folder:
        median = medians(commands, rounds, environment(folder))
    over = False
    print(f"{'command':16} {'ms':>6}  {'yardstick':20} {'ms':>6} {'ratio':>6} {'most':>5}")
    for pair in PAIRS:
        spent, against = median[pair.command], median[pair.yardstick]
        over |= spent / against > pair.most
        words = "fasten " + " ".join(pair.command[1:])
        print(
            f"{words:16} {spent * 1000:6.1f}  {pair.yardstick[-1]:20} {against * 1000:6.1f} "
            f"{spent / against:6.2f} {pair.most:5.2f}"
        )
    return int(over)


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else ROUNDS))
