"""The route of a next larger body: of the same thread, for a larger hole than the one in which one turned."""

import pytest

from fasten.advice.advise import advise, method_of
from fasten.advice.method import joints
from fasten.after.damage import read_damage
from fasten.after.routes import repaired

from .test_repair import TABLES, fixed


@pytest.mark.parametrize("substrate", ["skin08", "floor12", "plate3"])
@pytest.mark.parametrize("what", ["spun", "stripped"])
def test_a_larger_body_is_of_the_same_thread_and_for_a_larger_hole(substrate: str, what: str) -> None:
    """M5 at 7 mm goes on to 7.6 mm, M6 at 9 mm to 9.6 mm and never to the long body, which takes 9 mm too."""
    _, mount = fixed(substrate)
    advice = advise(mount, TABLES, changes=False)
    joint = next(one.proposal.joint for one in advice.answers if one.method == "rivet_nut")
    assert joint.hole is not None
    found = repaired(joint, mount, read_damage(what), None, TABLES)
    route = next(one for one in found.routes if one.route == "N2")
    assert route.answer is not None
    now = route.answer.proposal.joint
    assert now.hole is not None
    assert now.hole.diameter_mm > joint.hole.diameter_mm
    assert now.screw is not None
    assert joint.screw is not None
    assert now.screw.thread == joint.screw.thread


def test_the_largest_body_of_a_thread_has_no_larger_one() -> None:
    _, mount = fixed("skin08")
    rivet_nut = method_of("rivet_nut")
    assert rivet_nut is not None
    largest = max(
        (one for one in joints(rivet_nut, mount, TABLES) if one.screw is not None and one.screw.thread == "M5"),
        key=lambda one: one.hole.diameter_mm if one.hole is not None else 0.0,
    )
    assert largest.hole is not None
    found = repaired(largest, mount, read_damage("spun"), None, TABLES)
    refused = next(one.refused for one in found.refused if one.route == "N2")
    assert refused is not None
    assert refused.figures[0].value == largest.hole.diameter_mm
    assert refused.figures[1].value <= largest.hole.diameter_mm
