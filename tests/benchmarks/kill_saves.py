"""Kill a process that saves over and over, at random moments; after each kill the file must be whole. Run by hand:

    python tests/benchmarks/kill_saves.py [kills] [seed]

Each round a child opens the job that the last kill left and saves two versions in turn until it is killed. The file,
and the copy kept beside it, must then be one of the two versions to the byte. POSIX only: it forks.
"""

import os
import random
import signal
import sys
import tempfile
import time
from pathlib import Path

from fasten.catalog.tables import builtin
from fasten.job.store.storage import job_text, load_job, save_job
from fasten.job.words import Job, Mount

KILLS, SEED = 500, 20
LONGEST_S = 0.03  # a round lasts up to this long; a save takes a millisecond or a few
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


def main() -> None:
    kills = int(sys.argv[1]) if len(sys.argv) > 1 else KILLS
    moments = random.Random(int(sys.argv[2]) if len(sys.argv) > 2 else SEED)
    versions = [version("a"), version("b")]
    whole = {job_text(job).encode() for job in versions}
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "car.toml"
        save_job(versions[0], path)
        cut = 0
        for number in range(kills):
            killed_round(path, versions, moments.uniform(0, LONGEST_S), slow=number % 2 == 1)
            cut += check(path, whole) > 0
        last = load_job(path, builtin())
        save_job(Job("after", "", "", ()), path, last.stamp)
        left = check(path, {*whole, path.read_bytes()})
    print(f"{kills} kills, {cut} of them in the middle of a save: every file whole, {left} parts left after a save")


if __name__ == "__main__":
    main()
