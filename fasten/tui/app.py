"""The screen: everything that can be done with a job, its box and the shelf, over the five places."""

import asyncio
from datetime import date
from pathlib import Path

from textual import on, work
from textual.timer import Timer
from textual.widget import Widget
from textual.widgets import OptionList

from fasten.catalog.tables import Tables
from fasten.job.words import Job, Shelf
from fasten.tui.box.shelf_line_actions import ShelfLineActions
from fasten.tui.built.built_actions import BUILT, BuiltActions
from fasten.tui.gauge.gauge_actions import GAUGE, GaugeActions
from fasten.tui.job_actions import JobActions
from fasten.tui.repair.repair_actions import REPAIR, RepairActions
from fasten.tui.runs.cable_work import CableWorkActions
from fasten.tui.runs.run_actions import RUN_WORK, RUNS
from fasten.tui.standings import Standings
from fasten.tui.start.start_actions import StartActions
from fasten.tui.state.beside import Beside
from fasten.tui.state.job_files import JobFiles
from fasten.tui.state.open_shelf import OpenShelf
from fasten.tui.terminal.kept_look import OWN_LOOK, KeptLook

_OF_PAGES = {
    "work_run": "has_run_marked", "name_run": "has_run", "remove_run": "has_run", "try_mark": "has_try",
    "take_route": "has_route", "view_route": "has_route",
}  # fmt: skip
"""What says whether there is anything to do an action of a page to."""
_REST_S = 0.3  # without a change, after which the rail is calculated
_MOST_RAILED = 60  # mount points that it calculates; of more, those that are gone to stand there


class FastenApp(
    StartActions, BuiltActions, RepairActions, CableWorkActions, ShelfLineActions, GaugeActions, JobActions
):
    """One job in hand, saved as it changes."""

    CSS_PATH = "style.tcss"

    def __init__(
        self, tables: Tables, job_files: JobFiles, shelf: OpenShelf, path: Path | None = None, *, blink: bool = True,
        look: KeptLook = OWN_LOOK, is_first: bool = False,
    ) -> None:  # fmt: skip
        self.is_first = is_first
        self.standings = Standings(tables)
        self.rail_timer: Timer | None = None
        self._railed: tuple[Job, bool] | None = None  # the job that the rail is of
        super().__init__(tables, job_files, shelf, path, blink=blink, look=look)

    def made(self, name: str) -> Widget:
        """A place, when it is first wanted; what it needs is imported only then."""
        if name == "start":
            from fasten.tui.start.start_place import StartPlace

            return StartPlace(self.tables, blink=self.blink)
        if name == "look":
            from fasten.tui.lookup import LookPlace

            return LookPlace(self.tables, blink=self.blink)
        if name == RUNS:
            from fasten.tui.runs.body_studs import BodyStuds
            from fasten.tui.runs.runs import RunsPlace

            studs = BodyStuds(self.tables, self.open_shelf.known)
            return RunsPlace(self.tables, self.change_runs, studs, blink=self.blink)
        if name == GAUGE:
            from fasten.tui.gauge.gauge import GaugePlace

            return GaugePlace(self.tables, self.work_beside)
        if name == "box":
            from fasten.tui.box.box import BoxPlace

            return BoxPlace(self.tables, self.work_beside)
        return self._made_by_list(name)

    def _made_by_list(self, name: str) -> Widget:
        if name in ("work", RUN_WORK):
            from fasten.tui.work.work import WorkPlace

            is_run = name == RUN_WORK
            return WorkPlace(*((self.made_of_run, self.go_run_by) if is_run else (self.made_at, self.go_by)), id_=name)
        if name == REPAIR:
            from fasten.tui.repair.repair import RepairPlace

            return RepairPlace(self.prove_routes, blink=self.blink)
        if name == BUILT:
            from fasten.tui.built.built import BuiltPlace

            return BuiltPlace(self.tables, date.today().isoformat(), blink=self.blink)
        from fasten.tui.box.shelf import ShelfPlace

        return ShelfPlace()

    def arrived(self, name: str) -> None:
        """Show in a place what has changed since it was left."""
        if name == "box":
            self.box_page.arrive()
            self.show_box()
        elif name == "shelf":
            self.show_shelf()
        elif name == RUNS:
            job = self.open_job
            self.runs.load(job.job, job.revision, job.hand, self.open_shelf.known())
        elif name == GAUGE:
            self.show_pass()
        elif name == "work":
            self.show_work()
        elif name == RUN_WORK:
            self.show_run_work()
        elif name == REPAIR:
            self.show_repair()
        elif name == BUILT:
            self.show_built()
        elif name == "mounts":
            self.mounts.work_out_now()  # by what the shelf holds now
            self._railed = None

    def tell(self) -> None:
        """Have every page show the job as it is now, and the rail how it stands once nothing is typed for a while."""
        super().tell()
        if self.screen.has_class("-wide") and len(self.open_job.job.mounts) > 0 and not self.is_leaving:
            self._rail_soon()

    def _rail_soon(self) -> None:
        asked = self.open_job.job, self.place == "mounts"
        if asked != self._railed and asked[1]:
            self._railed = asked
            if self.rail_timer is not None:
                self.rail_timer.stop()
            self.rail_timer = self.set_timer(_REST_S, self._rail)

    def _rail(self) -> None:
        self.rail_timer = None
        self._stand(self.open_job.job, self.open_shelf.known())

    def find_standings(self) -> None:
        """Calculate how the mount points stand, where that is not known."""
        if None in self.mounts.mount_list.standings:
            self._rail()

    @work(group="rail", exclusive=True)
    async def _stand(self, job: Job, shelf: Shelf | None) -> None:
        """Calculate how the mount points stand that are not known yet, one after the other, beside the screen.

        Where something is typed meanwhile it ends: what is shown of the job next begins it anew, by what is known then.
        """
        whole, verdict = await asyncio.to_thread(self.standings.whole, job), None
        for part in self.standings.parts(whole, shelf, _MOST_RAILED):
            if self.mounts.is_waiting:
                self._railed = None
                return
            verdict = await asyncio.to_thread(part)
        if job == self.open_job.job and not self.is_leaving:
            self.mounts.mount_list.stand(self.standings.known(whole, shelf), verdict)
            self.standings_found()
            if not self.mounts.is_waiting:  # what is being typed is worked out with them anyway, and then taken
                self.mounts.work_out_now()  # beside the others, which are known now

    def beside(self) -> Beside:
        """What the mount point in hand is answered beside."""
        return self.standings.beside(self.open_job.job, self.open_job.at, self.open_shelf.known())

    @on(OptionList.OptionHighlighted, "#runs-list, #gauge-lines, #repair-lines")
    def _row_marked(self) -> None:
        self.tell_state()  # what can be done depends on which row is marked

    def can(self, name: str) -> bool:
        """Whether there is anything to do an action to, as things are."""
        from fasten.text.sides import other_side

        mount = self.open_job.mount
        if name in ("rename", "work", "repair", "instead", "copy", "pair"):
            return mount is not None and (name != "pair" or other_side(mount.name) != "")
        if name in ("undo", "redo"):
            steps = self.open_shelf if self.place == "shelf" else self.open_job
            return steps.can_undo if name == "undo" else steps.can_redo
        if name == "compare":
            return self.mounts.first_answer() is not None
        if name in _OF_PAGES:
            return bool(getattr(self, _OF_PAGES[name]))
        if name == "remove_mount":
            return self.open_job.at is not None
        return name not in ("all_mounts", "gauge") or len(self.open_job.job.mounts) > 0

    def action_undo(self) -> None:
        """Take the last change back: of the shelf where that is in view, else of the job."""
        if self.place == "shelf":
            self.step_shelf(back=True)
        else:
            super().action_undo()

    def action_redo(self) -> None:
        """Make it again."""
        if self.place == "shelf":
            self.step_shelf(back=False)
        else:
            super().action_redo()
