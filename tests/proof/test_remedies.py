"""What would make a panel stiff enough: each change, said as it is named, clears; what does not is not named."""

import pytest

from fasten.advice.advise import advise
from fasten.catalog.tables import builtin
from fasten.model import Remedy, Status
from fasten.proof.remedies import remedies
from fasten.report.answer.as_text import Chapter, advice_text, chapters

from .test_panel import line, mount

TABLES = builtin()
FRAME = "every fixing through a frame"


def named(**said: str) -> dict[str, Remedy]:
    return {one.text.partition(",")[0]: one for one in remedies(mount(**said), TABLES)}


def test_a_stiff_panel_needs_nothing() -> None:
    assert remedies(mount(support="firm"), TABLES) == ()
    assert advise(mount(support="frame"), TABLES).remedies == ()


def test_a_wider_pattern_is_named_where_it_clears_and_is_the_least() -> None:
    """4 kg in 300 x 450: 300 x 225 by Navier's series; a step less, 295 x 220, does not clear."""
    asks = {"mass": "4kg", "support": "bay 300x450"}
    (said,) = named(**asks)["a wider pattern"].said
    assert said == ("pattern", "rectangle 300 x 225 mm")
    assert line(**asks, pattern=said[1]).status is Status.HOLDS
    assert line(**asks, pattern="rectangle 295 x 220").status is Status.NOT_CHECKED


def test_no_pattern_is_named_where_the_widest_does_not_clear() -> None:
    assert line(mass="9kg", support="bay 300x450", pattern="rectangle 320 x 240").status is not Status.HOLDS
    assert "a wider pattern" not in named(mass="9kg", support="bay 300x450")


def test_under_a_roof_skin_nothing_but_a_frame_helps() -> None:
    assert [one.text for one in remedies(mount(panel="roof", support="bay 300x450"), TABLES)] == [FRAME]


@pytest.mark.parametrize("mass", ["12kg", "40kg"])
def test_where_no_bay_is_given_a_frame_is_named_and_the_bay_is_asked_for(mass: str) -> None:
    found = named(mass=mass)
    assert list(found) == [FRAME, "a wider pattern"]
    assert found[FRAME].said == (("support", "frame"),)


def test_a_board_floor_is_told_how_thick_or_how_close() -> None:
    """12 kg: practice has 4 x (18/12)^3 = 13.5 on 18 mm; by the beam 8800 x 12^3/L^2 is 296 N/mm at 226 mm."""
    asks = {"onto": "MDF 12 mm", "mass": "12kg", "support": "span 600 mm"}
    found = named(**asks)
    assert list(found) == ["every fixing through the board into a batten or frame", "MDF of 18 mm or more",
                           "battens no more than 220 mm apart"]  # fmt: skip
    assert line(**asks | {"support": "span 220 mm"}).status is Status.HOLDS
    assert line(**asks | {"support": "span 230 mm"}).status is not Status.HOLDS
    assert line(**asks | {"onto": "MDF 18 mm"}).status is Status.HOLDS
    assert line(**asks | {"onto": "MDF 17 mm"}).status is not Status.HOLDS


def test_an_answer_that_waits_for_the_panel_says_what_would_do() -> None:
    text = advice_text(advise(mount(mass="4kg", support="bay 300x450"), TABLES), 80)
    _, _, after = text.partition("WHAT WOULD MAKE THE PANEL STIFF ENOUGH\n")
    first, second, *_ = after.splitlines()
    assert first == "- Every fixing through a frame"
    assert second == "  > ask again with --take frame, which is --support frame"
    assert "--pattern 'rectangle 300 x 225 mm'" in " ".join(after.split())


def test_in_the_form_it_is_said_by_the_words_of_the_form() -> None:
    advice = advise(mount(mass="4kg", support="bay 300x450"), TABLES)
    lines = chapters(advice, 80, (Chapter.STIFFER,), in_form=True)[Chapter.STIFFER]
    assert lines[:2] == ("- Every fixing through a frame", "  > say support frame")
    said = " ".join(" ".join(lines).split())
    assert "where they sit rectangle 300 x 225 mm" in said
    assert "--" not in said
    assert "fasten pick" not in said
