"""Command lines at random, many more than the tests run. Run by hand:

    python tests/benchmarks/command_lines.py [command lines]

The first that is a fault of the program is told as short as it can be made, and ends this with 1.
"""

import os
import sys
import tempfile
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))
from fuzz.test_command_lines import LINES, check
from hypothesis import HealthCheck, given, settings

COMMAND_LINES = 20_000


def main() -> None:
    count = int(sys.argv[1]) if len(sys.argv) > 1 else COMMAND_LINES
    checked = settings(
        deadline=None, database=None, max_examples=count, suppress_health_check=list(HealthCheck)
    )(given(LINES)(check))  # fmt: skip
    with tempfile.TemporaryDirectory() as folder:
        os.chdir(folder)
        os.environ["FASTEN_TABLES"] = "no-such-folder"
        os.environ["FASTEN_DATA"] = "no-such-data"
        os.environ.pop("FASTEN_DEBUG", None)
        checked()
    print(f"{count} command lines, none a fault of the program")


if __name__ == "__main__":
    main()
