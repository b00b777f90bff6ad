"""What was really built at a mount point, as text and as plain data for JSON."""

from typing import Any

from fasten.job.built import NAMES, said_by, there_already
from fasten.job.words import Mount
from fasten.model import Answer
from fasten.report.answer.headline import parts
from fasten.report.plain import to_plain
from fasten.report.safe import safe
from fasten.report.wrap import wrapped
from fasten.text.names import capital
from fasten.text.rounding import rounded_down, torque_digits
from fasten.text.units import Dimension, write

__all__ = ["NAMES", "as_advised", "built_json", "built_text", "record_text"]

FORMAT = 1
_COLUMN = 10


def built_text(mount: Mount) -> str:
    """The name of the mount point, then a line for each thing that was written down."""
    said = (f"{capital(name):{_COLUMN}}{safe(text)}" for name, text in said_by(mount.built))
    lines = [f"As built: {safe(mount.name)}", *said]
    return "\n".join(lines) + "\n"


def built_json(mount: Mount) -> dict[str, Any]:
    """The same as plain data; keys are only ever added."""
    return {"format": FORMAT, "mount": mount.name, "built": to_plain(mount.built)}


def record_text(mount: Mount, width: int) -> str:
    """The record that is there, in lines of at most `width` columns, and that it stays."""
    said = said_by(mount.built)
    rows = (wrapped(text, width, first=f"{capital(name):{_COLUMN}}", rest=" " * _COLUMN) for name, text in said)
    return "\n".join([*(line for row in rows for line in row), "", *wrapped(f"{there_already(mount)}.", width)])


def as_advised(answer: Answer | None) -> dict[str, str]:
    """What an answer says, in the fields of a record, each as it may be read back; nothing where there is none."""
    if answer is None:
        return {}
    hole, torque = answer.proposal.joint.hole, answer.proposal.torque
    return {
        "hole": "" if hole is None else write(hole.diameter_mm, Dimension.LENGTH),
        "hardware": dict(parts(answer)).get("Screw", ""),
        "torque": "" if torque is None else f"{rounded_down(torque.target_nm, torque_digits(torque))} N·m",
    }
