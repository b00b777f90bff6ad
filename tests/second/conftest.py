"""Lets the tests of this folder import its own reckoning as `second`, whichever way pytest imports them."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))
