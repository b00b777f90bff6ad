"""Faults that the second reckoning found, each a test that is expected to fail until it is put right."""

import pytest

from second import printed
from second.capacities import CAPACITY, strip_of_external
from second.comparing import COMPARED
from second.questions import ask
from second.reading import Line
from second.torque import torque_nm

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


@pytest.mark.xfail(strict=True, reason="only the plate's thread is checked, not the screw's own, which goes first here")
def test_a_tapped_hole_holds_no_more_than_the_thread_of_its_screw() -> None:
    """M6 of class 4.8 in 3 mm of stainless steel: π (2/1) 5.153 (0.5 + 0.57735 (5.212 − 5.153)) 0.577 × 420 = 4190 N.

    Source: FED-STD-H28, both threads are reckoned and the weaker counts; limits of ISO 965-2, Rm of ISO 898-1.
    """
    for title, checks in checks_of(WEAK_SCREW, "tapped_hole"):
        thread = title.split()[0]
        pitch_mm, engaged_mm = printed.PITCH[thread], checks["thread-strip.hard_stop"].one("engagement")
        minor_mm, flank_mm = printed.MINOR[thread][1], printed.PITCH_LEAST[thread]
        ours = strip_of_external(engaged_mm - pitch_mm, pitch_mm, minor_mm, flank_mm, 0.577 * printed.STRENGTH["4.8"])
        # Whatever a check of the screw's own thread will be called, it is a strip or a tension of the hard stop.
        pulls = [line.raw for name, line in checks.items() if name.endswith(("strip.hard_stop", "tension.hard_stop"))]
        held = min(raw["allowable"] * raw["factor"] for raw in pulls)
        assert held <= ours * AGREE, (title, held, ours)


@pytest.mark.xfail(strict=True, reason="what the clamp presses on the laminate behind does not end the window")
def test_a_rivet_nut_is_tightened_no_harder_than_the_laminate_behind_bears() -> None:
    """Between its flange and its bulge the sheet bears the whole preload, as it does between a bolt's washers.

    Source: pressure times area, 10 MPa that stays (common practice), as the answer's own check behind the sheet has it.
    """
    for title, checks in checks_of(IN_LAMINATE, "rivet_nut"):
        window = checks["torque-window"]
        bears_n = CAPACITY["plastic-back"](checks["plastic-back.service"])
        most_nm = torque_nm(window, bears_n / (1 + window.one("scatter")))
        assert window.raw["allowable"] <= most_nm * AGREE, (title, window.raw["allowable"], most_nm)


@pytest.mark.xfail(strict=True, reason="the hole that the ratio is taken of is not among the inputs")
def test_the_edge_distance_of_a_clip_nut_follows_from_its_inputs() -> None:
    for title, checks in checks_of(AT_AN_EDGE, "clip_nut"):
        line = checks["edge-distance"]
        assert COMPARED["edge-distance"](line)[0] == pytest.approx(line.raw["demand"]), title
