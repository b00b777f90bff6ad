"""What can be done with a whole job: take back, open another, name it, put it on paper, leave."""

import os
from collections.abc import Awaitable, Callable
from functools import partial
from pathlib import Path

from fasten.errors import FastenError
from fasten.tui.asking import Asking
from fasten.tui.palette import next_look
from fasten.tui.state.blank import Blank
from fasten.tui.state.open_job import Revision
from fasten.tui.widgets.panels import Choice, Filled, FillPanel, PickPanel

_NEW = "+"  # stands for a new job among those there are


class JobActions(Asking):
    """Actions on the job in hand."""

    def action_undo(self) -> None:
        """Take the last change back."""
        self._stepped(self.open_job.undo(), "Taken back", "There is nothing to take back")

    def action_redo(self) -> None:
        """Make it again."""
        self._stepped(self.open_job.redo(), "Made again", "There is nothing to make again")

    def _stepped(self, what: str, done: str, nothing: str) -> None:
        self.save()
        self.say(f"{done}: {what}" if what else nothing)

    async def action_jobs(self) -> None:
        """Open another job, start one, or name this one."""
        in_hand = {self.open_job.path: " (in hand)"}
        paths = self.job_files.paths()
        if self.open_job.path is not None and self.open_job.path not in paths and self.open_job.path.is_file():
            paths.insert(0, self.open_job.path)  # it is kept elsewhere
        choices = [Choice(str(p), f"{self.job_files.label(p)}{in_hand.get(p, '')}") for p in paths]
        more = (Choice(_NEW, "start a new job"), Choice("", "name the job in hand"))
        await self.push_screen(PickPanel("Which job?", [*choices, *more]), self._picked_job)

    async def _picked_job(self, key: str | None) -> None:
        if key == "":
            job = self.open_job.job
            blanks = (
                Blank("title", "Job", job.title, "front stage"),
                Blank("vehicle", "Vehicle", job.vehicle, "blue estate"),
                Blank("note", "Note", job.note),
            )
            await self.push_screen(FillPanel("This job", blanks, partial(self._entitle, self.open_job.revision)))
        elif key is not None:
            await self._leave_for(None if key == _NEW else Path(key))

    async def _leave_for(self, path: Path | None) -> None:
        """Put the job in hand away, saved, and open another, or it again where it has changed, or begin one."""
        trouble = self.save_at_last()
        if trouble:
            lost = "open it, and lose what is not saved" if path else "start it, and lose what is not saved"
            await self._ask_unsaved(trouble, lost, partial(self._take_up, path))
        elif path is None or path != self.open_job.path or self.open_job.is_stale():
            await self._take_up(path)

    def _entitle(self, seen: Revision, filled: Filled) -> None:
        self.open_job.entitle(filled["title"], filled["vehicle"], filled["note"], seen)
        self.save()

    async def _take_up(self, path: Path | None) -> None:
        self.attempt(lambda: self.take_up(self.job_files.new() if path is None else self.job_files.open(path)))
        if path is None:
            await self.action_go("start")

    def action_shade(self) -> None:
        """Go on to the next look: dark, light, the terminal's own colours."""
        self.look_in(next_look(self.current_theme.name))
        self.keep_look(self.current_theme.name)

    async def action_quit(self) -> None:
        """Leave; the job is saved first, and where it cannot be, that is said before it is lost."""
        await self.keys_taken()
        trouble = self.save_at_last()
        if trouble:
            await self._ask_unsaved(trouble, "leave, and lose what is not saved", self._leave)
        else:
            self.exit()

    async def _leave(self) -> None:
        self.exit()

    async def _ask_unsaved(self, trouble: str, lost: str, lose: Callable[[], Awaitable[None]]) -> None:
        choices = (Choice("stay", "stay here"), Choice("copy", "save it as another file"), Choice("lose", lost))
        await self.push_screen(PickPanel(f"The job is not saved. {trouble}", choices), partial(self._unsaved, lose))

    async def _unsaved(self, lose: Callable[[], Awaitable[None]], key: str | None) -> None:
        if key == "copy":
            try:
                self._save_as(None)
            except FastenError as error:
                file = Blank("path", "File", "", "~/van.toml")
                await self.push_screen(FillPanel("Save it as another file", (file,), self._named, note=str(error)))
        elif key == "lose":
            await lose()

    def _named(self, filled: Filled) -> None:
        named = os.path.expanduser(filled["path"].strip())
        if not named:
            raise FastenError("no file is named", fix="name one in a folder that can be written to, or go back")
        self._save_as(Path(named if named.endswith(".toml") else f"{named}.toml"))

    def _save_as(self, path: Path | None) -> None:
        self.job_files.copy(self.open_job, path)
        self.say(f"Saved as {self.open_job.path}")
        self.save()
