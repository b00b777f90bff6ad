"""The body studs of a job's runs as its mount points are answered, kept while these ask the same."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from fasten.job.wiring.lugs import with_runs
from fasten.record import replace

if TYPE_CHECKING:
    from fasten.catalog.tables import Tables
    from fasten.job.choices import Choice
    from fasten.job.words import Job, Shelf
    from fasten.tui.runs.run_lines import Known

    Asked = tuple[Job, frozenset[str], Shelf | None]


class BodyStuds:
    """The answers of the mount points that are body studs of runs, by what a shelf holds."""

    def __init__(self, tables: Tables, shelf: Callable[[], Shelf | None]) -> None:
        self._tables, self._shelf = tables, shelf
        self._asked: Asked | None = None
        self._mounts: list[Choice] = []

    def under(self, known: Known) -> Known:
        """The same with the runs at studs of the size and torque that the mount points of the job get."""
        from fasten.job.wiring.body_studs import body_studs, on_studs

        names = frozenset[str]().union(*map(body_studs, known.found))
        if not names:
            return known
        asked = replace(with_runs(known.job, known.found), runs=()), names, self._shelf()
        if asked != self._asked:
            self._asked, self._mounts = asked, self._answered(asked)
        return replace(known, found=on_studs(known.found, self._mounts, self._tables))

    def _answered(self, asked: Asked) -> list[Choice]:
        from fasten.job.entries import mount_choice
        from fasten.job.shelf.owned import owned_of
        from fasten.job.store.job_toml import same_name

        job, names, shelf = asked
        owned = owned_of(shelf, self._tables)
        return [mount_choice(one, job, self._tables, owned) for one in job.mounts if same_name(one.name) in names]
