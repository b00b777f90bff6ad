"""The job in hand is saved as it changes: beside the screen each second, and at once where something is done."""

import asyncio
from contextlib import suppress

from textual.css.query import NoMatches

from fasten.errors import FastenError
from fasten.report.safe import safe
from fasten.tui.state.job_files import JobFiles
from fasten.tui.state.open_job import OpenJob
from fasten.tui.terminal.clock import time_of_day
from fasten.tui.terminal.working import Working


class Saving(Working):
    """A screen that keeps a job in a file. `trouble` says why it is not saved, `saved_at` when it was."""

    def __init__(self, look: str, job_files: JobFiles, open_job: OpenJob) -> None:
        super().__init__(look)
        self.job_files, self.open_job = job_files, open_job
        self.trouble = self.saved_at = ""
        self._is_saving = False  # beside the screen

    def take_typed(self) -> None:
        """Take what was typed last into the job."""
        raise NotImplementedError

    def tell(self) -> None:
        """Have every page show the job as it is now."""
        raise NotImplementedError

    def save(self) -> None:
        """Save the job: by the end it is in its file, or what is in the way is said."""
        was_saved = self.open_job.is_saved
        self._show_saved(_tried(self.open_job), is_new=not was_saved)

    def save_beside(self) -> None:
        """Have a thread save it: a disk may take longer than a key is to wait."""
        if self.open_job.is_saved:
            self._show_saved("", is_new=False)
        elif not self._is_saving and not self.is_leaving:
            self._is_saving = True
            self.run_worker(self._save_beside(self.open_job))

    async def _save_beside(self, open_job: OpenJob) -> None:
        try:
            while not (trouble := await asyncio.to_thread(_tried, open_job)) and not open_job.is_saved:
                pass  # it has changed meanwhile
        finally:
            self._is_saving = False
        if open_job is self.open_job and not self.is_leaving:
            self._show_saved("" if open_job.is_saved else trouble, is_new=True)  # it may be saved otherwise by now

    def _show_saved(self, trouble: str, *, is_new: bool) -> None:
        if trouble and trouble != self.trouble:
            self.say(trouble if "not saved" in trouble else f"Not saved: {trouble}", warn=True)
        self.trouble = trouble
        if is_new and not trouble:
            self.saved_at = time_of_day()
        if self.screen_stack:
            with suppress(NoMatches):  # a save may end as the pages go with the screen
                self.tell()

    def save_at_last(self) -> str:
        """Save all that is understood of what was typed, to the last key; why it cannot be saved, else empty."""
        try:
            self.take_typed()
        except FastenError as error:
            return safe(str(error))
        return _tried(self.open_job)

    def keep_at_last(self) -> str:
        """The same, or else save a copy; where the job is then, empty where it is saved in its file."""
        why = self.save_at_last()
        if not why:
            return ""
        try:
            self.job_files.copy(self.open_job)
        except FastenError:
            return f"the job is not saved: {why}"
        return safe(f"the job is saved as {self.open_job.path}: {why}")


def _tried(open_job: OpenJob) -> str:
    """Save the job where it is not saved; why it cannot be, else empty."""
    try:
        open_job.save()
    except FastenError as error:
        return safe(str(error))
    return ""
