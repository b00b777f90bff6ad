"""A ground lug: the cable and ring as typed, what a ground joint is made by, and what it must measure."""

import pytest

from fasten.advice.advise import METHODS, advise
from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.job.choices import pinned
from fasten.job.words import Pin
from fasten.model import Advice, Check, MountPoint, Origin, Refusal, Status
from fasten.model.known import MakesGround
from fasten.proof.ground import checks
from fasten.question.read import read_question
from fasten.question.resolve import resolve
from fasten.report.answer.as_json import advice_json
from fasten.report.answer.as_text import advice_text

LEAST = {"item": "ground-lug", "onto": "steel 0.8 mm", "removed": "rarely"}
# AC 43.13-1B 11-188e bans the first two; the rest by common practice, no source.
GROUNDS = {method.NAME for method in METHODS if isinstance(method.GROUND, MakesGround)}
NEVER = {
    "tapping_screw", "self_drilling_screw", "blind_rivet", "clip_nut", "expanding_nut", "push_in_clip",
    "hook_and_loop", "magnet", "adhesive", "bonded_stud", "ball_stud",
}  # fmt: skip


def mount(**said: str) -> MountPoint:
    fields = LEAST | {name.replace("_", "-"): text for name, text in said.items()}
    return resolve(read_question(fields, builtin()), builtin())


def advised(**said: str) -> Advice:
    return advise(mount(**said), builtin())


def refusal(**said: str) -> FastenError:
    with pytest.raises(FastenError) as caught:
        mount(**said)
    assert caught.value.fix
    return caught.value


# -- as it is typed ---------------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "area_mm2"),
    [
        ("50 mm2", 50.0),
        ("50mm²", 50.0),
        ("50", 50.0),
        ("2,5", 2.5),
        ("0.5 cm²", 50.0),
        ("4 AWG", 21.15),  # areas of American gauges, handbooks, from memory
        ("8awg", 8.366),
        ("1/0 AWG", 53.49),
        ("0 AWG", 53.49),
        ("00 awg", 67.43),
        ("4/0-AWG", 107.2),
    ],
)
def test_a_cable_is_its_area_or_its_american_gauge(text: str, area_mm2: float) -> None:
    assert mount(cable=text).cable_mm2 == pytest.approx(area_mm2, rel=5e-4)


@pytest.mark.parametrize(
    ("said", "where", "what"),
    [
        ({"cable": "4 ga"}, "cable", "by which measure"),
        ({"cable": "1/0"}, "cable", "by which measure"),
        ({"cable": "8 mm"}, "cable", "a length, wanted an area"),
        ({"cable": "0"}, "cable", "zero"),
        ({"cable": "5/0 AWG"}, "cable", "5/0"),
        ({"cable": "44 AWG"}, "cable", "36 AWG"),
        ({"current": "200"}, "current", "no unit"),
        ({"current": "200 mm"}, "current", "wanted a current"),
        ({"ring": "8"}, "ring", "no stud"),
        ({"ring": "M7"}, "ring", "no stud"),
        ({"rings": "0"}, "rings", "whole number"),
        ({"rings": "two"}, "rings", "whole number"),
    ],
)
def test_what_is_not_understood_says_how_to_write_it(said: dict[str, str], where: str, what: str) -> None:
    error = refusal(**said)
    assert error.where == where
    assert what in error.what


@pytest.mark.parametrize("field", ["ring", "rings", "cable", "current"])
def test_what_is_of_a_lug_is_refused_of_anything_else(field: str) -> None:
    said = {"ring": "M8", "rings": "1", "cable": "50", "current": "200 A"}[field]
    error = refusal(item="amplifier", **{field: said})
    assert error.where == field
    assert "of a ground lug, not of amplifier" in error.what
    assert "ground-lug" in error.fix


# -- ring, stud and cable ---------------------------------------------------------------------------------------------


def test_a_lug_is_preset_with_an_m8_ring_and_one_of_it() -> None:
    point = mount()
    assert (point.ring, point.rings, point.fixings, point.item_hole_mm) == ("M8", 1, 1, 8.4)
    origins = dict(point.origins)
    assert (origins["ring"], origins["rings"]) == (Origin.PRESET, Origin.ASSUMED)


@pytest.mark.parametrize(("ring", "hole_mm"), [("M4", 4.3), ("M5", 5.3), ("M6", 6.4), ("M8", 8.4), ("M10", 10.5)])
def test_the_ring_has_the_fine_clearance_hole_of_its_stud(ring: str, hole_mm: float) -> None:
    """ISO 273, fine, as published in handbooks."""
    assert mount(ring=ring).item_hole_mm == hole_mm


def test_a_measured_hole_names_its_stud() -> None:
    assert (mount(item_hole="6.5 mm").ring, mount(item_hole="6.5 mm").item_hole_mm) == ("M6", 6.5)
    assert refusal(item_hole="3.5 mm").where == "item-hole"
    assert "8.4 to 10 mm, not 6.4 mm" in refusal(item_hole="6.4 mm", ring="M8").what


def test_rings_lie_one_on_another() -> None:
    one, three = mount(ring="M6", cable="4"), mount(ring="M6", cable="4", rings="3")
    assert three.item_thickness_mm == 3 * one.item_thickness_mm
    assert three.mass_kg == pytest.approx(3 * one.mass_kg)


@pytest.mark.parametrize(
    ("cable", "ring"),
    [("50", "M8"), ("25 mm2", "M8"), ("4 AWG", "M8"), ("6 AWG", "M6"), ("16", "M6"), ("2.5 mm2", "M6")],
)
def test_a_cable_has_its_usual_stud_unless_another_is_given(cable: str, ring: str) -> None:
    """M8 from 4 AWG and 25 mm² up, M6 below: common practice, no source."""
    assert mount(cable=cable).ring == ring
    assert dict(mount(cable=cable).origins)["ring"] is Origin.PRESET
    assert mount(cable=cable, ring="M10").ring == "M10"


def test_at_most_four_rings_share_a_stud() -> None:
    """AC 21-99, section 2 chapter 13."""
    error = refusal(rings="5")
    assert error.where == "rings"
    assert "4 are the most" in error.what
    assert mount(rings="4").rings == 4


def test_a_power_cable_has_its_stud_to_itself() -> None:
    """8 AWG and up counts as power: common practice, no source."""
    assert [check.status for check in shared(mount(cable="8 AWG", rings="2"))] == [Status.NOT_CHECKED]
    assert not shared(mount(cable="10 AWG", rings="2"))
    assert not shared(mount(cable="8 AWG"))


def shared(point: MountPoint) -> list[Check]:
    return [check for check in checks(point, builtin()) if check.id == "ground-shared"]


@pytest.mark.parametrize(
    ("said", "where"),
    [({"fixings": "2"}, "fixings"), ({"between": "foam 3 mm"}, "between"), ({"carries": "1 kg"}, "carries")],
)
def test_a_lug_lies_on_one_stud_and_on_metal(said: dict[str, str], where: str) -> None:
    assert refusal(**said).where == where


# -- what makes a ground joint ----------------------------------------------------------------------------------------


@pytest.mark.parametrize("onto", ["steel 0.8 mm", "steel 4 mm", "aluminium 2 mm", "stainless steel 1 mm"])
@pytest.mark.parametrize("reach", ["one-side", "both-sides"])
@pytest.mark.parametrize("removed", ["never", "yearly"])
def test_no_screw_of_its_own_thread_no_clip_and_no_adhesive_ever(onto: str, reach: str, removed: str) -> None:
    advice = advised(onto=onto, reach=reach, removed=removed, behind="60 mm", edge="60 mm")
    assert advice.answers
    assert {answer.method for answer in advice.answers} <= GROUNDS
    assert not GROUNDS & NEVER
    refused = {refusal.method for refusal in advice.refusals}
    assert {method.NAME for method in METHODS} - GROUNDS <= refused, "every method answers"


def test_the_ban_on_tapping_screws_names_its_source() -> None:
    because = {refusal.method: refusal.because for refusal in advised().refusals}
    for method in ("tapping_screw", "self_drilling_screw"):
        assert "AC 43.13-1B 11-188e" in because[method]
    assert "common practice" in because["clip_nut"]
    assert "common practice" in because["blind_rivet"]


@pytest.mark.parametrize("onto", ["MDF 18 mm", "pine 20 mm", "ABS 3 mm", "fibreglass 4 mm"])
def test_on_no_metal_it_says_where_to_go(onto: str) -> None:
    advice = advised(onto=onto, reach="both-sides", behind="60 mm")
    assert not advice.answers
    assert {refusal.method for refusal in advice.refusals} == {method.NAME for method in METHODS}
    for refusal in advice.refusals:
        assert "run the cable to body metal" in refusal.because
        assert refusal.change is None, "no other hole makes metal of it"


@pytest.mark.parametrize("ring", ["M5", "M6", "M8", "M10"])
@pytest.mark.parametrize("onto", ["steel 1 mm", "steel 4 mm"])
def test_only_the_thread_of_the_ring_is_offered(ring: str, onto: str) -> None:
    advice = advised(ring=ring, onto=onto, reach="both-sides", behind="60 mm", edge="60 mm")
    assert advice.answers
    for answer in advice.answers:
        assert answer.proposal.joint.screw is not None
        assert answer.proposal.joint.screw.thread == ring
    assert all(refusal.change is None or "hole" not in refusal.change for refusal in advice.refusals)


def test_a_thread_that_is_there_serves_where_it_is_the_rings() -> None:
    served = advised(hole_there="M8", onto="steel 1 mm", behind="60 mm")
    assert "factory_thread" in {answer.method for answer in served.answers}
    other = advised(hole_there="M6", onto="steel 1 mm", behind="60 mm")
    assert "factory_thread" not in {answer.method for answer in other.answers}


def test_steps_bare_the_metal_measure_and_seal_afterwards() -> None:
    """Bared to 1.5 lugs by common practice, refinished within 24 h by AC 43.13-1B 11-189."""
    for reach in ("one-side", "both-sides"):
        for answer in advised(cable="50", current="200 A", reach=reach, behind="60 mm").answers:
            bare, tight, measure, seal = (
                next(n for n, step in enumerate(answer.steps) if words in step.text)
                for words in ("bright 1.5 times", "tighten to", "0.25 mΩ", "within 24 hours")
            )
            last = max(n for n, step in enumerate(answer.steps) if "tighten" in step.text and "seal" not in step.text)
            assert bare < last < measure < seal
            assert tight <= last
            assert not any("paint the bare edge" in step.text.lower() for step in answer.steps)
            assert "scraper or abrasive paper" in [need.text for need in answer.tools]
            assert "primer or sealing grease for the lug" in [need.text for need in answer.consumables]
            assert "bare-edge primer" not in [need.text for need in answer.consumables]


def test_other_items_are_told_nothing_of_lugs() -> None:
    advice = advised(item="amplifier", behind="60 mm")
    assert advice.ground is None
    for answer in advice.answers:
        told = [*(step.text for step in answer.steps), *(need.text for need in (*answer.tools, *answer.consumables))]
        assert not any("lug" in text or "millivolts" in text or "{" in text for text in told)


@pytest.mark.parametrize(
    ("method", "thread"), [("tapping_screw", "ST4.8"), ("blind_rivet", "4.8"), ("rivet_nut", "M5")]
)
def test_a_pin_does_not_get_past_the_gate(method: str, thread: str) -> None:
    found = pinned(Pin(method, thread, "", None, None), mount(ring="M6", removed="never", behind="60 mm"), builtin())
    assert isinstance(found, Refusal)
    assert any(words in found.because for words in ("no ground joint", "no M6", "the one that is pinned"))


def test_a_ring_is_no_panel() -> None:
    error = refusal(onto="copper 2 mm")
    assert error.where == "onto"
    assert "no panel to fasten to" in error.what


# -- what it must measure ---------------------------------------------------------------------------------------------


def test_the_resistance_is_told_and_stays_to_be_measured() -> None:
    """50 mV at full current: common practice; 0.05 V over 200 A is 0.25 mΩ."""
    advice = advised(cable="50 mm2", current="200A", behind="60 mm", edge="60 mm", panel="side")
    assert advice.ground is not None
    assert advice.ground.max_resistance_mohm == pytest.approx(0.25)
    assert advice.answers[0].proposal.proven, "a measurement to come leaves no joint unproven"
    text = " ".join(advice_text(advice).split())
    assert "Needs a measured 0.25 mΩ or less at 200 A" in text
    assert "One ring on an M8 stud, cable of 50 mm²" in text
    assert "Lug 50 mm² x M8, 18 mm wide by table" in text
    found = advice_json(advice)["ground"]
    assert found["max_resistance_mohm"] == pytest.approx(0.25)
    assert (found["drop_mv"], found["current_a"], found["stud"], found["rings"]) == (50.0, 200.0, "M8", 1)
    cited = {note.id for note in advice.sources}
    assert set(advice.ground.from_) <= cited


def test_without_its_current_it_is_asked_for() -> None:
    advice = advised(cable="50 mm2", behind="60 mm")
    assert advice.ground is not None
    assert advice.ground.max_resistance_mohm is None
    assert "Needs its full current, then a measurement" in " ".join(advice_text(advice).split())


def test_json_of_other_items_has_no_ground() -> None:
    assert advice_json(advised(item="amplifier"))["ground"] is None


def test_corrosion_under_a_lug_is_sealed_and_never_primed_between() -> None:
    told = [c.text for c in advised(behind="60 mm").answers[0].cautions if c.text.startswith("Corrosion")]
    assert told
    assert all("seal all round once it is tight" in text and "prime" not in text for text in told)
