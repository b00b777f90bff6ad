"""Values as people type them: one reader for questions to the look-up and for lines of a shelf."""

import pytest

from fasten.text.values import Value, ValueSort, scan

S = ValueSort
READ = {
    "10mm2": [(S.AREA, "10", "", "")],
    "2.5 sq mm": [(S.AREA, "2.5", "", "")],
    "10 mm": [(S.LENGTH, "10", "", "")],
    "M10x1.25x30": [(S.METRIC, "10", "1.25", "30")],
    "m5 x 16 mm": [(S.METRIC, "5", "16", "")],
    "m8 x 25mm2": [(S.METRIC, "8", "", ""), (S.AREA, "25", "", "")],
    "st4.2x13": [(S.TAPPING, "4.2", "", "13")],
    "#8-32": [(S.UNIFIED, "8", "32", "")],
    "1/4 - 20 x 1/2": [(S.UNIFIED, "1/4", "20", "1/2")],
    "no8 x 1/2": [(S.NUMBERED, "8", "", "1/2")],
    "3.2 x 8 mm": [(S.PAIR, "3.2", "", "8")],
    "4/0 awg": [(S.AWG, "4/0", "", "")],
    "awg 4": [(S.AWG, "4", "", "")],
    "22 ga": [(S.GAUGE, "22", "", "")],
    "0.5-5nm": [(S.TORQUE, "0.5", "5", "")],
    "60 a": [(S.AMPS, "60", "", "")],
    "a2-70": [(S.STRENGTH, "a2-70", "", "")],
    "50 a2-70": [(S.BARE, "50", "", ""), (S.STRENGTH, "a2-70", "", "")],
    "t25 ph2": [(S.STAR, "25", "", ""), (S.CROSS, "2", "", "")],
    "iso 7380-1": [(S.STANDARD, "iso", "7380-1", "")],
    "f drill": [(S.LETTER, "f", "", "")],
    "drill a hole": [],
    '3/16"': [(S.LENGTH, "3/16", "", "")],
    "3 metres": [(S.LENGTH, "3", "", "")],
    "x-5 y": [],
}


@pytest.mark.parametrize("text", READ)
def test_each_value_is_of_its_sort_with_its_figures(text: str) -> None:
    """The longest match counts, and what a form took of the next word is given back."""
    values = [one for one in scan(text.casefold(), ()) if isinstance(one, Value)]
    assert [(value.sort, value.first, value.second, value.length) for value in values] == READ[text]


def test_lengths_are_in_millimetres_whatever_they_are_written_in() -> None:
    """An inch is 25.4 mm, a foot twelve of them, a thou a thousandth."""
    read = {text: next(iter(scan(text, ()))) for text in ("3/16", "2 ft", "40 thou", "3 metres", "1.5 in", "2 cm", "7")}
    lengths = {text: round(value.mm, 4) for text, value in read.items() if isinstance(value, Value)}
    wanted = {"3/16": 4.7625, "2 ft": 609.6, "40 thou": 1.016, "3 metres": 3000.0, "1.5 in": 38.1, "2 cm": 20.0}
    assert lengths == wanted | {"7": 7.0}


def test_the_longest_phrase_counts_before_the_shorter() -> None:
    """`lock nut` before `nut`; a word that is not looked for comes alone."""
    found = [
        (one.text, one.is_known) for one in scan("my lock nut m6", {"nut", "lock nut"}) if not isinstance(one, Value)
    ]
    assert found == [("my", False), ("lock nut", True)]
