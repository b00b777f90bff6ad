"""What was misspelt comes back with what it was likely meant to be, all of it at once."""

import pytest

from fasten.__main__ import main

ASK = ["pick", "amplifier", "--onto", "steel 1.2 mm", "--support", "frame", "--removed", "yearly", "--behind", "40mm"]


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (["pik"], "'pik' is not a command; did you mean pick?"),
        (["pick", "amplifier", "--berhind=40mm", "--edg", "30mm", "--zzz"],
         "--berhind (--behind?), --edg (--edge?), --zzz are not understood; see fasten pick --help"),
        (["--vers"], "--vers (--version?) is not understood"),
        (["look", "M6", "--breif"], "--breif (--brief?) is not understood"),
    ],
)  # fmt: skip
def test_what_is_misspelt_comes_back_with_what_is_nearest(
    words: list[str], told: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main(words) == 2
    assert told in capsys.readouterr().err


def test_every_field_that_is_wrong_is_named_at_once(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["pick", "amplifer", "--onto", "steel 0.8 kg", "--behind", "40"]) == 2
    lines = capsys.readouterr().err.splitlines()
    assert [line.split(": ")[1] for line in lines] == ["item", "onto", "removed", "behind"]


def test_brief_is_the_head_of_the_answer(capsys: pytest.CaptureFixture[str]) -> None:
    assert main([*ASK, "--edge", "40mm", "--item-hole", "5.5mm"]) == 0
    whole = capsys.readouterr().out
    assert main([*ASK, "--edge", "40mm", "--item-hole", "5.5mm", "--brief"]) == 0
    brief = capsys.readouterr().out
    assert "PROOF" in whole
    assert "PROOF" not in brief
    assert all(f"\n{label}" in f"\n{brief}" for label in ("Hole", "Bit", "Screw", "Torque", "Caution"))


def test_brief_says_what_was_assumed_and_nothing_of_what_was_given(capsys: pytest.CaptureFixture[str]) -> None:
    assert main([*ASK, "--edge", "40mm", "--brief", "--mass", "3kg"]) == 0
    assumed = capsys.readouterr().out.partition("\nAssumed")[2]
    assert "fixings 4" in assumed
    assert "mass" not in assumed


def test_brief_says_why_nothing_fits(capsys: pytest.CaptureFixture[str]) -> None:
    assert main([*ASK[:-2], "--behind", "1mm", "--brief"]) == 1
    assert capsys.readouterr().out.startswith("Nothing fits\n- ")
