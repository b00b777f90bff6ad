"""Command lines put together at random of what is good and what comes near it: answered, or refused in one sentence.

Each ends in 0, 1 or 2, never in 3, which is a fault of the program.
"""

import argparse
import contextlib
import io
import json
from collections.abc import Iterator
from functools import cache
from importlib import import_module

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from fasten.__main__ import main
from fasten.cli import COMMANDS

WORDS = {
    "pick": ("amplifier",), "wire": ("5 A",), "look": ("M6",), "tables": (), "demo": (), "fewest": ("nowhere.toml",),
    **dict.fromkeys(("hardware", "ready", "work", "runs", "gauge", "undo", "start"), ("nowhere.toml",)),
    **dict.fromkeys(("template", "instead", "built", "copy", "pair", "remove"), ("nowhere.toml", "amp")),
    "set": ("nowhere.toml", "amp", "behind=40mm"), "rename": ("nowhere.toml", "amp", "box"),
    "move": ("nowhere.toml", "amp", "1"), "keep": ("nowhere.toml", "amp", "1"), "pack": ("nowhere.toml", "bit:3"),
    "repair": ("nowhere.toml", "amp", "spun"), "shelf": ("nowhere.toml", "add", "M5 nuts"),
}  # fmt: skip
VALUES = ("--", "-", "", " ", "=", "--x", "-1", "6kg", "yes", "\x1b[2J", "\udcff", "½", "nowhere.toml", "9" * 50)
LOOSE = ("--", "-", "-h", "--x", "--x=--", "--version", "job.toml", "M6", "#8", "", *COMMANDS)


@cache
def options(command: str) -> tuple[str, ...]:
    """Every option of a command, with its dashes."""
    parser = argparse.ArgumentParser(add_help=False)
    import_module(f"fasten.commands.{command}").arguments(parser)
    return tuple(word for action in parser._actions for word in action.option_strings)


def ended(words: list[str]) -> tuple[int, str]:
    """How a command line ends, and what it says on stderr."""
    with contextlib.redirect_stdout(io.StringIO()), contextlib.redirect_stderr(io.StringIO()) as said:
        code = main(words)
    return code, said.getvalue()


@pytest.fixture(autouse=True, scope="module")
def alone(tmp_path_factory: pytest.TempPathFactory) -> Iterator[None]:
    """In an empty folder, without tables of whoever runs the test."""
    with pytest.MonkeyPatch.context() as here:
        here.chdir(tmp_path_factory.mktemp("empty"))
        here.setenv("FASTEN_TABLES", "no-such-folder")
        here.setenv("FASTEN_DATA", "no-such-data")
        here.delenv("FASTEN_DEBUG", raising=False)
        yield


@pytest.mark.parametrize("command", COMMANDS)
def test_two_dashes_are_the_value_of_no_option(command: str) -> None:
    """Some Pythons hand over a list for them, some leave the option out and some take them for text."""
    assert command in WORDS
    for option in (*options(command), "--x", "-h"):
        for words in ((f"{option}=--", *WORDS[command]), (*WORDS[command], f"{option}=--")):
            code, said = ended([command, *words])
            assert (code, said.count("\n")) == (2, 1), (words, said)
            assert said.startswith(f"fasten: {option}: '--' is no value"), (words, said)


def test_after_the_end_of_the_options_they_are_text() -> None:
    code, said = ended(["look", "--", "--x=--"])
    assert code == 2
    assert said.startswith("fasten: --x=-- is not a size in the tables")


@st.composite
def command_lines(draw: st.DrawFn) -> list[str]:
    """A command with its words, and options of its own with any value, in any order."""
    command = draw(st.sampled_from(sorted(COMMANDS)))
    option = st.sampled_from(options(command))
    value = st.sampled_from(VALUES)
    given_ = st.one_of(
        st.builds("{}={}".format, option, value).map(lambda word: [word]),
        st.tuples(option, value).map(list), st.sampled_from(LOOSE).map(lambda word: [word]),
    )  # fmt: skip
    rest = draw(st.lists(given_, max_size=4))
    words = [[word] for word in WORDS[command] if draw(st.integers(0, 9))]
    return [command, *(word for words in draw(st.permutations([*words, *rest])) for word in words)]


LINES = command_lines() | st.lists(st.sampled_from(LOOSE), max_size=4)


def is_refusal(said: str) -> bool:
    """Whether each line is a sentence, one for each thing that is wrong, or all is JSON where that was asked for."""
    lines = said.splitlines()
    return bool(lines) and (all(line.startswith("fasten: ") for line in lines) or "error" in json.loads(said))


def check(words: list[str]) -> None:
    """The command line is answered, or refused in one sentence; `tests/benchmarks/command_lines.py` tries thousands."""
    code, said = ended(words)
    assert code in {0, 1, 2}, (words, said)
    assert code != 2 or is_refusal(said), (words, said)
    assert all(line.isprintable() for line in said.splitlines()), (words, said)


@pytest.mark.slow
@settings(deadline=None, database=None, max_examples=40)
@given(LINES)
def test_no_command_line_is_a_fault_of_the_program(words: list[str]) -> None:
    check(words)
