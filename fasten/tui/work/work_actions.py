"""What can be done at the car: go to the work at a mount point, tick its steps and holes, write down what was used."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from functools import partial
from typing import TYPE_CHECKING

from textual.events import Key
from textual.screen import ModalScreen

from fasten.model.words import Phase
from fasten.record import replace
from fasten.tui.actions import Action
from fasten.tui.drawn.foot import Word
from fasten.tui.mounts.mount_actions import MountActions
from fasten.tui.state.open_job import Revision

if TYPE_CHECKING:
    from fasten.job.after.own_tests import Readings
    from fasten.job.choices import Choice
    from fasten.job.words import Job, Shelf
    from fasten.tui.mounts.answer import AnswerPanel
    from fasten.tui.standings import Standings
    from fasten.tui.state.long_work import LongWork
    from fasten.tui.state.worked import Spot, Work
    from fasten.tui.work.work import WorkPlace

ReadOff = tuple["Readings", str]  # what was read, and where it is kept
_ONE = "one step"
_WORKS = frozenset({"work", "run-work"})  # places that are worked through step by step
_AT_ONCE = 1  # mount points that are calculated while the screen waits: what was ticked since


class WorkActions(MountActions):
    """Actions on the work at the mount point in hand."""

    standings: Standings
    _doubted: dict[str, str] | None = None  # what was read, where it was asked once whether it is so

    @property
    def _page(self) -> WorkPlace:
        from fasten.tui.work.work import WorkPlace

        return self.query_one(f"#{self.place if self.place in _WORKS else 'work'}", WorkPlace)

    async def action_work(self) -> None:
        """Go to the steps of the mount point in hand."""
        self.take_typed()
        if self.open_job.at is None:
            self.say("Nothing is asked yet, so there is no work")
            return
        await self.action_go("work")

    async def on_answer_panel_hole(self, message: AnswerPanel.Hole) -> None:
        """A fixing of the plan in an answer was tapped: go to it."""
        await self.action_work()
        if self.place == "work":
            self._page.take_hole(message.number)

    def take_repair_step(self) -> None:
        """Take the first step of the last repair of the mount point in hand, where its work stands there."""
        from fasten.job.after.repair_steps import first_steps_of

        mount = self.open_job.mount
        if self.place == "work" and mount is not None:
            self._page.take_first_of(first_steps_of(mount))

    def show_work(self) -> None:
        """Show the work as the job is now, once it is known what the others use: what is fitted here depends on it."""
        at = self.open_job.at
        if at is None:
            self.call_later(self.action_go, "mounts")
            return
        job, shelf = self.standings.whole(self.open_job.job), self.open_shelf.known()
        if len(self.standings.missing(job, shelf, len(job.mounts))) <= _AT_ONCE:
            self._show_work(job, at, shelf)
        elif self._page.is_waiting != job:
            self._page.wait(job)
            self.work_beside(partial(self._complete, job, shelf), self._completed, self._left_work)

    def _show_work(self, job: Job, at: int, shelf: Shelf | None) -> None:
        from fasten.progress import unseen
        from fasten.tui.state.worked import work_of

        self.standings.complete(job, shelf, unseen)
        work = work_of(job, at, shelf, self.standings.uses(job, at, shelf), self.tables)
        self._page.show(work, self.open_job.hand)

    def choice_here(self) -> Choice | None:
        """What the mount point in hand gets beside the others; None where none is in hand."""
        from fasten.job.choices import choice_in_job
        from fasten.job.shelf.owned import owned_of
        from fasten.progress import unseen

        at, job, shelf = self.open_job.at, self.standings.whole(self.open_job.job), self.open_shelf.known()
        if at is None:
            return None
        self.standings.complete(job, shelf, unseen)
        uses, owned = self.standings.uses(job, at, shelf), owned_of(shelf, self.tables)
        return choice_in_job(job.mounts[at], job, uses, self.tables, owned)

    def _complete(self, job: Job, shelf: Shelf | None, work: LongWork) -> None:
        self.standings.complete(job, shelf, work.steps("Work"))

    def _completed(self, _found: None) -> None:
        if self.place == "work":
            self.show_work()

    async def _left_work(self) -> None:
        """It was stopped: no step is shown that may not be so."""
        self._page.wait(None)
        if self.place == "work":
            await self.action_go("mounts")

    def action_all_steps(self) -> None:
        """Show all steps, or one at a time."""
        self._page.whole()
        self.tell_state()

    async def action_section(self) -> None:
        """Go to the answer: the joint as it is drawn."""
        await self.action_go("mounts")
        await self.action_read()

    async def action_make(self) -> None:
        """Tick the step or hole in hand."""
        await self._page.action_make()

    async def made_at(self, spot: Spot, hand: Revision) -> None:
        """Tick a step or hole of the mount point that was in hand, or take its tick back; the last is a record."""
        work = self._page.work
        if work is None or not work.has(spot):
            return
        if work.state(spot).step.phase is Phase.RECORD:
            await self.run_action("as_built")
        else:
            self.attempt(partial(self._tick, work, spot, hand))

    def _tick(self, work: Work, spot: Spot, hand: Revision) -> None:
        from fasten.job.edit import with_mount
        from fasten.job.ticked import with_tick, without_tick

        job, mount, task = self.open_job.job, self.open_job.mount, work.state(spot).task
        tick = without_tick if work.is_done(spot) else with_tick
        said = task.said(spot.hole)
        if work.is_of_job(spot):
            self.open_job.make(replace(job, ticked=tick(job.ticked, task, spot.hole)), said, hand)
        elif mount is not None:
            ticked = replace(mount, ticked=tick(mount.ticked, task, spot.hole))
            self.open_job.make(with_mount(job, ticked, instead_of=mount.name), f"{said}, {mount.name}", hand)

    # -- test pieces ---------------------------------------------------------------------------------------------------

    async def _takes(self, key: Key) -> bool:
        """A figure at the step of a test piece is what one bore."""
        figure = key.character if key.character and key.character in "0123456789" else ""
        if figure and self.place == "work" and not isinstance(self.screen, ModalScreen) and self._page.is_at_test_piece:
            await self.keys_taken()
            await self.ask_readings(figure)
            return True
        return await super()._takes(key)

    async def on_work_place_readings_wanted(self) -> None:
        """The line for readings was tapped."""
        await self.ask_readings("")

    async def ask_readings(self, first: str) -> None:
        """Ask what the test pieces bore, in a line with kind and tool filled in."""
        from fasten.tui.widgets.panels import FillPanel
        from fasten.tui.work.test_piece import NOTE, blanks_of, kinds_of

        choice, seen = self.choice_here(), self.open_job.revision
        kinds = () if choice is None else kinds_of(choice, self.tables)
        if choice is None or not kinds:
            self.say("Nothing of this joint can be read on a test piece but whether it holds")
            return
        done: list[ReadOff] = []
        panel = FillPanel("Test piece", blanks_of(kinds, first), partial(self._read, choice, seen, done), note=NOTE)
        await self.push_screen(panel, partial(self._show_read, done))
        panel.to_end()

    def _read(self, choice: Choice, seen: Revision, done: list[ReadOff], filled: dict[str, str]) -> None:
        """Write down what was read, and keep it; what may be a slip is asked about once."""
        from fasten.commands._own_tests import keep_tests
        from fasten.job.after.judged import Said, readings_of, with_built
        from fasten.job.edit import find_mount
        from fasten.tui.work.test_piece import fields_of

        fields, asked = fields_of(filled), dict(filled)
        is_sure = self._doubted == asked
        self._doubted = asked
        now = with_built(self.open_job.job, choice, Said(fields, (), is_sure), date.today().isoformat(), self.tables)
        mount = find_mount(now, choice.name)
        read = readings_of(choice.of(mount), self.tables, is_sure=True)
        self.open_job.built(now, mount, seen)
        done[:] = [(read, str(keep_tests(read.tests)))]

    async def _show_read(self, done: list[ReadOff], is_read: bool | None) -> None:
        from fasten.tui.widgets.panels import ReadPanel
        from fasten.tui.work.test_piece import effects_text

        if is_read and done:
            read, kept = done[0]
            await self.push_screen(ReadPanel("Test piece", partial(effects_text, read, kept)))

    async def go_by(self, steps: int) -> None:
        """Take the mount point so many on or back in hand, round the end."""
        at = self.open_job.at
        if at is not None:
            self.attempt(
                lambda: self.open_job.go_to((at + steps) % len(self.open_job.job.mounts), self.open_job.revision)
            )

    def larges(self, offered: Sequence[Action]) -> list[Word]:
        """The large actions: in the list of all steps the way back to one."""
        found = super().larges(offered)
        is_whole = self.place in _WORKS and self._page.is_whole
        return [replace(word, text=_ONE) if is_whole and word.name == "all_steps" else word for word in found]
