"""Sessions at random on every page: no change lands in another job's file, and "saved" is true; few of them here."""

from pathlib import Path

import pytest
from built.few import few

from fasten.job.words import Job
from fasten.tui.state.job_files import _File

from .sessions import run_session

pytestmark = pytest.mark.slow

SESSIONS, STEPS = few(20, 4), 10  # `tests/benchmarks/sessions.py` runs as many as one likes


@pytest.mark.parametrize("seed", range(SESSIONS))
def test_whatever_is_done_on_whatever_page_is_done_to_the_job_in_hand(seed: int, tmp_path: Path) -> None:
    run_session(seed, STEPS, tmp_path)


def test_a_session_finds_what_is_written_into_another_job(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    whole = _File.save

    def writes_beside(self: _File, job: Job) -> None:
        whole(self, job)
        for path in {*tmp_path.glob("*.toml")} - {self.path}:
            path.write_text(f"{path.read_text()}\n")

    monkeypatch.setattr(_File, "save", writes_beside)
    with pytest.raises(AssertionError, match="written"):
        run_session(21, STEPS, tmp_path)
