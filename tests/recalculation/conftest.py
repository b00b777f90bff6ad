"""Lets the tests of this folder import its own code as `recalculation`, whichever way pytest imports them."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parents[1]))
