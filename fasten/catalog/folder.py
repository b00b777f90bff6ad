"""Where the shipped tables are."""

from __future__ import annotations

import os
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path


def shipped_folder() -> Path:
    """The folder of the shipped tables: inside the package when installed, beside it in a checkout."""
    from pathlib import Path

    return Path(shipped())


def shipped() -> str:
    """The same as text: `pathlib` takes a twentieth of a look-up to load."""
    package = os.path.dirname(os.path.dirname(os.path.realpath(__file__)))
    installed = os.path.join(package, "catalogs")
    return installed if os.path.isdir(installed) else os.path.join(os.path.dirname(package), "catalogs")
