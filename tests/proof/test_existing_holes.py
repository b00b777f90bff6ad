"""An item on existing holes: the check by hand, what it leaves open, and what the answer says."""

import pytest

from fasten.advice.advise import advise
from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.model import Advice, Status
from fasten.proof.fit.existing import LINED_UP
from fasten.question.read import read_question
from fasten.question.resolve import resolve
from fasten.report.answer.as_text import advice_text

MOUNT = {"item": "amplifier", "onto": "steel 0.8 mm", "removed": "yearly", "edge": "60 mm", "behind": "60 mm"}
OFF = "points 0,0 240,0 240,180 3,180"


def asked(**said: str) -> Advice:
    words = {name.replace("_", "-"): text for name, text in said.items()}
    return advise(resolve(read_question(MOUNT | words, builtin()), builtin()), builtin(), changes=False)


def test_a_miss_within_the_play_holds() -> None:
    """The hole 3 mm off is missed by 1.5 mm at best; M5 in 9 mm has 2 mm of play."""
    answer = asked(holes_at=OFF, item_hole="9 mm").answers[0]
    check = next(check for check in answer.proposal.checks if check.id == LINED_UP)
    screw = answer.proposal.joint.screw
    assert screw is not None
    assert check.demand == pytest.approx(1.5, abs=0.001)
    assert check.allowable == pytest.approx((9 - screw.diameter_mm) / 2)
    assert check.status is Status.HOLDS


def test_a_miss_beyond_the_play_is_refused_with_its_figures_and_the_slot_is_named() -> None:
    advice = asked(holes_at=OFF)
    refused = next(refusal for refusal in advice.refusals if refusal.method == "rivet_nut")
    assert refused.check == LINED_UP
    assert advice.on_holes is not None
    assert [slot.hole for slot in advice.on_holes.slots] == [4]
    assert "Slot hole 4 longer by 2.8 mm" in advice_text(advice).replace("\n  ", " ")


def test_a_survey_too_rough_to_tell_leaves_it_open() -> None:
    text = "tape 1-2 240, 2-3 180, 3-4 240, 4-1 180, 1-3 300, 2-4 300"
    answer = asked(holes_at=text).answers[0]
    check = next(check for check in answer.proposal.checks if check.id == LINED_UP)
    assert check.status is Status.NOT_CHECKED
    assert not answer.proposal.proven


def test_without_the_holes_there_is_no_such_check() -> None:
    assert all(check.id != LINED_UP for check in asked().answers[0].proposal.checks)


def test_as_many_holes_as_fixings() -> None:
    with pytest.raises(FastenError, match="3 holes are there"):
        asked(holes_at="points 0,0 240,0 240,180")
