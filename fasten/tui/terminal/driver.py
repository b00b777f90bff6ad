"""A terminal that may send anything and may go away at any moment, as its window is closed or its line drops."""

import os
import re
import selectors
import signal
from codecs import getincrementaldecoder
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from functools import partial
from time import monotonic
from typing import Any, Protocol, TextIO, cast

from textual._xterm_parser import XTermParser
from textual.app import App
from textual.drivers.linux_driver import LinuxDriver
from textual.events import Resize
from textual.message import Message
from textual.messages import InBandWindowResize

PASTE_S = 3.0  # between two parts of a paste, at most
_END_OF_PASTE = b"\x1b[201~"
_AT_ONCE = 4096  # bytes
_WAIT_S = 0.1  # for a key, before it is asked whether the screen has ended
_OLD_MOUSE = re.compile(rb"\x1b\[M[\x20-\xff]{3}")  # three raw bytes, which are no text
_SIZES = (Resize, InBandWindowResize)  # they come from the system, and are not typed or pasted


class Typed:
    """What the terminal sends, as messages: bytes that are no text are shown as such, and nothing stops it."""

    def __init__(self, now: Callable[[], float] = monotonic) -> None:
        self._decode = getincrementaldecoder("utf-8")("replace").decode
        self._parser = XTermParser()
        self._now = now
        self._last = now()  # when anything came

    def read(self, data: bytes) -> Iterator[Message]:
        """The messages that these bytes complete."""
        self._last = self._now()
        for character in self._decode(_OLD_MOUSE.sub(b"", data)):
            yield from self._parsed(partial(self._parser.feed, character))

    def waited(self) -> Iterator[Message]:
        """The messages that are complete because nothing more came."""
        yield from self._parsed(self._parser.tick)
        if self._now() - self._last > PASTE_S:
            yield from self.read(_END_OF_PASTE)  # without an end that was lost, all keys would go into the paste

    def _parsed(self, parse: Callable[[], Iterable[Message]]) -> Iterator[Message]:
        try:
            yield from (message for message in parse() if not isinstance(message, _SIZES))
        except Exception:  # the parser has no end of a sequence that it cannot read: that one is dropped
            self._parser = XTermParser()


class _Outlet:
    """Where the screen is written to. Once the terminal has gone it says so, once, and what is written goes nowhere."""

    def __init__(self, file: TextIO, gone: Callable[[], None]) -> None:
        self._file = file
        self._gone = gone
        self._is_gone = False

    def write(self, text: str) -> None:
        self._attempt(lambda: self._file.write(text))

    def flush(self) -> None:
        self._attempt(self._file.flush)

    def fileno(self) -> int:
        return self._file.fileno()

    def _attempt(self, do: Callable[[], object]) -> None:
        # A fault here would end the thread that writes, and the screen would wait for it for ever.
        if self._is_gone:
            return
        try:
            do()
        except (OSError, ValueError):
            self._is_gone = True
            self._gone()


class Ended(Protocol):
    """What the driver asks of the app whose terminal it is."""

    is_leaving: bool

    def cut_off(self) -> None:
        """End: there is no terminal any more."""

    def call_later(self, callback: Callable[[], None]) -> bool:
        """Do it in its turn."""

    def refresh(self, *, layout: bool) -> object:
        """Draw all anew."""


class LastingDriver(LinuxDriver):
    """The usual one, save that no input is a fault, and a terminal that has gone ends the program as a signal does."""

    def __init__(self, app: App[None], **given: Any) -> None:
        super().__init__(app, **given)
        self._ending = cast(Ended, app)
        self._is_aside = False
        self._file = cast("Any", _Outlet(cast("TextIO", self._file), self._left))
        # In its turn, and not in the middle of whatever is being written.
        self._loop.add_signal_handler(signal.SIGTSTP, self._put_aside)
        self._loop.add_signal_handler(signal.SIGCONT, self._taken_up)

    def run_input_thread(self) -> None:
        """Read keys until the end; a terminal that can no more be read has gone."""
        typed = Typed()
        with selectors.SelectSelector() as selector:
            selector.register(self.fileno, selectors.EVENT_READ)
            while not self.exit_event.is_set():
                data = self._came(selector)
                if data == b"":
                    self._left()
                    return
                for message in (*(typed.read(data) if data else ()), *typed.waited()):
                    self.process_message(message)

    def _came(self, selector: selectors.BaseSelector) -> bytes | None:
        """What the terminal sent, None where that is nothing yet; empty where it has gone."""
        try:
            return os.read(self.fileno, _AT_ONCE) if selector.select(_WAIT_S) else None
        except OSError:
            return b""

    def _query_in_band_window_resize(self) -> None:
        """Sizes that come among the keys are not wanted."""

    def _put_aside(self) -> None:
        """Stand still until the program may go on."""
        with self._away():
            self._is_aside = True
            os.kill(os.getpid(), signal.SIGSTOP)

    def _taken_up(self) -> None:
        """Go on after the system made the program stand still: others may have used the terminal meanwhile."""
        if not self._is_aside:  # then it has gone on already
            with self._away():
                pass
        self._is_aside = False

    @contextmanager
    def _away(self) -> Iterator[None]:
        """The terminal as it was found, and then the screen anew; nothing where there is no screen yet or any more."""
        stands = self._writer_thread is not None and not self._ending.is_leaving
        if stands:
            self.suspend_application_mode()
        yield
        if stands:
            self.resume_application_mode()
            self._ending.refresh(layout=True)

    def _left(self) -> None:
        self._ending.call_later(self._ending.cut_off)
