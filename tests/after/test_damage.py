"""What happened to a fixing, read as people write it."""

import pytest

from fasten.after.damage import damage_text, read_damage
from fasten.errors import FastenError


@pytest.mark.parametrize(
    ("text", "meant"),
    [
        ("slipped 3 mm right", "off 3 mm right"), ("the drill slipped 4mm left", "off 4 mm left"),
        ("drill wandered 2 mm", "off 2 mm"), ("nut spins", "spun"), ("hole is wide 8,2 mm", "oversize 8.2 mm"),
        ("screw broke", "snapped"), ("rusted 0.7 mm", "corroded 0.7 mm"), ("split 25 mm", "cracked 25 mm"),
    ],
)  # fmt: skip
def test_what_happened_is_understood_in_the_words_of_the_trade(text: str, meant: str) -> None:
    assert read_damage(text) == read_damage(meant)
    assert damage_text(read_damage(text)) == meant


@pytest.mark.parametrize("text", ["drill", "slipped", "the nut", "drill slipped far", "slip 3 mm"])
def test_what_is_only_half_said_is_refused(text: str) -> None:
    with pytest.raises(FastenError):
        read_damage(text)
