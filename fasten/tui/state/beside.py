"""What the mount point in hand is answered beside: the rest of its job."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from fasten.tui.state.open_job import EMPTY

if TYPE_CHECKING:
    from fasten.job.series import Use
    from fasten.job.words import Job


@dataclass(frozen=True)
class Beside:
    """The name of the mount point in hand, the job without it, and the series that the others get by themselves."""

    name: str = ""
    job: Job = EMPTY
    uses: tuple[Use, ...] = ()


ALONE = Beside()
