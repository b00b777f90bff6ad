"""The panel under the item: how fast it sways, what practice puts on it, what dents it, and what is asked for instead.

Frequencies of bays are those of finite elements run apart from this code; what is marked so is common practice.
"""

import pytest

from fasten.advice.advise import advise
from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.model import Check, MountPoint, Status
from fasten.proof.demands import demands
from fasten.proof.panel import push_limit, stiffness
from fasten.question.read import read_question
from fasten.question.resolve import resolve

TABLES = builtin()
AMPLIFIER = {
    "item": "amplifier", "onto": "steel 0.8 mm", "removed": "yearly", "mass": "5kg", "cg": "30mm", "panel": "floor",
    "pattern": "rectangle 240x180", "behind": "40mm", "edge": "40mm",
}  # fmt: skip


def mount(**said: str) -> MountPoint:
    fields = AMPLIFIER | {name.replace("_", "-"): text for name, text in said.items()}
    return resolve(read_question(fields, TABLES), TABLES)


def line(**said: str) -> Check:
    return stiffness(mount(**said), TABLES)


def given(check: Check) -> dict[str, float]:
    return {entry.name: entry.value for entry in check.inputs}


# -- by hand ----------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("onto", "holds", "open_"),
    [("steel 0.7 mm", "6.8kg", "6.9kg"), ("steel 0.8 mm", "7.2kg", "7.3kg"),
     ("steel 1.0 mm", "7.8kg", "7.9kg"), ("steel 1.2 mm", "10kg", "10.2kg")],
)  # fmt: skip
def test_a_firm_panel_carries_what_the_heel_of_a_hand_shows(onto: str, holds: str, open_: str) -> None:
    """100 N, 0.3 mm, 20 % and 0.05 mm against it, 25 Hz: 6.82, 7.27, 7.88 kg by hand; at 1.2 mm practice holds 10."""
    assert line(onto=onto, mass=holds, support="firm").status is Status.HOLDS
    assert line(onto=onto, mass=open_, support="firm").status is Status.NOT_CHECKED


def test_what_is_not_known_is_asked_for_by_a_push_with_its_figure() -> None:
    """5 kg on 0.8 mm: 80 N / (x + 0.05) / (1 + 1.43 ((x + 0.05)/0.8)^2) = 123.4 N/mm at x = 0.39 mm, read down."""
    found = line()
    assert found.status is Status.NOT_CHECKED
    assert found.needs == "needs a push there: 100 N may move the panel 0.39 mm at most"
    assert line(support="push 100 N 0.39 mm").status is Status.HOLDS
    assert line(support="push 100 N 0.41 mm").status is Status.NOT_CHECKED


@pytest.mark.parametrize("cg", ["30mm", "80mm", "120mm"])
@pytest.mark.parametrize("mass", ["6kg", "9kg"])
def test_a_push_that_is_asked_for_settles_it_where_the_item_rocks_too(cg: str, mass: str) -> None:
    """What stands high rocks more slowly than it bounces, and its panel must be stiffer by the square of that."""
    limit = push_limit(mount(cg=cg, mass=mass), TABLES)
    assert limit is not None
    at_most, over = (f"push {limit.force_n} N {limit.moved_mm + more:.2f} mm" for more in (0.0, 0.02))
    assert line(cg=cg, mass=mass, support=at_most).status is Status.HOLDS
    assert line(cg=cg, mass=mass, support=over).status is Status.NOT_CHECKED


def test_a_soft_panel_fails() -> None:
    """100 N that moves it 10 mm: at most 120 / 9.95 = 12.1 N/mm, 5 kg sways at 7.8 Hz, under 15."""
    found = line(support="push 100 N 10 mm")
    assert found.status is Status.FAILS
    assert found.allowable == pytest.approx(7.82, abs=0.01)


@pytest.mark.parametrize("mass", ["3.5kg", "1kg"])
def test_a_panel_that_snaps_is_never_proven(mass: str) -> None:
    """60 N at 0.4 mm is 150 N/mm, 150 N at 2 mm only 75: it gives way, whatever its first stiffness or practice."""
    found = line(support="push 60 N 0.4 mm, 150 N 2 mm", mass=mass)
    assert found.status is Status.NOT_CHECKED
    assert "snaps" in (found.needs or "")


def test_two_pushes() -> None:
    """50 N 0.4 mm and 100 N 0.72 mm: k0 118.8, 0.8 of it 95 N/mm, 25 Hz for 3.85 kg."""
    assert line(support="push 50 N 0.4 mm, 100 N 0.72 mm", mass="3.8kg").status is Status.HOLDS
    assert line(support="push 50 N 0.4 mm, 100 N 0.72 mm", mass="3.9kg").status is Status.NOT_CHECKED


@pytest.mark.parametrize(("hz", "status"), [("26", Status.HOLDS), ("25.5", Status.NOT_CHECKED), ("13", Status.FAILS)])
def test_a_tapped_frequency_has_an_error_of_a_hertz(hz: str, status: Status) -> None:
    assert line(support=f"tapped {hz} Hz").status is status


# -- by the bay -------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("bay", "low", "status"),
    [("bay 300x450", 14.38, Status.NOT_CHECKED), ("bay 240x400", 26.63, Status.HOLDS)],
)
def test_a_bay_holds_by_its_lower_bound(bay: str, low: float, status: Status) -> None:
    found = line(support=bay)
    assert found.status is status
    assert given(found)["sways at" if status is Status.HOLDS else "sways at least"] == pytest.approx(low, abs=0.01)


def test_a_large_bay_fails_by_its_upper_bound_where_it_is_flat() -> None:
    """400 x 600: 14.47 Hz with clamped edges (finite elements). On a side panel, which is curved, nothing is said."""
    found = line(support="bay 400x600")
    assert found.status is Status.FAILS
    assert found.allowable == pytest.approx(14.47, rel=0.04)  # a square stands for 180 x 240 in the table
    assert line(support="bay 400x600", panel="side").status is Status.NOT_CHECKED


def test_fixings_near_the_edge_of_a_bay_are_on_what_holds_it() -> None:
    found = line(support="bay 200x290")
    assert found.status is Status.NOT_CHECKED
    assert "say frame" in (found.needs or "")


def test_what_fails_says_what_would_make_it_pass() -> None:
    """Two rails over 400 mm for 5 kg: I of 123.4 x 400^3 / (48 x 2 x 205000) = 401 mm4, a 15 x 1.5 tube has 2490."""
    advice = advise(mount(support="bay 400x600"), TABLES)
    assert not advice.answers
    change = next(r.change for r in advice.refusals if r.check == "panel-stiffness")
    assert change == "every fixing through a frame or two rails of 15 x 1.5 mm square steel tube over 400 mm"


# -- by practice ------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("said", "holds", "open_"),
    [
        ({}, "3kg", "3.1kg"),  # 0.8 mm of steel
        ({"onto": "aluminium 1.5 mm"}, "6.8kg", "7.0kg"),  # D 22 091 over 9 612 N mm of it
        ({"onto": "steel 1.5 mm"}, "10kg", "10.1kg"),  # the cap
        ({"onto": "mdf 12 mm"}, "4kg", "4.1kg"),
        ({"onto": "plywood 12 mm"}, "12kg", "12.1kg"),
        ({"onto": "mdf 18 mm"}, "13.5kg", "13.6kg"),  # 4 x 1.5^3
        ({"support": "ribs 8 mm"}, "10kg", "10.1kg"),
        ({"item": "speaker adapter", "onto": "steel 0.7 mm", "pattern": "circle 180", "fixings": "6"}, "5kg", "5.1kg"),
    ],
)  # fmt: skip
def test_practice_carries_a_small_mass(said: dict[str, str], holds: str, open_: str) -> None:
    """Common practice, no source: 3 kg at 0.8 mm by bending stiffness, 10 at most; boards, beads and rings apart."""
    assert line(**said, mass=holds).status is Status.HOLDS
    assert line(**said, mass=open_).status is Status.NOT_CHECKED


def test_nothing_is_hung_from_a_roof_skin_by_practice() -> None:
    assert line(panel="roof", mass="0.5kg").status is Status.NOT_CHECKED
    assert line(panel="roof", mass="0.5kg", support="firm").status is Status.HOLDS


def test_an_undecided_reading_leaves_the_rule_of_practice_standing() -> None:
    assert line(support="push 100 N 1.5 mm", mass="3kg").status is Status.HOLDS
    assert line(support="push 100 N 1.5 mm", mass="3.1kg").status is Status.NOT_CHECKED


@pytest.mark.parametrize("support", ["", "ribs 8 mm", "push 60 N 1.2 mm"])
def test_a_panel_that_is_not_said_holds_no_more_than_the_roof_that_it_may_be(support: str) -> None:
    """By practice alone a skin holds 3 kg, a roof nothing: unsaid, the roof counts until the panel is known."""
    said = {"item": "crossover", "onto": "steel 0.8 mm", "removed": "rarely", "mass": "1 kg", "support": support}
    found = {
        panel: stiffness(resolve(read_question(said | {"panel": panel}, TABLES), TABLES), TABLES)
        for panel in ("", "roof", "side")
    }
    assert {panel: check.status for panel, check in found.items()} == {
        "": Status.NOT_CHECKED, "roof": Status.NOT_CHECKED, "side": Status.HOLDS,
    }  # fmt: skip
    assert (found[""].needs or "").startswith("needs the panel")
    thick = resolve(read_question(said | {"onto": "steel 2 mm"}, TABLES), TABLES)
    assert stiffness(thick, TABLES).status is Status.HOLDS, "no skin"


def test_of_a_cable_one_clamps_share_counts() -> None:
    found = stiffness(
        resolve(
            read_question(
                {
                    "item": "wire clamp",
                    "onto": "steel 0.8 mm",
                    "removed": "rarely",
                    "run": "3 m",
                    "mass": "4kg",
                    "panel": "side",
                },
                TABLES,
            ),
            TABLES,
        ),
        TABLES,
    )
    assert found.status is Status.HOLDS
    assert found.demand is not None
    assert found.demand < 0.5


# -- a frame ----------------------------------------------------------------------------------------------------------


def test_on_a_frame_nothing_of_the_panel_is_checked_and_the_grip_takes_both_sheets() -> None:
    found = mount(support="frame", mass="12kg")
    assert (found.thickness_min_mm, found.thickness_max_mm) == pytest.approx((0.8, 2.3))
    for answer in advise(found, TABLES, changes=False).answers:
        ids = {check.id for check in answer.proposal.checks}
        assert ids.isdisjoint({"panel-stiffness", "dent.service"})


def test_where_some_fixings_are_on_the_frame_those_carry() -> None:
    """Four of six: each bears half as much again."""
    six = {"fixings": "6", "pattern": "rectangle 240x180"}
    all_, some = (demands(mount(**six, support=text), TABLES) for text in ("frame", "frame 4 of 6"))
    assert [one.shear_n for one in some] == pytest.approx([1.5 * one.shear_n for one in all_])
    assert [one.tension_n for one in some] == pytest.approx([1.5 * one.tension_n for one in all_])
    with pytest.raises(FastenError, match="8 of 6 fixings cannot go through a frame"):
        mount(**six, support="frame 8")


# -- dents ------------------------------------------------------------------------------------------------------------


def test_a_dent_is_refused_where_the_support_is_said_and_open_where_it_is_not() -> None:
    """40 kg on four fixings of 0.8 mm skin pulls more than dents it: no answer is proven either way."""
    heavy = {"mass": "40kg", "cg": "150mm"}
    for answer in advise(mount(**heavy), TABLES, changes=False).answers:
        assert not answer.proposal.proven
        needs = [check.needs for check in answer.proposal.checks if check.id == "dent.service"]
        assert needs == [] or "would dent the sheet" in str(needs[0])
    assert all(
        not answer.proposal.proven for answer in advise(mount(**heavy, support="firm"), TABLES, changes=False).answers
    )


def test_twelve_kilograms_over_the_head_are_not_proven_on_a_roof_skin() -> None:
    found = advise(mount(onto="steel 0.7 mm", mass="12kg", removed="never", panel="roof"), TABLES)
    assert all(not answer.proposal.proven for answer in found.answers)


# -- what is said -----------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "text",
    ["stiff", "frame of 4", "frame 6 of 4", "firm 3", "push", "push 100 N", "push 60 N 0.4 mm, 40 N 0.8 mm", "tapped",
     "tapped 0 Hz", "bay 300", "bay 300x", "span", "ribs", "push 1 N 1 mm, 2 N 2 mm, 3 N 3 mm"],
)  # fmt: skip
def test_what_is_no_support_is_refused_in_a_sentence(text: str) -> None:
    with pytest.raises(FastenError) as caught:
        mount(support=text)
    assert caught.value.where == "support"
    assert caught.value.fix
