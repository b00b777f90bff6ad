"""What exists already, used: a nut, a stud, holes that differ, a hole wider than its bolt; no preset is in the way."""

import pytest

from fasten.advice.advise import advise
from fasten.advice.plan import plan_of
from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.geometry.joint import across_mm
from fasten.model import Advice, Answer, Check, Origin, Status, kinds
from fasten.question.read import read_question
from fasten.question.resolve import resolve

MOUNT = {
    "item": "amplifier", "onto": "steel 0.8 mm", "removed": "yearly", "behind": "60 mm", "edge": "60 mm",
    "support": "firm",
}  # fmt: skip


def asked(**said: str) -> Advice:
    words = {name.replace("_", "-"): text for name, text in said.items()}
    return advise(resolve(read_question(MOUNT | words, builtin()), builtin()), builtin(), changes=False)


def check(answer: Answer, identity: str) -> Check:
    return next(entry for entry in answer.proposal.checks if entry.id.partition(".")[0] == identity)


# -- a preset is never in the way -------------------------------------------------------------------------------------


def test_a_hole_too_wide_for_m5_takes_m6_once_the_preset_item_hole_is_opened() -> None:
    """An M6 nut wants 9 mm and its screw 6.6 mm in the item; the preset has 5.5 mm."""
    advice = asked(hole_there="8.2 mm")
    best = advice.answers[0]
    assert (best.method, advice.mount.item_hole_mm) == ("rivet_nut", 6.6)
    assert dict(advice.mount.origins)["item_hole_mm"] is Origin.ASSUMED
    assert best.proposal.proven
    assert best.remarks[0].startswith("OPEN THE ITEM'S HOLES to 6.6 mm")
    assert any("Open the item's holes to 6.6 mm" in step.text for step in best.steps)
    plan = plan_of("amp", best, advice.mount, builtin())
    assert ("hole of the item", 6.6) in {(bit.purpose, bit.hole_mm) for bit in plan.bits}


def test_an_item_hole_that_was_given_stays() -> None:
    advice = asked(hole_there="8.2 mm", item_hole="5.5 mm")
    assert advice.mount.item_hole_mm == 5.5
    assert not advice.answers or advice.answers[0].proposal.joint.hole is None


# -- a nut that is in place -------------------------------------------------------------------------------------------


def test_an_existing_rivet_nut_takes_a_screw_and_waits_for_its_hold_test() -> None:
    advice = asked(hole_there="M6 rivet nut", item_hole="6.6 mm")
    best = advice.answers[0]
    receiver = best.proposal.joint.receiver
    assert receiver is not None
    assert (receiver.kind, receiver.thread) == (kinds.RIVET_NUT, "M6")
    assert check(best, "existing-nut").status is Status.NOT_CHECKED
    open_ = [entry.id for entry in best.proposal.checks if entry.status is not Status.HOLDS]
    assert open_ == ["existing-nut"], "all else holds"
    plan = plan_of("amp", best, advice.mount, builtin())
    assert plan.bits == ()
    assert kinds.RIVET_NUT.key not in {part.id.text.split("/")[0].removeprefix("part:") for part in plan.parts}
    assert not any("Set the" in step.text or "Drill" in step.text for step in best.steps)


def test_an_existing_nut_says_by_which_flange_it_is_known() -> None:
    best = asked(hole_there="M5 rivet nut").answers[0]
    receiver = best.proposal.joint.receiver
    assert receiver is not None
    assert receiver.thread == "M5"
    assert f"{across_mm(receiver):g} mm flange" in (check(best, "existing-nut").needs or "")


# -- a stud -----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("text", "status"), [("M6 stud 20 mm", Status.HOLDS), ("M6 stud", Status.NOT_CHECKED)])
def test_a_stud_is_long_enough_or_its_length_is_open(text: str, status: Status) -> None:
    """3 mm of item, a 1.6 mm washer, a nut of 5.2 mm and two pitches: 11.8 mm."""
    best = asked(hole_there=text, item_hole="6.6 mm").answers[0]
    assert best.method == "factory_thread"
    found = check(best, "stud-length")
    assert found.status is status
    assert found.demand == pytest.approx(3 + 1.6 + 5.2 + 2.0, abs=1.1)


def test_a_stud_that_is_too_short_is_refused_with_its_figures() -> None:
    advice = asked(hole_there="M6 stud 8 mm", item_hole="6.6 mm")
    refused = next(refusal for refusal in advice.refusals if refusal.method == "factory_thread")
    assert refused.check == "stud-length"
    assert refused.figures[1].value == 8.0
    assert "capacity 8 mm" in advice.answers[0].remarks[0]


# -- holes that differ ------------------------------------------------------------------------------------------------


def test_the_widest_of_several_holes_decides_and_each_is_measured() -> None:
    advice = asked(hole_there="7.6 mm, 7.6, 8.2 mm, 7.6 mm", item_hole="6.6 mm")
    assert advice.mount.existing_holes_mm == (7.6, 7.6, 8.2, 7.6)
    assert advice.mount.existing_hole_mm == 8.2
    hole = advice.answers[0].proposal.joint.hole
    assert hole is not None
    assert hole.diameter_mm >= 8.2
    assert any("7.6, 7.6, 8.2, 7.6 mm" in step.text for step in advice.answers[0].steps)


def test_a_hole_for_each_fixing() -> None:
    with pytest.raises(FastenError, match="2 existing holes are given, and the item has 4"):
        asked(hole_there="7.6 mm, 8.2 mm")


# -- a hole wider than its bolt ---------------------------------------------------------------------------------------


def test_a_wide_hole_reached_from_both_sides_takes_a_bolt_and_a_washer_that_covers_it() -> None:
    """9 mm and 1.5 mm all round want 12 mm; a large washer for M5 has 15 mm (ISO 7093-1). Slip counts in full, 1.8."""
    best = next(a for a in asked(hole_there="9 mm", item_hole="5.5 mm", reach="both-sides").answers)
    joint = best.proposal.joint
    assert (best.method, joint.hole is not None and joint.hole.diameter_mm) == ("through_bolt", 9.0)
    covers = check(best, "washer-covers")
    assert (covers.demand, covers.allowable) == (12.0, 15.0)
    window = check(best, "torque-window")
    assert {entry.name: entry.value for entry in window.inputs}["factor on slip"] == 1.8
    assert any("centre the bolt in it" in step.text for step in best.steps)


def test_a_hole_that_no_washer_covers_stays_refused() -> None:
    advice = asked(hole_there="24 mm", item_hole="5.5 mm", reach="both-sides")
    refused = next(refusal for refusal in advice.refusals if refusal.method == "through_bolt")
    assert refused.figures[0].value > refused.figures[1].value


def test_a_hole_within_its_tolerance_is_not_oversize() -> None:
    best = next(
        a
        for a in asked(hole_there="5.7 mm", reach="both-sides", item_hole="5.5 mm").answers
        if a.method == "through_bolt"
    )
    assert best.proposal.joint.oversize_mm == 0
