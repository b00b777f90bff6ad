"""What keeps test pieces of the user's own in the user's folder, for the command line and the screen alike."""

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from pathlib import Path

    from fasten.model import OwnTest

_TRIES, _MOMENT_S = 40, 0.05  # how often, and how far apart, their file is read again that others save meanwhile


def keep_tests(tests: "tuple[OwnTest, ...]") -> "Path":
    """Keep what was read on test pieces, each once, and give the file that has them.

    Raises:
        FastenError: no folder for them is known, or the file cannot be read or written.
    """
    from time import sleep

    from fasten.commands._folders import tests_path
    from fasten.errors import FastenError
    from fasten.job.store.files import OutdatedError
    from fasten.job.store.tests_toml import keep

    path = tests_path()
    if path is None:
        what = "no home folder is known in which to keep your test pieces; the visit has them"
        raise FastenError(what, where="keep-test", fix="set HOME, or FASTEN_DATA to a folder")
    for _ in range(_TRIES - 1):
        try:
            keep(path, tests)
        except OutdatedError:
            sleep(_MOMENT_S)
        else:
            return path
    keep(path, tests)
    return path
