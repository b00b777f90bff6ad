"""What the mount point in hand is answered beside: the rest of its job."""

from __future__ import annotations

from typing import TYPE_CHECKING

from fasten.record import record
from fasten.tui.state.open_job import EMPTY

if TYPE_CHECKING:
    from fasten.job.series import Use
    from fasten.job.words import Job
    from fasten.model import OwnTest


@record
class Beside:
    """The name of the mount point in hand, the job without it, the series that the others get by themselves, and the
    user's own test pieces, by which all go.
    """

    name: str = ""
    job: Job = EMPTY
    uses: tuple[Use, ...] = ()
    tests: tuple[OwnTest, ...] = ()


ALONE = Beside()
