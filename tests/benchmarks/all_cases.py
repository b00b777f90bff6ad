"""Every test of which the set tries a sample, with every case there is; a quarter of an hour. Run by hand:

.venv/bin/python tests/benchmarks/all_cases.py [words for pytest]
"""

import os
import re
import subprocess
import sys
from pathlib import Path

TESTS = Path(__file__).parents[1]


def sampled() -> list[str]:
    """The modules that try a sample of their cases, two sizes of the screen, or examples at random."""
    asks = re.compile(
        r"from built\.few import|\b(?:every_size|least_room|wide_or_narrow|hostile)\b|from hypothesis import"
    )
    found = (path for path in TESTS.rglob("test_*.py") if asks.search(path.read_text(encoding="utf-8")))
    return sorted(map(str, found))


if __name__ == "__main__":
    words = [sys.executable, "-m", "pytest", "-q", *(sys.argv[1:] or ["-n", "auto"]), *sampled()]
    sys.exit(subprocess.run(words, env={**os.environ, "FASTEN_ALL": "1"}, check=False).returncode)
