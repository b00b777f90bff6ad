"""Where the commands stand while faults are tried on them, and who runs them."""

from collections.abc import Iterator
from pathlib import Path

import pytest

from fasten.__main__ import main

from .commands import ROOT, WRITING, Told, filled
from .had import as_nobody, own_folder


@pytest.fixture(autouse=True)
def alone(monkeypatch: pytest.MonkeyPatch) -> None:
    """Without tables of whoever runs the test, and as a person sees it."""
    monkeypatch.setenv("FASTEN_TABLES", str(ROOT / "no-such-folder"))
    monkeypatch.delenv("FASTEN_DEBUG", raising=False)


@pytest.fixture
def car(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(filled(tmp_path))
    return tmp_path


@pytest.fixture(scope="session")
def imported(tmp_path_factory: pytest.TempPathFactory) -> None:
    """Whatever the commands import is loaded: not everybody may read it."""
    folder = filled(tmp_path_factory.mktemp("imported"))
    with pytest.MonkeyPatch.context() as here:
        here.chdir(folder)
        here.setenv("FASTEN_TABLES", str(ROOT / "no-such-folder"))
        for words in (*WRITING.values(), ("ready", "job.toml", "--shelf", "shelf.toml")):
            assert main(list(words)) in {0, 1}


@pytest.fixture
def owned(imported: None, monkeypatch: pytest.MonkeyPatch) -> Iterator[Path]:
    """The same of a user who is not root, as whom the test goes on."""
    with own_folder() as folder, monkeypatch.context() as here, as_nobody():
        here.chdir(filled(folder))
        yield folder


@pytest.fixture
def told(capsys: pytest.CaptureFixture[str]) -> Told:
    """Runs a command line that is refused; the one sentence it says."""

    def run(words: tuple[str, ...]) -> str:
        capsys.readouterr()
        code = main(list(words))
        said = capsys.readouterr()
        assert (code, said.out) == (2, ""), said
        assert said.err.startswith("fasten: ")
        assert said.err.count("\n") == 1
        assert said.err.rstrip("\n").isprintable()
        assert "; " in said.err, "it says what to do"
        return said.err

    return run
