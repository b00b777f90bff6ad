"""However the screen ends, what was typed is saved, the terminal is left as it was found, and a fault is a sentence."""

import asyncio
import os
import signal
import sys

from rich.console import RenderableType
from textual.driver import Driver

from fasten.tui.terminal.looking import Looking

_SIGNALS = ("SIGINT", "SIGTERM", "SIGHUP")  # some systems have fewer


class Ending(Looking):
    """A screen that may be left, ended by a signal, cut off or at fault. `fault` is a sentence once it is.

    `unsaved` is one where there was nobody to ask what to do with a job that could not be saved in its file.
    """

    fault = ""
    unsaved = ""
    is_leaving = False

    def exit(self, result: None = None, return_code: int = 0, message: RenderableType | None = None) -> None:
        """Leave; what goes wrong from here on, while the screen is taken down, is of no matter to anybody."""
        self.is_leaving = True
        super().exit(result, return_code, message)

    def save_at_last(self) -> str:
        """Save what can be saved; why it cannot, empty where it is."""
        raise NotImplementedError

    def keep_at_last(self) -> str:
        """The same, or else save a copy; where the job is then, empty where it is saved in its file."""
        raise NotImplementedError

    def get_driver_class(self) -> type[Driver]:
        """The terminal's own, and one that outlives it where it may go away."""
        usual = super().get_driver_class()
        if sys.platform == "win32" or usual.__name__ != "LinuxDriver":
            return usual
        from fasten.tui.terminal.driver import LastingDriver

        return LastingDriver

    def on_load(self) -> None:
        """Take what the system says when the program has to end, before the terminal is touched."""
        for name in _SIGNALS:
            if hasattr(signal, name):
                try:
                    asyncio.get_running_loop().add_signal_handler(getattr(signal, name), self.cut_off)
                except (NotImplementedError, RuntimeError):
                    return  # not on this system, or not from the main thread

    def cut_off(self) -> None:
        """Ended by a signal, or left by its terminal: there is nobody to ask."""
        if not self.is_leaving:
            self.unsaved = self._kept()
            self.exit()

    def _set_pointer_shape(self, shape: str) -> None:
        """Write nothing more to a terminal that is left: the screen may still be on its way up."""
        if not self.is_leaving:
            super()._set_pointer_shape(shape)

    def panic(self, *renderables: RenderableType) -> None:
        """A fault of what the screen stands on; shown as ours are."""
        if self._shows_faults:
            super().panic(*renderables)
        else:
            self._end_in_fault("in reading the terminal")

    def _handle_exception(self, error: Exception) -> None:
        """A fault of the program: save, leave, and keep a sentence of it; FASTEN_DEBUG shows where it was."""
        if self._shows_faults:
            super()._handle_exception(error)
        else:
            cause = getattr(error, "error", error)  # work in a thread wraps what went wrong in it
            self._end_in_fault(type(cause).__name__)

    @property
    def _shows_faults(self) -> bool:
        return bool(os.environ.get("FASTEN_DEBUG")) or self.is_headless

    def _end_in_fault(self, what: str) -> None:
        if self.is_leaving:
            return
        self.exit()
        self.fault = f"this is a fault of the program, not yours: {what}; {self._kept() or 'the job is saved'}"

    def _kept(self) -> str:
        try:
            return self.keep_at_last()
        except Exception as error:
            return f"the job is not saved: {type(error).__name__}"
