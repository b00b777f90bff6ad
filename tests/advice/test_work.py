"""How an answer is told: cautions with their figures, steps and tools for the hole that is there, one torque tool.

Common practice all of it, no source, unless a test names one.
"""

from collections import Counter
from dataclasses import replace
from functools import cache

import pytest

from fasten.advice.advise import advise
from fasten.advice.conditions import Holding
from fasten.advice.tasks import tasks_of
from fasten.catalog.practice import EVERY, TOOLS
from fasten.catalog.tables import builtin
from fasten.job.choices import pinned
from fasten.job.shelf.owned import Owned
from fasten.job.words import Pin
from fasten.model import Advice, Answer, Origin, Panel, Where
from fasten.model.known import FarEnd
from fasten.question.read import read_question
from fasten.question.resolve import resolve

AMPLIFIER = {
    "item": "amplifier", "onto": "steel 0.8 mm", "removed": "monthly", "panel": "floor", "behind": "60mm",
    "edge": "60mm",
}  # fmt: skip
STRIPPED = {
    "item": "equipment-board", "onto": "steel 0.8 mm", "removed": "rarely", "mass": "1kg", "fixings": "2",
    "pattern": "row 100 mm", "behind": "60mm", "edge": "60mm",
}  # fmt: skip
SKIN = "that unsupported skin under 1 mm carries: spread it to a swage or cross-member."


def asked(base: dict[str, str], **said: str) -> Advice:
    fields = base | {name.replace("_", "-"): text for name, text in said.items()}
    return _advised(tuple(sorted(fields.items())))


@cache
def _advised(fields: tuple[tuple[str, str], ...]) -> Advice:
    return advise(resolve(read_question(dict(fields), builtin()), builtin()), builtin(), changes=False)


def nut(advice: Advice, shape: str) -> Answer:
    """The first rivet nut whose hole has that shape."""
    found = ((answer, answer.proposal.joint.hole) for answer in advice.answers if answer.method == "rivet_nut")
    return next(answer for answer, hole in found if hole is not None and hole.shape == shape)


@pytest.mark.parametrize(("mass", "told"), [("6kg", "6 kg"), ("3.001kg", "3.01 kg"), ("5.25 kg", "5.25 kg")])
def test_too_much_on_thin_skin_is_told_first_and_with_both_figures(mass: str, told: str) -> None:
    for answer in asked(AMPLIFIER, mass=mass).answers:
        assert answer.cautions[0].text == f"{told} is more than the 3 kg {SKIN}"


@pytest.mark.parametrize("said", [{"mass": "3kg"}, {"mass": "1kg"}, {"onto": "steel 1 mm", "mass": "6kg"}])
def test_what_the_skin_carries_is_not_warned_of(said: dict[str, str]) -> None:
    for answer in asked(AMPLIFIER, **said).answers:
        assert not any("unsupported skin" in caution.text for caution in answer.cautions)


@pytest.mark.parametrize("panel", ["door", "side", "roof", "floor"])
@pytest.mark.parametrize("where", ["door", "cabin", "underfloor"])
def test_a_caution_is_told_once(panel: str, where: str) -> None:
    """A door is a panel and a place, and both ask for the same care."""
    for onto in ("steel 0.8 mm", "ABS 8 mm", "MDF 18 mm", "fibreglass 4 mm"):
        for answer in asked(AMPLIFIER, onto=onto, panel=panel, where=where, mass="1kg").answers:
            counts = Counter(caution.text for caution in answer.cautions)
            assert set(counts.values()) == {1}
            assert any("glass fully down" in text for text in counts) == ("door" in (panel, where))


@pytest.mark.parametrize("panel", Panel)
@pytest.mark.parametrize("where", Where)
def test_a_door_as_a_panel_and_as_a_place_are_two_conditions(panel: Panel, where: Where) -> None:
    advice = asked(AMPLIFIER)
    held = Holding(advice.answers[0].proposal, replace(advice.mount, panel=panel, where=where), builtin())
    assert (held["door panel"], held["in a door"]) == (panel is Panel.DOOR, where is Where.DOOR)
    assert not held["door"]


def test_no_caution_keeps_a_place_for_a_figure() -> None:
    for said in ({}, {"onto": "ABS 8 mm", "mass": "1kg"}, {"onto": "MDF 18 mm"}):
        for answer in asked(AMPLIFIER, **said).answers:
            assert not any("{" in caution.text or "}" in caution.text for caution in answer.cautions)


def test_a_hole_that_is_wide_enough_is_not_opened_up() -> None:
    said = STRIPPED | {"hole-there": "7mm"}
    file = Owned(frozenset(), (), frozenset({"file for a hexagon hole"}), frozenset())
    point = resolve(read_question(said, builtin()), builtin())
    answer = pinned(Pin("rivet_nut", "M5", "hexagon, flat head", None, None), point, builtin(), file)
    assert isinstance(answer, Answer)
    told = " ".join(step.text for step in answer.steps)
    assert "Open up" not in told
    assert "Measure the existing hole (7 mm): it is wide enough, so drill only the test piece." in told
    assert "file or punch the corners out of the round hole, 7 mm across the flats" in told
    assert "file for a hexagon hole" in [need.text for need in answer.tools]


def test_a_narrower_hole_is_opened_up_and_a_round_one_needs_no_file() -> None:
    answer = nut(asked(STRIPPED, hole_there="6.5mm"), "round")
    assert any(step.text.startswith("Open up to 7 mm with bit 7 mm") for step in answer.steps)
    assert not any("only the test piece" in step.text for step in answer.steps)
    assert "file for a hexagon hole" not in [need.text for need in answer.tools]


def test_a_round_nut_in_an_old_round_hole_comes_before_a_hexagon_filed_into_it() -> None:
    """M5 at 7 mm, its own hole, before the hexagon M5 whose flats the old 7 mm hole would touch."""
    for said, hole_mm in (({}, 7.0), ({"panel": "floor"}, 7.0)):
        joint = asked(STRIPPED, hole_there="7mm", **said).answers[0].proposal.joint
        assert joint.hole is not None
        assert (joint.method, joint.hole.shape, joint.hole.diameter_mm) == ("rivet_nut", "round", hole_mm)


def test_a_hole_that_is_there_is_neither_marked_nor_piloted() -> None:
    plain, there = nut(asked(STRIPPED), "round"), nut(asked(STRIPPED, hole_there="7mm"), "round")
    for name in ("centre punch", "3 mm drill bit"):
        assert name in [need.text for need in plain.tools]
        assert name not in [need.text for need in there.tools]
    assert "masking tape" not in [need.text for need in there.consumables]


def first_of(said: dict[str, str]) -> Answer:
    return asked(said).answers[0]


def text_of(answer: Answer, id_: str) -> str | None:
    return next((step.text for step in answer.steps if step.id == id_), None)


@pytest.mark.parametrize(
    ("said", "told", "figure"),
    [({"onto": "steel 0.8 mm"}, "0.8 mm", "0.8"), ({"onto": "steel floor"}, "0.8 to 1.2 mm", None),
     ({"onto": "steel floor", "support": "frame"}, "0.8 to 2.7 mm", None)],
)  # fmt: skip
def test_a_nut_is_set_for_what_was_measured_and_no_figure_is_ticked_of_a_range(
    said: dict[str, str], told: str, figure: str | None
) -> None:
    answer = nut(asked(AMPLIFIER | said), "round")
    text = text_of(answer, "rivet_nut/set/2")
    assert text is not None
    assert told in text
    assert "measure" in text.lower()
    mount = resolve(read_question(AMPLIFIER | said, builtin()), builtin())
    made_to = next(one.figure for one in tasks_of(answer, mount, builtin()) if one.step.id == "rivet_nut/set/2")
    assert (made_to.value if made_to else None) == figure


def test_sealant_for_a_ground_goes_where_it_can_be_put_and_when() -> None:
    ground = {"item": "ground-lug", "onto": "steel floor", "removed": "rarely", "behind": "40mm", "edge": "40mm"}
    closed = nut(asked(ground, reach="one-side"), "round")
    assert closed.proposal.joint.receiver is not None
    assert closed.proposal.joint.receiver.end is FarEnd.CLOSED
    both = next(one for one in asked(ground, reach="both-sides").answers if one.method == "through_bolt")
    seals = "every/seal/3", "every/lock/2"
    assert [text_of(closed, id_) for id_ in seals] == [None, None]
    assert [text_of(both, id_) is not None for id_ in seals] == [True, False]


def test_a_pilot_as_wide_as_the_hole_is_not_opened_up() -> None:
    fuse = {"item": "fuse-holder", "onto": "steel engine-bay", "removed": "never", "item-material": "nylon"}
    answer = next(one for one in asked(fuse).answers if one.method == "tapping_screw")
    assert answer.proposal.joint.hole is not None
    assert answer.proposal.joint.hole.diameter_mm < 3
    assert "Open up" not in (text_of(answer, "every/open_up/1") or "Open up")
    assert not any("trim panel" in caution.text for caution in answer.cautions)


def test_clamps_along_a_cable_put_only_their_own_share_on_the_skin() -> None:
    clamps = {"item": "wire-clamp", "onto": "steel floor", "removed": "rarely", "run": "5 m"}
    assert not any("unsupported skin" in caution.text for caution in first_of(clamps).cautions)


def test_the_body_of_a_rivet_nut_is_measured_before_anything_is_drilled() -> None:
    told = " ".join(step.text for step in nut(asked(STRIPPED), "round").steps)
    assert told.index("Measure the body") < told.index("Drill one")


@pytest.mark.parametrize(
    ("base", "said", "tool"),
    [
        (AMPLIFIER, {}, "torque screwdriver"),  # 1.5 N·m
        (AMPLIFIER, {"onto": "steel 6 mm", "removed": "yearly"}, "torque wrench"),
        (AMPLIFIER, {"onto": "steel 3 mm", "removed": "yearly"}, "torque wrench"),
    ],
)
def test_one_tool_measures_the_torque_and_reaches_down_to_it(
    base: dict[str, str], said: dict[str, str], tool: str
) -> None:
    """Small click wrenches begin near 2 N·m; torque screwdrivers reach from about 0.5 to 6."""
    answer = asked(base, **said).answers[0]
    torque = answer.proposal.torque
    assert torque is not None
    assert (torque.target_nm < 2) == (tool == "torque screwdriver")
    assert torque.tool == tool.replace(" ", "_")
    assert [need.key for need in answer.tools if need.key.startswith("torque")] == [tool]


TRIED_WITH = "thread_forming_screw"


def test_no_method_names_a_torque_tool_beside_that_of_its_torque() -> None:
    """But for the one to try a formed thread with, where no torque is known."""
    named = {row.method for row in builtin().rows(TOOLS) if row.tool in {"torque wrench", "torque screwdriver"}}
    assert named == {EVERY, TRIED_WITH}


@pytest.mark.parametrize("name", ["bracket", "old bracket", "angle bracket", "strap"])
def test_a_bracket_is_known_by_the_names_it_goes_by_and_what_it_is_taken_for_is_a_preset(name: str) -> None:
    mount = asked({"item": name, "onto": "steel 0.8 mm", "removed": "rarely"}).mount
    assert (mount.item, mount.item_material) == ("bracket", "steel")
    preset = {field for field, origin in mount.origins if origin is Origin.PRESET}
    assert preset == {
        "mass_kg",
        "item_mass_kg",
        "fixings",
        "pattern",
        "item_thickness_mm",
        "item_hole_mm",
        "item_material",
    }


@pytest.mark.parametrize(
    ("more", "said"),
    [
        ({}, True), ({"panel": "side"}, False), ({"far-side": "dry"}, False), ({"far-side": "wet"}, False),
        ({"onto": "steel 5 mm"}, False), ({"onto": "steel side"}, False),
    ],
)  # fmt: skip
def test_a_back_that_counts_as_dry_only_because_nothing_is_said_of_it_is_cautioned(
    more: dict[str, str], said: bool
) -> None:
    answer = asked({"item": "amplifier", "onto": "steel 1 mm", "removed": "yearly"} | more).answers[0]
    assert any("its back counts as dry" in caution.text for caution in answer.cautions) is said
