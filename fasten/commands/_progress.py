"""How far long work is: one line on stderr, where that is a terminal, which goes again before anything else is said."""

import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager
from time import monotonic

from fasten.commands._streams import drop
from fasten.progress import Step, unseen

_AFTER_S, _EVERY_S = 1.0, 0.2  # what ends sooner shows nothing; more often is no more than a flicker
_ECHO = 2  # columns of the ^C that a terminal shows where somebody stops the work


@contextmanager
def progress(doing: str) -> Iterator[Step]:
    """A step that shows what is being done and how far it is; the line is gone when the work ends, however it does."""
    if not sys.stderr.isatty():
        yield unseen
        return
    line = _Line(doing)
    try:
        yield line.step
    finally:
        line.clear()


class _Line:
    """The one line, written over itself."""

    def __init__(self, doing: str) -> None:
        self._doing, self._width = doing, 0
        self._next = monotonic() + _AFTER_S

    def step(self, done: int, of: int) -> None:
        now = monotonic()
        if now >= self._next:
            self._next = now + _EVERY_S
            self._write(f"fasten: {self._doing}, {100 * done // max(of, 1)} %; Ctrl-C stops it")

    def clear(self) -> None:
        """Take the line away; who stops the work twice does not stop this."""
        from signal import SIG_IGN, SIGINT, signal

        before = signal(SIGINT, SIG_IGN)
        if self._width:
            self._put(" " * min(self._width + _ECHO, _columns() - 1) + "\r")
        signal(SIGINT, before)

    def _write(self, text: str) -> None:
        text = text[: _columns() - 1]  # a line that wraps could not be written over
        before, self._width = (
            self._width,
            max(self._width, len(text)),
        )  # first: the work may be stopped as it is written
        self._put(text.ljust(before))

    def _put(self, text: str) -> None:
        try:
            sys.stderr.write(f"\r{text}")
            sys.stderr.flush()
        except OSError:
            drop(sys.stderr)  # nobody looks any more; the work goes on


def _columns() -> int:
    try:
        return os.get_terminal_size(sys.stderr.fileno()).columns or 80
    except OSError:
        return 80
