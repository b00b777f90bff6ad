"""The screen. Only this package imports Textual, and only once the screen is opened."""

import os
import sys
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from fasten.catalog.tables import Tables
    from fasten.job.store.tests_toml import KeptTests
    from fasten.model import OwnTest

COLLECTED = (200_000, 10, 25)  # after so many objects, and so many rounds: long work alone makes as many in a second
_SWITCHED_S = 0.001  # what reads the keys and writes the screen waits no longer for what calculates
_FRAMES = "240"  # a second, at most: a key is not to wait for its frame because the cursor has just blinked
_DRAWN = "│─▓╱▉·…"
_TWINS = "fasten pick ITEM --onto … --removed … and fasten look … answer in plain text"
_JOB_TWINS = "fasten work, fasten hardware and fasten ready show the same of a job in plain text"


def not_a_terminal(job: str | None = None) -> str | None:
    """Why the screen cannot open here and which plain commands do the same, in one sentence; None where it can."""
    twins = _TWINS if job is None else _JOB_TWINS
    # Textual draws on stderr, so that one counts as well.
    if not all(map(_is_terminal, (sys.stdin, sys.stdout, sys.stderr))):
        return f"the screen needs a terminal to read from and write to; {twins}"
    if os.environ.get("TERM") in ("dumb", "unknown"):
        return f"this terminal cannot show a screen; {twins}"
    if not _shows(sys.stderr, _DRAWN):
        # As escapes they would run over the figures beside them.
        takes = f"this terminal takes {sys.stderr.encoding} alone, in which no screen can be drawn"
        return f"{takes}; set LANG to a locale of UTF-8; {twins}"
    return None


def run(argv_job: str | None = None, *, tables: "Tables | None" = None) -> int:
    """Open the screen on a job, stay until the person quits, and return the exit code.

    Raises: FastenError if the job named cannot be opened.
    """
    import gc
    from pathlib import Path

    # The collector stops everything: by itself several times while the screen is made, and then every few answers for
    # as long as an answer takes. It is let go on once the screen stands (`preload`), and is run each second.
    gc.set_threshold(*COLLECTED)
    gc.disable()
    sys.setswitchinterval(_SWITCHED_S)
    os.environ.setdefault("TEXTUAL_FPS", _FRAMES)

    from fasten.commands._folders import data_folder, jobs_folder, shelf_path, state_folder, written_folder
    from fasten.commands._streams import say
    from fasten.job.store.written import Written
    from fasten.tui.app import FastenApp
    from fasten.tui.palette import look_of
    from fasten.tui.state.job_files import JobFiles
    from fasten.tui.state.open_shelf import OpenShelf
    from fasten.tui.terminal.kept_look import KeptLook

    tables = _tables() if tables is None else tables
    named = None if argv_job is None else Path(argv_job)
    written = Written(written_folder())
    files, shelf = JobFiles(jobs_folder(), tables, written), OpenShelf(shelf_path(), written)
    look = KeptLook(state_folder(), look_of(os.environ))
    is_first = named is None and not data_folder().exists()
    app = FastenApp(tables, files, shelf, named, look=look, is_first=is_first)
    try:
        app.run()
    finally:
        gc.enable()
    say(app.fault or app.unsaved)
    return 3 if app.fault or app.return_code else 2 if app.unsaved else 0


def _is_terminal(stream: object) -> bool:
    # A stream is None where the program was started with it closed.
    isatty = getattr(stream, "isatty", None)
    return bool(isatty and isatty())


def _shows(stream: object, text: str) -> bool:
    if sys.platform == "win32":
        return True  # the screen is not written by way of the stream there
    try:
        text.encode(getattr(stream, "encoding", None) or "ascii")
    except (LookupError, UnicodeEncodeError):
        return False
    return True


def _tables() -> "Tables":
    """The tables, with what the user keeps of test pieces while the screen is open."""
    from functools import cache

    from fasten.commands._folders import tests_path
    from fasten.commands._tables import open_tables

    tables, path = open_tables(), tests_path()
    if path is None:
        return tables

    @cache
    def kept() -> "KeptTests":
        from contextlib import suppress

        from fasten.errors import FastenError
        from fasten.job.store.tests_toml import KeptTests, read_tests

        with suppress(FastenError):  # read anew: the file may be another since the start
            return KeptTests(path, read_tests(path))
        return KeptTests(path, tables.tests)

    def tests() -> "tuple[OwnTest, ...]":
        return kept()()  # made only once one is asked for: the screen stands before

    return tables.with_kept(tests)
