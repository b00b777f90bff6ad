"""Kill a process that saves over and over, at random moments; after each kill the file must be whole. Run by hand:

    python tests/benchmarks/kill_saves.py [kills] [--seed N] [--screen]

Each round a child opens the job that the last kill left and saves two versions in turn until it is killed. The file,
and the copy kept beside it, must then be one of the two versions to the byte. With `--screen` the child is the screen
on a terminal of its own, which finds the job by itself, and in whose box a line is ticked over and over; no file that
a kill leaves may hide the job from the next one. With `--visits` it adds a visit and keeps a test piece over and over:
none that was saved may be lost. POSIX only: it forks.
"""

import argparse
import fcntl
import os
import pty
import random
import re
import select
import signal
import struct
import tempfile
import termios
import time
from dataclasses import replace
from pathlib import Path

from fasten.catalog.tables import builtin
from fasten.job.store.storage import job_text, load_job, save_job
from fasten.job.words import Job, Mount

KILLS, SEED = 500, 20
LONGEST_S = 0.03  # a round lasts up to this long; a save takes a millisecond or a few
LONGEST_SCREEN_S = 0.3  # the same of a screen, which also draws what it saves
WAIT_S = 120.0  # for a screen on a machine with much else to do
SLOW_BYTES = 16  # what the slow disk of every other round takes at once
SAID = (("item", "amplifier"), ("onto", "steel 0.8 mm"), ("removed", "yearly"))


def version(letter: str) -> Job:
    """A job small enough that most of the time of a save goes into the files."""
    mounts = tuple(Mount(f"{letter} {number}", SAID, letter * 200) for number in range(4))
    return Job(f"version {letter}", "", "", mounts)


def save_for_ever(path: Path, versions: list[Job], ready: int) -> None:
    """Open what is there, then save the versions in turn."""
    stamp = load_job(path, builtin()).stamp
    os.write(ready, b"!")
    while True:
        for job in versions:
            stamp = save_job(job, path, stamp).stamp


def write_slowly() -> None:
    """Make every write take a few bytes only, as a full or slow disk may: most kills then cut a write in two."""
    write = os.write
    os.write = lambda file, data: write(file, data[:SLOW_BYTES])  # type: ignore[index]


def killed_round(path: Path, versions: list[Job], delay_s: float, slow: bool) -> None:
    """One child, killed after a while; it must have lived until then."""
    heard, ready = os.pipe()
    child = os.fork()
    if child == 0:
        try:
            if slow:
                write_slowly()
            save_for_ever(path, versions, ready)
        finally:
            os._exit(1)
    os.close(ready)
    os.read(heard, 1)
    os.close(heard)
    time.sleep(delay_s)
    os.kill(child, signal.SIGKILL)
    _, status = os.waitpid(child, 0)
    if not os.WIFSIGNALED(status):
        raise SystemExit("a child gave up before it was killed")


def check(path: Path, whole: set[bytes]) -> int:
    """How many part files a kill left, once every other file is known to be whole."""
    names = {path.name, f"{path.name}.previous"}
    parts = [found for found in path.parent.iterdir() if found.name not in names]
    broken = [
        name for name in names if path.with_name(name).exists() and path.with_name(name).read_bytes() not in whole
    ]
    if broken or len(parts) > 2:
        raise SystemExit(f"after a kill: broken {broken}, beside it {sorted(part.name for part in parts)}")
    return len(parts)


# -- visits -----------------------------------------------------------------------------------------------------------


def visit_for_ever(path: Path, tests: Path, said: int) -> None:
    """Add one visit after the other, and keep a test piece with each; say how many are saved for sure."""
    from fasten.job.after.built import recorded
    from fasten.job.edit import with_mount
    from fasten.job.store.tests_toml import keep
    from fasten.model import OwnTest, Read

    while True:
        loaded = load_job(path, builtin())
        mount, count = loaded.value.mounts[0], len(loaded.value.mounts[0].visits)
        done = recorded(mount, {"torque": "1 N·m", "note": str(count)}, "2026-11-29")
        save_job(with_mount(loaded.value, done, instead_of=mount.name), path, loaded.stamp)
        keep(tests, (OwnTest(Read.SPIN_OUT, "part:x", "steel", 0.8, 7.0, (count + 1.0,), 0.0, "", ""),))
        os.write(said, (count + 1).to_bytes(4, "big"))


def kill_visits(kills: int, moments: random.Random, folder: Path) -> str:
    """No visit and no test piece that was saved is lost, and none is there twice."""
    from fasten.job.store.tests_toml import read_tests

    path, tests = folder / "car.toml", folder / "own" / "tests.toml"
    save_job(version("a"), path)
    sure = both = 0
    for number in range(kills):
        heard, said = os.pipe()
        child = os.fork()
        if child == 0:
            try:
                if number % 2:
                    write_slowly()
                visit_for_ever(path, tests, said)
            finally:
                os._exit(1)
        os.close(said)
        time.sleep(0.02 + moments.uniform(0, 0.1))
        os.kill(child, signal.SIGKILL)
        _, status = os.waitpid(child, 0)
        if not os.WIFSIGNALED(status):
            raise SystemExit("a child gave up before it was killed")
        with os.fdopen(heard, "rb") as file:
            told = file.read()
        whole = told[: len(told) // 4 * 4]
        sure = int.from_bytes(whole[-4:], "big") if whole else sure
        both += len(whole) // 4  # a kill between the two saves keeps the visit alone
        notes = [visit.note for visit in load_job(path, builtin()).value.mounts[0].visits]
        if notes != [str(at) for at in range(len(notes))] or len(notes) < sure:
            raise SystemExit(f"after a kill {len(notes)} visits are there, {sure} were saved")
        kept = [test.readings[0] for test in read_tests(tests)]
        if len(set(kept)) != len(kept) or len(kept) < both:
            raise SystemExit(f"after a kill {len(kept)} test pieces are there, {both} were saved")
    return f"{kills} kills, {len(notes)} visits and {len(kept)} test pieces, none lost, none twice"


# -- the screen -------------------------------------------------------------------------------------------------------


def killed_screen(delay_s: float, slow: bool) -> None:
    """A screen in whose box a line is ticked over and over, killed after a while of that."""
    child, terminal = pty.fork()
    if child == 0:
        try:
            if slow:
                write_slowly()
            from fasten.tui import run

            run()
        finally:
            os._exit(1)
    fcntl.ioctl(terminal, termios.TIOCSWINSZ, struct.pack("HHHH", 24, 80, 0, 0))
    until_shown(terminal, b"Mounts")
    os.write(terminal, b";b")
    until_shown(terminal, b"packed")
    ends = time.monotonic() + delay_s
    while time.monotonic() < ends:
        os.write(terminal, b"k")
        taken(terminal, 0.005)
    os.kill(child, signal.SIGKILL)
    _, status = os.waitpid(child, 0)
    os.close(terminal)
    if not os.WIFSIGNALED(status):
        raise SystemExit("a screen ended before it was killed")


STYLE = re.compile(rb"\x1b\[[0-9;?]*[A-Za-z]")


def until_shown(terminal: int, word: bytes) -> None:
    """Wait for a word, whatever colours and lines it is written in."""
    ends, seen = time.monotonic() + WAIT_S, b""
    while word not in STYLE.sub(b"", seen):
        seen += taken(terminal, 0.1)
        if time.monotonic() > ends:
            raise SystemExit(f"waited in vain for {word!r}; it wrote {seen[-2000:]!r}")


def taken(terminal: int, wait_s: float) -> bytes:
    return os.read(terminal, 65536) if select.select([terminal], [], [], wait_s)[0] else b""


def check_screen(path: Path, job: Job) -> int:
    """How many part files a kill left, once the job is whole, ticked or not, and is the one that a screen opens."""
    from fasten.tui.state.job_files import JobFiles

    whole = {path.read_bytes()}
    for found in (path, path.with_name(f"{path.name}.previous")):
        if found.exists():
            value = load_job(found, builtin()).value
            if replace(value, packed=()) != job or job_text(value).encode() != found.read_bytes():
                raise SystemExit(f"after a kill {found.name} holds another job")
            whole.add(found.read_bytes())
    job_files = JobFiles(path.parent, builtin())
    if job_files.paths() != [path] or job_files.start(None).job != load_job(path, builtin()).value:
        raise SystemExit(f"after a kill the job is hidden by {job_files.paths()}")
    return check(path, whole)


def kill_screens(kills: int, moments: random.Random, folder: Path) -> str:
    from fasten.commands._folders import jobs_folder

    os.environ |= {"FASTEN_DATA": str(folder), "FASTEN_TABLES": str(folder / "none"), "TERM": "xterm-256color"}
    job = replace(version("a"), mounts=tuple(replace(mount, note="a" * 4_000) for mount in version("a").mounts))
    path = jobs_folder() / "car.toml"
    path.parent.mkdir(parents=True)
    save_job(job, path)
    import fasten.tui.app  # noqa: F401  # once, for all the children

    cut, ticked, before = 0, 0, path.read_bytes()
    for number in range(kills):
        killed_screen(moments.uniform(0, LONGEST_SCREEN_S), slow=number % 2 == 1)
        cut += check_screen(path, job) > 0
        ticked += path.read_bytes() != before
        before = path.read_bytes()
    last = load_job(path, builtin())
    save_job(Job("after", "", "", ()), path, last.stamp)
    left = check(path, {before, path.read_bytes()})
    told = f"{kills} kills of the screen, {cut} of them in the middle of a save, {ticked} with another tick than before"
    return f"{told}: every file whole, {left} parts left after a save"


def kill_commands(kills: int, moments: random.Random, folder: Path) -> str:
    versions = [version("a"), version("b")]
    whole = {job_text(job).encode() for job in versions}
    path = folder / "car.toml"
    save_job(versions[0], path)
    cut = 0
    for number in range(kills):
        killed_round(path, versions, moments.uniform(0, LONGEST_S), slow=number % 2 == 1)
        cut += check(path, whole) > 0
    last = load_job(path, builtin())
    save_job(Job("after", "", "", ()), path, last.stamp)
    left = check(path, {*whole, path.read_bytes()})
    return f"{kills} kills, {cut} of them in the middle of a save: every file whole, {left} parts left after a save"


def main() -> None:
    parser = argparse.ArgumentParser(description=__doc__.partition("\n")[0] if __doc__ else None)
    parser.add_argument("kills", nargs="?", type=int, default=KILLS)
    parser.add_argument("--seed", type=int, default=SEED)
    parser.add_argument("--screen", action="store_true", help="kill the screen, not what saves by itself")
    parser.add_argument("--visits", action="store_true", help="kill what adds visits and keeps test pieces")
    args = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        kill = kill_screens if args.screen else kill_visits if args.visits else kill_commands
        print(kill(args.kills, random.Random(args.seed), Path(folder)))


if __name__ == "__main__":
    main()
