"""Where the user's jobs and shelf are kept where nothing else is said."""

import os
import sys
from pathlib import Path

DATA_FOLDER, TESTS = "FASTEN_DATA", "tests.toml"


def data_folder() -> Path:
    """The folder of the user's own files, whether or not it is there yet; FASTEN_DATA names another.

    Raises:
        FastenError: neither it nor a home folder is known.
    """
    if named := os.environ.get(DATA_FOLDER):
        return Path(named)
    folder = _usual(sys.platform, "XDG_DATA_HOME", "~/.local/share")
    if folder is None:
        from platformdirs import user_data_path

        try:
            folder = user_data_path("fasten")
        except RuntimeError:  # some of its versions say so, and some give a folder called ~
            folder = Path("~")
    if not folder.is_absolute():
        from fasten.errors import FastenError

        what = "no home folder is known in which to keep your jobs"
        raise FastenError(what, where=DATA_FOLDER, fix=f"set HOME, or {DATA_FOLDER} to a folder")
    return folder


def state_folder() -> Path | None:
    """Where the program keeps what is its own; None where no folder for that is known, and nothing is kept."""
    if named := os.environ.get(DATA_FOLDER):
        return Path(named)
    folder = _usual(sys.platform, "XDG_STATE_HOME", "~/.local/state")
    if folder is None:
        from platformdirs import user_state_path

        try:
            folder = user_state_path("fasten")
        except RuntimeError:
            return None
    return folder if folder.is_absolute() else None


def _usual(platform: str, variable: str, usual: str) -> Path | None:
    """The folder on Linux, the same as elsewhere without an import that costs a tenth of a look-up; None elsewhere."""
    if platform != "linux":
        return None
    return Path(os.environ.get(variable, "").strip() or os.path.expanduser(usual), "fasten")


def written_folder() -> Path | None:
    """Where it keeps which files it wrote last."""
    folder = state_folder()
    return None if folder is None else folder / "written"


def jobs_folder() -> Path:
    """Where jobs started on the screen are kept."""
    return data_folder() / "jobs"


def shelf_path() -> Path:
    """The shelf that is used where no other is named."""
    return data_folder() / "shelf.toml"


def tests_path() -> Path | None:
    """Where the user's own test pieces are kept, whether or not there are any; None where nobody is at home."""
    if named := os.environ.get(DATA_FOLDER):
        return Path(named, TESTS)
    from fasten.errors import FastenError

    try:
        return data_folder() / TESTS
    except FastenError:
        return None
