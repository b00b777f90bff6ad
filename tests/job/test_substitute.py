"""A missing screw length: each other one proved in the mount point's own stack, by hand arithmetic of its layers."""

from dataclasses import replace

import pytest

from fasten.catalog.tables import builtin
from fasten.job.choices import Choice, choice
from fasten.job.pins import pin_of
from fasten.job.shelf.substitute import Candidate, Substitute, instead, missing_screw, on_shelf, others_on_shelf
from fasten.job.words import Mount, Pin, Shelf, ShelfPart
from fasten.model import Answer, Refusal
from fasten.model.line import Part

from .sample_jobs import mount

TABLES = builtin()
# An amplifier of 10 mm feet on a plate of 6 mm, tapped M6: the head brings its flange, so M6x20 ends 4 mm past it.
PLATE = {
    "item": "amplifier", "onto": "aluminium 6 mm", "removed": "yearly", "item-thickness": "10 mm",
    "item-hole": "6.6 mm", "edge": "30 mm", "behind": "20 mm",
}  # fmt: skip
# A bracket of 10 mm on MDF in an insert of 15 mm, sunk 1 mm: M6x20 reaches 9 mm into it.
BOARD = {
    "item": "equipment board", "onto": "mdf 25 mm", "removed": "monthly", "item-thickness": "10 mm",
    "item-hole": "6.6 mm", "item-material": "steel", "edge": "40 mm", "mass": "4 kg",
}  # fmt: skip
RIVET = Pin("blind_rivet", "", "", None, None)
M6X20 = Part("screw", "M6", "ISO 15071", "8.8", 20.0)


def asked(said: dict[str, str], **more: str) -> Choice:
    return choice(Mount("here", tuple((said | more).items())), TABLES)


def of_length(found: Choice, length_mm: float) -> Substitute:
    [entry] = instead(found, (Candidate(length_mm),), TABLES)
    return entry


def shelf(*counts: tuple[Part, int]) -> Shelf:
    return Shelf("Van", "", "", tuple(ShelfPart(part, count) for part, count in counts), (), (), ())


# -- M6x20 is missing, M6x25 is there ---------------------------------------------------------------------------------


def test_both_stacks_ask_for_an_m6x20() -> None:
    for said, method in ((PLATE, "tapped_hole"), (BOARD, "screw_in_insert")):
        found = asked(said)
        assert found.answer is not None
        assert found.answer.method == method
        assert missing_screw(found, TABLES) == M6X20


def test_through_a_tapped_plate_it_stands_out_so_much_more() -> None:
    """25 - 10 - 6 = 9 mm past the plate; the whole plate is engaged either way."""
    entry = of_length(asked(PLATE), 25.0)
    assert entry.does
    assert not entry.bottoms_out
    assert entry.part == replace(M6X20, length_mm=25.0)
    assert entry.protrusion_mm == pytest.approx(25 - 10 - 6)
    assert entry.behind_needed_mm == pytest.approx(9.0)
    assert entry.engagement_mm == pytest.approx(6)
    assert isinstance(entry.verdict, Answer)
    assert entry.verdict.proposal.proven


def test_where_that_is_more_than_the_space_behind_it_does_not_do() -> None:
    """9 mm do with 9 mm behind and not with 8.9; the M6x20 does with its own 4 mm."""
    assert of_length(asked(PLATE, behind="9 mm"), 25.0).does
    entry = of_length(asked(PLATE, behind="8.9 mm"), 25.0)
    assert isinstance(entry.verdict, Refusal)
    assert entry.verdict.check == "space-behind"
    assert [figure.value for figure in entry.verdict.figures[:2]] == pytest.approx([9.0, 8.9])
    assert not entry.bottoms_out
    assert entry.protrusion_mm == pytest.approx(9.0)
    assert of_length(asked(PLATE, behind="4 mm"), 20.0).does


def test_without_a_word_of_the_space_behind_it_does_but_is_not_proven() -> None:
    said = {key: text for key, text in PLATE.items() if key != "behind"}
    entry = of_length(asked(said), 25.0)
    assert isinstance(entry.verdict, Answer)
    assert not entry.verdict.proposal.proven
    assert any("9.0 mm behind" in (check.needs or "") for check in entry.verdict.proposal.checks)


def test_in_an_insert_it_does_as_long_as_it_ends_inside() -> None:
    """25 - 10 - 1 = 14 mm of the 15 mm; nothing comes out of the board, so nothing is needed behind."""
    entry = of_length(asked(BOARD), 25.0)
    assert entry.does
    assert entry.engagement_mm == pytest.approx(14)
    assert entry.protrusion_mm == pytest.approx(-1)
    assert entry.behind_needed_mm == 0


def test_in_an_insert_the_next_bottoms_out() -> None:
    """30 - 10 - 1 = 19 mm, 4 mm more than the insert is long."""
    entry = of_length(asked(BOARD), 30.0)
    assert not entry.does
    assert entry.bottoms_out
    assert entry.protrusion_mm == pytest.approx(4)
    assert isinstance(entry.verdict, Refusal)
    assert "bottoms out" in entry.verdict.because
    assert [figure.value for figure in entry.verdict.figures] == pytest.approx([4, 0])


def test_what_is_too_short_says_by_how_much() -> None:
    """12 - 10 = 2 mm of the 6 mm plate: its end is 4 mm short of the far face, and a pitch past is wanted."""
    entry = of_length(asked(PLATE), 12.0)
    assert isinstance(entry.verdict, Refusal)
    assert entry.protrusion_mm == pytest.approx(-4.0)
    assert entry.engagement_mm == pytest.approx(2.0)
    assert [figure.value for figure in entry.verdict.figures] == pytest.approx([-4.0, 1.0])
    assert not entry.bottoms_out


# -- which is offered first -------------------------------------------------------------------------------------------


def test_what_does_and_is_there_in_number_comes_first_then_the_nearest() -> None:
    candidates = (Candidate(16, 50), Candidate(30, 50), Candidate(25, 3), Candidate(35, 4), Candidate(20, 0))
    found = instead(asked(PLATE), candidates, TABLES)
    assert [(entry.part.length_mm, entry.does, entry.enough) for entry in found] == [
        (30, True, True), (35, True, True), (20, True, False), (25, True, False), (16, False, True),
    ]  # fmt: skip


def test_the_pin_of_a_substitute_holds_it() -> None:
    entry = of_length(asked(PLATE), 25.0)
    assert isinstance(entry.verdict, Answer)
    held = choice(Mount("here", tuple(PLATE.items()), pin=pin_of(entry.verdict)), TABLES)
    assert held.answer is not None
    assert held.answer.proposal == entry.verdict.proposal


# -- what is on the shelf ---------------------------------------------------------------------------------------------


def test_a_shelf_offers_the_same_screw_in_its_other_lengths() -> None:
    """Spelling makes no other screw; what is not there in any number is not there."""
    there = shelf(
        (Part("Screw", "m6", "iso15071", "8.8", 25.0), 6), (replace(M6X20, length_mm=30.0), 0),
        (replace(M6X20, length_mm=12.0), 9), (Part("washer", "M6", "ISO 7089", "", None), 9),
        (Part("screw", "M5", "ISO 15071", "8.8", 25.0), 9),
    )  # fmt: skip
    assert on_shelf(asked(PLATE), there, TABLES) == (Candidate(12.0, 9), Candidate(25.0, 6))
    assert others_on_shelf(asked(PLATE), there, TABLES) == ()


def test_another_head_or_class_is_told_and_not_tried() -> None:
    """Its head bears and is turned in another way, so that it makes another joint."""
    other = Part("screw", "M6", "ISO 7380-1", "10.9", 25.0)
    there = shelf((other, 20), (replace(M6X20, grade="10.9", length_mm=25.0), 20))
    assert on_shelf(asked(PLATE), there, TABLES) == ()
    assert set(others_on_shelf(asked(PLATE), there, TABLES)) == {other, replace(M6X20, grade="10.9", length_mm=25.0)}


@pytest.mark.parametrize(
    "found",
    [
        choice(Mount("box", (("item", "enclosure"), ("onto", "abs 2 mm"), ("removed", "weekly"))), TABLES),
        choice(Mount("what", (("item", "amplifier"),)), TABLES),
        choice(replace(mount("fuse", removed="never", item_hole="4.9mm"), pin=RIVET), TABLES),
    ],
)
def test_where_there_is_no_such_screw_nothing_is_tried(found: Choice) -> None:
    """Nothing fits, the question is not finished, or the length is a rivet's own."""
    assert found.answer is None or found.answer.method == "blind_rivet"
    assert missing_screw(found, TABLES) is None
    assert instead(found, (Candidate(25.0),), TABLES) == ()
    assert on_shelf(found, shelf((M6X20, 9)), TABLES) == ()
