"""Sessions of the screen at random, many more than the tests run. Run by hand:

    python tests/benchmarks/sessions.py [sessions] [--steps N] [--seed N]

Each session changes, opens, takes back and ticks on every page, with panels half done and other programs at the files;
after every step nothing but the job in hand may have been written, and what the top line says must be true. Those that
failed are told with their steps and their seed; ends with 1 where any did. A step takes half a second.
"""

import argparse
import sys
import tempfile
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))
from tui.sessions import run_session

SESSIONS, STEPS, SEED = 500, 40, 1_000


def trouble(seed: int, steps: int) -> str:
    """What did not hold in a session; empty where all did."""
    with tempfile.TemporaryDirectory() as folder:
        try:
            run_session(seed, steps, Path(folder))
        except Exception as error:
            return f"{type(error).__name__}: {str(error)[:1_000]}"
    return ""


def main() -> None:
    parser = argparse.ArgumentParser(description="Sessions of the screen at random")
    parser.add_argument("sessions", nargs="?", type=int, default=SESSIONS)
    parser.add_argument("--steps", type=int, default=STEPS)
    parser.add_argument("--seed", type=int, default=SEED)
    args = parser.parse_args()
    wrong, began = 0, time.monotonic()
    for seed in range(args.seed, args.seed + args.sessions):
        if why := trouble(seed, args.steps):
            wrong += 1
            print(f"seed {seed}: {why}", flush=True)
    print(f"{args.sessions} sessions of {args.steps} steps, {wrong} wrong, {time.monotonic() - began:.0f} s")
    sys.exit(wrong > 0)


if __name__ == "__main__":
    main()
