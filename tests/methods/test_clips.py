"""Push-in clips and ball studs, from what a person types to the advice: light trim, and what they refuse."""

import json
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest
from built import receivers
from built.few import few
from built.own_row import tables_with
from built.receivers import changed
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from fasten.advice.advise import advise
from fasten.catalog.parts import BALL_STUDS, PUSH_IN_CLIPS
from fasten.catalog.practice import RULES
from fasten.catalog.tables import Tables, builtin
from fasten.geometry.joint import drilled
from fasten.methods import ball_stud, push_in_clip
from fasten.model import Advice, Answer, Check, Joint, JointKind, MountPoint, Proposal, Refusal, Status
from fasten.proof.demands import demands
from fasten.proof.modes import common as modes
from fasten.proof.modes import item as item_modes
from fasten.proof.modes import plastic as plastic_modes
from fasten.proof.prove import prove
from fasten.question.read import read_question
from fasten.question.resolve import resolve
from fasten.report.answer.as_json import advice_json

TRIM = {"item": "trim-panel", "onto": "steel 0.8 mm", "removed": "rarely", "panel": "door"}
SNAPPED = ("push_in_clip", "ball_stud")


def mounted(base: dict[str, str], **said: str) -> MountPoint:
    return resolve(read_question(base | {name.replace("_", "-"): text for name, text in said.items()}, TABLES), TABLES)


TABLES = builtin()


def asked(base: dict[str, str], **said: str) -> Advice:
    return _advised(tuple(sorted((base | {name.replace("_", "-"): text for name, text in said.items()}).items())))


@cache
def _advised(fields: tuple[tuple[str, str], ...]) -> Advice:
    return advise(resolve(read_question(dict(fields), TABLES), TABLES), TABLES)


def refused(advice: Advice, method: str) -> Refusal:
    return next(refusal for refusal in advice.refusals if refusal.method == method)


def answered(advice: Advice, method: str) -> Answer:
    return next(answer for answer in advice.answers if answer.method == method)


def check(answer: Answer, identity: str) -> Check:
    return next(entry for entry in answer.proposal.checks if entry.id == identity)


def open_checks(answer: Answer) -> set[str]:
    return {entry.id for entry in answer.proposal.checks if entry.status is Status.NOT_CHECKED}


def figures(refusal: Refusal) -> dict[str, float]:
    return {figure.name: figure.value for figure in refusal.figures}


# -- light trim only --------------------------------------------------------------------------------------------------


def test_a_door_trim_hangs_on_clips_until_their_box_is_read() -> None:
    answer = answered(asked(TRIM, behind="30mm", edge="40mm"), "push_in_clip")
    joint = answer.proposal.joint
    assert (joint.screw, joint.kind, answer.proposal.torque) == (None, JointKind.LOCATED, None)
    assert open_checks(answer) == {"rated-pull", "rated-shear"}
    assert check(answer, "rated-pull").needs == "needs the pull its box gives"
    assert answer.title == f"{drilled(joint).diameter_mm:g} mm push-in clip"
    assert not any("{" in step.text or " -" in step.text for step in answer.steps)


@pytest.mark.parametrize("method", SNAPPED)
def test_heavy_items_are_never_on_clips_alone(method: str) -> None:
    """0.3 kg a clip: a door trim of 3 kg on some ten, common practice, no source."""
    refusal = refused(asked(TRIM, item="amplifier", mass="6kg", removed="yearly"), method)
    assert "no heavy items on" in refusal.because
    assert (refusal.figures[0].value, refusal.figures[1].value) == (1.5, 0.3)


@pytest.mark.parametrize("method", SNAPPED)
def test_nor_are_they_on_many_clips(method: str) -> None:
    refusal = refused(asked(TRIM, mass="6kg", fixings="40", pattern="rectangle 900x600"), method)
    assert figures(refusal) == {"mass": 6.0, "limit": 3.0}


@settings(max_examples=few(60), deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(mass_kg=st.floats(0.05, 8), fixings=st.sampled_from((4, 6, 8, 20)))
def test_what_is_offered_never_passes_either_limit(mass_kg: float, fixings: int) -> None:
    mount = replace(mounted(TRIM), mass_kg=mass_kg, fixings=fixings)
    limits = {row.rule: row.value for row in TABLES.rows(RULES)}
    light = mass_kg / fixings <= limits["trim-mass"] and mass_kg <= limits["trim-mass-whole"]
    for method in (push_in_clip, ball_stud):
        assert (method.gates(mount, TABLES) is None) == light


@pytest.mark.parametrize(("removed", "count"), [("weekly", 520), ("monthly", 120)])
def test_a_few_pulls_wear_a_clip(removed: str, count: int) -> None:
    refusal = refused(asked(TRIM, removed=removed), "push_in_clip")
    assert refusal.because == f"a few pulls wear a clip, and this comes off {removed}"
    assert figures(refusal)["removals wanted"] == count


@pytest.mark.parametrize("removed", ["never", "rarely", "yearly"])
def test_clips_stand_few_removals_and_spares_are_put_by(removed: str) -> None:
    answer = answered(asked(TRIM, removed=removed), "push_in_clip")
    spares = ("push-in clip at every 3 removals",)
    assert answer.proposal.removals.replace == (() if removed == "never" else spares)


@pytest.mark.parametrize("removed", ["monthly", "weekly"])
def test_a_ball_stud_is_for_what_comes_off_often(removed: str) -> None:
    answer = answered(asked(TRIM, removed=removed, behind="30mm", edge="40mm"), "ball_stud")
    assert answer.proposal.removals.replace == ("ball socket at every 100 removals",)
    assert open_checks(answer) == {"rated-pull", "rated-shear", "water-behind"}  # a door is wet inside


@pytest.mark.parametrize("method", SNAPPED)
@pytest.mark.parametrize("onto", ["MDF 18 mm", "pine 18 mm"])
def test_not_in_board(method: str, onto: str) -> None:
    assert "for sheet or plastic or laminate" in refused(asked(TRIM, onto=onto), method).because


@pytest.mark.parametrize("onto", ["ABS 2 mm", "fibreglass 2 mm", "aluminium 1.5 mm"])
def test_in_other_thin_panels(onto: str) -> None:
    methods = {answer.method for answer in asked(TRIM, onto=onto, behind="30mm", edge="60mm").answers}
    assert set(SNAPPED) <= methods


# -- clips ------------------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("onto", "item", "under"),
    [("steel 0.8 mm", "9mm", 9.8), ("steel 6 mm", "2.5mm", 8.5), ("ABS 0.4 mm", "0.5mm", 0.9)],
)
def test_layers_beyond_every_grip_are_refused_with_their_figure(onto: str, item: str, under: float) -> None:
    refusal = refused(asked(TRIM, onto=onto, item_thickness=item, item_hole="9mm"), "push_in_clip")
    assert figures(refusal)["layers together"] == pytest.approx(under)
    assert "1 to 8 mm" in refusal.because


def test_foam_that_no_sleeve_stops_is_gripped_at_its_full_height() -> None:
    """2.5 mm item, 4 mm foam, 0.8 mm panel: 7.3 mm, more than the 7 mm of the 8 mm clip, so the 9 mm one."""
    joint = answered(asked(TRIM, between="foam 4 mm", item_hole="9mm"), "push_in_clip").proposal.joint
    assert drilled(joint).diameter_mm == 9.0
    assert not joint.washers
    refusal = refused(asked(TRIM, between="foam 6 mm", item_hole="9mm"), "push_in_clip")
    assert figures(refusal)["layers together"] == pytest.approx(9.3)


def test_one_clip_is_offered_and_a_hole_that_is_there_chooses_it() -> None:
    clips = [answer for answer in asked(TRIM).answers if answer.method == "push_in_clip"]
    assert [drilled(clip.proposal.joint).diameter_mm for clip in clips] == [6.0]
    there = [
        answer
        for answer in asked(TRIM, hole_there="7.9 mm", item_hole="8mm").answers
        if answer.method == "push_in_clip"
    ]
    assert [drilled(clip.proposal.joint).diameter_mm for clip in there] == [8.0]


@pytest.mark.parametrize(("hole", "most"), [("6mm", 6.0), ("7mm", 7.0), ("8.5mm", 8.0)])
def test_no_stem_is_wider_than_the_hole_it_goes_through_first(hole: str, most: float) -> None:
    """Its barbs must pass item and panel: common practice, no source."""
    mount = mounted(TRIM, item_hole=hole)
    assert max(drilled(joint).diameter_mm for joint in push_in_clip.joints(mount, TABLES)) == most
    refusal = refused(asked(TRIM, item_hole="5.5mm"), "push_in_clip")
    assert figures(refusal) == {"item hole": 5.5, "least hole": 6.0}
    assert refusal.change == "a 6.0 mm item hole"
    assert answered(asked(TRIM, item_hole="6mm"), "push_in_clip")


def test_the_space_behind_is_the_stem_past_the_thinnest_panel() -> None:
    """A floor of 0.7 to 1.2 mm: the 14 mm stem under 2.5 mm of item stands out 10.8 mm at most."""
    advice = asked(TRIM, onto="steel floor", edge="40mm")
    joint = answered(advice, "push_in_clip").proposal.joint
    assert joint.receiver is not None
    stands_out = joint.receiver.length_mm - 2.5 - advice.mount.thickness_min_mm
    assert joint.behind_done_mm == joint.behind_set_mm == pytest.approx(stands_out)


def test_a_clip_needs_the_room_its_stem_takes() -> None:
    refusal = refused(asked(TRIM, behind="5mm", edge="40mm"), "push_in_clip")
    assert refusal.check == "space-behind"
    assert figures(refusal)["capacity"] == 5.0


def test_no_mandrel_and_no_rivet_rule_is_named_for_what_is_pressed_in_by_hand() -> None:
    for method in SNAPPED:
        sources = check(answered(asked(TRIM, behind="30mm", edge="40mm"), method), "space-behind").from_
        assert not any(source.startswith("rules:") for source in sources)


# -- ball studs -------------------------------------------------------------------------------------------------------


def test_the_ball_ends_inside_its_socket() -> None:
    for row in TABLES.rows(BALL_STUDS):
        assert row.ball_mm < row.reach_mm - row.flange_thickness_mm <= row.length_mm
        assert row.ball_mm < row.hole_mm < row.flange_mm


def test_a_stud_passes_the_item_and_the_socket_lies_between() -> None:
    joint = answered(asked(TRIM), "ball_stud").proposal.joint
    assert joint.screw is not None
    assert joint.receiver is not None
    assert (joint.screw.thread, joint.screw.head, joint.receiver.part) == ("M5", "8 mm ball", "ball socket")
    over = sum(layer.thickness_mm for layer in joint.layers if layer.role != "substrate")
    ball_end = joint.screw.length_mm - over
    assert ball_end <= joint.receiver.length_mm + (receivers.figures(joint.receiver).flange_thickness_mm or 0.0)


def test_a_thick_item_leaves_no_room_for_its_nut() -> None:
    """9 mm of item and a 4.7 mm M5 nut (ISO 4032) on a thread of 10 mm."""
    refusal = refused(asked(TRIM, item_thickness="9mm", item_material="aluminium", item_hole="5.5mm"), "ball_stud")
    assert figures(refusal)["on the thread"] == pytest.approx(13.7)
    assert figures(refusal)["thread"] == 10.0


@pytest.mark.parametrize(
    ("said", "because"),
    [
        ({"item_hole": "3.5mm"}, "no ball stud fits through a 3.5 mm hole"),
        ({"onto": "steel 6 mm"}, "no socket snaps into 6 mm"),
        ({"between": "foam 3 mm"}, "foam between pushes the balls out"),
    ],
)
def test_what_no_ball_stud_suits_is_refused(said: dict[str, str], because: str) -> None:
    assert because in refused(asked(TRIM, **said), "ball_stud").because


def test_carpet_keeps_sockets_apart_until_it_is_cut_out() -> None:
    assert "carpet between pushes" in refused(asked(TRIM, between="carpet 6 mm"), "ball_stud").because
    answer = answered(asked(TRIM, between="carpet 6 mm cut out"), "ball_stud")
    assert any("over the whole footprint" in step.text for step in answer.steps)


# -- the box ----------------------------------------------------------------------------------------------------------


def owned(tmp_path: Path, rated: int) -> tuple[Advice, Tables]:
    columns, units = "hole hole_plus grip_min grip_max length head head_height rated", "mm mm mm mm mm mm mm N"
    row = (6.0, 0.2, 1.0, 4.5, 14.0, 14.0, 1.5, rated)
    tables = tables_with(tmp_path, "push-in-clips", columns, units, row)
    said = TRIM | {"behind": "30mm", "edge": "40mm"}
    return advise(resolve(read_question(said, tables), tables), tables), tables


def test_the_pull_of_the_users_own_box_proves_a_clip(tmp_path: Path) -> None:
    """A made-up 250 N: a third of it in service, half in a hard stop, pulled or pushed sideways, and both together."""
    advice, _ = owned(tmp_path, 250)
    answer = answered(advice, "push_in_clip")
    assert answer.proposal.proven
    document = json.loads(json.dumps(advice_json(advice)))
    told = next(entry for entry in document["answers"] if entry["method"] == "push_in_clip")
    assert told["screw"] is None
    for kind, factor in (("service", 3.0), ("hard_stop", 2.0)):
        lines = {entry["id"]: entry for entry in told["checks"] if entry["id"].endswith(f".{kind}")}
        for name in ("rated-pull", "rated-shear"):
            assert lines[f"{name}.{kind}"]["allowable"] == pytest.approx(250 / factor)
        together = lines[f"rated-together.{kind}"]
        given_ = {entry["name"]: entry["value"] for entry in together["inputs"]}
        used = given_["shear"] / given_["shear capacity"] + given_["tension"] / given_["tension capacity"]
        assert together["demand"] == pytest.approx(used)
        assert (given_["shear capacity"], given_["tension capacity"]) == pytest.approx((250 / factor, 250 / factor))


@pytest.mark.slow
def test_a_clip_too_weak_for_its_share_is_refused(tmp_path: Path) -> None:
    """1.5 kg on six at 20 g is 49 N a clip; half of a made-up 60 N is 30."""
    advice, tables = owned(tmp_path, 60)
    mount = advice.mount
    joint = next(joint for joint in push_in_clip.joints(mount, tables) if drilled(joint).diameter_mm == 6.0)
    found = prove(joint, mount, push_in_clip, demands(mount, tables), tables)
    assert isinstance(found, Refusal)
    assert found.check is not None
    assert found.check.startswith("rated-")


# -- every input counts -----------------------------------------------------------------------------------------------


def proved(joint: Joint, mount: MountPoint) -> Proposal:
    method = push_in_clip if joint.method == "push_in_clip" else ball_stud
    found = prove(joint, mount, method, demands(mount, TABLES), TABLES)
    assert isinstance(found, Proposal)
    return found


def first(method: str, mount: MountPoint) -> Joint:
    found = (push_in_clip if method == "push_in_clip" else ball_stud).joints(mount, TABLES)
    joint: Joint = next(found)
    return joint


@pytest.mark.parametrize("method", SNAPPED)
def test_a_wider_body_bears_more_and_a_wider_head_crushes_less(method: str) -> None:
    mount = mounted(TRIM)
    joint = first(method, mount)
    assert joint.receiver is not None
    hole = replace(drilled(joint), diameter_mm=drilled(joint).diameter_mm + 1)
    wider = replace(joint, hole=hole)
    before, after = (modes.SHEET_BEARING.capacity(found, mount, TABLES).load_n for found in (joint, wider))
    assert after > before
    on_item = replace(joint, washers=(), receiver=changed(joint.receiver, flange_mm=30.0))
    if method == "push_in_clip":
        less = item_modes.PRESSURE.capacity(replace(joint, washers=()), mount, TABLES).load_n
        assert item_modes.PRESSURE.capacity(on_item, mount, TABLES).load_n > less


@pytest.mark.parametrize("method", SNAPPED)
def test_the_panel_of_plastic_bears_on_the_body_and_not_on_the_thread(method: str) -> None:
    mount = mounted(TRIM, onto="ABS 2 mm")
    joint = first(method, mount)
    assert plastic_modes.bearing_mm(joint) == drilled(joint).diameter_mm
    load_n = plastic_modes.BEARING.capacity(joint, mount, TABLES).load_n
    assert load_n == pytest.approx(drilled(joint).diameter_mm * 2.0 * 29.6 / 2), "29.6 MPa of ABS, half of it in heat"


def test_an_unrated_part_leaves_its_pull_and_its_shear_open() -> None:
    mount = mounted(TRIM, behind="30mm", edge="60mm")
    for method in SNAPPED:
        ids = {entry.id for entry in proved(first(method, mount), mount).checks}
        assert {"rated-pull", "rated-shear"} <= ids
        assert not any(identity.startswith(("rated-pull.", "rated-shear.", "rated-together.")) for identity in ids)


# -- tables -----------------------------------------------------------------------------------------------------------


def test_clips_grow_with_their_holes_and_lie_within_the_sheet_of_their_standard() -> None:
    """USCAR-44 covers clips in sheet of 0.6 to 8 mm; trade practice has holes of 6 to 10 mm."""
    rows = TABLES.rows(PUSH_IN_CLIPS)
    assert [row.hole_mm for row in rows] == [6.0, 6.3, 6.5, 7.0, 8.0, 9.0, 10.0]
    for row in rows:
        assert 0.6 <= row.grip_min_mm < row.grip_max_mm <= 8.0
        assert row.grip_max_mm < row.length_mm, "barbs must come out behind"
        assert row.head_mm > row.hole_mm + row.hole_plus_mm + 1
    for name in ("length_mm", "head_mm", "grip_max_mm"):
        values = [getattr(row, name) for row in rows]
        assert values == sorted(values)


def test_no_pull_is_given_that_nobody_could_read() -> None:
    assert all(row.rated_n is None for row in TABLES.rows(PUSH_IN_CLIPS))
    assert all(row.rated_n is None for row in TABLES.rows(BALL_STUDS))


@pytest.mark.parametrize(("thread", "ball"), [("M5", 8.0), ("M6", 10.0)])
def test_balls_and_threads_of_their_standard(thread: str, ball: float) -> None:
    """DIN 71803, from memory: ball 8 mm on M5, 10 mm on M6."""
    assert TABLES.find(BALL_STUDS, thread, ball) is not None


@pytest.mark.parametrize(
    ("there", "item_hole", "said", "change"),
    [
        ("7 mm", "6 mm", "no clip for the existing 7 mm hole has a stem", "a 7.0 mm item hole"),
        ("7.3 mm", "6 mm", "no clip for the existing 7.3 mm hole has a stem", "an 8.0 mm item hole"),
        ("20 mm", "6 mm", "the existing hole is 20 mm", None),  # no clip is so wide: it cannot close
    ],
)
def test_a_hole_that_is_there_asks_for_the_clip_that_fills_it(
    there: str, item_hole: str, said: str, change: str | None
) -> None:
    """The clip of 6 mm is no answer to a hole of 7: the one of 7 is, once the item's hole lets its stem through."""
    refusal = refused(asked(TRIM, hole_there=there, item_hole=item_hole), "push_in_clip")
    assert said in refusal.because
    assert refusal.change == change
    hole = answered(asked(TRIM, hole_there="7 mm", item_hole="7 mm"), "push_in_clip").proposal.joint.hole
    assert hole is not None
    assert hole.diameter_mm == 7.0
