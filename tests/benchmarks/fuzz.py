"""A coverage-guided fuzzer over everything that reads what a person wrote. Run by hand, with atheris installed:

    pip install atheris
    python tests/benchmarks/fuzz.py [cases] [target …]

Each target runs in a process of its own, guided by which branches of the program a case reaches. Told for each are
the cases, how many were accepted, the worst time in seconds of the processor, the most memory, and every kind of
fault once. ScrewEnd with 1 where there is a fault, a case over a second, or a process over 300 MB.
"""

import argparse
import json
import resource
import subprocess
import sys
import tempfile
import time
import traceback
from collections.abc import Callable
from importlib import import_module
from importlib.util import find_spec
from pathlib import Path
from typing import Any

TESTS = Path(__file__).resolve().parents[1]
CASES = 210_000
MOST_S, MOST_MB = 1.0, 300
LONGEST_CASE = 4096
SAVED = 100  # cases between two savings of the figures
WARM = 20  # first cases, in which tables and pint are read
MOST_FAULTS = 40

Row = dict[str, Any]


def targets() -> Any:
    """The module of targets, imported only where they run: in a child its imports are watched."""
    sys.path[:0] = [str(TESTS), str(TESTS.parent)]
    return import_module("fuzz.targets")


def memory_mb() -> float:
    return resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024


# -- the child: one target --------------------------------------------------------------------------------------------


class Tally:
    """Counts one target's cases and keeps what is worth telling."""

    def __init__(self, check: Callable[[bytes], bool], report: Path) -> None:
        self._check, self._report = check, report
        self._before_mb = memory_mb()
        self._cases = self._accepted = 0
        self._worst_s, self._worst = 0.0, b""
        self._faults: dict[str, str] = {}

    def run(self, data: bytes) -> None:
        """One case."""
        self._cases += 1
        start = time.process_time()
        try:
            self._accepted += self._check(data)
        except Exception as error:
            self._keep(error, data)
        spent = time.process_time() - start
        if spent > self._worst_s and self._cases > WARM:
            self._worst_s, self._worst = spent, data
        if self._cases % SAVED == 0:  # the fuzzer ends the process without a word
            self.save()

    def _keep(self, error: Exception, data: bytes) -> None:
        last = traceback.extract_tb(error.__traceback__)[-1]
        where = f"{type(error).__name__} at {Path(last.filename).name}:{last.lineno}"
        if len(self._faults) < MOST_FAULTS:
            self._faults.setdefault(where, f"{str(error)[:300]}\n      {data!r}")

    def save(self) -> None:
        """Leave the figures for the parent."""
        told = {
            "cases": self._cases, "accepted": self._accepted, "worst_s": self._worst_s,
            "worst": repr(self._worst[:400]), "before_mb": self._before_mb, "peak_mb": memory_mb(),
            "faults": self._faults,
        }  # fmt: skip
        self._report.write_text(json.dumps(told), encoding="utf-8")


def child(name: str, cases: int, seed: int, folder: Path) -> None:
    """Fuzz one target; never returns."""
    atheris = import_module("atheris")
    tempfile.tempdir = str(folder)
    with atheris.instrument_imports(include=["fasten"]):
        target = next(found for found in targets().TARGETS if found.name == name)
    corpus = folder / "corpus"
    corpus.mkdir()
    for number, case in enumerate(target.seeds):
        (corpus / str(number)).write_bytes(case)
        target.check(case)
    words = (f'"{"".join(f"{chr(92)}x{byte:02x}" for byte in word.encode())}"\n' for word in target.words if word)
    (folder / "words").write_text("".join(words))
    tally = Tally(target.check, folder / "report.json")
    options = (f"-runs={cases}", f"-max_len={LONGEST_CASE}", f"-dict={folder / 'words'}", f"-seed={seed}")
    atheris.Setup([sys.argv[0], *options, "-timeout=60", "-rss_limit_mb=0", "-verbosity=0", str(corpus)], tally.run)
    atheris.Fuzz()


# -- the parent -------------------------------------------------------------------------------------------------------


def fuzzed(name: str, cases: int, seed: int) -> Row:
    """The figures of one target."""
    with tempfile.TemporaryDirectory() as kept:
        words = (sys.executable, __file__, "--child", name, "--seed", str(seed), "--folder", kept, str(cases))
        done = subprocess.run(words, capture_output=True, text=True, check=False)
        report = Path(kept) / "report.json"
        if not report.exists():
            return {"cases": 0, "faults": {"the fuzzer itself": done.stderr[-800:]}}
        found: Row = json.loads(report.read_text(encoding="utf-8"))
        if done.returncode:
            found["faults"]["the process ended badly"] = done.stderr[-800:]
        return found


def told(name: str, row: Row) -> bool:
    """Print the figures of a target; whether they are good."""
    if row["cases"]:
        memory = f"{row['before_mb']:8.0f} {row['peak_mb']:8.0f}"
        print(f"{name:10} {row['cases']:9} {row['accepted']:9} {row['worst_s']:8.3f} {memory} {len(row['faults']):7}")
    for where, what in row["faults"].items():
        print(f"  FAULT {where}: {what}")
    if slow := row.get("worst_s", 0) > MOST_S:
        print(f"  SLOW {row['worst']}")
    sys.stdout.flush()
    return not (row["faults"] or slow or row.get("peak_mb", 0) > MOST_MB)


def main(cases: int, names: list[str], seed: int) -> int:
    """Fuzz every target, or those that are named, in turn."""
    if find_spec("atheris") is None:
        print("this needs the fuzzer atheris: pip install atheris", file=sys.stderr)
        return 2
    found = [target for target in targets().TARGETS if not names or target.name in names]
    shares = sum(target.share for target in found)
    print(f"{'target':10} {'cases':>9} {'accepted':>9} {'worst s':>8} {'start MB':>8} {'peak MB':>8} {'faults':>7}")
    good = [told(target.name, fuzzed(target.name, _hundreds(cases * target.share / shares), seed)) for target in found]
    return 0 if all(good) else 1


def _hundreds(cases: float) -> int:
    return max(round(cases / SAVED), 1) * SAVED


if __name__ == "__main__":
    parser = argparse.ArgumentParser(description="Fuzz all that reads what a person wrote.")
    parser.add_argument("cases", nargs="?", type=int, default=CASES)
    parser.add_argument("targets", nargs="*")
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--child", default="", help=argparse.SUPPRESS)
    parser.add_argument("--folder", type=Path, default=Path(), help=argparse.SUPPRESS)
    args = parser.parse_args()
    if args.child:
        child(args.child, args.cases, args.seed, args.folder)
    sys.exit(main(args.cases, args.targets, args.seed))
