"""Makes the sample advice importable by the tests of the report, however pytest imports them."""

import sys
from pathlib import Path

sys.path.insert(0, str(Path(__file__).parent))
