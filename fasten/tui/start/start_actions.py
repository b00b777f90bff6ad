"""What can be done where a job begins: take what is being fitted, and go on to its first question."""

from __future__ import annotations

from typing import TYPE_CHECKING

from textual.widgets import Input

from fasten.question.fields import ITEM, ONTO
from fasten.tui.asking import Asking

if TYPE_CHECKING:
    from fasten.tui.start.start_place import StartPlace
    from fasten.tui.start.start_rows import Made


class StartActions(Asking):
    """Actions of a first start; `is_first` where there is no data of the user's yet."""

    is_first = False

    @property
    def _start_page(self) -> StartPlace:
        from fasten.tui.start.start_place import StartPlace

        return self.query_one(StartPlace)

    def on_mount(self) -> None:
        if self.is_first:
            self.call_next(self.action_go, "start")

    async def on_start_place_taken(self, message: StartPlace.Taken) -> None:
        await self._begin(message.made)

    async def _begin(self, made: Made) -> None:
        """Take what is fitted in hand, its first question asked; awaited, so that what is typed next goes there."""
        if made.why:
            self.say(made.why, warn=True)
            return
        if made.job.mounts:
            first = made.job.mounts[0].name
            self.attempt(lambda: self.open_job.take(made.job, "job started", self.open_job.revision, first))
        await self.action_go("mounts")
        self._start_page.clear()  # for the next job that is begun
        if self.open_job.mount is not None:
            self.take_word(ONTO.name)
        else:
            self.take_word(ITEM.name)

    async def action_onward(self) -> None:
        """The same; where it is asked what is fitted, take it."""
        if self.place == "start" and isinstance(self.focused, Input):
            await self.keys_taken()
            await self._begin(self._start_page.made_now())
        else:
            await super().action_onward()
