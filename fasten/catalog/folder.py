"""Where the shipped tables are."""

from pathlib import Path


def shipped_folder() -> Path:
    """The folder of the shipped tables: inside the package when installed, beside it in a checkout."""
    package = Path(__file__).resolve().parents[1]
    installed = package / "catalogs"
    return installed if installed.is_dir() else package.parent / "catalogs"
