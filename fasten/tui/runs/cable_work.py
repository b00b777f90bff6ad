"""The work on cable at the car: on from the mount points to holes, sections and runs, each step ticked."""

from __future__ import annotations

from functools import partial
from typing import TYPE_CHECKING

from fasten.tui.runs.run_actions import RUN_WORK, RUNS, RunActions
from fasten.tui.work.work_actions import WorkActions

if TYPE_CHECKING:
    from fasten.tui.state.cable_work import Unit
    from fasten.tui.state.open_job import Revision
    from fasten.tui.state.worked import Spot, Work
    from fasten.tui.work.work import WorkPlace


class CableWorkActions(RunActions, WorkActions):
    """Actions on the work on cable, which comes after that at the mount points."""

    _way: tuple[str, bool] | None = None  # the hole or section in hand, and whether it is closed; None: a run is

    @property
    def has_run(self) -> bool:
        """Whether a run is in hand, at its work too: what is measured there goes in its note."""
        return (self.place == RUN_WORK and self._way is None and self.runs.run is not None) or super().has_run

    @property
    def has_run_marked(self) -> bool:
        """Whether a run is in hand, or a run, hole or section is marked in the list."""
        return self._is_at_runs and (self.runs.run is not None or self.runs.marked != "" or self._marked_way != "")

    @property
    def _marked_way(self) -> str:
        """The hole or section that is marked in the list; empty where none is."""
        from fasten.tui.runs.run_lines import Does

        line = self.runs.line_in_hand if self.runs.is_listing else None
        return line.of if line is not None and line.does in (Does.HOLE, Does.SECTION) else ""

    async def action_work_run(self) -> None:
        """Go to the steps of the run in hand, or of what is marked."""
        self.take_typed()
        if way := self._marked_way:
            self._way = way, False
            await self.action_go(RUN_WORK)
            return
        name = self.runs.marked or self.runs.name_in_hand or ""
        if not name or name not in self.runs.names:
            self.say("No run is in hand, so there is no work on it")
            return
        self._way = None
        self.runs.hold(name)
        await self.action_go(RUN_WORK)

    def show_run_work(self) -> None:
        """Show the work on the run, hole or section in hand, as the job is now."""
        from fasten.tui.state.cable_work import work_of_unit

        units = self._units()
        at = self._at(units)
        if at is None:
            self._way = None
            self.call_later(self.action_go, RUNS)
            return
        self._run_work.show(work_of_unit(units, at, self.open_job.job, self.tables), self.open_job.hand)

    def _units(self) -> tuple[Unit, ...]:
        """All pieces of work on the cable of the job as it is now."""
        from fasten.tui.state.cable_work import units_of

        job = self.open_job
        self.runs.load(job.job, job.revision, job.hand, self.open_shelf.known())
        return units_of(self.runs.known.ways, self.runs.known.found)

    def _at(self, units: tuple[Unit, ...]) -> int | None:
        """Which of them is in hand."""
        is_way, wanted = self._way is not None, self._way or (self.runs.name_in_hand or "", False)
        found = (at for at, one in enumerate(units)
                 if (one.choice.name, one.is_closing, one.is_way) == (*wanted, is_way))  # fmt: skip
        return next(found, None)

    def _take_unit(self, unit: Unit) -> None:
        self._way = (unit.choice.name, unit.is_closing) if unit.is_way else None
        if self._way is None:
            self.runs.hold(unit.choice.name)
        self._run_work.spot = None

    async def made_of_run(self, spot: Spot, hand: Revision) -> None:
        """Tick a step of what is in hand, or take its tick back."""
        work = self._run_work.work
        if work is not None and work.has(spot):
            self.attempt(partial(self._tick_cable, work, spot, hand))

    def _tick_cable(self, work: Work, spot: Spot, hand: Revision) -> None:
        from fasten.tui.state.cable_work import ticked_at

        said = f"{work.state(spot).task.said(spot.hole)}, {work.choice.name}"
        self.open_job.make(ticked_at(self.open_job.job, work, spot), said, hand)

    async def go_by(self, steps: int) -> None:
        """Go to the work so many mount points on or back; past the last, or before the first, to that on cable."""
        at, job = self.open_job.at, self.open_job.job
        if at is None or 0 <= at + steps < len(job.mounts) or not (job.runs or job.holes or job.sections):
            await super().go_by(steps)
        else:
            for name in (RUNS, RUN_WORK):
                if not self.query(f"#{name}"):
                    await self._places.add_content(self.made(name))
            units = self._units()
            self._take_unit(units[0 if steps > 0 else -1])
            await self.action_go(RUN_WORK)

    async def go_run_by(self, steps: int) -> None:
        """Go to the work so many pieces of cable on or back; past the last, or before the first, to a mount point."""
        units, mounts = self._units(), self.open_job.job.mounts
        at = self._at(units)
        if at is None:
            return
        if 0 <= at + steps < len(units) or not mounts:
            self._take_unit(units[(at + steps) % len(units)])
            self.show_run_work()
        elif self.attempt(lambda: self.open_job.go_to(0 if steps > 0 else len(mounts) - 1, self.open_job.revision)):
            await self.action_go("work")

    @property
    def _run_work(self) -> WorkPlace:
        from fasten.tui.work.work import WorkPlace

        return self.query_one(f"#{RUN_WORK}", WorkPlace)

    async def action_run_answer(self) -> None:
        """Go to what the run in hand gets, or to the hole or section in the list."""
        await super().action_go(RUNS)
        if self._way is None:
            self.runs.ask(self.runs.name_in_hand)
            self.runs.read()
        else:
            self.runs.list_runs()
