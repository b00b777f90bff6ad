"""The command line as a whole process: exit codes, what goes to stdout and to stderr, and what is imported."""

import json
import os
import subprocess
import sys
import textwrap
from itertools import product
from pathlib import Path

import pytest

from fasten import cli
from fasten.__main__ import main
from fasten.commands import _parser

NO_FOLDER = str(Path(__file__).with_name("no-such-folder"))
ROOT = Path(__file__).parents[2]
DEMO = ROOT / "fasten" / "demo" / "job.toml"
HEAVY = {"pydantic", "pint", "textual", "rich"}


def fasten(*words: str, cwd: Path | None = None, **env: str) -> subprocess.CompletedProcess[str]:
    """Run the program as a user does, without tables of their own unless a test names some."""
    whole = {**os.environ, "FASTEN_TABLES": NO_FOLDER, "PYTHONPATH": str(ROOT), **env}
    return subprocess.run(
        [sys.executable, "-m", "fasten", *words], capture_output=True, text=True, check=False, env=whole, cwd=cwd
    )


def imported(*words: str) -> set[str]:
    """Top-level modules that a command line imports."""
    return {name.partition(".")[0] for name in loaded(*words)}


def loaded(*words: str) -> set[str]:
    """All modules that a command line imports; a verdict that something is missing is no fault."""
    code = (
        "import sys; from fasten.__main__ import main; assert main(sys.argv[1:]) in (0, 1); "
        "print(*sorted(sys.modules), file=sys.stderr)"
    )
    env = {**os.environ, "FASTEN_TABLES": NO_FOLDER, "FASTEN_DATA": NO_FOLDER, "PYTHONPATH": str(ROOT)}
    run = subprocess.run([sys.executable, "-c", code, *words], capture_output=True, text=True, check=True, env=env)
    return set(run.stderr.split())


def test_look_from_any_folder(tmp_path: Path) -> None:
    run = fasten("look", "M6", cwd=tmp_path)
    assert (run.returncode, run.stderr) == (0, "")
    assert run.stdout.startswith("M6: pitch 1 mm, tap drill 5 mm")


def test_several_words_and_json() -> None:
    run = fasten("look", "22", "ga", "--json")
    assert run.returncode == 0
    assert json.loads(run.stdout)["query"] == "22 ga"


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("look", "xyzzy"), "xyzzy is not a size"),
        (("look",), 'quotes round "#8"'),
        (("look", "M6", "--jsn"), "--jsn (--json?) is not understood; see fasten look --help"),
        (("pick-a-fight",), "'pick-a-fight' is not a command; write a name such as start, "),
        (("hardwre", "job.toml"), "did you mean hardware?"),
        ((), "the screen needs a terminal"),
        (("look", "M6\x1b[2J"), "\\x1b[2J"),
    ],
)
def test_misuse_is_one_sentence_on_stderr_and_2(words: tuple[str, ...], told: str) -> None:
    run = fasten(*words)
    assert (run.returncode, run.stdout) == (2, "")
    assert run.stderr.count("\n") == 1
    assert told in run.stderr
    assert "\x1b" not in run.stderr


def test_bytes_that_are_no_text_are_misuse() -> None:
    """A shell hands over any bytes; they are shown as an escape."""
    command = [sys.executable.encode(), b"-m", b"fasten", b"look", b"\xff"]
    run = subprocess.run(command, capture_output=True, check=False, cwd=ROOT)
    assert run.returncode == 2
    assert b"udcff" in run.stderr


def test_a_terminal_of_plain_ascii_still_gets_its_answer() -> None:
    run = fasten("look", "M6", PYTHONIOENCODING="ascii")
    assert (run.returncode, run.stderr) == (0, "")
    assert "20.1 mm\\xb2" in run.stdout


def test_help_and_version() -> None:
    run = fasten("--help")
    assert (run.returncode, run.stderr) == (0, "")
    assert "look" in run.stdout
    assert "tables" in run.stdout
    assert "exit codes" in run.stdout
    assert fasten("--version").stdout == "fasten 0.1.0\n"
    assert "quotes round" in fasten("look", "--help").stdout.replace("\n", " ")


@pytest.mark.parametrize("words", [("--help",), ("--version",), ("look", "--help")])
def test_help_imports_next_to_nothing(words: tuple[str, ...]) -> None:
    assert not imported(*words) & (HEAVY | {"dataclasses", "tomllib"})


def test_help_of_the_program_and_the_look_up_of_a_thread_load_less_still() -> None:
    assert not imported("--help") & {"textwrap", "locale"}
    assert not imported("look", "M6") & {"dataclasses", "inspect", "pathlib", "tomllib"}


def test_a_verdict_loads_nothing_of_what_its_job_has_not() -> None:
    """No repair, nothing that was built, no holes that were measured: what reads and proves these is a tenth of it."""
    found = loaded("ready", str(DEMO))
    assert "fasten.job.choices" in found, "the list of modules was read"
    idle = ("fasten.after.routes", "fasten.after.judge", "fasten.job.after.taken", "fasten.geometry.survey.")
    assert not {name for name in found if name.startswith(idle)}


def test_an_answer_and_a_verdict_load_nothing_slow_that_they_do_without() -> None:
    """What makes the fields of records; and an answer, which reads no file of the user, what reads and digests one."""
    fields = HEAVY | {"dataclasses", "inspect"}
    answer, verdict = ("pick", "amplifier", "--onto", "steel 1 mm", "--removed", "yearly"), ("ready", str(DEMO))
    for words, slow in ((answer, fields | {"tomllib", "tomli_w", "hashlib"}), (verdict, fields)):
        found = imported(*words)
        assert "fasten" in found, "the list of modules was read"
        assert not found & slow


def test_nothing_looks_for_garbage_as_the_program_ends() -> None:
    """It would take a tenth of `--help`, and an eighth of a verdict."""
    code = (
        "import atexit, gc, sys; from fasten.__main__ import main; "
        "atexit.register(lambda: print(gc.get_freeze_count() > 0, file=sys.stderr)); sys.exit(main(['--version']))"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=ROOT)
    assert run.stderr == "True\n"


def test_help_is_filled_as_textwrap_fills_it() -> None:
    texts = (*cli.COMMANDS.values(), _parser.CODES, "", "two spaces", "well-known words and a-b", "a" * 30)
    for text, width in product(texts, range(1, 100)):
        assert _parser._filled(text, width) in ([], textwrap.wrap(text, width))


@pytest.mark.parametrize("words", [("look", "M6"), ("look", "#8", "--json"), ("look", "0.8 mm"), ("tables",)])
def test_look_imports_neither_pydantic_nor_pint(words: tuple[str, ...]) -> None:
    found = imported(*words)
    assert "json" in found, "the list of modules was read"
    assert not found & HEAVY


@pytest.mark.slow
def test_tables_lists_and_checks() -> None:
    run = fasten("tables", "--check", "--json")
    assert (run.returncode, run.stderr) == (0, "")
    whole = json.loads(run.stdout)
    assert (whole["format"], whole["checked"], whole["problems"]) == (1, True, [])
    metric = next(table for table in whole["tables"] if table["name"] == "metric-threads")
    assert set(metric) == {"name", "title", "standard", "limits", "rows", "bases"}
    assert metric["bases"] == ["standard"]
    listed = fasten("tables")
    assert listed.returncode == 0
    assert max(map(len, listed.stdout.splitlines())) <= 44
    assert all(table["name"] in listed.stdout for table in whole["tables"])


OWN = """format = 1
table = "drills-metric"
title = "My bits"
standard = "none"
limits = "an invented bit, for this test"
[[source]]
id = "mine"
basis = "user's own"
text = "measured"
[data]
columns = ["diameter", "from"]
units = ["mm", ""]
rows = [[5.17, "mine"]]
"""


@pytest.mark.slow
def test_own_tables_are_laid_over(tmp_path: Path) -> None:
    """A bit of the user's own is found, and marked as such."""
    (tmp_path / "bits.toml").write_text(OWN, encoding="utf-8")
    run = fasten("look", "5.17 mm", FASTEN_TABLES=str(tmp_path))
    assert (run.returncode, run.stderr) == (0, "")
    assert run.stdout.startswith("5.17 mm bit, 0.2035 in")
    assert "[u] user's own" in run.stdout


@pytest.mark.slow
def test_broken_own_table_is_told_and_the_rest_answers(tmp_path: Path) -> None:
    (tmp_path / "bits.toml").write_text(OWN.replace("5.17", '"wide"'), encoding="utf-8")
    run = fasten("look", "M6", FASTEN_TABLES=str(tmp_path))
    assert run.returncode == 0
    assert run.stdout.startswith("M6: pitch 1 mm, tap drill 5 mm")
    assert run.stderr.count("\n") == 1
    assert "bits.toml" in run.stderr
    assert "left out" in run.stderr
    checked = fasten("tables", "--check", FASTEN_TABLES=str(tmp_path))
    assert checked.returncode == 2
    assert "bits.toml" in checked.stderr
    assert "metric-threads" in checked.stdout


@pytest.mark.slow
def test_reader_that_leaves_is_no_fault() -> None:
    """`fasten look M6 | head -1`."""
    command = [sys.executable, "-m", "fasten", "tables", "--json"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, cwd=ROOT) as process:
        assert process.stdout is not None
        assert process.stderr is not None
        process.stdout.close()
        assert process.stderr.read() == b""
        assert process.wait() == 0


def raises(error: BaseException, monkeypatch: pytest.MonkeyPatch) -> None:
    def run(argv: list[str]) -> int:
        raise error

    monkeypatch.setattr("fasten.cli.run", run)


def test_our_fault_is_3_without_a_traceback(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.delenv("FASTEN_DEBUG", raising=False)
    raises(RuntimeError("a\nb\x1b"), monkeypatch)
    assert main([]) == 3
    told = capsys.readouterr()
    assert told.out == ""
    assert told.err.count("\n") == 1
    assert "RuntimeError: a b\\x1b" in told.err
    assert "Traceback" not in told.err


def test_debugging_shows_the_traceback(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("FASTEN_DEBUG", "1")
    raises(RuntimeError("here"), monkeypatch)
    with pytest.raises(RuntimeError, match="here"):
        main([])


def test_interrupt_ends_quietly(monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]) -> None:
    raises(KeyboardInterrupt(), monkeypatch)
    assert main([]) == 130
    assert capsys.readouterr().err == "fasten: stopped\n"


def test_interrupt_while_the_report_is_sent_off_is_the_same(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    """As where its reader stands still and somebody does not wait any longer."""

    def finish(*_: object) -> int:
        raise KeyboardInterrupt

    monkeypatch.setattr("fasten.__main__.finish", finish)
    assert main(["--version"]) == 130
    assert capsys.readouterr().err == "fasten: stopped\n"
