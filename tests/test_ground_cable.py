"""What the cable of a ground lug decides: its stud, its torque, and whether it carries its current."""

import pytest
from test_ground_lug import GROUNDS, LEAST, advised

from fasten.catalog.tables import builtin
from fasten.job.choices import Choice, choice
from fasten.job.words import Mount, Pin
from fasten.mechanics.bearing import bearing_load_n
from fasten.mechanics.torque import torque_nm
from fasten.model import Answer
from fasten.model.check import needed

NO_CABLE = "its cable and its full current"
NO_LUG = "its lug: the palm of one for 50 mm² and M6 is in no table"


@pytest.mark.parametrize(
    ("said", "needs"),
    [
        ({"ring": "M6"}, [NO_CABLE]),
        ({"ring": "M8", "current": "100 A"}, ["its cable: 100 A needs 6 AWG or thicker"]),
        ({"ring": "M8", "current": "500 A"}, ["its cable: no one cable carries 500 A"]),
        ({"ring": "M6", "cable": "16"}, ["its full current: its cable carries 110 A"]),
        ({"ring": "M6", "cable": "16", "current": "110 A"}, []),
        ({"ring": "M6", "cable": "50", "current": "110 A"}, [NO_LUG]),
        ({"ring": "M8", "rings": "2"}, [NO_CABLE, "each cable: from 8 mm² up it takes a stud of its own"]),
        ({"ring": "M8", "rings": "2", "cable": "4", "current": "20 A"}, []),
    ],
)  # fmt: skip
def test_what_is_not_known_of_the_cable_stays_open(said: dict[str, str], needs: list[str]) -> None:
    answer = advised(**said, behind="60 mm", edge="60 mm", panel="side").answers[0]
    assert list(needed(answer.proposal.checks)) == needs
    assert answer.proposal.proven == (not needs)


def test_a_cable_too_thin_for_its_current_is_refused_by_every_method_that_grounds() -> None:
    """33 CFR 183.425 table 5: 6 AWG carries 120 A at 105 °C, 2/0 AWG 330 A; metric boat cable of 16 mm² 110 A."""
    advice = advised(cable="16", current="300 A", reach="both-sides")
    assert not advice.answers
    thin = [refusal for refusal in advice.refusals if refusal.check == "ground-ampacity"]
    assert {refusal.method for refusal in thin} == GROUNDS
    assert {refusal.because for refusal in thin} == {"the cable is too thin: 300 A needs 2/0 AWG or thicker"}
    assert [figure.value for figure in thin[0].figures] == [300, 110]


def test_a_cable_carries_less_in_the_engine_bay() -> None:
    """33 CFR 183.425: 0.85 of it at 105 °C; 0.85 x 145 A for 25 mm², and 2 AWG instead of 4 for 150 A."""
    hot = {"where": "engine bay", "behind": "60 mm", "edge": "60 mm", "ring": "M8", "reach": "both-sides"}
    carried = next(
        c for c in advised(cable="25", current="100 A", **hot).answers[0].proposal.checks if "ampacity" in c.id
    )
    assert carried.allowable == pytest.approx(123.25)
    assert advised(cable="25", current="130 A", **hot).answers == ()
    assert "its cable: 150 A needs 2 AWG or thicker" in needed(
        advised(current="150 A", **hot).answers[0].proposal.checks
    )


def lug(onto: str, cable: str, reach: str = "one-side", **said: str) -> tuple[str, str, Answer]:
    advice = advised(
        onto=onto, cable=cable, current="90 A", reach=reach, behind="60 mm", edge="60 mm", panel="side", **said
    )
    first = advice.answers[0]
    assert first.proposal.joint.hole is not None
    assert advice.ground == first.proposal.ground
    return advice.mount.ring or "", first.proposal.joint.hole.shape, first


@pytest.mark.parametrize(
    ("onto", "cable", "reach", "ring", "shape"),
    [
        ("steel 0.8 mm", "16", "one-side", "M6", "round"),
        ("steel 0.8 mm", "25", "one-side", "M6", "round"),  # 3.1 N·m is the most there, and M8 wants 3.6
        ("steel 0.8 mm", "50", "one-side", "M8", "hexagon"),  # no lug of 50 mm² for M6 is tabulated
        ("steel 1.2 mm", "25", "one-side", "M8", "round"),
        ("steel 1.2 mm", "50", "one-side", "M8", "round"),
        ("steel 0.8 mm", "25", "both-sides", "M8", "round"),
    ],
)
def test_a_smaller_stud_comes_before_a_hexagon_hole(onto: str, cable: str, reach: str, ring: str, shape: str) -> None:
    stud, hole, first = lug(onto, cable, reach)
    assert (stud, hole, first.proposal.proven) == (ring, shape, True)
    instead = [text for text in first.remarks if text.startswith("M6 instead of M8")]
    assert bool(instead) == (ring == "M6" and cable != "16")


def test_a_stud_that_is_given_stays() -> None:
    assert lug("steel 0.8 mm", "25", ring="M8")[:2] == ("M8", "hexagon")
    assert lug("steel 0.8 mm", "25", item_hole="8.4 mm")[:2] == ("M8", "hexagon")


def test_a_pin_takes_the_lug_to_its_stud() -> None:
    """The first answer is on M6; who keeps M8 in a job gets its lug with it, and the other way round."""
    for thread in ("M6", "M8"):
        found = kept("steel 0.8 mm", "25", Pin("rivet_nut", thread, "", None, None))
        assert found.point is not None
        assert found.answer is not None
        screw = found.answer.proposal.joint.screw
        assert screw is not None
        assert (found.point.ring, screw.thread) == (thread, thread)
    by_itself = kept("steel 0.8 mm", "25", None).point
    assert by_itself is not None
    assert by_itself.ring == "M6"


def kept(onto: str, cable: str, pin: Pin | None) -> Choice:
    said = {**LEAST, "onto": onto, "cable": cable, "current": "90 A", "behind": "60 mm", "edge": "60 mm"}
    return choice(Mount("ground", tuple(said.items()), pin=pin), builtin())


def ring_nm(palm_mm: float, hole_mm: float, pressure_mpa: float, scatter: float, diameter_mm: float) -> float:
    """T = p A K d/(1 - 0.35) for the least and /(1 + 0.35) for the most, K 0.20 of zinc plated steel."""
    clamp_n = bearing_load_n(washer_mm=palm_mm, hole_mm=hole_mm, pressure_mpa=pressure_mpa) / (1 + scatter)
    return torque_nm(nut_factor=0.20, diameter_mm=diameter_mm, preload_n=clamp_n)


@pytest.mark.parametrize(
    ("palm_mm", "hole_mm", "diameter_mm", "least", "most"), [(17, 8.4, 8, 4.22, 14.2), (12, 6.4, 6, 1.49, 5.03)]
)
def test_torque_on_a_ring_by_hand(
    palm_mm: float, hole_mm: float, diameter_mm: float, least: float, most: float
) -> None:
    """Area of the ring 171.6 and 80.9 mm²; 10 and 70 MPa."""
    assert ring_nm(palm_mm, hole_mm, 10, -0.35, diameter_mm) == pytest.approx(least, rel=4e-3)
    assert ring_nm(palm_mm, hole_mm, 70, 0.35, diameter_mm) == pytest.approx(most, rel=4e-3)


def test_the_window_of_a_lug_is_that_of_its_ring() -> None:
    """25 mm² and M6: a palm of 12 mm; bolted from both sides nothing else limits it."""
    torque = lug("steel 1.2 mm", "25", "both-sides", ring="M6")[2].proposal.torque
    assert torque is not None
    assert torque.min_nm == pytest.approx(1.49, abs=0.005)
    assert torque.max_nm == pytest.approx(5.03, abs=0.01)
    assert torque.limited_by == "pressure on the ring"
