"""The screen stands before what advises is loaded: a start waits for nothing that no key has asked for."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

pytestmark = pytest.mark.slow

START = """
import asyncio, sys
from fasten import tui
from fasten.cli import run
from fasten.tui.app import FastenApp

def stand(app):
    async def up():
        async with app.run_test(size=(80, 24)):
            print(*sorted(sys.modules))
    asyncio.run(up())

FastenApp.run = stand
tui.not_a_terminal = lambda job: None
run([])
"""


def test_the_first_screen_loads_nothing_that_proves_or_sizes(tmp_path: Path) -> None:
    """Every start but the very first, which answers what is fitted as one types."""
    own = {**os.environ, "FASTEN_DATA": str(tmp_path)}
    done = subprocess.run([sys.executable, "-c", START], capture_output=True, text=True, check=True, env=own)
    loaded = set(done.stdout.split())
    assert "fasten.tui.app" in loaded, done.stderr
    assert not loaded & {"argparse", "hashlib"}, "these take a megabyte, and nothing is read or saved yet"
    core = ("fasten.advice", "fasten.proof", "fasten.methods", "fasten.wiring", "fasten.after", "fasten.mechanics",
            "fasten.text.units", "fasten.job.store.files")  # fmt: skip
    assert not [name for name in loaded if name.startswith(core)]
