"""A mount point as people type it: what each field is read as, what is asked for, what is refused and how."""

import subprocess
import sys
from dataclasses import fields as fields_of

import pytest

from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.model import (
    Bay,
    Between,
    Boss,
    Bound,
    Carried,
    Doubler,
    ExistingThread,
    FarSide,
    Into,
    Joined,
    Origin,
    Outline,
    Panel,
    Pattern,
    Question,
    Rails,
    Reach,
    Removal,
    Visible,
    Where,
    asked,
)
from fasten.question.fields import NAMES
from fasten.question.read import read_question
from fasten.question.read_onto import read_onto
from fasten.question.resolve import resolve
from fasten.tui.mounts.entry import read_one

from .asking import LEAST, ask, check_message, refusal


def test_removals_are_preset_where_the_item_leaves_no_doubt_and_asked_for_elsewhere() -> None:
    """A fuse is changed under its lid; common practice, no source."""
    mount = resolve(read_question({"item": "fuse holder", "onto": "steel 0.8 mm"}, builtin()), builtin())
    assert (mount.removed, dict(mount.origins)["removed"]) == (Removal.NEVER, Origin.PRESET)
    said = {"item": "fuse holder", "onto": "steel 0.8 mm", "removed": "yearly"}
    mount = resolve(read_question(said, builtin()), builtin())
    assert (mount.removed, dict(mount.origins)["removed"]) == (Removal.YEARLY, Origin.GIVEN)
    with pytest.raises(FastenError, match="say how often it comes off"):
        read_question({"item": "tweeter", "onto": "steel 0.8 mm"}, builtin())


def test_least_question_leaves_the_rest_unsaid() -> None:
    question = ask()
    assert (question.item, question.material, question.thickness_mm) == ("amplifier", "steel", 0.8)
    assert question.removed is Removal.YEARLY
    unsaid = {field.name for field in fields_of(question)} - {"item", "material", "thickness_mm", "removed"}
    assert all(getattr(question, name) is None for name in unsaid)


def test_every_field_reaches_the_question() -> None:
    said = {
        "item": "speaker adapter", "onto": "20 ga steel door", "removed": "Rarely", "mass": "2 lb", "fixings": "6",
        "pattern": "circle 165 mm", "item-thickness": "3/4 in", "item-hole": "5.5mm", "item-material": "MDF",
        "cg": "4 cm", "panel": "door", "between": "foam 3 mm", "behind": "40 mm", "edge": "1 in",
        "support": "bay 300x450", "doubler": "200x1.6 mm bonded", "rails": "2 of 20x1.5 mm over 400 mm",
        "on-board": "rear board",
        "boss": "8x14 mm", "into": "edge", "reach": "both sides", "where": "underfloor", "far-side": "dry",
        "visible": "YES", "grade": "a2-70", "body": "7.1 mm", "hole-there": "6.2 mm",
        "holes-at": "points 0,0 100,0", "case": "hard stop",
        "carries": "speaker 2 kg at 60 mm", "run": "2 m", "ring": "m8", "rings": "2", "cable": "4 mm2",
        "current": "30A", "power": "4 x 75W class ab", "own-fuses": "2 x 25 A", "outputs": "4 x 75 W 4 ohm",
    }  # fmt: skip
    assert tuple(said) == NAMES
    assert read_question(said, builtin()) == Question(
        item="speaker-adapter",
        material="steel",
        thickness_mm=0.91186,  # 0.0359 in, as the gauge table prints it
        place="door",
        removed=Removal.RARELY,
        mass_kg=0.90718474,
        fixings=6,
        pattern=Pattern("circle", 165.0, None),
        item_thickness_mm=19.05,
        item_hole_mm=5.5,
        item_material="mdf",
        cg_mm=40.0,
        panel=Panel.DOOR,
        between=Between("foam", 3.0),
        behind_mm=40.0,
        edge_mm=25.4,
        behind_bound=Bound.EXACT,
        edge_bound=Bound.EXACT,
        boss=Boss(8.0, 14.0),
        into=Into.EDGE,
        reach=Reach.BOTH_SIDES,
        where=Where.UNDERFLOOR,
        far_side=FarSide.DRY,
        visible=Visible.YES,
        grade="A2-70",
        body_mm=7.1,
        existing_hole_mm=6.2,
        holes_at=Pattern("points", 100.0, 0.0, ((0.0, 0.0), (100.0, 0.0))),
        case="hard-stop",
        carries=(Carried("speaker", 2.0, 60.0),),
        run_mm=2000.0,
        ring="M8",
        rings=2,
        cable_mm2=4.0,
        current_a=30.0,
        support=Bay(300.0, 450.0),
        doubler=Doubler(200.0, 1.6, Joined.BONDED),
        rails=Rails(2, 20.0, 1.5, 400.0),
        board="rear board",
        power=asked.Power(300.0, "AB", None),
        own_fuses=asked.OwnFuses((25.0, 25.0)),
        outputs=asked.Outputs((asked.Output(4, 75.0, 4.0),)),
    )


@pytest.mark.parametrize(
    ("text", "body_mm", "thread"),
    [("7.1 mm", 7.1, None), ("M5 6.9 mm", 6.9, "M5"), ("m4, 6.9mm", 6.9, "M4"), ("M6;8.9 mm", 8.9, "M6")],
)
def test_the_body_of_a_nut_with_its_thread(text: str, body_mm: float, thread: str | None) -> None:
    question = ask(body=text)
    assert (question.body_mm, question.body_thread) == (body_mm, thread)


def test_a_body_of_two_threads_asks_which() -> None:
    """M4 of the long grip and M5 of the ordinary nut both have 6.9 mm."""
    error = refusal(body="6.9 mm")
    assert (error.where, error.what) == ("body", "a body of 6.9 mm is M5 or M4")
    assert error.fix == "write its thread too, such as M5 6.9 mm"
    assert "M4, M5, M6 or M8" in refusal(body="M7 6 mm").fix


@pytest.mark.parametrize(
    ("text", "there"),
    [
        ("M6", ExistingThread("M6", "tapped")),
        ("m6 x 1", ExistingThread("M6", "tapped")),
        ("M6x0.75", ExistingThread("M6x0.75", "tapped")),
        ("M8 weld nut", ExistingThread("M8", "tapped")),
        ("tapped hole M8", ExistingThread("M8", "tapped")),
        ("M6 stud", ExistingThread("M6", "stud")),
        ("Stud M6", ExistingThread("M6", "stud")),
    ],
)
def test_a_thread_that_is_there_is_no_hole(text: str, there: ExistingThread) -> None:
    question = ask(hole_there=text)
    assert (question.existing_thread, question.existing_hole_mm) == (there, None)


@pytest.mark.parametrize(("text", "hole_mm"), [("5.1 mm", 5.1), ("1-1/2 in", 38.1), ("1/4", 6.35)])
def test_a_hole_that_is_there_is_no_thread(text: str, hole_mm: float) -> None:
    question = ask(hole_there=text)
    assert (question.existing_thread, question.existing_hole_mm) == (None, hole_mm)


@pytest.mark.parametrize("text", ["M99", "M6x2", "1/4-20", "#8-32 stud", "stud", "6.2 mm stud", "M6 rivet"])
def test_a_thread_that_no_table_knows_is_refused(text: str) -> None:
    error = refusal(hole_there=text)
    assert (error.where, "M6 stud" in error.fix) == ("hole-there", True)


@pytest.mark.parametrize(
    ("text", "boss"),
    [
        ("8 mm", Boss(8.0, None)),
        ("8", Boss(8.0, None)),
        ("8x14 mm", Boss(8.0, 14.0)),
        ("8 x 14", Boss(8.0, 14.0)),
        ("5/16 in", Boss(7.9375, None)),
        ("8x14x2 mm", None),
        ("8x mm", None),
    ],
)
def test_a_boss_is_its_outside_and_perhaps_its_depth(text: str, boss: Boss | None) -> None:
    said = {"item": "crossover", "onto": "ABS 3 mm", "removed": "yearly", "boss": text}
    if boss is None:
        with pytest.raises(FastenError) as caught:
            read_question(said, builtin())
        assert caught.value.where == "boss"
    else:
        assert read_question(said, builtin()).boss == boss


# Gauge thicknesses in inches, as printed: Manufacturers' Standard 20 ga 0.0359; galvanised 22 ga 0.0336; aluminium
# (Brown & Sharpe) 18 ga 0.0403; stainless 16 ga 0.0625.
@pytest.mark.parametrize(
    ("text", "material", "thickness_mm", "place"),
    [
        ("steel 0.8 mm", "steel", 0.8, None),
        ("0.8 mm steel", "steel", 0.8, None),
        ("0.8mm steel", "steel", 0.8, None),
        ("Steel, 0,8 mm", "steel", 0.8, None),
        ("steel sheet 0.8 mm", "steel", 0.8, None),
        ("mild steel 1/32 in", "steel", 0.79375, None),
        ("steel plate 6 mm", "structural_steel", 6.0, None),
        ("steel 20 ga", "steel", 0.0359 * 25.4, None),
        ("20 ga steel", "steel", 0.0359 * 25.4, None),
        ("20-gauge steel", "steel", 0.0359 * 25.4, None),
        ("galvanised steel 22 ga", "galvanised_steel", 0.0336 * 25.4, None),
        ("22 ga galvanized", "galvanised_steel", 0.0336 * 25.4, None),
        ("galv 22 ga", "galvanised_steel", 0.0336 * 25.4, None),
        ("aluminium 18 ga", "aluminium", 0.0403 * 25.4, None),
        ("stainless 16 ga", "stainless_steel", 0.0625 * 25.4, None),
        ("stainless 1 mm", "stainless_steel", 1.0, None),
        ("aluminium 2 mm", "aluminium", 2.0, None),
        ("aluminum 2 mm", "aluminium", 2.0, None),
        ("MDF 18 mm", "mdf", 18.0, None),
        ("medium-density fibreboard 18 mm", "mdf", 18.0, None),
        ("ABS 3 mm", "abs", 3.0, None),
        ("steel floor", "steel", None, "floor"),
        ("floor, steel", "steel", None, "floor"),
        ("galvanised steel floor", "galvanised_steel", None, "floor"),
        ("steel seat-back", "steel", None, "seat-back"),
        ("Steel Wheel Arch", "steel", None, "wheel-arch"),
        ("steel floor 0.8 mm", "steel", 0.8, "floor"),
        ("aluminium 1.2 mm floor", "aluminium", 1.2, "floor"),
    ],
)
def test_onto_is_read(text: str, material: str, thickness_mm: float | None, place: str | None) -> None:
    found = read_onto(text, builtin(), "onto")
    assert found == (material, thickness_mm if thickness_mm is None else pytest.approx(thickness_mm), place, None)


@pytest.mark.parametrize("text", ["MDF ring 18 mm", "round ring mdf 18 mm", "18 mm MDF speaker ring", "ring mdf 18mm"])
def test_a_ring_is_told_of(text: str) -> None:
    assert read_onto(text, builtin(), "onto") == ("mdf", 18.0, None, Outline.RING)
    assert ask(onto=text).outline is Outline.RING
    assert read_one("onto", text, builtin()).understood == "MDF ring 18 mm", "what the screen shows beside the field"


@pytest.mark.parametrize(
    ("text", "parts"),
    [
        ("steel", ["steel has no thickness", "steel 0.8 mm", "steel floor"]),
        ("MDF", ["no thickness", "MDF 18 mm"]),
        ("floor", ["names no material", "never guessed", "steel floor"]),
        ("0.8 mm", ["names no material", "steel 0.8 mm"]),
        ("0.8 mm floor", ["names no material"]),
        ("20 ga", ["gauge, which needs its metal", "20 ga steel"]),
        ("20 ga floor", ["gauge, which needs its metal"]),
        ("steal 0.8 mm", ["'steal' is not known", "did you mean steel?"]),
        ("aluminum-foil 0.8 mm", ["'foil' is not known"]),
        ("unobtanium 1 mm", ["'unobtanium' is not known", "galvanised steel"]),
        ("1 mm unobtanium", ["'unobtanium' is not known"]),
        ("aluminium floor", ["of body steel only", "aluminium 0.8 mm floor"]),
        ("MDF floor", ["of body steel only", "MDF 18 mm floor"]),
        ("carpet 6 mm", ["carpet is a soft layer", "between"]),
        ("steel aluminium 1 mm", ["two materials are named"]),
        ("steel floor roof", ["two places are named"]),
        ("steel 99 ga", ["99 ga is not in the gauge table of steel, 7 to 30 ga"]),
        ("MDF 20 ga", ["MDF is not sold by gauge"]),
        ("steel 6 kg", ["is a mass, wanted a length"]),
        ("steel 0.8", ["has no unit", "0.8 mm"]),
        ("steel 0 mm", ["is zero"]),
        ("steel 1e9 mm", ["exponent"]),
        ("steel 1000000000 mm", ["20000 mm"]),
        ("steel nan", ["'nan' is not known"]),
        ("[M8]", ["[M8]"]),
        ("steel [/", ["[/"]),
        ("steel\x1b[31m 1 mm", ["steel\\x1b"]),
    ],
)
def test_onto_is_asked_for_or_refused(text: str, parts: list[str]) -> None:
    error = refusal(onto=text)
    assert error.where == "onto"
    assert [part for part in parts if part not in str(error)] == []


def test_a_board_is_screwed_into_its_face_or_its_edge_and_nothing_else() -> None:
    assert [into.value for into in Into] == ["face", "edge"]
    error = refusal(onto="mdf 18 mm", into="hole-there")
    assert (error.where, error.fix) == ("into", "write face or edge")


@pytest.mark.parametrize("text", ["0", "-4", "4.5", "101", "four", "1e1", "٣", "9" * 5000])
def test_fixings_is_a_whole_number(text: str) -> None:
    assert "not a whole number from 1 to 100" in str(refusal(fixings=text))


@pytest.mark.parametrize("name", ["item", "onto", "removed"])
@pytest.mark.parametrize("text", [None, "", "  \n"])
def test_what_cannot_be_done_without_is_asked_for(name: str, text: str | None) -> None:
    said = {key: value for key, value in LEAST.items() if key != name} | ({} if text is None else {name: text})
    with pytest.raises(FastenError) as caught:
        read_question(said, builtin())
    assert caught.value.where == name
    assert "say " in caught.value.fix


def test_removals_are_asked_for_by_name() -> None:
    assert "never, rarely, yearly, monthly or weekly" in str(refusal(removed=""))


def test_empty_optional_fields_are_unsaid() -> None:
    unsaid = {name.replace("-", "_"): " " for name in NAMES if name not in LEAST}
    assert ask(**unsaid) == ask()


@pytest.mark.parametrize(
    ("name", "text", "part"),
    [
        ("item", "amplifer", "did you mean amplifier"),
        ("item", "zzzz", "write a name such as amplifier, signal-processor"),
        ("item", "[M8]\x00", "[M8]\\x00"),
        ("item", "[/", "[/"),
        ("item-material", "aluminim", "did you mean aluminium"),
        ("item-material", "carpet", "not a known material"),
        ("removed", "year", "did you mean yearly?"),
        ("removed", "often", "never, rarely, yearly, monthly or weekly"),
        ("panel", "flor", "did you mean floor?"),
        ("reach", "inside", "one-side"),
        ("where", "outside", "cabin, door, underfloor or engine-bay"),
        ("visible", "perhaps", "yes or no"),
        ("grade", "8,8", "did you mean 8.8?"),
        ("case", "moon", "road, hard-stop or ambulance"),
        ("between", "foam", "foam has no thickness; write foam 3 mm"),
        ("between", "3 mm", "does not say of what"),
        ("between", "steel 3 mm", "write foam, carpet, mat, rubber, deadener or butyl"),
        ("between", "isolating mounts", "on its maker's sheet"),
        ("onto", "A-pillar", "nothing is fastened to a pillar"),
        ("onto", "steel B pillar 1.5 mm", "to a pillar"),
        ("onto", "seat rail", "seats, belts or what holds them"),
        ("onto", "boron steel 1.2 mm", "press-hardened"),
        ("between", "carpet 3 mm, butyl", "butyl has no thickness"),
        ("between", "mat 1 mm, mat 1 mm, mat 1 mm, mat 1 mm, mat 1 mm", "5 soft layers are too many"),
        ("between", "foam 20 ga", "gauge"),
        ("mass", "0 kg", "zero"),
        ("mass", "1e9 mm", "exponent"),
        ("mass", "1000000000 mm", "is a length, wanted a mass"),
        ("mass", "NaN", "not a number"),
        ("mass", "6", "has no unit"),
        ("behind", "-1 mm", "negative"),
        ("cg", "1000000000 mm", "20000 mm"),
        ("item-hole", "nan", "not a number"),
        ("item-hole", "3.1 mm", "smallest, M3, wants 3.2 mm"),
    ],
)
def test_refusals_say_what_to_do(name: str, text: str, part: str) -> None:
    error = refusal(**{name: text})
    assert error.where == name
    assert part in str(error)


def test_item_hole_may_be_as_small_as_the_smallest_screw_wants() -> None:
    assert ask(item_hole="3.2 mm").item_hole_mm == 3.2  # ISO 273 fine, M3


def test_space_behind_may_be_none_at_all() -> None:
    assert ask(behind="0 mm").behind_mm == 0.0


def test_a_field_that_is_none_is_refused() -> None:
    assert "'onot' is not a field of a question; did you mean onto?" in str(refusal(onot="steel 1 mm"))


@pytest.mark.slow
@pytest.mark.parametrize("name", NAMES)
@pytest.mark.parametrize("filling", ["x", "9", "steel ", "[/", "\x00", "0x", "a-"])
def test_a_huge_text_is_refused_in_a_sentence(name: str, filling: str) -> None:
    error = refusal(**{name: filling * (100_000 // len(filling))})
    assert error.where == name
    check_message(error)


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ({"onto": "steel 0.8 mm"}, {"onto": "0.08 cm steel"}),
        ({"onto": "steel 20 ga"}, {"onto": "steel 0.0359 in"}),
        ({"onto": "aluminium 3.175 mm"}, {"onto": 'aluminium 1/8"'}),
        ({"mass": "6 kg"}, {"mass": "6000 g"}),
        ({"mass": "0.45359237 kg"}, {"mass": "1 lb"}),
        ({"pattern": "rectangle 241.3x177.8"}, {"pattern": "rectangle 9.5x7 in"}),
        ({"pattern": "circle 165.1 mm"}, {"pattern": "circle 6 1/2 in"}),
        ({"item-hole": "6.35 mm"}, {"item-hole": "1/4"}),
        ({"item-thickness": "19.05 mm"}, {"item-thickness": "3/4 in"}),
        ({"behind": "25.4 mm"}, {"behind": "1 in"}),
        ({"between": "foam 3.175 mm"}, {"between": "1/8 in foam"}),
    ],
)
def test_the_unit_never_changes_the_question(one: dict[str, str], other: dict[str, str]) -> None:
    assert ask(**one) == ask(**other)


def test_reading_a_good_question_loads_nothing_slow() -> None:
    code = (
        "import sys; from fasten.catalog.tables import builtin; from fasten.question.read import read_question; "
        f"read_question({LEAST!r}, builtin()); print(*sorted({{'difflib', 'pint', 'pydantic'}} & set(sys.modules)))"
    )
    ran = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert ran.stdout.strip() == ""


# Pieces of good answers and of what must not be taken for them, so that random text comes close to being an answer.
