"""What is typed, made of pieces that come close to being read: read alike by a second reading, or refused in one line.

The cases are few here; `tests/benchmarks/fuzz.py` runs the same checks over hundreds of thousands. Text without any
shape is in `tests/text/test_units_fuzz.py`.
"""

import pytest
from built.few import few
from hypothesis import given, settings
from hypothesis import strategies as st

from fasten.question.fields import NAMES
from fasten.text.units import UNITS, Dimension, Unit, read

from .oracle import agrees, values
from .targets import (
    ASKED,
    FIELD_WORDS,
    LOOK_WORDS,
    LOOKED,
    NASTY,
    SIZE_WORDS,
    SIZES,
    TYPED,
    check_look,
    check_question,
    check_size,
    check_typed,
    lines_of,
)

pytestmark = pytest.mark.slow

quick = settings(deadline=None, database=None)


def pieces(words: tuple[str, ...], most: int) -> st.SearchStrategy[str]:
    return st.lists(st.sampled_from((*words, *NASTY[:4])), max_size=most).map("".join)


NUMBERS = st.sampled_from(["{0}", "{0}.{1}", "{0},{1}", "{0}/{1}", "{0} {1}/{2}", "-{0}", ".{0}", "{0}½", "{0},{1}00"])
SPELLINGS = st.sampled_from([spelling for unit in UNITS for spelling in unit.spellings.split()])


@st.composite
def nearly_sizes(draw: st.DrawFn) -> str:
    """A number and a unit, each as people write them, joined in many ways."""
    number = draw(NUMBERS).format(*draw(st.tuples(*[st.integers(0, 130)] * 3)))
    spelling = draw(SPELLINGS)
    written = spelling.replace("·", draw(st.sampled_from("· .-*")))
    unit = draw(st.sampled_from([written, written.upper(), ""]))
    joint, end = draw(st.sampled_from(["", " ", "-", "\u202f"])), draw(st.sampled_from(["", ".", "s", " ga"]))
    return f"{number}{joint}{unit}{end}"


@settings(quick, max_examples=few(200, 60))
@given(nearly_sizes() | pieces(SIZE_WORDS, 6))
def test_a_size_is_worth_what_a_second_reading_makes_of_it(text: str) -> None:
    check_size(text.encode("utf-8", "surrogateescape"))


@pytest.mark.parametrize("unit", UNITS, ids=lambda unit: str(unit.name))
def test_the_second_reading_knows_every_unit_as_one_dimension(unit: Unit) -> None:
    """Else the test above would hold nothing to anything."""
    for spelling in unit.spellings.split():
        size = f"{200 if unit.dimension is Dimension.TEMPERATURE else 12.5} {spelling}"
        found = read(size, unit.dimension, "size")
        assert agrees(size, unit.dimension, found)
        assert not agrees(size, unit.dimension, found * 1.001)
        # Of torques alone there are others: nm is a nanometre too, and mkgf a thousandth of a kgf.
        others = [other for other in Dimension if unit.dimension not in (other, Dimension.TORQUE)]
        assert not any(values(size, other) for other in others)


@settings(quick, max_examples=few(200, 40))
@given(pieces(LOOK_WORDS, 7) | st.tuples(st.sampled_from(LOOKED), pieces(LOOK_WORDS, 3)).map("".join))
def test_whatever_is_looked_up_is_found_or_refused(text: str) -> None:
    check_look(text.encode())


FIELD_TEXTS = pieces(FIELD_WORDS, 4) | st.sampled_from(SIZES)


@settings(quick, max_examples=few(200, 40))
@given(st.sampled_from(ASKED), st.dictionaries(st.sampled_from(NAMES), FIELD_TEXTS, max_size=3))
def test_whatever_is_asked_is_answered_or_refused(good: dict[str, str], other: dict[str, str]) -> None:
    check_question(lines_of(good | other))


@pytest.mark.parametrize("said", ASKED, ids=lambda said: str(said["item"]))
def test_a_good_question_is_answered(said: dict[str, str]) -> None:
    """Else the test above would try nothing but refusals."""
    assert check_question(lines_of(said))


PIECES = ("9", "1/", "a ", "M6 ", "½", "ß", "at ", "stud ")
# Two of them for each field, other ones in turn; by hand all.
WITHOUT_END = [
    (field, PIECES[(at + more) % len(PIECES)]) for at, field in enumerate(NAMES) for more in range(few(len(PIECES), 2))
]


@pytest.mark.parametrize(("field", "piece"), WITHOUT_END)
def test_a_field_without_end_is_refused_in_one_short_line(field: str, piece: str) -> None:
    """Whatever is not read in a message is cut in it: once a cable's text came back whole."""
    assert not check_question(lines_of(ASKED[0] | {field: piece * 100_000}))


@settings(quick, max_examples=few(200, 60))
@given(st.binary(max_size=40) | st.lists(st.sampled_from(TYPED), max_size=8).map(b"".join))
def test_after_any_bytes_that_a_terminal_sends_its_keys_are_heard(data: bytes) -> None:
    check_typed(data)
