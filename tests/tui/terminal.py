"""The installed program in a real pseudo-terminal: keys in, and what stands on the screen out."""

import fcntl
import os
import pty
import re
import select
import signal
import struct
import subprocess
import sys
import termios
import time
from collections.abc import Callable, Sequence
from pathlib import Path

import pyte

FASTEN = str(Path(sys.executable).with_name("fasten"))
COLUMNS, LINES = 80, 24
DEADLINE_S = 60.0  # for a machine with much else to do; a test that passes never waits for it
ENTER_ALTERNATE, LEAVE_ALTERNATE, SHOW_CURSOR = b"\x1b[?1049h", b"\x1b[?1049l", b"\x1b[?25h"
ENTER = "\r"
_QUIET = 6  # times in a row that nothing was written: the cursor blinks on

# What the reader of the screen does not know and would print: questions to the terminal and its keyboard's modes.
_NOT_READ = re.compile(rb"\x1b\[[<>=?][0-9;]*u|\x1b\[\?[0-9;]*\$p")
_UNFINISHED = re.compile(rb"\x1b(\[[0-9;<>=?$]*)?\Z")


class Terminal:
    """A program on a terminal of its own, as a person would sit before it; `with` ends it."""

    def __init__(
        self, folder: Path, words: Sequence[str] = (), program: Sequence[str] = (FASTEN,), *, controlling: bool = True,
        **env: str,
    ) -> None:  # fmt: skip
        self.master, self.slave = pty.openpty()
        fcntl.ioctl(self.slave, termios.TIOCSWINSZ, struct.pack("HHHH", LINES, COLUMNS, 0, 0))
        self._open = [self.master, self.slave]
        self.before = termios.tcgetattr(self.slave)
        self.raw = b""
        self._read, self._text = 0, ""
        self._screen = pyte.Screen(COLUMNS, LINES)
        self._stream = pyte.ByteStream(self._screen)
        self.process = subprocess.Popen(
            [*program, *words], stdin=self.slave, stdout=self.slave, stderr=self.slave,
            env=own_environment(folder, env), cwd=folder, start_new_session=True,
            preexec_fn=_take_terminal if controlling else None,  # noqa: PLW1509
        )  # fmt: skip

    def __enter__(self) -> "Terminal":
        return self

    def __exit__(self, *_: object) -> None:
        self.process.kill()
        self.process.wait()
        self.close()

    @property
    def text(self) -> str:
        """What stands on the screen."""
        whole = len(self.raw) - len(found[0] if (found := _UNFINISHED.search(self.raw[self._read :])) else b"")
        if whole > self._read:
            self._stream.feed(_NOT_READ.sub(b"", self.raw[self._read : whole]))
            self._read = whole
            self._text = "\n".join(line.rstrip() for line in self._screen.display)
        return self._text

    def keys(self, text: str | bytes) -> None:
        """Type a text, or send bytes that need not be one."""
        os.write(self.master, text.encode() if isinstance(text, str) else text)

    def say(self, *answers: str) -> None:
        """Type each answer, and Enter after it."""
        for answer in answers:
            self.keys(answer + ENTER)

    def until(self, is_so: Callable[[], bool], what: str) -> None:
        """Read until it is so; fails with the screen as it stands where it never is."""
        end = time.monotonic() + DEADLINE_S
        while not is_so():
            assert time.monotonic() < end, f"waited in vain for {what}; the screen:\n{self.text}"
            assert self._take() or self.process.poll() is None, f"it ended before {what}; it wrote:\n{self.text}"

    def shows(self, *words: str) -> str:
        """Wait until all of these stand on the screen; the screen."""
        self.until(lambda: _has_all(self.text, words), " and ".join(words))
        return self.text

    def stands_still(self) -> bool:
        """Whether the system has stopped it until it is told to go on."""
        status = Path(f"/proc/{self.process.pid}/status").read_text()
        return status.partition("State:")[2].split()[0] == "T"

    def rest(self) -> None:
        """Read until nothing more comes for a while."""
        quiet = 0
        while quiet < _QUIET:
            quiet = 0 if self._take() else quiet + 1

    def resize(self, lines: int, columns: int) -> None:
        """Give the terminal another size, and tell the program so."""
        fcntl.ioctl(self.slave, termios.TIOCSWINSZ, struct.pack("HHHH", lines, columns, 0, 0))
        self.process.send_signal(signal.SIGWINCH)

    def ended(self) -> int:
        """Wait until the program has ended, read the last it wrote, and give its exit code."""
        self._wait()
        while self._take():
            pass
        return self.process.returncode

    def hang_up(self) -> int:
        """Close the terminal as its window is closed, and wait for the program to end; its exit code."""
        self.close()
        self._wait()
        return self.process.returncode

    def is_sane(self) -> bool:
        """Whether it was left as it was found: same modes, echo among them, no alternate screen, a cursor seen."""
        after = termios.tcgetattr(self.slave)
        left = self.raw.rfind(LEAVE_ALTERNATE) > self.raw.rfind(ENTER_ALTERNATE)
        shown = self.raw.rfind(SHOW_CURSOR) > self.raw.rfind(b"\x1b[?25l")
        mouse_off = all(self.raw.rfind(b"\x1b[?%dl" % n) > self.raw.rfind(b"\x1b[?%dh" % n) for n in (1000, 1003, 2004))
        return after == self.before and bool(after[3] & termios.ECHO) and left and shown and mouse_off

    def last_words(self) -> str:
        """What was written after the screen was left, without the sequences that put the terminal right."""
        tail = self.raw[self.raw.rfind(LEAVE_ALTERNATE) :]
        return re.sub(rb"\x1b\[[0-9;<>=?]*[a-zA-Z]", b"", tail).decode().strip()

    def close(self) -> None:
        while self._open:
            os.close(self._open.pop())

    def _wait(self) -> None:
        end = time.monotonic() + DEADLINE_S
        while self.process.poll() is None:
            assert time.monotonic() < end, f"it does not end; the screen:\n{self.text}"
            self._take()

    def _take(self) -> bool:
        """Read what is there, or wait for it a moment; whether anything was."""
        if not self._open:
            time.sleep(0.01)
            return False
        if not select.select([self.master], [], [], 0.05)[0]:
            return False
        data = os.read(self.master, 65536)
        self.raw += data
        return bool(data)


def _has_all(text: str, words: Sequence[str]) -> bool:
    return all(word in text for word in words)


def _take_terminal() -> None:
    fcntl.ioctl(0, termios.TIOCSCTTY, 0)


def own_environment(folder: Path, more: dict[str, str]) -> dict[str, str]:
    """Nothing of whoever runs the test: no tables, jobs or shelf of their own, no settings of the screen."""
    kept = {name: value for name, value in os.environ.items() if not name.startswith(("TEXTUAL", "FASTEN", "COLUMNS"))}
    if not (folder / "data").exists():
        (folder / "data").mkdir()  # without it, this is a first start, which asks what is being fitted
    own = {"FASTEN_DATA": str(folder / "data"), "FASTEN_TABLES": str(folder / "no-tables"), "TERM": "xterm-256color"}
    return {**kept, **own, **more}
