"""What a row of the box says: how its thing stands in one word at the right, and beneath only what that leaves open."""

from fasten.job.words import Job, Mount, Shelf, ShelfPart
from fasten.model.line import Part
from fasten.tui.box.box import box_of

from .pilot import TABLES


def test_a_row_does_not_say_twice_how_its_thing_stands() -> None:
    shelf = Shelf("", "", "", (ShelfPart(Part("washer", "M5", "ISO 7089", "", None), 9),), ("3 mm",), ("vacuum",), ())
    mount = Mount("amp", (("item", "amplifier"), ("onto", "steel 0.8 mm"), ("removed", "yearly")))
    rows = [line.row for line in box_of(Job("", "", "", (mount,)), shelf, TABLES).lines if line.row is not None]
    assert {row.state.word.partition(" ")[0] for row in rows} >= {"buy", "here", "not"}
    for row in rows:
        assert row.state.word not in row.beneath
        again = ("not known to be here", "not on the shelf", "on the shelf")
        assert not any(text.startswith(again) for text in row.beneath)
