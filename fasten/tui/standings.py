"""How each mount point stands, calculated beside the screen while nothing is typed, and kept while it asks the same.

Each is answered by itself first. Once all are, they are answered beside each other: of two series of a thread, the job
takes one.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from functools import partial
from typing import TYPE_CHECKING

from fasten.progress import Step, stepped
from fasten.record import replace
from fasten.tui.state.beside import Beside

if TYPE_CHECKING:
    from fasten.catalog.tables import Tables
    from fasten.job.choices import Choice
    from fasten.job.series import Use
    from fasten.job.words import Job, Mount, Shelf
    from fasten.model import OwnTest
    from fasten.tui.drawn.rail import Standing
    from fasten.tui.drawn.verdict import Verdict

    Tests = tuple[OwnTest, ...]
    Asked = tuple[Mount, tuple[Mount, ...], Shelf | None, Tests]

MOST_KEPT = 500


class Standings:
    """What is known by now of the mount points of a job, by what a shelf holds."""

    def __init__(self, tables: Tables) -> None:
        self._tables = tables
        self._found: dict[Asked, Choice] = {}
        self._stand: dict[Asked, Standing] = {}  # of each by itself
        self._together: tuple[tuple[Job, Shelf | None, Tests], tuple[Standing, ...]] | None = None
        self._used: tuple[tuple[object, ...], tuple[Use, ...]] = (), ()  # by whom, and what they use by themselves
        self._rounds = 0  # how often one was calculated

    def known(self, job: Job, shelf: Shelf | None) -> list[Standing | None]:
        """How each stands; None where that is not calculated yet."""
        if not self._found:
            return [None] * len(job.mounts)
        together = self._beside_each_other(job, shelf)
        return list(together) or [self._stand.get(self._asked(mount, job, shelf)) for mount in job.mounts]

    def missing(self, job: Job, shelf: Shelf | None, most: int) -> list[Mount]:
        """Those among so many of the first that are not calculated yet."""
        found = zip(job.mounts[:most], self._alone(job, shelf), strict=False)
        return [mount for mount, choice in found if choice is None]

    def parts(self, job: Job, shelf: Shelf | None, most: int) -> Iterator[Callable[[], Verdict | None]]:
        """What is to be calculated one after the other, beside the screen; the last gives the verdict on the box."""
        for mount in self.missing(job, shelf, most):
            yield partial(self.find, mount, job, shelf)
        yield partial(self.verdict, job, shelf)

    def find(self, mount: Mount, job: Job, shelf: Shelf | None) -> None:
        """Calculate one of them by itself; called beside the screen."""
        from fasten.job.choices import choice
        from fasten.job.shelf.owned import owned_of
        from fasten.tui.drawn.rail import standing_of

        if len(self._found) > MOST_KEPT:
            self._found.clear()
            self._stand.clear()
        asked = self._asked(mount, job, shelf)
        found = choice(mount, self._tables, owned_of(shelf, self._tables), job)
        self._stand[asked] = standing_of(found, self._tables)
        self._found[asked] = found
        self._rounds += 1

    def complete(self, job: Job, shelf: Shelf | None, step: Step) -> None:
        """Calculate all that are not known yet, each by itself; called beside the screen. May raise Stopped."""
        whole = self.whole(job)
        for mount in stepped(self.missing(whole, shelf, len(whole.mounts)), step):
            self.find(mount, whole, shelf)

    def uses(self, job: Job, at: int | None, shelf: Shelf | None) -> tuple[Use, ...]:
        """The series that the others use by themselves, as far as these are known."""
        from fasten.job.choices import uses_of

        found = (choice for place, choice in enumerate(self._alone(job, shelf)) if place != at)
        return uses_of(choice for choice in found if choice is not None)

    def whole(self, job: Job) -> Job:
        """The job as its mount points are answered; called beside the screen."""
        from fasten.job.entries import with_own_runs

        return with_own_runs(job, self._tables)

    def verdict(self, job: Job, shelf: Shelf | None) -> Verdict | None:
        """Whether the box is ready, once every mount point is known; called beside the screen."""
        found = [choice for choice in self._alone(job, shelf) if choice is not None]
        if len(found) < len(job.mounts):
            return None
        from fasten.job.choices import in_job
        from fasten.job.shelf.owned import owned_of
        from fasten.tui.box.box import boxed
        from fasten.tui.drawn.rail import standing_of

        together = in_job(tuple(found), job, self._tables, owned_of(shelf, self._tables))
        stand = tuple(standing_of(one, self._tables) for one in together)
        self._together = (job, shelf, self._tables.tests), stand
        return boxed(job, together, shelf, self._tables).verdict

    def beside(self, job: Job, at: int | None, shelf: Shelf | None) -> Beside:
        """What the mount point in hand is answered beside, as far as the others are known."""
        name = "" if at is None else job.mounts[at].name
        others = replace(job, mounts=tuple(mount for place, mount in enumerate(job.mounts) if place != at))
        return Beside(name, others, self._uses_beside(job, at, others, shelf), self._tables.tests)

    def _uses_beside(self, job: Job, at: int | None, others: Job, shelf: Shelf | None) -> tuple[Use, ...]:
        """The same as `uses`, kept while the one in hand alone is changed, and none of the others hangs on that."""
        from fasten.job.boards import context

        if not self._found:
            return ()
        if at is not None and context(job.mounts[at], job):
            return self.uses(job, at, shelf)
        by = others, shelf, self._tables.tests, self._rounds
        if self._used[0] != by:
            self._used = by, self.uses(job, at, shelf)
        return self._used[1]

    def _alone(self, job: Job, shelf: Shelf | None) -> list[Choice | None]:
        return [self._found.get(self._asked(mount, job, shelf)) for mount in job.mounts]

    def _beside_each_other(self, job: Job, shelf: Shelf | None) -> Sequence[Standing]:
        together = self._together
        is_it = together is not None and together[0] == (job, shelf, self._tables.tests)
        return together[1] if together is not None and is_it else ()

    def _asked(self, mount: Mount, job: Job, shelf: Shelf | None) -> Asked:
        from fasten.job.boards import context

        return mount, context(mount, job), shelf, self._tables.tests
