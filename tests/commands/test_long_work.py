"""Long work on the command line: it shows how far it is where somebody sits before a terminal, and can be stopped."""

import io
import itertools
import shutil
import signal
import sys
from pathlib import Path

import pytest
from built.few import sample

from fasten.__main__ import main
from fasten.commands import _progress
from fasten.commands._progress import progress
from fasten.commands.demo import demo_folder
from fasten.progress import Stopped


class FakeTerminal(io.StringIO):
    """Takes what is written to it for a terminal."""

    def isatty(self) -> bool:
        return True


@pytest.fixture
def clock(monkeypatch: pytest.MonkeyPatch) -> list[float]:
    """A clock that goes on a second each time it is read."""
    now = [0.0]

    def read() -> float:
        now[0] += 1
        return now[0]

    monkeypatch.setattr("time.monotonic", read)
    monkeypatch.setattr(_progress, "monotonic", read)
    return now


@pytest.fixture
def bench(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    shutil.copytree(demo_folder(), tmp_path / "example")
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("FASTEN_TABLES", str(tmp_path / "none"))
    return tmp_path


def seen(text: str) -> list[str]:
    """What stood on the line, one after the other; the blanks that took it away among it."""
    return [part.rstrip() for part in text.split("\r")[1:]]


@pytest.mark.usefixtures("clock")
def test_on_a_terminal_a_line_says_how_far_the_work_is_and_goes_again(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "stderr", terminal := FakeTerminal())
    with progress("counting") as step:
        for done in (0, 1, 2):
            step(done, 2)
    assert seen(terminal.getvalue()) == [
        *(f"fasten: counting, {share} %; Ctrl-C stops it" for share in (0, 50, 100)), "", ""
    ]  # fmt: skip
    assert terminal.getvalue().endswith("\r")


def stopped() -> None:
    with progress("counting") as step:
        step(1, 3)
        raise Stopped


@pytest.mark.usefixtures("clock")
def test_the_line_goes_whatever_ends_the_work(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "stderr", terminal := FakeTerminal())
    with pytest.raises(Stopped):
        stopped()
    assert seen(terminal.getvalue())[0].startswith("fasten: counting, 33 %")
    assert seen(terminal.getvalue())[1:] == ["", ""]


class StoppedTwice(FakeTerminal):
    """The work is stopped as the line is written, and once more as it is taken away."""

    def flush(self) -> None:
        signal.raise_signal(signal.SIGINT)


@pytest.mark.usefixtures("clock")
def test_who_stops_the_work_twice_leaves_no_line(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(sys, "stderr", terminal := StoppedTwice())
    with pytest.raises(KeyboardInterrupt), progress("counting") as step:
        step(0, 2)
    assert seen(terminal.getvalue()) == ["fasten: counting, 0 %; Ctrl-C stops it", "", ""]


def test_quick_work_shows_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(_progress, "monotonic", lambda: 7.0)
    monkeypatch.setattr(sys, "stderr", terminal := FakeTerminal())
    with progress("counting") as step:
        step(0, 2)
    assert terminal.getvalue() == ""


@pytest.mark.slow
@pytest.mark.usefixtures("clock")
@pytest.mark.parametrize("command", sample(["work", "hardware", "fewest", "ready"], 2))
def test_every_command_over_a_whole_job_says_how_far_it_is(
    command: str, bench: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    main([command, "example/job.toml"])
    plain = capsys.readouterr()
    assert plain.err == "", "nothing where nobody looks"
    monkeypatch.setattr(sys, "stderr", terminal := FakeTerminal())
    main([command, "example/job.toml"])
    assert capsys.readouterr().out == plain.out
    shown = seen(terminal.getvalue())
    assert [line for line in shown if line.startswith("fasten: finding answers, 50 %")]
    assert shown[-1] == ""
    assert all(line == "" or line.endswith(" %; Ctrl-C stops it") for line in shown)


# -- the time that somebody waits -------------------------------------------------------------------------------------


def fewest(seconds: str, capsys: pytest.CaptureFixture[str]) -> tuple[int, str, str]:
    code = main(["fewest", "example/job.toml", "--seconds", seconds])
    said = capsys.readouterr()
    return code, said.out, said.err


@pytest.mark.slow
@pytest.mark.usefixtures("clock", "bench")
def test_seconds_limit_the_whole_command(capsys: pytest.CaptureFixture[str]) -> None:
    """Twelve mount points: their answers take a reading of the clock each, then what else would do there."""
    code, out, said = fewest("8", capsys)
    assert (code, out) == (2, "")
    assert said == (
        "fasten: seconds: the time was over before every mount point had its answer; "
        "give it more, or leave --seconds out\n"
    )
    code, out, said = fewest("14", capsys)
    assert (code, said) == (0, "")
    assert "Best found, not proven smallest: the search was stopped." in out
    assert " different sizes before, " in out
    assert "WHAT CHANGES" not in out, "nothing else was proved by then"
    code, out, said = fewest("3600", capsys)
    assert "Proven: nothing that holds costs less" in out
    assert "WHAT CHANGES" in out


@pytest.mark.slow
@pytest.mark.usefixtures("bench")
def test_without_seconds_no_clock_decides(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    """A machine so slow that a year goes by at each look at the clock proves the same."""
    assert main(["fewest", "example/job.toml"]) == 0
    usual = capsys.readouterr().out
    years = itertools.count(0, 365 * 86_400)
    monkeypatch.setattr("time.monotonic", lambda: float(next(years)))
    assert main(["fewest", "example/job.toml"]) == 0
    assert capsys.readouterr().out == usual
    assert "Proven: nothing that holds costs less" in usual
