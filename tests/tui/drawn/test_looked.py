"""What was looked up stands as rows, with what each rests on, and the size that the first is of stands large."""

from dataclasses import replace

import pytest

from fasten.catalog.tables import Tables, shipped_folder
from fasten.look import look
from fasten.tui.drawn.looked import MOST, looked_lines, sizes_of
from fasten.tui.drawn.runs import columns, plain

TABLES = Tables(shipped_folder())


@pytest.mark.parametrize(
    ("typed", "sizes"),
    [
        ("M6", [("tap drill", "5"), ("clearance", "6.6")]),  # ISO 2306 and the medium fit of ISO 273
        ("#10-32", [("tap drill", "4.039"), ("clearance", "5.613")]),  # number drills 21 and 2, ASME B94.11M
        ("5.1 mm", [("bit", "5.1")]),
        ("20 ga", [("sheet", "0.912")]),  # 0.0359 in of steel
        ("close clearance for M6", []),
        ("M5 rivet nut", []),
    ],
)
def test_the_sizes_of_what_is_summed_up_are_large(typed: str, sizes: list[tuple[str, str]]) -> None:
    assert [(found.label, found.value) for found in sizes_of(look(typed, TABLES))] == sizes


@pytest.mark.parametrize("typed", ["M6", "#10-32", "5.1 mm", "20 ga", "M5 rivet nut", "clearance for M6"])
def test_a_large_size_is_one_that_the_first_answer_says(typed: str) -> None:
    found = look(typed, TABLES)
    assert all(f"{large.value} mm" in found.answers[0].text for large in sizes_of(found))


@pytest.mark.parametrize("width", [116, 78, 42, 30])
@pytest.mark.parametrize("typed", ["M6", "#10-32", "5.1 mm", "20 ga", "M5 rivet nut", "clearance for M6"])
def test_every_answer_is_a_row_and_is_wholly_there_at_any_width(typed: str, width: int) -> None:
    found = look(typed, TABLES)
    lines = looked_lines(found, width)
    assert all(columns(line) <= min(width, MOST) for line in lines)
    shown = {word for line in lines for word in plain(line).split()}
    assert {word for answer in found.answers for word in answer.text.split()} <= shown


def test_a_row_says_the_weakest_of_what_it_rests_on() -> None:
    rows = [plain(line) for line in looked_lines(look("5.1 mm", TABLES), MOST)]
    assert any(row.startswith("  1 ") and row.endswith("from memory") for row in rows), rows
    assert any(
        "6.6 mm" in row and row.endswith("standard")
        for row in map(plain, looked_lines(look("clearance for M6", TABLES), MOST))
    )


def test_what_meant_nothing_is_named_and_is_no_row() -> None:
    lines = [plain(line) for line in looked_lines(look("M6 [b] clearance", TABLES), MOST)]
    assert lines[-1].startswith("note: ")
    assert "[b]" in lines[-1]


def test_more_answers_than_there_are_lines_stand_in_two_columns() -> None:
    found = look("M6", TABLES)
    many = replace(found, answers=(*found.answers[:1], *(replace(found.answers[0], text="short") for _ in range(40))))
    single = looked_lines(many, 118)
    assert looked_lines(many, 118, len(single)) == single
    double = looked_lines(many, 118, len(single) - 1)
    assert len(double) < 0.8 * len(single)
    assert all(columns(line) <= 118 for line in double)
    words = sorted(word for line in single for word in plain(line).split())
    assert sorted(word for line in double for word in plain(line).split()) == words
