"""One of few words may be written by its first word, where that is the first of no other."""

import pytest

from .asking import ask, refusal


@pytest.mark.parametrize(("text", "reach"), [("both", "both-sides"), ("One", "one-side"), ("both sides", "both-sides")])
def test_the_first_words_of_one_answer_are_that_answer(text: str, reach: str) -> None:
    assert ask(reach=text) == ask(reach=reach)


def test_the_first_letters_of_a_word_are_no_answer() -> None:
    assert "write one-side or both-sides" in str(refusal(reach="bot"))
