"""What was really built at a mount point, as text and as plain data for JSON."""

from typing import Any

from fasten.job.words import Mount
from fasten.report.headline import capital
from fasten.report.plain import to_plain
from fasten.report.safe import safe

FORMAT = 1
_FIELDS = ("date", "hole", "hardware", "torque", "note")


def built_text(mount: Mount) -> str:
    """The name of the mount point, then a line for each thing that was written down."""
    said = ((name, getattr(mount.built, name)) for name in _FIELDS) if mount.built is not None else ()
    lines = [f"As built: {safe(mount.name)}", *(f"{capital(name):10}{safe(text)}" for name, text in said if text)]
    return "\n".join(lines) + "\n"


def built_json(mount: Mount) -> dict[str, Any]:
    """The same as plain data; keys are only ever added."""
    return {"format": FORMAT, "mount": mount.name, "built": to_plain(mount.built)}
