"""Every first answer anew against the table of those that were read; a minute or two, of which the tests try a sample.

Run by hand after a change of a row, a weight or an equation: .venv/bin/python tests/benchmarks/first_answers.py
"""

import difflib
import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))

from golden.test_first_answers import TABLE, whole

if __name__ == "__main__":
    differ = list(
        difflib.unified_diff(TABLE.read_text(encoding="utf-8").splitlines(), whole().splitlines(), lineterm="")
    )
    print("\n".join(differ) or "every first answer is as it was read")
    sys.exit(bool(differ))
