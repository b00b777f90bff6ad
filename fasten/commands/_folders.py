"""Where the user's jobs and shelf are kept where nothing else is said."""

import os
from pathlib import Path

DATA_FOLDER = "FASTEN_DATA"


def data_folder() -> Path:
    """The folder of the user's own files, whether or not it is there yet; FASTEN_DATA names another."""
    if named := os.environ.get(DATA_FOLDER):
        return Path(named)
    from platformdirs import user_data_path

    return user_data_path("fasten")


def jobs_folder() -> Path:
    """Where jobs started on the screen are kept."""
    return data_folder() / "jobs"


def shelf_path() -> Path:
    """The shelf that is used where no other is named."""
    return data_folder() / "shelf.toml"
