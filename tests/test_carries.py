"""What an item carries: how it is typed, what it weighs together, and where its centre of gravity comes to stand."""

import json

import pytest

from fasten.advice.advise import advise
from fasten.catalog.tables import builtin
from fasten.errors import FastenError
from fasten.model import Carried, MountPoint, Origin, Question
from fasten.proof.demands import demands
from fasten.question.fields import MASS
from fasten.question.read import read_question
from fasten.question.resolve import resolve
from fasten.report.answer.as_json import advice_json
from fasten.report.answer.as_text import advice_text
from fasten.tui.mounts.entry import consider, filled, read_one

LEAST = {"item": "equipment-board", "onto": "steel 0.8 mm", "removed": "yearly"}
DSP = Carried("signal-processor", 0.9, None)
BOARD_KG, BOARD_MM = 6.0, 12.0  # the preset, common practice


def ask(**said: str) -> Question:
    return read_question({**LEAST, **{name.replace("_", "-"): text for name, text in said.items()}}, builtin())


def mount(**said: str) -> MountPoint:
    return resolve(ask(**said), builtin())


@pytest.mark.parametrize(
    ("text", "carries"),
    [
        ("amplifier", (Carried("amplifier", None, None),)),
        ("amplifier 5 kg", (Carried("amplifier", 5.0, None),)),
        ("AMP 5kg", (Carried("amplifier", 5.0, None),)),
        ("amplifier, signal-processor", (Carried("amplifier", None, None), Carried("signal-processor", None, None))),
        (
            "amplifier,signal processor 900 g",
            (Carried("amplifier", None, None), Carried("signal-processor", 0.9, None)),
        ),
        ("5 kg at 80 mm", (Carried(None, 5.0, 80.0),)),
        ("crossover at 8 cm", (Carried("crossover", None, 80.0),)),
        ("2,5 kg at 30,5 mm, 3 kg", (Carried(None, 2.5, 30.5), Carried(None, 3.0, None))),
        ("5 kg,3 kg", (Carried(None, 5.0, None), Carried(None, 3.0, None))),
    ],
)
def test_what_is_carried_is_names_masses_and_heights(text: str, carries: tuple[Carried, ...]) -> None:
    assert ask(carries=text).carries == carries


@pytest.mark.parametrize(
    ("text", "what"),
    [
        ("piano", "'piano' is not a known item"),
        ("amplifier 5", "no unit"),
        ("amplifier -5 kg", "negative"),
        ("amplifier 5 mm", "a length, wanted a mass"),
        ("5 kg at", "nothing is written"),
        ("5 kg at 3 kg", "a mass, wanted a length"),
        ("at 80 mm", "neither what nor how heavy"),
        ("amplifier,, crossover", "neither what nor how heavy"),
        ("amplifier,", "neither what nor how heavy"),
        ("1 kg," * 30 + "1 kg", "at most 20 things"),
        ("1 kg" + " " * 500, "no known"),
    ],
)
def test_what_is_not_understood_is_refused_in_its_own_field(text: str, what: str) -> None:
    if what == "no known":  # spaces at the ends say nothing
        assert ask(carries=text).carries == (Carried(None, 1.0, None),)
        return
    with pytest.raises(FastenError, match=what) as caught:
        ask(carries=text)
    assert caught.value.where == "carries"
    assert caught.value.fix


def test_mass_and_centre_are_of_all_together_and_the_item_stays_visible() -> None:
    """By hand: 6 kg at 30 mm, 5 kg at 12 + 30 mm and 2 kg at 80 mm: 13 kg at (180 + 210 + 160)/13 = 42.31 mm."""
    point = mount(carries="amplifier 5 kg, 2 kg at 80 mm")
    assert point.mass_kg == pytest.approx(13.0)
    assert point.cg_mm == pytest.approx(550 / 13)
    assert (point.item_mass_kg, point.item_cg_mm) == (BOARD_KG, 30.0)
    assert point.carries == (Carried("amplifier", 5.0, 42.0), Carried(None, 2.0, 80.0))


def test_a_thing_stands_on_the_item_with_its_centre_at_half_its_height_or_30_mm() -> None:
    """An enclosure of 350 mm on a board of 12 mm: 187 mm; a signal processor of 45 mm by the least of 30: 42 mm."""
    carries = mount(carries="enclosure, signal-processor").carries
    assert carries is not None
    assert [thing.cg_mm for thing in carries] == [BOARD_MM + 175, BOARD_MM + 30]
    assert [thing.mass_kg for thing in carries] == [25.0, 1.0]  # presets


def test_the_thickness_that_is_said_is_what_it_stands_on() -> None:
    carries = mount(carries="2 kg", item_thickness="18 mm").carries
    assert carries == (Carried(None, 2.0, 48.0),)


def test_the_mass_that_is_said_is_the_items_own() -> None:
    point = mount(carries="5 kg", mass="4 kg", cg="20 mm")
    assert (point.mass_kg, point.item_mass_kg, point.item_cg_mm) == (9.0, 4.0, 20.0)
    assert point.cg_mm == pytest.approx((4 * 20 + 5 * 42) / 9)


@pytest.mark.parametrize(
    ("said", "carries", "mass", "cg"),
    [
        ({"carries": "5 kg at 80 mm", "mass": "4 kg", "cg": "20 mm"}, Origin.GIVEN, Origin.GIVEN, Origin.GIVEN),
        ({"carries": "5 kg", "mass": "4 kg", "cg": "20 mm"}, Origin.GIVEN, Origin.GIVEN, Origin.ASSUMED),
        ({"carries": "5 kg at 80 mm", "cg": "20 mm"}, Origin.GIVEN, Origin.PRESET, Origin.GIVEN),
        ({"carries": "amplifier", "mass": "4 kg"}, Origin.PRESET, Origin.PRESET, Origin.ASSUMED),
    ],
)
def test_a_sum_is_no_surer_than_its_parts(said: dict[str, str], carries: Origin, mass: Origin, cg: Origin) -> None:
    found = dict(mount(**said).origins)
    assert (found["carries"], found["mass_kg"], found["cg_mm"]) == (carries, mass, cg)


def test_what_carries_nothing_is_its_own_mass() -> None:
    point = mount()
    assert (point.carries, point.mass_kg, point.cg_mm) == (None, point.item_mass_kg, point.item_cg_mm)
    assert "carries" not in dict(point.origins)


def test_the_demands_are_of_the_total() -> None:
    """Shear of the hard stop on a floor by hand: 13 kg x 20 g over 6 fixings."""
    point = mount(carries="amplifier 5 kg, 2 kg", panel="floor")
    shear = max(demand.shear_n for demand in demands(point, builtin()) if demand.case == "hard-stop")
    assert shear == pytest.approx(13 * 20 * 9.80665 / 6)


@pytest.mark.parametrize("item", ["wire-clamp", "ground-lug"])
def test_clamps_and_lugs_carry_their_cable_only(item: str) -> None:
    with pytest.raises(FastenError, match="carries its cable only") as caught:
        mount(item=item, carries="amplifier")
    assert caught.value.where == "carries"


def test_the_answer_shows_the_parts_and_the_sum() -> None:
    advice = advise(mount(carries="amplifier, 2 kg at 80 mm"), builtin())
    told = advice_json(advice)["mount"]
    assert told["carries"] == {
        "value": [
            {"name": "amplifier", "mass_kg": 5.0, "cg_mm": 42.0},
            {"name": None, "mass_kg": 2.0, "cg_mm": 80.0},
        ],
        "origin": "preset",
    }
    assert told["item_mass_kg"] == {"value": 6.0, "origin": "preset"}
    assert told["mass_kg"] == {"value": 13.0, "origin": "preset"}
    assert json.dumps(told)
    text = " ".join(advice_text(advice).split())
    assert "carries amplifier 5 kg, 2 kg" in text
    assert "mass of the item alone 6 kg" in text
    assert "mass of the item alone" not in advice_text(advise(mount(), builtin()))


def test_the_screen_reads_it_back_and_shows_the_items_own_mass() -> None:
    for text in ("amplifier 5 kg, 2 kg at 80 mm", "crossover"):
        understood = read_one("carries", text, builtin()).understood
        assert read_one("carries", understood, builtin()).understood == understood
        assert ask(carries=understood).carries == ask(carries=text).carries
    outcome = consider(LEAST | {"carries": "amplifier"}, builtin())
    assert outcome.good is not None
    assert filled(MASS, outcome.good.advice.mount) == "preset: 6 kg"
