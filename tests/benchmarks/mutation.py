"""Mutation testing of the core: change one thing in one function, and see whether a test notices. Run by hand:

    python -m tests.benchmarks.mutation [--jobs 2] [--only mechanics/sheet] [--list]

The tests are collected once. For each mutant a child is forked, the code of the one function is exchanged in it, and
the tests that run that function go until one fails, those of the fewest functions first. A mutant that no test notices
has survived: write the test, or name it in `EQUIVALENT` with the reason. Docstrings, texts and types are left alone.
"""

import argparse
import functools
import gc
import os
import pickle
import re
import resource
import sys
import time
from collections import Counter, defaultdict
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import accumulate
from types import FrameType

import pytest
from _pytest.runner import runtestprotocol

from .mutants import PARTS, ROOT, Mutant, exchange, mutants, mutated

TESTS = (
    "tests/geometry", "tests/mechanics", "tests/validation", "tests/methods", "tests/second",
    "tests/test_advice_properties.py", "tests/test_awkward_mounts.py", "tests/test_carries.py",
    "tests/test_every_input.py", "tests/test_ground_lug.py", "tests/test_item_bearing.py", "tests/test_main_job.py",
    "tests/test_wire_clamp.py",
)  # fmt: skip
ENOUGH_SECONDS, MOST_SECONDS = 20.0, 90
INNER = re.compile(r"\.<\w+>")  # of what stands within a function
# What no test can notice, by file, function and mutation, and why.
EQUIVALENT: dict[tuple[str, str, str], str] = {}


@dataclass(frozen=True)
class Told:
    """What one test runs of the core, and how long it takes."""

    functions: frozenset[tuple[str, str]]
    seconds: float


class Judge:
    """Takes the place of pytest's loop over the tests: maps them to functions, then tries every mutant."""

    def __init__(self, wanted: list[Mutant], jobs: int) -> None:
        self.wanted, self.jobs = wanted, jobs
        self.survived: list[Mutant] = []
        self.killed = Counter[str]()

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        told = _mapped(session.items)
        whole = sum(each.seconds for each in told.values())
        print(f"{len(told)} tests, {whole:.0f} s; {len(self.wanted)} mutants", flush=True)
        running: dict[int, Mutant] = {}
        waiting, began = list(reversed(self.wanted)), time.monotonic()
        while waiting or running:
            while waiting and len(running) < self.jobs:
                mutant = waiting.pop()
                running[_child(mutant, _chosen(mutant, session.items, told))] = mutant
            pid, status = os.wait()
            self._judge(running.pop(pid), status)
            done = len(self.survived) + self.killed.total()
            if done % 100 == 0:
                print(f"{done} done, {len(self.survived)} survived, {time.monotonic() - began:.0f} s", flush=True)
        return True

    def _judge(self, mutant: Mutant, status: int) -> None:
        if status == 0:
            self.survived.append(mutant)
            print(f"SURVIVED {mutant}", flush=True)
        else:
            self.killed[mutant.part] += 1


def _chosen(mutant: Mutant, items: list[pytest.Item], told: dict[str, Told]) -> list[pytest.Item]:
    """The tests that run the function, those of the fewest functions first, for as long as is enough."""
    where = (mutant.path, mutant.function)
    found = [item for item in items if where in told[item.nodeid].functions]
    found.sort(key=lambda item: (len(told[item.nodeid].functions), told[item.nodeid].seconds))
    spent = accumulate(told[item.nodeid].seconds for item in found)
    return [item for item, seconds in zip(found, spent, strict=True) if seconds < ENOUGH_SECONDS]


def _child(mutant: Mutant, items: list[pytest.Item]) -> int:
    """Try it in a child of its own; which ends with 1 where a test fails or the time is over."""
    pid = os.fork()
    if pid:
        return pid
    code = 1
    try:
        resource.setrlimit(resource.RLIMIT_CPU, (MOST_SECONDS, MOST_SECONDS))  # one that hangs is noticed
        _silence()
        if not exchange(mutated(mutant)) or not _any_fails(items):
            code = 0
    finally:
        os._exit(code)


def _mapped(items: list[pytest.Item]) -> dict[str, Told]:
    """What each test runs, found out in a child for each file, so that nothing is kept from one to the next."""
    files: dict[str, list[pytest.Item]] = defaultdict(list)
    for item in items:
        files[str(item.path)].append(item)
    found: dict[str, Told] = {}
    for name, those in files.items():
        read, write = os.pipe()
        pid = os.fork()
        if not pid:
            os.close(read)
            _silence()
            with os.fdopen(write, "wb") as out:
                pickle.dump([_watched(item, following) for item, following in _pairs(those)], out)
            os._exit(0)
        os.close(write)
        with os.fdopen(read, "rb") as source:
            told: list[Told | None] = pickle.load(source)
        os.waitpid(pid, 0)
        good = [each for each in told if each is not None]
        if len(good) < len(told):
            raise SystemExit(f"{name} fails as it is")
        if "/second/" in name:  # its answers are reckoned once for all of its tests
            whole = frozenset[tuple[str, str]]().union(*(each.functions for each in good))
            good = [Told(whole, each.seconds) for each in good]
        found |= {item.nodeid: each for item, each in zip(those, good, strict=True)}
    return found


def _watched(item: pytest.Item, following: pytest.Item | None) -> Told | None:
    """Run one test and see which functions of the core it runs; None where it fails."""
    found: set[tuple[str, str]] = set()

    def seen(frame: FrameType, event: str, _arg: object) -> None:
        if event == "call" and "/fasten/" in frame.f_code.co_filename:
            found.add((frame.f_code.co_filename, frame.f_code.co_qualname))

    _forget()
    began = time.monotonic()
    sys.setprofile(seen)
    failed = _fails(item, following)
    sys.setprofile(None)
    names = frozenset((os.path.relpath(file, ROOT), INNER.sub("", name)) for file, name in found)
    return None if failed else Told(names, time.monotonic() - began)


def _forget() -> None:
    """Empty what tests and core keep of earlier tests, or a later one seems to run nothing."""
    for each in gc.get_objects():
        if isinstance(each, functools._lru_cache_wrapper) and each.__module__.partition(".")[0] in ("tests", "fasten"):
            each.cache_clear()


def _silence() -> None:
    null = os.open(os.devnull, os.O_WRONLY)
    os.dup2(null, 1)
    os.dup2(null, 2)


def _pairs(items: list[pytest.Item]) -> Iterator[tuple[pytest.Item, pytest.Item | None]]:
    return zip(items, [*items[1:], None], strict=True)


def _any_fails(items: list[pytest.Item]) -> bool:
    return any(_fails(item, following) for item, following in _pairs(items))


def _fails(item: pytest.Item, following: pytest.Item | None) -> bool:
    return any(report.failed for report in runtestprotocol(item, nextitem=following, log=False))


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0])
    parser.add_argument("--jobs", type=int, default=os.cpu_count() or 1)
    parser.add_argument("--only", default="", help="mutants whose file and function hold this")
    parser.add_argument("--list", action="store_true", help="list them and stop")
    args = parser.parse_args()
    folders = (ROOT / "fasten" / part for part in PARTS)
    paths = [*(path for folder in folders for path in sorted(folder.glob("*.py"))), ROOT / "fasten/proof.py"]
    every = [mutant for path in paths for mutant in mutants(path) if args.only in f"{mutant.path}:{mutant.function}"]
    wanted = [mutant for mutant in every if (mutant.path, mutant.function, mutant.change) not in EQUIVALENT]
    if args.list:
        print(*wanted, sep="\n")
        print(Counter(mutant.part for mutant in wanted))
        return 0
    from hypothesis import Phase, settings

    settings.register_profile("mutation", derandomize=True, database=None, phases=(Phase.explicit, Phase.generate))
    settings.load_profile("mutation")
    os.chdir(ROOT)
    judge = Judge(wanted, args.jobs)
    pytest.main(["-q", "-p", "no:cacheprovider", "-p", "no:xdist", "-p", "no:randomly", *TESTS], plugins=[judge])
    lost = Counter(mutant.part for mutant in judge.survived)
    for part in PARTS:
        killed = judge.killed[part]
        if killed + lost[part]:
            print(f"{part}: {killed} killed, {lost[part]} survived, {killed / (killed + lost[part]):.1%}")
    return 0


if __name__ == "__main__":
    sys.exit(main())
