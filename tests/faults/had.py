"""Faults of files to be had for real: a disk that takes no more, and a user who is not root."""

import os
import resource
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

NOBODY = 65534


@contextmanager
def small_files(most_bytes: int = 64) -> Iterator[None]:
    """No file may grow beyond a few bytes meanwhile: what a disk does that takes no more, wherever one is."""
    soft, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (most_bytes, hard))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, (soft, hard))


@contextmanager
def small_disk(folder: Path, size: str = "12k") -> Iterator[None]:
    """A disk of a few pages, where the system lets us have one."""
    if sys.platform != "linux" or os.geteuid() != 0:
        pytest.skip("only root mounts a disk")
    mounted = subprocess.run(["mount", "-t", "tmpfs", "-o", f"size={size}", "none", str(folder)], check=False)
    if mounted.returncode:
        pytest.skip("no disk may be mounted here")
    try:
        yield
    finally:
        subprocess.run(["umount", str(folder)], check=True)


@contextmanager
def own_folder() -> Iterator[Path]:
    """A folder of a user who is not root: root may write anywhere. `as_nobody` goes on as that user."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        if os.geteuid() == 0:
            os.chown(folder, NOBODY, NOBODY)
        try:
            yield folder
        finally:
            folder.chmod(0o700)


@contextmanager
def as_nobody() -> Iterator[None]:
    """Go on as the user of `own_folder`; whatever is imported on the way must have been before."""
    if os.geteuid() != 0:
        yield
        return
    os.seteuid(NOBODY)
    try:
        yield
    finally:
        os.seteuid(0)


def files(folder: Path) -> dict[str, bytes]:
    """Every file under a folder and what it holds."""
    return {str(path.relative_to(folder)): path.read_bytes() for path in sorted(folder.rglob("*")) if path.is_file()}
