"""What is printed, the report on stdout and all else on stderr, and what becomes of it where nobody takes it."""

import errno
import os
import sys

TYPE_CHECKING = False  # as in `fasten.__main__`: quick
if TYPE_CHECKING:
    from typing import TextIO

_CLOSED = "standard output is closed or takes nothing"
# What a stream says that takes no more; a file or folder that is in the way says other things, or has a name.
_NOT_TAKEN = (
    errno.ENOSPC, errno.EDQUOT, errno.EFBIG, errno.EIO, errno.EBADF, errno.EAGAIN, errno.ENXIO,
)  # fmt: skip


def prepare() -> None:
    """Put something in the place of a closed stream; a character that a stream cannot take is written as an escape."""
    # What is closed is None: printed to it on stdout a report is lost in silence, and on stderr a message lands in it.
    sys.stdout = sys.stdout or _in_place(os.O_RDONLY)
    sys.stderr = sys.stderr or _in_place(os.O_WRONLY)
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="backslashreplace")


def say(sentence: str) -> None:
    """Say a sentence on stderr, where anybody still listens; nothing where it is empty."""
    from fasten.report.safe import safe

    if sentence:
        say_text(f"fasten: {safe(sentence)}")


def say_text(text: str) -> None:
    """Write a text that is harmless on stderr, where anybody still listens."""
    try:
        print(text, file=sys.stderr)
    except OSError:
        drop(sys.stderr)  # what was to be done is done or refused all the same


def is_of_stdout(error: OSError) -> bool:
    """Whether an error came of printing the report."""
    return error.filename is None and error.errno in _NOT_TAKEN


def not_written(error: OSError) -> str:
    """That the report did not arrive, in a sentence; nothing more is written to stdout."""
    drop(sys.stdout)
    why = _CLOSED if error.errno == errno.EBADF else (error.strerror or type(error).__name__).lower()
    return f"the answer could not be written out: {why}; send it somewhere else, or make room"


def finish(code: int, not_taken: int) -> int:
    """Send off what was printed; the exit code, which is `not_taken` where the report cannot be taken."""
    try:
        sys.stdout.flush()
    except BrokenPipeError:
        drop(sys.stdout)  # the reader has enough, as `head` does
    except OSError as error:
        say(not_written(error))
        code = not_taken
    try:
        sys.stderr.flush()
    except OSError:
        drop(sys.stderr)
    return code


def drop(stream: "TextIO") -> None:
    """Send what is left in a stream, and all that follows, nowhere: Python would try again as it ends."""
    try:
        nowhere = os.open(os.devnull, os.O_WRONLY)
        os.dup2(nowhere, stream.fileno())
        os.close(nowhere)
    except (OSError, ValueError):
        return  # no stream of the system's: nothing is left in it


def _in_place(mode: int) -> "TextIO":
    """A stream to nowhere; opened to be read alone it takes nothing, and says so as soon as anything is sent off."""
    return os.fdopen(os.open(os.devnull, mode), "w", encoding="utf-8")
