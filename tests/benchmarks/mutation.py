"""A mutation tester over `geometry`, `mechanics` and `proof`. Run by hand:

    python tests/benchmarks/mutation.py [--only fasten/geometry …] [--tests tests/geometry …] [--again FILE] [--jobs N]

One small fault at a time is put into the code, and the tests that reach it run until one fails. All tests are collected
once; a fault lives in a forked child, where the code of one function is replaced. What stands outside functions is read
anew in a child that has not imported it yet. A fault that no test sees is printed, unless `equivalent.py` names it;
`--again` takes such a list back and tries only what it names. ScrewEnd with 1 where under nine in ten are killed.
"""

import argparse
import gc
import os
import pickle
import resource
import signal
import sys
import tempfile
import time
from collections import Counter, defaultdict
from collections.abc import Callable, Iterable, Iterator
from functools import partial
from importlib import import_module
from importlib.machinery import SourceFileLoader
from pathlib import Path
from types import CodeType, FrameType
from typing import Any

import hypothesis
import pytest
from _pytest.runner import runtestprotocol

ROOT = Path(__file__).resolve().parents[2]
MUTATED = ("fasten/geometry", "fasten/mechanics", "fasten/proof")
TESTS = (
    "tests/geometry", "tests/mechanics", "tests/proof", "tests/validation", "tests/recalculation", "tests/methods",
    "tests/test_advice_properties.py", "tests/test_awkward_mounts.py", "tests/test_carries.py",
    "tests/test_every_input.py", "tests/test_every_method.py", "tests/test_ground_lug.py",
    "tests/test_item_bearing.py", "tests/test_wire_clamp.py", "tests/after/test_repair.py",
    "tests/text/test_rounding.py",
)  # fmt: skip
ENOUGH = 0.9
MEMORY = 4 << 30
LONGEST_S, SLOWER = 5.0, 20  # a test may take so long, or so many times what it took
SURVIVED, KILLED, UNREACHED, BROKEN = range(4)

Mutant = Any  # of mutants.py, which stands beside this file
Lines = set[tuple[str, int]]


# -- children ---------------------------------------------------------------------------------------------------------


def fork(work: Callable[[], int]) -> int:
    """A child that ends with what the work returns."""
    child = os.fork()
    if child:
        return child
    quiet = os.open(os.devnull, os.O_WRONLY)
    os.dup2(quiet, 1)
    os.dup2(quiet, 2)
    resource.setrlimit(resource.RLIMIT_AS, (MEMORY, MEMORY))
    code = BROKEN
    try:
        code = work()
    finally:
        os._exit(code)


def verdicts(mutants: Iterable[Mutant], work: Callable[[Mutant], int], jobs: int) -> Iterator[tuple[Mutant, int]]:
    """What becomes of each mutant, `jobs` at a time; a child that had to be ended has been killed."""
    running: dict[int, Mutant] = {}
    for mutant in mutants:
        running[fork(partial(work, mutant))] = mutant
        if len(running) >= jobs:
            yield _ended(running)
    while running:
        yield _ended(running)


def _ended(running: dict[int, Mutant]) -> tuple[Mutant, int]:
    child, status = os.wait()
    code = os.waitstatus_to_exitcode(status)
    mutant = running.pop(child)
    if code == BROKEN:
        raise SystemExit(f"this tester broke at {mutant.text}")
    return mutant, KILLED if code < 0 else code


def limit(seconds: float) -> None:
    """End this process where what follows takes too long."""
    signal.setitimer(signal.ITIMER_REAL, LONGEST_S + SLOWER * seconds)


# -- which test reaches which line ------------------------------------------------------------------------------------


class Reach:
    """Lines and seconds of each test, with those of the fixtures it shares with others."""

    def __init__(self, files: set[str]) -> None:
        self.files, self.lines = files, set[tuple[str, int]]()
        self.shared: dict[int, tuple[Lines, float]] = {}

    def _call(self, frame: FrameType, _event: str, _arg: object) -> Any:
        return self._line if frame.f_code.co_filename in self.files else None

    def _line(self, frame: FrameType, event: str, _arg: object) -> Any:
        if event == "line":
            self.lines.add((frame.f_code.co_filename, frame.f_lineno))
        return self._line

    @pytest.hookimpl(wrapper=True)
    def pytest_fixture_setup(self, fixturedef: Any) -> Any:
        """A fixture of a module is made for its first user alone; what it reaches counts for all."""
        outer, self.lines, start = self.lines, set(), time.process_time()
        try:
            return (yield)
        finally:
            if fixturedef.scope != "function":
                self.shared[id(fixturedef)] = (self.lines, time.process_time() - start)
            self.lines = self.lines | outer

    def of(self, item: Any, following: Any) -> tuple[bool, Lines, float, float]:
        """Whether a test passes, what it reaches, the seconds of the fixtures it shares and its own."""
        self.lines, start = set(), time.process_time()
        sys.settrace(self._call)
        reports = runtestprotocol(item, log=False, nextitem=following)
        sys.settrace(None)
        used = [made for several in item._fixtureinfo.name2fixturedefs.values() for made in several]
        wide = [self.shared[id(made)] for made in used if id(made) in self.shared]
        lines = self.lines.union(*(lines for lines, _ in wide))
        return not any(report.failed for report in reports), lines, sum(s for _, s in wide), time.process_time() - start


# -- faults in functions: all tests are collected, the code of a function is replaced ---------------------------------


class Loop:
    """A plugin of pytest that runs the tests once to see what they reach, then once more for every mutant."""

    def __init__(self, trees: dict[Path, Any], mutants: list[Mutant], jobs: int) -> None:
        self.trees, self.mutants, self.jobs = trees, mutants, jobs
        self.found: list[tuple[Mutant, int]] = []
        self.reach = Reach({str(file) for file in trees})
        self.order: list[Any] = []
        self.by_line: dict[tuple[str, int], list[int]] = defaultdict(list)
        self.seconds: list[float] = []

    def pytest_runtestloop(self, session: pytest.Session) -> bool:
        """Instead of the ordinary loop."""
        self._record(session)
        forget()
        gc.collect()
        gc.freeze()
        self.found = told(verdicts(self.mutants, self._try, self.jobs))
        return True

    def _record(self, session: pytest.Session) -> None:
        with tempfile.NamedTemporaryFile() as kept:
            os.waitpid(fork(partial(self._recorded, session.items, Path(kept.name))), 0)
            rows = pickle.loads(Path(kept.name).read_bytes())
        failed = [item.nodeid for item, row in zip(session.items, rows, strict=True) if not row[0]]
        if failed:
            raise SystemExit(f"these fail without any fault: {failed[:5]}")
        paired = sorted(zip(session.items, rows, strict=True), key=lambda pair: (pair[1][2], pair[1][3]))
        self.order = [item for item, _ in paired]
        self.seconds = [row[2] + row[3] for _, row in paired]
        for at, (_, row) in enumerate(paired):
            for line in row[1]:
                self.by_line[line].append(at)

    def _recorded(self, items: list[Any], kept: Path) -> int:
        rows = [self.reach.of(item, after) for item, after in zip(items, [*items[1:], None], strict=True)]
        kept.write_bytes(pickle.dumps(rows))
        return 0

    def _chosen(self, mutant: Mutant) -> list[int]:
        """The tests that reach a fault, quickest first; then others of their files, which may share what is kept."""
        file = str(mutant.file)
        reaching = sorted({at for line in mutant.lines for at in self.by_line[file, line]})
        files = {self.order[at].path for at in reaching}
        others = [at for at, item in enumerate(self.order) if item.path in files and at not in set(reaching)]
        return reaching + others

    def _try(self, mutant: Mutant) -> int:
        chosen = self._chosen(mutant)
        if not chosen:
            return UNREACHED
        mutant.put_in()
        name = ".".join(mutant.file.relative_to(ROOT).with_suffix("").parts)
        swap(sys.modules[name], mutant.function, compile(self.trees[mutant.file], str(mutant.file), "exec"))
        for at, after in zip(chosen, [*chosen[1:], None], strict=True):
            limit(self.seconds[at])
            following = None if after is None else self.order[after]
            if any(report.failed for report in runtestprotocol(self.order[at], log=False, nextitem=following)):
                return KILLED
        return SURVIVED


def swap(module: Any, function: str, code: CodeType) -> None:
    """Give a function of a module the code that stands under its name in other code."""
    found = module
    for part in function.split("."):
        found = vars(found)[part]
    found = getattr(found, "fget", None) or getattr(found, "__func__", found)
    getattr(found, "__wrapped__", found).__code__ = next(each for each in codes(code) if each.co_qualname == function)


def codes(code: CodeType) -> Iterator[CodeType]:
    """The code of every function within."""
    for each in code.co_consts:
        if isinstance(each, CodeType):
            yield each
            yield from codes(each)


def forget() -> None:
    """Empty whatever was kept while tests were collected; the tables stay."""
    for kept in gc.get_objects():
        module = str(kept.__module__) if hasattr(type(kept), "cache_clear") else ""
        if module.startswith(("fasten", "tests", "recalculation")) and not module.startswith("fasten.catalog"):
            kept.cache_clear()


# -- faults outside functions: a module is read anew ------------------------------------------------------------------


def try_anew(trees: dict[Path, Any], tests: list[str], mutant: Mutant) -> int:
    """Run the tests in a process whose import of the module meets the fault."""
    mutant.put_in()
    usual = SourceFileLoader.get_code

    def get_code(loader: SourceFileLoader, name: str) -> CodeType | None:
        if loader.path != str(mutant.file):
            return usual(loader, name)
        return compile(trees[mutant.file], loader.path, "exec")

    setattr(SourceFileLoader, "get_code", get_code)  # noqa: B010
    signal.alarm(600)
    plain = "--assert=plain"  # or pytest reads a module by itself whose name begins as those of tests do
    return KILLED if pytest.main([*tests, "-x", "-q", plain, "-p", "no:cacheprovider"]) else SURVIVED


# -- all together -----------------------------------------------------------------------------------------------------


def sources(only: Iterable[str]) -> list[Path]:
    """The files to put faults into."""
    places = (ROOT / name for name in only)
    return [file for place in places for file in (sorted(place.glob("*.py")) if place.is_dir() else [place])]


def told(found: Iterator[tuple[Mutant, int]]) -> list[tuple[Mutant, int]]:
    """All verdicts, each printed where no test saw the fault."""
    equivalent = import_module("equivalent").EQUIVALENT
    kept = []
    for mutant, verdict in found:
        kept.append((mutant, verdict))
        if verdict != KILLED and mutant.text not in equivalent:
            print(f"{'SURVIVED' if verdict == SURVIVED else 'UNREACHED'} {mutant.text}", flush=True)
        if len(kept) % 100 == 0:
            print(f"# {len(kept)} tried, {time.process_time():.0f} s", file=sys.stderr, flush=True)
    return kept


def summed(found: list[tuple[Mutant, int]]) -> bool:
    """Print the figures of each part; whether all are good."""
    equivalent = import_module("equivalent").EQUIVALENT
    counts: dict[str, Counter[str]] = defaultdict(Counter)
    for mutant, verdict in found:
        kind = "killed" if verdict == KILLED else "equivalent" if mutant.text in equivalent else "survived"
        counts["/".join(mutant.file.relative_to(ROOT).parts[:2])][kind] += 1
    print(f"{'part':20} {'faults':>7} {'killed':>7} {'equivalent':>11} {'survived':>9} {'share':>7}")
    shares = []
    for part, count in sorted(counts.items()):
        counted = count["killed"] + count["survived"]
        shares.append(count["killed"] / counted if counted else 1.0)
        figures = f"{count['killed']:7} {count['equivalent']:11} {count['survived']:9} {shares[-1]:7.1%}"
        print(f"{part:20} {count.total():7} {figures}")
    return all(share >= ENOUGH for share in shares)


def main(args: argparse.Namespace) -> int:
    """Every mutant, or those a file names."""
    os.chdir(ROOT)
    named = {line.split(" ", 1)[1] for line in args.again.read_text().splitlines() if line} if args.again else None
    read = {file: import_module("mutants").mutants(file, str(file.relative_to(ROOT))) for file in sources(args.only)}
    trees = {file: tree for file, (tree, _) in read.items()}
    mutants = [each for _, several in read.values() for each in several if named is None or each.text in named]
    tests = [name for name in args.tests if (ROOT / name.split("::")[0]).exists()]
    hypothesis.settings.register_profile(
        "mutation", derandomize=True, database=None, deadline=None, suppress_health_check=list(hypothesis.HealthCheck),
        phases=(hypothesis.Phase.explicit, hypothesis.Phase.generate),
    )  # fmt: skip
    hypothesis.settings.load_profile("mutation")
    for name in ("pint", "pydantic", "tomllib"):  # once, for all children
        import_module(name)
    outside = [each for each in mutants if not each.function]
    found = told(verdicts(outside, partial(try_anew, trees, tests), args.jobs))
    loop = Loop(trees, [each for each in mutants if each.function], args.jobs)
    pytest.main([*tests, "-qq", "-W", "ignore", "-p", "no:cacheprovider"], plugins=[loop, loop.reach])
    return 0 if summed(found + loop.found) else 1


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description="Put small faults into the code and see whether a test fails.")
    parser.add_argument("--only", nargs="+", default=MUTATED)
    parser.add_argument("--tests", nargs="+", default=TESTS)
    parser.add_argument("--again", type=Path)
    parser.add_argument("--jobs", type=int, default=1)
    sys.exit(main(parser.parse_args()))
