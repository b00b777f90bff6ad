"""What lines come to on a shelf: counts add up, names stand once, a question is kept, and no line is dropped."""

from dataclasses import replace

import pytest

from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.job.list.parts import part_text
from fasten.job.shelf.check import troubles
from fasten.job.shelf.lines.add import added, added_text, answer, has_kit, kit_reads, kits, questions
from fasten.job.shelf.lines.words import Asked
from fasten.job.shelf.view import ShelfView
from fasten.job.store.shelf_toml import read_shelf, shelf_text
from fasten.job.words import Shelf
from fasten.model.line import Part

EMPTY = Shelf("", "", "", (), (), (), ())
FLANGE = Part("screw", "M5", "ISO 15071", "8.8", 16.0)


def with_lines(text: str, shelf: Shelf = EMPTY) -> Shelf:
    return added_text(shelf, text, builtin())[0]


def test_counts_of_one_part_add_up_and_names_stand_once() -> None:
    shelf = with_lines("M5x16 flange 50\n5mm drill bit\nM5 x 16 flange bolts 25\n5 mm bit")
    assert [(entry.part, entry.count) for entry in shelf.parts] == [(FLANGE, 75)]
    assert shelf.bits == ("5 mm",)


def test_what_was_assumed_stands_beside_the_part() -> None:
    assert with_lines("M5x16 flange 50").parts[0].note.startswith("assumed: class 8.8")
    assert not with_lines("M8x20 ISO 4017 8.8 50").parts[0].note


def test_a_line_that_leaves_a_question_is_kept_and_not_counted() -> None:
    shelf = with_lines("M6 nuts 50\nM6 lock nuts 30")
    assert shelf.asked == ("M6 nuts 50",)
    assert ShelfView(shelf, builtin()).part(Part("prevailing-torque nut", "M6", "ISO 7040", "steel", None)).count == 30
    assert [trouble.line for trouble in troubles(shelf, builtin()) if trouble.lacks] == ["M6 nuts 50"]


def test_it_is_answered_by_the_number_of_what_is_near() -> None:
    shelf, _ = answer(with_lines("M6 nuts 50\nM5x16 40"), 2, "1", builtin())
    assert (shelf.asked, [(entry.part, entry.count) for entry in shelf.parts]) == (("M6 nuts 50",), [(FLANGE, 40)])


def test_it_is_answered_by_a_whole_line() -> None:
    shelf, _ = answer(with_lines("M5x16 40"), 1, "M5x16 button stainless 40", builtin())
    assert not shelf.asked
    assert (shelf.parts[0].part.name, shelf.parts[0].part.grade) == ("ISO 7380-1", "A2-70")


def test_where_no_count_is_known_the_number_says_it() -> None:
    shelf = with_lines("M5 flange screws, a handful")
    with pytest.raises(FastenError):
        answer(shelf, 1, "1", builtin())
    assert answer(shelf, 1, "1 x 20", builtin())[0].parts[0].count == 20


@pytest.mark.parametrize("at", [0, 2])
def test_there_is_no_answer_to_a_question_that_there_is_not(at: int) -> None:
    with pytest.raises(FastenError):
        answer(with_lines("M5x16 40"), at, "1", builtin())


def test_an_answer_that_leaves_a_question_is_kept_in_its_place() -> None:
    shelf, read = answer(with_lines("M5x16 40"), 1, "M5x16 pan 40", builtin())
    assert isinstance(read, Asked)
    assert shelf.asked == ("M5x16 pan 40",)


def test_questions_are_kept_in_the_file() -> None:
    shelf = with_lines("M6 nuts 50\nsome [M8] things\n5 mm bit")
    assert read_shelf(shelf_text(shelf).encode(), "shelf")[0] == shelf
    assert read_shelf(shelf_text(shelf).encode(), "shelf", own=True)[0] == shelf
    assert "asked" not in shelf_text(replace(shelf, asked=()))


@pytest.mark.parametrize("kit", kits(builtin()), ids=lambda kit: kit.name)
def test_a_kit_is_names_that_a_list_knows(kit: "object") -> None:
    name = kit.name  # type: ignore[attr-defined]
    shelf = added(EMPTY, kit_reads(name, builtin()))
    assert not questions(shelf, builtin())
    assert not [trouble for trouble in troubles(shelf, builtin()) if not trouble.taken]
    assert has_kit(shelf, name, builtin())
    assert not has_kit(EMPTY, name, builtin())


def test_amounts_of_a_consumable_add_up_and_reels_stand_by_themselves() -> None:
    shelf = with_lines("masking tape 10m\nmasking tape 5 m\n8 AWG red cable 105C 10 m\n8 AWG red cable 105C 4 m")
    assert shelf.consumables[0] == "masking tape: 15 m"
    assert len(shelf.consumables) == 3
    assert not troubles(shelf, builtin())


def test_an_aught_size_is_one_of_cable_without_its_measure() -> None:
    shelf = with_lines("1/0 cable red 5 m\n5 m of 4/0 power cable, black\n10 x 1/0 lug M8")
    assert shelf.consumables == ("cable, 1/0 AWG, red: 5 m", "cable, 4/0 AWG, black: 5 m")
    assert [part_text(entry.part) for entry in shelf.parts] == ["lug 1/0 AWG M8, copper tube"]


def test_a_question_of_cable_is_answered_among_the_consumables() -> None:
    shelf, _ = answer(with_lines("8 AWG cable 5 m"), 1, "2", builtin())
    assert (shelf.bits, shelf.consumables) == ((), ("cable, 8 AWG, black",))


def test_a_tool_with_its_range_is_the_tool() -> None:
    view = ShelfView(with_lines("torque driver 0.5-5nm"), builtin())
    assert view.has_tool(frozenset({"torque screwdriver"}))
