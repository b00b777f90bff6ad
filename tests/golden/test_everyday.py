"""What an installer does every day ends in an answer, and in the one a fabricator would nod at.

Common practice all of them, no source. Each reads its method, and where a size is usual its thread.
"""

from functools import cache

import pytest

from fasten.advice.advise import advise
from fasten.advice.ranking import size
from fasten.catalog.face_parts import ADHESIVES
from fasten.catalog.job_parts import SPARES
from fasten.catalog.tables import builtin
from fasten.job.choices import Choice, choices
from fasten.job.sizes.offers import fewest_sizes
from fasten.job.words import Job, Mount
from fasten.model import Advice, Status
from fasten.question.read import read_question
from fasten.question.resolve import resolve

pytestmark = pytest.mark.slow

TABLES = builtin()
MEASURED = {"edge": "60mm", "behind": "60mm"}
REMOVALS = ("never", "rarely", "yearly", "monthly")


def asked(item: str, onto: str, removed: str, **said: str) -> Advice:
    fields = MEASURED | {name.replace("_", "-"): text for name, text in said.items()}
    return _advised(tuple(sorted((fields | {"item": item, "onto": onto, "removed": removed}).items())))


@cache
def _advised(fields: tuple[tuple[str, str], ...]) -> Advice:
    return advise(resolve(read_question(dict(fields), TABLES), TABLES), TABLES, changes=False)


def first(advice: Advice) -> str:
    return f"{advice.answers[0].method} {size(advice.answers[0].proposal.joint)}"


def proven(advice: Advice) -> list[str]:
    return [answer.method for answer in advice.answers if answer.proposal.proven]


@pytest.mark.parametrize("removed", REMOVALS)
@pytest.mark.parametrize("onto", ["ABS 3 mm", "MDF 12 mm", "steel 0.7 mm", "steel 0.8 mm"])
@pytest.mark.parametrize(("item", "mass"), [("tweeter", "50g"), ("tweeter", "100g"), ("signal-processor", "1kg")])
def test_light_things_have_a_proven_answer_on_trim_board_and_skin(
    item: str, mass: str, onto: str, removed: str
) -> None:
    assert proven(asked(item, onto, removed, mass=mass, panel="door" if item == "tweeter" else "floor"))


def window_nm(advice: Advice) -> tuple[float, float]:
    torque = advice.answers[0].proposal.torque
    assert torque is not None
    return round(torque.min_nm, 2), round(torque.max_nm, 2)


def test_an_amplifier_on_a_seat_back_that_is_firm_gets_m5() -> None:
    advice = asked("amplifier", "steel 0.8 mm", "yearly", panel="seat-back", support="firm")
    assert (first(advice), advice.answers[0].proposal.proven) == ("rivet_nut M5", True)
    assert window_nm(advice) == (1.33, 1.59)


def test_eight_kilograms_on_a_floor_of_1_2_mm() -> None:
    advice = asked("amplifier", "steel 1.2 mm", "yearly", mass="8kg", panel="floor")
    assert advice.answers[0].method == "rivet_nut"
    assert advice.answers[0].proposal.proven


def test_twelve_kilograms_on_a_frame() -> None:
    said = {"mass": "12kg", "panel": "seat-back", "support": "frame", "item_hole": "6.6mm"}
    advice = asked("amplifier", "steel 0.8 mm", "yearly", **said)
    assert (first(advice), advice.answers[0].proposal.proven) == ("rivet_nut M6", True)
    assert "hexagon" in advice.answers[0].title
    assert window_nm(advice) == pytest.approx((3.8, 5.1), abs=0.05)


def test_an_enclosure_of_thirty_kilograms_on_a_frame_is_bolted_by_four_m8() -> None:
    said = {"mass": "30kg", "panel": "floor", "support": "frame", "reach": "both-sides"}
    advice = asked("enclosure", "steel 1.2 mm", "yearly", **said)
    assert first(advice) == "through_bolt M8"
    assert (advice.answers[0].proposal.proven, advice.mount.fixings) == (True, 4)


@pytest.mark.parametrize("removed", ["rarely", "yearly"])
def test_an_adapter_with_its_driver_on_a_door(removed: str) -> None:
    said = {"panel": "door", "where": "door", "carries": "speaker 1.5 kg"}
    advice = asked("speaker-adapter", "steel 0.7 mm", removed, **said)
    assert advice.mount.mass_kg == pytest.approx(2.1)
    assert advice.answers[0].proposal.proven


@pytest.mark.parametrize("onto", ["steel 0.8 mm", "steel 1.2 mm"])
@pytest.mark.parametrize(("cable", "ring"), [("16 mm2", "M6"), ("25 mm2", "M8"), ("35 mm2", "M8"), ("50 mm2", "M8")])
@pytest.mark.parametrize("reach", ["one-side", "both-sides"])
def test_a_ground_lug_has_a_stud_from_either_side(onto: str, cable: str, ring: str, reach: str) -> None:
    advice = asked("ground-lug", onto, "rarely", panel="floor", cable=cable, ring=ring, reach=reach)
    assert size(advice.answers[0].proposal.joint) == ring
    assert advice.ground is not None
    assert advice.ground.stud == ring


@pytest.mark.parametrize("hole", ["6mm", "6.5mm", "7mm", "8mm", "9mm", "10mm"])
def test_trim_has_a_clip_for_every_factory_hole_and_spares_of_it(hole: str) -> None:
    said = {"hole_there": hole, "mass": "1kg", "panel": "door"}
    clips = [a for a in asked("trim-panel", "steel 0.8 mm", "rarely", **said).answers if a.method == "push_in_clip"]
    assert clips
    spares = next(row for row in TABLES.rows(SPARES) if row.kind == "clip")
    assert spares.least >= 1


@pytest.mark.parametrize("current", ["", "100A"])
def test_a_lug_of_25_mm2_on_0_8_mm_goes_on_m6_whether_its_current_is_given_or_not(current: str) -> None:
    """The window of a round M8 is shut there; the current is the same question for every answer."""
    advice = asked("ground-lug", "steel 0.8 mm", "rarely", panel="floor", cable="25 mm2", current=current)
    assert (first(advice), advice.mount.ring) == ("rivet_nut M6", "M6")


@pytest.mark.parametrize("removed", ["never", ""])
@pytest.mark.parametrize("onto", ["steel 0.7 mm", "steel 0.8 mm", "steel 1 mm"])
def test_a_fuse_holder_on_steel_takes_a_tapping_screw(onto: str, removed: str) -> None:
    """Its base stays where nothing else is said; taken off a handful of times it gets a metal thread."""
    assert first(asked("fuse-holder", onto, removed, panel="side")) == "tapping_screw ST3.5"
    assert first(asked("fuse-holder", onto, "rarely", panel="side")) == "rivet_nut M4"


LIGHT = ("tweeter", "amplifier", "signal-processor", "crossover", "speaker-adapter", "speaker", "trim-panel",
         "equipment-board", "fuse-holder", "distribution-block", "bracket", "wire-clamp")  # fmt: skip


@pytest.mark.parametrize("item", LIGHT)
def test_what_comes_off_monthly_from_thin_board_has_an_insert_or_a_tee_nut(item: str) -> None:
    assert asked(item, "MDF 12 mm", "monthly", panel="floor").answers[0].method in {"screw_in_insert", "tee_nut"}


def test_an_enclosure_on_thin_board_is_bolted_from_both_sides() -> None:
    assert asked("enclosure", "MDF 12 mm", "monthly", panel="floor", reach="both-sides").answers


def test_an_amplifier_that_never_comes_off_gets_rivet_nuts_and_no_rivets() -> None:
    advice = asked("amplifier", "steel 0.8 mm", "never", panel="side")
    assert advice.answers[0].method == "rivet_nut"
    assert "blind_rivet" not in {answer.method for answer in advice.answers}


@pytest.mark.parametrize("onto", ["steel 0.8 mm", "steel 3 mm", "ABS 3 mm"])
def test_a_cable_is_clamped_to_studs_then_to_bases_before_a_hole_is_drilled(onto: str) -> None:
    assert asked("wire-clamp", onto, "rarely", panel="floor", run="2m", hole_there="M5 stud").answers[0].method == (
        "factory_thread"
    )
    found = asked("wire-clamp", onto, "rarely", panel="floor", run="2m").answers
    assert found[0].method == "bonded_stud"
    assert not any(step.text.startswith("Last resort") for step in found[0].steps)


def test_a_single_screw_in_board_is_no_hole_to_save() -> None:
    assert asked("wire-clamp", "MDF 18 mm", "rarely", panel="floor", run="2m").answers[0].method != "bonded_stud"


@pytest.mark.parametrize("onto", ["ABS 3 mm", "steel 0.8 mm", "MDF 18 mm"])
def test_a_weekly_cover_is_stuck_with_nothing_that_cures_for_a_week(onto: str) -> None:
    cures = {row.adhesive: row.cure_h for row in TABLES.rows(ADHESIVES)}
    patches = [answer.proposal.joint.patch for answer in asked("trim-panel", onto, "weekly", panel="side").answers]
    bonds = [patch.bond for patch in patches if patch is not None and patch.bond is not None]
    assert bonds
    assert max(cures[bond] for bond in bonds) < 7 * 24
    rarer = asked("trim-panel", onto, "monthly", panel="side").answers
    assert "elastic adhesive" in {a.proposal.joint.patch.bond for a in rarer if a.proposal.joint.patch is not None}


def test_fewest_sizes_never_put_hook_and_loop_for_a_thread() -> None:
    """One cover off weekly by hook-and-loop, one off monthly by a thread: two sizes stay, and the thread stays."""
    cover = {"item": "trim-panel", "onto": "steel 0.8 mm", "mass": "0.8kg", "panel": "side"} | MEASURED
    mounts = tuple(
        Mount(removed, tuple((cover | {"removed": removed}).items()), "", None)
        for removed in ("weekly", "monthly", "yearly")
    )
    found = choices(Job("covers", "", "", mounts), TABLES)
    kept = {one.name: one.answer for one in fewest_sizes(found, TABLES).choices if isinstance(one, Choice)}
    stood = {choice.name: choice.answer for choice in found}
    for name, answer in kept.items():
        before = stood[name]
        assert answer is not None
        assert before is not None
        if before.proposal.joint.screw is not None:
            assert answer.proposal.joint.screw is not None
    assert Status.HOLDS in {answer.proposal.status for answer in kept.values() if answer}


LAYERS = ("carpet 12 mm, deadener 2 mm", "carpet 12 mm cut out", "rubber 3 mm", "foam 2 mm")


@pytest.mark.parametrize("between", LAYERS)
@pytest.mark.parametrize(
    ("item", "onto", "said"),
    [
        ("amplifier", "steel 0.8 mm", {"panel": "floor", "support": "firm"}),
        ("amplifier", "MDF 18 mm", {"panel": "floor", "support": "firm"}),
        ("enclosure", "steel 1.2 mm", {"panel": "floor", "support": "frame", "reach": "both-sides", "mass": "30kg"}),
        ("distribution-block", "steel 0.8 mm", {"panel": "floor"}),
        ("bracket", "steel 0.8 mm", {"panel": "side"}),
    ],
)
def test_what_stands_on_something_soft_has_a_proven_answer(
    item: str, onto: str, said: dict[str, str], between: str
) -> None:
    assert asked(item, onto, "yearly", between=between, **said).answers[0].proposal.proven


@pytest.mark.parametrize("place", ["floor", "wheel-arch", "spare-wheel-well", "door"])
def test_what_comes_off_yearly_where_it_is_wet_behind_gets_a_closed_nut(place: str) -> None:
    advice = asked("bracket", f"steel {place}", "yearly", support="frame")
    assert advice.answers[0].proposal.proven
    assert "closed end" in advice.answers[0].title


def test_an_adapter_on_thin_tape_needs_no_sleeves() -> None:
    said = {"panel": "door", "where": "door", "carries": "speaker 1.5 kg", "between": "foam 2 mm"}
    answer = asked("speaker-adapter", "steel 0.7 mm", "yearly", **said).answers[0]
    assert answer.proposal.proven
    assert "compression limiter" not in " ".join(step.text for step in answer.steps if "Cut a hole" in step.text)
