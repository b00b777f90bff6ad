"""What the item itself bears beside its screws: by hand, in board, wood, plywood and hot plastic.

EN 1995-1-1 8.2.2 first mode and 8.3.1 from memory; factors on board common practice and the USDA Wood Handbook; that an
item of ABS keeps half of its low-end yield in heat is common practice, no source. Tolerance 1e-3: by hand.
"""

import pytest

from fasten.advice.advise import advise
from fasten.catalog.tables import builtin
from fasten.model import Answer, Check
from fasten.proof.demands import GRAVITY_M_S2
from fasten.question.read import read_question
from fasten.question.resolve import resolve

CLOSE = 1e-3
BOARD = {
    "item": "equipment-board", "item-material": "mdf", "item-thickness": "12mm", "onto": "steel 1 mm",
    "panel": "seat-back", "removed": "rarely", "mass": "2kg", "carries": "amplifier 5 kg", "behind": "40mm",
    "edge": "60mm",
}  # fmt: skip


def asked(base: dict[str, str], **said: str) -> tuple[Answer, ...]:
    fields = base | {name.replace("_", "-"): text for name, text in said.items()}
    return advise(resolve(read_question(fields, builtin()), builtin()), builtin(), changes=False).answers


def bearing(answer: Answer, kind: str) -> Check:
    return next(
        entry for entry in answer.proposal.checks
        if entry.id.startswith("item-bearing") and entry.id.endswith(f".{kind}")
    )  # fmt: skip


def bolted(answers: tuple[Answer, ...], thread: str) -> Answer:
    return next(a for a in answers if a.proposal.joint.screw is not None and a.proposal.joint.screw.thread == thread)


@pytest.mark.parametrize(
    ("kind", "factor", "share_g"), [("service", 3, 4.0), ("hard_stop", 1.25, 10.0), ("sustained", 5.5, 1.0)]
)
def test_a_board_upright_on_a_seat_back_is_judged_in_what_its_holes_bear(
    kind: str, factor: float, share_g: float
) -> None:
    """12 mm MDF, 2 kg with 5 kg of amplifier on it, six M6: 65 x 6^-0.7 x 12^0.1 = 23.8 MPa, x 12 x 6 = 1713 N.

    Along a seat back a bump is 4 g down, a stop 10 g sideways or down; the weight alone stays.
    """
    found = bearing(bolted(asked(BOARD), "M6"), kind)
    assert found.allowable == pytest.approx(1713 / factor, rel=CLOSE)
    assert found.factor == factor
    assert found.demand is not None
    assert found.demand >= 7 * GRAVITY_M_S2 * share_g / 6 * (1 - CLOSE)
    assert ("mass", 7.0) in {(entry.name, entry.value) for entry in found.inputs}
    assert "estimate" in found.title


@pytest.mark.parametrize(
    ("material", "thickness", "load_n"),
    [
        ("mdf", "9mm", 1248.5),  # 65 x 6^-0.7 x 9^0.1 = 23.12, x 9 x 6
        ("mdf", "18mm", 2190.0),  # 15 mm of it, 2.5 diameters, bear: 65 x 6^-0.7 x 15^0.1 = 24.33, x 15 x 6
        ("plywood", "12mm", 2313.3),  # 0.11 x 500 x 6^-0.3 = 32.13, x 12 x 6
        ("pine", "12mm", 2219.9),  # 0.082 x 0.94 x 400 = 30.83, x 12 x 6
    ],
)
def test_a_hole_in_board_and_wood_by_hand(material: str, thickness: str, load_n: float) -> None:
    answers = asked(BOARD, item_material=material, item_thickness=thickness)
    found = bearing(bolted(answers, "M6"), "service")
    assert found.allowable == pytest.approx(load_n / 3, rel=CLOSE)


@pytest.mark.parametrize(("where", "load_n"), [("cabin", 444.0), ("underfloor", 888.0)])
def test_an_item_of_abs_is_judged_as_hot_as_it_gets(where: str, load_n: float) -> None:
    """M5 through 6 mm of ABS, 29.6 MPa, half in a parked car: 14.8 x 6 x 5 N; 3 in service, 2 in a stop."""
    said = {"item": "speaker-adapter", "item-material": "abs", "item-thickness": "6mm", "onto": "steel 0.7 mm",
            "removed": "yearly", "behind": "40mm", "edge": "60mm"}  # fmt: skip
    answer = bolted(asked(said, where=where), "M5")
    assert bearing(answer, "service").allowable == pytest.approx(load_n / 3)
    assert bearing(answer, "hard_stop").allowable == pytest.approx(load_n / 2)


def test_a_thin_item_is_what_gives_first() -> None:
    """ABS of 2 mm under 4 kg on four: 14.8 x 2 x 5 = 148 N, 74 in a stop, where 20 g ask 196 N of each screw."""
    said = {"item": "amplifier", "item-material": "abs", "item-thickness": "2mm", "onto": "steel 1 mm", "mass": "4kg",
            "removed": "yearly", "behind": "40mm", "edge": "60mm", "panel": "floor", "item-hole": "5.5mm"}  # fmt: skip
    advice = advise(resolve(read_question(said, builtin()), builtin()), builtin(), changes=False)
    refusal = next(refusal for refusal in advice.refusals if refusal.method == "rivet_nut")
    assert not advice.answers
    assert refusal.check == "item-bearing-plastic.hard_stop"
    assert [figure.value for figure in refusal.figures] == [pytest.approx(196.133), pytest.approx(74.0)]


def test_no_shear_of_the_item_is_joined_with_the_pull_on_the_substrate() -> None:
    """No rule with a source joins them: the lines of shear and pull together tell of the substrate alone."""
    answers = asked({"item": "trim-panel", "item-material": "abs", "onto": "ABS 15 mm", "removed": "yearly",
                     "item-hole": "4.5mm", "edge": "60mm"})  # fmt: skip
    assert answers
    for answer in answers:
        checks = {entry.id: entry for entry in answer.proposal.checks}
        both = checks.get("plastic-together.service")
        if both is not None:
            shear = next(entry.value for entry in both.inputs if entry.name == "shear capacity")
            assert shear == checks["plastic-bearing.service"].allowable
