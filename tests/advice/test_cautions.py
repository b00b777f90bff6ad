"""Which caution is the headline: what hurts people and what falls comes before what corrodes."""

import pytest

from fasten.advice.advise import advise
from fasten.catalog.tables import builtin
from fasten.model import Answer
from fasten.question.read import read_question
from fasten.question.resolve import resolve

TABLES = builtin()
AMPLIFIER = {"item": "amplifier", "onto": "steel 0.8 mm", "removed": "yearly", "mass": "6 kg", "item-material": "steel"}


def first(**said: str) -> Answer:
    return advise(resolve(read_question(AMPLIFIER | said, TABLES), TABLES), TABLES, changes=False).answers[0]


def corroding(answer: Answer) -> list[str]:
    return [one.key for one in answer.cautions if "corrodes" in one.key]


@pytest.mark.parametrize("where", ["cabin", "door", "underfloor"])
@pytest.mark.parametrize("onto", ["steel 0.8 mm", "steel plate 3 mm"])
def test_zinc_on_a_steel_screw_in_steel_is_no_caution(onto: str, where: str) -> None:
    """Zinc on steel is what it is there for: it goes first and keeps both; common practice, no source."""
    assert corroding(first(onto=onto, where=where)) == []


def test_other_pairs_of_metals_still_are() -> None:
    """Stainless on aluminium out of doors: 0.50 against 0.90 V, over the 0.15 V of a wet place (MIL-STD-889)."""
    assert corroding(first(onto="aluminium 2 mm", where="underfloor", grade="A2-70", mass="2 kg", panel="floor"))


def slip(**said: str) -> list[str]:
    return [one.text for one in first(**said).cautions if one.key == "mass slip"]


def test_a_mass_in_the_unit_beside_is_asked_back_before_all_else() -> None:
    """An amplifier is 5 kg by its preset: 5 g is no mass of one, and all that is proved for it holds for 5 g alone."""
    found = first(mass="5g", support="frame").cautions[0]
    assert found.text.startswith("0.005 kg is given as its mass: did you mean 5 kg?")
    assert [bool(slip(mass=mass)) for mass in ("1.6 g", "1.7 g", "14 g", "16 g")] == [False, True, True, False]


@pytest.mark.parametrize("mass", ["", "6 kg", "1 kg", "150 g", "20 kg"])
def test_a_mass_that_such_an_item_may_have_is_none_of_a_slip(mass: str) -> None:
    assert slip(mass=mass, support="frame", panel="floor") == []


def test_what_falls_is_named_before_what_corrodes() -> None:
    """6 kg on skin of which nobody said what stiffens it, in a wet place on another metal."""
    found = [one.key for one in first(onto="steel 0.8 mm", where="underfloor", grade="A2-70", panel="floor").cautions]
    assert found[0] == "thin skin"
    assert found.index("floor") < min(found.index(key) for key in found if "corrodes" in key)
