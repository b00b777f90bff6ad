"""What the README shows is what the program says: its examples line by line, and every command and option it names."""

import re
import shlex
import shutil
from pathlib import Path

import pytest

from fasten.__main__ import main
from fasten.cli import COMMANDS
from fasten.commands.demo import demo_folder

pytestmark = pytest.mark.slow

README = (Path(__file__).parents[1] / "README.md").read_text(encoding="utf-8")
EXAMPLES = re.findall(r"^```text\n\$ fasten (.*?)\n(.*?)^```$", README, re.MULTILINE | re.DOTALL)
PROSE = re.sub(r"^```.*?^```$", "", README, flags=re.MULTILINE | re.DOTALL)
LEFT_OUT = "…"


@pytest.fixture
def bench(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A folder with the example job and shelf in it, a terminal of 80 columns, and no tables or shelf of one's own."""
    shutil.copytree(demo_folder(), tmp_path / "example")
    monkeypatch.chdir(tmp_path)
    monkeypatch.setenv("COLUMNS", "80")
    monkeypatch.setenv("FASTEN_DATA", str(tmp_path / "data"))
    monkeypatch.setenv("FASTEN_TABLES", str(tmp_path / "none"))
    return tmp_path


@pytest.mark.usefixtures("bench")
@pytest.mark.parametrize(("words", "shown"), EXAMPLES, ids=[words for words, _ in EXAMPLES])
def test_every_example_says_what_the_readme_shows(words: str, shown: str, capsys: pytest.CaptureFixture[str]) -> None:
    code = main(shlex.split(words))
    said = capsys.readouterr()
    assert (code in {0, 1}, said.err) == (True, "")
    pieces = [piece.strip("\n") for piece in re.split(rf"^ *{LEFT_OUT}$", shown, flags=re.MULTILINE)]
    at = 0
    for piece in pieces:
        found = said.out.find(piece, at)
        assert found >= 0, f"not said any more, or not in this order:\n{piece}\n\nsaid now:\n{said.out}"
        at = found + len(piece)


def test_the_readme_has_an_example_of_each_moment() -> None:
    """At the bench, before the car, at the car, and the help."""
    assert {words.split()[0] for words, _ in EXAMPLES} >= {
        "pick",
        "wire",
        "look",
        "ready",
        "hardware",
        "work",
        "instead",
        "--help",
    }


@pytest.mark.usefixtures("bench")
def test_every_command_and_option_of_the_readme_is_there(capsys: pytest.CaptureFixture[str]) -> None:
    named = re.findall(r"(?:\$ |`|bin/)fasten ([a-z]+)([^`\n]*)", README)
    assert named
    for command, rest in named:
        assert command in COMMANDS, command
        main([command, "--help"])
        told = capsys.readouterr().out
        assert not [word for word in re.findall(r"--[a-z-]+", rest) if word not in told], (command, rest)


def test_the_readme_says_every_caution_there_is_no_answer_without() -> None:
    """Airbags, belts, structure, what lies behind, eye protection, the vehicle maker: what no reader may miss."""
    caution = PROSE.partition("## Caution")[2].partition("\n## ")[0].casefold()
    for word in (
        "airbag",
        "seat-belt",
        "pillar",
        "fuel",
        "brake",
        "high-voltage",
        "test piece",
        "vehicle maker",
        "licensed",
    ):
        assert word in caution, word
