"""A command line run in this process, in a folder of its own."""

from collections.abc import Callable
from pathlib import Path

import pytest

from fasten.__main__ import main

Run = Callable[..., tuple[int, str, str]]


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Run:
    """Run a command line there: exit code, stdout, stderr."""
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("FASTEN_TABLES", str(tmp_path / "none"))
    monkeypatch.setenv("FASTEN_DATA", str(tmp_path / "data"))
    monkeypatch.setenv("COLUMNS", "80")

    def command(*words: str) -> tuple[int, str, str]:
        code = main(list(words))
        said = capsys.readouterr()
        return code, said.out, said.err

    return command
