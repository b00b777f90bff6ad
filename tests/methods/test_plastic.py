"""Plastic, laminate and sheet edges, from what a person types to the advice: what fits, what is refused and why."""

from functools import cache
from pathlib import Path

import pytest
from built.own_row import tables_with

from fasten.advice.advise import advise
from fasten.catalog.practice import METHOD_WORDS
from fasten.catalog.tables import builtin
from fasten.geometry.joint import drilled
from fasten.model import Advice, Answer, Check, Position, Refusal, Status
from fasten.question.read import read_question
from fasten.question.resolve import resolve

CROSSOVER = {"item": "crossover", "onto": "ABS 3 mm", "removed": "yearly", "mass": "1kg"}
AMPLIFIER = {"item": "amplifier", "onto": "ABS 3 mm", "removed": "yearly", "mass": "5kg"}
BOSSED = ("thread_forming_screw", "heat_set_insert", "self_tapping_insert")


def asked(base: dict[str, str], **said: str) -> Advice:
    return _advised(tuple(sorted((base | {name.replace("_", "-"): text for name, text in said.items()}).items())))


@cache
def _advised(fields: tuple[tuple[str, str], ...]) -> Advice:
    return advise(resolve(read_question(dict(fields), builtin()), builtin()), builtin())


def refused(advice: Advice, method: str) -> Refusal:
    return next(refusal for refusal in advice.refusals if refusal.method == method)


def answered(advice: Advice, method: str) -> Answer:
    return next(answer for answer in advice.answers if answer.method == method)


def check(answer: Answer, identity: str) -> Check:
    return next(entry for entry in answer.proposal.checks if entry.id == identity)


def figures(refusal: Refusal) -> dict[str, float]:
    return {figure.name: figure.value for figure in refusal.figures}


# -- a crossover on a pocket of 3 mm ABS ------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("method", "across_mm", "deep_mm"),
    [
        ("thread_forming_screw", 7.0, 8.75),  # the 3.5 mm screw of a 4.5 mm hole: 2 d across; 2 d and half a d deep
        ("heat_set_insert", 2 * 6.17, 9.15),  # M4: twice its outside; its length and 1 mm
        ("self_tapping_insert", 13.0, 10.0),  # M4: twice its outside; blind depth of the suppliers' tables
    ],
)
def test_without_a_boss_screws_and_inserts_say_which_they_need(method: str, across_mm: float, deep_mm: float) -> None:
    refusal = refused(asked(CROSSOVER), method)
    assert "it needs a boss" in refusal.because
    assert figures(refusal) == pytest.approx({"boss across": across_mm, "boss deep": deep_mm, "plastic": 3.0})


def test_a_crossover_is_bolted_through_with_washers_on_both_sides() -> None:
    best = asked(CROSSOVER, reach="both-sides", edge="20mm", behind="40mm").answers[0]
    assert (best.method, best.proposal.proven) == ("through_bolt", True)
    assert sorted(washer.place.value for washer in best.proposal.joint.washers) == ["head", "nut"]
    assert all(washer.outer_mm == 12 for washer in best.proposal.joint.washers), "ISO 7093-1 M4"


def test_an_amplifier_there_fits_nothing_and_says_why() -> None:
    advice = asked(AMPLIFIER, reach="both-sides", panel="floor", edge="40mm", behind="40mm")
    assert not advice.answers
    bolt = refused(advice, "through_bolt")
    assert "hole elongated" in bolt.because
    assert "hard-stop" in bolt.because
    assert all(refused(advice, method).change is None for method in BOSSED), (
        "no plastic panel should carry it, boss or not"
    )
    assert "light" in refused(advice, "expanding_nut").because


def test_one_side_of_thin_plastic_leaves_what_only_a_box_could_prove() -> None:
    advice = asked(CROSSOVER)
    assert {a.method for a in advice.answers} == {"expanding_nut"}, "clips and ball studs are for trim"
    assert not any(a.proposal.proven for a in advice.answers)
    *_, last = asked(CROSSOVER, item_hole="5.5mm").answers
    assert last.method == "bonded_stud", "a bond is the last resort"
    assert refused(advice, "through_bolt").change == "both sides reached"


def test_the_boss_a_refusal_asks_for_does() -> None:
    """Where nothing else fits, the change it names is proved: asked again with that boss, the screw is there."""
    heavy = CROSSOVER | {"removed": "rarely", "mass": "3 kg", "panel": "floor", "item-thickness": "6 mm"}
    advice = asked(heavy)
    assert not advice.answers
    changes = [refused(advice, method).change for method in BOSSED]
    assert any(change is not None and "boss" in change for change in changes)
    assert asked(heavy, boss="13x14 mm").answers


# -- bosses -----------------------------------------------------------------------------------------------------------


def test_a_boss_takes_a_screw_by_feel_that_rarely_comes_off() -> None:
    best = asked(CROSSOVER, removed="rarely", boss="8x12 mm").answers[0]
    joint = best.proposal.joint
    assert (best.method, best.proposal.proven, best.proposal.torque) == ("thread_forming_screw", True, None)
    assert drilled(joint).diameter_mm == pytest.approx(3.2), "0.80 of 4 mm, which a 4.5 mm hole guides"
    deep_mm = drilled(joint).depth_mm
    assert deep_mm is not None
    assert deep_mm <= 12
    assert any("1.2 times what drove it, at most half of what stripped it" in step.text for step in best.steps)


def test_a_formed_thread_is_not_for_what_comes_off_yearly() -> None:
    """Five removals: 3 to 10 drives into a boss, common practice, no source."""
    refusal = refused(asked(CROSSOVER, boss="13x12 mm"), "thread_forming_screw")
    assert figures(refusal) == {"demand": 10, "capacity": 5}


def test_a_wide_boss_takes_an_insert_that_comes_off_monthly() -> None:
    best = asked(CROSSOVER, boss="13x12 mm", removed="monthly").answers[0]
    assert best.method in {"heat_set_insert", "self_tapping_insert"}
    assert best.proposal.proven


@pytest.mark.parametrize(("apart", "stands"), [("18.6 mm", True), ("18.4 mm", False), ("13 mm", False)])
def test_inserts_keep_three_of_their_own_outsides_apart(apart: str, stands: bool) -> None:
    """An M4 heat-set insert is 6.17 mm across: three times that is 18.51 mm, whatever its screw is."""
    said = CROSSOVER | {"fixings": "2", "pattern": f"row {apart}", "mass": "0.2kg", "item-hole": "4.5mm"}
    advice = asked(said, boss="13x12 mm", edge="30mm")
    m4 = [a for a in advice.answers if a.method == "heat_set_insert" and a.title.startswith("M4")]
    assert bool(m4) is stands
    if not stands:
        refusal = refused(advice, "heat_set_insert")
        assert refusal.check == "spacing"


@pytest.mark.parametrize(("boss", "status"), [("13 mm", Status.NOT_CHECKED), ("13x12 mm", Status.HOLDS)])
def test_a_boss_of_unknown_depth_is_not_proven(boss: str, status: Status) -> None:
    answer = answered(asked(CROSSOVER, boss=boss), "heat_set_insert")
    assert check(answer, "boss-depth").status is status
    assert answer.proposal.proven is (status is Status.HOLDS)


def test_a_narrow_or_a_shallow_boss_is_refused_with_its_figure() -> None:
    narrow = refused(asked(CROSSOVER, boss="12x12 mm"), "heat_set_insert")
    assert (narrow.check, figures(narrow)) == ("boss", {"demand": pytest.approx(12.34), "capacity": 12.0})
    shallow = refused(asked(CROSSOVER, boss="13x9 mm"), "heat_set_insert")
    assert (shallow.check, figures(shallow)) == ("boss-depth", {"demand": pytest.approx(9.15), "capacity": 9.0})


def test_plastic_as_deep_as_a_boss_is_its_own_boss() -> None:
    answer = answered(asked(CROSSOVER, onto="HDPE 15 mm", edge="20mm", mass="0.2kg"), "self_tapping_insert")
    assert answer.proposal.proven
    assert check(answer, "edge-distance").demand == pytest.approx(6.5), "half a boss"


def test_an_insert_holds_what_lies_on_it() -> None:
    """A hole as wide as the insert lets the screw pull it up: item hole and 1 mm under its outside, 6.17 for M4."""
    answer = answered(asked(CROSSOVER, boss="30x30 mm"), "heat_set_insert")
    assert check(answer, "jacking-out").allowable == 6.17
    assert all(
        a.proposal.joint.screw is not None and a.proposal.joint.screw.thread != "M4"
        for a in asked(CROSSOVER, boss="30x30 mm", item_hole="5.5mm").answers
        if a.method == "heat_set_insert"
    )


@pytest.mark.parametrize(("onto", "said"), [("acrylic 12 mm", "acrylic"), ("PVC foam board 19 mm", "PVC foam board")])
def test_what_cracks_or_crumbles_takes_no_formed_thread(onto: str, said: str) -> None:
    advice = asked(CROSSOVER, onto=onto, removed="rarely")
    assert all(refused(advice, method).because.startswith(said) for method in BOSSED)


# -- heat -------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("where", ["cabin", "door"])
def test_a_parked_car_halves_the_plastic(where: str) -> None:
    """ABS yields at 29.6 MPa at its least; half of it is left at the 62 to 77 °C it is good for: common practice."""
    said = {"removed": "rarely", "boss": "8x12 mm"}
    hot, cold = (
        answered(asked(CROSSOVER, **said, where=place), "thread_forming_screw") for place in (where, "underfloor")
    )
    for identity in ("plastic-pull-out.service", "plastic-bearing.hard_stop"):
        in_heat, in_shade = check(hot, identity).allowable, check(cold, identity).allowable
        assert in_heat is not None
        assert in_shade is not None
        assert in_heat == pytest.approx(in_shade / 2)


def test_heat_can_turn_an_answer() -> None:
    heavy = CROSSOVER | {"mass": "2.5kg", "reach": "both-sides", "edge": "20mm", "behind": "40mm", "panel": "floor"}
    assert "through_bolt" in {answer.method for answer in asked(heavy, where="underfloor").answers}
    assert refused(asked(heavy, where="cabin"), "through_bolt").check == "plastic-together.hard_stop"


def test_no_more_than_10_mpa_stays_under_a_washer() -> None:
    """10 MPa on ABS, common practice; M4 large washer 12 mm over a hole of at most 4.8 mm, K 0.2, scatter 0.35."""
    best = asked(CROSSOVER, reach="both-sides", edge="20mm", behind="40mm").answers[0]
    assert best.proposal.torque is not None
    wanted_n = 10 * 3.14159 / 4 * (12**2 - 4.8**2) / 1.35
    assert best.proposal.torque.max_nm == pytest.approx(0.2 * 0.004 * wanted_n, rel=1e-3)


# -- laminate ---------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize("method", ["rivet_nut", "expanding_nut"])
def test_what_spreads_behind_laminate_needs_a_washer_there(method: str) -> None:
    advice = asked(CROSSOVER, onto="fibreglass 3 mm")
    assert "backing washer" in refused(advice, method).because
    assert figures(refused(advice, method)) == {"sides reached": 1, "sides needed": 2}


def test_a_rivet_nut_in_laminate_sits_on_a_backing_washer_inside_its_grip() -> None:
    said = {"onto": "fibreglass 2 mm", "reach": "both-sides", "edge": "40mm", "behind": "40mm", "item_hole": "5.5mm"}
    answer = answered(asked(CROSSOVER, **said), "rivet_nut")
    joint = answer.proposal.joint
    behind = [washer for washer in joint.washers if washer.place == Position.NUT]
    assert len(behind) == 1
    assert behind[0].hole_mm >= drilled(joint).diameter_mm + drilled(joint).tolerance_mm.plus
    assert joint.grip_mm == pytest.approx(2 + behind[0].thickness_mm)
    assert any("backing washer over the body" in step.text for step in answer.steps)


def test_a_rivet_nut_in_steel_needs_none() -> None:
    said = {"onto": "steel 0.8 mm", "reach": "both-sides", "edge": "40mm", "behind": "40mm"}
    answer = answered(asked(CROSSOVER, **said), "rivet_nut")
    assert not [washer for washer in answer.proposal.joint.washers if washer.place == Position.NUT]
    assert not any("laminate" in step.text for step in answer.steps)


# -- edges and boxes --------------------------------------------------------------------------------------------------

FUSE = {"item": "fuse-holder", "onto": "steel 0.8 mm", "removed": "yearly", "behind": "30mm", "panel": "side"}


@pytest.mark.parametrize(("edge", "because"), [("", "you gave none"), ("25 mm", "beyond its 10 mm reach")])
def test_a_clip_nut_needs_an_edge_that_was_told_of(edge: str, because: str) -> None:
    assert because in refused(asked(FUSE, edge=edge), "clip_nut").because


def test_a_clip_nut_within_reach_waits_for_its_box() -> None:
    answer = answered(asked(FUSE, edge="10 mm"), "clip_nut")
    assert check(answer, "clip-reach").status is Status.HOLDS
    assert {c.id for c in answer.proposal.checks if c.status is Status.NOT_CHECKED} == {"rated-pull", "rated-torque"}
    assert answer.proposal.torque is None


def test_a_row_of_the_users_own_box_proves_a_clip_nut(tmp_path: Path) -> None:
    columns = "thread sheet_min sheet_max reach hole hole_plus behind rated torque"
    row = ("M4", 0.7, 2.5, 10.0, 6.0, 0.5, 5.0, 900, 1.5)
    tables = tables_with(tmp_path, "clip-nuts", columns, "- mm mm mm mm mm mm N N·m", row)
    advice = advise(resolve(read_question(FUSE | {"edge": "10 mm"}, tables), tables), tables)
    answer = answered(advice, "clip_nut")
    assert answer.proposal.proven
    assert check(answer, "rated-pull.service").allowable == 300, "a third of 900 N"
    assert answer.proposal.torque is not None
    assert answer.proposal.torque.max_nm <= 1.5


def test_a_plastic_nut_is_for_what_seldom_comes_off() -> None:
    rarely = [a for a in asked(FUSE, removed="rarely").answers if a.method == "expanding_nut"]
    yearly = [a for a in asked(FUSE).answers if a.method == "expanding_nut"]
    assert {drilled(a.proposal.joint).shape for a in yearly} == {"round"}
    assert all(drilled(a.proposal.joint).shape in {"round", "square"} for a in rarely)


def test_an_expanding_nut_claims_no_clamp() -> None:
    answer = answered(asked(FUSE), "expanding_nut")
    assert answer.proposal.joint.kind.value == "located"
    assert not any("{" in step.text for step in answer.steps)


def test_no_clamp_on_plastic_has_threadlocker() -> None:
    for method in BOSSED:
        words = builtin().find(METHOD_WORDS, method)
        assert words is not None
        assert "threadlocker" not in words.replace


def test_every_kind_of_hole_has_a_bit() -> None:
    for said in (CROSSOVER | {"boss": "30x30 mm"}, CROSSOVER | {"reach": "both-sides"}, FUSE | {"edge": "10 mm"}):
        for answer in asked(said).answers:
            if answer.proposal.joint.patch is None:
                assert drilled(answer.proposal.joint).bit.holds, answer.title
