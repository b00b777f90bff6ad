"""Every signal at every moment of the start, each in a program of its own on a terminal of its own. Run by hand:

    python tests/benchmarks/signals.py [part of a moment's or a signal's name …]

For each it is told whether the terminal was left as it was found, and the program with it; a signal to stand still must
leave a screen that goes on and takes every key. Ends with 1 where any did not. POSIX only; some nine minutes.
"""

import signal
import sys
import tempfile
import time
from collections.abc import Callable
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))
from tui.test_signals import ENDS, MOMENTS, ends_well, goes_on_well

STILL = (signal.SIGTSTP, signal.SIGSTOP)
HEARD = list(MOMENTS)[list(MOMENTS).index("before the other screen") :]  # from here on the program itself stands still
Check = Callable[[Path, str, signal.Signals], None]


def trouble(check: Check, moment: str, number: signal.Signals) -> str:
    """What went wrong, in one line; empty where nothing did."""
    with tempfile.TemporaryDirectory() as folder:
        try:
            check(Path(folder), moment, number)
        except AssertionError as error:
            return " ".join(str(error).split())[:300] or "it was left otherwise than it was found"
    return ""


def main() -> None:
    wanted = sys.argv[1:]
    checks: list[tuple[Check, signal.Signals]] = [(ends_well, number) for number in ENDS]
    checks += [(goes_on_well, number) for number in STILL]
    cases = [(check, moment, number) for moment in MOMENTS for check, number in checks]
    # Before it does the system would, but not in a session without a shell, as this one is.
    cases = [case for case in cases if case[2] is not signal.SIGTSTP or case[1] in HEARD]
    cases = [case for case in cases if all(word in f"{case[1]} {case[2].name}" for word in wanted)]
    wrong, began = 0, time.monotonic()
    for check, moment, number in cases:
        why = trouble(check, moment, number)
        wrong += bool(why)
        print(f"{number.name:8} {moment:26} {why or 'well'}", flush=True)
    print(f"{len(cases)} signals at {len(MOMENTS)} moments, {wrong} wrong, {time.monotonic() - began:.0f} s")
    sys.exit(wrong > 0)


if __name__ == "__main__":
    main()
