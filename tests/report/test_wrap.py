"""Wrapping: what fits on a line is not broken, by a way of its own, and comes out as the long way has it."""

from textwrap import wrap

from built.few import few
from hypothesis import example, given, settings
from hypothesis import strategies as st

from fasten.report.safe import safe
from fasten.report.wrap import wrapped

LETTERS = st.text(alphabet="ab -\u00a0\t\n\r\x0b\x1b.,", max_size=24) | st.sampled_from(["5 mm", "at 3.5 N·m now", ""])
BEGINNINGS = st.sampled_from(["", "- ", " 1. ", "    ", "cell  \t"])


@settings(max_examples=few(500, 150))
@given(LETTERS, BEGINNINGS, st.integers(8, 40))
@example("  a ", "- ", 20)
@example(" ", "- ", 20)
@example("a\u00a0b", "", 20)
def test_a_line_that_fits_is_the_one_that_wrapping_makes(text: str, first: str, width: int) -> None:
    lines = wrap(safe(text), width, initial_indent=first, subsequent_indent="  ", break_on_hyphens=False)
    found = wrapped(text, width, first=first, rest="  ")
    if len(lines) == 1:
        assert found == (lines[0].replace("\u00a0", " ").rstrip(),)


def test_a_number_keeps_its_unit() -> None:
    assert wrapped("a hole of 5 mm", 11) == ("a hole of", "5 mm")
    assert wrapped("a hole of 5 mm", 14) == ("a hole of 5 mm",)
