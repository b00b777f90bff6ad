"""How quickly the runs of a large job are sized, equipped and listed. Run by hand:

    python tests/benchmarks/runs.py [rounds]

Times depend on the machine. 200 runs of every kind are listed, from the job to the text, with the tables read before.
"""

import statistics
import sys
import time

from fasten.catalog.tables import Tables, builtin
from fasten.job.wiring.proposals import proposals
from fasten.job.wiring.runs import run_choices
from fasten.job.words import CableRun, Job
from fasten.report.forms.written import written
from fasten.report.wire.runs import runs_document

ROUNDS, COUNT, MOST_S = 5, 200, 0.5
KINDS = (
    ("1000 W class D", "battery stud M8", "set screw", "0.45 m"), ("72 A", "battery post +", "stud M8", ""),
    ("loudspeaker 100 W 4 ohm", "set screw", "tab 6.3x0.8", ""), ("remote", "connector", "set screw", ""),
    ("600 W class AB", "battery stud M8", "set screw takes 4 AWG", "0.45 m"),
)  # fmt: skip


def run(number: int) -> CableRun:
    """One of many runs, of each kind in turn."""
    carries, from_, to, ground = KINDS[number % len(KINDS)]
    said = (("carries", carries), ("from", from_), ("to", to), ("length", f"{3 + number % 4} m"), ("ground", ground))
    return CableRun(f"run {number}", tuple((name, text) for name, text in said if text))


def listed(job: Job, tables: Tables) -> str:
    """The list of the runs as it is printed."""
    found = run_choices(job, tables)
    return written(runs_document(job, found, proposals(job, found, tables)), "text", 100)


def main() -> int:
    rounds = int(sys.argv[1]) if len(sys.argv) > 1 else ROUNDS
    tables, job = builtin(), Job("bench", "", "", (), runs=tuple(map(run, range(COUNT))))
    taken = []
    for _ in range(rounds + 1):
        start = time.perf_counter()
        listed(job, tables)
        taken.append(time.perf_counter() - start)
    median = statistics.median(taken[1:])
    print(f"{COUNT} runs: first {taken[0]:.2f} s, then {median:.2f} s (at most {MOST_S} s)")
    return int(max(taken[0], median) > MOST_S)


if __name__ == "__main__":
    sys.exit(main())
