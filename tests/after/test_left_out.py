"""A fixing left out: what rested on it between its neighbours, and what of a frame carries then."""

import pytest

from fasten.advice.advise import advise
from fasten.after import mixed
from fasten.after.damage import read_damage
from fasten.after.mixed import Odd
from fasten.after.routes import Route, repaired
from fasten.model import Status
from fasten.question.read import read_question
from fasten.question.resolve import resolve

from .test_repair import SKIN, TABLES

CLAMPS = {"item": "wire clamp", "onto": "steel 1 mm", "removed": "rarely", "behind": "40 mm", "edge": "40 mm",
          "panel": "floor", "support": "frame", "run": "3 m", "far-side": "dry"}  # fmt: skip
SPEAKER = {
    "item": "speaker", "onto": "steel 1 mm", "removed": "yearly", "edge": "40 mm", "behind": "60 mm", "mass": "1.5 kg",
    "between": "foam 2 mm", "pattern": "circle 165 mm", "fixings": "6", "item-material": "abs", "item-hole": "5.5 mm",
    "support": "firm", "panel": "side", "far-side": "dry",
}  # fmt: skip


def route(said: dict[str, str], at: int, what: str = "oversize 9 mm") -> Route:
    mount = resolve(read_question(said, TABLES), TABLES)
    joint = advise(mount, TABLES, changes=False).answers[0].proposal.joint
    found = repaired(joint, mount, read_damage(what), at, TABLES)
    return next(one for one in (*found.routes, *found.refused) if one.route == "L1")


def test_no_clamp_is_left_out_where_its_cable_would_hang_too_far() -> None:
    """Clamps 300 mm apart at most: without one of them its neighbours are twice as far, or the end is too far."""
    mount = resolve(read_question(CLAMPS, TABLES), TABLES)
    assert mount.pattern is not None
    pitch_mm = mount.pattern.a_mm
    between = route(CLAMPS, 2).refused
    assert between is not None
    assert [figure.value for figure in between.figures] == pytest.approx([2 * pitch_mm, 300.0])
    assert route(CLAMPS | {"pattern": "row 145 mm", "fixings": "21"}, 2).refused is None
    at_end = route(CLAMPS | {"pattern": "row 145 mm", "fixings": "21"}, 1).refused
    assert at_end is not None
    assert at_end.figures[0].value == pytest.approx((3000 - 20 * 145) / 2 + 145)


def test_none_is_left_out_of_a_rim_that_presses_its_foam_by_itself_where_it_would_bend_too_far() -> None:
    """The sag grows by the fourth power of the gap: a sixth of the circle, then a third, by (sin 60 / sin 30)^4 = 9."""
    soft, stiff = (route(SPEAKER | {"item-thickness": f"{thick} mm"}, 1) for thick in (5, 12))
    assert soft.refused is not None
    assert soft.refused.check == "rim-bends"
    assert soft.refused.figures[0].value == pytest.approx(165 * 3**0.5 / 2)
    assert stiff.refused is None or stiff.refused.check != "rim-bends"


def test_none_is_left_out_where_the_rest_sways_too_slowly() -> None:
    """6 kg in a bay of 410 mm: practice holds it on four fixings, on three it sways at 14.9 Hz and 15 is the least."""
    said = SKIN | {"mass": "6 kg", "cg": "20 mm", "onto": "steel 1.2 mm", "support": "bay 410x470", "fixings": "4"}
    refused = route(said | {"pattern": "rectangle 100x90"}, 1).refused
    assert refused is not None
    assert refused.check == "panel-stiffness"
    assert [figure.value for figure in refused.figures] == pytest.approx([15.0, 14.914], abs=0.001)


@pytest.mark.parametrize(("carrying", "times"), [(4, 1.0), (3, 4 / 2), (2, 4 / 1)])
def test_one_that_is_left_out_may_be_of_those_that_carry(carrying: int, times: float) -> None:
    """Of four, two on the frame: without one of these the other has it all, twice what its half was."""
    said = SKIN | {"fixings": "4", "pattern": "rectangle 240x180", "edge": "40 mm"}
    on_all, on_some = (
        resolve(read_question(said | {"support": text}, TABLES), TABLES) for text in ("frame", f"frame {carrying} of 4")
    )
    odd = (Odd(0, stiffnesses=mixed.LEFT_OUT),)
    loads = [mixed.loads_at(mount, odd, (1, 2, 3), TABLES) for mount in (on_all, on_some)]
    for one, other in zip(*loads, strict=True):
        assert other.shear_n == pytest.approx(times * one.shear_n)
        assert other.tension_n == pytest.approx(times * one.tension_n)


@pytest.mark.parametrize(("support", "is_open"), [("frame", False), ("frame 2 of 4", False), ("frame 1 of 4", True)])
def test_the_only_one_on_the_frame_may_be_the_one_that_is_left_out(support: str, is_open: bool) -> None:
    """A frame neither sways nor dents; without a fixing through it the item stands on the panel alone."""
    said = SKIN | {"fixings": "4", "pattern": "rectangle 240x180", "edge": "40 mm", "mass": "1.2 kg", "cg": "20 mm"}
    found = route(said | {"support": support}, 1)
    assert found.refused is None
    assert ("panel-stiffness" in {check.id for check in found.checks if check.status is Status.NOT_CHECKED}) is is_open
