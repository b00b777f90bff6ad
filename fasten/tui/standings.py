"""How each mount point stands, calculated beside the screen while nothing is typed, and kept while it asks the same."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fasten.catalog.tables import Tables
    from fasten.job.choices import Choice
    from fasten.job.words import Job, Mount, Shelf
    from fasten.tui.drawn.rail import Standing
    from fasten.tui.drawn.verdict import Verdict

MOST_KEPT = 500


class Standings:
    """What is known by now of the mount points of a job, by what a shelf holds."""

    def __init__(self, tables: Tables) -> None:
        self._tables = tables
        self._found: dict[tuple[Mount, Shelf | None], Choice] = {}

    def known(self, mounts: Sequence[Mount], shelf: Shelf | None) -> list[Standing | None]:
        """How each stands; None where that is not calculated yet."""
        if not self._found:
            return [None] * len(mounts)
        from fasten.tui.drawn.rail import standing_of

        found = (self._found.get((mount, shelf)) for mount in mounts)
        return [None if choice is None else standing_of(choice) for choice in found]

    def missing(self, mounts: Sequence[Mount], shelf: Shelf | None) -> list[Mount]:
        """Those that are not calculated yet."""
        return [mount for mount in mounts if (mount, shelf) not in self._found]

    def find(self, mount: Mount, shelf: Shelf | None) -> None:
        """Calculate one of them; called beside the screen."""
        from fasten.job.choices import choice
        from fasten.job.shelf.owned import owned_of

        if len(self._found) > MOST_KEPT:
            self._found.clear()
        self._found[mount, shelf] = choice(mount, self._tables, owned_of(shelf, self._tables))

    def verdict(self, job: Job, shelf: Shelf | None) -> Verdict | None:
        """Whether the box is ready, once every mount point is known."""
        if self.missing(job.mounts, shelf):
            return None
        from fasten.tui.box import boxed

        return boxed(job, tuple(self._found[mount, shelf] for mount in job.mounts), shelf, self._tables).verdict
