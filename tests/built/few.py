"""How many cases of a long loop are tried: a sample in the set, all of them by hand.

    .venv/bin/python tests/benchmarks/all_cases.py

runs every test that asks here, with every case there is.
"""

import os
from collections.abc import Sequence
from typing import TypeVar

Case = TypeVar("Case")

FEW = 20
ALL = bool(os.environ.get("FASTEN_ALL"))


def few(count: int, most: int = FEW) -> int:
    """So many cases, or as many of them as the set has time for."""
    return count if ALL else min(count, most)


def sample(cases: Sequence[Case], most: int = FEW) -> Sequence[Case]:
    """These cases, or so many of them, spread over the whole."""
    return cases if ALL or len(cases) <= most else [cases[at * len(cases) // most] for at in range(most)]
