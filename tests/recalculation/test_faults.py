"""What the recalculation found: each fault a test, one that is expected to fail until it is put right."""

import pytest

from recalculation.capacities import CAPACITY
from recalculation.comparing import COMPARED
from recalculation.questions import ask
from recalculation.reading import Line
from recalculation.torque import torque_nm

pytestmark = pytest.mark.slow

AGREE = 1.005

IN_LAMINATE = {
    "item": "equipment-board", "onto": "fibreglass 3 mm", "removed": "rarely", "reach": "both-sides", "behind": "80 mm",
    "edge": "60 mm", "panel": "floor", "mass": "0.3 kg", "item-hole": "9 mm", "fixings": "6",
    "pattern": "rectangle 300x200",
}  # fmt: skip
WEAK_SCREW = {
    "item": "equipment-board", "onto": "stainless steel 3 mm", "removed": "rarely", "behind": "60 mm", "edge": "40 mm",
    "reach": "one-side", "grade": "4.8", "panel": "floor", "item-material": "steel", "item-thickness": "3 mm",
}  # fmt: skip
AT_AN_EDGE = {
    "item": "fuse-holder", "onto": "galvanised steel 1.2 mm", "removed": "rarely", "behind": "30 mm", "edge": "10 mm",
    "reach": "both-sides",
}  # fmt: skip


def checks_of(said: dict[str, str], method: str) -> list[tuple[str, dict[str, Line]]]:
    """Title and checks by id of each answer of a method."""
    advice = ask(said)
    assert advice is not None
    answers = [answer for answer in advice["answers"] if answer["method"] == method]
    assert answers
    return [(answer["title"], {check["id"]: Line(check) for check in answer["checks"]}) for answer in answers]


def test_a_tapped_hole_is_refused_where_the_thread_of_its_screw_goes_first() -> None:
    """M6 of class 4.8 in stainless steel: its thread bears 0.577 x 420 x 8.646 = 2095 N a millimetre, the plate's
    0.577 x 520 x 12.191 = 3658 N; of class 8.8 it is 0.577 x 800 x 8.646 = 3991 N.

    Source: FED-STD-H28, both threads are calculated and the weaker counts; areas of M6 from the handbook's limits.
    """
    for grade, fits in (("4.8", False), ("A2-70", False), ("8.8", True)):
        advice = ask(WEAK_SCREW | {"grade": grade})
        assert advice is not None
        assert any(answer["method"] == "tapped_hole" for answer in advice["answers"]) == fits
        because = [refusal["because"] for refusal in advice["refusals"] if refusal["method"] == "tapped_hole"]
        assert fits or "strips before that of stainless steel" in because[0]


def test_a_rivet_nut_is_tightened_no_harder_than_the_laminate_behind_bears() -> None:
    """Between its flange and its bulge the sheet bears the whole preload, as it does between a bolt's washers.

    Source: pressure times area, 10 MPa that stays (common practice), as the answer's own check behind the sheet has it.
    """
    for title, checks in checks_of(IN_LAMINATE, "rivet_nut"):
        window = checks["torque-window"]
        bears_n = CAPACITY["plastic-back"](checks["plastic-back.service"])
        most_nm = torque_nm(window, bears_n / (1 + window.one("scatter")))
        assert window.raw["allowable"] <= most_nm * AGREE, (title, window.raw["allowable"], most_nm)


def test_the_edge_distance_of_a_clip_nut_follows_from_its_inputs() -> None:
    for title, checks in checks_of(AT_AN_EDGE, "clip_nut"):
        line = checks["edge-distance"]
        assert COMPARED["edge-distance"](line)[0] == pytest.approx(line.raw["demand"]), title
