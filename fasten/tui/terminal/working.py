"""The screen stays in use while long work is done: its count stands in the top line, and it can be stopped."""

import asyncio
from collections.abc import Callable
from contextlib import suppress
from functools import partial
from time import monotonic
from typing import TypeVar

from rich.console import RenderableType
from textual import on
from textual.events import Click

from fasten.errors import FastenError
from fasten.progress import Stopped
from fasten.tui.state.long_work import SHOWN_AFTER_S, LongWork
from fasten.tui.terminal.endings import Ending

Found = TypeVar("Found")
_COUNTED_EVERY_S = 0.5
READ_S = 1.0  # by then what is said has been seen: the next key takes it away
_MOST_SAID = 3
KEYS_TAKEN_S, KEYS_LOOKED = 0.05, 100  # how often it is looked whether keys are taken, at most
_JUST_S = 0.5  # after a count has gone, in which a key that was to stop it does nothing


class Working(Ending):
    """A screen beside which threads may work."""

    def __init__(self, look: str) -> None:
        super().__init__(look)
        self._works: list[LongWork] = []
        self._ended_at: float | None = None  # when long work was over
        self._said_at: float | None = None  # when the last came of what stands there
        self.said: list[tuple[str, bool]] = []  # what was said since the last key that followed, and if it warns

    def exit(self, result: None = None, return_code: int = 0, message: RenderableType | None = None) -> None:
        """Leave; no work is waited for."""
        for work in self._works:
            work.drop()
        super().exit(result, return_code, message)

    def tell_state(self) -> None:
        """Write the top line anew."""
        raise NotImplementedError

    async def keys_taken(self) -> None:
        """Wait until the field in hand has every key that was typed before this one, however slow the machine is."""
        field, done = self.focused, asyncio.Event()
        if field is None or not field.call_later(done.set):
            return
        for _ in range(KEYS_LOOKED):  # counted, as time runs on while a slow machine does something else
            if done.is_set() or not field.is_attached:
                return
            with suppress(TimeoutError):
                await asyncio.wait_for(done.wait(), KEYS_TAKEN_S)

    def say(self, text: str, *, warn: bool = False) -> None:
        """Say a text, until the next action."""
        self._said_at = monotonic()
        self.said = [*(said for said in self.said if said[0] != text), (text, warn)][-_MOST_SAID:]
        self.show_said()

    def show_said(self) -> None:
        """Show what was said."""
        raise NotImplementedError

    def clear_read(self) -> None:
        """Take away what was said and has been seen by now."""
        if self._said_at is not None and monotonic() - self._said_at >= READ_S:
            self.clear_said()

    def clear_said(self) -> None:
        """Take away what was said."""
        self._said_at, self.said = None, []
        self.show_said()

    @property
    def work_progress(self) -> str:
        """How far the work is that was begun last; empty where none takes long."""
        return next((work.progress for work in reversed(self._works) if work.progress), "")

    @property
    def is_working(self) -> bool:
        """Whether work takes long."""
        return self.work_progress != ""

    @property
    def has_just_worked(self) -> bool:
        """Whether a count stood in the top line a moment ago."""
        return self._ended_at is not None and monotonic() - self._ended_at < _JUST_S

    @on(Click, "#title")
    def _tapped_title(self) -> None:
        if self.is_working:
            self.action_stop()

    def work_beside(
        self, do: Callable[[LongWork], Found], then: Callable[[Found], object], stopped: Callable[[], object]
    ) -> LongWork:
        """Do work in a thread. `then` takes what it found; `stopped` is called where it was stopped before."""
        work = LongWork()
        self._works.append(work)
        self.run_worker(self._done(work, do, then, stopped))
        self.set_timer(SHOWN_AFTER_S, partial(self._count, work))
        return work

    async def work_out(
        self, do: Callable[[LongWork], Found], then: Callable[[Found], object], stopped: Callable[[], object]
    ) -> LongWork:
        """The same; the end of quick work is awaited, so that keys typed after this find what it brings."""
        work = self.work_beside(do, then, stopped)
        with suppress(TimeoutError):
            await asyncio.wait_for(work.over.wait(), SHOWN_AFTER_S)
        return work

    def action_stop(self) -> None:
        """End the work that is going on."""
        for work in self._works:
            work.stop()
        self.tell_state()

    async def _done(
        self, work: LongWork, do: Callable[[LongWork], Found], then: Callable[[Found], object],
        stopped: Callable[[], object],
    ) -> None:  # fmt: skip
        act: Callable[[], object] = stopped
        try:
            with suppress(Stopped):
                act = partial(then, await asyncio.to_thread(do, work))
        except FastenError as error:
            act = partial(self.say, str(error), warn=True)
        finally:
            self._ended_at = monotonic() if work.progress else self._ended_at
            self._works.remove(work)
        if not work.is_dropped:
            self.call_next(act)
        work.over.set()
        self.tell_state()

    def _count(self, work: LongWork) -> None:
        if work in self._works:
            self.tell_state()
            self.set_timer(_COUNTED_EVERY_S, partial(self._count, work))
