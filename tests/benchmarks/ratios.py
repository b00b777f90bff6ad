"""Every figure of speed as a ratio in one run, beside its goal; under two minutes on an idle machine. Run by hand:

    .venv/bin/python tests/benchmarks/ratios.py [part …]

The parts are `start` (whole processes), `core` (in this process) and `screen` (in a pseudo-terminal); all of them where
none is named. Times are of the processor, so that a busy machine changes little; from a key to its answer it is the
clock. The loop is a million times `i * i % 7`, measured beside each figure. Of `core` each figure is the least of five
rounds (a pick: of 20) after a first that does not count: what the tables are read into by then is kept, the answers and
what is worked out for a mount point are forgotten before each round. Ends with 1 where a goal is missed; where it is
known what stands in the way, that is said below.
"""

import gc
import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from resource import RUSAGE_CHILDREN, getrusage

sys.path.insert(0, str(Path(__file__).parents[2]))
sys.path.insert(0, str(Path(__file__).parents[1]))
from benchmarks import hardware, runs, screen
from benchmarks.advice import PICK
from benchmarks.forgetting import forget
from fasten.advice.advise import advise
from fasten.catalog.tables import builtin
from fasten.cli import GARBAGE
from fasten.commands.demo import JOB, demo_folder
from fasten.job.choices import choices
from fasten.job.entries import entries
from fasten.job.gauge.gauge import measuring_pass
from fasten.job.list.hardware import hardware as hardware_list
from fasten.job.ready import ready
from fasten.job.start.start import started
from fasten.job.start.wanted import read_wanted
from fasten.job.store.storage import load_job, save_job
from fasten.job.words import Job
from fasten.job.work import work_sheet
from fasten.question.read import read_question
from fasten.question.resolve import resolve
from fasten.report.forms.written import written
from fasten.report.job.start import started as what_started
from fasten.report.job.start import started_text
from fasten.report.job.work import work_document

PYTHON = sys.executable
FASTEN = str(Path(PYTHON).with_name("fasten"))
PYDANTIC, BOTH = (PYTHON, "-c", "import pydantic"), (PYTHON, "-c", "import pydantic, pint")
ARGPARSE = (PYTHON, "-c", "import argparse")
PROCESSES, PICKS, ROUNDS, KEYS, STARTS = 7, 20, 5, 60, 4
MANY, RUNS = 1000, 500
WANTED, WANTED_MOUNTS = "two amplifiers, four door speakers, sub box, ground", 12


WHY = {
    "ready on the demo": "two fifths of it load the 310 modules that answer, over a quarter finds 12 first answers, an"
    " eighth sizes 15 runs, a tenth reads 85 tables; pydantic and pint are not among them",
    "work, 1,000 mounts": "first answers, and all refusals where nothing fits, are four fifths of it; the sheet, its"
    " sections and their text are 2 loops",
    "screen start": "100 modules of its own, 23 widgets more than the empty app and the rules of their looks",
    f"key to answer, p95, {screen.MOUNTS} mounts": "nearly half of it is the first answer, a fifth drawing it, a"
    " quarter the way of the key to its field; no save, garbage or rail is in it, so more than that is what others"
    " take of the clock",
    "memory of the screen": "all of the 1.7 MB over the empty app are the code of its own 100 modules",
    "one pick in process": "11 joints are proved, two fifths of it; 22 methods set up, a fifth; two answers worded, a"
    " fifth: 9,900 calls, and no function takes over a thirtieth; were no joint proved, it would be over the goal",
    "1,000 mounts listed, 100 different": "9,000 calls for each first answer; where there is none, a question in"
    " seven, 29,000: every method, wider part and small change is tried, and that is a third of it",
    "start of 12 mounts, answered, in process": "158 proofs and 188,000 calls: a third of it is one enclosure, whose"
    " joints are tried with every wider part",
    "measuring pass, 12 mounts, in process": "34 proofs and 52,000 calls a mount point: nearly half of it looks for"
    " the first answer with other holes of the item",
    "1,000 mounts with 500 runs: ready": "its 100 first answers are seven tenths of it; the runs are a sixth, a loop",
}
"""What the profile shows of figures that miss their goal."""


@dataclass(frozen=True)
class Row:
    """A figure: what it is of, beside what, how many times as long or large it is, and how many times it may be."""

    what: str
    beside: str
    ratio: float
    goal: float


def spent(work: Callable[[], object]) -> float:
    """Time of the processor that it takes."""
    begun = time.process_time()
    work()
    return time.process_time() - begun


def in_loops(work: Callable[[], object], rounds: int = ROUNDS) -> float:
    """The least that it takes after a first round, in loops of which the quickest was taken before and after."""
    work()
    around = loop()
    taken = min(spent(work) for _ in range(rounds))
    return taken / min(around, loop())


def loop() -> float:
    return min(spent(lambda: sum(i * i % 7 for i in range(1_000_000))) for _ in range(3))


# -- whole processes --------------------------------------------------------------------------------------------------


def of_process(command: tuple[str, ...], env: dict[str, str]) -> float:
    """Time of the processor of a whole command; a verdict that something is missing is no fault."""
    before = getrusage(RUSAGE_CHILDREN)
    found = subprocess.run(command, stdout=subprocess.DEVNULL, env=env, check=False)
    assert found.returncode in (0, 1), command
    after = getrusage(RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime  # `os.times` counts hundredths alone


def start() -> Iterator[Row]:
    """Whole commands against what they could not do without; each in turn, round by round, the first to compile."""
    job = str(demo_folder() / JOB)
    pairs = (
        ("look M6", (FASTEN, "look", "M6"), "import pydantic", PYDANTIC, 0.9),
        ("--help", (FASTEN, "--help"), "import argparse", ARGPARSE, 1.15),
        ("pick", (FASTEN, *PICK), "import pydantic, pint", BOTH, 0.45),
        ("ready on the demo", (FASTEN, "ready", job), "import pydantic, pint", BOTH, 0.8),
    )
    commands = [command for _, ours, _, theirs, _ in pairs for command in (ours, theirs)]
    taken: dict[tuple[str, ...], list[float]] = {command: [] for command in commands}
    with tempfile.TemporaryDirectory() as folder:
        kept = {name: value for name, value in os.environ.items() if name != "PYTHONDONTWRITEBYTECODE"}
        own = dict.fromkeys(("XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_STATE_HOME"), folder)  # nothing of the user's own
        env = {**kept, **own, "PYTHONPYCACHEPREFIX": folder}
        for number in range(PROCESSES + 1):
            for command in taken:
                taken[command] += [of_process(command, env)] * bool(number)
    for what, ours, beside, theirs, goal in pairs:
        yield Row(what, beside, statistics.median(taken[ours]) / statistics.median(taken[theirs]), goal)


# -- in this process --------------------------------------------------------------------------------------------------


def one_pick() -> float:
    said = {"item": PICK[1], **{name[2:]: text for name, text in zip(PICK[2::2], PICK[3::2], strict=True)}}
    point = resolve(read_question(said, builtin()), builtin())

    def pick() -> None:
        forget()
        advise(point, builtin(), changes=False)

    return in_loops(pick, PICKS)


@cache
def many() -> Job:
    """1,000 mount points of 100 different questions."""
    return hardware.job(MANY)


def listed() -> None:
    forget()
    hardware_list(many(), choices(many(), builtin()), None, builtin())


def worked() -> None:
    """The whole work sheet as it is printed."""
    forget()
    sheet = work_sheet(many(), choices(many(), builtin()), None, builtin())
    written(work_document(sheet, 100), "text", 100)


def begun() -> None:
    """A job of 12 mount points from a few words, with the first answer of each, as `fasten start` prints it."""
    forget()
    empty = Job("", "", "", ())
    job = started(empty, read_wanted(WANTED, builtin()), builtin())
    assert len(job.mounts) == WANTED_MOUNTS
    started_text(what_started(empty, job, "car.toml", builtin()), 80)


def measured() -> None:
    forget()
    measuring_pass(load_job(demo_folder() / JOB, builtin()).value, builtin())


def with_runs() -> None:
    """The verdict on as many mount points with runs of every kind."""
    forget()
    job = Job("bench", "", "", many().mounts, runs=tuple(map(runs.run, range(RUNS))))
    found = entries(job, builtin())
    ready(hardware_list(job, found, None, builtin()), found)


def core() -> Iterator[Row]:
    """Advice, lists and sheets, each from nothing known."""
    yield Row("one pick in process", "loop", one_pick(), 0.02)
    yield Row("1,000 mounts listed, 100 different", "loop", in_loops(listed), 6)
    yield Row("work, 1,000 mounts", "loop", in_loops(worked), 16)
    yield Row("start of 12 mounts, answered, in process", "loop", in_loops(begun), 1)
    yield Row("measuring pass, 12 mounts, in process", "loop", in_loops(measured), 3)
    yield Row("1,000 mounts with 500 runs: ready", "loop", in_loops(with_runs), 8)


# -- the screen -------------------------------------------------------------------------------------------------------


def on_screen() -> Iterator[Row]:
    """Start, memory and keys."""
    with tempfile.TemporaryDirectory() as name:
        folder, pycache = Path(name), str(Path(name) / "pycache")
        ours, empty = screen.starts(STARTS, folder, pycache)
        save_job(screen.job_of(screen.MOUNTS), folder / "many.toml")
        gc.collect()
        gc.freeze()  # what this process has made so far is not looked through while it waits for the other
        taken = screen.answers(folder, pycache, KEYS)
    began, yard = (statistics.median(one.seconds for one in ones) for ones in (ours, empty))
    held, least = (statistics.median(one.megabytes for one in ones) for ones in (ours, empty))
    key_s = statistics.quantiles((one.clock_ms for one in taken), n=20)[-1] / 1000
    own_s = statistics.median(one.processor_ms for one in taken) / 1000
    yield Row("screen start", "empty Textual app", began / yard, 1.15)
    yield Row(f"key to answer, p95, {screen.MOUNTS} mounts", "loop", key_s / loop(), 0.15)
    yield Row("of it on the processor, median", "loop", own_s / loop(), 0.15)
    yield Row("memory of the screen", "empty Textual app", held / least, 1.05)


PARTS: dict[str, Callable[[], Iterator[Row]]] = {"start": start, "core": core, "screen": on_screen}


def main(parts: list[str]) -> int:
    """Print each row as it is found; 1 where one is over its goal."""
    gc.set_threshold(GARBAGE)  # as every command does
    over, begun = False, time.monotonic()
    print(f"{'what':40} {'beside':24} {'ratio':>7} {'goal':>6}")
    for part in parts or PARTS:
        for row in PARTS[part]():
            over |= row.ratio > row.goal
            print(f"{row.what:40} {row.beside:24} {row.ratio:7.3f} {row.goal:6.3g}", flush=True)
            if row.ratio > row.goal and row.what in WHY:
                print(f"    {WHY[row.what]}", flush=True)
    print(f"{time.monotonic() - begun:.0f} s; a loop takes {loop() * 1000:.0f} ms")
    return int(over)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
