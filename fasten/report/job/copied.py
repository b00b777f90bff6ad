"""What is said of a mount point that was copied."""

from fasten.job.start.same import Copied
from fasten.report.job.done import Done


def of_copy(found: Copied, of: str) -> Done:
    """What was copied, what is to be measured again, and what was left out."""
    left = f"not copied: {', '.join(found.left_out)}" if found.left_out else ""
    text = f"{found.mount.name} is added, alike {of}"
    return Done(text, found.mount.name, found.again, tuple(filter(None, (left,))))
