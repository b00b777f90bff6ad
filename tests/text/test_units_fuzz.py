"""Sizes under random text: nothing but a FastenError, and what is written reads back."""

import pytest
from built.few import few
from hypothesis import example, given, settings
from hypothesis import strategies as st

from fasten.errors import FastenError
from fasten.text.units import (
    UNITS,
    Dimension,
    Gauge,
    Quantity,
    Unit,
    fraction_text,
    in_to_mm,
    read,
    read_any,
    write,
    write_inches,
)

pytestmark = pytest.mark.slow

# Pieces of the grammar, and of what must not be taken for it, so that random text comes close to being a size.
PIECES = st.sampled_from(
    [
        *"0123456789./,-+*·°²\"' ",
        "1/2",
        "½",
        " ga",
        "gauge",
        "steel",
        "e9",
        "nan",
        "inf",
        "**",
        "(",
        "__import__",
        "\x00",
    ]
    + [spelling for unit in UNITS for spelling in unit.spellings.split()]
    + ["yd", "lambda", "None", "dBm", "degR", "delta_degC", "µ", "٣", "\ud800", "\u202e", "\u00a0"]
)
NEARLY_SIZES = st.lists(PIECES, max_size=12).map("".join)
WORDS_AFTER_A_NUMBER = st.text("abcdefgiklmnoprstuyµ", min_size=1, max_size=26).map("5 {}".format)


def outcome(text: str, dimension: Dimension | None) -> float | Quantity | Gauge | FastenError:
    try:
        return read_any(text) if dimension is None else read(text, dimension, "field")
    except FastenError as error:
        return error


def check_reading(text: str) -> None:
    for dimension in (None, *Dimension):
        found = outcome(text, dimension)
        if isinstance(found, FastenError):
            assert str(found).isprintable()
            assert len(str(found)) < 320


@settings(deadline=None, max_examples=few(200, 100))
@given(st.text())
@example("0" * 64)
@example("1/" + "9" * 60)
@example("9" * 60 + " ft")
@example("0." + "0" * 50 + "1 mm")
@example("a" * 60 + " 1 ga")
@example("5 " + "- " * 30)
def test_any_text_is_read_or_refused(text: str) -> None:
    check_reading(text)


@settings(deadline=None, max_examples=few(200, 100))
@given(NEARLY_SIZES)
def test_text_close_to_a_size_is_read_or_refused(text: str) -> None:
    check_reading(text)


@settings(deadline=None, max_examples=few(200, 100))
@given(WORDS_AFTER_A_NUMBER)
def test_any_word_for_a_unit_is_read_or_refused(text: str) -> None:
    check_reading(text)


@given(st.sampled_from(Dimension), st.floats(0.0, 1.0))
def test_what_is_written_reads_back(dimension: Dimension, share: float) -> None:
    value = dimension.least + share * (dimension.most - dimension.least)
    again = read(write(value, dimension, digits=15), dimension, "size")
    assert again == pytest.approx(value, rel=1e-9, abs=1e-14 if dimension.signed else 0.0)


@given(st.sampled_from(Dimension), st.floats(0.0, 1.0))
def test_what_is_written_in_four_decimals_is_within_half_of_the_last(dimension: Dimension, share: float) -> None:
    value = dimension.least + share * (dimension.most - dimension.least)
    text = write(value, dimension).removesuffix(f" {dimension.unit}")
    assert float(text) == pytest.approx(value, rel=1e-15, abs=0.50001e-4)
    assert not ("." in text and text.endswith("0"))


SCALES = [unit for unit in UNITS if unit.offset == "0"]
PAIRS = [(a, b) for a in SCALES for b in SCALES if a.dimension is b.dimension and a is not b]


def factor_of(unit: Unit) -> float:
    over, _, under = unit.factor.partition("/")
    return float(over) / float(under or 1)


@given(st.sampled_from(PAIRS), st.floats(0.001, 0.999))
def test_the_same_quantity_in_two_units_reads_equal(pair: tuple[Unit, Unit], share: float) -> None:
    one, other = pair
    canonical = share * one.dimension.most
    texts = [f"{canonical / factor_of(unit):.25f} {unit.name}" for unit in (one, other)]
    first, second = (read(text, one.dimension, "size") for text in texts)
    assert first == pytest.approx(second, rel=1e-12)
    assert first == pytest.approx(canonical, rel=1e-12)


@given(st.integers(1, 20_000 * 4 // 26))
def test_a_fraction_its_decimal_and_its_millimetres_are_the_same_float(quarter: int) -> None:
    decimal = read(f"{quarter / 4} in", Dimension.LENGTH, "size")
    assert read(f"{quarter}/4 in", Dimension.LENGTH, "size") == decimal
    assert read(f"{quarter * 635 // 100}.{quarter * 635 % 100:02d} mm", Dimension.LENGTH, "size") == decimal


@given(st.sampled_from("½¼¾⅛⅜⅝⅞"), st.integers(0, 999), st.sampled_from(["", " "]))
def test_a_digit_behind_a_fraction_character_never_joins_it(mark: str, digits: int, space: str) -> None:
    for text in (f"{mark}{space}{digits} mm", f"1{mark}{space}{digits} mm", f"{mark}{space}{digits}"):
        with pytest.raises(FastenError, match="is not a number and one unit"):
            read(text, Dimension.LENGTH, "size")


@pytest.mark.parametrize("text", ["1½ in", "1 ½ in", "1-½ in", "1½-inch", '1½"', "1½″", "1½"])
def test_a_whole_number_and_a_fraction_character_are_a_mixed_number(text: str) -> None:
    assert read(text, Dimension.LENGTH, "size") == 38.1  # 1.5 x 25.4


@given(st.integers(1, 64 * 700))
def test_every_64th_of_an_inch_reads_back_from_its_fraction(count: int) -> None:
    text = fraction_text(in_to_mm(count / 64))
    assert text is not None
    assert read(text, Dimension.LENGTH, "size") == pytest.approx(count / 64 * 25.4, rel=1e-15)


@pytest.mark.parametrize(
    ("mm", "text"),
    [
        (3.571875, "9/64 in"),
        (6.35, "1/4 in"),
        (25.4, "1 in"),
        (38.1, "1 1/2 in"),
        (3.572, None),  # 9/64 in rounded to a micrometre is not 9/64 in
        (5.1, None),
        (0.0, None),
        (-6.35, None),
        (float("nan"), None),
        (float("inf"), None),
    ],
)
def test_only_an_exact_number_of_64ths_is_written_as_a_fraction(mm: float, text: str | None) -> None:
    assert fraction_text(mm) == text


@given(st.floats(0.0127, 20_000.0))
def test_inches_as_written_are_within_half_a_ten_thousandth(mm: float) -> None:
    assert in_to_mm(float(write_inches(mm).removesuffix(" in"))) == pytest.approx(mm, abs=25.4 * 0.50001e-4)
