"""Any text in any field of a question is read, or refused in one sentence."""

import pytest
from built.few import few
from hypothesis import example, given, settings
from hypothesis import strategies as st

from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.question.fields import NAMES
from fasten.question.read import read_question
from fasten.question.resolve import resolve

from .asking import ask, check_message

pytestmark = pytest.mark.slow

WORDS = ("steel ", " stainless ", "mdf ", " floor", " seat-back", "foam ", "rectangle ", "circle ", "row ", "240x180")
SIZES = (*"0123456789./,-x×\" '", " 0.8 mm", " 20 ga", " in", " mm", " kg", "8.8", "M3", "nan", "1e9", "½", "٣")
TRAPS = ("[M8]", "[/", "[b", "\x00", "\x1b[31m", "\n", "\u202e", "\ud800", "|", "_", "İ", "ß")
PIECES = st.sampled_from((*WORDS, *SIZES, *TRAPS, "amplifier", "yearly", "one-side"))
TEXTS = st.one_of(st.text(max_size=60), st.lists(PIECES, max_size=10).map("".join))


@settings(max_examples=few(200, 60), deadline=None)
@given(st.sampled_from(NAMES), TEXTS)
@example("onto", "steel 1 mm 2 mm")
@example("pattern", "row ½x")
def test_any_text_in_any_field_is_read_or_refused_in_a_sentence(name: str, text: str) -> None:
    try:
        resolve(ask(**{name: text}), builtin())
    except FastenError as error:
        check_message(error)


@settings(max_examples=few(200), deadline=None)
@given(st.dictionaries(st.sampled_from(NAMES), TEXTS))
def test_any_texts_together_are_read_or_refused(said: dict[str, str]) -> None:
    try:
        read_question(said, builtin())
    except FastenError as error:
        check_message(error)
