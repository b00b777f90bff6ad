"""How quickly the screen starts and answers, and what it takes, in a real pseudo-terminal. Run by hand:

    python tests/benchmarks/screen.py [rounds]

Start and memory are ratios to an empty Textual app that shows a form and a table; the two take turns in one run. The
answer is timed from a key to the bytes of the torque that it leads to, in a job of 200 mount points, at one that says
17 fields.
"""

import statistics
import sys
import tempfile
import time
from dataclasses import dataclass
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))
from tui.terminal import FASTEN, Terminal

from fasten.catalog.tables import builtin
from fasten.job.store.storage import save_job
from fasten.job.words import Job, Mount
from fasten.tui.drawn.figures import figures
from fasten.tui.mounts.entry import consider

ROUNDS = 15
KEYS = 45
MOUNTS = 200
MOST_MS, MOST_START, MOST_MEMORY = 100.0, 1.3, 1.5
EMPTY_APP = """
from textual.app import App
from textual.widgets import DataTable, Input, Label

class Empty(App):
    def compose(self):
        for name in ("one", "two", "three"):
            yield Label(name)
            yield Input(compact=True)
        yield DataTable()

    def on_mount(self):
        table = self.query_one(DataTable)
        table.add_columns("first", "second")
        table.add_rows([(str(n), "row") for n in range(9)])
        self.query_one(Input).focus()

Empty().run()
"""
FULL = {
    "item": "amplifier", "onto": "aluminium 3 mm", "removed": "yearly", "behind": "60 mm", "edge": "30 mm",
    "support": "frame", "mass": "4 kg", "fixings": "4", "pattern": "rectangle 240x180", "item-thickness": "2 mm",
    "item-hole": "5.5 mm", "reach": "one-side", "panel": "floor", "where": "cabin", "far-side": "dry", "visible": "no",
    "cg": "30 mm",
}  # fmt: skip
"""17 fields, all that such a mount point may say and most leave preset."""
YARDSTICK = (sys.executable, "-c", EMPTY_APP)


@dataclass(frozen=True)
class Started:
    """How long one start took until a key typed at once was on the screen, and the most memory it had held by then."""

    seconds: float
    megabytes: float


def job_of(count: int) -> Job:
    """Many mount points, no two alike; the first, which the screen opens on, says all that it may."""
    materials = ("steel", "aluminium", "galvanised steel")
    full = Mount("full", tuple(FULL.items()))
    mounts = tuple(
        Mount(
            f"mount {n}",
            (("item", "amplifier"), ("onto", f"{materials[n % 3]} {0.6 + n * 0.01:.2f} mm"), ("removed", "yearly")),
        )
        for n in range(count - 1)
    )
    return Job("many", "", "", (full, *mounts))


def peak_mb(terminal: Terminal) -> float:
    """The most memory that the program has held."""
    status = Path(f"/proc/{terminal.process.pid}/status").read_text()
    return int(status.partition("VmHWM:")[2].split()[0]) / 1024


def started(folder: Path, program: tuple[str, ...], first: bytes, pycache: str) -> Started:
    """Start a program; it can be used once what is typed stands on the screen."""
    begun = time.perf_counter()
    with Terminal(folder, (), program, PYTHONPYCACHEPREFIX=pycache, PYTHONDONTWRITEBYTECODE="") as terminal:
        terminal.until(lambda: first in terminal.raw, "the first screen")
        at = len(terminal.raw)
        terminal.keys("z")
        terminal.until(lambda: b"z" in terminal.raw[at:], "a letter typed")
        return Started(time.perf_counter() - begun, peak_mb(terminal))


def torque_at(thickness: str) -> bytes:
    """The torque of the full mount point on so many millimetres, as it stands on the screen."""
    good = consider({**FULL, "onto": f"aluminium {thickness} mm"}, builtin()).good
    assert good is not None
    return next(one.text for one in figures(good.advice.answers[0]) if one.label == "torque").encode()


@dataclass(frozen=True)
class Answered:
    """How long a key took until its answer was on the terminal, by the clock and of the processor by itself."""

    clock_ms: float
    processor_ms: float


def processor_ms(terminal: Terminal) -> float:
    """What the program has had of the processor: by the kernel's own count, which knows less than a clock tick."""
    threads = Path(f"/proc/{terminal.process.pid}/task").glob("*/schedstat")
    return sum(int(thread.read_text().split()[0]) for thread in threads) / 1e6


def answers(folder: Path, pycache: str, keys: int = KEYS) -> list[Answered]:
    """From each key that changes the thickness to the torque for it, in a job of many mount points."""
    texts = [f"{number // 45 + 3}.{number // 5 % 9 + 1}{number % 5 + 5}" for number in range(keys)]  # each is new
    torques = {text: torque_at(text) for text in (*texts, *(text[:3] for text in texts))}
    taken = []
    with Terminal(folder, ("many.toml",), PYTHONPYCACHEPREFIX=pycache, PYTHONDONTWRITEBYTECODE="") as terminal:
        terminal.shows("1 of 200", "torque")
        terminal.rest()  # what is loaded once the screen stands is part of the start
        terminal.keys("\t" + "\x7f" * 20 + "aluminium 9 mm")
        terminal.shows("aluminium 9 mm")
        terminal.keys("\x1b[D" * 3)
        for number, text in enumerate(texts):
            terminal.keys("\x7f" * (4 if number else 1) + text[:3])
            terminal.shows(f"aluminium {text[:3]} mm,", f" {torques[text[:3]].decode()}")
            time.sleep(0.1 + number % 7 * 0.03)  # at every moment of the saving of each second
            at, had, begun = len(terminal.raw), processor_ms(terminal), time.perf_counter()
            terminal.keys(text[3])
            wanted = b"m" + torques[text]  # after the end of its style
            terminal.until(lambda: wanted in terminal.raw[at:], f"the torque on {text} mm")  # noqa: B023
            clock_ms = (time.perf_counter() - begun) * 1000
            taken.append(Answered(clock_ms, processor_ms(terminal) - had))
    return taken


def starts(rounds: int, folder: Path, pycache: str) -> tuple[list[Started], list[Started]]:
    """The program and the yardstick in turn; the first round compiles and is not counted."""
    ours, empty = [], []
    for number in range(rounds + 1):
        fresh = folder / f"fresh-{number}"
        fresh.mkdir()
        ours.append(started(fresh, (FASTEN,), b"helf", pycache))
        empty.append(started(fresh, YARDSTICK, b"second", pycache))
    return ours[1:], empty[1:]


def main(rounds: int) -> int:
    """Print the table; 1 if a figure is over its limit."""
    with tempfile.TemporaryDirectory() as name:
        folder, pycache = Path(name), str(Path(name) / "pycache")
        ours, empty = starts(rounds, folder, pycache)
        save_job(job_of(MOUNTS), folder / "many.toml")
        found = answers(folder, pycache)
    start, yard = (statistics.median(one.seconds for one in ones) for ones in (ours, empty))
    held, least = (statistics.median(one.megabytes for one in ones) for ones in (ours, empty))
    taken = [one.clock_ms for one in found]
    rows = (
        ("start, to a key on the screen", start * 1000, "ms", 0.0),
        ("empty app, the same", yard * 1000, "ms", 0.0),
        ("start over the empty app", start / yard, "x", MOST_START),
        ("memory", held, "MB", 0.0),
        ("memory of the empty app", least, "MB", 0.0),
        ("memory over the empty app", held / least, "x", MOST_MEMORY),
        ("of the processor", statistics.median(one.processor_ms for one in found), "ms", 0.0),
        (f"key to answer, {MOUNTS} mounts", statistics.median(taken), "ms", 0.0),
        ("95th percentile", statistics.quantiles(taken, n=20)[-1], "ms", MOST_MS),
    )
    print(f"{'what':30} {'figure':>8}      {'most':>6}")
    for what, figure, unit, most in rows:
        print(f"{what:30} {figure:8.2f} {unit:4} {most or '-':>6}")
    return int(any(most and figure > most for _, figure, _, most in rows))


if __name__ == "__main__":
    sys.exit(main(int(sys.argv[1]) if len(sys.argv) > 1 else ROUNDS))
