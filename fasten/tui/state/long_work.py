"""Work that may take long: how far it is, and whether anybody still waits for it. No widgets here."""

import asyncio
from time import monotonic

from fasten.progress import Step, Stopped

SHOWN_AFTER_S = 0.3
_COUNTED = 100_000  # parts; of more than that a share says more than a count


class LongWork:
    """Work that a thread does beside the screen: its steps write down how far it is, and end it once it is stopped.

    What it finds is not taken once it is dropped: the job is another by then, or the same work is begun anew.
    """

    def __init__(self) -> None:
        self.is_stopped = self.is_dropped = False
        self.over = asyncio.Event()  # what it found is about to be taken, before any further key
        self._begun = monotonic()
        self._at = "", 0, 0

    def steps(self, doing: str) -> Step:
        """The step of one part of the work, which goes by this name."""

        def step(done: int, of: int) -> None:
            if self.is_stopped:
                raise Stopped
            self._at = doing, done, of

        return step

    def stop(self) -> None:
        """End it at its next step; what it has found by then is taken."""
        self.is_stopped = True

    def drop(self) -> None:
        """End it at its next step; whatever it found is not wanted any more."""
        self.is_stopped = self.is_dropped = True

    @property
    def progress(self) -> str:
        """How far it is, once it has taken so long that it is worth a word; else empty."""
        doing, done, of = self._at
        if not doing or self.is_stopped or monotonic() - self._begun < SHOWN_AFTER_S:
            return ""
        return f"{doing}: {done} of {of}" if of <= _COUNTED else f"{doing}: {100 * done // of} %"
