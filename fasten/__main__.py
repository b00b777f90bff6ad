"""The program's outermost layer: runs a command line and turns every ending into an exit code.

0 done, 1 no fit or not ready, 2 misuse, 3 our fault. The report goes to stdout, all else to stderr.
"""

import os
import sys

DONE, NO_FIT, MISUSE, OUR_FAULT = 0, 1, 2, 3
INTERRUPTED = 130
DEBUG = "FASTEN_DEBUG"


def main(argv: list[str] | None = None) -> int:
    """Run the command line `argv` without the program's name, and say with which code to exit."""
    _write_what_the_terminal_can()
    try:
        from fasten.cli import run

        code = run(sys.argv[1:] if argv is None else argv)
        sys.stdout.flush()
    except SystemExit as end:
        return end.code if isinstance(end.code, int) else DONE
    except KeyboardInterrupt:
        return _say("stopped", INTERRUPTED)
    except BrokenPipeError:
        return _reader_left()
    except Exception as error:
        return _failed(error)
    return code


def _failed(error: Exception) -> int:
    from fasten.errors import FastenError

    if isinstance(error, FastenError):
        return _say(str(error), MISUSE)
    if os.environ.get(DEBUG):
        raise error
    return _say(
        f"this is a fault of the program, not yours: {type(error).__name__}: {error}; "
        f"set {DEBUG}=1 to see where, and report it",
        OUR_FAULT,
    )


def _say(sentence: str, code: int) -> int:
    from fasten.report.safe import safe

    try:
        print(f"fasten: {safe(sentence)}", file=sys.stderr)
    except OSError:
        return code  # the terminal has gone, and with it whoever would read this
    return code


def _reader_left() -> int:
    # Whoever reads has enough, as `head` does; nothing more may be written, not even when Python closes stdout.
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    return DONE


def _write_what_the_terminal_can() -> None:
    """A character that the terminal cannot show is written as an escape and never ends the program."""
    for stream in (sys.stdout, sys.stderr):
        reconfigure = getattr(stream, "reconfigure", None)
        if reconfigure is not None:
            reconfigure(errors="backslashreplace")


if __name__ == "__main__":
    sys.exit(main())
