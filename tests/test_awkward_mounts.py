"""The main job where the holes, the layers or the sheet are awkward, and where nothing fits at all."""

from collections.abc import Iterator
from dataclasses import replace
from functools import cache

import pytest
from built.receivers import figures

from fasten.advice.advise import METHODS, advise
from fasten.catalog.parts import RIVET_NUTS, RivetNut
from fasten.catalog.tables import builtin
from fasten.geometry.joint import drilled
from fasten.model import Advice, Answer, Check, JointKind, MountPoint, Position, Refusal, Status, kinds
from fasten.question.read import read_question
from fasten.question.resolve import resolve

pytestmark = pytest.mark.slow

AMPLIFIER = {
    "item": "amplifier", "onto": "steel 0.8 mm", "removed": "yearly", "mass": "6kg", "fixings": "4",
    "pattern": "rectangle 240x180", "item-thickness": "3mm", "item-hole": "5.5mm", "reach": "one-side",
}  # fmt: skip
SHARE = 0.65  # of spin-out; common practice


def mounted(said: dict[str, str]) -> MountPoint:
    return resolve(read_question(said, builtin()), builtin())


def asked(base: dict[str, str], **said: str) -> Advice:
    fields = base | {name.replace("_", "-"): text for name, text in said.items()}
    return _advised(tuple(sorted(fields.items())))


@cache
def _advised(fields: tuple[tuple[str, str], ...]) -> Advice:
    return advise(mounted(dict(fields)), builtin(), changes=False)


def refused(advice: Advice, method: str) -> Refusal:
    found = [refusal for refusal in advice.refusals if refusal.method == method]
    assert found, f"{method} was not refused"
    return found[0]


def check(answer: Answer, identity: str) -> Check:
    found = [entry for entry in answer.proposal.checks if entry.id == identity]
    assert len(found) == 1, f"{identity} is there {len(found)} times"
    return found[0]


def body(answer: Answer) -> RivetNut:
    """The row of the answer's rivet nut, by series, thread and length."""
    receiver = answer.proposal.joint.receiver
    assert receiver is not None
    row = builtin().find(RIVET_NUTS, receiver.series, receiver.thread, receiver.length_mm)
    assert row is not None
    return row


def rivet_nuts(advice: Advice) -> Iterator[Answer]:
    return (answer for answer in advice.answers if answer.method == "rivet_nut")


# -- holes, washers, locking, soft layers -----------------------------------------------------------------------------


def test_a_wide_item_hole_over_a_small_flange_gets_a_rigid_washer() -> None:
    """A 7.1 mm body has a 7.9 mm flange: an 8 mm hole would let the screw pull it through."""
    advice = asked(AMPLIFIER, item_hole="8mm", body="7.1mm", behind="40mm", mass="1kg", panel="floor")
    for answer in advice.answers:
        if answer.method == "rivet_nut":
            joint, receiver = answer.proposal.joint, answer.proposal.joint.receiver
            assert receiver is not None
            assert figures(receiver).flange_mm == 7.9
            between = [washer for washer in joint.washers if washer.place == Position.BETWEEN]
            assert len(between) == 1
            assert between[0].hole_mm + 1.0 <= 7.9
            assert between[0].outer_mm >= 8.0 + 1.0
            assert between[0].thickness_mm in {layer.thickness_mm for layer in joint.layers if layer.role == "washer"}
            assert check(answer, "jacking-out").status is Status.HOLDS
    assert list(rivet_nuts(advice))


@pytest.mark.parametrize("hole", ["5.5mm", "6.6mm", "8mm", "9mm", "12mm", "25mm"])
def test_no_flange_is_pulled_through_and_no_head_falls_into_the_item(hole: str) -> None:
    for answer in asked(AMPLIFIER, item_hole=hole, behind="40mm").answers:
        joint = answer.proposal.joint
        assert joint.screw is not None
        outer = max([joint.screw.head_mm, *(w.outer_mm for w in joint.washers if w.place is Position.HEAD)])
        assert outer >= advise_hole(answer, hole) + 1.0
        flange_mm = figures(joint.receiver).flange_mm
        if flange_mm is not None and answer.method == "rivet_nut":
            opening = min([float(hole[:-2]), *(w.hole_mm for w in joint.washers if w.place is Position.BETWEEN)])
            assert opening + 1.0 <= flange_mm


def advise_hole(answer: Answer, hole: str) -> float:
    given = {entry.name: entry.value for entry in check(answer, "head-cover").inputs}
    assert given["item hole"] == float(hole[:-2])
    return given["item hole"]


@pytest.mark.parametrize("onto", ["steel 0.5 mm", "steel 0.8 mm", "aluminium 0.8 mm"])
def test_no_locking_element_of_a_round_body_outlasts_its_hold(onto: str) -> None:
    """Low-strength threadlocker: 6 N·m at M10 from memory, by the cube of the diameter; never a prevailing torque."""
    for hole in ("4.5mm", "5.5mm", "6.6mm", "9mm"):
        for answer in rivet_nuts(asked(AMPLIFIER, onto=onto, item_hole=hole, behind="40mm", mass="2kg")):
            row, joint = body(answer), answer.proposal.joint
            assert joint.screw is not None
            held = SHARE * row.spin_out_nm * min(joint.sheet_mm / row.spin_out_sheet_mm, 1.0)
            assert joint.lock is kinds.LOCKER
            assert 6.0 * (joint.screw.diameter_mm / 10) ** 3 <= held
            assert joint.receiver is not None
            assert figures(joint.receiver).prevailing_nm is None


@pytest.mark.parametrize(
    ("between", "kind", "words"),
    [
        ("carpet 6 mm", JointKind.CLAMPED, "Cut a hole in the carpet"),
        ("mat 4 mm", JointKind.CLAMPED, "Cut a hole in the mat"),
        ("foam 3 mm", JointKind.LOCATED, "compression limiter"),
    ],
)
def test_a_soft_layer_is_a_step_and_decides_the_kind_of_joint(between: str, kind: JointKind, words: str) -> None:
    advice = asked(AMPLIFIER, between=between, behind="40mm")
    assert advice.answers
    for answer in advice.answers:
        joint = answer.proposal.joint
        assert joint.kind is kind
        assert any(words in step.text for step in answer.steps)
        soft = [layer.thickness_mm for layer in joint.layers if layer.role == "soft"]
        assert soft == [pytest.approx({"carpet 6 mm": 5.0, "mat 4 mm": 4.0, "foam 3 mm": 1.8}[between])]
        if kind is JointKind.LOCATED:
            assert joint.lock is not kinds.NO_LOCK, "nothing but a lock keeps it from working loose"
            assert check(answer, "torque-window").formula.startswith("seated on the limiter")


# -- a hole that is there ---------------------------------------------------------------------------------------------


def test_a_hole_that_is_there_is_cleaned_up_and_never_closed() -> None:
    advice = asked(AMPLIFIER, hole_there="6.2mm", behind="40mm")
    assert advice.answers
    for answer in advice.answers:
        hole = drilled(answer.proposal.joint)
        assert hole.diameter_mm + hole.tolerance_mm.plus >= 6.2
    small = next(refusal for refusal in advice.refusals if refusal.check == "hole-there")
    there, wanted = (figure.value for figure in small.figures)
    assert there == 6.2
    assert wanted + 0.1 < 6.2
    assert "6.2 mm" in small.because


# -- nothing fits -----------------------------------------------------------------------------------------------------

PLAIN = (
    "for ", "the strength of", "foam keeps", "a rivet presses", "a rivet is no fixing for", "no stocked length",
    "you gave no stud",
)  # fmt: skip
HOPELESS = [
    AMPLIFIER | {"behind": "0 mm"},
    AMPLIFIER | {"mass": "500kg", "behind": "40mm"},
    AMPLIFIER | {"onto": "steel 0.2 mm", "behind": "40mm"},
    AMPLIFIER | {"item-hole": "40mm", "behind": "40mm"},
    AMPLIFIER | {"removed": "weekly", "onto": "ABS 3 mm", "behind": "40mm"},
    AMPLIFIER | {"item-thickness": "120mm", "behind": "40mm"},
    AMPLIFIER | {"edge": "2mm", "behind": "40mm"},
    AMPLIFIER | {"body": "6.0mm", "behind": "40mm"},
]


@pytest.mark.parametrize("said", HOPELESS)
def test_where_nothing_fits_every_method_says_why(said: dict[str, str]) -> None:
    advice = _advised(tuple(sorted(said.items())))
    assert not advice.answers
    assert {refusal.method for refusal in advice.refusals} == {method.NAME for method in METHODS}
    for refusal in advice.refusals:
        assert refusal.figures or refusal.because.startswith(PLAIN), refusal
        assert refusal.because.strip()


def test_the_same_question_gets_the_same_answer() -> None:
    mount = mounted(AMPLIFIER | {"behind": "40mm"})
    advise.cache_clear()
    first = advise(mount, builtin(), changes=False)
    advise.cache_clear()
    assert advise(replace(mount), builtin(), changes=False) == first
