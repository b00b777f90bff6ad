"""The work of every method in every kind that it comes in, as a file to be read: texts, and which of them when.

Figures are left out of the texts, so that a strength or a size that changes rewrites nothing here. What is committed is
what was read; FASTEN_REWRITE=1 writes the file anew.
"""

import os
import re
from collections import Counter
from collections.abc import Iterable, Iterator
from pathlib import Path

import pytest

from fasten.advice.advise import METHODS
from fasten.model import Answer

from .asked import answered

FILE = Path(__file__).with_name("work.md")
LEAST = 10  # answers of each method
PARTS = ("steps", "tools", "consumables", "cautions")
HEAD = """# The work of every method

Of each method every text that an answer to one of the questions has, figures left out, and below them each kind of work
that it came in: which steps, tools and consumables in which order, and the first question that is so answered, with its
cautions by their numbers at the end.

"""
_FIGURE = re.compile(r"#?[0-9]+(?:[./][0-9]+)*|(?<=\bbit )[A-Z]\b")

Numbers = dict[str, int]


def texts_of(answer: Answer) -> tuple[list[str], ...]:
    """Steps, tools, consumables and cautions of an answer, figures left out."""
    told = (answer.steps, answer.tools, answer.consumables, answer.cautions)
    return tuple([_FIGURE.sub("#", str(one.text)) for one in part] for part in told)


def of_method(method: str) -> Iterator[tuple[str, Answer]]:
    for words, _, answers in answered():
        yield from ((words, answer) for answer in answers if answer.method == method)


def section(method: str, cautions: Numbers) -> str:
    """The texts of a method under numbers, and each kind of work as a row of them."""
    numbers: list[Numbers] = [*({} for _ in PARTS[:-1]), cautions]
    kinds: dict[tuple[str, ...], tuple[str, str]] = {}
    for words, answer in of_method(method):
        *work, warned = (
            _run([known.setdefault(text, len(known) + 1) for text in texts])
            for known, texts in zip(numbers, texts_of(answer), strict=True)
        )
        kinds.setdefault(tuple(work), (warned, words))
    lists = [f"{part}\n\n" + _numbered(known) for part, known in zip(PARTS[:-1], numbers, strict=False)]
    head = "| " + " | ".join((*PARTS, "asked")) + " |\n" + "|---" * (len(PARTS) + 1) + "|\n"
    rows = "\n".join(f"| {' | '.join((*work, *first))} |" for work, first in kinds.items())
    return "\n\n".join([f"## {method}", *lists, head + rows])


def _numbered(texts: Iterable[str]) -> str:
    return "\n".join(f"{number}. {text}" for number, text in enumerate(texts, 1))


def _run(numbers: list[int]) -> str:
    """Numbers that follow one another as first to last."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and runs[-1][-1] + 1 == number:
            runs[-1].append(number)
        else:
            runs.append([number])
    return " ".join(str(run[0]) if len(run) == 1 else f"{run[0]}-{run[-1]}" for run in runs)


def whole() -> str:
    cautions: Numbers = {}
    sections = [section(method.NAME, cautions) for method in METHODS]
    return HEAD + "\n\n".join([*sections, f"## cautions\n\n{_numbered(cautions)}"]) + "\n"


@pytest.mark.slow
def test_the_work_of_every_method_is_that_which_was_read() -> None:
    found = whole()
    if os.environ.get("FASTEN_REWRITE"):
        FILE.write_text(found, encoding="utf-8")
    assert found == FILE.read_text(encoding="utf-8")


@pytest.mark.slow
@pytest.mark.parametrize("method", [method.NAME for method in METHODS])
def test_every_method_is_asked_for_often_enough(method: str) -> None:
    counts = Counter(answer.method for _, _, answers in answered() for answer in answers)
    assert counts[method] >= LEAST, f"add questions that end in {method} to tests/advice/asked.py"
