"""The program's outermost layer: runs a command line and turns every ending into an exit code.

0 done, 1 not ready or no fit, 2 misuse, 3 our fault or a report that nobody takes, 130 stopped by hand. The report goes
to stdout, all else to stderr.
"""

import os
import sys
from atexit import register
from gc import freeze

from fasten.commands._streams import drop, finish, is_of_stdout, not_written, prepare, say, say_text

DONE, NO_FIT, MISUSE, OUR_FAULT = 0, 1, 2, 3
NOT_TAKEN = 3  # nothing was wrong with the command line
INTERRUPTED = 130
DEBUG = "FASTEN_DEBUG"
FORMAT = 1

TYPE_CHECKING = False  # type checkers take it for true; importing typing itself would slow `--help` by a tenth
if TYPE_CHECKING:
    from fasten.errors import FastenError


class _Wants:
    """Whether the command line asks for JSON: then what is wrong is JSON too."""

    json = False


_wants = _Wants()


def main(argv: list[str] | None = None) -> int:
    """Run the command line `argv` without the program's name, and say with which code to exit."""
    prepare()
    register(freeze)  # what is there at the end goes with the process: no cycle of it is looked for
    try:
        return finish(_run(sys.argv[1:] if argv is None else argv), NOT_TAKEN)
    except KeyboardInterrupt:
        return _stopped()


def _run(argv: list[str]) -> int:
    _wants.json = "--json" in (argv[: argv.index("--")] if "--" in argv else argv)
    try:
        from fasten.cli import run

        return run(argv)
    except SystemExit as end:
        return end.code if isinstance(end.code, int) else DONE
    except BrokenPipeError:
        drop(sys.stdout)  # the reader has enough, as `head` does
        return DONE
    except Exception as error:
        return _failed(error)


def _stopped() -> int:
    """Say that it was stopped; who stops it twice does not stop it in mid-sentence."""
    from signal import SIG_IGN, SIGINT, signal

    before = signal(SIGINT, SIG_IGN)
    drop(sys.stdout)  # where its reader stands still, what is left would wait for ever
    code = _say("stopped", INTERRUPTED)
    signal(SIGINT, before)
    return code


def _failed(error: Exception) -> int:
    from fasten.errors import FastenError

    if isinstance(error, FastenError):
        if _wants.json:
            return _say_json((error, *error.others), MISUSE)
        for one in (error, *error.others):
            say(str(one))
        return MISUSE
    if os.environ.get(DEBUG):
        raise error
    if isinstance(error, OSError):
        return _say(not_written(error), NOT_TAKEN) if is_of_stdout(error) else _say(_refused(error), MISUSE)
    return _say(
        f"this is a fault of the program, not yours: {type(error).__name__}: {error}; "
        f"set {DEBUG}=1 to see where, and report it",
        OUR_FAULT,
    )


def _refused(error: OSError) -> str:
    """What the system does not allow; where anything better can be said of it, the command has said it."""
    named = error.filename or "a file or folder"
    named = os.fsdecode(named) if isinstance(named, str | bytes) else str(named)
    why = (error.strerror or type(error).__name__).lower()
    return f"{named}: {why}; check that it is there and that you may use it"


def _say(sentence: str, code: int) -> int:
    if _wants.json:
        from fasten.errors import FastenError

        return _say_json((FastenError(sentence),), code)
    say(sentence)
    return code


def _say_json(errors: "tuple[FastenError, ...]", code: int) -> int:
    """Say what is wrong as JSON, for a program that asked for that: what, where and what to do about it."""
    import json

    first, *others = ({name: text for name, text in vars(error).items() if isinstance(text, str)} for error in errors)
    say_text(json.dumps({"format": FORMAT, "error": {**first, "exit": code}, "others": others}))
    return code


if __name__ == "__main__":
    sys.exit(main())
