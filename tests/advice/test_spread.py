"""Penny washers and plates: where a large washer presses, pulls or dents too much, and only there."""

import pytest

from fasten.advice.advise import advise
from fasten.advice.parts import joint_parts
from fasten.catalog.tables import builtin
from fasten.geometry.stack import spreader
from fasten.job.choices import choice
from fasten.job.pins import pin_of
from fasten.job.words import Mount
from fasten.model import Advice, Answer, Position
from fasten.model.line import Part
from fasten.question.read import read_question
from fasten.question.resolve import resolve

TABLES = builtin()
HEAVY = {
    "item": "amplifier", "onto": "steel 0.8 mm", "removed": "never", "panel": "side", "item-hole": "6.6mm",
    "support": "push 150 N 0.05 mm", "behind": "60mm", "edge": "60mm", "reach": "both-sides",
}  # fmt: skip
BOARD_ITEM = {
    "item": "enclosure", "onto": "steel 0.8 mm", "removed": "rarely", "panel": "floor", "support": "frame",
    "item-material": "mdf", "item-thickness": "18mm", "item-hole": "6.6mm", "behind": "60mm", "edge": "60mm",
}  # fmt: skip


def said(question: dict[str, str], **more: str) -> dict[str, str]:
    return question | {name.replace("_", "-"): text for name, text in more.items()}


def asked(question: dict[str, str], **more: str) -> Advice:
    return advise(resolve(read_question(said(question, **more), TABLES), TABLES), TABLES)


def bolt(mass: str, **more: str) -> Answer:
    found = asked(HEAVY, mass=mass, **more).answers
    return next(answer for answer in found if answer.method == "through_bolt")


def sides(answer: Answer) -> list[tuple[Position, float]]:
    return [(part.place, part.side_mm) for part in answer.proposal.joint.washers if part.side_mm is not None]


@pytest.mark.parametrize(
    ("mass", "plate"), [("12kg", []), ("16kg", [(Position.NUT, 40)]), ("17kg", [(Position.NUT, 50)]),
                        ("18kg", [(Position.NUT, 60)])],
)  # fmt: skip
def test_the_smallest_plate_that_the_sheet_does_not_dent_under(mass: str, plate: list[tuple[Position, float]]) -> None:
    """6 pi (140 x 0.64 / 4) / (3 - 2 r / 100) / 1.5, r of equal area: 99.8, 110.5, 115.6, 121.2 N; 6.54 N/kg."""
    answer = bolt(mass)
    assert sides(answer) == plate
    assert answer.proposal.proven


def test_no_plate_is_named_where_none_clears() -> None:
    refused = next(r for r in asked(HEAVY, mass="19kg").refusals if r.method == "through_bolt")
    assert refused.check == "dent.service"
    assert "plate" not in (refused.change or "")


def test_a_plate_is_in_the_stack_the_screw_the_list_and_a_step() -> None:
    """Beside 12 kg: 3 mm more of stack on the far side, so the next length of screw."""
    plain, answer = bolt("12kg"), bolt("17kg")
    joint, bare = answer.proposal.joint, plain.proposal.joint
    assert joint.grip_mm == pytest.approx(bare.grip_mm + 3)
    assert [layer.thickness_mm for layer in joint.layers if layer.role == "washer"] == [3, 1.6]
    assert joint.screw is not None
    assert bare.screw is not None
    assert (bare.screw.length_mm, joint.screw.length_mm) == (16, 20)
    assert (Part("plate", "50 x 50 x 3 mm", "steel plate", "", None), 1) in joint_parts(joint, TABLES)
    assert any("a steel plate 50 x 50 x 3 mm behind" in step.text for step in answer.steps)
    assert not any("plate" in step.text for step in plain.steps)


def test_from_one_side_it_says_that_a_plate_would_do_from_both() -> None:
    refused = asked(HEAVY, mass="17kg", reach="one-side").refusals
    change = next(r.change for r in refused if r.method == "through_bolt")
    assert change is not None
    assert change.endswith(" or both sides reached and a steel plate 50 x 50 x 3 mm behind")


def test_what_would_dent_a_sheet_of_which_nothing_is_known_asks_for_the_plate_that_clears() -> None:
    answer = asked({name: text for name, text in HEAVY.items() if name != "support"}, mass="17kg").answers[0]
    assert sides(answer) == [(Position.NUT, 50)]
    one_side = said(HEAVY, mass="10.5kg", reach="one-side", panel="roof")
    del one_side["support"]
    needs = [check.needs for check in asked(one_side).answers[0].proposal.checks if check.id == "dent.service"]
    assert needs == [
        "needs a frame at each fixing, or from both sides a 50 x 50 x 3 mm plate behind it: 114 N would dent the sheet"
    ]


def test_a_soft_item_gets_a_penny_washer_under_the_head_where_a_large_one_sinks_in() -> None:
    light, heavy = asked(BOARD_ITEM, mass="10kg").answers[0], asked(BOARD_ITEM, mass="20kg").answers[0]
    assert [part.standard for part in light.proposal.joint.washers] == ["ISO 7093-1"]
    assert [part.standard for part in heavy.proposal.joint.washers] == ["ISO 7094"]
    assert heavy.proposal.proven
    assert any("penny washer M6, ISO 7094, under the head" in step.text for step in heavy.steps)


def test_a_plate_bears_no_wider_than_it_stays_flat() -> None:
    """2.5 x 3 mm beyond a washer of 18 mm, and not beyond its own sides."""
    under, washer = spreader(TABLES, "plate 50", "M6", Position.NUT)
    assert (under.side_mm, under.outer_mm, washer.outer_mm) == (50, 33, 18)
    assert spreader(TABLES, "plate 50", "M6", Position.HEAD) == (
        spreader(TABLES, "large", "M6", Position.HEAD)[0], *spreader(TABLES, "plate 50", "M6", Position.HEAD)[1:],
    )  # fmt: skip


def test_nothing_is_spread_for_stiffness() -> None:
    """40 kg on bare floor sheet waits for a push, with its plates or without; a soft one is refused with none named."""
    refused = asked(HEAVY, mass="12kg", panel="floor", support="push 100 N 10 mm").refusals
    soft = [r for r in refused if r.check == "panel-stiffness"]
    assert soft
    assert not any("plate" in (r.change or "") or "washer" in (r.change or "") for r in soft)


def test_a_pinned_answer_keeps_its_plate() -> None:
    asks = tuple(said(HEAVY, mass="17kg").items())
    pinned = choice(Mount("amp", asks, pin=pin_of(bolt("17kg"))), TABLES).answer
    assert pinned is not None
    assert sides(pinned) == [(Position.NUT, 50)]
    assert pinned.proposal.proven
