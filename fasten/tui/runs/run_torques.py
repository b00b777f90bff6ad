"""The torques of a run's body studs that are mount points of the job, kept while these ask the same."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from typing import TYPE_CHECKING

from fasten.job.wiring.lugs import with_runs
from fasten.job.wiring.runs import RunChoice

if TYPE_CHECKING:
    from fasten.catalog.tables import Tables
    from fasten.job.choices import Choice
    from fasten.job.words import Job, Shelf
    from fasten.tui.runs.run_lines import Known

    Asked = tuple[Job, frozenset[str], Shelf | None]


class RunTorques:
    """The answers of the mount points where the run in hand ends, by what a shelf holds."""

    def __init__(self, tables: Tables, shelf: Callable[[], Shelf | None]) -> None:
        self._tables, self._shelf = tables, shelf
        self._asked: Asked | None = None
        self._mounts: list[Choice] = []

    def of(self, choice: RunChoice, known: Known) -> RunChoice:
        """The run with the size and torque of every body stud that is a mount point of its job."""
        from fasten.job.wiring.body_studs import body_studs, on_studs

        names = body_studs(choice)
        if not names:
            return choice
        asked = replace(with_runs(known.job, known.found), runs=()), names, self._shelf()
        if asked != self._asked:
            self._asked, self._mounts = asked, self._answered(asked)
        return on_studs((choice,), self._mounts, self._tables)[0]

    def _answered(self, asked: Asked) -> list[Choice]:
        from fasten.job.entries import mount_choice
        from fasten.job.shelf.owned import owned_of
        from fasten.job.store.job_toml import same_name

        job, names, shelf = asked
        owned = owned_of(shelf, self._tables)
        return [mount_choice(one, job, self._tables, owned) for one in job.mounts if same_name(one.name) in names]
