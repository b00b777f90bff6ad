"""The item's holes are opened by a size where their preset alone is in the way; a hole that was given never is."""

from typing import Any

import pytest

from fasten.advice.advise import advise
from fasten.advice.plan import plan_of
from fasten.catalog.tables import builtin
from fasten.job.choices import choice
from fasten.job.gauge.gauge import measuring_pass
from fasten.job.pins import pin_of
from fasten.job.words import Job, Mount
from fasten.model import Advice, Origin
from fasten.question.read import read_question
from fasten.question.resolve import resolve

HEAVY = {
    "item": "amplifier", "onto": "steel 0.8 mm", "mass": "12kg", "support": "frame", "removed": "yearly",
    "behind": "40mm", "edge": "40mm",
}  # fmt: skip


def asked(**said: str) -> Advice:
    words = {name.replace("_", "-"): text for name, text in said.items()}
    return advise(resolve(read_question(HEAVY | words, builtin()), builtin()), builtin())


def window_nm(advice: Advice) -> tuple[float, float]:
    torque = advice.answers[0].proposal.torque
    assert torque is not None
    return torque.min_nm, torque.max_nm


def test_twelve_kilograms_on_a_frame_take_m6_in_holes_opened_to_6_6() -> None:
    """M5 gives no window under 12 kg on four fixings; M6 wants 6.6 mm (ISO 273 medium), the preset is 5.5 mm."""
    advice = asked()
    best = advice.answers[0]
    assert (best.method, best.proposal.proven, advice.mount.fixings) == ("rivet_nut", True, 4)
    assert "hexagon" in best.title
    assert window_nm(advice) == pytest.approx((3.8, 5.1), abs=0.05)
    assert (advice.mount.item_hole_mm, dict(advice.mount.origins)["item_hole_mm"]) == (6.6, Origin.ASSUMED)


def test_the_answer_says_it_before_all_else_drills_it_and_proves_with_it() -> None:
    advice = asked()
    best = advice.answers[0]
    assert best.remarks[0] == "OPEN THE ITEM'S HOLES to 6.6 mm for M6: nothing fits the preset 5.5 mm"
    assert best.remarks[1] == "Or, at 5.5 mm, a floor under it", "which panel it is was not given"
    assert best.remarks[2].startswith("Or, at 5.5 mm, 6 fixings instead of 4"), "six round ones do as well"
    assert any("Open the item's holes to 6.6 mm" in step.text for step in best.steps)
    assert ("hole of the item", 6.6) in {
        (bit.purpose, bit.hole_mm) for bit in plan_of("amp", best, advice.mount, builtin()).bits
    }
    inputs = {entry.name: entry.value for check in best.proposal.checks for entry in check.inputs}
    assert inputs["item hole"] == 6.6


def test_six_round_m5_do_in_the_preset_holes() -> None:
    advice = asked(fixings="6", pattern="rectangle 240x180")
    best = advice.answers[0]
    assert (best.method, best.proposal.proven, advice.mount.item_hole_mm) == ("rivet_nut", True, 5.5)
    assert best.proposal.joint.screw is not None
    assert best.proposal.joint.screw.thread == "M5"


def test_thicker_skin_takes_a_round_m6() -> None:
    advice = asked(onto="steel 1.2 mm")
    assert (advice.answers[0].method, advice.mount.item_hole_mm) == ("rivet_nut", 6.6)
    assert advice.answers[0].proposal.proven


def test_a_hole_that_was_given_is_refused_with_the_hole_it_wants() -> None:
    advice = asked(item_hole="5.5 mm")
    assert not advice.answers
    assert advice.mount.item_hole_mm == 5.5
    refused = next(refusal for refusal in advice.refusals if refusal.method == "rivet_nut")
    assert refused.change is not None
    assert "a 6.6 mm item hole for M6" in refused.change


def test_nothing_is_opened_where_the_preset_takes_an_answer() -> None:
    advice = asked(mass="5kg")
    assert advice.answers
    assert dict(advice.mount.origins)["item_hole_mm"] is Origin.PRESET


@pytest.mark.parametrize(
    "said",
    [
        {"item": "speaker", "onto": "ABS 8 mm", "mass": "", "support": ""},  # by a bonded stud M5
        {"item": "signal-processor", "onto": "ABS 3 mm", "mass": "3kg", "support": "", "reach": "both-sides"},  # M8
    ],
)
def test_no_item_is_opened_for_a_bond_or_by_two_sizes(said: dict[str, str]) -> None:
    advice = asked(**said)
    assert not advice.answers
    assert dict(advice.mount.origins)["item_hole_mm"] is Origin.PRESET
    assert any(refusal.change for refusal in advice.refusals), "what would fit is said"


def mount(**more: Any) -> Mount:
    return Mount("amp", tuple(HEAVY.items()), **more)


def test_an_answer_in_opened_holes_can_be_held() -> None:
    found = choice(mount(pin=pin_of(asked().answers[0])), builtin())
    assert found.answer is not None
    assert found.point is not None
    assert (found.answer.proposal.proven, found.point.item_hole_mm) == (True, 6.6)
    assert any("Open the item's holes to 6.6 mm" in step.text for step in found.answer.steps)
    assert found.answer.remarks[0].startswith("OPEN THE ITEM'S HOLES to 6.6 mm for M6")


def test_a_measuring_pass_counts_on_the_opened_holes() -> None:
    said = {name: text for name, text in HEAVY.items() if name not in {"behind", "edge"}}
    found = measuring_pass(Job("bench", "", "", (Mount("amp", tuple(said.items())),)), builtin())
    (one,) = found.mounts
    assert not one.open
    assert {mark.field for mark in one.marks} == {"behind", "edge"}
