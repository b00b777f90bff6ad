"""A question asked field by field, and how its refusals have to sound."""

import pytest

from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.model import Question
from fasten.question.fields import NAMES
from fasten.question.read import read_question

LEAST = {"item": "amplifier", "onto": "steel 0.8 mm", "removed": "yearly"}


def ask(**said: str) -> Question:
    """The least question with these fields said; `_` in a name stands for `-`."""
    return read_question({**LEAST, **{name.replace("_", "-"): text for name, text in said.items()}}, builtin())


def refusal(**said: str) -> FastenError:
    with pytest.raises(FastenError) as caught:
        ask(**said)
    return caught.value


def check_message(error: FastenError) -> None:
    text = str(error)
    assert len(text) < 300
    assert text.isprintable()
    assert error.where in (*NAMES, "field")
