"""Where the fixings sit, as a person writes it, and how many of them can."""

import pytest

from fasten.catalog.tables import builtin
from fasten.model import Pattern
from fasten.question.read_parts import read_pattern

from .asking import ask, refusal


@pytest.mark.parametrize(
    ("text", "pattern"),
    [
        ("rectangle 240x180", Pattern("rectangle", 240.0, 180.0)),
        ("Rectangle 240 x 180 mm", Pattern("rectangle", 240.0, 180.0)),
        ("rectangle 240 mm × 180 mm", Pattern("rectangle", 240.0, 180.0)),
        ("rectangle 24 cm X 180 mm", Pattern("rectangle", 240.0, 180.0)),
        ("rectangle 9.5x7 in", Pattern("rectangle", 241.3, 177.8)),
        ("rectangle 9.5 in x 7", Pattern("rectangle", 241.3, 177.8)),
        ("rectangle 9 1/2 x 7 in", Pattern("rectangle", 241.3, 177.8)),
        ("circle 165 mm", Pattern("circle", 165.0, None)),
        ("circle 165", Pattern("circle", 165.0, None)),
        ('circle 6.5"', Pattern("circle", 165.1, None)),
        ("circle 6 1/2", Pattern("circle", 165.1, None)),  # a bare fraction is inches, here as everywhere
        ("row 100 mm", Pattern("row", 100.0, None)),
        ("row 100,5", Pattern("row", 100.5, None)),
        ("240x180", Pattern("rectangle", 240.0, 180.0)),
        ("9.5 x 7 in", Pattern("rectangle", 241.3, 177.8)),
        ("row 12 mm", Pattern("row", 12.0, None)),
    ],
)
def test_pattern_is_read(text: str, pattern: Pattern) -> None:
    assert read_pattern(text, builtin(), "pattern") == pattern


@pytest.mark.parametrize(
    ("text", "part"),
    [
        ("rectangle 240", "a rectangle has two sides"),
        ("rectangle 240x180x3", "a rectangle has two sides"),
        ("circle", "a circle has one size"),
        ("row 1x2", "a row has one size"),
        ("rectangl 240x180", "did you mean rectangle?"),
        ("hexagon 80", "write rectangle 240x180, circle 165 mm, row 100 mm, points 0,0 240,0 238,181 or tape 1-2"),
        ("rectangle 0x180", "zero"),
        ("rectangle x180", "mm"),
        ("circle 6 kg", "wanted a length"),
        ("circle [M8]", "[M8]"),
        ("9.5x7", "9.5 in would be 241.3 mm"),
        ("rectangle 9.5x7", "write rectangle 9.5x7 in or rectangle 9.5x7 mm"),
        ("row 4", "4 in would be 101.6 mm"),
    ],
)
def test_pattern_is_refused(text: str, part: str) -> None:
    error = refusal(pattern=text)
    assert error.where == "pattern"
    assert part in str(error)


@pytest.mark.parametrize(
    ("pattern", "fixings"),
    [
        ("rectangle 240x180", "4"),
        ("rectangle 240x180", "6"),
        ("circle 165", "2"),
        ("circle 165", "5"),
        ("row 100", "2"),
    ],
)
def test_count_that_fits_its_pattern(pattern: str, fixings: str) -> None:
    assert ask(pattern=pattern, fixings=fixings).fixings == int(fixings)


@pytest.mark.parametrize(
    ("pattern", "fixings", "part"),
    [
        ("rectangle 240x180", "2", "an even count of fixings from 4, not 2"),
        ("rectangle 240x180", "5", "an even count of fixings from 4, not 5"),
        ("rectangle 240x180", "1", "one fixing takes no pattern"),
        ("circle 165", "1", "one fixing takes no pattern"),
        ("row 100", "1", "one fixing takes no pattern"),
    ],
)
def test_count_that_does_not_fit_its_pattern(pattern: str, fixings: str, part: str) -> None:
    error = refusal(pattern=pattern, fixings=fixings)
    assert error.where == "pattern"
    assert part in str(error)
