"""A thread that was given and is not used is set aside aloud, on the second line, with the preset that decided it."""

import pytest

from fasten.advice.advise import advise
from fasten.catalog.tables import builtin
from fasten.model import Advice
from fasten.question.read import read_question
from fasten.question.resolve import resolve
from fasten.report.answer.as_json import advice_json
from fasten.report.answer.as_text import advice_text

AMP = {"item": "amplifier", "onto": "steel 1.5 mm", "removed": "yearly", "behind": "40mm", "edge": "30mm"}


def asked(**said: str) -> Advice:
    fields = AMP | {name.replace("_", "-"): text for name, text in said.items()}
    return advise(resolve(read_question(fields, builtin()), builtin()), builtin())


@pytest.mark.parametrize("width", [80, 44])
@pytest.mark.parametrize(("there", "named"), [("M6 stud", "M6 stud"), ("M6", "M6 tapped thread")])
def test_a_preset_hole_never_keeps_a_thread_from_use_and_line_two_says_which_would_do(
    there: str, named: str, width: int
) -> None:
    """The amplifier's preset has holes of 5.5 mm; ISO 273 medium for M6 is 6.6 mm."""
    advice = asked(hole_there=there)
    assert advice.answers[0].method == "factory_thread"
    assert advice.mount.item_hole_mm == 6.6
    lines = advice_text(advice, width).splitlines()
    assert lines[1].startswith("OPEN THE ITEM'S HOLES to 6.6 mm for")
    assert f"existing {named}; 5.5 mm is only preset" in " ".join(" ".join(lines[1:4]).split())
    assert advice_json(advice)["answers"][0]["remarks"] == list(advice.answers[0].remarks)
    assert all(answer.remarks == () for answer in advice.answers[1:])


def test_a_thread_that_is_used_is_not_set_aside() -> None:
    assert asked(hole_there="M6 stud", item_hole="6.6mm").answers[0].remarks == ()
    assert asked(hole_there="M5 stud").answers[0].remarks == ()
    assert asked().answers[0].remarks == ()


def test_a_hole_that_was_given_is_no_preset() -> None:
    [remark] = asked(hole_there="M6 stud", item_hole="5.5mm").answers[0].remarks
    assert remark.startswith("NOT USED: your M6 stud: M6 needs 6.4 mm in the item, and its hole is smaller")


def test_what_sets_a_thread_aside_otherwise_is_told_too() -> None:
    [remark] = asked(hole_there="M5 stud", onto="mdf 18 mm", reach="both-sides").answers[0].remarks
    assert remark.startswith("NOT USED: your M5 stud: for sheet")
