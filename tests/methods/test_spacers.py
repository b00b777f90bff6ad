"""Spacers through carpet and mats: how long, how wide, what they do to screw, centre of gravity, proof and steps.

Figures by hand: carpet to 0.75 and a mat to 0.8 of its thickness, then the next length that is sold; V h = F D/2 about
the edge of a spacer (common practice and moments about a point).
"""

from dataclasses import replace
from functools import cache

import pytest

from fasten.advice.advise import advise
from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.mechanics.spacer import least_outside_mm, tipping_pull_n
from fasten.model import Advice, Answer, Check, JointKind, Position, StackPart, Status
from fasten.proof import spacer
from fasten.proof.demands import demands
from fasten.proof.torque.limits import no_more_limits
from fasten.proof.torque.tightening import window
from fasten.question.read import read_question
from fasten.question.resolve import resolve

TABLES = builtin()
AMPLIFIER = {
    "item": "amplifier", "onto": "steel 0.8 mm", "removed": "yearly", "panel": "seat-back", "support": "firm",
    "behind": "60mm", "edge": "60mm",
}  # fmt: skip


@cache
def _advised(said: tuple[tuple[str, str], ...]) -> Advice:
    return advise(resolve(read_question(dict(said), TABLES), TABLES), TABLES)


def asked(between: str | None, **said: str) -> Advice:
    fields = AMPLIFIER | {name.replace("_", "-"): text for name, text in said.items()}
    return _advised(tuple(sorted((fields | ({"between": between} if between else {})).items())))


def by(advice: Advice, method: str) -> Answer:
    return next(answer for answer in advice.answers if answer.method == method)


def spacers(answer: Answer) -> list[StackPart]:
    return [washer for washer in answer.proposal.joint.washers if washer.place is Position.LIMITER]


def check(answer: Answer, name: str) -> Check:
    return next(entry for entry in answer.proposal.checks if entry.id == name)


@pytest.mark.parametrize(
    ("between", "long_mm"),
    [
        ("carpet 12 mm", 10.0), ("carpet 4 mm", 3.0), ("carpet 25 mm", 20.0), ("mat 5 mm", 4.0), ("butyl 2 mm", 2.0),
        ("rubber 3 mm", 3.0), ("carpet 12 mm, deadener 2 mm", 12.0), ("carpet 9 mm cut out, deadener 2.5 mm", 3.0),
    ],
)  # fmt: skip
def test_a_spacer_is_the_next_length_sold_over_the_pressed_layer(between: str, long_mm: float) -> None:
    answer, bare = by(asked(between), "rivet_nut"), by(asked(None), "rivet_nut")
    [sleeve] = spacers(answer)
    assert (sleeve.thickness_mm, sleeve.outer_mm) == (long_mm, 10.0)  # 2 x M5
    joint, plain = answer.proposal.joint, bare.proposal.joint
    assert joint.kind is JointKind.CLAMPED
    assert joint.screw is not None
    assert plain.screw is not None
    assert joint.screw.length_mm >= plain.screw.length_mm + long_mm - 4
    assert [layer.thickness_mm for layer in joint.layers if layer.role == "soft"] == [long_mm]


def test_the_item_stands_off_by_its_spacer_where_its_centre_is_assumed() -> None:
    assert asked("carpet 12 mm").mount.cg_mm == asked(None).mount.cg_mm + 10
    assert asked("carpet 12 mm", cg="50mm").mount.cg_mm == 50
    assert asked("carpet 12 mm cut out").mount.cg_mm == asked(None).mount.cg_mm


def test_a_small_screw_still_gets_a_spacer_eight_millimetres_wide() -> None:
    said = {"item": "fuse-holder", "panel": "side", "removed": "never", "item_material": "steel", "item_hole": "4mm"}
    [sleeve] = spacers(by(asked("carpet 6 mm", **said), "tapping_screw"))
    assert sleeve.outer_mm == 8.0


def test_the_clamp_that_is_kept_holds_a_spacer_upright() -> None:
    """5 kg over four on a seat back, 1 g sideways and 4 g down: 50.55 N. 1.49 N·m on M5: 0.65 x 0.5 x 1487 = 483 N."""
    answer = by(asked("carpet 12 mm"), "rivet_nut")
    found, torque = check(answer, "spacer-tips"), answer.proposal.torque
    assert torque is not None
    shear_n, kept_n = 5 / 4 * 9.80665 * 17**0.5, torque.target_nm / (0.2 * 0.005) * 0.65 * 0.5
    assert found.demand == pytest.approx(2.4 * shear_n * 10 / kept_n, rel=1e-3)
    assert found.allowable == 10.0


def test_a_hard_stop_that_tips_the_spacer_pulls_at_the_screw() -> None:
    """20 g along a floor: 245 N a fixing, over a 10 mm spacer that is 10 mm wide 490 N more pull."""
    with_it, bare = (by(asked(said, panel="floor", cg="40mm"), "rivet_nut") for said in ("carpet 12 mm", None))
    found = [check(answer, "pull-through.hard_stop").demand for answer in (with_it, bare)]
    assert None not in found
    assert (found[0] or 0) - (found[1] or 0) == pytest.approx(2 * 20 * 5 / 4 * 9.80665, rel=1e-6)
    service = [check(answer, "pull-through.service").demand for answer in (with_it, bare)]
    assert service[0] == service[1]


def test_where_no_clamp_is_kept_the_screw_holds_the_spacer_on_the_road_too() -> None:
    said = {"onto": "mdf 18 mm", "panel": "floor", "removed": "never", "cg": "40mm"}
    with_it, bare = (by(asked(between, **said), "screw_into_board") for between in ("carpet 4 mm", None))
    pulls = [check(answer, "withdrawal.service").demand or 0.0 for answer in (with_it, bare)]
    assert pulls[0] > pulls[1]


def test_a_spacer_on_board_is_as_wide_as_the_washer() -> None:
    said = {
        "item": "enclosure", "mass": "30kg", "onto": "steel 1.2 mm", "panel": "floor", "support": "frame",
        "reach": "both-sides",
    }  # fmt: skip
    answer = asked("carpet 12 mm", **said).answers[0]
    assert (answer.title[:2], answer.proposal.proven) == ("M8", True)
    assert [sleeve.outer_mm for sleeve in spacers(answer)] == [28.0]


def test_a_step_says_how_to_fit_it() -> None:
    answer = by(asked("carpet 12 mm"), "rivet_nut")
    [step] = [step.text for step in answer.steps if "a sleeve 5.5 x 10 x 10 mm" in step.text]
    assert step.startswith("Cut a hole in the carpet at each fixing")


def test_carpet_thicker_than_the_longest_spacer_is_refused_with_what_to_do() -> None:
    with pytest.raises(FastenError, match=r"33\.75 mm asks for a longer spacer") as refused:
        asked("carpet 45 mm")
    assert (refused.value.where, "cut out" in (refused.value.fix or "")) == ("between", True)


def test_a_ground_lug_lies_on_no_carpet() -> None:
    said = {"item": "ground-lug", "panel": "floor", "cable": "25 mm2", "removed": "rarely", "support": "firm"}
    with pytest.raises(FastenError, match="bare metal, with no carpet between"):
        asked("carpet 12 mm", **said)
    assert asked("carpet 12 mm cut out", **said).answers


@pytest.mark.parametrize("method", ["blind_rivet", "hook_and_loop", "quarter_turn", "ball_stud"])
def test_what_cannot_go_through_a_spacer_is_refused(method: str) -> None:
    said = {"item": "trim-panel", "onto": "steel 1 mm", "panel": "side", "removed": "never"}
    assert method not in {answer.method for answer in asked("carpet 6 mm", **said).answers}


def test_what_fails_for_its_spacers_fits_with_the_carpet_cut_out() -> None:
    said = {"onto": "mdf 12 mm", "removed": "monthly", "panel": "floor"}
    refused = next(refusal for refusal in asked("carpet 12 mm", **said).refusals if refusal.method == "screw_in_insert")
    assert refused.change is not None
    assert "the carpet cut out under it" in refused.change


def test_moments_about_the_edge_of_a_spacer() -> None:
    """100 N at 10 mm is 1000 N·mm: an edge 5 mm off takes 200 N, and 200 N of clamp take a spacer 10 mm wide."""
    assert tipping_pull_n(shear_n=100, height_mm=10, outside_mm=10) == 200
    assert least_outside_mm(factor=2, shear_n=100, height_mm=10, clamp_n=200) == 10


def test_a_spacer_without_any_clamp_is_not_checked() -> None:
    mount = asked("carpet 12 mm").mount
    joint = by(asked("carpet 12 mm"), "rivet_nut").proposal.joint
    loads = demands(mount, TABLES)
    found = window(joint, mount, loads, no_more_limits, TABLES)
    weak = replace(found, upper=replace(found.upper, torque_nm=0.0))
    [line] = spacer.checks(joint, mount, loads, weak, TABLES)
    assert (line.status, line.needs) == (Status.NOT_CHECKED, "needs a clamp, and no torque is left for one")


def test_what_sticks_is_scraped_off_where_its_spacer_stands_and_carpet_is_cut() -> None:
    steps = [step.text for step in by(asked("carpet 12 mm, deadener 2 mm"), "rivet_nut").steps]
    assert [text for text in steps if text.startswith("Cut a hole in the carpet at each")]
    assert [text for text in steps if text.startswith("Scrape the deadener off")]
    found = by(asked("carpet 9 mm cut out, deadener 2.5 mm"), "rivet_nut")
    steps = [step.text for step in found.steps]
    assert [text for text in steps if text.startswith("Cut the carpet out over the whole")]
    assert not [text for text in steps if text.startswith("Cut a hole")]
    assert {need.key for need in found.tools} >= {"plastic scraper", "sharp knife"}


def test_a_bolt_reached_from_both_sides_counts_every_layer() -> None:
    """12 mm of spacer more under its head, and the item 12 mm further off."""
    said = {"reach": "both-sides", "panel": "floor", "cg": "40mm"}
    thick, bare = (by(asked(between, **said), "through_bolt") for between in ("carpet 12 mm, deadener 2 mm", None))
    assert thick.proposal.joint.grip_mm == pytest.approx(bare.proposal.joint.grip_mm + 12)
    assert asked("carpet 12 mm, deadener 2 mm").mount.cg_mm == asked(None).mount.cg_mm + 12


def test_foam_beside_what_sticks_keeps_its_limiter_as_high_as_both() -> None:
    """0.6 of 3 mm of foam, and 2 mm of deadener."""
    joint = by(asked("foam 3 mm, deadener 2 mm"), "rivet_nut").proposal.joint
    assert joint.kind is JointKind.LOCATED
    assert [washer.thickness_mm for washer in joint.washers if washer.place is Position.LIMITER] == [pytest.approx(3.8)]
