"""A stud, weld nut or tapped boss that is there already: asked about first, never proved, never an anchorage."""

from functools import cache

import pytest

from fasten.advice.advise import METHODS, advise
from fasten.catalog.parts import NUTS
from fasten.catalog.rows import METRIC_THREADS
from fasten.catalog.tables import builtin
from fasten.model import Advice, Answer, Check, ExistingThread, Origin, Refusal, Status, kinds
from fasten.question.read import read_question
from fasten.question.resolve import resolve
from fasten.report.answer.as_json import advice_json
from fasten.report.answer.as_text import advice_text

AMPLIFIER = {"item": "amplifier", "onto": "steel 0.8 mm", "removed": "yearly", "mass": "4kg", "item-hole": "6.6mm"}
TABLES = builtin()
NAME = "factory_thread"


def asked(base: dict[str, str], **said: str) -> Advice:
    return _advised(tuple(sorted((base | {name.replace("_", "-"): text for name, text in said.items()}).items())))


@cache
def _advised(fields: tuple[tuple[str, str], ...]) -> Advice:
    return advise(resolve(read_question(dict(fields), TABLES), TABLES), TABLES)


def refused(advice: Advice) -> Refusal:
    return next(refusal for refusal in advice.refusals if refusal.method == NAME)


def answered(advice: Advice) -> Answer:
    return next(answer for answer in advice.answers if answer.method == NAME)


def check(answer: Answer, identity: str) -> Check:
    return next(entry for entry in answer.proposal.checks if entry.id == identity)


# -- asked about first ------------------------------------------------------------------------------------------------


def test_without_one_it_is_what_to_look_for_first() -> None:
    advice = asked(AMPLIFIER)
    assert advice.refusals[0].method == NAME
    assert refused(advice).because == "you gave no stud or tapped boss: look for one first"


@pytest.mark.parametrize("there", ["M6", "M6 stud"])
@pytest.mark.parametrize("removed", ["never", "rarely", "yearly", "monthly"])
@pytest.mark.parametrize("known", [{}, {"behind": "40mm", "edge": "60mm"}])
def test_what_needs_no_drilling_ranks_first(there: str, removed: str, known: dict[str, str]) -> None:
    """Even before what could be proved: nothing is drilled, and the answer says what its maker must be asked."""
    best = asked(AMPLIFIER, hole_there=there, removed=removed, mass="1kg", **known).answers[0]
    assert best.method == NAME


def test_the_others_still_answer_as_if_nobody_had_told_of_it() -> None:
    plain, told = asked(AMPLIFIER), asked(AMPLIFIER, hole_there="M6")
    others = [(a.method, a.title, a.score.total) for a in told.answers if a.method != NAME]
    assert others == [(a.method, a.title, a.score.total) for a in plain.answers]
    methods = {a.method for a in told.answers} | {r.method for r in told.refusals}
    assert methods == {method.NAME for method in METHODS}


def test_what_was_told_is_carried_through_with_its_origin() -> None:
    advice = asked(AMPLIFIER, hole_there="M6 stud")
    assert advice.mount.existing_thread == ExistingThread("M6", "stud")
    assert advice.mount.existing_hole_mm is None
    assert dict(advice.mount.origins)["existing_thread"] is Origin.GIVEN
    told = advice_json(advice)["mount"]
    assert told["thread_there"] == {"value": {"thread": "M6", "kind": "stud", "length_mm": None}, "origin": "given"}
    assert "existing thread M6 stud" in " ".join(advice_text(advice).split())


# -- never an anchorage, never proved ---------------------------------------------------------------------------------


@pytest.mark.parametrize("there", ["M6", "M6 stud"])
def test_the_caution_stands_first(there: str) -> None:
    advice = asked(AMPLIFIER, hole_there=there)
    assert answered(advice).cautions[0].text.startswith("Never a seat-belt or seat anchorage")
    first_lines = " ".join(advice_text(advice).split("\n")[:12])
    assert "Never a seat-belt or seat anchorage" in first_lines
    assert not any("whatever its thread" in c.text for a in advice.answers if a.method != NAME for c in a.cautions)


@pytest.mark.parametrize("there", ["M6", "M6 stud"])
def test_nobody_but_its_maker_knows_what_it_bears(there: str) -> None:
    answer = answered(asked(AMPLIFIER, hole_there=there, behind="40mm", edge="60mm"))
    assert not answer.proposal.proven
    made_for = check(answer, "maker-load")
    assert made_for.status is Status.NOT_CHECKED
    assert made_for.needs == "needs what the vehicle maker made it for (load and torque)"
    assert answer.proposal.torque is None
    assert any("vehicle maker's figure" in step.text and "by feel" in step.text for step in answer.steps)


def test_nothing_is_drilled_and_no_bit_is_needed() -> None:
    for there in ("M6", "M6 stud"):
        answer = answered(asked(AMPLIFIER, hole_there=there))
        assert answer.proposal.joint.hole is None
        assert not any(word in need.text for word in ("bit", "drill", "punch") for need in answer.tools)
        assert not any("Drill" in step.text or "{" in step.text for step in answer.steps)


# -- sized as far as known --------------------------------------------------------------------------------------------


def test_a_screw_reaches_a_weld_nut_behind_the_panel() -> None:
    """3 mm item, 0.8 mm panel and one diameter of thread: 9.8 mm, so the shortest with a flange, 12 mm (ISO 15071)."""
    answer = answered(asked(AMPLIFIER, hole_there="M6"))
    joint = answer.proposal.joint
    assert joint.screw is not None
    assert joint.receiver is None
    assert (joint.screw.thread, joint.screw.length_mm, joint.screw.engagement_mm) == ("M6", 12.0, 6.0)
    depth = check(answer, "thread-depth")
    assert depth.status is Status.NOT_CHECKED
    assert depth.demand == pytest.approx(12.0 - 3.0)
    assert depth.needs is not None
    assert "9.0 mm" in depth.needs
    assert answer.title == "M6 factory thread"


def test_a_nut_on_a_stud_says_how_long_the_stud_must_be() -> None:
    """ISO 7089 washer 1.6 mm, 3 mm item, ISO 4032 nut 5.2 mm and one pitch past it: 10.8 mm."""
    answer = answered(asked(AMPLIFIER, hole_there="M6 stud"))
    joint = answer.proposal.joint
    nut = next(row for row in TABLES.rows(NUTS) if (row.standard, row.size) == ("ISO 4032", "M6"))
    thread = TABLES.find(METRIC_THREADS, "M6")
    assert thread is not None
    assert joint.screw is None
    assert joint.receiver is not None
    assert (joint.receiver.part, joint.receiver.length_mm) == ("hexagon nut", nut.height_max_mm)
    long = check(answer, "stud-length")
    assert long.status is Status.NOT_CHECKED
    assert long.demand == pytest.approx(4.6 + 5.2 + thread.pitch_mm)
    assert answer.title == "M6 factory stud"
    assert "10 mm socket or spanner" in [need.text for need in answer.tools]
    assert not any(c.id == "thread-depth" for c in answer.proposal.checks)


def test_our_own_screw_is_proved_and_the_studs_is_not() -> None:
    tapped, stud = (answered(asked(AMPLIFIER, hole_there=there)) for there in ("M6", "M6 stud"))
    assert any(c.id.startswith("screw-tension.") for c in tapped.proposal.checks)
    assert not any(c.id.startswith("screw-") for c in stud.proposal.checks)
    for answer in (tapped, stud):
        assert any(c.id.startswith("item-") for c in answer.proposal.checks), "the item must hold as anywhere"
        assert check(answer, "head-cover").status is Status.HOLDS


def test_a_screw_that_needs_more_room_than_there_is_behind_is_refused() -> None:
    refusal = refused(asked(AMPLIFIER, hole_there="M6", behind="2mm"))
    assert refusal.check == "space-behind"
    assert refusal.figures[1].value == 2.0


@pytest.mark.parametrize(("there", "places"), [("M6", ["stop"]), ("M6 stud", ["head", "stop"])])
def test_foam_gets_its_stop_and_plastic_a_spring_washer(there: str, places: list[str]) -> None:
    joint = answered(asked(AMPLIFIER, hole_there=there, between="foam 3 mm")).proposal.joint
    assert [washer.place.value for washer in joint.washers] == places
    plastic = answered(asked(AMPLIFIER, hole_there=there, item_material="abs", mass="1kg")).proposal.joint
    assert plastic.lock is kinds.SPRING
    assert len(plastic.washers) == 2


def told(answer: Answer) -> str:
    return " ".join(step.text for step in answer.steps)


def test_steps_tell_of_stud_or_thread_alone() -> None:
    tapped, stud = (told(answered(asked(AMPLIFIER, hole_there=there))) for there in ("M6", "M6 stud"))
    assert "run M6 x 12 in by hand" in tapped
    assert "hexagon nut" not in tapped
    assert "M6 hexagon nut" in stud
    assert "start every screw" not in stud


# -- refused ----------------------------------------------------------------------------------------------------------


def test_an_item_that_does_not_pass_the_thread_says_which_hole_it_wants() -> None:
    """ISO 273, fine: M8 wants 8.4 mm."""
    refusal = refused(asked(AMPLIFIER, hole_there="M8"))
    assert [(figure.name, figure.value) for figure in refusal.figures] == [("item hole", 6.6), ("wanted", 8.4)]
    assert refusal.change == "a 9 mm item hole for M8"
    assert answered(asked(AMPLIFIER, hole_there="M8", item_hole="9mm"))


@pytest.mark.parametrize("onto", ["MDF 18 mm", "pine 18 mm"])
def test_a_thread_in_board_is_no_factory_thread(onto: str) -> None:
    assert "for sheet" in refused(asked(AMPLIFIER, onto=onto, hole_there="M6")).because


@pytest.mark.parametrize("there", ["M6x0.75", "M6x0.75 stud"])
def test_a_thread_without_a_stocked_screw_or_nut_is_refused(there: str) -> None:
    assert "M6x0.75 is in the tables" in refused(asked(AMPLIFIER, hole_there=there)).because


def test_a_ground_lug_takes_the_stud_that_its_ring_is_for() -> None:
    lug = {"item": "ground-lug", "onto": "steel 0.8 mm", "removed": "rarely", "ring": "M8"}
    steps = told(answered(asked(lug, hole_there="M8 stud")))
    assert "sand the metal bright" in steps
    assert "battery back on" in steps
    assert "M8" in refused(asked(lug, hole_there="M6 stud")).because


def test_a_head_with_a_flange_gets_no_narrower_washer_under_it() -> None:
    """ISO 15071 M6: a flange of 13.6 mm covers the hole by itself; a plain washer is 12 mm across (ISO 7089)."""
    bare = answered(asked(AMPLIFIER, hole_there="M6")).proposal.joint
    assert bare.screw is not None
    assert (bare.screw.head, bare.washers) == ("hexagon_flange", ())
    wide = answered(asked(AMPLIFIER, hole_there="M6", item_hole="12 mm")).proposal.joint
    assert [(washer.standard, washer.outer_mm) for washer in wide.washers] == [("ISO 7093-1", 18.0)]
