"""What was said of a run is read back in words that may be typed again, and a word is completed from its beginning."""

import pytest

from fasten.catalog.tables import builtin
from fasten.wiring.fields import FIELDS, FROM, TO, RunField
from fasten.wiring.said import completed, options, worded

TABLES = builtin()
SAID = {
    "carries": ("72 A", "1000 W class D", "4 x 75 W class AB", "loudspeaker 100 W 4 ohm", "remote", "signal", "data"),
    "from": (
        "battery stud M8", "battery post +", "battery post -", "stud M6", "set screw", "set screw bore 8 mm",
        "set screw takes 4 AWG", "clamp plate", "push-in", "tab 6.3x0.8", "bare", "plug 14 mm", "butt", "lap",
        "connector", "body", "body M8", "loudspeaker", "left amplifier", "left amplifier, set screw",
    ),
    "length": ("5 m", "45 cm"), "measured": ("straight", "route"), "ground": ("0.45 m",), "material": ("copper-clad",),
    "cable": ("4 AWG", "25 mm2"), "insulation": ("105 C",), "limit": ("3 %", "0.5 V"), "holder": ("SF51",),
    "own-fuses": ("3 x 35 A",), "series": ("mm2",), "where": ("engine-bay",), "through-device": ("isolator stud M8",),
    "body": ("1.2 mohm", "0,9 mΩ"),
}  # fmt: skip
FIELD = {field.name: field for field in FIELDS}
CASES = [(FIELD[name], text) for name, texts in SAID.items() for text in texts]


@pytest.mark.parametrize(("field", "text"), CASES, ids=lambda case: case if isinstance(case, str) else case.name)
def test_what_is_read_back_is_read_as_the_same(field: RunField, text: str) -> None:
    value = field.reader(text, TABLES, field.name)
    again = worded(field, value)
    if field.name == "measured" and not value:
        assert again == "along the route"
        return
    read = field.reader(again, TABLES, field.name)
    assert read == value or worded(field, read) == again, again  # the area of a gauge is read back to two decimals


def test_every_field_is_read_back() -> None:
    assert {field.name for field in FIELDS} - set(SAID) == {TO.name}  # which is read as the other end


def test_the_words_that_are_offered_are_understood() -> None:
    for field in FIELDS:
        for word in options(field, ("left amplifier",), TABLES):
            field.reader(word, TABLES, field.name)


@pytest.mark.parametrize(
    ("typed", "word"),
    [
        ("con", "connector"), ("bo", "body"), ("le", "left amplifier"), ("le, s", "left amplifier, set screw"),
        ("left amplifier,se", "left amplifier, set screw"), ("b", "b"), ("stud M6", "stud M6"), ("block", "block"),
        ("le, c", "left amplifier, clamp plate"),
    ],
)  # fmt: skip
def test_a_word_is_completed_where_only_one_begins_so(typed: str, word: str) -> None:
    names = ("left amplifier", "block", "blocking capacitor")
    assert completed(typed, options(TO, names, TABLES)) == word
    assert options(FROM, names, TABLES)[:3] == names


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("cca", "copper-clad"), ("CCA", "copper-clad"), ("OFC", "copper"), ("copper-clad aluminium", "copper-clad"),
        ("copper", "copper"),
    ],
)  # fmt: skip
def test_cable_is_known_by_the_letters_on_its_drum(text: str, said: str) -> None:
    """As a line of the shelf knows it."""
    field = FIELD["material"]
    assert worded(field, field.reader(text, TABLES, "material")) == said
