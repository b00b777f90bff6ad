"""A terminal that may go away at any moment, as its window is closed or its line drops."""

from collections.abc import Callable
from typing import TYPE_CHECKING, Any, TextIO, cast

from textual.drivers.linux_driver import LinuxDriver

if TYPE_CHECKING:
    from fasten.tui.endings import Ending


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


class LastingDriver(LinuxDriver):
    """The usual one, save that a terminal that has gone ends the program as a signal to end does."""

    def __init__(self, app: "Ending", **given: Any) -> None:
        super().__init__(app, **given)
        self._ending = app
        self._file = cast("Any", _Outlet(cast("TextIO", self._file), self._left))

    def run_input_thread(self) -> None:
        """Read keys until the end; a terminal that can no more be read has gone."""
        try:
            super().run_input_thread()
        except OSError:
            self._left()

    def _left(self) -> None:
        self._ending.call_later(self._ending.cut_off)
