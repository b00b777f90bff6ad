"""The time of day, as the top line tells it."""

from datetime import datetime
from pathlib import Path

_SHOWN = "%H:%M"


def time_of_day() -> str:
    """What the clock says."""
    return f"{datetime.now():{_SHOWN}}"


def time_written(path: Path) -> str:
    """When a file was written last, where that was today and it is there."""
    try:
        written = datetime.fromtimestamp(path.stat().st_mtime)
    except (OSError, OverflowError, ValueError):
        return ""
    return f"{written:{_SHOWN}}" if written.date() == datetime.now().date() else ""
