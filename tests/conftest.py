"""What every test needs: nothing of what they start many times over is compiled or looked through each time."""

import gc
import os
import sys

import pytest


def pytest_configure() -> None:
    """Keep what is compiled, for the many processes that are started, where the machine is set not to."""
    sys.dont_write_bytecode = False
    os.environ.pop("PYTHONDONTWRITEBYTECODE", None)


def pytest_collection_finish(session: pytest.Session) -> None:
    """Leave out of every later search for garbage what has been imported by now and stays."""
    del session
    gc.collect()
    gc.freeze()
