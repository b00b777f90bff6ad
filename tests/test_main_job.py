"""The main job, from what a person types to the advice: sheet metal, each promise of the answer held to its figures."""

import re
from collections.abc import Iterator
from functools import cache, reduce

import pytest
from built.receivers import figures

from fasten.advice.advise import METHODS, advise
from fasten.catalog.parts import RIVET_NUTS, RivetNut
from fasten.catalog.rows import TAPPING_HOLES_THIN_SHEET
from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.geometry.joint import drilled
from fasten.model import Advice, Answer, Check, MountPoint, Origin, Position, Refusal, Status, kinds
from fasten.question.read import read_question
from fasten.question.resolve import resolve

pytestmark = pytest.mark.slow

AMPLIFIER = {
    "item": "amplifier", "onto": "steel 0.8 mm", "removed": "yearly", "mass": "6kg", "fixings": "4",
    "pattern": "rectangle 240x180", "item-thickness": "3mm", "item-hole": "5.5mm", "reach": "one-side",
    "support": "firm",
}  # fmt: skip
ENCLOSURE = {
    "item": "enclosure", "mass": "25kg", "cg": "150mm", "item-thickness": "18mm", "fixings": "4",
    "pattern": "rectangle 400x300", "onto": "steel 0.8 mm", "panel": "floor", "reach": "both-sides",
    "removed": "yearly", "item-hole": "9mm", "support": "frame",
}  # fmt: skip
SHARE = 0.65  # of spin-out; common practice


def mounted(said: dict[str, str]) -> MountPoint:
    return resolve(read_question(said, builtin()), builtin())


def asked(base: dict[str, str], **said: str) -> Advice:
    fields = base | {name.replace("_", "-"): text for name, text in said.items()}
    return _advised(tuple(sorted(fields.items())))


@cache
def _advised(fields: tuple[tuple[str, str], ...]) -> Advice:
    return advise(mounted(dict(fields)), builtin())


def refused(advice: Advice, method: str) -> Refusal:
    found = [refusal for refusal in advice.refusals if refusal.method == method]
    assert found, f"{method} was not refused"
    return found[0]


def check(answer: Answer, identity: str) -> Check:
    found = [entry for entry in answer.proposal.checks if entry.id == identity]
    assert len(found) == 1, f"{identity} is there {len(found)} times"
    return found[0]


def body(answer: Answer) -> RivetNut:
    """The row of the answer's rivet nut, by series, thread and length."""
    receiver = answer.proposal.joint.receiver
    assert receiver is not None
    row = builtin().find(RIVET_NUTS, receiver.series, receiver.thread, receiver.length_mm)
    assert row is not None
    return row


def rivet_nuts(advice: Advice) -> Iterator[Answer]:
    return (answer for answer in advice.answers if answer.method == "rivet_nut")


def size(thread: str) -> float:
    return float(thread.removeprefix("M"))


# -- an amplifier on a body panel -------------------------------------------------------------------------------------


def test_an_amplifier_gets_a_rivet_nut_whose_screw_passes_its_hole() -> None:
    first = asked(AMPLIFIER, behind="40mm").answers[0]
    assert (first.rank, first.method) == (1, "rivet_nut")
    screw = first.proposal.joint.screw
    assert screw is not None
    assert size(screw.thread) <= 5, "a 5.5 mm hole passes M5, ISO 273"


def test_its_grip_and_hole_are_those_of_its_own_series() -> None:
    answer = asked(AMPLIFIER, behind="40mm").answers[0]
    row, joint = body(answer), answer.proposal.joint
    assert joint.receiver is not None
    grip = figures(joint.receiver).grip_mm
    assert grip is not None
    assert grip.min <= 0.8 <= grip.max
    assert (grip.min, grip.max) == (row.grip_min_mm, row.grip_max_mm)
    assert drilled(joint).diameter_mm == row.hole_mm
    assert (drilled(joint).tolerance_mm.minus, drilled(joint).tolerance_mm.plus) == (0.0, row.hole_plus_mm)
    assert drilled(joint).bit.holds
    assert 0 <= drilled(joint).bit.diameter_mm - row.hole_mm <= row.hole_plus_mm


@pytest.mark.parametrize("onto", ["steel 0.8 mm", "steel 0.6 mm", "steel 1.5 mm", "steel floor"])
def test_no_torque_turns_the_body_of_any_rivet_nut(onto: str) -> None:
    advice = asked(AMPLIFIER, behind="40mm", onto=onto, mass="3kg")  # 6 kg would dent the thinnest
    assert list(rivet_nuts(advice))
    for answer in rivet_nuts(advice):
        row, torque = body(answer), answer.proposal.torque
        assert torque is not None
        most_mm = 1.5 if row.spin_out_of == "average" else row.spin_out_sheet_mm
        thinnest = min(answer.proposal.joint.sheet_mm, most_mm) / row.spin_out_sheet_mm
        assert 0 < torque.min_nm <= torque.target_nm <= torque.max_nm <= SHARE * row.spin_out_nm * thinnest + 1e-9
        assert torque.target_inlbf == pytest.approx(torque.target_nm * 8.8507, rel=1e-4)
        assert torque.limited_by
        assert torque.from_


def test_tapping_screws_are_refused_with_the_pitch() -> None:
    """The finest screw whose head covers 5.5 mm is ST3.5, pitch 1.3 mm; ISO 1478."""
    for method in ("tapping_screw", "self_drilling_screw"):
        refusal = refused(asked(AMPLIFIER, behind="40mm"), method)
        assert {(figure.name, figure.value) for figure in refusal.figures} >= {("sheet", 0.8), ("pitch", 1.3)}
        assert "1.3 mm pitch" in refusal.because
        assert "yearly" in refusal.because


def test_the_through_bolt_is_refused_for_reach() -> None:
    refusal = refused(asked(AMPLIFIER, behind="40mm"), "through_bolt")
    assert "you reach only one side" in refusal.because


def test_each_method_answers_or_is_refused_and_only_the_edge_is_open() -> None:
    advice = asked(AMPLIFIER, behind="40mm")
    methods = {answer.method for answer in advice.answers} | {refusal.method for refusal in advice.refusals}
    assert methods == {method.NAME for method in METHODS}
    assert [entry.id for entry in advice.answers[0].proposal.checks if entry.needs] == ["edge-distance"]


def test_with_the_edge_said_too_it_is_proven() -> None:
    answer = asked(AMPLIFIER, behind="40mm", edge="60mm").answers[0]
    assert answer.proposal.proven
    assert all(entry.status is Status.HOLDS for entry in answer.proposal.checks)


# -- space behind -----------------------------------------------------------------------------------------------------


def test_space_behind_left_out_gives_the_same_hardware_not_proven() -> None:
    known, open_ = asked(AMPLIFIER, behind="40mm"), asked(AMPLIFIER)
    assert [answer.proposal.joint for answer in open_.answers] == [answer.proposal.joint for answer in known.answers]
    for answer in open_.answers:
        joint, behind = answer.proposal.joint, check(answer, "space-behind")
        assert not answer.proposal.proven
        assert behind.status is Status.NOT_CHECKED
        assert behind.allowable is None
        assert behind.utilisation is None
        assert behind.demand == max(joint.behind_set_mm, joint.behind_done_mm)


def test_the_space_asked_for_is_enough_when_it_is_given() -> None:
    """What is printed is rounded up: to give it back must hold."""
    for answer in asked(AMPLIFIER).answers:
        printed = re.fullmatch(r"needs ([0-9.]+) mm behind", check(answer, "space-behind").needs or "")
        assert printed is not None
        again = asked(AMPLIFIER, behind=f"{printed[1]} mm")
        joints = [other.proposal.joint for other in again.answers]
        assert answer.proposal.joint in joints


def test_the_edge_asked_for_is_enough_when_it_is_given() -> None:
    for answer in asked(AMPLIFIER, behind="40mm").answers:
        printed = re.fullmatch(
            r"needs up to ([0-9.]+) mm, hole centre to any edge", check(answer, "edge-distance").needs or ""
        )
        assert printed is not None
        again = asked(AMPLIFIER, behind="40mm", edge=f"{printed[1]} mm")
        assert any(other.proposal.joint == answer.proposal.joint and other.proposal.proven for other in again.answers)


def test_too_little_space_is_refused_by_figure() -> None:
    """The shortest body for 0.8 mm and M4 is 10.5 mm or longer: none sets within 9 mm, with 2.5 mm of mandrel."""
    advice = asked(AMPLIFIER, behind="9mm")
    assert not advice.answers
    refusal = refused(advice, "rivet_nut")
    needed, there = (figure.value for figure in refusal.figures[:2])
    assert refusal.check == "space-behind"
    assert there == 9.0
    assert needed > 9.0
    assert refusal.change is not None


def made(base: dict[str, str], change: str) -> dict[str, str]:
    """The question again with a change as it is printed."""
    if found := re.fullmatch(r"([0-9.]+) mm behind", change):
        return base | {"behind": f"{found[1]} mm"}
    if found := re.fullmatch(r"an? ([0-9.]+) mm item hole for (\S+)", change):
        return base | {"item-hole": f"{found[1]} mm"}
    if found := re.fullmatch(r"([0-9]+) fixings instead of ([0-9]+), pattern (.*)", change):
        return base | {"fixings": found[1], "pattern": found[3]}
    if found := re.fullmatch(r"([0-9.]+) mm of board", change):
        return base | {"onto": f"{base['onto'].split()[0]} {found[1]} mm"}
    said = {"both sides reached": {"reach": "both-sides"}, "a floor under it": {"panel": "floor"}}
    assert change in said, f"nobody can ask for {change!r}"
    return base | said[change]


CHANGED = [
    AMPLIFIER | {"behind": "9mm"},
    AMPLIFIER | {"behind": "40mm"},
    AMPLIFIER | {"behind": "40mm", "removed": "never"},
    AMPLIFIER | {"behind": "40mm", "removed": "rarely", "mass": "6.4kg"},
    ENCLOSURE | {"item-hole": "5.5mm"},
    ENCLOSURE | {"reach": "one-side"},
    ENCLOSURE | {"behind": "10mm"},
    AMPLIFIER | {"mass": "60kg", "panel": "seat-back"},
    AMPLIFIER | {"onto": "MDF 12 mm", "removed": "never"},
    {"item": "enclosure", "onto": "steel 3 mm", "removed": "yearly"},
    {"item": "enclosure", "onto": "MDF 12 mm", "removed": "yearly"},
    {"item": "trim-panel", "onto": "MDF 9 mm", "removed": "yearly", "reach": "both-sides"},
]


@pytest.mark.parametrize("said", CHANGED)
def test_every_change_that_is_named_does_what_it_promises(said: dict[str, str]) -> None:
    for refusal in _advised(tuple(sorted(said.items()))).refusals:
        for change in (refusal.change or "").split(" or ") if refusal.change else ():
            again = _advised(tuple(sorted(reduce(made, change.split(" and "), said).items())))
            assert refusal.method in {answer.method for answer in again.answers}, f"{refusal.method}: {change}"


# -- a heavy enclosure ------------------------------------------------------------------------------------------------


def test_an_enclosure_is_bolted_through_with_large_washers() -> None:
    first = asked(ENCLOSURE).answers[0]
    joint = first.proposal.joint
    assert first.method == "through_bolt"
    assert joint.lock is kinds.NUT_LOCKS
    behind = [washer for washer in joint.washers if washer.place == Position.NUT]
    assert [washer.standard for washer in behind] == ["ISO 7094"]
    assert all(washer.standard == "ISO 7094" for washer in joint.washers), "MDF takes a large one under the head too"


SERVICE = {"screw-proof": 1.0, "sheet-bearing": 3.0, "pull-through": 3.0, "item-pressure": 1.0}
HARD_STOP = {"screw-tension": 1.25, "screw-shear": 1.25, "sheet-bearing": 1.25, "pull-through": 1.25}


@pytest.mark.parametrize(("kind", "factors"), [("service", SERVICE), ("hard_stop", HARD_STOP)])
def test_each_load_case_is_shown_with_its_own_factor(kind: str, factors: dict[str, float]) -> None:
    """Service keeps 3 on sheet and proof load on the screw; a hard stop EN resistances with 1.25."""
    first = asked(ENCLOSURE).answers[0]
    case = {"service": "road", "hard_stop": "hard-stop"}[kind]
    for mode, factor in factors.items():
        found = check(first, f"{mode}.{kind}")
        assert found.status is Status.HOLDS
        assert found.factor == factor
        assert found.load_case is not None
        assert found.load_case.startswith(f"{case}: ")
        assert "on floor" in found.load_case
        assert ("factor", factor) in {(given.name, given.value) for given in found.inputs}
    assert {"sheet-together.service", "sheet-together.hard_stop", "shank-together.hard_stop"} <= {
        entry.id for entry in first.proposal.checks
    }


def test_its_nut_is_renewed_at_its_rating_and_no_reason_to_refuse() -> None:
    """ISO 2320 proves a prevailing torque to the fifth removal; yearly is ten in ten years."""
    first = asked(ENCLOSURE).answers[0]
    removals = first.proposal.removals
    assert removals.wanted == 10
    assert removals.rated > 10
    assert any("prevailing-torque nut" in line and "5 removals" in line for line in removals.replace)
    assert "spare prevailing-torque nuts" in [need.text for need in first.consumables]


def test_through_a_small_hole_its_bolt_needs_plates_on_both_sides() -> None:
    """M5 with large washers pulls through the sheet and sinks into the board: 1.16 of 1."""
    washers = asked(ENCLOSURE, item_hole="5.5mm").answers[0].proposal.joint.washers
    assert [part.place for part in washers if part.side_mm is not None] == [Position.HEAD, Position.NUT]


def test_through_a_small_hole_a_heavy_one_is_refused_with_what_would_make_it_pass() -> None:
    advice = asked(ENCLOSURE, item_hole="5.5mm", mass="32kg")
    assert not advice.answers
    refusal = refused(advice, "through_bolt")
    assert (refusal.check or "").startswith(("sheet-", "pull-through", "item-bearing-board"))
    assert refusal.figures[0].value > refusal.figures[1].value
    assert "item hole" in (refusal.change or "")


# -- plate, light things, places --------------------------------------------------------------------------------------


def test_plate_takes_a_tapped_hole_that_carries_the_load() -> None:
    first = asked(AMPLIFIER, onto="steel 6 mm", behind="40mm").answers[0]
    assert first.method == "tapped_hole"
    for kind in ("service", "hard_stop"):
        assert check(first, f"thread-strip.{kind}").status is Status.HOLDS


@pytest.mark.parametrize("plate", ["steel 3 mm", "steel 4 mm", "steel 6 mm", "aluminium 6 mm", "stainless steel 6 mm"])
def test_the_thread_goes_first_is_said_where_it_does_and_nowhere_else(plate: str) -> None:
    """Strip load of the plate's thread under the screw's breaking load, both read off the checks of the answer."""
    for answer in asked(AMPLIFIER, onto=plate, behind="40mm", edge="60mm").answers:
        if answer.method != "tapped_hole":
            continue
        strip, breaks = check(answer, "thread-strip.hard_stop"), check(answer, "screw-tension.hard_stop")
        assert strip.allowable is not None
        assert breaks.allowable is not None
        first = strip.allowable * 1.25 < breaks.allowable * 1.25 / 0.9
        assert any("thread goes first" in caution.text for caution in answer.cautions) == first
        assert answer.proposal.torque is not None
        proof = check(answer, "screw-proof.service")
        assert proof.allowable is not None
        if 0.65 * strip.allowable * 1.25 < 0.75 * proof.allowable:
            assert answer.proposal.torque.limited_by == "stripping of the tapped thread"


LIGHT = {"item": "fuse-holder", "onto": "steel 0.8 mm", "removed": "never", "mass": "0.4kg", "behind": "40mm"}


def test_a_light_thing_that_never_comes_off_gets_a_tapping_screw_from_the_thin_sheet_table() -> None:
    advice = asked(LIGHT)
    answer = next(answer for answer in advice.answers if answer.method == "tapping_screw")
    screw = answer.proposal.joint.screw
    assert screw is not None
    rows = builtin().rows(TAPPING_HOLES_THIN_SHEET)
    hole = next(row.steel_drilled_mm for row in rows if row.size == screw.thread and row.over_mm < 0.8 <= row.to_mm)
    assert drilled(answer.proposal.joint).diameter_mm == hole
    assert answer.proposal.joint.sheet_mm < screw.pitch_mm
    out = check(answer, "pull-out-en.hard_stop")
    assert "0.45" in out.formula
    assert any("tapping-holes-thin-sheet" in source for entry in answer.proposal.checks for source in entry.from_)
    assert answer.proposal.removals.rated <= 5
    assert advice.answers[0].method in {"tapping_screw", "self_drilling_screw", "blind_rivet"}


def test_the_same_taken_out_yearly_or_too_heavy_for_one_screw_is_refused() -> None:
    assert "yearly" in refused(asked(LIGHT, removed="yearly"), "tapping_screw").because
    heavy = refused(asked(LIGHT, mass="1.2kg"), "tapping_screw")
    assert {(figure.name, figure.value) for figure in heavy.figures} >= {("mass a screw", 0.6), ("limit", 0.5)}


def test_no_screw_of_any_pitch_is_overloaded_in_thin_sheet() -> None:
    """1.4 mm holds one turn of ST4.2 and not of ST4.8, pitch 1.6 mm: 1.5 kg a screw is too much for the second."""
    said = asked(AMPLIFIER, onto="steel 1.4 mm", item_hole="5.8mm", removed="never", behind="40mm")
    for answer in said.answers:
        if answer.method == "tapping_screw":
            assert answer.proposal.joint.screw is not None
            assert answer.proposal.joint.screw.pitch_mm <= 1.4


def test_a_steel_floor_is_answered_over_the_range_of_its_table() -> None:
    """Floor pan 0.8 to 1.2 mm: strength at the thin end, grip over both; general automotive pages."""
    advice = asked(AMPLIFIER, onto="steel floor", behind="40mm")
    origins = dict(advice.mount.origins)
    assert origins["thickness_min_mm"] is origins["thickness_max_mm"] is Origin.ASSUMED
    for answer in advice.answers:
        joint = answer.proposal.joint
        assert (joint.sheet_mm, joint.sheet_max_mm) == (0.8, 1.2)
        grip = body(answer)
        assert grip.grip_min_mm <= 0.8
        assert grip.grip_max_mm >= 1.2
        bearing = check(answer, "sheet-bearing.hard_stop")
        assert ("sheet", 0.8) in {(given.name, given.value) for given in bearing.inputs}


def test_over_a_range_the_space_behind_is_that_of_its_worst_end() -> None:
    """The screw of the thick end stands out further behind the thin end."""
    for answer in asked(AMPLIFIER, onto="steel floor", behind="40mm").answers:
        joint = answer.proposal.joint
        assert joint.screw is not None
        over = sum(layer.thickness_mm for layer in joint.layers if layer.role in {"item", "washer", "soft"})
        flange = figures(joint.receiver).flange_thickness_mm
        assert joint.behind_done_mm >= joint.screw.length_mm - over - (flange or 0.0) - 0.8 - 1e-9


def test_a_floor_of_nothing_is_asked_what_it_is_made_of() -> None:
    with pytest.raises(FastenError, match="material"):
        mounted(AMPLIFIER | {"onto": "floor"})
