"""Lets the tests of the report import their sample advice as `report.sample`, whichever way pytest imports them."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))
