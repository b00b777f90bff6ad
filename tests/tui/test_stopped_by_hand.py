"""Ctrl-C while a command of the installed program is at work on a terminal: one sentence, and nothing half done."""

import sys
from pathlib import Path

import pytest
from built.few import sample

from fasten.job.store.storage import save_job
from fasten.job.words import Job, Mount

from .terminal import Terminal

ROOT = Path(__file__).parents[2]
MANY = tuple(  # more than are answered before a count is shown, and no two of them alike
    Mount(f"amp {number}", (
        ("item", "amplifier"), ("onto", f"steel {1 + number % 400 / 100:.2f} mm"), ("removed", "yearly"),
        ("mass", f"{2 + number // 400 / 10} kg"),
    ))
    for number in range(4000)
)  # fmt: skip

STOPPED = [("fewest", "job.toml", "--keep"), ("work", "job.toml", "--out", "sheet.txt")]


@pytest.mark.slow
@pytest.mark.parametrize("words", sample(STOPPED, 1))
def test_it_ends_in_one_sentence_and_leaves_everything_as_it_was(words: tuple[str, ...], tmp_path: Path) -> None:
    save_job(Job("Estate", "", "", MANY), tmp_path / "job.toml")
    before = (tmp_path / "job.toml").read_bytes()
    with Terminal(tmp_path, words, (sys.executable, "-m", "fasten"), PYTHONPATH=str(ROOT)) as terminal:
        terminal.shows("finding answers", " %; Ctrl-C stops it")
        terminal.keys("\x03\x03\x03")
        assert terminal.ended() == 130
        assert terminal.text.split() == ["fasten:", "stopped"]
    files = (path for path in tmp_path.iterdir() if path.is_file())
    assert {path.name: path.read_bytes() for path in files} == {"job.toml": before}
